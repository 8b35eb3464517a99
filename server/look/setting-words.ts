/** What a control register's value sets, in a few words: `prescaler 1024`, `clock from pin PD5 (rising edges)`. */
import type { Chip, ClockSource, TimerFact } from "../../shared-model/chip.js";
import { timerOfControl } from "./register-fields.js";

export function clockWords(clock: ClockSource): string {
  if (clock.kind === "stopped") return "stopped";
  if (clock.kind === "divided") return `prescaler ${clock.by}`;
  return `clock from pin ${clock.pin} (${clock.edge} edges)`;
}

/** The clock that a value of this register selects; null where the register has no clock bits. */
export function settingWords(chip: Chip, register: string, value: number): string | null {
  const timer = timerOfControl(chip, register);
  if (timer === undefined) return null;
  const clock = clockIn(timer, register, value);
  return clock === null ? null : clockWords(clock);
}

export function clockIn(timer: TimerFact, register: string, value: number): ClockSource | null {
  const part = timer.clockField.parts.find((candidate) => candidate.register === register);
  if (part === undefined || timer.clockField.parts.length !== 1) return null;
  return timer.clocks[(value >> part.shift) & ((1 << part.width) - 1)] ?? null;
}
