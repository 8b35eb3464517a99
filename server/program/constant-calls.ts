/** Calls of constexpr functions with constant arguments: a number as soon as the program is read, as C++11 7.1.5 has it. */

import type { SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { convertTo, rvalue } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import type { Expression } from "./ir.js";
import { type Body, type Lowering, scratchBody } from "./lowering.js";
import { type FunctionSymbol, Scope } from "./scope.js";
import { signatureOf } from "./signatures.js";
import { untraced } from "./tracing.js";

/** Calls inside calls: past this the function is called when the program runs, like any other. */
const MAX_DEPTH = 12;
/** Of one outermost call; recursion that calls itself twice would double it at every step. */
const MAX_CALLS = 400;
let depth = 0;
let calls = 0;

/** The number that the call gives; null where it is not known before the program runs. */
export function constantCall(
  run: Lowering,
  body: Body,
  symbol: FunctionSymbol,
  args: readonly Expression[],
  node: SyntaxNode,
): Expression | null {
  if (symbol.record !== null && !symbol.isStatic) return null;
  const value = isConstexpr(run, symbol) ? returned(symbol) : undefined;
  if (value === undefined) return null;
  const { parameters, returns, variadic } = signatureOf(run, symbol);
  if (variadic || returns?.kind !== "integer" || parameters.length !== args.length) return null;
  if (depth === 0) calls = 0;
  if (depth >= MAX_DEPTH || calls >= MAX_CALLS) return null;
  depth++;
  calls++;
  try {
    const scope = new Scope(symbol.scope, "block");
    for (const [index, { name, type }] of parameters.entries()) {
      if (type.kind !== "integer") return null;
      const known = constantOf(convertTo(run, body, rvalue(args[index]!), type, node));
      if (known === undefined) return null;
      scope.declare(name, { kind: "constant", value: known, type });
    }
    const inner = scratchBody(run, scope);
    const result = untraced(run, () => rvalue(lowerExpression(run, inner, value)));
    const known = constantOf(convertTo(run, inner, result, returns, node));
    return known === undefined
      ? null
      : { op: "integer", value: known, type: returns, start: node.start, end: node.end };
  } finally {
    depth--;
  }
}

/**
 * Inside such a call a decided `?:` takes one arm alone, or recursion would have no end. Undefined where nothing is decided;
 * an arm without calls is read all the same, for its type.
 */
export function decidedArm(
  test: Expression,
  yes: SyntaxNode | undefined,
  no: SyntaxNode | undefined,
): SyntaxNode | undefined {
  if (depth === 0) return undefined;
  const known = constantOf(test);
  const [taken, other] = known !== 0 ? [yes, no] : [no, yes];
  return known !== undefined && other !== undefined && holdsCall(other) ? taken : undefined;
}

function holdsCall(node: SyntaxNode): boolean {
  return node.kind === "call_expression" || node.children.some(holdsCall);
}

function isConstexpr(run: Lowering, symbol: FunctionSymbol): boolean {
  return symbol.node.children.some((part) => part.kind === "type_qualifier" && run.textOf(part) === "constexpr");
}

/** What the body's one statement gives back (C++11 allows no more than assertions beside it). */
function returned(symbol: FunctionSymbol): SyntaxNode | undefined {
  const statements = (symbol.body?.children ?? []).filter(
    (part) => part.named && part.kind !== "static_assert_declaration",
  );
  const only = statements[0];
  return statements.length === 1 && only?.kind === "return_statement"
    ? only.children.find((part) => part.named)
    : undefined;
}
