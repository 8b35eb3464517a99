/** Short ways to write down a fix. */
import type { Span } from "../../shared-model/span.js";
import type { Analysis } from "../analysis.js";
import { endOfStatement, indentAt, lineBreak, lineOf } from "../edits/source-text.js";
import { bodyOf, plainStatement, removalOf } from "../edits/statements.js";
import type { TextEdit } from "../edits/text-edit.js";
import type { Fix } from "./finding.js";

/** A fix that leaves every register as it was. */
export function safeFix(title: string, edit: () => readonly TextEdit[]): Fix {
  return { title, safety: { kind: "safe" }, pins: [], edit };
}

/** A fix that changes what pins put out, with the reason and the pins that it means to change. */
export function changingFix(
  title: string,
  because: string,
  pins: readonly string[],
  edit: () => readonly TextEdit[],
): Fix {
  return { title, safety: { kind: "changes behaviour", because }, pins, edit };
}

/** All pins that the timer decides on, as fixes name them: those of its units, and those that its routines or its time switch. */
export function pinsOfTimer(analysis: Analysis, timer: number | null): readonly string[] {
  const routines = analysis.interrupts.some((rate) => rate.vector.startsWith(`TIMER${timer}_`));
  const time = routines || (analysis.core && timer === 0);
  return analysis.pins
    .filter(
      (pin) =>
        pin.timer === timer ||
        (time && pin.signals.some((signal) => signal.driver === "interrupt" || signal.driver === "software")),
    )
    .map((pin) => pin.pin);
}

export function fileText(analysis: Analysis, path: string): string {
  return analysis.files.find((file) => file.path === path)?.text ?? "";
}

export function textOf(analysis: Analysis, span: Span): string {
  return fileText(analysis, span.path).slice(span.start, span.end);
}

/** A new line of code after the statement in which `span` stands, indented as that statement is. */
export function lineAfter(analysis: Analysis, span: Span, code: string): TextEdit {
  const text = fileText(analysis, span.path);
  const end = endOfStatement(text, span.end);
  const at = { path: span.path, start: end, end };
  return { span: at, text: `${lineBreak(text)}${indentAt(text, span.start)}${code}` };
}

export function wrap(span: Span): readonly TextEdit[] {
  return [
    { span: { path: span.path, start: span.start, end: span.start }, text: "(" },
    { span: { path: span.path, start: span.end, end: span.end }, text: ")" },
  ];
}

/** A new line of code before the statement in which `span` stands; null where that is no plain statement. */
export function lineBefore(analysis: Analysis, span: Span, code: string): TextEdit | null {
  const text = fileText(analysis, span.path);
  const statement = plainStatement(text, span);
  if (statement === null) return null;
  const at = { path: span.path, start: statement.start, end: statement.start };
  const alone = text.slice(lineOf(text, statement.start).start, statement.start).trim() === "";
  return { span: at, text: alone ? `${code}${lineBreak(text)}${indentAt(text, statement.start)}` : `${code} ` };
}

/** Takes out the statement that `span` fills; null where it is part of another one. */
export function removal(analysis: Analysis, span: Span): TextEdit | null {
  const text = fileText(analysis, span.path);
  const statement = plainStatement(text, span);
  return statement === null ? null : { span: { path: span.path, ...removalOf(text, statement) }, text: "" };
}

/** A new first line in the body of a function of the sketch's file; null where the function does not stand there. */
export function firstLineOf(analysis: Analysis, path: string, name: string, lines: readonly string[]): TextEdit | null {
  const text = fileText(analysis, path);
  const start = bodyOf(text, name);
  if (start === null) return null;
  const at = { path, start, end: start };
  const next = lineOf(text, start).end;
  // A body on one line stays on one line.
  if (text.slice(start, next).trim() !== "")
    return { span: at, text: ` ${lines.join(" ")}${text[start] === "}" ? " " : ""}` };
  const below = indentAt(text, Math.min(next + lineBreak(text).length, text.length));
  const indent = below === "" ? "  " : below;
  return { span: at, text: lines.map((line) => `${lineBreak(text)}${indent}${line}`).join("") };
}

/** Edits that all exist, or none at all: a fix made by halves is no fix. */
export function allOf(edits: readonly (TextEdit | null)[]): readonly TextEdit[] {
  return edits.every((edit) => edit !== null) ? edits : [];
}
