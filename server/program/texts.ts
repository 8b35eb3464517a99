/** The bytes of string literals. */
import type { SyntaxNode } from "../parse/syntax.js";
import { readCharacters } from "./literals.js";
import type { Lowering } from "./lowering.js";

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
