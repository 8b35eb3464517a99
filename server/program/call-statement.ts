/** The statement that a call becomes. Law: arguments are converted to the parameters, and the result is left in a temporary. */

import { convertTo, rvalue } from "./conversions.js";
import { overridesOf } from "./dispatch.js";
import { lowerExpression } from "./expressions.js";
import { codeOf } from "./functions.js";
import type { Expression, FunctionCode, Place, Statement, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { behind } from "./places.js";
import type { FunctionSymbol } from "./scope.js";
import { signatureOf } from "./signatures.js";
import { noValue } from "./stand-ins.js";
import { untraced } from "./tracing.js";
import { type Type, VOID } from "./types.js";

/** Passes the arguments, lifts the call into a statement and answers with where its result is left. */
export function callFunction(
  run: Lowering,
  body: Body,
  symbol: FunctionSymbol,
  args: readonly Expression[],
  self: Expression | null,
  node: Stretch,
  mayDispatch = false,
  listed?: Listed,
): Expression {
  const code = codeOf(run, symbol);
  const signature = signatureOf(run, symbol);
  const complete = [...args];
  for (let index = args.length; index < signature.parameters.length; index++) {
    const fallback = signature.parameters[index]!.fallback;
    if (fallback === null) break;
    const outer = body.scope;
    body.scope = symbol.scope;
    complete.push(untraced(run, () => lowerExpression(run, body, fallback)));
    body.scope = outer;
  }
  const passed = passArguments(run, body, code, complete, node);
  const dispatch =
    mayDispatch && symbol.virtual && symbol.record !== null
      ? { record: symbol.record, candidates: overridesOf(run, symbol) }
      : null;
  return emitCall(run, body, code, null, dispatch, self, passed, node, undefined, listed);
}

type Listed = Extract<Statement, { op: "call" }>["listed"];

export function passArguments(
  run: Lowering,
  body: Body,
  code: FunctionCode,
  args: readonly Expression[],
  node: Stretch,
): Expression[] {
  return args.map((argument, index) => {
    const parameter = code.parameters[index];
    if (parameter === undefined) return rvalue(argument);
    return convertTo(run, body, argument, parameter.type, node);
  });
}

export function emitCall(
  run: Lowering,
  body: Body,
  code: FunctionCode | null,
  pointer: Expression | null,
  dispatch: Extract<Statement, { op: "call" }>["dispatch"],
  self: Expression | null,
  args: readonly Expression[],
  node: Stretch,
  returnsFrom?: Type,
  listed?: Listed,
): Expression {
  const { start, end } = node;
  const returns = code?.returns ?? returnsFrom ?? VOID;
  const held: Type = returns.kind === "reference" ? { kind: "pointer", to: returns.to } : returns;
  const result = returns.kind === "void" ? null : run.temporary(body, held, start);
  body.out.push({ op: "call", code, pointer, dispatch, self, arguments: args, result, listed, start, end });
  if (result === null) return noValue(node);
  const place: Place = { op: "variable", variable: result, type: held, start, end };
  if (returns.kind === "reference") return behind(place, returns.to, node);
  if (returns.kind === "record" || returns.kind === "opaque") return place;
  return { op: "load", place, type: returns, start, end };
}

export function values(args: readonly Expression[]): Expression[] {
  return args.map(rvalue);
}
