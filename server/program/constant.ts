/** Integer constant expressions: array sizes, case labels, template arguments. */
import {
  add,
  and,
  constant,
  convert,
  div,
  mod,
  mul,
  neg,
  not,
  or,
  shl,
  shr,
  sub,
  xor,
} from "../execute/domain/number.js";
import type { BinaryOperator, Expression, Place, Statement, Variable } from "./ir.js";

const OPERATIONS = {
  "+": add,
  "-": sub,
  "*": mul,
  "/": div,
  "%": mod,
  "&": and,
  "|": or,
  "^": xor,
  "<<": shl,
  ">>": shr,
} as const satisfies Record<BinaryOperator, unknown>;

/** The value, where it is an integer known when compiled; undefined else. */
export function constantOf(expression: Expression): number | undefined {
  switch (expression.op) {
    case "integer":
      return expression.value;
    case "load": {
      const place = expression.place;
      return place.op === "variable" ? place.variable.known : undefined;
    }
    case "variable":
      return expression.variable.known;
    case "traced":
      return constantOf(expression.operand);
    case "convert": {
      const from = expression.operand.type;
      const to = expression.type;
      if (to.kind !== "integer") return undefined;
      if (from.kind === "float" && expression.operand.op === "real") return Math.trunc(expression.operand.value);
      // The address of a register is known; no other is.
      if (expression.operand.op === "address" && expression.operand.place.op === "register")
        return expression.operand.place.address;
      const value = constantOf(expression.operand);
      if (value === undefined || from.kind !== "integer") return undefined;
      if (to.bool) return value === 0 ? 0 : 1;
      return convert(constant(value, from.integer), from.integer, to.integer).min;
    }
    case "negate":
    case "complement": {
      const value = constantOf(expression.operand);
      if (value === undefined || expression.type.kind !== "integer") return undefined;
      const operand = constant(value, expression.type.integer);
      return (
        expression.op === "negate" ? neg(operand, expression.type.integer) : not(operand, expression.type.integer)
      ).min;
    }
    case "not": {
      const value = constantOf(expression.operand);
      return value === undefined ? undefined : value === 0 ? 1 : 0;
    }
    case "binary": {
      const left = constantOf(expression.left);
      const right = constantOf(expression.right);
      if (left === undefined || right === undefined || expression.type.kind !== "integer") return undefined;
      if ((expression.operator === "/" || expression.operator === "%") && right === 0) return undefined;
      const type = expression.type.integer;
      const countType = expression.right.type.kind === "integer" ? expression.right.type.integer : type;
      const shift = expression.operator === "<<" || expression.operator === ">>";
      const result = OPERATIONS[expression.operator](
        constant(left, type),
        constant(right, shift ? countType : type),
        type,
      );
      return result.min === result.max ? result.min : undefined;
    }
    case "compare": {
      const left = constantOf(expression.left);
      const right = constantOf(expression.right);
      if (left === undefined || right === undefined) return undefined;
      switch (expression.operator) {
        case "<":
          return left < right ? 1 : 0;
        case "<=":
          return left <= right ? 1 : 0;
        case ">":
          return left > right ? 1 : 0;
        case ">=":
          return left >= right ? 1 : 0;
        case "==":
          return left === right ? 1 : 0;
        default:
          return left !== right ? 1 : 0;
      }
    }
    case "and":
    case "or": {
      const left = constantOf(expression.left);
      if (left === undefined) return undefined;
      if (expression.op === "and" && left === 0) return 0;
      if (expression.op === "or" && left !== 0) return 1;
      const right = constantOf(expression.right);
      return right === undefined ? undefined : right === 0 ? 0 : 1;
    }
    case "choose": {
      const condition = constantOf(expression.condition);
      if (condition === undefined) return undefined;
      return constantOf(condition !== 0 ? expression.yes : expression.no);
    }
    default:
      return undefined;
  }
}

/** The value that a constant's own initialiser gives it, where it is an integer known when compiled. */
export function knownFrom(statements: readonly Statement[], variable: Variable): number | undefined {
  for (const statement of statements) {
    if (statement.op === "initialise" && statement.target.op === "variable" && statement.target.variable === variable) {
      return constantOf(statement.value);
    }
  }
  return undefined;
}

/** Whether the statement sets something to what is known before the program runs. */
export function isConstantSetting(statement: Statement): boolean {
  return statement.op === "zero" || (statement.op === "initialise" && isConstant(statement.value));
}

/**
 * Everything that needs no code is set before the first constructor runs, wherever it is declared (C++11 3.6.2). What such
 * code uses for itself stays where it is.
 */
export function constantsFirst(startup: readonly Statement[]): Statement[] {
  const first = startup.filter(isStatic);
  return first.length === 0 ? [...startup] : [...first, ...startup.filter((statement) => !isStatic(statement))];
}

function isStatic(statement: Statement): boolean {
  if (statement.op === "declare") return statement.variable.storage === "global";
  return (
    (statement.op === "zero" || statement.op === "initialise") &&
    isConstantSetting(statement) &&
    rootOf(statement.target)?.storage === "global"
  );
}

function rootOf(place: Place): Variable | null {
  if (place.op === "variable") return place.variable;
  return place.op === "member" || place.op === "index" ? rootOf(place.base) : null;
}

function isConstant(expression: Expression): boolean {
  if (expression.op === "real" || expression.op === "text" || expression.op === "null" || expression.op === "function")
    return true;
  if (expression.op === "address") {
    const { place } = expression;
    return place.op === "register" || (place.op === "variable" && place.variable.storage === "global");
  }
  if (expression.op === "convert") return isConstant(expression.operand);
  return constantOf(expression) !== undefined;
}
