/** Completion items of the engine → those of the protocol. */
import { type CompletionItem, CompletionItemKind, type Position } from "vscode-languageserver/node";
import { boardIds } from "../../shared-model/boards/boards.js";
import type { Analysis } from "../analysis.js";
import { fieldCompletions, type CompletionItem as Offered, wantCompletions } from "../features/completion.js";
import type { DocumentPlaces } from "./to-lsp.js";

/** Inside comments addressed to the tool, and the bits of the register being written; nothing anywhere else. */
export function completionsAt(
  analysis: Analysis,
  path: string,
  position: Position,
  places: DocumentPlaces,
): CompletionItem[] {
  const text = places.text(path);
  if (text === undefined) return [];
  const offset = places.offset(path, position);
  const { board, chip } = analysis.target;
  const words = {
    boards: boardIds,
    specifications: analysis.specifications
      .filter(({ broken }) => broken === undefined)
      .map(({ id, name }) => ({ id, says: name })),
  };
  const inComment = wantCompletions(text, offset, board, words).map((item) =>
    converted(item, CompletionItemKind.Keyword),
  );
  const bits = fieldCompletions(text, offset, chip).map((item) => converted(item, CompletionItemKind.EnumMember));
  return [...inComment, ...bits];

  function converted({ label, insert, span, detail }: Offered, kind: CompletionItemKind): CompletionItem {
    return { label, kind, detail, textEdit: { range: places.range({ path, ...span }), newText: insert } };
  }
}
