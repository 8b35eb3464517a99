/** What gcc adds to expressions, and what the sketch adds: blocks with a value, literals with a suffix of its own. */
import { ofKind, type SyntaxNode } from "../parse/syntax.js";
import { callFunction } from "./call-statement.js";
import { rvalue } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import type { Expression } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { chooseOverload } from "./overloads.js";
import { namedPlace, placeOf } from "./places.js";
import { Scope } from "./scope.js";
import { noValue, unknown } from "./stand-ins.js";
import { lowerStatement } from "./statements.js";
import { textBytes } from "./texts.js";
import { FLOAT, isNumber, UINT16, UINT64 } from "./types.js";

/** gcc's `({ …; value; })`: a block, and the value of its last statement. */
export function lowerStatementExpression(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const statements = node.children.filter((part) => part.named);
  const last = statements[statements.length - 1];
  const value = last?.kind === "expression_statement" ? last.children.find((part) => part.named) : undefined;
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  for (const part of value === undefined ? statements : statements.slice(0, -1)) lowerStatement(run, body, part);
  let result = noValue(node);
  if (value !== undefined) {
    const raw = lowerExpression(run, body, value);
    // What the value names may change before it is used.
    result = namedPlace(raw) !== null && raw.type.kind !== "record" ? heldValue(run, body, rvalue(raw)) : raw;
  }
  body.scope = outer;
  return result;
}

/** The value in a temporary: what it was made of may change before it is used. */
export function heldValue(run: Lowering, body: Body, value: Expression): Expression {
  const { start, end, type } = value;
  if (!isNumber(type) && type.kind !== "pointer") return value;
  const place = placeOf(run.temporary(body, type, start), start, end);
  body.out.push({ op: "initialise", target: place, value, start, end });
  return { op: "load", place, type, start, end };
}

/** `10_kHz`: a call of the operator that the sketch defines for the suffix. */
export function lowerOwnLiteral(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const literal = node.children[0];
  const suffix = ofKind(node, "literal_suffix");
  if (literal === undefined || suffix === undefined) return unknown(node, "literal with a suffix of its own");
  const meaning = body.scope.find(`operator""${run.textOf(suffix)}`);
  const value = rvalue(lowerExpression(run, body, literal));
  if (meaning?.kind === "functions") {
    const wide: Expression =
      value.op === "integer" ? { ...value, type: UINT64 } : value.op === "real" ? { ...value, type: FLOAT } : value;
    const args: Expression[] =
      value.op === "text"
        ? [
            value,
            { op: "integer", value: textBytes(run, literal).length, type: UINT16, start: node.start, end: node.end },
          ]
        : [wide];
    const chosen = chooseOverload(run, meaning.set, args, null, body);
    if (chosen !== null) return callFunction(run, body, chosen, args, null, node);
  }
  return unknown(node, "literal with a suffix of its own");
}
