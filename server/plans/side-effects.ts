/** Whether taking a statement out would take more than a register write with it. */
import type { WrittenExpression } from "../analysis.js";
import { partsOf } from "../look/expression.js";

/** Calls that do nothing but work out a value. */
const PURE: ReadonlySet<string> = new Set([
  "map",
  "bit",
  "_BV",
  "constrain",
  "min",
  "max",
  "abs",
  "analogRead",
  "digitalRead",
  "pgm_read_byte",
  "pgm_read_word",
]);

/** True where the right side calls something that may do more than give a value. */
export function actsBesides(expression: WrittenExpression | null): boolean {
  if (expression === null) return false;
  return [...partsOf(expression)].some((part) => part.kind === "call" && !PURE.has(part.text));
}
