/** Calls of the sketch's own functions: by name, through pointers, through virtual tables. Law: whoever may be called is called. */
import type { FunctionCode, Statement, Variable } from "../program/ir.js";
import { copyObject } from "./copy-object.js";
import { runOfCore } from "./core/own-sources.js";
import * as number from "./domain/number.js";
import { evaluate } from "./evaluate.js";
import { havocHardware, havocMemory } from "./havoc.js";
import { Aggregate } from "./memory.js";
import { readTargets } from "./places.js";
import { reduceStates } from "./reduce-states.js";
import type { Run } from "./run.js";
import { objectOf, type State } from "./state.js";
import { execute, noExits } from "./statements.js";
import { anything, isPointer, isScalar, type Value } from "./value.js";

type CallStatement = Extract<Statement, { op: "call" }>;

export function executeCall(run: Run, states: State[], statement: CallStatement): State[] {
  const byCallee = new Map<FunctionCode | null, State[]>();
  for (const state of states) {
    run.tick(statement.start);
    const callees = calleesOf(run, state, statement);
    for (const [index, callee] of callees.entries()) {
      const path = index === callees.length - 1 ? state : state.fork();
      const list = byCallee.get(callee) ?? [];
      list.push(path);
      byCallee.set(callee, list);
    }
  }
  const after: State[] = [];
  for (const [callee, paths] of byCallee) after.push(...callOne(run, paths, callee, statement));
  return reduceStates(run, after, statement.start);
}

/** Who may be called from here; null stands for code that cannot be seen. */
function calleesOf(run: Run, state: State, statement: CallStatement): readonly (FunctionCode | null)[] {
  if (statement.pointer !== null) {
    const pointer = evaluate(run, state, statement.pointer);
    if (!isPointer(pointer) || pointer.targets === null || pointer.targets.length === 0) return [null];
    const found = pointer.targets.map((target) => (target.kind === "code" ? target.code : null));
    return [...new Set(found)];
  }
  if (statement.dispatch !== null && statement.self !== null) return dispatched(run, state, statement);
  return [statement.code];
}

/** The object's own class decides; where it is not known, every class that could stand there. */
function dispatched(run: Run, state: State, statement: CallStatement): readonly (FunctionCode | null)[] {
  const { record, candidates } = statement.dispatch!;
  const all = [...new Set(candidates.values())];
  const self = evaluate(run, state, statement.self!);
  if (!isPointer(self) || self.targets === null || record.tagOffset < 0) return all.length > 0 ? all : [statement.code];
  const found = new Set<FunctionCode | null>();
  for (const target of self.targets) {
    if (target.kind !== "memory") return all;
    const tagType = { kind: "integer", integer: { bits: 16, signed: false }, name: "", bool: false } as const;
    const at = {
      ...target,
      offset: number.add(target.offset, number.constant(record.tagOffset, { bits: 32, signed: true }), {
        bits: 32,
        signed: true,
      }),
    };
    const tag = readTargets(run, state, [at], tagType);
    if (!("zeros" in tag) || tag.values === null) return all;
    for (const value of tag.values) {
      for (const [candidate, code] of candidates) if ((candidate.id & 0xffff) === value) found.add(code);
    }
  }
  return found.size > 0 ? [...found] : all.length > 0 ? all : [statement.code];
}

function callOne(run: Run, states: State[], callee: FunctionCode | null, statement: CallStatement): State[] {
  if (callee === null || callee.body === null) {
    const name = callee === null ? "a function that is not known here" : `${callee.name}()`;
    run.gap(`${name} was not seen`, statement.start, statement.end);
    return unseen(run, states, statement);
  }
  const nested = run.frames.filter((frame) => frame === callee).length;
  const undecided = nested > 0 && !states.every((state) => isDecided(state, callee));
  if (undecided) run.undecidedCalls++;
  if (undecided && (nested >= run.limits.undecidedRecursion || run.undecidedCalls > run.limits.undecidedCalls)) {
    run.gap(
      `${callee.name}() calls itself, and how often is not known; it was not followed further`,
      statement.start,
      statement.end,
    );
    return unseen(run, states, statement);
  }
  if (run.frames.length >= run.limits.callDepth || run.exhausted) {
    run.gap(`calls nested deeper than ${run.limits.callDepth} were not followed`, statement.start, statement.end);
    return unseen(run, states, statement);
  }
  for (const state of states) enter(run, state, callee, statement);
  const after =
    callee.core && run.behalf === null
      ? runOfCore(run, states, callee, statement)
      : runBody(run, states, callee, statement.start);
  for (const state of after) leave(state, callee, statement);
  return after;
}

/** Whether the function that called itself was given values that are known: then its depth is the program's own. */
function isDecided(state: State, callee: FunctionCode): boolean {
  return callee.parameters.every((parameter) => {
    const value = state.memory.get(objectOf(parameter, state.depth));
    return value === undefined || value instanceof Aggregate || !("zeros" in value) || value.min === value.max;
  });
}

/** Code that cannot be seen: everything it could reach is unknown afterwards. */
function unseen(run: Run, states: State[], statement: CallStatement): State[] {
  for (const state of states) {
    havocHardware(run, state, statement.start);
    havocMemory(run, state);
    run.collector.settle(state, statement.start);
    if (statement.result !== null) setUnknown(state, statement.result);
  }
  return states;
}

function setUnknown(state: State, variable: Variable): void {
  const object = objectOf(variable, state.depth);
  if (isScalar(variable.type)) state.memory.set(object, anything(variable.type));
  else state.memory.set(object, new Aggregate(new Map(), "unknown", null, state.token));
}

function enter(run: Run, state: State, callee: FunctionCode, statement: CallStatement): void {
  // From the last to the first, as the compiler has it (program/evaluation-order.ts).
  const values: (Value | null)[] = statement.arguments.map(() => null);
  for (const [index, argument] of [...statement.arguments.entries()].reverse()) {
    const parameter = callee.parameters[index];
    if (parameter === undefined || isScalar(parameter.type)) values[index] = evaluate(run, state, argument);
  }
  const self = statement.self === null ? null : evaluate(run, state, statement.self);
  const depth = state.depth + 1;
  for (const [index, parameter] of callee.parameters.entries()) {
    const value = values[index];
    const object = objectOf(parameter, depth);
    if (value !== undefined && value !== null) state.memory.set(object, value);
    else if (isScalar(parameter.type)) state.memory.set(object, anything(parameter.type));
    else passObject(run, state, parameter, depth, statement, index);
  }
  if (callee.self !== null) state.memory.set(objectOf(callee.self, depth), self ?? anything(callee.self.type));
  state.depth = depth;
}

function passObject(
  run: Run,
  state: State,
  parameter: Variable,
  depth: number,
  statement: CallStatement,
  index: number,
): void {
  const argument = statement.arguments[index];
  const object = objectOf(parameter, depth);
  state.memory.set(object, new Aggregate(new Map(), "unknown", null, state.token));
  if (argument === undefined) return;
  if (
    argument.op !== "variable" &&
    argument.op !== "dereference" &&
    argument.op !== "member" &&
    argument.op !== "index"
  )
    return;
  // The copy is made in the caller's frame, under a name of the callee's.
  const stand: Variable = { ...parameter, id: parameter.id, storage: "local" };
  const before = state.depth;
  const holder = objectOf(stand, before);
  const saved = state.memory.get(holder);
  state.memory.set(holder, new Aggregate(new Map(), "unknown", null, state.token));
  copyObject(
    run,
    state,
    { op: "variable", variable: stand, type: parameter.type, start: statement.start, end: statement.end },
    argument,
  );
  const copied = state.memory.get(holder);
  if (copied !== undefined) state.memory.set(object, copied);
  if (holder !== object) {
    if (saved === undefined) state.memory.delete(holder);
    else state.memory.set(holder, saved);
  }
}

/** Runs a function's body on states that have entered it; answers with those that returned. `site`: where it is called. */
export function runBody(run: Run, states: State[], callee: FunctionCode, site = -1): State[] {
  const outer = run.where;
  run.where = { functionName: callee.name, interrupt: callee.interrupt ?? outer.interrupt };
  run.frames.push(callee);
  run.collector.watches.enter(callee, site);
  const exits = noExits();
  const fallen = callee.body === null ? states : execute(run, states, callee.body, exits);
  run.frames.pop();
  run.where = outer;
  for (const [label, waiting] of exits.jumps) {
    run.gap(`the jump to ${label} was not followed`, callee.start, callee.start);
    for (const state of waiting) {
      havocHardware(run, state, callee.start);
      havocMemory(run, state);
    }
    exits.returns.push(...waiting);
  }
  run.collector.watches.leave(callee, [...fallen, ...exits.returns]);
  return reduceStates(run, [...fallen, ...exits.returns], callee.start);
}

function leave(state: State, callee: FunctionCode, statement: CallStatement): void {
  const { depth } = state;
  let result: Value | Aggregate | undefined;
  if (callee.result !== null) {
    const object = objectOf(callee.result, depth);
    result = state.memory.get(object);
    state.memory.delete(object);
  }
  for (const variable of callee.locals) state.memory.delete(objectOf(variable, depth));
  for (const variable of callee.parameters) state.memory.delete(objectOf(variable, depth));
  if (callee.self !== null) state.memory.delete(objectOf(callee.self, depth));
  state.depth = depth - 1;
  if (statement.result === null) return;
  if (result === undefined) setUnknown(state, statement.result);
  else state.memory.set(objectOf(statement.result, state.depth), result);
}

/** Runs a function without arguments from outside: setup, loop, an interrupt routine (`site`: where it comes). */
export function runFunction(run: Run, states: State[], code: FunctionCode, site = -1): State[] {
  for (const state of states) state.depth += 1;
  const after = runBody(run, states, code, site);
  for (const state of after) {
    for (const variable of code.locals) state.memory.delete(objectOf(variable, state.depth));
    state.depth -= 1;
  }
  return after;
}
