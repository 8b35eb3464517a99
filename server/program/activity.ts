/**
 * Which statements can be passed over. A statement that only moves irrelevant values about changes nothing that could
 * reach a pin: it need not be executed at all. Law: whatever is passed over writes no register, no relevant variable and
 * calls nothing that does; the time it may take is told.
 */
import type { Expression, FunctionCode, Place, Statement } from "./ir.js";

/** `inert`: nothing to do, over at once. `time`: nothing to do, but it may take a while. `active`: to be executed. */
export type Activity = "inert" | "time" | "active";

const RANK: Readonly<Record<Activity, number>> = { inert: 0, time: 1, active: 2 };

function worst(a: Activity, b: Activity): Activity {
  return RANK[a] >= RANK[b] ? a : b;
}

const ofStatements = new WeakMap<Statement, Activity>();
const ofFunctions = new WeakMap<FunctionCode, Activity>();

export function activityOf(statement: Statement): Activity {
  const known = ofStatements.get(statement);
  if (known !== undefined) return known;
  const found = judge(statement);
  ofStatements.set(statement, found);
  return found;
}

function judgeAll(statements: readonly Statement[]): Activity {
  let found: Activity = "inert";
  for (const statement of statements) {
    found = worst(found, activityOf(statement));
    if (found === "active") return found;
  }
  return found;
}

function judge(statement: Statement): Activity {
  switch (statement.op) {
    case "block":
      return judgeAll(statement.body);
    case "expression":
      return ofExpression(statement.expression);
    case "declare":
      return statement.variable.relevant ? "active" : "inert";
    case "initialise":
      return worst(ofTarget(statement.target), ofExpression(statement.value));
    case "zero":
      return ofTarget(statement.target);
    case "copy":
      return worst(ofTarget(statement.target), ofPlace(statement.source));
    case "if": {
      const arms = worst(activityOf(statement.yes), statement.no === null ? "inert" : activityOf(statement.no));
      return worst(ofExpression(statement.condition), arms);
    }
    case "switch":
      return worst(ofExpression(statement.value), judgeAll(statement.cases.flatMap((entry) => entry.body)));
    case "loop": {
      // An endless loop is never passed over: what comes after it is not reached.
      if (statement.condition === null) return "active";
      const parts = judgeAll([...statement.before, statement.body, ...statement.step]);
      return worst(worst(ofExpression(statement.condition), parts), "time");
    }
    case "call": {
      if (statement.code === null || statement.pointer !== null || statement.dispatch !== null) return "active";
      if (statement.result?.relevant === true) return "active";
      let found = ofFunction(statement.code);
      for (const argument of statement.arguments) found = worst(found, ofExpression(argument));
      return found;
    }
    case "break":
    case "continue":
    case "return":
      // Where these leave to is decided by what stands around them.
      return "active";
    default:
      return "active";
  }
}

function ofFunction(code: FunctionCode): Activity {
  const known = ofFunctions.get(code);
  if (known !== undefined) return known;
  if (code.body === null || code.interrupt !== null) return "active";
  // While under way it counts as active: recursion is executed.
  ofFunctions.set(code, "active");
  const found = code.parameters.some((parameter) => parameter.relevant) ? "active" : ofBody(code.body);
  ofFunctions.set(code, found);
  return found;
}

/** A function's own body: a return as its last statement is nothing to do. */
function ofBody(body: Statement): Activity {
  if (body.op !== "block") return activityOf(body);
  const last = body.body[body.body.length - 1];
  if (last?.op !== "return") return activityOf(body);
  const rest = judgeAll(body.body.slice(0, -1));
  return last.value === null ? rest : worst(rest, ofExpression(last.value));
}

function ofTarget(place: Place): Activity {
  switch (place.op) {
    case "variable":
      return place.variable.relevant || place.variable.volatile ? "active" : "inert";
    case "index":
      return worst(ofTarget(place.base), ofExpression(place.index));
    case "member":
      return ofTarget(place.base);
    default:
      return "active";
  }
}

function ofPlace(place: Place): Activity {
  switch (place.op) {
    case "index":
      return worst(ofPlace(place.base), ofExpression(place.index));
    case "member":
      return ofPlace(place.base);
    case "dereference":
      return ofExpression(place.pointer);
    case "temporary":
      return worst(ofTarget(place), ofExpression(place.value));
    default:
      return "inert";
  }
}

/** Functions of the core that touch neither pins nor timers and give back what they were given to work on. */
const QUIET_CORE = new Set([
  "millis",
  "micros",
  "map",
  "random",
  "randomSeed",
  "srandom",
  "abs",
  "labs",
  "sqrt",
  "pow",
  "fabs",
  "floor",
  "ceil",
  "round",
  "exp",
  "log",
  "log10",
  "sin",
  "cos",
  "tan",
  "fmod",
  "makeWord",
  "pgm_read_byte",
  "pgm_read_word",
  "pgm_read_dword",
  "pgm_read_float",
]);

function ofExpression(expression: Expression): Activity {
  switch (expression.op) {
    case "integer":
    case "real":
    case "text":
    case "null":
    case "function":
      return "inert";
    case "load":
      return ofPlace(expression.place);
    case "address":
      return ofPlace(expression.place);
    case "traced":
      return "active";
    case "convert":
    case "negate":
    case "complement":
    case "not":
      return ofExpression(expression.operand);
    case "binary":
    case "compare":
    case "and":
    case "or":
    case "comma":
    case "distance":
      return worst(ofExpression(expression.left), ofExpression(expression.right));
    case "offset":
      return worst(ofExpression(expression.pointer), ofExpression(expression.count));
    case "choose":
      return worst(
        ofExpression(expression.condition),
        worst(ofExpression(expression.yes), ofExpression(expression.no)),
      );
    case "assign":
      return worst(ofTarget(expression.target), ofExpression(expression.value));
    case "core": {
      // Calls that the analysis lists have to be seen once, with what they are given.
      if (!QUIET_CORE.has(expression.name) || expression.written.length > 0) return "active";
      return expression.arguments.reduce<Activity>((found, argument) => worst(found, ofExpression(argument)), "inert");
    }
    case "unknown": {
      if (!expression.harmless && expression.why !== "") return "active";
      let found: Activity = expression.takesTime === true ? "time" : "inert";
      for (const operand of expression.operands) {
        // It may fill what it is given a pointer to.
        if (expression.fills === true && operand.type.kind === "pointer") return "active";
        found = worst(found, ofExpression(operand));
      }
      return found;
    }
    default:
      return ofPlace(expression);
  }
}
