/** Spans and findings of the engine → shapes of the protocol. The only place where offsets become lines and columns for an editor. */
import {
  type Diagnostic,
  DiagnosticSeverity,
  type TextEdit as LspEdit,
  type Position,
  type Range,
} from "vscode-languageserver/node";
import type { Span } from "../../shared-model/span.js";
import { type LineIndex, lineIndex } from "../../shared-model/text-position.js";
import type { TextEdit } from "../edits/text-edit.js";
import type { Finding, Severity } from "../findings/finding.js";
import type { SourceFile } from "../preprocess/source.js";

const SEVERITY: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  note: DiagnosticSeverity.Information,
};

/** The texts of one analysis, seen as documents. */
export class DocumentPlaces {
  readonly #texts: ReadonlyMap<string, string>;
  readonly #indexes = new Map<string, LineIndex>();
  readonly #uriOf: (path: string) => string;

  /** `uriOf`: the URI under which the editor knows a path. */
  constructor(files: readonly SourceFile[], uriOf: (path: string) => string) {
    this.#texts = new Map(files.map((file) => [file.path, file.text]));
    this.#uriOf = uriOf;
  }

  uri(path: string): string {
    return this.#uriOf(path);
  }

  text(path: string): string | undefined {
    return this.#texts.get(path);
  }

  offset(path: string, position: Position): number {
    return this.#index(path).offsetAt(position);
  }

  position(path: string, offset: number): Position {
    return this.#index(path).positionAt(offset);
  }

  range({ path, start, end }: Span): Range {
    return { start: this.position(path, start), end: this.position(path, end) };
  }

  diagnostic(finding: Finding): Diagnostic {
    return {
      range: this.range(finding.span),
      severity: SEVERITY[finding.severity],
      code: finding.id,
      source: "Pulsewright",
      message: finding.message,
      relatedInformation: finding.related.map(({ span, message }) => ({
        location: { uri: this.uri(span.path), range: this.range(span) },
        message,
      })),
    };
  }

  /** Edits by URI, in the order given. */
  edits(edits: readonly TextEdit[]): Record<string, LspEdit[]> {
    const byUri: Record<string, LspEdit[]> = {};
    for (const { span, text } of edits) {
      const list = byUri[this.uri(span.path)] ?? [];
      list.push({ range: this.range(span), newText: text });
      byUri[this.uri(span.path)] = list;
    }
    return byUri;
  }

  #index(path: string): LineIndex {
    const known = this.#indexes.get(path);
    if (known !== undefined) return known;
    const made = lineIndex(this.#texts.get(path) ?? "");
    this.#indexes.set(path, made);
    return made;
  }
}
