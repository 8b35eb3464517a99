/**
 * How long an interrupt routine takes from above, with what the compiler puts around it. Law: the real one is never longer.
 * Counted from what avr-gcc 5.4 makes: r0, r1 and the status register are saved always, others where they are used.
 */
import type { Expression, FunctionCode, Statement } from "../../program/ir.js";
import { bytesOf, costOfFunction } from "./costs.js";

/** What a routine adds around its body: vector, status register saved and brought back, reti. */
const ROUTINE = 30;
/** CPU registers that are saved where the routine calls something: all that a call may use; else those that it uses itself. */
const SAVED_FOR_CALLS = 16;
const SAVED_AT_MOST = 24;
/** Cycles of an interrupt routine from its vector to its return. */
export function costOfRoutine(code: FunctionCode): number {
  const used = code.body === null ? SAVED_AT_MOST : registersOf(code.body);
  return ROUTINE + 4 * Math.min(used, SAVED_AT_MOST) + costOfFunction(code);
}

/** CPU registers that a statement can use: one for each byte that is worked out, and those of a call. */
function registersOf(statement: Statement): number {
  switch (statement.op) {
    case "block":
      return statement.body.reduce((sum, part) => sum + registersOf(part), 0);
    case "expression":
      return registersFor(statement.expression);
    case "initialise":
      return registersFor(statement.value) + registersFor(statement.target);
    case "declare":
      return bytesOf(statement.variable.type);
    case "if": {
      const otherwise = statement.no === null ? 0 : registersOf(statement.no);
      return registersFor(statement.condition) + registersOf(statement.yes) + otherwise;
    }
    case "return":
    case "break":
    case "continue":
    case "label":
      return 2;
    default:
      return SAVED_AT_MOST;
  }
}

function registersFor(expression: Expression): number {
  const own = bytesOf(expression.type);
  switch (expression.op) {
    case "integer":
    case "variable":
    case "register":
      return own;
    case "load":
      return own + registersFor(expression.place);
    case "traced":
    case "convert":
    case "negate":
    case "complement":
    case "not":
      return own + registersFor(expression.operand);
    case "binary": {
      const calls = expression.type.kind === "float" || CALLING.has(expression.operator);
      return own + registersFor(expression.left) + registersFor(expression.right) + (calls ? SAVED_FOR_CALLS : 0);
    }
    case "compare":
    case "and":
    case "or":
    case "comma":
      return own + registersFor(expression.left) + registersFor(expression.right);
    case "assign": {
      const calls = expression.operator !== null && CALLING.has(expression.operator);
      return 2 * own + registersFor(expression.target) + registersFor(expression.value) + (calls ? SAVED_FOR_CALLS : 0);
    }
    case "index":
      return own + 4 + registersFor(expression.base) + registersFor(expression.index);
    case "member":
      return own + 2 + registersFor(expression.base);
    default:
      return SAVED_AT_MOST;
  }
}

const CALLING: ReadonlySet<string> = new Set(["*", "/", "%"]);
