/** Hints of the engine → inlay hints of the protocol. */
import type { InlayHint, Range } from "vscode-languageserver/node";
import type { Analysis } from "../analysis.js";
import { type HintOptions, inlayHints } from "../features/inlay-hints.js";
import type { DocumentPlaces } from "./to-lsp.js";

/** No `kind`: the protocol's two are types and parameters, and editors switch those off separately. */
export function hintsIn(
  analysis: Analysis,
  path: string,
  range: Range,
  options: HintOptions,
  places: DocumentPlaces,
): InlayHint[] {
  const stretch = { start: places.offset(path, range.start), end: places.offset(path, range.end) };
  return inlayHints(analysis, path, stretch, options).map((hint) => ({
    position: places.position(path, hint.offset),
    label: hint.text,
    paddingLeft: true,
    ...(hint.tooltip === null ? {} : { tooltip: hint.tooltip }),
  }));
}
