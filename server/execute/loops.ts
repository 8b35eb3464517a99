/**
 * Loops. As long as conditions are decided and it pays, rounds are followed one by one; then values widen until nothing
 * new arrives. Law: the states that leave stand for every number of rounds the real loop may make.
 */
import type { Expression, Statement } from "../program/ir.js";
import { hasEffects } from "./effects.js";
import { forgetReadings } from "./inputs.js";
import { mergeByHardware, reduceStates } from "./reduce-states.js";
import { runForever } from "./regimes.js";
import type { Run } from "./run.js";
import { spendCycles } from "./spending.js";
import { absorb, covered, type State, widening } from "./state.js";
import { type Exits, execute, split } from "./statements.js";
import { mayHaveStood, mayStand } from "./time-passing.js";

type Loop = Extract<Statement, { op: "loop" }>;

/** Rounds followed one by one although their condition can have both outcomes. */
const UNDECIDED_ROUNDS = 1;
const MAX_WIDENING_ROUNDS = 60;
/** Rounds of plain joining that widening is spared: one is made, then bounds climb. */
const HASTE = 2;

export function executeLoop(run: Run, states: State[], loop: Loop, exits: Exits): State[] {
  if (states.length === 0) return states;
  if (loop.condition === null && !mayLeave(loop.body)) {
    return runForever(run, states, loop.head, (entering) => round(run, entering, loop, exits, []));
  }
  const leaving: State[] = [];
  const follows = worthFollowing(run, loop);
  const most = follows ? run.limits.unrolledIterations : 2;
  let current = states;
  let undecided = 0;
  for (let count = 0; count < most && current.length > 0; count++) {
    const before = leaving.length;
    const entered = current.length;
    current = round(run, current, loop, exits, leaving);
    if (leaving.length > before && current.length > 0 && entered > 0) undecided++;
    run.unrolled += current.length;
    if (undecided > UNDECIDED_ROUNDS || run.unrolled > run.limits.unrolledSteps || run.exhausted) break;
  }
  if (current.length > 0) leaving.push(...widenedLoop(run, current, loop, exits));
  const after = reduceStates(run, leaving, loop.start);
  if (after.length === 0 && loop.condition === null && current.length > 0) {
    // It could leave, but never does: what recurs in it is the running regime.
    return runForever(run, current, loop.head, (entering) => round(run, entering, loop, exits, []));
  }
  return after;
}

/** One round: condition, body, step. States that leave are added to `leaving`. */
function round(run: Run, states: State[], loop: Loop, exits: Exits, leaving: State[]): State[] {
  run.stop();
  const inner: Exits = { ...exits, breaks: [], continues: [] };
  let current = states;
  if (!loop.bodyFirst) current = askCondition(run, current, loop, exits, leaving);
  current = execute(run, current, loop.body, inner);
  current = reduceStates(run, [...current, ...inner.continues], loop.start);
  leaving.push(...inner.breaks);
  for (const statement of loop.step) current = execute(run, current, statement, exits);
  if (loop.bodyFirst) current = askCondition(run, current, loop, exits, leaving);
  for (const state of current) {
    spendCycles(run, state, 10);
    mayHaveStood(run, state, loop.head);
  }
  return current;
}

function askCondition(run: Run, states: State[], loop: Loop, exits: Exits, leaving: State[]): State[] {
  let current = states;
  for (const statement of loop.before) current = execute(run, current, statement, exits);
  if (loop.condition === null) return current;
  const [yes, no] = split(run, current, loop.condition);
  leaving.push(...no);
  return yes;
}

/** Rounds with widening until no state arrives that is not already stood for. */
function widenedLoop(run: Run, entering: State[], loop: Loop, exits: Exits): State[] {
  for (const state of entering) forgetReadings(run, state);
  let invariant = mergeByHardware(run, entering);
  let leaving: State[] = [];
  for (let count = 0; ; count++) {
    leaving = [];
    const settled = invariant.map((state) => state.fork());
    // The loop may go round for as long as it likes: its states stand.
    for (const state of settled) mayStand(run, state, loop.head);
    const after = mergeByHardware(run, round(run, run.onTime(settled, loop.head), loop, exits, leaving));
    for (const state of after) forgetReadings(run, state);
    let grew = false;
    for (const state of after) {
      const like =
        invariant.find((candidate) => candidate.machine.runsLike(state.machine)) ??
        invariant.find(() => count > run.limits.states);
      if (like === undefined) {
        invariant.push(state);
        grew = true;
      } else if (!covered(state, like, run.variables)) {
        absorb(like, state, widening(count + HASTE), run.variables);
        grew = true;
      }
    }
    if (!grew) break;
    if (count >= MAX_WIDENING_ROUNDS) {
      run.gap("a loop did not settle within the rounds that are followed", loop.start, loop.end);
      invariant = giveUp(run, invariant);
      if (count > MAX_WIDENING_ROUNDS + 4) break;
    }
  }
  return leaving;
}

function giveUp(run: Run, states: State[]): State[] {
  for (const state of states) {
    for (const object of [...state.memory.keys()]) {
      const variable = run.variables.get(Math.floor(object / 256));
      if (variable !== undefined && !variable.constant) state.memory.delete(object);
    }
  }
  return states;
}

/** Following a loop round by round pays where it may change what the pins do. */
function worthFollowing(run: Run, loop: Loop): boolean {
  if (run.unrolled > run.limits.unrolledSteps) return false;
  const known = worth.get(loop);
  if (known !== undefined) return known;
  const answer =
    (loop.condition !== null && hasEffects(loop.condition)) ||
    touchesPins(loop.body) ||
    loop.step.some(touchesPins) ||
    loop.before.some(touchesPins);
  worth.set(loop, answer);
  return answer;
}

const worth = new WeakMap<Loop, boolean>();

/** Whether a statement writes something that can decide what the pins do. */
function touchesPins(statement: Statement): boolean {
  switch (statement.op) {
    case "block":
      return statement.body.some(touchesPins);
    case "expression":
      return expressionTouches(statement.expression);
    case "initialise":
    case "copy":
      return true;
    case "if":
      return touchesPins(statement.yes) || (statement.no !== null && touchesPins(statement.no));
    case "loop":
      return touchesPins(statement.body) || statement.step.some(touchesPins) || statement.before.some(touchesPins);
    case "switch":
      return statement.cases.some((entry) => entry.body.some(touchesPins));
    case "call":
    case "once":
    case "gap":
    case "zero":
      return true;
    default:
      return false;
  }
}

function expressionTouches(expression: Expression): boolean {
  switch (expression.op) {
    case "assign":
      return (
        expression.target.op !== "variable" ||
        expression.target.variable.relevant ||
        expressionTouches(expression.value)
      );
    case "core":
      return true;
    case "comma":
      return expressionTouches(expression.left) || expressionTouches(expression.right);
    default:
      return false;
  }
}

/** Whether control can leave the loop from inside its body. */
function mayLeave(statement: Statement): boolean {
  return leaves(statement, true);
}

function leaves(statement: Statement, breaksCount: boolean): boolean {
  switch (statement.op) {
    case "break":
      return breaksCount;
    case "return":
    case "goto":
      return true;
    case "block":
      return statement.body.some((part) => leaves(part, breaksCount));
    case "if":
      return leaves(statement.yes, breaksCount) || (statement.no !== null && leaves(statement.no, breaksCount));
    case "loop":
      return leaves(statement.body, false);
    case "switch":
      return statement.cases.some((entry) => entry.body.some((part) => leaves(part, false)));
    case "once":
      return leaves(statement.body, breaksCount);
    default:
      return false;
  }
}
