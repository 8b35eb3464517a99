/** What a timer's snapshot says in the data sheet's words: mode, clock and TOP, each with all its possibilities. */
import type { ChannelFact, ClockSource, FieldFact, ModeFact, TimerFact } from "../../shared-model/chip.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Bounds } from "../../shared-model/signal.js";
import type { ChannelSnapshot, TimerSnapshot } from "../../shared-model/timer-snapshot.js";

/** Every value that a field may have, ascending. Fields are at most four bits wide, so there are at most 16. */
export function fieldValues(field: FieldFact, registers: Readonly<Record<string, RegisterValue>>): readonly number[] {
  let whole: number[] = [0];
  for (const part of field.parts) {
    const value = registers[part.register];
    const size = 1 << part.width;
    const possible = new Set<number>();
    for (let candidate = 0; candidate < size; candidate += 1) {
      if (value === undefined || partCanBe(value, candidate, part.shift, size - 1)) possible.add(candidate);
    }
    whole = whole.flatMap((rest) => [...possible].map((candidate) => rest | (candidate << part.at)));
  }
  return [...new Set(whole)].sort((left, right) => left - right);
}

function partCanBe(value: RegisterValue, candidate: number, shift: number, mask: number): boolean {
  if (value.values !== null) return value.values.some((each) => ((each >> shift) & mask) === candidate);
  const ones = (value.ones >> shift) & mask;
  const zeros = (value.zeros >> shift) & mask;
  return (candidate & ones) === ones && (candidate & zeros) === 0;
}

export function modesOf(timer: TimerFact, snapshot: TimerSnapshot): readonly ModeFact[] {
  const values = fieldValues(timer.modeField, snapshot.registers);
  return timer.modes.filter((mode) => values.includes(mode.select));
}

/** The one mode that the snapshot is in; undefined where several are possible. */
export function modeOf(timer: TimerFact, snapshot: TimerSnapshot): ModeFact | undefined {
  const modes = modesOf(timer, snapshot);
  return modes.length === 1 ? modes[0] : undefined;
}

export function clocksOf(timer: TimerFact, snapshot: TimerSnapshot): readonly ClockSource[] {
  return fieldValues(timer.clockField, snapshot.registers)
    .map((value) => timer.clocks[value])
    .filter((clock) => clock !== undefined);
}

/** The one clock source; undefined where several are possible. */
export function clockOf(timer: TimerFact, snapshot: TimerSnapshot): ClockSource | undefined {
  const clocks = clocksOf(timer, snapshot);
  return clocks.length === 1 ? clocks[0] : undefined;
}

/** Whether the timer surely counts: some clock is selected in every case and nothing holds it. */
export function counts(timer: TimerFact, snapshot: TimerSnapshot): boolean {
  return (
    clocksOf(timer, snapshot).every((clock) => clock.kind !== "stopped") &&
    snapshot.powered !== false &&
    snapshot.held !== true
  );
}

/** The register that gives TOP in a mode, null where TOP is fixed. */
export function topRegister(timer: TimerFact, mode: ModeFact): string | null {
  if (mode.top.kind === "compareA") return timer.channels[0]?.compare ?? null;
  if (mode.top.kind === "capture") return timer.capture ?? null;
  return null;
}

/** The value TOP has at work in this mode. */
export function topBounds(timer: TimerFact, mode: ModeFact, snapshot: TimerSnapshot): Bounds<number> | null {
  if (mode.top.kind === "fixed") return { min: mode.top.value, max: mode.top.value };
  const name = topRegister(timer, mode);
  if (name === null) return null;
  const value = snapshot.working[name] ?? snapshot.registers[name];
  return value === undefined ? null : { min: value.min, max: value.max };
}

/** True where the mode's outputs are pulses of a compare value, not toggles of a counter. */
export function isPwm(mode: ModeFact): boolean {
  return mode.family === "fast" || mode.family === "phase correct" || mode.family === "phase and frequency correct";
}

export function channelOfRegister(timer: TimerFact, register: string): ChannelFact | undefined {
  return timer.channels.find((channel) => channel.compare === register);
}

export function channelSnapshot(snapshot: TimerSnapshot, unit: string): ChannelSnapshot | undefined {
  return snapshot.channels.find((channel) => channel.unit === unit);
}

/** The CPU clock divisor of the clock source, null for external and stopped clocks. */
export function prescalerOf(clock: ClockSource | undefined): number | null {
  return clock?.kind === "divided" ? clock.by : null;
}
