/** String literals: their bytes, and the objects they are. */
import type { SyntaxNode } from "../parse/syntax.js";
import type { Expression, Place } from "./ir.js";
import { readCharacters } from "./literals.js";
import type { Lowering } from "./lowering.js";
import { CHAR, INT16 } from "./types.js";

export function textBytes(run: Lowering, node: SyntaxNode): number[] {
  if (node.kind === "concatenated_string") {
    return node.children.filter((part) => part.named).flatMap((part) => textBytes(run, part));
  }
  const raw = run.textOf(node);
  const rawString = /^(?:u8|[uUL])?R"([^(]*)\(([\s\S]*)\)\1"$/.exec(raw);
  if (rawString !== null) return [...rawBytes(rawString[2]!)];
  return readCharacters(raw.replace(/^(?:u8|[uUL])?"/, "").replace(/"$/, ""));
}

function rawBytes(text: string): number[] {
  return readCharacters(text.replace(/\\/g, "\\\\"));
}

export function lowerText(run: Lowering, node: SyntaxNode): Expression {
  const text = run.textOf(node);
  const bytes = textBytes(run, node);
  const object = run.globalVariable("", { kind: "array", of: CHAR, length: bytes.length + 1 }, node.start);
  object.constant = true;
  object.addressTaken = true;
  for (const [index, byte] of bytes.entries()) {
    if (index >= 256) break;
    const target: Place = {
      op: "index",
      base: { op: "variable", variable: object, type: object.type, start: node.start, end: node.end },
      index: { op: "integer", value: index, type: INT16, start: node.start, end: node.end },
      type: CHAR,
      start: node.start,
      end: node.end,
    };
    const value: Expression = {
      op: "integer",
      value: (byte << 24) >> 24,
      type: CHAR,
      start: node.start,
      end: node.end,
    };
    run.startup.push({ op: "initialise", target, value, start: node.start, end: node.end });
  }
  return { op: "text", text, object, type: { kind: "pointer", to: CHAR }, start: node.start, end: node.end };
}
