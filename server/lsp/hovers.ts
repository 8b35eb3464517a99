/** A hover of the engine → one of the protocol. */
import { type Hover, MarkupKind, type Position } from "vscode-languageserver/node";
import type { Analysis } from "../analysis.js";
import { hover } from "../features/hover.js";
import type { DocumentPlaces } from "./to-lsp.js";

export function hoverAt(analysis: Analysis, path: string, position: Position, places: DocumentPlaces): Hover | null {
  const found = hover(analysis, path, places.offset(path, position));
  if (found === null) return null;
  return { range: places.range(found.span), contents: { kind: MarkupKind.Markdown, value: found.markdown } };
}
