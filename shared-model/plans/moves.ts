/**
 * "Move the wire": other pins of the board that would do better, or at all. Only pins that nothing uses; those that are lines
 * of a bus come last, and not at all where the sketch uses that bus.
 */

import { listed } from "../show-numbers.js";
import { bestOf, inOrder, type Point } from "./chosen.js";
import { exactness, planAt, stepWords } from "./made-plan.js";
import { pinLabel } from "./pin-label.js";
import type { Move, Plan } from "./plan.js";
import { candidatesFor, type PlanRequest, type WalkedLanes } from "./search.js";

/** So many times the steps make a wire worth moving. */
const MANY_MORE = 4;

/** Pins that beat what the wanted pin can do; `present` is the best there, undefined where there is nothing. */
export function movesFor(request: PlanRequest, present: Point | undefined, walked: WalkedLanes): Move[] {
  if (request.outputs.length !== 1) return [];
  const found = otherPorts(request).flatMap((port): { move: Move; point: Point; bus: boolean }[] => {
    const moved = { ...request, outputs: [{ ...request.outputs[0]!, port }] };
    const point = bestOf(candidatesFor(moved, walked));
    if (point === undefined) return [];
    const gain = gainOf(present, point);
    if (gain === null) return [];
    const plan = planAt(moved, point.from.counting, point.top, false, "");
    if (plan === null) return [];
    const label = pinLabel(request.target, port);
    const because = gain === "" ? `${exactness(plan)}, ${stepWords(plan)}` : gain;
    const bus = request.occupation.buses.has(port);
    return [{ move: { port, label, plan: { ...plan, because: planWords(plan) }, because }, point, bus }];
  });
  return found
    .sort(
      (a, b) =>
        Number(a.point.from.hurts) - Number(b.point.from.hurts) ||
        Number(a.bus) - Number(b.bus) ||
        inOrder(a.point, b.point),
    )
    .map(({ move }) => move);
}

function planWords(plan: Plan): string {
  return `${exactness(plan)}, ${stepWords(plan)}`;
}

/** Ports with a compare unit and a number on the board (all with a unit, where there is no board) that are free. */
function otherPorts({ target, outputs, occupation }: PlanRequest): string[] {
  const ports = target.chip.timers.flatMap((timer) => timer.channels.map((channel) => channel.port));
  const printed = (port: string) => target.pins.length === 0 || target.pins.some((pin) => pin.port === port);
  const order = (port: string) => target.pins.findIndex((pin) => pin.port === port);
  return [...new Set(ports)]
    .filter(
      (port) =>
        printed(port) &&
        !outputs.some((output) => output.port === port) &&
        !occupation.used.has(port) &&
        !occupation.kept.has(port) &&
        occupation.buses.get(port)?.inUse !== true,
    )
    .sort((a, b) => order(a) - order(b));
}

/** What is better there; null for nothing that is worth a wire. */
function gainOf(present: Point | undefined, there: Point): string | null {
  if (present === undefined) return "";
  if (there.from.grade < present.from.grade || Number(there.from.hurts) > Number(present.from.hurts)) return null;
  const wanted = there.from.counting.outputs[0]!.want.frequency !== undefined;
  const steps = there.steps === 1 ? "one duty" : `${there.steps} steps`;
  if (there.from.grade > present.from.grade) return "meets it over the clock's whole tolerance";
  if (present.from.hurts && !there.from.hurts && 2 * there.steps >= present.steps)
    return `hurts nothing that is in use, ${steps}`;
  const more = there.steps >= MANY_MORE * present.steps;
  if (wanted && there.error === 0 && present.error > 0 && there.steps >= present.steps)
    return more ? `exact, and ${there.steps} steps in place of ${present.steps}` : `exact, ${steps}`;
  if (more && (!wanted || there.error <= present.error)) return `${there.steps} steps in place of ${present.steps}`;
  return null;
}

/** For "these pins can": those that hurt nothing, where there are any. */
export function pinsThatCan(moves: readonly Move[]): string {
  const harmless = moves.filter((move) => !move.plan.costs.some((cost) => cost.hurts));
  return listed((harmless.length > 0 ? harmless : moves).map((move) => move.label));
}
