/**
 * From the clock errors that single readings allow to the one that most of them agree on, and which reading does not fit.
 * Pure. The law (by random test): where all readings but one are right, the estimate holds the true error, and the wrong
 * reading is named, or none is, or it is said that it cannot be told; never another one. It holds for true errors within the
 * board's tolerance, and up to `POOR` times that where the right readings are of two settings.
 */
import type { Bounds } from "../signal.js";
import { meet } from "./compare.js";

/** What one reading allows. */
export interface Testimony {
  /** One stretch for each running state that could give the reading; none: no clock whatever explains it. */
  readonly clocks: readonly Bounds<number>[];
  /** Readings of one and the same setting share whatever is wrong with it: together they are one witness. */
  readonly setting: string;
}

export interface ClockEstimate {
  /** What the agreeing readings allow; null where too few agree to replace the board's tolerance. */
  readonly error: Bounds<number> | null;
  /** By reading: inside what they agree on, outside, or one of several that cannot all be right. */
  readonly standing: readonly ("agrees" | "misfit" | "open")[];
  /** How many readings the estimate rests on. */
  readonly agreeing: number;
  /** Two sets of readings have equal claims. */
  readonly tie: boolean;
}

/** No oscillator that these boards carry is further off than the internal one, uncalibrated (data sheet: ±10 %). */
export const WIDEST = 0.12;

/** Up to this many times the board's tolerance a clock is merely poor. */
const POOR = 3;

interface Camp {
  readonly members: readonly number[];
  readonly error: Bounds<number>;
  readonly settings: number;
  /** Reaches into what a clock of this make may be off by. */
  readonly likely: boolean;
}

/**
 * The largest set of readings that one clock error explains. Two counts must agree on it: that of readings, and that of
 * different settings. Among equals a set near the board's tolerance goes before one that asks for a broken clock. A clock out
 * of tolerance is believed on the word of two different settings, never of one: that may as well be a slip in the setting.
 */
export function estimateClock(readings: readonly Testimony[], tolerance: number): ClockEstimate {
  const widest = Math.max(WIDEST, POOR * tolerance);
  const camps = campsOf(readings, widest, POOR * tolerance).filter(
    ({ error, settings }) => settings >= 2 || meet(error, evenly(tolerance)) !== null,
  );
  const most = Math.max(...camps.map((camp) => camp.members.length));
  const broadest = Math.max(...camps.map((camp) => camp.settings));
  const best = camps.filter((camp) => camp.members.length === most || camp.settings === broadest);
  const likely = best.filter((camp) => camp.likely);
  const chosen = likely.length > 0 ? likely : best;
  const standing = readings.map((_, index) => {
    const claims = chosen.filter((camp) => camp.members.includes(index)).length;
    return claims === 0 ? "misfit" : claims === chosen.length ? "agrees" : "open";
  });
  const [only] = chosen;
  if (only === undefined || chosen.length > 1) return { error: null, standing, agreeing: 0, tie: chosen.length > 1 };
  const agreeing = only.members.length;
  return { error: agreeing >= 2 ? only.error : null, standing, agreeing, tie: false };
}

/** The spread to judge by: the estimate, unless it is coarser than the tolerance that it would replace. */
export function isFinerThan(error: Bounds<number>, tolerance: number): boolean {
  return error.max - error.min < 2 * tolerance;
}

function evenly(tolerance: number): Bounds<number> {
  return { min: -tolerance, max: tolerance };
}

/** Every largest set of readings that share a clock error within `widest`. */
function campsOf(readings: readonly Testimony[], widest: number, likely: number): readonly Camp[] {
  const stretches = readings.map((reading) =>
    reading.clocks.flatMap((clock) => {
      const inside = meet(clock, evenly(widest));
      return inside === null ? [] : [inside];
    }),
  );
  // The set of readings that hold an error changes only at the ends of stretches: the largest sets hold where one begins.
  const starts = new Set(stretches.flat().map(({ min }) => min));
  const found = new Map<string, Camp>();
  for (const at of starts) {
    const holding = stretches.map((own) => own.filter(({ min, max }) => min <= at && at <= max));
    const members = holding.flatMap((own, index) => (own.length > 0 ? [index] : []));
    const error = {
      min: at,
      max: Math.min(...members.map((index) => Math.max(...holding[index]!.map(({ max }) => max)))),
    };
    const key = members.join();
    const before = found.get(key);
    const whole =
      before === undefined
        ? error
        : { min: Math.min(before.error.min, error.min), max: Math.max(before.error.max, error.max) };
    found.set(key, {
      members,
      error: whole,
      settings: new Set(members.map((index) => readings[index]!.setting)).size,
      likely: (before?.likely ?? false) || meet(error, evenly(likely)) !== null,
    });
  }
  // A set inside another one claims nothing of its own.
  const camps = [...found.values()];
  return camps.filter(
    (camp) =>
      !camps.some(
        (other) => other.members.length > camp.members.length && camp.members.every((at) => other.members.includes(at)),
      ),
  );
}
