/**
 * `TCCR1B = fast ? 1 : 5;` says the same as an `if` with two assignments, and is lowered as one: expressions never fork, and
 * the two ways in which a timer then runs are worth telling apart, each with its condition.
 */
import type { Expression, Statement } from "./ir.js";

type Assignment = Extract<Expression, { op: "assign" }>;
type Choice = Extract<Expression, { op: "choose" }>;

/** The statement for an assignment of one of two values to what is or may be a register; null where it is none. */
export function choiceAsIf(expression: Expression): Statement | null {
  if (expression.op !== "assign" || expression.increment !== null) return null;
  if (expression.target.op !== "register" && expression.target.op !== "dereference") return null;
  const choice = choiceIn(expression.asked ?? expression.value);
  if (choice === null) return null;
  const { start, end } = expression;
  const arm = (taken: Expression): Statement => ({
    op: "expression",
    expression: withArm(expression, choice, taken),
    start,
    end,
  });
  return { op: "if", condition: choice.condition, yes: arm(choice.yes), no: arm(choice.no), start, end };
}

/** The choice that the value is, behind conversions, or that is one side of an operation: `R & MASK | (fast ? 1 : 5)`. */
function choiceIn(expression: Expression): Choice | null {
  switch (expression.op) {
    case "choose":
      return expression;
    case "convert":
    case "traced":
      return choiceIn(expression.operand);
    case "binary": {
      const choice = choiceIn(expression.right) ?? choiceIn(expression.left);
      // Beside another operand the condition may come before or after it: it must not do anything.
      return choice !== null && onlyReads(choice.condition) ? choice : null;
    }
    default:
      return null;
  }
}

function onlyReads(expression: Expression): boolean {
  switch (expression.op) {
    case "integer":
    case "real":
      return true;
    case "load":
      return expression.place.op === "variable" || expression.place.op === "register";
    case "convert":
    case "traced":
    case "not":
    case "negate":
    case "complement":
      return onlyReads(expression.operand);
    case "binary":
    case "compare":
    case "and":
    case "or":
      return onlyReads(expression.left) && onlyReads(expression.right);
    default:
      return false;
  }
}

function withArm(assignment: Assignment, choice: Choice, taken: Expression): Assignment {
  const put = (value: Expression): Expression => {
    if (value === choice) return taken;
    if (value.op === "convert" || value.op === "traced") return { ...value, operand: put(value.operand) };
    return value.op === "binary" ? { ...value, left: put(value.left), right: put(value.right) } : value;
  };
  return {
    ...assignment,
    value: put(assignment.value),
    asked: assignment.asked === null ? null : put(assignment.asked),
  };
}
