/** tone and noTone: timer 2 in CTC, its compare interrupt toggling the pin. Source: Tone.cpp of the packaged core. */
import * as number from "../domain/number.js";
import type { TimerSlot } from "../hardware/layout.js";
import { BYTE } from "../hardware/machine.js";
import { coreContext, writeRegister } from "../register-writes.js";
import type { Run } from "../run.js";
import { snapshotOf } from "../snapshot.js";
import { absorb, JOIN, type State } from "../state.js";
import type { CoreCall, Model } from "./core.js";
import { onEachPin, pinPlaces, setBit, setMode, writeLevel } from "./pins.js";

const WORD: number.IntegerType = { bits: 16, signed: false };

function timerTwo(run: Run): TimerSlot | null {
  return run.layout.timers.find((timer) => timer.fact.number === 2) ?? null;
}

/** Up to seven 32-bit divisions for the prescaler and one for the length. */
const COST = 6_000;

function tone(call: CoreCall): null {
  const { run, state, expression, values } = call;
  state.cycles += COST;
  const record = run.collector.call(run, "tone", expression.start, expression.end, expression.written, values);
  record.timers.add(2);
  const pin = values[0];
  const timer = timerTwo(run);
  if (timer === null) return null;
  const before = snapshotOf(state.machine, timer);
  const asked = pin !== undefined && "zeros" in pin ? pin : number.top(BYTE);
  if (number.isSingle(asked)) record.pins.add(asked.min);
  const { tonePin } = state.core;
  const same = tonePin === null || !number.isSingle(asked) ? null : tonePin === asked.min;
  if (tonePin !== -1 && same === false) return null;
  const free = tonePin === -1;
  const begun = state.fork();
  if (free || same === null) claim(run, begun, timer, call);
  play(run, begun, timer, call);
  const ends =
    values.length > 2 && values[2] !== undefined && !("zeros" in values[2] && number.holdsOnly(values[2], 0));
  begun.core = { ...begun.core, tonePin: number.isSingle(asked) ? asked.min : null, toneEnds: ends };
  if (free || same === true) {
    state.machine = begun.machine;
    state.core = begun.core;
  } else absorb(state, begun, JOIN, run.variables);
  run.collector.effect(record, before, snapshotOf(state.machine, timer), state.conditions);
  return null;
}

/** toneBegin: CTC, undivided clock, everything else of the timer off. */
function claim(run: Run, state: State, timer: TimerSlot, call: CoreCall): void {
  const context = coreContext(call.expression.start, call.expression.end);
  const [a, b] = timer.control;
  writeRegister(run, state, a!, false, number.constant(0, BYTE), context);
  writeRegister(run, state, b!, false, number.constant(0, BYTE), context);
  writeRegister(run, state, a!, false, number.constant(0x02, BYTE), context);
  writeRegister(run, state, b!, false, number.constant(0x01, BYTE), context);
}

function play(run: Run, state: State, timer: TimerSlot, call: CoreCall): void {
  const { expression, values } = call;
  const context = coreContext(expression.start, expression.end);
  onEachPin({ ...call, state }, 0, (each, pin) => {
    setMode(run, each, pin, number.constant(1, BYTE), expression.start, expression.end);
    // From here on the routine toggles the pin: where it stands when something stops the timer is not known.
    setBit(run, each, pin.output, pin.bit, null, expression.start, expression.end);
  });
  const asked = values[1] !== undefined && "zeros" in values[1] ? values[1] : number.top(WORD);
  let select: number.AbstractInteger | null = null;
  let compare: number.AbstractInteger | null = null;
  if (asked.values !== null && !number.contains(asked, 0)) {
    for (const frequency of asked.values) {
      const chosen = settings(run.target.fCpu, frequency);
      const bits = number.constant(chosen.select, BYTE);
      const ocr = number.constant(chosen.compare, BYTE);
      select = select === null ? bits : number.join(select, bits);
      compare = compare === null ? ocr : number.join(compare, ocr);
    }
  }
  const control = timer.control[1]!;
  const kept = number.and(state.machine.raw(control), number.constant(0xf8, BYTE), BYTE);
  writeRegister(run, state, control, false, number.or(kept, select ?? number.range(1, 7, BYTE), BYTE), context);
  writeRegister(run, state, timer.channels[0]!.compare, false, compare ?? number.top(BYTE), context);
  const mask = run.layout.address(timer.fact.interruptMask);
  setBit(run, state, mask, 1, true, expression.start, expression.end);
}

/** Prescalers tried in turn for the 8-bit timer 2, and the compare value as 32-bit unsigned arithmetic gives it. */
function settings(fCpu: number, frequency: number): { readonly select: number; readonly compare: number } {
  const divisors = [1, 8, 32, 64, 128, 256, 1024];
  const base = Math.floor(Math.floor(fCpu / frequency) / 2);
  for (const [index, divisor] of divisors.entries()) {
    const ocr = (Math.floor(base / divisor) - 1) >>> 0;
    if (ocr <= 255 || index === divisors.length - 1) return { select: index + 1, compare: ocr & 0xff };
  }
  return { select: 7, compare: 0 };
}

/** disableTimer(2): phase correct PWM, clock / 64, compare 0. */
function release(run: Run, state: State, timer: TimerSlot, start: number, end: number): void {
  const context = coreContext(start, end);
  setBit(run, state, run.layout.address(timer.fact.interruptMask), 1, false, start, end);
  writeRegister(run, state, timer.control[0]!, false, number.constant(0x01, BYTE), context);
  const kept = number.and(state.machine.raw(timer.control[1]!), number.constant(0xf8, BYTE), BYTE);
  writeRegister(run, state, timer.control[1]!, false, number.or(kept, number.constant(0x04, BYTE), BYTE), context);
  writeRegister(run, state, timer.channels[0]!.compare, false, number.constant(0, BYTE), context);
}

function noTone(call: CoreCall): null {
  const { run, state, expression, values } = call;
  const record = run.collector.call(run, "noTone", expression.start, expression.end, expression.written, values);
  const timer = timerTwo(run);
  const pin = values[0];
  const asked = pin !== undefined && "zeros" in pin ? pin : number.top(BYTE);
  if (number.isSingle(asked)) record.pins.add(asked.min);
  const { tonePin } = state.core;
  const ours = tonePin === null || !number.isSingle(asked) ? null : tonePin === asked.min;
  if (timer !== null && ours !== false && tonePin !== -1) {
    record.timers.add(2);
    const released = state.fork();
    release(run, released, timer, expression.start, expression.end);
    released.core = { ...released.core, tonePin: -1, toneEnds: false };
    if (ours === true) {
      state.machine = released.machine;
      state.core = released.core;
    } else absorb(state, released, JOIN, run.variables);
  }
  onEachPin(call, 0, (each, place) => writeLevel(run, each, place, false, expression.start, expression.end));
  return null;
}

/** A tone of limited length may be over by now: the interrupt routine has released the timer and left the pin low. */
export function toneMayEnd(run: Run, state: State, place: number): void {
  const timer = timerTwo(run);
  if (timer === null) return;
  const over = state.fork();
  release(run, over, timer, place, place);
  const { tonePin } = state.core;
  const pin = tonePin === null ? undefined : pinPlaces(run).get(tonePin);
  if (pin !== undefined) setBit(run, over, pin.output, pin.bit, false, place, place);
  state.machine.absorb(over.machine, (before, after) => number.join(before, after));
}

export const toneModels: Readonly<Record<string, Model>> = { tone, noTone };
