/** Edits that set or clear named bits of a control register, in the line that already writes them where there is one. */
import type { Span } from "../../shared-model/span.js";
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";
import { chain, namedBit, shapeOf } from "../look/expression.js";
import { within } from "../look/look.js";
import { namingStyle } from "../look/naming.js";
import { homesOfBit } from "../look/register-fields.js";
import { fileText, lineAfter } from "./fix.js";

/** Whether the line's value is a plain list of ORed parts, to which one more can be written. */
function isList(write: RegisterWrite): boolean {
  if (write.expression === null || !["=", "|="].includes(write.operator)) return false;
  const { kind } = shapeOf(write.register, write.operator, write.expression);
  return kind === "set all" || kind === "set bits" || kind === "replace";
}

/** Sets bits: in `write` itself where it is a list of the register's bits, else in a line of their own after `after`. */
export function setBits(
  analysis: Analysis,
  register: string,
  names: readonly string[],
  write: RegisterWrite | undefined,
  after: Span,
): readonly TextEdit[] {
  const missing = names.filter((name) => !isSet(analysis, write, register, name));
  if (missing.length === 0) return [];
  const style = namingStyle(analysis);
  const bits = missing.map(style.bit).join(" | ");
  if (write?.register === register && isList(write) && write.expression !== null) {
    const span = withBrackets(analysis, write.expression.span);
    if (write.expression.value?.max === 0) return [{ span, text: bits }];
    if (chain(write.expression, "|").every((part) => within(part.span, span)))
      return [{ span: { path: span.path, start: span.end, end: span.end }, text: ` | ${bits}` }];
  }
  return [lineAfter(analysis, write?.span ?? after, `${register} |= ${bits};`)];
}

/** Whether the line sets the bit already. */
function isSet(analysis: Analysis, write: RegisterWrite | undefined, register: string, name: string): boolean {
  const home = homesOfBit(analysis.target.chip, name).find((each) => each.register === register);
  return home !== undefined && write?.register === register && (write.after.ones & (1 << home.position)) !== 0;
}

/** Clears bits: each by its name out of the list in `write`, else all in a line of their own after `after`. */
export function clearBits(
  analysis: Analysis,
  register: string,
  names: readonly string[],
  write: RegisterWrite | undefined,
  after: Span,
): readonly TextEdit[] {
  if (names.length === 0) return [];
  const taken = write?.register === register && isList(write) ? takenOut(analysis, write, names) : null;
  if (taken !== null) return taken;
  const bits = names.map(namingStyle(analysis).bit);
  const mask = bits.length === 1 ? bits[0]! : `(${bits.join(" | ")})`;
  return [lineAfter(analysis, write?.span ?? after, `${register} &= ~${mask};`)];
}

/** The edits that take named bits out of a list of ORed bits; null where one of them is not named there alone. */
export function takenOut(
  analysis: Analysis,
  write: RegisterWrite,
  names: readonly string[],
): readonly TextEdit[] | null {
  if (write.expression === null) return null;
  const parts = chain(write.expression, "|");
  const going = parts.filter((part) => names.includes(namedBit(part)?.name ?? ""));
  if (going.length !== names.length || !going.every((part) => within(part.span, write.expression!.span))) return null;
  // A line that sets nothing any more is no line.
  if (going.length === parts.length && write.operator !== "=") return null;
  if (going.length === parts.length) return [{ span: withBrackets(analysis, write.expression.span), text: "0" }];
  return going.map((part) => ({ span: withOperator(analysis, part), text: "" }));
}

/** A part of a list with one of the `|` beside it and its own brackets. */
function withOperator(analysis: Analysis, part: WrittenExpression): Span {
  const { path, start, end } = withBrackets(analysis, part.span);
  const text = fileText(analysis, path);
  const before = /\s?\|\s*$/.exec(text.slice(0, start));
  if (before !== null) return { path, start: before.index, end };
  const after = /^\s*\|\s*/.exec(text.slice(end));
  return { path, start, end: end + (after?.[0].length ?? 0) };
}

/** A stretch with the round brackets right around it. By the text: brackets of a macro's body are none of the line's own. */
function withBrackets(analysis: Analysis, { path, start, end }: Span): Span {
  const text = fileText(analysis, path);
  const open = /\(\s*$/.exec(text.slice(0, start));
  const close = /^\s*\)/.exec(text.slice(end));
  if (open === null || close === null || /\w\s*$/.test(text.slice(0, open.index))) return { path, start, end };
  return { path, start: open.index, end: end + close[0].length };
}
