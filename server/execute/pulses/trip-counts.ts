/**
 * How often a loop goes round at most, where one variable that only the loop moves decides it: `for (i = 0; i < 8; i++)`,
 * `while (n > 0) { n--; … }`. Law: the real loop never goes round more often.
 */
import { constantOf } from "../../program/constant.js";
import type { Comparison, Expression, Statement, Variable } from "../../program/ir.js";
import type { Type } from "../../program/types.js";

type Loop = Extract<Statement, { op: "loop" }>;

/** Values that variables are known to start with, where they were just set. */
export type Starts = ReadonlyMap<Variable, number>;

/** Infinity where it is not known. */
export function tripsOf(loop: Loop, starts: Starts): number {
  const test = loop.condition === null ? null : boundOf(loop.condition);
  if (test === null || loop.before.length > 0) return Number.POSITIVE_INFINITY;
  const { variable, operator, limit } = test;
  const range = rangeOf(variable.type);
  if (range === null || variable.addressTaken || variable.volatile) return Number.POSITIVE_INFINITY;
  const stepped = [...(loop.body.op === "block" ? loop.body.body : [loop.body]), ...loop.step];
  const steps = stepped.flatMap((statement) => stepOf(statement, variable) ?? []);
  const [step] = steps;
  if (steps.length !== 1 || step === undefined || step === 0) return Number.POSITIVE_INFINITY;
  const inBody = loop.step.every((statement) => stepOf(statement, variable) === null);
  if (stepped.some((statement) => stepOf(statement, variable) === null && moves(statement, variable, inBody)))
    return Number.POSITIVE_INFINITY;
  const start = starts.get(variable) ?? (step > 0 ? range.min : range.max);
  return 1 + distance(operator, start, limit, step, range);
}

/** Rounds until the comparison fails, without the value leaving its type on the way. */
function distance(operator: Comparison, start: number, limit: number, step: number, range: Range): number {
  const rising = operator === "<" || operator === "<=";
  const falling = operator === ">" || operator === ">=";
  if (operator === "!=") {
    const rounds = (limit - start) / step;
    return Number.isInteger(rounds) && rounds >= 0 ? rounds : Number.POSITIVE_INFINITY;
  }
  if (!(rising && step > 0) && !(falling && step < 0)) return Number.POSITIVE_INFINITY;
  const last = operator === "<=" || operator === ">=" ? limit : limit - Math.sign(step);
  // The value that ends the loop has to exist in the type.
  if (last + step > range.max || last + step < range.min) return Number.POSITIVE_INFINITY;
  return Math.max(0, Math.floor((last - start) / step) + 1);
}

interface Range {
  readonly min: number;
  readonly max: number;
}

function rangeOf(type: Type): Range | null {
  if (type.kind !== "integer" || type.integer.bits > 32) return null;
  const { bits, signed } = type.integer;
  return signed ? { min: -(2 ** (bits - 1)), max: 2 ** (bits - 1) - 1 } : { min: 0, max: 2 ** bits - 1 };
}

/** `variable < constant`, through conversions that keep every value. */
function boundOf(
  condition: Expression,
): { readonly variable: Variable; readonly operator: Comparison; readonly limit: number } | null {
  if (condition.op === "convert" && condition.type.kind === "integer") return boundOf(condition.operand);
  if (condition.op === "load" && condition.place.op === "variable")
    return { variable: condition.place.variable, operator: "!=", limit: 0 };
  if (condition.op !== "compare") return null;
  const variable = variableOf(condition.left);
  const limit = constantOf(condition.right);
  return variable === null || limit === undefined ? null : { variable, operator: condition.operator, limit };
}

function variableOf(expression: Expression): Variable | null {
  if (expression.op === "convert") {
    const [to, from] = [rangeOf(expression.type), rangeOf(expression.operand.type)];
    if (to === null || from === null || from.min < to.min || from.max > to.max) return null;
    return variableOf(expression.operand);
  }
  return expression.op === "load" && expression.place.op === "variable" ? expression.place.variable : null;
}

/** What a statement adds to the variable; null where it is no such statement. */
function stepOf(statement: Statement, variable: Variable): number | null {
  if (statement.op !== "expression" || statement.expression.op !== "assign") return null;
  const { target, operator, value } = statement.expression;
  if (target.op !== "variable" || target.variable !== variable) return null;
  const by = constantOf(value);
  if (by === undefined || (operator !== "+" && operator !== "-")) return null;
  return operator === "+" ? by : -by;
}

/** Whether anything in the statement may move the variable; `skips`: a jump to the next round would leave the step out. */
function moves(statement: Statement, variable: Variable, skips: boolean): boolean {
  const inside = (each: Statement): boolean => moves(each, variable, skips);
  const within = (expression: Expression | null): boolean => expression !== null && assigns(expression, variable);
  switch (statement.op) {
    case "block":
      return statement.body.some(inside);
    case "expression":
      return within(statement.expression);
    case "initialise":
      return (statement.target.op === "variable" && statement.target.variable === variable) || within(statement.value);
    case "if":
      return within(statement.condition) || inside(statement.yes) || (statement.no !== null && inside(statement.no));
    case "loop":
      return (
        within(statement.condition) ||
        [...statement.before, statement.body, ...statement.step].some((each) => inside(each))
      );
    case "switch":
      return within(statement.value) || statement.cases.some((entry) => entry.body.some(inside));
    case "call":
      return statement.result === variable || statement.arguments.some((argument) => within(argument));
    case "return":
      return within(statement.value);
    case "once":
      return inside(statement.body);
    case "continue":
      return skips;
    case "copy":
    case "zero":
    case "goto":
    case "gap":
      return true;
    default:
      return false;
  }
}

/** Whether evaluating the expression may assign the variable. */
function assigns(expression: Expression, variable: Variable): boolean {
  if (expression.op === "assign" && expression.target.op === "variable" && expression.target.variable === variable)
    return true;
  return Object.values(expression).some((part: unknown) =>
    Array.isArray(part)
      ? part.some((each) => isExpression(each) && assigns(each, variable))
      : isExpression(part) && assigns(part, variable),
  );
}

function isExpression(part: unknown): part is Expression {
  return typeof part === "object" && part !== null && "op" in part && "type" in part;
}
