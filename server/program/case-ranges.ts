/** Case labels that stand for a range of values, as gcc has them. */
import { CASE_RANGE_OPERATOR } from "../parse/respell.js";
import { child, type SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { convertTo } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Statement } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { placeOf } from "./places.js";
import { INT16 } from "./types.js";

/** `case first ... last`, as gcc has it. */
export interface CaseRange {
  readonly first: number;
  readonly last: number;
}

export function caseRange(run: Lowering, body: Body, label: SyntaxNode): CaseRange | null {
  if (label.kind !== "binary_expression" || child(label, "operator")?.kind !== CASE_RANGE_OPERATOR) return null;
  const [left, right] = [child(label, "left"), child(label, "right")];
  if (left === undefined || right === undefined) return null;
  const first = constantOf(lowerExpression(run, body, left));
  const last = constantOf(lowerExpression(run, body, right));
  return first === undefined || last === undefined ? null : { first, last };
}

/** The value to switch over, where all that lies in one range is taken for the range's first label. */
export function firstOfRange(run: Lowering, body: Body, value: Expression, ranges: readonly CaseRange[]): Expression {
  const { start, end } = value;
  const type = value.type.kind === "integer" ? value.type : INT16;
  const held = placeOf(run.temporary(body, type, start), start, end);
  const chosen = placeOf(run.temporary(body, type, start), start, end);
  const loaded: Expression = { op: "load", place: held, type, start, end };
  const set = (place: typeof held, to: Expression): Statement => ({
    op: "initialise",
    target: place,
    value: to,
    start,
    end,
  });
  const number = (known: number): Expression => ({ op: "integer", value: known, type, start, end });
  body.out.push(set(held, convertTo(run, body, value, type, value)), set(chosen, loaded));
  for (const { first, last } of ranges) {
    const left: Expression = {
      op: "compare",
      operator: ">=",
      left: loaded,
      right: number(first),
      type: INT16,
      start,
      end,
    };
    const right: Expression = {
      op: "compare",
      operator: "<=",
      left: loaded,
      right: number(last),
      type: INT16,
      start,
      end,
    };
    const test: Expression = { op: "and", left, right, type: INT16, start, end };
    body.out.push({ op: "if", condition: test, yes: set(chosen, number(first)), no: null, start, end, quiet: true });
  }
  return { op: "load", place: chosen, type, start, end };
}
