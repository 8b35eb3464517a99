/** Statements on sets of states. Law: every real path that enters leaves through one of the states that come out, or through a jump that is on record. */

import { activityOf } from "../program/activity.js";
import type { Expression, Statement } from "../program/ir.js";
import { sizeOf, type Type } from "../program/types.js";
import { assume } from "./assume.js";
import { executeBlock } from "./blocks.js";
import { executeCall } from "./calls.js";
import { truthOf } from "./conversions.js";
import { copyObject } from "./copy-object.js";
import * as number from "./domain/number.js";
import { evaluate } from "./evaluate.js";
import { havocHardware, havocMemory } from "./havoc.js";
import { executeLoop } from "./loops.js";
import { Aggregate } from "./memory.js";
import { locate, writePlace, writeTargets } from "./places.js";
import { costOfStatement } from "./pulses/costs.js";
import { reduceStates } from "./reduce-states.js";
import { coreContext } from "./register-writes.js";
import type { Run } from "./run.js";
import { spend, spendCycles, spendOn } from "./spending.js";
import { objectOf, type State } from "./state.js";
import { apartByValue } from "./table-index.js";
import { mayHaveStood, passTime } from "./time-passing.js";
import { isScalar, zeroOf } from "./value.js";

/** Where paths go that leave a statement other than at its end. */
export interface Exits {
  breaks: State[];
  continues: State[];
  returns: State[];
  readonly jumps: Map<string, State[]>;
}

export function noExits(): Exits {
  return { breaks: [], continues: [], returns: [], jumps: new Map() };
}

/** Runs a statement on every state; answers with the states that reach its end. */
export function execute(run: Run, states: State[], statement: Statement, exits: Exits): State[] {
  if (states.length === 0 && !(statement.op === "block" || statement.op === "label")) return states;
  if (statement.op !== "label") {
    const activity = activityOf(statement);
    if (activity !== "active") return passOver(run, states, statement, activity === "time");
  }
  spendOn(run, states, statement);
  switch (statement.op) {
    case "block":
      return executeBlock(run, states, statement.body, exits);
    case "expression":
      return executeExpression(
        run,
        apartByValue(run, states, statement.expression),
        statement.expression,
        statement.start,
      );
    case "declare":
      for (const state of states) {
        const object = objectOf(statement.variable, state.depth);
        if (statement.zero) setZero(state, object, statement.variable.type);
        else if (isScalar(statement.variable.type)) state.memory.delete(object);
        else state.memory.set(object, new Aggregate(new Map(), "unknown", null, state.token));
      }
      return states;
    case "initialise":
      for (const state of states) {
        run.tick(statement.start);
        const value = evaluate(run, state, statement.value);
        writePlace(run, state, statement.target, value, {
          ...coreContext(statement.start, statement.end),
          operator: "=",
        });
      }
      return afterEffects(run, states, statement.start);
    case "zero":
      for (const state of states) zeroPlace(run, state, statement);
      return states;
    case "copy":
      for (const state of states) {
        run.tick(statement.start);
        copyObject(run, state, statement.target, statement.source);
      }
      return states;
    case "call":
      return executeCall(run, states, statement);
    case "if": {
      const [yes, no] = split(run, states, statement.condition, statement.quiet !== true);
      const then = execute(run, yes, statement.yes, exits);
      const otherwise = statement.no === null ? no : execute(run, no, statement.no, exits);
      return reduceStates(run, [...then, ...otherwise], statement.start);
    }
    case "loop":
      return executeLoop(run, states, statement, exits);
    case "switch":
      return executeSwitch(run, states, statement, exits);
    case "return":
      for (const state of states) {
        run.tick(statement.start);
        if (statement.value !== null) leaveResult(run, state, statement.value, statement.start);
      }
      exits.returns.push(...afterEffects(run, states, statement.start));
      return [];
    case "break":
      exits.breaks.push(...states);
      return [];
    case "continue":
      exits.continues.push(...states);
      return [];
    case "goto": {
      const list = exits.jumps.get(statement.name) ?? [];
      list.push(...states);
      exits.jumps.set(statement.name, list);
      return [];
    }
    case "label":
      return states;
    case "once":
      return executeOnce(run, states, statement, exits);
    case "gap":
      run.gap(statement.why, statement.start, statement.end);
      if (statement.havoc) {
        for (const state of states) {
          havocHardware(run, state, statement.start);
          havocMemory(run, state);
        }
      }
      return states;
  }
}

/** A statement that changes nothing: only its time goes by. `long`: it may take a while. */
function passOver(run: Run, states: State[], statement: Statement, long: boolean): State[] {
  const cycles = costOfStatement(statement);
  const place = startOf(statement);
  if (long && cycles === Number.POSITIVE_INFINITY) {
    for (const state of states) passTime(run, state, place);
    return afterEffects(run, states, place);
  }
  for (const state of states) {
    spendCycles(run, state, cycles);
    if (long) mayHaveStood(run, state, place);
  }
  return states;
}

function startOf(statement: Statement): number {
  if (statement.op === "block") return statement.body.length === 0 ? 0 : startOf(statement.body[0]!);
  return "head" in statement ? statement.head : "start" in statement ? statement.start : 0;
}

function executeExpression(run: Run, states: State[], expression: Expression, start: number): State[] {
  for (const state of states) {
    run.tick(start);
    evaluate(run, state, expression);
  }
  return afterEffects(run, states, start);
}

/** Where time passed inside an expression, interrupt routines may have run. */
function afterEffects(run: Run, states: State[], start: number): State[] {
  let due = false;
  let ended = false;
  for (const state of states) {
    ended ||= state.ended;
    if (!state.due) continue;
    state.due = false;
    due = true;
  }
  const going = ended ? states.filter((state) => !state.ended) : states;
  if (!due) return going;
  const after = run.onTime(going, start);
  for (const state of after) state.waited = 0;
  return after;
}

function setZero(state: State, object: number, type: Type): void {
  if (isScalar(type)) state.memory.set(object, zeroOf(type));
  else state.memory.set(object, new Aggregate(new Map(), "zero", null, state.token));
}

function zeroPlace(run: Run, state: State, statement: Extract<Statement, { op: "zero" }>): void {
  const { target } = statement;
  if (target.op === "variable") {
    setZero(state, objectOf(target.variable, state.depth), target.type);
    return;
  }
  const targets = locate(run, state, target);
  const context = { ...coreContext(statement.start, statement.start), operator: "=" };
  if (isScalar(target.type)) {
    writeTargets(run, state, targets, target.type, zeroOf(target.type), context);
    return;
  }
  const size = sizeOf(target.type);
  for (const place of targets ?? []) {
    if (place.kind !== "memory" || !number.isSingle(place.offset)) continue;
    const aggregate = state.ownAggregate(place.object);
    const byte: Type = { kind: "integer", integer: { bits: 8, signed: false }, name: "uint8_t", bool: false };
    for (let at = 0; at < size && at < 4096; at++)
      aggregate.write(place.offset.min + at, byte, number.constant(0, { bits: 8, signed: false }));
  }
}

function leaveResult(run: Run, state: State, value: Expression, start: number): void {
  const result = run.frames[run.frames.length - 1]?.result;
  if (result == null) {
    evaluate(run, state, value);
    return;
  }
  if (result.type.kind === "record" || result.type.kind === "array") {
    const target = { op: "variable", variable: result, type: result.type, start, end: start } as const;
    state.memory.set(objectOf(result, state.depth), new Aggregate(new Map(), "unknown", null, state.token));
    if (value.op === "variable" || value.op === "dereference" || value.op === "member" || value.op === "index") {
      copyObject(run, state, target, value);
    }
    return;
  }
  state.memory.set(objectOf(result, state.depth), evaluate(run, state, value));
}

/**
 * Sorts states by the outcome of a condition; one that can have both is followed both ways. `named`: the condition is
 * the sketch's own and may be quoted.
 */
export function split(run: Run, states: readonly State[], condition: Expression, named = true): [State[], State[]] {
  if (condition.op === "not") {
    const [yes, no] = split(run, states, condition.operand, named);
    return [no, yes];
  }
  if (condition.op === "and" || condition.op === "or") {
    const [yes, no] = split(run, states, condition.left, named);
    if (condition.op === "and") {
      const [both, second] = split(run, yes, condition.right, named);
      return [
        both,
        no.length > 0 && second.length > 0
          ? reduceStates(run, [...no, ...second], condition.start)
          : [...no, ...second],
      ];
    }
    const [second, neither] = split(run, no, condition.right, named);
    return [
      yes.length > 0 && second.length > 0
        ? reduceStates(run, [...yes, ...second], condition.start)
        : [...yes, ...second],
      neither,
    ];
  }
  const yes: State[] = [];
  const no: State[] = [];
  for (const state of states) {
    run.tick(condition.start);
    spend(run, state, condition);
    const known = truthOf(evaluate(run, state, condition));
    if (known === true) yes.push(state);
    else if (known === false) no.push(state);
    else {
      const other = state.fork();
      if (assume(run, state, condition, true)) {
        if (named && run.behalf === null) state.assumeCondition(condition.start, condition.end, true);
        yes.push(state);
      }
      if (assume(run, other, condition, false)) {
        if (named && run.behalf === null) other.assumeCondition(condition.start, condition.end, false);
        no.push(other);
      }
    }
  }
  const after = states.some((state) => state.due || state.ended);
  if (!after) return [yes, no];
  return [afterEffects(run, yes, condition.start), afterEffects(run, no, condition.start)];
}

function executeSwitch(
  run: Run,
  states: State[],
  statement: Extract<Statement, { op: "switch" }>,
  exits: Exits,
): State[] {
  const { value, cases } = statement;
  const type = value.type.kind === "integer" ? value.type.integer : ({ bits: 16, signed: true } as const);
  const entering: State[][] = cases.map(() => []);
  const listed = new Set<number>();
  for (const entry of cases) for (const label of entry.values ?? []) listed.add(label);
  const fallback = cases.findIndex((entry) => entry.values === null);
  const leaving: State[] = [];
  for (const state of states) {
    run.tick(statement.start);
    const selected = evaluate(run, state, value);
    if (!("zeros" in selected)) {
      for (const list of entering) list.push(state.fork());
      if (fallback < 0) leaving.push(state);
      continue;
    }
    for (const [index, entry] of cases.entries()) {
      for (const label of entry.values ?? []) {
        if (!number.contains(selected, label)) continue;
        const path = number.isSingle(selected) ? state : state.fork();
        const equality = comparison(value, label, statement);
        if (path === state || assume(run, path, equality, true)) {
          if (path !== state && run.behalf === null) path.assumeCase(value.start, value.end, label);
          entering[index]!.push(path);
        }
      }
    }
    if (number.isSingle(selected) && listed.has(selected.min)) continue;
    let rest: State | null = number.isSingle(selected) ? state : state.fork();
    if (!number.isSingle(selected)) {
      let left: number.AbstractInteger | null = selected;
      for (const label of listed) {
        if (left === null) break;
        left = number.assumeNotEqual(left, number.constant(label, type), type)?.left ?? null;
      }
      if (left === null) rest = null;
      else for (const label of listed) assume(run, rest, comparison(value, label, statement), false);
    }
    if (rest === null) continue;
    if (fallback >= 0) entering[fallback]!.push(rest);
    else leaving.push(rest);
  }
  const inner: Exits = { ...exits, breaks: [] };
  let current: State[] = [];
  for (const [index, entry] of cases.entries()) {
    const arriving = entering[index]!;
    current = current.length === 0 ? arriving : reduceStates(run, [...current, ...arriving], statement.start);
    current = executeBlock(run, current, entry.body, inner);
  }
  return reduceStates(run, [...current, ...inner.breaks, ...leaving], statement.start);
}

function comparison(value: Expression, label: number, statement: { start: number; end: number }): Expression {
  const { start, end } = statement;
  return {
    op: "compare",
    operator: "==",
    left: value,
    right: { op: "integer", value: label, type: value.type, start, end },
    type: value.type,
    start,
    end,
  };
}

function executeOnce(run: Run, states: State[], statement: Extract<Statement, { op: "once" }>, exits: Exits): State[] {
  const first: State[] = [];
  const again: State[] = [];
  for (const state of states) {
    const object = objectOf(statement.flag, 0);
    const flag = state.memory.get(object);
    const known = flag === undefined || flag instanceof Aggregate ? null : truthOf(flag);
    const set = number.constant(1, { bits: 8, signed: false });
    if (known !== true) {
      const fresh = known === false ? state : state.fork();
      fresh.memory.set(object, set);
      first.push(fresh);
    }
    if (known !== false) {
      state.memory.set(object, set);
      again.push(state);
    }
  }
  return reduceStates(run, [...execute(run, first, statement.body, exits), ...again], 0);
}
