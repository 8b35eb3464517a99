/**
 * The Servo library that comes with the IDE: it takes a 16-bit timer (timer 1; on the 2560 timer 5 first) in normal mode,
 * clock / 8, and pulses its pins from the compare interrupt. Source: from memory of the library's AVR part; the
 * library is not among the packaged core's files.
 */
import * as number from "../domain/number.js";
import type { TimerSlot } from "../hardware/layout.js";
import { BYTE, WORD } from "../hardware/machine.js";
import { coreContext, writeRegister } from "../register-writes.js";
import type { Run } from "../run.js";
import { snapshotOf } from "../snapshot.js";
import type { State } from "../state.js";
import type { CoreCall, Model } from "./core.js";
import { onEachPin, setBit, setMode } from "./pins.js";

const INT: number.IntegerType = { bits: 16, signed: true };

export function servoTimer(run: Run): TimerSlot | null {
  const wanted = run.layout.timers.some((timer) => timer.fact.number === 5) ? 5 : 1;
  return run.layout.timers.find((timer) => timer.fact.number === wanted) ?? null;
}

function attach(call: CoreCall): null {
  const { run, state, expression, values } = call;
  const record = run.collector.call(run, "Servo.attach", expression.start, expression.end, expression.written, values);
  const timer = servoTimer(run);
  const pin = values[0];
  const asked = pin !== undefined && "zeros" in pin ? pin : number.top(INT);
  const narrow = { ...call, values: [number.convert(asked, INT, BYTE)] };
  onEachPin(narrow, 0, (each, place) => {
    record.pins.add(place.pin.number);
    setMode(run, each, place, number.constant(1, BYTE), expression.start, expression.end);
  });
  if (timer === null) return null;
  record.timers.add(timer.fact.number);
  const before = snapshotOf(state.machine, timer);
  if (state.core.servoPins.length === 0) start(run, state, timer, call);
  state.core = {
    ...state.core,
    servoPins: [...new Set([...state.core.servoPins, number.isSingle(asked) ? asked.min : null])],
  };
  run.collector.effect(record, before, snapshotOf(state.machine, timer), state.conditions);
  return null;
}

/** initISR: the whole timer is set anew; its compare value then moves with every pulse. */
function start(run: Run, state: State, timer: TimerSlot, call: CoreCall): void {
  const context = coreContext(call.expression.start, call.expression.end);
  writeRegister(run, state, timer.control[0]!, false, number.constant(0, BYTE), context);
  writeRegister(run, state, timer.control[1]!, false, number.constant(0x02, BYTE), context);
  writeRegister(run, state, timer.channels[0]!.compare, true, number.top(WORD), context);
  setBit(run, state, run.layout.address(timer.fact.interruptMask), 1, true, call.expression.start, call.expression.end);
}

function listed(call: CoreCall): null {
  const { run, expression, values } = call;
  run.collector.call(run, call.name, expression.start, expression.end, expression.written, values);
  return null;
}

export const servoModels: Readonly<Record<string, Model>> = {
  "Servo.attach": attach,
  "Servo.write": listed,
  "Servo.writeMicroseconds": listed,
  "Servo.detach": listed,
};
