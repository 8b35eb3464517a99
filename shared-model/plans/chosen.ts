/**
 * Which plans a person gets to read. A tolerance window puts hundreds of TOPs on the front, each a little less exact and with
 * one step more. Shown are, for each verdict and set of costs on the front: the nearest one, and the one with the most steps.
 * Where any frequency does, the nearest to today's is shown as well, and nearness to it takes the place of exactness in the order.
 * Then, where they meet the want as well: up to two whose scale is handy (TOP 255, 1023, 100, 1000, 10000), and of each way of
 * counting that is not there yet (fast, phase correct, toggling) the best, though others dominate it. Inverted outputs are
 * shown only where they do what straight ones do not: meet the want, or meet it better.
 */
import { gradeOf, worstError } from "./lanes.js";
import { exactness, planAt, stepWords } from "./made-plan.js";
import type { Plan } from "./plan.js";
import { type Candidates, type Counting, type PlanRequest, stepsAt } from "./search.js";
import { slopeOf, topsOf } from "./ways.js";

/** One candidate with one TOP. */
export interface Point {
  readonly from: Candidates;
  readonly top: number;
  readonly error: number;
  readonly steps: number;
  /** Why it was picked, beside exactness and steps. */
  readonly because: string | null;
}

/** More than these are not read. */
const MOST_OF_FRONT = 6;
const MOST_SCALES = 2;

/** Best first: verdict, nothing in use hurt, exactness, steps, fewer costs. */
export function inOrder(a: Point, b: Point): number {
  return (
    b.from.grade - a.from.grade ||
    Number(a.from.hurts) - Number(b.from.hurts) ||
    a.error - b.error ||
    b.steps - a.steps ||
    a.from.costs.length - b.from.costs.length
  );
}

/** The best of all, without looking for the front; undefined where nothing meets the want. */
export function bestOf(candidates: readonly Candidates[]): Point | undefined {
  return candidates.map(nearestOf).sort(inOrder)[0];
}

export function chosenPlans(request: PlanRequest, all: readonly Candidates[], front: readonly Candidates[]): Plan[] {
  const points: Point[] = [];
  const add = (point: Point) => {
    const twin = points.some(
      (other) => other.top === point.top && sameCounting(other.from.counting, point.from.counting),
    );
    if (!twin) points.push(point);
  };
  for (const point of pickedFromFront(front).slice(0, MOST_OF_FRONT)) add(point);
  for (const point of nearToday(request, all)) add(point);
  for (const point of handyScales(request, all).slice(0, MOST_SCALES)) add(point);
  for (const point of otherFamilies(all, points)) add(point);
  const placed = points.map((point) => ({ ...point, error: distanceOf(request, point) })).sort(inOrder);
  const plans = placed.flatMap((point) => {
    const onFront = front.some(
      (each) =>
        each.grade === point.from.grade &&
        each.mask === point.from.mask &&
        each.stairs.tops.includes(point.top) &&
        sameCounting(each.counting, point.from.counting),
    );
    const plan = planAt(request, point.from.counting, point.top, onFront, "");
    return plan === null ? [] : [{ plan, point }];
  });
  const most = Math.max(...plans.map(({ point }) => point.steps));
  return plans.map(({ plan, point }) => {
    const extra = point.because ?? (point.steps === most && plans.length > 1 && most > 1 ? "the most steps" : null);
    const words = [exactness(plan), stepWords(plan), ...(extra === null ? [] : [extra])];
    return { ...plan, because: words.join(", ") };
  });
}

function sameCounting(a: Counting, b: Counting): boolean {
  return (
    a.timer === b.timer &&
    a.mode === b.mode &&
    a.clock === b.clock &&
    a.outputs.every((output, at) => output.way.com === b.outputs[at]!.way.com)
  );
}

function pointAt(from: Candidates, index: number, because: string | null = null): Point {
  const top = from.stairs.tops[index]!;
  return { from, top, error: from.stairs.errors[index]!, steps: stepsAt(from.counting, top), because };
}

function nearestOf(from: Candidates): Point {
  return pointAt(from, from.stairs.tops.length - 1);
}

function pickedFromFront(front: readonly Candidates[]): Point[] {
  const groups = new Map<string, Candidates[]>();
  for (const each of front) {
    const key = `${each.grade} ${each.mask}`;
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  const picked: Point[] = [];
  for (const group of groups.values()) {
    const nearest = group.map(nearestOf).sort(inOrder)[0]!;
    const finest = group.map((each) => pointAt(each, 0)).sort((a, b) => b.steps - a.steps || a.error - b.error)[0]!;
    picked.push(nearest);
    if (finest.steps > nearest.steps) picked.push(finest);
  }
  return picked.filter((point) => !isNeedlesslyInverted(point, front)).sort(inOrder);
}

/** Inverted, though a straight output on the front is as good in verdict, harm, exactness and steps. */
function isNeedlesslyInverted(point: Point, front: readonly Candidates[]): boolean {
  if (!point.from.counting.outputs.some(({ way }) => way.com === 3)) return false;
  return front.some(
    (each) =>
      each.grade >= point.from.grade &&
      Number(each.hurts) <= Number(point.from.hurts) &&
      !each.counting.outputs.some(({ way }) => way.com === 3) &&
      each.stairs.tops.some(
        (top, index) => stepsAt(each.counting, top) >= point.steps && each.stairs.errors[index]! <= point.error,
      ),
  );
}

/** What the timer puts out today as PWM; null where that is not known. */
function todayHz({ occupation, target }: PlanRequest, { timer }: Counting): number | null {
  const present = occupation.present?.get(timer.number);
  const mode = present === undefined ? undefined : timer.modes[present.mode];
  if (present === undefined || mode === undefined) return null;
  return target.clockHz / (present.prescaler * (slopeOf(mode) === "dual" ? 2 * present.top : present.top + 1));
}

function anyFrequencyDoes({ outputs }: PlanRequest): boolean {
  return outputs.every(({ want }) => want.frequency === undefined);
}

/** The error; where any frequency does, how far the plan goes from today's. */
function distanceOf(request: PlanRequest, { from, top, error }: Pick<Point, "from" | "top" | "error">): number {
  const today = todayHz(request, from.counting);
  if (!anyFrequencyDoes(request) || today === null) return error;
  const { way } = from.counting.outputs[0]!;
  const hz = request.target.clockHz / (way.times * from.counting.prescaler * (top + way.plus));
  const distance = Math.max(hz / today, today / hz) - 1;
  return distance < AS_TODAY ? 0 : distance;
}

/** So near to today's frequency that nobody would tell. */
const AS_TODAY = 0.01;

/** How many TOPs to either side of today's frequency are looked at: a want that they all fail has more against it than them. */
const TRIED_TOPS = 64;

/** Where any frequency does: the plan that is nearest to today's, of those that hurt least. */
function nearToday(request: PlanRequest, all: readonly Candidates[]): Point[] {
  if (!anyFrequencyDoes(request)) return [];
  const clock = { clockHz: request.target.clockHz, tolerance: request.target.clockTolerance };
  const points = countingsOf(all).flatMap(({ from, counting }): Point[] => {
    const today = todayHz(request, counting);
    if (today === null) return [];
    const { way } = counting.outputs[0]!;
    const ideal = Math.round(clock.clockHz / (today * way.times * counting.prescaler)) - way.plus;
    const { min, max } = topsOf(counting.timer, counting.mode);
    for (let step = 0; step <= TRIED_TOPS; step++) {
      for (const top of step === 0 ? [ideal] : [ideal + step, ideal - step]) {
        if (top < min || top > max || gradeOf(counting.outputs, counting.prescaler, top, clock) !== from.grade)
          continue;
        const point = {
          from: { ...from, counting },
          top,
          error: 0,
          steps: stepsAt(counting, top),
          because: "nearest to what it is today",
        };
        return [{ ...point, error: distanceOf(request, point) }];
      }
    }
    return [];
  });
  return points
    .filter((point) => !point.from.counting.outputs.some(({ way }) => way.com === 3))
    .sort(inOrder)
    .slice(0, 1);
}

/** Every way of counting among the candidates with each of its timer's clocks: coarser ones were passed over by the search. */
function countingsOf(all: readonly Candidates[]): { from: Candidates; counting: Counting }[] {
  const first = all.filter(
    (each, at) => all.findIndex((other) => sameWay(other, each) && other.grade === each.grade) === at,
  );
  return first.flatMap((from) =>
    from.counting.timer.clocks.flatMap((clock, index) =>
      clock.kind === "divided" ? [{ from, counting: { ...from.counting, clock: index, prescaler: clock.by } }] : [],
    ),
  );
}

function sameWay(a: Candidates, b: Candidates): boolean {
  return (
    a.counting.timer === b.counting.timer &&
    a.counting.mode === b.counting.mode &&
    a.counting.outputs.every((output, at) => output.way.com === b.counting.outputs[at]!.way.com)
  );
}

const SCALES: readonly (readonly [top: number, because: string])[] = [
  [255, "values 0..255 keep their meaning"],
  [100, "the compare value is the duty in percent"],
  [1000, "the compare value is the duty in tenths of a percent"],
  [10000, "the compare value is the duty in hundredths of a percent"],
  [1023, "analogRead values fit as they are"],
];

/** TOPs that spare arithmetic, where they meet the want as well as the best and hurt nothing more. */
function handyScales(request: PlanRequest, all: readonly Candidates[]): Point[] {
  const best = bestOf(all);
  // A width is a number of counts: no scale makes it handier.
  if (best === undefined || request.outputs.some(({ want }) => want.pulse !== undefined)) return [];
  const clock = { clockHz: request.target.clockHz, tolerance: request.target.clockTolerance };
  return SCALES.flatMap(([top, because]): Point[] => {
    const points = all.flatMap((from): Point[] => {
      const { counting } = from;
      const { outputs, prescaler } = counting;
      if (from.grade !== best.from.grade || from.hurts !== best.from.hurts) return [];
      if (outputs.some(({ way }) => way.com !== 2)) return [];
      // Percent only fits where the duty is the compare value over TOP.
      if (top !== 255 && top !== 1023 && slopeOf(counting.mode) !== "dual") return [];
      if (counting.mode.top.kind === "fixed" ? counting.mode.top.value !== top : top >= 2 ** counting.timer.bits)
        return [];
      if (gradeOf(outputs, prescaler, top, clock) !== best.from.grade) return [];
      return [{ from, top, error: worstError(outputs, prescaler, top, clock.clockHz), steps: top + 1, because }];
    });
    return points.sort(inOrder).slice(0, 1);
  });
}

/** The best of each way of counting that is not among the points. */
function otherFamilies(all: readonly Candidates[], points: readonly Point[]): Point[] {
  const familyOf = ({ counting }: Candidates) =>
    counting.outputs.every(({ way }) => way.com === 1) ? "toggling" : slopeOf(counting.mode);
  const there = new Set(points.map((point) => familyOf(point.from)));
  return (["single", "dual", "toggling"] as const).flatMap((family): Point[] => {
    if (there.has(family)) return [];
    const harmless = all.some((each) => !each.hurts);
    const best = bestOf(
      all.filter(
        (each) =>
          familyOf(each) === family &&
          !(each.hurts && harmless) &&
          !each.counting.outputs.some(({ way }) => way.com === 3),
      ),
    );
    return best === undefined ? [] : [best];
  });
}
