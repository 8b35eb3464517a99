/**
 * How long code takes, from above: CPU cycles of expressions, statements and calls as avr-gcc makes them with the core's
 * flags (-Os). Law: the real code is never slower. Loads, stores and simple arithmetic are counted from the instruction set
 * (DS40002061 section 31) with a margin; multiplication, division and floats are libgcc's and avr-libc's, rounded up from
 * memory; what the oracle's sketches measure holds both to it.
 */
import { constantOf } from "../../program/constant.js";
import type { Expression, FunctionCode, Place, Statement, Variable } from "../../program/ir.js";
import { sizeOf, type Type } from "../../program/types.js";
import { coreCost } from "./core-costs.js";
import { type Starts, tripsOf } from "./trip-counts.js";

/** Calling and returning: arguments in registers, up to eighteen registers saved and brought back. */
export const CALL = 120;
/** A call that is known to be quick and is not seen: a serial buffer asked, a short text copied. */
const QUICK_CALL = 3_000;
const FOLDED: ReadonlySet<string> = new Set(["binary", "compare", "convert", "negate", "complement", "not", "choose"]);
const BITWISE: ReadonlySet<string> = new Set(["|", "&", "^"]);
/** For moves between registers that the compiler could not avoid. */
const MARGIN = 8;

const ofExpressions = new WeakMap<Expression, number>();
const ofFunctions = new WeakMap<FunctionCode, number>();

/** Cycles of an expression, what its calls of the core take apart: those are told when they are made. */
export function costOf(expression: Expression): number {
  let known = ofExpressions.get(expression);
  if (known === undefined) {
    known = MARGIN + measure(expression, false);
    ofExpressions.set(expression, known);
  }
  return known;
}

export function bytesOf(type: Type): number {
  return Math.min(64, Math.max(1, sizeOf(type)));
}

/** `whole`: calls of the core included. */
export function measure(expression: Expression, whole: boolean): number {
  const part = (each: Expression): number => measure(each, whole);
  // `1 << CS11` and the like are worked out by the compiler.
  if (FOLDED.has(expression.op) && constantOf(expression) !== undefined) return bytesOf(expression.type);
  switch (expression.op) {
    case "integer":
    case "real":
    case "null":
    case "text":
    case "function":
      return bytesOf(expression.type);
    case "load":
      return placeCost(expression.place, whole) + 2 * bytesOf(expression.type);
    case "address":
      return placeCost(expression.place, whole) + 4;
    case "traced":
      return part(expression.operand);
    case "convert":
      return part(expression.operand) + conversion(expression.operand.type, expression.type);
    case "negate":
    case "complement":
      return part(expression.operand) + (expression.type.kind === "float" ? 20 : 3 * bytesOf(expression.type));
    case "not":
      return part(expression.operand) + 6 + 2 * bytesOf(expression.operand.type);
    case "binary":
      return part(expression.left) + part(expression.right) + operation(expression.operator, expression.type);
    case "compare":
      return (
        part(expression.left) +
        part(expression.right) +
        (expression.left.type.kind === "float" ? 150 : 6 + 3 * bytesOf(expression.left.type))
      );
    case "and":
    case "or":
    case "comma":
      return part(expression.left) + part(expression.right) + 8;
    case "distance":
      return part(expression.left) + part(expression.right) + 300;
    case "offset":
      return part(expression.pointer) + part(expression.count) + 25;
    case "choose":
      return part(expression.condition) + Math.max(part(expression.yes), part(expression.no)) + 8;
    case "assign": {
      const target = placeCost(expression.target, whole);
      const store = 4 * bytesOf(expression.target.type);
      if (expression.operator === null) return target + part(expression.value) + store + (expression.old ? store : 0);
      const { working, value, operator } = expression;
      // A register and a constant mask: at the most loaded, changed and stored again.
      if (expression.target.op === "register" && BITWISE.has(operator) && constantOf(value) !== undefined)
        return 6 * bytesOf(expression.target.type);
      const there = conversion(expression.target.type, working) + conversion(working, expression.target.type);
      return 2 * target + part(value) + 2 * store + there + operation(operator, working);
    }
    case "core": {
      const given = expression.arguments.reduce((sum, argument) => sum + part(argument) + 4, 8);
      return whole ? given + coreCost(expression).most : given;
    }
    case "unknown":
      return expression.operands.reduce(
        (sum, operand) => sum + part(operand),
        expression.takesTime === true || expression.why !== ""
          ? Number.POSITIVE_INFINITY
          : (expression.cycles ?? (isPlaceholder(expression) ? 0 : QUICK_CALL)),
      );
    default:
      return placeCost(expression, whole);
  }
}

/** Stands for a value that nobody uses or knows: nothing is called. */
function isPlaceholder(expression: Extract<Expression, { op: "unknown" }>): boolean {
  return expression.operands.length === 0 && expression.takesTime === undefined;
}

export function placeCost(place: Place, whole: boolean): number {
  switch (place.op) {
    case "dereference":
      return measure(place.pointer, whole) + 6;
    case "index":
      return placeCost(place.base, whole) + measure(place.index, whole) + 20;
    case "member":
      return placeCost(place.base, whole) + 4;
    case "temporary":
      return measure(place.value, whole) + 4 * bytesOf(place.type);
    case "nowhere":
      return Number.POSITIVE_INFINITY;
    default:
      return 4;
  }
}

export function conversion(from: Type, to: Type): number {
  if ((from.kind === "float") === (to.kind === "float")) return 1 + 2 * Math.max(0, bytesOf(to) - bytesOf(from));
  return 200;
}

/** libgcc's multiplication and division, avr-libc's floats. Shifts by a variable go bit by bit. */
export function operation(operator: string, type: Type): number {
  const bytes = bytesOf(type);
  if (type.kind === "float") return operator === "/" ? 700 : operator === "*" ? 350 : 350;
  switch (operator) {
    case "*":
      return [0, 8, 25, 40, 100][bytes] ?? 600;
    case "/":
    case "%":
      return [0, 130, 280, 500, 800][bytes] ?? 6_000;
    case "<<":
    case ">>":
      return 8 * bytes * (bytes + 3) + 6;
    default:
      return 2 * bytes;
  }
}

/**
 * Cycles of a statement with everything in it; Infinity where it has no end that is known. `whole` false: what its calls
 * of the core take apart.
 */
export function costOfStatement(statement: Statement, whole = true): number {
  switch (statement.op) {
    case "block":
      return costOfBlock(statement.body, whole);
    case "loop":
      return costOfLoop(statement, NOTHING_KNOWN);
    case "expression":
      return MARGIN + measure(statement.expression, whole);
    case "initialise":
      return (
        MARGIN +
        placeCost(statement.target, whole) +
        measure(statement.value, whole) +
        4 * bytesOf(statement.target.type)
      );
    case "declare":
      return statement.zero ? 20 + 6 * sizeOf(statement.variable.type) : 0;
    case "copy":
      return (
        20 + 8 * sizeOf(statement.target.type) + placeCost(statement.target, whole) + placeCost(statement.source, whole)
      );
    case "zero":
      return 20 + 6 * sizeOf(statement.target.type) + placeCost(statement.target, whole);
    case "call":
      if (statement.code === null || statement.pointer !== null || statement.dispatch !== null)
        return Number.POSITIVE_INFINITY;
      return callCost(statement) + costOfFunction(statement.code);
    case "if":
      return (
        MARGIN +
        measure(statement.condition, whole) +
        Math.max(
          costOfStatement(statement.yes, whole),
          statement.no === null ? 0 : costOfStatement(statement.no, whole),
        )
      );
    case "switch":
      return (
        switchCost(statement) +
        measure(statement.value, whole) +
        statement.cases.reduce(
          (sum, entry) => sum + entry.body.reduce((inner, part) => inner + costOfStatement(part, whole), 0),
          0,
        )
      );
    case "return":
      return MARGIN + (statement.value === null ? 0 : measure(statement.value, whole));
    case "once":
      return MARGIN + costOfStatement(statement.body, whole);
    case "break":
    case "continue":
    case "label":
      return 4;
    default:
      return Number.POSITIVE_INFINITY;
  }
}

/** Statements in a row: a loop that begins with a variable just set has that many rounds. */
function costOfBlock(body: readonly Statement[], whole: boolean): number {
  const starts = new Map<Variable, number>();
  let sum = 0;
  for (const statement of body) {
    sum += statement.op === "loop" ? costOfLoop(statement, starts) : costOfStatement(statement, whole);
    if (sum === Number.POSITIVE_INFINITY) return sum;
    if (statement.op === "declare") continue;
    const start = statement.op === "initialise" ? constantOf(statement.value) : undefined;
    if (statement.op === "initialise" && statement.target.op === "variable" && start !== undefined)
      starts.set(statement.target.variable, start);
    else starts.clear();
  }
  return sum;
}

const NOTHING_KNOWN: Starts = new Map();

/** With everything in it. */
function costOfLoop(loop: Extract<Statement, { op: "loop" }>, starts: Starts): number {
  const parts = [loop.body, ...loop.step].reduce((sum, part) => sum + costOfStatement(part), 0);
  if (parts === Number.POSITIVE_INFINITY) return parts;
  return (
    tripsOf(loop, starts) * (parts + MARGIN + (loop.condition === null ? 0 : measure(loop.condition, true))) + MARGIN
  );
}

export function costOfFunction(code: FunctionCode): number {
  const known = ofFunctions.get(code);
  if (known !== undefined) return known;
  // While under way it has no end: recursion.
  ofFunctions.set(code, Number.POSITIVE_INFINITY);
  const found = code.body === null ? Number.POSITIVE_INFINITY : costOfStatement(code.body);
  ofFunctions.set(code, found);
  return found;
}

/** What a call costs without the function's own body. */
export function callCost(statement: Extract<Statement, { op: "call" }>): number {
  const passed = statement.arguments.reduce((sum, argument) => sum + measure(argument, false) + 4, 0);
  return (
    CALL +
    passed +
    (statement.pointer === null ? 0 : measure(statement.pointer, false)) +
    (statement.self === null ? 0 : measure(statement.self, false))
  );
}

/** Finding the case: one comparison after the other. */
export function switchCost(statement: Extract<Statement, { op: "switch" }>): number {
  return (
    measure(statement.value, false) +
    MARGIN +
    statement.cases.reduce((sum, entry) => sum + 8 * (entry.values?.length ?? 0), 0)
  );
}
