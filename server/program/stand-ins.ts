/** What stands for a value that was not understood, and for the value of what has none. */
import type { Expression, Stretch } from "./ir.js";
import { type Type, VOID } from "./types.js";

/** Not understood: evaluating it may do anything to what its operands reach. */
export function unknown(node: Stretch, why: string, operands: readonly Expression[] = []): Expression {
  const { start, end } = node;
  return { op: "unknown", why, operands, harmless: false, type: { kind: "opaque", name: "?" }, start, end };
}

/** Any value of the type, made without doing anything. */
export function anything(node: Stretch, type: Type, operands: readonly Expression[] = []): Expression {
  return { op: "unknown", why: "", operands, harmless: true, type, start: node.start, end: node.end };
}

/** The value of what gives none. */
export function noValue(node: Stretch): Expression {
  return anything(node, VOID);
}
