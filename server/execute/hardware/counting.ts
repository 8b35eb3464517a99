/** Whether a timer counts: its clock is chosen, its power is on, its prescaler is not held. */
import type { TimerSlot } from "./layout.js";
import type { Machine } from "./machine.js";

/** Whether the timer surely counts the CPU's clock. */
export function countsOn(machine: Machine, timer: TimerSlot): boolean {
  return runs(machine, timer) === true;
}

/** Whether the timer surely stands. */
export function standsStill(machine: Machine, timer: TimerSlot): boolean {
  return runs(machine, timer) === false;
}

/** True where the timer surely counts the CPU's clock, false where it surely stands. */
export function runs(machine: Machine, timer: TimerSlot): boolean | null {
  const { layout } = machine;
  const { powerReduction, clockField } = timer.fact;
  const select = machine.raw(layout.address(clockField.parts[0]!.register));
  const part = clockField.parts[0]!;
  const mask = ((1 << part.width) - 1) << part.shift;
  if ((select.zeros & mask) === mask) return false;
  const gate = machine.raw(layout.address(powerReduction.register));
  const gateBit = layout.registers[layout.address(powerReduction.register)]?.bits.find(
    (bit) => bit.name === powerReduction.bit,
  );
  if (gateBit !== undefined && (gate.zeros & (1 << gateBit.position)) === 0) return null;
  if ((select.ones & mask) === 0) return null;
  // External clocks may have no pulses.
  const values = select.values;
  const divided =
    values?.every((value) => timer.fact.clocks[(value & mask) >> part.shift]?.kind === "divided") ?? false;
  const held = machine.raw(layout.address("GTCCR"));
  return divided && held.max === 0 ? true : null;
}
