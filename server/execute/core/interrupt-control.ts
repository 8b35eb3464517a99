/** sei, cli, atomic blocks, attachInterrupt. Source: avr/interrupt.h, util/atomic.h, WInterrupts.c. */
import type { FunctionCode } from "../../program/ir.js";
import * as number from "../domain/number.js";
import { BYTE } from "../hardware/machine.js";
import type { Run } from "../run.js";
import type { State } from "../state.js";
import { isPointer, type Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";

const ENABLE = 0x80;

export function setEnable(run: Run, state: State, on: boolean): void {
  run.timing?.masks(run, state, !on);
  const address = state.machine.layout.sreg;
  const before = state.machine.raw(address);
  const after = on
    ? number.or(before, number.constant(ENABLE, BYTE), BYTE)
    : number.and(before, number.constant(0xff & ~ENABLE, BYTE), BYTE);
  state.machine.store(address, after, -1);
}

/** Whether interrupts are let in: true, false, or not known. */
export function interruptsEnabled(state: State): boolean | null {
  const value = state.machine.raw(state.machine.layout.sreg);
  if ((value.ones & ENABLE) !== 0) return true;
  return (value.zeros & ENABLE) !== 0 ? false : null;
}

function enable(call: CoreCall): null {
  setEnable(call.run, call.state, true);
  if (call.run.inInterrupt) call.run.noteNesting();
  call.state.waited = 0;
  call.state.due = true;
  return null;
}

function disable(call: CoreCall): null {
  setEnable(call.run, call.state, false);
  call.run.collector.bucket.masksInterrupts = true;
  return null;
}

function beginAtomic(call: CoreCall): Value {
  const before = call.state.machine.raw(call.state.machine.layout.sreg);
  setEnable(call.run, call.state, false);
  call.run.collector.bucket.masksInterrupts = true;
  return before;
}

function endAtomic(call: CoreCall): Value {
  const saved = call.values[0];
  if (saved !== undefined && "zeros" in saved) call.state.machine.store(call.state.machine.layout.sreg, saved, -1);
  call.run.timing?.maskedAsStored(call.run, call.state);
  call.state.waited = 0;
  call.state.due = true;
  return number.constant(0, BYTE);
}

function attach(call: CoreCall): null {
  const routine = call.values[1];
  const found: FunctionCode[] = [];
  if (routine !== undefined && isPointer(routine)) {
    for (const target of routine.targets ?? []) if (target.kind === "code") found.push(target.code);
    if (routine.targets === null) {
      call.run.gap("attachInterrupt with a routine that is not known", call.expression.start, call.expression.end);
    }
  }
  const { core } = call.state;
  call.state.core = { ...core, attached: [...new Set([...core.attached, ...found])] };
  return null;
}

/** The core's table of pins with external interrupts; −1 for the others. */
function pinToInterrupt(call: CoreCall): Value {
  const type: number.IntegerType = { bits: 16, signed: true };
  const pin = call.values[0];
  const table = call.run.target.board?.interruptPins ?? [2, 3];
  if (pin === undefined || !("zeros" in pin) || pin.values === null) return number.range(-1, table.length, type);
  return number.fromValues(
    pin.values.map((each) => table.indexOf(each)),
    type,
  );
}

export const interruptModels: Readonly<Record<string, Model>> = {
  sei: enable,
  interrupts: enable,
  __builtin_avr_sei: enable,
  cli: disable,
  noInterrupts: disable,
  __builtin_avr_cli: disable,
  __pulsewright_atomic_begin: beginAtomic,
  __pulsewright_atomic_end: endAtomic,
  attachInterrupt: attach,
  detachInterrupt: () => null,
  digitalPinToInterrupt: pinToInterrupt,
};
