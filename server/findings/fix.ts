/** Short ways to write down a fix. */
import type { Span } from "../../shared-model/span.js";
import type { Analysis } from "../analysis.js";
import { endOfStatement, indentAt, lineBreak } from "../edits/source-text.js";
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

/** All pins that the timer's units reach, as fixes name them. */
export function pinsOfTimer(analysis: Analysis, timer: number | null): readonly string[] {
  return analysis.pins.filter((pin) => pin.timer === timer).map((pin) => pin.pin);
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
