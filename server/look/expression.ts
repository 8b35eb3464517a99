/** Walks over an expression as the sketch wrote it. Values, never text. */

import { single } from "../../shared-model/register-value.js";
import type { WrittenExpression } from "../analysis.js";

/** The expression and all its parts, outermost first. */
export function* partsOf(expression: WrittenExpression): Generator<WrittenExpression> {
  yield expression;
  for (const operand of expression.operands) yield* partsOf(operand);
}

export function isBinary(expression: WrittenExpression, operator: string): boolean {
  return expression.kind === "binary" && expression.text === operator;
}

/** The expression without the casts around it. */
export function withoutCasts(expression: WrittenExpression): WrittenExpression {
  let inner = expression;
  while (inner.kind === "cast" && inner.operands.length === 1) inner = inner.operands[0]!;
  return inner;
}

/** The operands of a chain of one operator, left to right, parentheses and casts looked through. */
export function chain(expression: WrittenExpression, operator: string): readonly WrittenExpression[] {
  const inner = withoutCasts(expression);
  if (!isBinary(inner, operator)) return [inner];
  return inner.operands.flatMap((operand) => chain(operand, operator));
}

/** Whether the expression reads this register somewhere. */
export function reads(expression: WrittenExpression, register: string): boolean {
  for (const part of partsOf(expression)) {
    if (part.kind === "register" && part.text === register) return true;
  }
  return false;
}

export function readsAnyRegister(expression: WrittenExpression): boolean {
  for (const part of partsOf(expression)) {
    if (part.kind === "register") return true;
  }
  return false;
}

/** The one value of the expression; undefined where it has several or none. */
export function knownValue(expression: WrittenExpression): number | undefined {
  return expression.value === null ? undefined : single(expression.value);
}

/**
 * The value of a bit named under a shift (`1 << CS22`, `_BV(CS22)`), with the name: undefined for anything else.
 */
export function namedBit(
  expression: WrittenExpression,
): { readonly name: string; readonly at: WrittenExpression } | undefined {
  const inner = withoutCasts(expression);
  if (!isBinary(inner, "<<")) return undefined;
  const [base, count] = inner.operands.map(withoutCasts);
  if (base === undefined || count === undefined || knownValue(base) !== 1) return undefined;
  const name = bitNameOf(count);
  return name === undefined ? undefined : { name, at: count };
}

/** The bit's name where the expression is a number that a macro or name of that name stands for. */
export function bitNameOf(expression: WrittenExpression): string | undefined {
  const inner = withoutCasts(expression);
  if (inner.kind === "literal" && inner.macro !== null) return inner.macro;
  return undefined;
}

/** How a write relates to the old value: what is kept, what is set. */
export interface WriteShape {
  /** `=` alone; `|=` or `R = R | V`; `&=` or `R = R & M`; `R = (R & M) | V`; anything else. */
  readonly kind: "set all" | "set bits" | "clear bits" | "replace" | "other";
  /** Parts that are ORed in (for `set all`: the parts of the whole value). */
  readonly sets: readonly WrittenExpression[];
  /** The mask that the old value is ANDed with. */
  readonly mask: WrittenExpression | null;
}

/** Reads `register OPERATOR expression` as keep-and-set. */
export function shapeOf(register: string, operator: string, expression: WrittenExpression): WriteShape {
  if (operator === "|=") return { kind: "set bits", sets: chain(expression, "|"), mask: null };
  if (operator === "&=") return { kind: "clear bits", sets: [], mask: expression };
  if (operator !== "=") return { kind: "other", sets: [], mask: null };
  const parts = chain(expression, "|");
  const own = parts.filter((part) => reads(part, register));
  const sets = parts.filter((part) => !reads(part, register));
  if (own.length === 0) return { kind: "set all", sets, mask: null };
  if (own.length > 1) return { kind: "other", sets, mask: null };
  const kept = withoutCasts(own[0]!);
  if (kept.kind === "register") return { kind: sets.length === 0 ? "other" : "set bits", sets, mask: null };
  const factors = chain(kept, "&");
  const plain = factors.filter((factor) => withoutCasts(factor).kind === "register");
  const masks = factors.filter((factor) => withoutCasts(factor).kind !== "register");
  if (plain.length !== 1 || masks.length !== 1 || reads(masks[0]!, register))
    return { kind: "other", sets, mask: null };
  return { kind: sets.length === 0 ? "clear bits" : "replace", sets, mask: masks[0]! };
}
