/** Expressions on one state. Law: the real value is among those returned, and the state after describes the real one. */
import type { Expression } from "../program/ir.js";
import type { Type } from "../program/types.js";
import { assume } from "./assume.js";
import { comparison, convertValue, inverse, truthOf, truthValue } from "./conversions.js";
import { callCore } from "./core/core.js";
import { forgetTargets } from "./core/memory-functions.js";
import { plain, through } from "./domain/dependence.js";
import * as float from "./domain/float.js";
import * as number from "./domain/number.js";
import { hasEffects } from "./effects.js";
import { recall } from "./facts.js";
import { havocHardware, havocMemory } from "./havoc.js";
import { dependentJoin, exact } from "./inputs.js";
import { distance, operate } from "./operations.js";
import { locate, readPlace, shifted, writePlace } from "./places.js";
import type { RegisterWriteContext } from "./register-writes.js";
import type { Run } from "./run.js";
import { absorb, JOIN, objectOf, type State } from "./state.js";
import { passTime } from "./time-passing.js";
import { anything, isPointer, join, NULL_POINTER, OFFSET, type Value } from "./value.js";

export function evaluate(run: Run, state: State, expression: Expression): Value {
  switch (expression.op) {
    case "integer":
      return expression.type.kind === "integer"
        ? number.constant(expression.value, expression.type.integer)
        : anything(expression.type);
    case "real":
      return float.constant(expression.value);
    case "load":
      return readPlace(run, state, expression.place);
    case "traced": {
      const value = evaluate(run, state, expression.operand);
      run.trace(expression.trace, value);
      return value;
    }
    case "convert":
      return convertValue(evaluate(run, state, expression.operand), expression.operand.type, expression.type);
    case "binary":
      return recall(state, expression, evaluateBinary(run, state, expression));
    case "compare":
      return comparison(
        evaluate(run, state, expression.left),
        evaluate(run, state, expression.right),
        expression.operator,
      );
    case "negate":
    case "complement": {
      const operand = evaluate(run, state, expression.operand);
      if (expression.type.kind === "integer" && "zeros" in operand) {
        return expression.op === "negate"
          ? number.neg(operand, expression.type.integer)
          : number.not(operand, expression.type.integer);
      }
      if ("nan" in operand && expression.op === "negate") return float.neg(operand);
      return anything(expression.type);
    }
    case "not":
      return opposite(evaluate(run, state, expression.operand));
    case "and":
    case "or":
      return evaluateLogical(run, state, expression);
    case "choose":
      return evaluateChoice(run, state, expression);
    case "comma":
      evaluate(run, state, expression.left);
      return evaluate(run, state, expression.right);
    case "assign":
      return evaluateAssignment(run, state, expression);
    case "address": {
      const targets = locate(run, state, expression.place);
      return { targets, mayBeNull: targets === null };
    }
    case "offset": {
      const pointer = evaluate(run, state, expression.pointer);
      const count = evaluate(run, state, expression.count);
      if (
        !isPointer(pointer) ||
        pointer.targets === null ||
        !("zeros" in count) ||
        expression.count.type.kind !== "integer"
      ) {
        return anything(expression.type);
      }
      const wide = number.mul(
        number.convert(count, expression.count.type.integer, OFFSET),
        number.constant(expression.size, OFFSET),
        OFFSET,
      );
      const by = expression.negative ? number.neg(wide, OFFSET) : wide;
      return { targets: shifted(pointer.targets, by), mayBeNull: pointer.mayBeNull };
    }
    case "distance":
      return distance(
        evaluate(run, state, expression.left),
        evaluate(run, state, expression.right),
        expression.size,
        expression.type,
      );
    case "null":
      return NULL_POINTER;
    case "text":
      return {
        targets: [
          {
            kind: "memory",
            object: objectOf(expression.object, 0),
            variable: expression.object,
            offset: number.constant(0, OFFSET),
          },
        ],
        mayBeNull: false,
      };
    case "function":
      return { targets: [{ kind: "code", code: expression.code }], mayBeNull: false };
    case "core":
      return recall(state, expression, callCore(run, state, expression));
    case "unknown":
      for (const operand of expression.operands) evaluate(run, state, operand);
      if (!expression.harmless && expression.why !== "") {
        const reaches =
          expression.operands.length > 0 ||
          expression.why.includes("()") ||
          expression.why.startsWith("inline assembly");
        run.gap(expression.why, expression.start, expression.end, reaches ? everyTimer(run) : []);
        if (expression.operands.length > 0 || expression.why.includes("()")) {
          havocHardware(run, state, expression.start);
          havocMemory(run, state);
          // What cannot be seen may take its time.
          passTime(run, state, expression.start);
        } else if (expression.why.startsWith("inline assembly")) {
          havocHardware(run, state, expression.start);
        }
      } else if (expression.harmless) {
        if (expression.fills === true) forgetPointees(run, state, expression);
        if (expression.takesTime === true) passTime(run, state, expression.start);
      }
      return anything(expression.type);
    default:
      return readPlace(run, state, expression);
  }
}

function everyTimer(run: Run): string[] {
  return run.layout.timers.map((timer) => `timer ${timer.fact.number}`);
}

/** A quiet function may still fill the buffer it was given. */
function forgetPointees(run: Run, state: State, expression: Extract<Expression, { op: "unknown" }>): void {
  for (const operand of expression.operands) {
    if (operand.type.kind !== "pointer" || operand.op === "text") continue;
    const value = evaluate(run, state, operand);
    if (isPointer(value)) forgetTargets(run, state, value.targets, expression.start);
  }
}

function opposite(value: Value): Value {
  const known = truthValue(inverse(truthOf(value)));
  return "zeros" in value && value.by !== undefined ? through(known, value, (each) => (each === 0 ? 1 : 0)) : known;
}

function evaluateBinary(run: Run, state: State, expression: Extract<Expression, { op: "binary" }>): Value {
  const left = evaluate(run, state, expression.left);
  const right = evaluate(run, state, expression.right);
  return operate(expression.operator, left, right, expression.type);
}

function evaluateLogical(run: Run, state: State, expression: Extract<Expression, { op: "and" | "or" }>): Value {
  const left = truthOf(evaluate(run, state, expression.left));
  const stops = expression.op === "or";
  if (left === stops) return truthValue(stops);
  if (left !== null) return truthValue(truthOf(evaluate(run, state, expression.right)));
  // The right side runs on some paths only.
  const other = state.fork();
  const possible = assume(run, other, expression.left, !stops);
  const right = possible ? truthOf(evaluate(run, other, expression.right)) : stops;
  if (hasEffects(expression.right)) absorb(state, other, JOIN, run.variables);
  return truthValue(right === stops ? stops : null);
}

function evaluateChoice(run: Run, state: State, expression: Extract<Expression, { op: "choose" }>): Value {
  const known = truthOf(evaluate(run, state, expression.condition));
  if (known !== null) return evaluate(run, state, known ? expression.yes : expression.no);
  const yes = state.fork();
  const no = state.fork();
  yes.facts = new Map(state.facts ?? []);
  no.facts = new Map(state.facts ?? []);
  const mayHold = assume(run, yes, expression.condition, true);
  const mayFail = assume(run, no, expression.condition, false);
  const effects = hasEffects(expression.yes) || hasEffects(expression.no);
  if (effects) {
    yes.facts = null;
    no.facts = null;
  }
  let value: Value | null = null;
  if (mayHold) value = evaluate(run, yes, expression.yes);
  if (mayFail) {
    const other = evaluate(run, no, expression.no);
    value = value === null ? other : dependentJoin(join(value, other), value, other, yes.inputs, no.inputs);
  }
  if (effects) {
    if (mayHold) absorb(state, yes, JOIN, run.variables);
    if (mayFail) absorb(state, no, JOIN, run.variables);
  }
  return value ?? anything(expression.type);
}

function evaluateAssignment(run: Run, state: State, expression: Extract<Expression, { op: "assign" }>): Value {
  const { target, operator } = expression;
  if (operator === null) {
    const former = expression.old ? readPlace(run, state, target) : null;
    const wide = evaluate(run, state, expression.asked ?? expression.value);
    const value = expression.asked === null ? wide : convertValue(wide, expression.asked.type, target.type);
    const asked = expression.asked === null ? null : askedFor(state, wide, expression.asked.type);
    writePlace(run, state, target, value, contextOf(expression, expression.increment ?? "=", asked, 0));
    return former ?? value;
  }
  const before = readPlace(run, state, target);
  const right = evaluate(run, state, expression.value);
  const wide = operate(operator, convertValue(before, target.type, expression.working), right, expression.working);
  const value = convertValue(wide, expression.working, target.type);
  const asked = askedFor(state, wide, expression.working);
  writePlace(run, state, target, value, {
    ...contextOf(expression, expression.increment ?? `${operator}=`, asked, preservedBits(operator, right, expression)),
    flips: operator === "^" && "zeros" in right ? right.ones : 0,
  });
  return expression.old ? before : value;
}

/** The right side's own value, before it is cut to the register's width. */
function askedFor(state: State, value: Value, type: Type): RegisterWriteContext["asked"] {
  return "zeros" in value && type.kind === "integer"
    ? { value: plain(exact(state, value, type.integer)), type: type.integer, by: value.by }
    : null;
}

/** Bits that `|=`, `&=` and `^=` leave alone whatever they are. */
function preservedBits(operator: string, right: Value, expression: Extract<Expression, { op: "assign" }>): number {
  if (!("zeros" in right) || expression.value.type.kind !== "integer") return 0;
  if (operator === "|" || operator === "^") return right.zeros;
  return operator === "&" ? right.ones : 0;
}

function contextOf(
  expression: Extract<Expression, { op: "assign" }>,
  operator: string,
  asked: RegisterWriteContext["asked"],
  preserves: number,
): RegisterWriteContext {
  return {
    start: expression.start,
    end: expression.end,
    targetStart: expression.target.start,
    targetEnd: expression.target.end,
    operator,
    written: expression.written,
    asked,
    preserves,
    flips: 0,
  };
}
