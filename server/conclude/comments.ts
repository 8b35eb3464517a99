/** Comments of the sketch: those addressed to the tool, read and resolved; all others as remarks beside statements. */
import type { Target } from "../../shared-model/chip.js";
import type { Span } from "../../shared-model/span.js";
import type { Specification } from "../../shared-model/specifications.js";
import { readComment } from "../../shared-model/wants/read-comment.js";
import type { PlacedComment, Remark } from "../analysis.js";
import type { Preprocessed, SourceComment } from "../preprocess/preprocessed.js";
import type { FunctionCode } from "../program/ir.js";
import type { LoweredProgram } from "../program/program.js";
import type { WantInFunction } from "./watched-places.js";

export function concludeComments(
  source: Preprocessed,
  program: LoweredProgram,
  target: Target,
  known: readonly Specification[],
): { comments: PlacedComment[]; remarks: Remark[]; wants: WantInFunction[] } {
  const comments: PlacedComment[] = [];
  const wants: WantInFunction[] = [];
  const remarks: Remark[] = [];
  for (const comment of source.comments) {
    const read = readComment(comment.text, known);
    for (const each of read) {
      const within = functionAt(program, comment.at);
      const pin =
        each.kind === "want" || each.kind === "reading" ? resolvePin(each.pin, program, target, source, within) : null;
      const placed = { comment: each, span: comment.span, inFunction: within?.name ?? null, pin };
      comments.push(placed);
      if (each.kind === "want" && within !== null && pin !== null) wants.push({ placed, at: comment.at, within });
    }
    if (read.length === 0)
      remarks.push({ span: comment.span, text: comment.text, beside: statementBeside(comment, source) });
  }
  return { comments, remarks, wants };
}

function functionAt(program: LoweredProgram, offset: number): FunctionCode | null {
  return program.functions.find((code) => code.body !== null && offset > code.start && offset <= code.end) ?? null;
}

/** `D3`, `3`, `A0`, `PD3`, or a constant of the sketch; null where the board has no such pin. */
export function resolvePin(
  name: string,
  program: LoweredProgram,
  target: Target,
  source: Preprocessed,
  within: FunctionCode | null,
  depth = 0,
): string | null {
  const label = (number: number): string | null => {
    const pin = target.pins.find((candidate) => candidate.number === number);
    return pin === undefined ? null : target.board === null ? pin.port : String(pin.number);
  };
  const digital = /^[dD]?(\d+)$/.exec(name);
  if (digital !== null) return label(Number(digital[1]));
  if (/^P[A-L][0-7]$/.test(name)) {
    const pin = target.pins.find((candidate) => candidate.port === name);
    return target.board === null || pin === undefined ? (hasPort(target, name) ? name : null) : String(pin.number);
  }
  const analog = target.pins.find((candidate) => candidate.analog?.toLowerCase() === name.toLowerCase());
  if (analog !== undefined) return label(analog.number);
  const number = program.numberNamed(name, within);
  if (number !== null) return label(number);
  const text = source
    .macroText(name)
    ?.trim()
    .replace(/^\((.*)\)$/, "$1");
  // Macros may stand for each other in a circle.
  if (text !== undefined && depth < 8) return resolvePin(text, program, target, source, within, depth + 1);
  const constant = target.board?.constants[name];
  return constant === undefined ? null : label(constant);
}

function hasPort(target: Target, port: string): boolean {
  return target.chip.ports.some((candidate) => candidate.letter === port[1]);
}

/** The line's own code for a comment that ends it, else the next line of code below. */
function statementBeside(comment: SourceComment, source: Preprocessed): Span | null {
  const file = source.files.find((candidate) => candidate.path === comment.span.path);
  if (file === undefined) return null;
  const { text } = file;
  const line = (from: number): Span | null => {
    let start = from;
    let end = text.indexOf("\n", from);
    if (end < 0) end = text.length;
    while (start < end && /\s/.test(text[start]!)) start++;
    let last = end;
    while (last > start && /\s/.test(text[last - 1]!)) last--;
    return last > start ? { path: file.path, start, end: last } : null;
  };
  if (comment.trailing) {
    const start = text.lastIndexOf("\n", comment.span.start - 1) + 1;
    const span = line(start);
    return span === null ? null : { ...span, end: Math.min(span.end, comment.span.start) };
  }
  const next = text.indexOf("\n", comment.span.end);
  return next < 0 ? null : line(next + 1);
}
