/**
 * How often a timer's events come: overflow, compare matches, capture as TOP. These are the rates of its interrupts,
 * where they are enabled and served in time.
 *
 * Sources: DS40002061 sections 15.7, 16.9, 18.7 and the column "TOV Flag Set on" of tables 15-8, 16-4, 18-8; in CTC
 * mode the overflow comes at MAX, not at TOP; in the dual-slope modes a compare value between BOTTOM and TOP is met
 * twice per period.
 */
import type { Chip, TimerFact } from "../chip.js";
import { fraction, toNumber } from "../fraction.js";
import type { Bounds } from "../signal.js";
import type { TimerSnapshot } from "../timer-snapshot.js";
import { topStretches } from "./channel-waveforms.js";
import { clockings } from "./clockings.js";
import { controlStates } from "./control-states.js";
import { anyValue, stretches } from "./register-members.js";

export interface EventRate {
  /** `TIMER1_COMPA` */
  readonly vector: string;
  /** Events per second: 0 at the lower end where it may not come at all; null where the rate is not known. */
  readonly rateHz: Bounds<number> | null;
}

/** The rates of all events of the timer in this state, in the order overflow, compare A, B, (C), capture. */
export function eventRates(chip: Chip, timer: TimerFact, snapshot: TimerSnapshot, clockHz: number): EventRate[] {
  const states = controlStates(timer, snapshot);
  const events: {
    vector: string;
    counts: (mode: ModeShape, top: number, compare: number) => number | null;
    compare: string | null;
  }[] = [
    { vector: timer.overflow.vector, counts: overflowCounts, compare: null },
    ...timer.channels.map((channel) => ({
      vector: channel.interrupt.vector,
      counts: matchCounts,
      compare: channel.compare,
    })),
    ...(timer.captureInterrupt === undefined
      ? []
      : [{ vector: timer.captureInterrupt.vector, counts: captureCounts, compare: null }]),
  ];
  return events.map(({ vector, counts, compare }) => {
    if (states === null) {
      return { vector, rateHz: null };
    }
    const rates: number[] = [];
    for (const { mode, clock } of states) {
      // Where ICRn is not TOP, captures come from outside, at the pin ICPn.
      const fromOutside = counts === captureCounts && mode.top.kind !== "capture";
      if (mode.family === "reserved" || fromOutside) {
        return { vector, rateHz: null };
      }
      for (const clocking of clockings(chip, timer, snapshot, clock)) {
        if (clocking.kind === "rate unknown") {
          return { vector, rateHz: null };
        }
        if (clocking.kind === "stopped") {
          rates.push(0);
          continue;
        }
        const own = compare !== null && mode.top.kind === "compareA" && compare === timer.channels[0]!.compare;
        for (const top of topStretches(timer, snapshot, mode)) {
          const compares = own || compare === null ? [top] : comparesOf(timer, snapshot, compare);
          for (const range of compares) {
            const tops = corners(top, range);
            const periods = tops.map(([t, c]) => counts({ family: mode.family, bits: timer.bits }, t, own ? t : c));
            rates.push(
              ...periods.map((period) =>
                period === null ? 0 : toNumber(fraction(clockHz, (snapshot.clockDivisor ?? 1) * clocking.by * period)),
              ),
            );
          }
        }
      }
    }
    return { vector, rateHz: { min: Math.min(...rates), max: Math.max(...rates) } };
  });
}

interface ModeShape {
  readonly family: string;
  readonly bits: 8 | 16;
}

function comparesOf(timer: TimerFact, snapshot: TimerSnapshot, register: string): Bounds<number>[] {
  const value = snapshot.working[register] ?? snapshot.registers[register] ?? anyValue(timer.bits);
  return stretches(value, 2 ** timer.bits - 1);
}

/** Points at which the rate over a rectangle is extreme: its corners, and beside the lines where matching changes. */
function corners(top: Bounds<number>, compare: Bounds<number>): (readonly [number, number])[] {
  const inTop = (t: number) => Math.min(Math.max(t, top.min), top.max);
  const inCompare = (c: number) => Math.min(Math.max(c, compare.min), compare.max);
  const points: (readonly [number, number])[] = [];
  for (const t of [top.min, top.max]) {
    for (const c of [
      compare.min,
      compare.max,
      inCompare(t),
      inCompare(t - 1),
      inCompare(t + 1),
      inCompare(0),
      inCompare(1),
    ]) {
      points.push([t, c]);
    }
  }
  for (const c of [compare.min, compare.max, inCompare(1)]) {
    points.push([inTop(c), c], [inTop(c + 1), c], [inTop(c - 1), c]);
  }
  return points;
}

/** Timer counts between two events; null where it never comes. */
function overflowCounts(mode: ModeShape, top: number): number | null {
  const max = 2 ** mode.bits - 1;
  switch (mode.family) {
    case "normal":
      return max + 1;
    case "ctc":
      return top === max ? max + 1 : null;
    case "fast":
      return top + 1;
    default:
      return top === 0 ? null : 2 * top;
  }
}

function matchCounts(mode: ModeShape, top: number, compare: number): number | null {
  const dual = mode.family.startsWith("phase");
  if (compare > top || (dual && top === 0)) {
    return null;
  }
  if (!dual) {
    return top + 1;
  }
  return compare === 0 || compare === top ? 2 * top : top;
}

function captureCounts(mode: ModeShape, top: number): number | null {
  return mode.family.startsWith("phase") ? (top === 0 ? null : 2 * top) : top + 1;
}
