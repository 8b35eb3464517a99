/**
 * Everything that one timer can do for some pins at once: every mode, prescaler and output setting, each as a lane of TOPs
 * with what it costs. What of it is best is `front.ts`, what of it is shown `chosen.ts`.
 */
import type { ChannelFact, ModeFact, Target, TimerFact } from "../chip.js";
import type { WantedSignal } from "../wants/comment.js";
import { type Clocked, isFreeOfDuty } from "./attainable.js";
import { costsOf, tellingTops } from "./costs.js";
import { firstTopWorthwhile, type Lane, type LaneOutput, type Staircase, type Tops, walkLane } from "./lanes.js";
import type { Occupation } from "./occupation.js";
import type { Cost } from "./plan.js";
import { modesInOrder, slopeOf, topsOf, type Way, waysOf } from "./ways.js";

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

/** Every way in which the timer can count and put out what could be wanted of it, the plainer first. */
export function countings(request: PlanRequest, timer: TimerFact): Counting[] {
  const near = nearFrequencies(request, timer);
  const channels = request.outputs.map(({ port }) => timer.channels.find((channel) => channel.port === port)!);
  return modesInOrder(timer).flatMap((mode) =>
    combinations(channels, mode).flatMap((ways) =>
      timer.clocks.flatMap((clock, index): Counting[] => {
        if (clock.kind !== "divided") return [];
        const outputs = ways.map(
          (way, at): LaneOutput => ({ want: request.outputs[at]!.want, way, nearHz: near[at]! }),
        );
        return [{ timer, mode, clock: index, prescaler: clock.by, outputs }];
      }),
    ),
  );
}

function combinations(channels: readonly ChannelFact[], mode: ModeFact): Way[][] {
  return channels.reduce<Way[][]>(
    (before, channel) => before.flatMap((ways) => waysOf(channel, mode).map((way) => [...ways, way])),
    [[]],
  );
}

/** What "near" is measured from: the wanted frequencies; where none is wanted, what the pins put out today. */
function nearFrequencies({ outputs, occupation, target }: PlanRequest, timer: TimerFact): (number | null)[] {
  if (outputs.some(({ want }) => want.frequency !== undefined))
    return outputs.map(({ want }) => want.frequency?.hz ?? null);
  const present = occupation.present?.get(timer.number);
  const mode = present === undefined ? undefined : timer.modes[present.mode];
  const counts = (top: number) => (mode !== undefined && slopeOf(mode) === "dual" ? 2 * top : top + 1);
  const hz = present === undefined ? null : target.clockHz / (present.prescaler * counts(present.top));
  return outputs.map(({ port }) => occupation.used.get(port)?.hz ?? hz);
}

function candidatesOf(request: PlanRequest, counting: Counting, walked: WalkedLanes, bits: CostBits): Candidates[] {
  const { target, occupation } = request;
  const { timer, mode, prescaler, outputs } = counting;
  const clock: Clocked = { clockHz: target.clockHz, tolerance: target.clockTolerance };
  const tops = topsOf(timer, mode);
  const question = { ...counting, target, occupation };
  const telling = tellingTops(question).filter((top) => top >= tops.min && top <= tops.max);
  const found: Candidates[] = [];
  const add = (costs: readonly Cost[], lane: Lane) => {
    const mask = bits.maskOf(costs);
    const hurts = costs.some((cost) => cost.hurts);
    if (lane.yes.tops.length > 0) found.push({ counting, grade: 2, costs, mask, hurts, stairs: lane.yes });
    if (lane.marginal.tops.length > 0) found.push({ counting, grade: 1, costs, mask, hurts, stairs: lane.marginal });
  };
  const walk = (range: Tops, except: readonly number[]) =>
    walked.lane(laneKey(counting, range, except, walked), () => walkLane(outputs, prescaler, range, clock, except));
  const usual = costsOf({ ...question, top: null });
  if (usual !== null) {
    const first = firstTopWorthwhile(outputs, timer.clocks, prescaler, tops);
    if (first <= tops.max) add(usual, walk({ min: first, max: tops.max }, telling));
  }
  for (const top of telling) {
    const costs = costsOf({ ...question, top });
    if (costs !== null) add(costs, walk({ min: top, max: top }, []));
  }
  return found;
}

/** Lanes of the same numbers are the same, whichever timer or mode they belong to. */
function laneKey(
  { prescaler, outputs }: Counting,
  range: Tops,
  except: readonly number[],
  walked: WalkedLanes,
): string {
  const ways = outputs.map(({ want, way, nearHz }) => {
    const span = !isFreeOfDuty(want) || way.com === 1 ? way.com : 2;
    return `${walked.numberOf(want)} ${way.times} ${way.plus} ${span} ${nearHz}`;
  });
  return `${prescaler} ${range.min} ${range.max} ${except.join("+")} ${ways.join("|")}`;
}

/** How many different duties a plan of this counting has: the fewest of its outputs'. */
export function stepsAt({ outputs }: Counting, top: number): number {
  return outputs.some(({ way }) => way.com === 1) ? 1 : top + 1;
}
