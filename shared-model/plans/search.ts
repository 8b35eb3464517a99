/**
 * Everything that one timer can do for some pins at once: every mode, prescaler and output setting, each as a lane of TOPs
 * with what it costs. What of it is best is `front.ts`, what of it is shown `chosen.ts`.
 */
import type { ChannelFact, ModeFact, Target, TimerFact } from "../chip.js";
import type { WantedSignal } from "../wants/comment.js";
import { type Clocked, isFreeOfDuty } from "./attainable.js";
import { asksForZero, costsOf, tellingTops } from "./costs.js";
import {
  firstTopWorthwhile,
  type Lane,
  type LaneLimits,
  type LaneOutput,
  type Staircase,
  type Tops,
  walkLane,
} from "./lanes.js";
import type { Occupation } from "./occupation.js";
import type { Cost } from "./plan.js";
import { modesInOrder, topsOf, type Way, waysOf } from "./ways.js";

export type PlanTarget = Pick<Target, "chip" | "pins" | "board" | "clockHz" | "clockTolerance" | "supply">;

export interface WantedOutput {
  /** `PD3` */
  readonly port: string;
  readonly want: WantedSignal;
}

export interface PlanRequest {
  readonly target: PlanTarget;
  readonly outputs: readonly WantedOutput[];
  readonly occupation: Occupation;
}

/** One mode, prescaler and output setting of one timer, with the wants it is to serve. */
export interface Counting {
  readonly timer: TimerFact;
  readonly mode: ModeFact;
  /** Value of the clock-select field. */
  readonly clock: number;
  readonly prescaler: number;
  readonly outputs: readonly LaneOutput[];
}

/** TOPs of one way of counting, all of one verdict and at the same costs. */
export interface Candidates {
  readonly counting: Counting;
  /** 2 = yes, 1 = marginal. */
  readonly grade: 1 | 2;
  /** Without numbers of a TOP; equal costs are equal bits of the mask. */
  readonly costs: readonly Cost[];
  readonly mask: number;
  readonly hurts: boolean;
  readonly stairs: Staircase;
}

/** Lanes that were walked, shared by the pins whose timers count alike. Lives as long as one request. */
export class WalkedLanes {
  readonly #lanes = new Map<string, Lane>();
  readonly #wants: WantedSignal[] = [];

  lane(key: string, walk: () => Lane): Lane {
    let lane = this.#lanes.get(key);
    if (lane === undefined) {
      lane = walk();
      this.#lanes.set(key, lane);
    }
    return lane;
  }

  /** A number that stands for the want in a lane's key. */
  numberOf(want: WantedSignal): number {
    if (!this.#wants.includes(want)) this.#wants.push(want);
    return this.#wants.indexOf(want);
  }
}

/** One bit for each kind of cost, pin and harm. */
class CostBits {
  readonly #bits = new Map<string, number>();

  maskOf(costs: readonly Cost[]): number {
    let mask = 0;
    for (const { kind, port, hurts } of costs) {
      const key = `${kind} ${port} ${hurts}`;
      const bit = this.#bits.get(key) ?? this.#bits.size;
      if (bit > 30) throw new RangeError("more kinds of cost than bits");
      this.#bits.set(key, bit);
      mask |= 1 << bit;
    }
    return mask;
  }
}

/** The timers with a compare unit on every one of the ports. */
export function timersFor(request: Pick<PlanRequest, "target" | "outputs">): readonly TimerFact[] {
  return request.target.chip.timers.filter((timer) =>
    request.outputs.every(({ port }) => timer.channels.some((channel) => channel.port === port)),
  );
}

/** Every plan that could be the best for somebody, on all timers that drive the pins. */
export function candidatesFor(request: PlanRequest, walked: WalkedLanes): Candidates[] {
  const bits = new CostBits();
  return timersFor(request).flatMap((timer) =>
    countings(request, timer).flatMap((counting) => candidatesOf(request, counting, walked, bits)),
  );
}

/** Every way in which the timer can count and put out what could be wanted of it, the plainer first, the finer clock first. */
export function countings(request: PlanRequest, timer: TimerFact): Counting[][] {
  const channels = request.outputs.map(({ port }) => timer.channels.find((channel) => channel.port === port)!);
  const clocks = timer.clocks
    .flatMap((clock, index) => (clock.kind === "divided" ? [{ index, by: clock.by }] : []))
    .sort((a, b) => a.by - b.by);
  return modesInOrder(timer).flatMap((mode) =>
    combinations(channels, mode, request).map((ways) => {
      const outputs = ways.map((way, at): LaneOutput => {
        const { want } = request.outputs[at]!;
        return { want, way, nearHz: want.frequency?.hz ?? null };
      });
      return clocks.map(({ index, by }): Counting => ({ timer, mode, clock: index, prescaler: by, outputs }));
    }),
  );
}

function combinations(channels: readonly ChannelFact[], mode: ModeFact, { outputs }: PlanRequest): Way[][] {
  return channels.reduce<Way[][]>(
    (before, channel, at) => {
      const ways = waysOf(channel, mode).filter((way) => isWorthwhile(way, outputs[at]!.want));
      return before.flatMap((those) => ways.map((way) => [...those, way]));
    },
    [[]],
  );
}

/**
 * Inverted outputs do everything that straight ones do, at one cost more. Only in fast PWM do they differ: they reach 0 in
 * place of 100 %, which counts where 0 is not ruled out, or where ends are to be reached.
 */
function isWorthwhile(way: Way, want: WantedSignal): boolean {
  if (way.com !== 3) return true;
  return way.plus === 1 && (want.reach !== undefined || asksForZero(want));
}

/** One way of counting with each of its clocks. */
function candidatesOf(
  request: PlanRequest,
  counting: readonly Counting[],
  walked: WalkedLanes,
  bits: CostBits,
): Candidates[] {
  const { target, occupation } = request;
  const clock: Clocked = { clockHz: target.clockHz, tolerance: target.clockTolerance };
  const found: Candidates[] = [];
  // Of plans that cost what most TOPs cost: see `LaneLimits`.
  let ceiling = Number.POSITIVE_INFINITY;
  for (const each of counting) {
    const { timer, mode, prescaler, outputs } = each;
    const tops = topsOf(timer, mode);
    const question = { ...each, target, occupation };
    const telling = tellingTops(question).filter((top) => top >= tops.min && top <= tops.max);
    const add = (costs: readonly Cost[], lane: Lane) => {
      const mask = bits.maskOf(costs);
      const hurts = costs.some((cost) => cost.hurts);
      const common = { counting: each, costs, mask, hurts };
      if (lane.yes.tops.length > 0) found.push({ ...common, grade: 2, stairs: lane.yes });
      if (lane.marginal.tops.length > 0) found.push({ ...common, grade: 1, stairs: lane.marginal });
    };
    const walk = (range: Tops, limits: LaneLimits) =>
      walked.lane(laneKey(each, range, limits, walked), () => walkLane(outputs, prescaler, range, clock, limits));
    const first = firstTopWorthwhile(outputs, timer.clocks, prescaler, tops);
    const usual = ceiling === 0 || first > tops.max ? null : costsOf({ ...question, top: null });
    if (usual !== null) {
      const lane = walk({ min: first, max: tops.max }, { except: telling, ceiling });
      add(usual, lane);
      const most = stepsAt(each, tops.max);
      if (lane.yes.tops.length > 0 && stepsAt(each, lane.yes.tops[0]!) === most)
        ceiling = Math.min(ceiling, lane.yes.errors[0]!);
    }
    for (const top of telling) {
      const costs = costsOf({ ...question, top });
      if (costs !== null) add(costs, walk({ min: top, max: top }, { except: [], ceiling: Number.POSITIVE_INFINITY }));
    }
  }
  return found;
}

/** Lanes of the same numbers are the same, whichever timer or mode they belong to. */
function laneKey(
  { prescaler, outputs }: Counting,
  range: Tops,
  { except, ceiling }: LaneLimits,
  walked: WalkedLanes,
): string {
  const ways = outputs.map(({ want, way, nearHz }) => {
    const span = !isFreeOfDuty(want) || way.com === 1 ? way.com : 2;
    return `${walked.numberOf(want)} ${way.times} ${way.plus} ${span} ${nearHz}`;
  });
  return `${prescaler} ${range.min} ${range.max} ${except.join("+")} ${ceiling} ${ways.join("|")}`;
}

/** How many different duties a plan of this counting has: the fewest of its outputs'. */
export function stepsAt({ outputs }: Counting, top: number): number {
  return outputs.some(({ way }) => way.com === 1) ? 1 : top + 1;
}
