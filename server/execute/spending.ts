/**
 * Time that code takes, told to the clocks that a state carries: the stopwatch while pulses are timed, the timers' counters
 * while a sketch starts up. Law: whatever is executed is told once, with at least what it really takes at most.
 */
import type { Expression, Statement } from "../program/ir.js";
import { coreCost } from "./pulses/core-costs.js";
import { callCost, costOf, costOfStatement, switchCost } from "./pulses/costs.js";
import { heldUp, interruptionsOf } from "./pulses/load.js";
import { variationOf } from "./pulses/variation.js";
import type { Spell } from "./pulses/waits.js";
import type { Run } from "./run.js";
import type { State } from "./state.js";

/** What code whose cost is not known counts as where only the time between settled points is asked for. */
const SOME_CYCLES = 10_000;

/** The cost of an expression goes by. */
export function spend(run: Run, state: State, expression: Expression): void {
  const varies = run.timing === null ? 0 : variationOf(expression);
  spendCycles(run, state, costOf(expression), expression.start, varies);
}

/** What a statement costs by itself goes by: calls of the core, conditions and bodies tell theirs when they are reached. */
export function spendOn(run: Run, states: readonly State[], statement: Statement): void {
  let cycles = ownCosts.get(statement);
  if (cycles === undefined) {
    cycles = ownCost(statement);
    ownCosts.set(statement, cycles);
  }
  if (cycles === 0) return;
  const place = "start" in statement ? statement.start : 0;
  const varies = run.timing === null ? 0 : ownVariation(statement, cycles);
  for (const state of states) spendCycles(run, state, cycles, place, varies);
}

const ownCosts = new WeakMap<Statement, number>();

function ownVariation(statement: Statement, cycles: number): number {
  switch (statement.op) {
    case "expression":
      return variationOf(statement.expression);
    case "initialise":
      return variationOf(statement.value);
    case "return":
      return statement.value === null ? 0 : variationOf(statement.value);
    case "declare":
      return 0;
    default:
      return cycles;
  }
}

function ownCost(statement: Statement): number {
  switch (statement.op) {
    case "expression":
      return costOf(statement.expression);
    case "declare":
    case "initialise":
    case "copy":
    case "zero":
    case "return":
      return costOfStatement(statement, false);
    case "switch":
      return switchCost(statement);
    case "call":
      return callCost(statement);
    default:
      return 0;
  }
}

/** A call of the core goes by: what it does, it may do at any time in between. */
export function spendCore(run: Run, state: State, expression: Extract<Expression, { op: "core" }>): void {
  const { least, most, after, varies } = coreCost(expression);
  if (run.timing?.times(run) !== true) spendCycles(run, state, most);
  else {
    if (most === Number.POSITIVE_INFINITY) run.timing.abandon();
    state.stopwatch?.spendCall(most, least, after, expression.start, varies);
  }
}

/** Code at `place` goes by that takes so many cycles at most, and by `varies` of them longer one time than another. */
export function spendCycles(run: Run, state: State, cycles: number, place = 0, varies = cycles): void {
  state.cycles += cycles === Number.POSITIVE_INFINITY ? SOME_CYCLES : cycles;
  const { timing } = run;
  if (timing !== null) {
    if (!timing.times(run)) return;
    if (cycles === Number.POSITIVE_INFINITY) timing.abandon();
    state.stopwatch?.spend(cycles, place, varies);
  } else if (run.inInterrupt) return;
  else if (cycles === Number.POSITIVE_INFINITY) state.counters = null;
  else state.counters?.spend(cycles);
}

/** A wait goes by. */
export function spendWait(run: Run, state: State, spell: Spell): void {
  if (run.timing !== null) run.timing.wait(run, state, spell);
  else if (run.inInterrupt) return;
  else if (spell.most === Number.POSITIVE_INFINITY) state.counters = null;
  else countersNow(run, state)?.wait(spell.least, spell.most, spell.busy);
}

/** Where the counters stand now, with the time that interrupt routines took; null where that is not known. */
export function countersNow(run: Run, state: State): State["counters"] {
  const { counters } = state;
  if (counters === null || run.inInterrupt || run.timing !== null) return null;
  if (counters.pending > 0) {
    const interruptions = interruptionsOf(run, [state]);
    counters.bringUp(state.machine, (busy) => heldUp(interruptions, busy));
    if (counters.isLost) state.counters = null;
  }
  return state.counters;
}
