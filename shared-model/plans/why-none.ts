/** Why no plan meets what is asked, what comes nearest, and where it could be had instead. */
import { listed } from "../show-numbers.js";
import type { WantedSignal } from "../wants/comment.js";
import { bestOf, type Point } from "./chosen.js";
import { exactness, planAt, stepWords } from "./made-plan.js";
import { movesFor, pinsThatCan } from "./moves.js";
import { pinLabel } from "./pin-label.js";
import type { Move, Plan } from "./plan.js";
import { type Candidates, candidatesFor, type PlanRequest, stepsAt, timersFor, type WalkedLanes } from "./search.js";

export interface NoPlan {
  readonly why: string;
  readonly nearest: readonly Plan[];
  readonly moves: readonly Move[];
}

export function noPlan(request: PlanRequest, walked: WalkedLanes): NoPlan {
  const { target, outputs } = request;
  const label = (port: string) => pinLabel(target, port);
  const bare = outputs.filter(({ port }) => timersFor({ target, outputs: [{ port, want: {} }] }).length === 0);
  const moves = movesFor(request, undefined, walked);
  if (bare.length > 0) {
    const names = listed(bare.map(({ port }) => label(port)));
    const why = `no timer drives ${names}`;
    return { why: `${why}${elsewhere(request, moves)}`, nearest: [], moves };
  }
  const timers = timersFor(request);
  if (timers.length === 0) {
    const each = outputs.map(
      ({ port }) => `${label(port)} on timer ${timersFor({ target, outputs: [{ port, want: {} }] })[0]!.number}`,
    );
    return { why: `no timer drives them all: ${listed(each)}; ask for each timer by itself`, nearest: [], moves };
  }
  const names = listed(outputs.map(({ port }) => label(port)));
  const which =
    timers.length === 1 ? `timer ${timers[0]!.number}` : listed(timers.map((timer) => `timer ${timer.number}`));
  const kept = keptInTheWay(request, walked);
  if (kept !== null) {
    const why = `every setting of ${which} that would do on ${names} changes ${kept}, which must stay as it is`;
    return { why: `${why}${elsewhere(request, moves)}`, nearest: [], moves };
  }
  if (outputs.length > 1) {
    const clash = clashOf(request, walked);
    if (clash !== null) return clash;
  }
  const nearest = nearestPlan(request, walked);
  const why =
    nearest === null
      ? `no setting of ${which} meets it on ${names}`
      : `no setting of ${which} meets it on ${names}; the nearest (${exactness(nearest)}, ${stepWords(nearest)}): ${reasonsOf(nearest)}`;
  return { why: `${why}${elsewhere(request, moves)}`, nearest: nearest === null ? [] : [nearest], moves };
}

function reasonsOf(plan: Plan): string {
  return [
    ...new Set(
      plan.outputs.filter((output) => output.judgement.met === "no").flatMap((output) => output.judgement.reasons),
    ),
  ].join("; ");
}

function elsewhere(request: PlanRequest, moves: readonly Move[]): string {
  if (request.outputs.length !== 1) return "";
  return moves.length === 0 ? "; nor can any other free pin" : `; ${pinsThatCan(moves)} can`;
}

/** The kept pins that stand in the way of plans which there would be without them; null where they do not. */
function keptInTheWay(request: PlanRequest, walked: WalkedLanes): string | null {
  const { target, occupation, outputs } = request;
  if (occupation.kept.size === 0) return null;
  if (candidatesFor({ ...request, occupation: { ...occupation, kept: new Set() } }, walked).length === 0) return null;
  const wanted = new Set(outputs.map(({ port }) => port));
  const ports = timersFor(request)
    .flatMap((timer) => timer.channels.map((channel) => channel.port))
    .filter((port) => occupation.kept.has(port) && !wanted.has(port));
  return listed([...new Set(ports)].map((port) => pinLabel(target, port)));
}

/** Wants that could each be met alone, but not by one timer: which, and which wire to move. */
function clashOf(request: PlanRequest, walked: WalkedLanes): NoPlan | null {
  const { outputs, target } = request;
  const alone = outputs.map((output) => ({ ...request, outputs: [output] }));
  const best = alone.map((each) => bestOf(candidatesFor(each, walked)));
  const label = (port: string) => pinLabel(target, port);
  const failing = outputs.filter((_, at) => best[at] === undefined);
  if (failing.length > 0) {
    const each = failing.map(({ port }) =>
      noPlan({ ...request, outputs: [outputs.find((output) => output.port === port)!] }, walked),
    );
    return {
      why: each.map(({ why }) => why).join(". "),
      nearest: each.flatMap(({ nearest }) => nearest),
      moves: each.flatMap(({ moves }) => moves),
    };
  }
  const timer = timersFor(request)[0]!.number;
  const moves = alone.flatMap((each) =>
    movesOf(each, walked).filter(
      (move) => move.plan.setting.timer !== timer && !outputs.some((output) => output.port === move.port),
    ),
  );
  const names = listed(outputs.map(({ port }) => label(port)));
  const why = `timer ${timer} has one period for all its pins: each of ${names} can be had alone, no setting serves them together`;
  const way = moves.length === 0 ? "" : `; move the wire of one of them: ${pinsThatCan(unique(moves))} can`;
  return { why: `${why}${way}`, nearest: [], moves: unique(moves) };
}

/** Each says whose wire it is. */
function movesOf(request: PlanRequest, walked: WalkedLanes): Move[] {
  const label = pinLabel(request.target, request.outputs[0]!.port);
  return movesFor(request, undefined, walked).map((move) => ({ ...move, because: `for ${label}: ${move.because}` }));
}

function unique(moves: readonly Move[]): Move[] {
  return moves.filter((move, at) => moves.findIndex((other) => other.port === move.port) === at);
}

type Demand = "steps" | "reach" | "duty" | "pulse" | "frequency";
const DEMANDS: readonly Demand[] = ["steps", "reach", "duty", "pulse", "frequency"];

/** What comes nearest: with one demand let go, then with all but the frequency, then with that one as well. */
function nearestPlan(request: PlanRequest, walked: WalkedLanes): Plan | null {
  const ways: readonly Demand[][] = [
    ...DEMANDS.map((demand) => [demand]),
    ["steps", "reach", "duty", "pulse"],
    [...DEMANDS],
  ];
  for (const demands of ways) {
    const relaxed = {
      ...request,
      outputs: request.outputs.map((output) => ({ ...output, want: without(output.want, demands) })),
    };
    const candidates = candidatesFor(relaxed, walked);
    const point = demands[0] === "steps" && demands.length === 1 ? finestOf(candidates) : bestOf(candidates);
    if (point === undefined) continue;
    const { counting } = point.from;
    const asked = counting.outputs.map((output, at) => ({ ...output, want: request.outputs[at]!.want }));
    const plan = planAt(request, { ...counting, outputs: asked }, point.top, false, "");
    if (plan !== null) return { ...plan, because: `nearest: ${exactness(plan)}, ${stepWords(plan)}` };
  }
  return null;
}

function without(want: WantedSignal, demands: readonly Demand[]): WantedSignal {
  const left: { -readonly [Key in keyof WantedSignal]: WantedSignal[Key] } = { ...want };
  for (const demand of demands) {
    // The wanted frequency stays what nearness is measured from.
    if (demand === "frequency" && want.frequency !== undefined)
      left.frequency = { ...want.frequency, min: 0, max: Number.POSITIVE_INFINITY };
    else delete left[demand];
  }
  return left;
}

function finestOf(candidates: readonly Candidates[]): Point | undefined {
  return candidates
    .map((from): Point => {
      const top = from.stairs.tops[0]!;
      return { from, top, error: from.stairs.errors[0]!, steps: stepsAt(from.counting, top), because: null };
    })
    .sort(
      (a, b) =>
        b.from.grade - a.from.grade ||
        Number(a.from.hurts) - Number(b.from.hurts) ||
        b.steps - a.steps ||
        a.error - b.error,
    )[0];
}
