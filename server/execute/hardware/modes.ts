/** Which modes and clocks a timer may be in, read from its control registers. */
import type { ClockSource, FieldFact, ModeFact } from "../../../shared-model/chip.js";
import * as number from "../domain/number.js";
import type { FieldPlace, TimerSlot } from "./layout.js";
import { type Machine, WORD } from "./machine.js";

const MAX_MEMBERS = 64;

/** Values that a field, perhaps spread over registers, may have; null where they are too many to list. */
export function fieldValues(machine: Machine, field: FieldFact): readonly number[] | null {
  let found = [0];
  for (const part of field.parts) {
    const register = machine.raw(machine.layout.address(part.register));
    const mask = ((1 << part.width) - 1) << part.shift;
    const values = new Set<number>();
    if (register.values !== null) {
      for (const value of register.values) values.add((value & mask) >> part.shift);
    } else {
      const free = mask & ~(register.zeros | register.ones);
      // Every way to fill the free bits.
      let subset = free;
      for (;;) {
        values.add(((subset | (register.ones & mask)) & mask) >> part.shift);
        if (subset === 0) break;
        subset = (subset - 1) & free;
      }
    }
    const next: number[] = [];
    for (const value of found) for (const more of values) next.push(value | (more << part.at));
    if (next.length > MAX_MEMBERS) return null;
    found = next;
  }
  return found;
}

/** The field's value where every bit of it is known, which is nearly always; −1 else. */
function knownValue(machine: Machine, parts: readonly FieldPlace[]): number {
  let value = 0;
  for (const part of parts) {
    const register = machine.raw(part.address);
    if (((register.zeros | register.ones) & part.mask) !== part.mask) return -1;
    value |= ((register.ones & part.mask) >> part.shift) << part.at;
  }
  return value;
}

/** Every mode the timer may be in; null where that is not known. */
export function modesOf(machine: Machine, timer: TimerSlot): readonly ModeFact[] | null {
  const known = knownValue(machine, timer.modePlaces);
  if (known >= 0) return timer.modeLists[known]!;
  const values = fieldValues(machine, timer.fact.modeField);
  if (values === null) return null;
  return values.map((value) => timer.modeByValue.get(value)!).filter((mode) => mode !== undefined);
}

export function clocksOf(machine: Machine, timer: TimerSlot): readonly ClockSource[] | null {
  const known = knownValue(machine, timer.clockPlaces);
  if (known >= 0) return timer.clockLists[known]!;
  const values = fieldValues(machine, timer.fact.clockField);
  return values === null
    ? null
    : values.map((value) => timer.fact.clocks[value]!).filter((clock) => clock !== undefined);
}

export function isBuffered(mode: ModeFact): boolean {
  return mode.updates !== "immediate";
}

/** The mask that a fixed-TOP PWM mode lays over a 16-bit compare register; null in modes that keep all bits. */
export function compareMask(timer: TimerSlot, mode: ModeFact): number | null {
  if (!timer.wide || !isBuffered(mode) || mode.top.kind !== "fixed") return null;
  return mode.top.value;
}

/** TOP as the timer works with it in a mode. */
export function topOf(machine: Machine, timer: TimerSlot, mode: ModeFact): number.AbstractInteger {
  switch (mode.top.kind) {
    case "fixed":
      return number.constant(mode.top.value, WORD);
    case "compareA":
      return machine.workingOf(timer.channels[0]!.index);
    case "capture":
      return machine.raw(timer.capture);
  }
}

/** False where the timer certainly stands still, true where it certainly counts on the CPU's clock. */
export function isRunning(machine: Machine, timer: TimerSlot): boolean | null {
  const clocks = clocksOf(machine, timer);
  if (clocks === null) return null;
  if (clocks.every((clock) => clock.kind === "stopped")) return false;
  return clocks.every((clock) => clock.kind === "divided") ? true : null;
}

/** CPU cycles of the longest period that the timer may have now; Infinity where that is not known. */
export function longestPeriod(machine: Machine, timer: TimerSlot): number {
  const clocks = clocksOf(machine, timer);
  const modes = modesOf(machine, timer);
  if (clocks === null || modes === null) return Number.POSITIVE_INFINITY;
  const full = timer.wide ? 0x10000 : 0x100;
  let longest = 0;
  for (const clock of clocks) {
    if (clock.kind !== "divided") return Number.POSITIVE_INFINITY;
    for (const mode of modes) {
      const top = topOf(machine, timer, mode);
      // A counter that stands above TOP runs to its own end first.
      const detour = machine.reachOf(timer.index) > top.min ? full : 0;
      longest = Math.max(longest, clock.by * (detour + 2 * (top.max + 1)));
    }
  }
  return longest;
}

/** The mode, TOP or clock is about to change: from here on the counter may stand as far as it counts now. */
export function noteReach(machine: Machine, timer: TimerSlot): void {
  const clocks = clocksOf(machine, timer);
  if (clocks?.every((clock) => clock.kind === "stopped")) return;
  const modes = modesOf(machine, timer);
  let reach = machine.reachOf(timer.index);
  if (modes === null) reach = 0xffff;
  else for (const mode of modes) reach = Math.max(reach, topOf(machine, timer, mode).max);
  machine.setReach(timer.index, reach);
}

/** CPU cycles of the shortest period that a running timer may have now; Infinity where none runs. */
export function shortestPeriod(machine: Machine, timers: readonly TimerSlot[] = machine.layout.timers): number {
  let shortest = Number.POSITIVE_INFINITY;
  for (const timer of timers) {
    const clocks = clocksOf(machine, timer);
    const modes = modesOf(machine, timer);
    if (clocks === null || modes === null) return 1;
    for (const clock of clocks) {
      if (clock.kind === "stopped") continue;
      const by = clock.kind === "divided" ? clock.by : 1;
      for (const mode of modes) {
        if (mode.family === "reserved") continue;
        const top = topOf(machine, timer, mode).min;
        const dual = mode.family === "phase correct" || mode.family === "phase and frequency correct";
        shortest = Math.min(shortest, by * (dual ? Math.max(1, 2 * top) : top + 1));
      }
    }
  }
  return shortest;
}
