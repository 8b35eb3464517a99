/** Expressions on one state. Law: the real value is among those returned, and the state after describes the real one. */
import { constantOf } from "../program/constant.js";
import type { Expression } from "../program/ir.js";
import type { Type } from "../program/types.js";
import { assume } from "./assume.js";
import { callCore } from "./core/core.js";
import { forgetTargets } from "./core/memory-functions.js";
import * as float from "./domain/float.js";
import * as number from "./domain/number.js";
import { isPureCore, recall } from "./facts.js";
import { havocHardware, havocMemory } from "./havoc.js";
import { locate, readPlace, shifted, writePlace } from "./places.js";
import type { RegisterWriteContext } from "./register-writes.js";
import type { Run } from "./run.js";
import { absorb, JOIN, objectOf, type State } from "./state.js";
import { passTime } from "./time-passing.js";
import { anything, isPointer, join, NULL_POINTER, OFFSET, type Target, type Value } from "./value.js";

const BOOL: number.IntegerType = { bits: 8, signed: false };
const FALSE = number.constant(0, BOOL);
const TRUE = number.constant(1, BOOL);
const EITHER = number.range(0, 1, BOOL);

export function truthValue(known: boolean | null): number.AbstractInteger {
  return known === null ? EITHER : known ? TRUE : FALSE;
}

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
      return truthValue(
        compareValues(
          evaluate(run, state, expression.left),
          evaluate(run, state, expression.right),
          expression.operator,
        ),
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
      return truthValue(inverse(truthOf(evaluate(run, state, expression.operand))));
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

/** True, false, or not known; pointers are true where they cannot be null. */
export function truthOf(value: Value): boolean | null {
  if ("zeros" in value) return number.truth(value);
  if ("nan" in value) return float.truth(value);
  if (value.targets === null) return null;
  if (value.targets.length === 0) return value.mayBeNull ? false : null;
  return value.mayBeNull ? null : true;
}

export function inverse(known: boolean | null): boolean | null {
  return known === null ? null : !known;
}

/** Conversion of a value from one type to another, as C does it. */
export function convertValue(value: Value, from: Type, to: Type): Value {
  if (to.kind === "integer") {
    if (to.bool) return truthValue(truthOf(value));
    if ("zeros" in value && from.kind === "integer") return number.convert(value, from.integer, to.integer);
    if ("nan" in value) return float.toInteger(value, to.integer);
    if ("targets" in value) return addressAsInteger(value.targets, value.mayBeNull, to);
    return anything(to);
  }
  if (to.kind === "float") {
    if ("nan" in value) return value;
    return "zeros" in value ? float.fromInteger(value) : anything(to);
  }
  if (to.kind === "pointer" || to.kind === "reference") {
    if ("targets" in value) return value;
    if ("zeros" in value && from.kind === "integer") {
      if (number.holdsOnly(value, 0)) return NULL_POINTER;
      const address = number.convert(value, from.integer, OFFSET);
      if (address.min >= 0x20 && address.max < 0x200)
        return { targets: [{ kind: "register", address }], mayBeNull: false };
    }
    return anything(to);
  }
  return anything(to);
}

/** The number of a register's address; other addresses are not known. */
function addressAsInteger(
  targets: readonly Target[] | null,
  mayBeNull: boolean,
  to: Extract<Type, { kind: "integer" }>,
): Value {
  if (targets === null || targets.length === 0)
    return mayBeNull && targets !== null ? number.constant(0, to.integer) : anything(to);
  let result: Value | null = null;
  for (const target of targets) {
    if (target.kind !== "register") return anything(to);
    const value = number.convert(target.address, OFFSET, to.integer);
    result = result === null ? value : join(result, value);
  }
  return result ?? anything(to);
}

const INTEGER_OPERATIONS = {
  "+": number.add,
  "-": number.sub,
  "*": number.mul,
  "/": number.div,
  "%": number.mod,
  "&": number.and,
  "|": number.or,
  "^": number.xor,
  "<<": number.shl,
  ">>": number.shr,
} as const;

function evaluateBinary(run: Run, state: State, expression: Extract<Expression, { op: "binary" }>): Value {
  const left = evaluate(run, state, expression.left);
  const right = evaluate(run, state, expression.right);
  return operate(state, expression.operator, left, right, expression.type);
}

/** `left op right` in `type`; counts an upper bound of the cycles it takes. */
export function operate(
  state: State,
  operator: keyof typeof INTEGER_OPERATIONS,
  left: Value,
  right: Value,
  type: Type,
): Value {
  if (type.kind === "integer") {
    state.cycles += costOf(operator, type.integer.bits);
    if ("zeros" in left && "zeros" in right) return INTEGER_OPERATIONS[operator](left, right, type.integer);
    return anything(type);
  }
  state.cycles += 600;
  if (!("nan" in left) || !("nan" in right)) return anything(type);
  switch (operator) {
    case "+":
      return float.add(left, right);
    case "-":
      return float.sub(left, right);
    case "*":
      return float.mul(left, right);
    case "/":
      return float.div(left, right);
    default:
      return anything(type);
  }
}

/** Upper bounds for avr-gcc's code and libgcc's routines; from memory, generous. */
function costOf(operator: string, bits: number): number {
  if (operator === "/" || operator === "%") return bits <= 8 ? 110 : bits <= 16 ? 240 : 720;
  if (operator === "*") return bits <= 16 ? 16 : 90;
  if (operator === "<<" || operator === ">>") return bits * 4;
  return bits / 4;
}

export function compareValues(left: Value, right: Value, operator: string): boolean | null {
  if ("zeros" in left && "zeros" in right) {
    switch (operator) {
      case "<":
        return number.less(left, right);
      case "<=":
        return number.lessEqual(left, right);
      case ">":
        return number.less(right, left);
      case ">=":
        return number.lessEqual(right, left);
      case "==":
        return number.equalTo(left, right);
      default:
        return inverse(number.equalTo(left, right));
    }
  }
  if ("nan" in left && "nan" in right) {
    switch (operator) {
      case "<":
        return float.less(left, right);
      case "<=":
        return float.lessEqual(left, right);
      case ">":
        return float.less(right, left);
      case ">=":
        return float.lessEqual(right, left);
      case "==":
        return float.equalTo(left, right);
      default:
        return inverse(float.equalTo(left, right));
    }
  }
  if ("targets" in left && "targets" in right && (operator === "==" || operator === "!=")) {
    const same = samePointers(left, right);
    return operator === "==" ? same : inverse(same);
  }
  return null;
}

function samePointers(left: Value & { targets: unknown }, right: Value & { targets: unknown }): boolean | null {
  if (!isPointer(left) || !isPointer(right) || left.targets === null || right.targets === null) return null;
  const leftNull = left.targets.length === 0 && left.mayBeNull;
  const rightNull = right.targets.length === 0 && right.mayBeNull;
  if (leftNull && rightNull) return true;
  if (leftNull) return right.mayBeNull ? null : false;
  if (rightNull) return left.mayBeNull ? null : false;
  if (left.targets.length !== 1 || right.targets.length !== 1 || left.mayBeNull || right.mayBeNull) return null;
  const [a, b] = [left.targets[0]!, right.targets[0]!];
  if (a.kind !== b.kind) return false;
  if (a.kind === "code") return a.code === (b as typeof a).code;
  if (a.kind === "register") return number.equalTo(a.address, (b as typeof a).address);
  return a.object === (b as typeof a).object ? number.equalTo(a.offset, (b as typeof a).offset) : false;
}

function distance(left: Value, right: Value, size: number, type: Type): Value {
  if (!isPointer(left) || !isPointer(right) || left.targets?.length !== 1 || right.targets?.length !== 1)
    return anything(type);
  const [a, b] = [left.targets[0]!, right.targets[0]!];
  if (a.kind === "memory" && b.kind === "memory" && a.object === b.object && type.kind === "integer") {
    const bytes = number.sub(a.offset, b.offset, OFFSET);
    return number.convert(number.div(bytes, number.constant(size, OFFSET), OFFSET), OFFSET, type.integer);
  }
  return anything(type);
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
    value = value === null ? other : join(value, other);
  }
  if (effects) {
    if (mayHold) absorb(state, yes, JOIN, run.variables);
    if (mayFail) absorb(state, no, JOIN, run.variables);
  }
  return value ?? anything(expression.type);
}

/** Whether evaluating may change the state. */
export function hasEffects(expression: Expression): boolean {
  switch (expression.op) {
    case "assign":
    case "unknown":
    case "temporary":
      return true;
    case "core":
      return !isPureCore(expression.name) || expression.arguments.some(hasEffects);
    case "load":
      return hasEffects(expression.place);
    case "address":
      return hasEffects(expression.place);
    case "dereference":
      return hasEffects(expression.pointer);
    case "index":
      return hasEffects(expression.base) || hasEffects(expression.index);
    case "member":
      return hasEffects(expression.base);
    case "convert":
    case "negate":
    case "complement":
    case "not":
    case "traced":
      return hasEffects(expression.operand);
    case "binary":
    case "compare":
    case "and":
    case "or":
    case "comma":
    case "distance":
      return hasEffects(expression.left) || hasEffects(expression.right);
    case "offset":
      return hasEffects(expression.pointer) || hasEffects(expression.count);
    case "choose":
      return hasEffects(expression.condition) || hasEffects(expression.yes) || hasEffects(expression.no);
    default:
      return false;
  }
}

function evaluateAssignment(run: Run, state: State, expression: Extract<Expression, { op: "assign" }>): Value {
  const { target, operator } = expression;
  if (operator === null) {
    const former = expression.old ? readPlace(run, state, target) : null;
    const value =
      expression.asked === null
        ? evaluate(run, state, expression.value)
        : convertValue(evaluate(run, state, expression.asked), expression.asked.type, target.type);
    const asked = expression.asked === null ? null : lastAsked(run, state, expression.asked);
    writePlace(run, state, target, value, contextOf(expression, expression.increment ?? "=", asked, 0));
    return former ?? value;
  }
  const before = readPlace(run, state, target);
  const right = evaluate(run, state, expression.value);
  const wide = operate(
    state,
    operator,
    convertValue(before, target.type, expression.working),
    right,
    expression.working,
  );
  const value = convertValue(wide, expression.working, target.type);
  const asked =
    "zeros" in wide && expression.working.kind === "integer" ? { value: wide, type: expression.working.integer } : null;
  writePlace(
    run,
    state,
    target,
    value,
    contextOf(expression, expression.increment ?? `${operator}=`, asked, preservedBits(operator, right, expression)),
  );
  return expression.old ? before : value;
}

/** The right side's own value: it was just traced, so its cell is current; recomputing would repeat its effects. */
function lastAsked(run: Run, state: State, asked: Expression): RegisterWriteContext["asked"] {
  if (asked.type.kind !== "integer") return null;
  void state;
  if (asked.op === "traced") {
    const value = run.traced[asked.trace];
    return value !== undefined && "zeros" in value ? { value, type: asked.type.integer } : null;
  }
  const known = constantOf(asked);
  return known === undefined ? null : { value: number.constant(known, asked.type.integer), type: asked.type.integer };
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
  };
}
