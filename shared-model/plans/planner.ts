/**
 * Plans: the settings of a timer that make pins put out what is wanted, the best first, with what each costs. Exhaustive over
 * every mode, prescaler, TOP and output setting of the timers that drive the pins; by arithmetic, so that an editor can ask
 * while somebody types. A test walks them all and compares.
 */
import { bestOf, chosenPlans } from "./chosen.js";
import { frontOf, stretchesOf } from "./front.js";
import { movesFor } from "./moves.js";
import type { PlanAnswer } from "./plan.js";
import { candidatesFor, type PlanRequest, WalkedLanes } from "./search.js";
import { noPlan } from "./why-none.js";

export type { PlanRequest, PlanTarget, WantedOutput } from "./search.js";

/** What can be done for these wants. Several outputs are to be served by one timer with one setting. */
export function plansFor(request: PlanRequest): PlanAnswer {
  const walked = new WalkedLanes();
  const candidates = candidatesFor(request, walked);
  if (candidates.length === 0) return { plans: [], front: [], ...noPlan(request, walked) };
  const front = frontOf(candidates);
  return {
    plans: chosenPlans(request, candidates, front),
    front: stretchesOf(front),
    nearest: [],
    why: null,
    moves: movesFor(request, bestOf(candidates), walked),
  };
}
