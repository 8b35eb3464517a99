/** One edit of a source text, as fixes offer it and the editor takes it. */
import type { Span } from "../../shared-model/span.js";

/** Replace the text of `span` by `text`. */
export interface TextEdit {
  readonly span: Span;
  readonly text: string;
}
