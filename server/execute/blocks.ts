/**
 * Blocks and the jumps to labels in them. Law: every path that enters a block, or jumps to a label of it, is followed to
 * the block's end or to a jump out of it; jumps back are followed until they bring nothing new.
 */
import type { Statement } from "../program/ir.js";
import { havocHardware, havocMemory } from "./havoc.js";
import { forgetReadings } from "./inputs.js";
import { mergeByHardware, reduceStates } from "./reduce-states.js";
import type { Run } from "./run.js";
import { absorb, covered, type State, widening } from "./state.js";
import { type Exits, execute } from "./statements.js";

const MAX_JUMP_ROUNDS = 1_200;
/** Rounds of jumps back that are followed one by one: with one state on the way, and with several. */
const FOLLOWED_JUMPS_ALONE = 1_024;
const FOLLOWED_JUMPS = 3;

/** A block in order; jumps to its labels are followed until nothing new arrives. */
export function executeBlock(run: Run, states: State[], body: readonly Statement[], exits: Exits): State[] {
  let current = states;
  const labels = body.some((statement) => statement.op === "label");
  for (const [index, statement] of body.entries()) {
    if (labels && statement.op === "label") current = takeJumps(run, current, statement.name, exits);
    current = execute(run, current, statement, exits);
    if (current.length === 0 && !labels && !body.slice(index + 1).some((later) => later.op === "label")) break;
  }
  return labels ? followBackward(run, current, body, exits) : current;
}

function takeJumps(run: Run, states: State[], name: string, exits: Exits): State[] {
  const arriving = exits.jumps.get(name);
  if (arriving === undefined) return states;
  exits.jumps.delete(name);
  return reduceStates(run, [...states, ...arriving], 0);
}

/** Jumps back: the block is run again from the label until no jump is left, or none that brings anything new. */
function followBackward(run: Run, states: State[], body: readonly Statement[], exits: Exits): State[] {
  let result = states;
  /** What has arrived at each label since rounds are no longer followed one by one. */
  const known = new Map<string, State[]>();
  for (let round = 0; ; round++) {
    const at = body.findIndex((statement) => statement.op === "label" && exits.jumps.has(statement.name));
    if (at < 0) return reduceStates(run, result, 0);
    const label = body[at] as Extract<Statement, { op: "label" }>;
    let current = exits.jumps.get(label.name)!;
    exits.jumps.delete(label.name);
    for (const state of current) forgetReadings(run, state);
    if (round >= MAX_JUMP_ROUNDS || run.exhausted) {
      run.gap(`jumps to ${label.name} were not followed to their end`, 0, 0);
      for (const state of current) {
        havocHardware(run, state, -1);
        havocMemory(run, state);
      }
      return [...result, ...current];
    }
    run.unrolled += current.length;
    if (round >= (current.length === 1 ? FOLLOWED_JUMPS_ALONE : FOLLOWED_JUMPS)) {
      current = news(run, known, label.name, current, round);
      if (current.length === 0) continue;
    }
    // A label may be come back to for as long as it likes.
    for (const state of current) run.collector.settle(state, 0);
    for (const statement of body.slice(at)) {
      if (statement.op === "label") current = takeJumps(run, current, statement.name, exits);
      current = execute(run, current, statement, exits);
    }
    result = reduceStates(run, [...result, ...current], 0);
  }
}

/** Those of the arriving states that bring something which has not arrived yet, widened. */
function news(run: Run, known: Map<string, State[]>, label: string, arriving: State[], round: number): State[] {
  for (const state of arriving) state.counters = null;
  const before = known.get(label) ?? [];
  known.set(label, before);
  const fresh = new Set<State>();
  for (const state of mergeByHardware(run, arriving)) {
    const like =
      before.find((candidate) => candidate.machine.runsLike(state.machine)) ??
      (before.length >= run.limits.states ? before[0] : undefined);
    if (like === undefined) {
      before.push(state);
      fresh.add(state);
    } else if (!covered(state, like, run.variables)) {
      absorb(like, state, widening(round), run.variables);
      fresh.add(like);
    }
  }
  return [...fresh].map((state) => state.fork());
}
