/**
 * How long the core's and avr-libc's waits last, in CPU cycles. Law: the real wait lies between the bounds, interrupt
 * routines apart. Source: wiring.c of the packaged core (arduino-core-avr 1.8.7), read instruction by instruction where it
 * says so; util/delay.h and util/delay_basic.h of avr-libc 2.0.0.
 */

import * as number from "../domain/number.js";
import type { TimerSlot } from "../hardware/layout.js";
import type { Machine } from "../hardware/machine.js";
import { clocksOf, modesOf, topOf } from "../hardware/modes.js";
import type { Value } from "../value.js";
import type { Interval } from "./zone.js";

/** A wait; `busy`: cycles of it from which an interrupt routine takes its own time away, so that the wait gets longer. */
export interface Spell extends Interval {
  readonly busy: number;
}

export const UNBOUNDED: Spell = { least: 0, most: Number.POSITIVE_INFINITY, busy: Number.POSITIVE_INFINITY };

/** Two rounds of delay's own loop (yield, micros, a comparison of 32 bits; one takes 107 cycles in the oracle's machine), entering and leaving it. */
const POLLING = 260;
const FEW_LENGTHS = 64;

/**
 * delay(ms): counts micros up by 1000 for each millisecond. micros is overflows · 256 + TCNT0, in units of 64 cycles as
 * whole microseconds (`64 / clockCyclesPerMicrosecond()`, whole numbers both).
 */
export function delaySpell(machine: Machine, timer: TimerSlot, fCpu: number, length: Value | undefined): Spell {
  if (length === undefined || !("zeros" in length)) return UNBOUNDED;
  const unit = Math.floor(64 / Math.floor(fCpu / 1_000_000));
  const clocks = clocksOf(machine, timer);
  const modes = modesOf(machine, timer);
  if (clocks === null || modes === null || !(unit > 0)) return UNBOUNDED;
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (const clock of clocks) {
    if (clock.kind !== "divided") return UNBOUNDED;
    for (const mode of modes) {
      // Down-counting makes micros run back; in CTC the overflow comes at MAX, which a lower TOP prevents.
      if (mode.family !== "fast" && mode.family !== "normal") return UNBOUNDED;
      const top = topOf(machine, timer, mode);
      if (!number.isSingle(top)) return UNBOUNDED;
      // A counter that may stand above TOP runs to its own end once.
      const beyond = machine.reachOf(timer.index) > top.max;
      least = Math.min(least, clock.by * ticks(Math.ceil((1000 * length.min) / unit), top.max, beyond).least);
      most = Math.max(most, clock.by * ticks(Math.ceil((1000 * length.max) / unit), top.max, beyond).most);
    }
  }
  return { least: length.min === 0 ? 0 : least, most: most + POLLING, busy: POLLING };
}

/** Ticks of the timer until micros has grown by `counts` of its units; the first tick is under way already. */
function ticks(counts: number, top: number, beyond: boolean): Interval {
  if (top === 0xff) return { least: Math.max(0, counts - 1), most: counts };
  // Each overflow counts 256, whatever TOP is; between two of them micros moves by at most what is counted to.
  const period = top + 1;
  const end = beyond ? 0xff : top;
  return {
    least: Math.max(0, Math.ceil((counts - end) / 256) - 1) * period,
    most: Math.ceil((counts + end) / 256) * period + (beyond ? 256 : 0),
  };
}

/** The busy loop of delayMicroseconds: rounds of four cycles, as many as the core works out for the clock it is built for. */
export function microsecondSpell(fCpu: number, length: Value | undefined): Spell {
  if (length === undefined || !("zeros" in length)) return UNBOUNDED;
  const { values } = length;
  // Beyond 16383 the 16-bit product wraps: shorter, never longer.
  if (values === null || values.length > FEW_LENGTHS) {
    const rounds = (asked: number): number => roundsOf(fCpu, asked);
    const wraps = length.max > 2_730;
    return computing(wraps ? 0 : 4 * rounds(length.min), wraps ? 4 * 0x10000 : 4 * rounds(length.max));
  }
  const cycles = values.map((value) => 4 * roundsOf(fCpu, value));
  return computing(Math.min(...cycles), Math.max(...cycles));
}

function computing(least: number, most: number): Spell {
  // Calling, scaling and coming back take 14 to 20 cycles (the comments in wiring.c; measured so).
  const longest = most + 30;
  return { least: least + 8, most: longest, busy: longest };
}

function roundsOf(fCpu: number, us: number): number {
  const loop = (scaled: number, less: number): number => {
    const rounds = ((scaled & 0xffff) - less) & 0xffff;
    return rounds === 0 ? 0x10000 : rounds;
  };
  if (fCpu >= 24_000_000) return us === 0 ? 0 : loop(us * 6, 5);
  if (fCpu >= 20_000_000) return us <= 1 ? 0 : loop(us * 5, 7);
  if (fCpu >= 16_000_000) return us <= 1 ? 0 : loop(us << 2, 5);
  if (fCpu >= 12_000_000) return us <= 1 ? 0 : loop(us * 3, 5);
  if (fCpu >= 8_000_000) return us <= 2 ? 0 : loop(us << 1, 4);
  return us <= 25 ? 0 : loop((us - 22) >> 2, 0);
}

/** A loop of `perUnit` cycles a round, or a length in time: avr-libc rounds up to whole cycles. A count of 0 may mean all of them. */
export function countedSpell(length: Value | undefined, perUnit: number, zeroMeans = 0): Spell {
  if (length === undefined || !("min" in length)) return UNBOUNDED;
  const sometimesZero = length.min <= 0;
  const least = sometimesZero ? (length.max <= 0 ? zeroMeans : 0) : length.min;
  const most = sometimesZero ? Math.max(length.max, zeroMeans) : length.max;
  const longest = Math.ceil(perUnit * most) + 20;
  return { least: Math.floor(perUnit * least), most: longest, busy: longest };
}

/**
 * analogRead: 13 clocks of the converter, and up to one more until it starts; 25 for the first after it was switched on,
 * which does not recur while it stays on (DS40002061 section 24.4, table 24-1).
 */
export function conversionSpell(machine: Machine, address: number): Spell {
  const control = machine.raw(address);
  const divisors = [2, 2, 4, 8, 16, 32, 64, 128];
  const possible = divisors.filter((_, select) => ((select & control.zeros) | (~select & 7 & control.ones)) === 0);
  return {
    least: 13 * Math.min(...possible),
    most: ((control.ones & 0x80) !== 0 ? 15 : 26) * Math.max(...possible) + 200,
    // The converter runs on by itself while a routine runs.
    busy: 200,
  };
}
