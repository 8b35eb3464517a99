/** The way back from expanded text to the source files: binary search over the pieces that were put out. */
import type { Span } from "../../shared-model/span.js";
import { CLASS, isWord, LETTER } from "./characters.js";
import type { Segments } from "./output.js";
import type { Origin, SourceMap } from "./preprocessed.js";
import type { SourceFile } from "./source.js";
import { behindToken } from "./token-reader.js";

export function createSourceMap(segments: Segments, files: readonly SourceFile[], length: number): SourceMap {
  const { starts, sources, ends } = segments;

  /** The number of the piece that holds an offset. */
  function pieceAt(offset: number): number {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] as number) <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  function fileOf(piece: number): SourceFile {
    return files[segments.files[piece] ?? 0] ?? NO_FILE;
  }

  return {
    origin(offset): Origin {
      if (starts.length === 0) return { span: { path: fileOf(0).path, start: 0, end: 0 }, macro: null, constant: null };
      const piece = pieceAt(offset);
      const { path, text } = fileOf(piece);
      const macro = segments.macros[piece] ?? null;
      const constant = segments.constants[piece] ?? null;
      const source = sources[piece] as number;
      const end = ends[piece] as number;
      if (end >= 0) return { span: { path, start: source, end }, macro, constant };
      return { span: { path, ...tokenAt(text, source + offset - (starts[piece] as number), source) }, macro, constant };
    },

    span(start, end): Span {
      if (starts.length === 0) return { path: fileOf(0).path, start: 0, end: 0 };
      const first = pieceAt(start);
      const file = segments.files[first];
      let low = Number.POSITIVE_INFINITY;
      let high = 0;
      for (let piece = first; piece < starts.length; piece++) {
        const from = starts[piece] as number;
        if (from >= end && piece > first) break;
        if (segments.files[piece] !== file) continue;
        const source = sources[piece] as number;
        const fixedEnd = ends[piece] as number;
        if (fixedEnd >= 0) {
          low = Math.min(low, source);
          high = Math.max(high, fixedEnd);
        } else {
          const to = Math.min(end, starts[piece + 1] ?? length);
          low = Math.min(low, source + Math.max(start, from) - from);
          high = Math.max(high, source + Math.max(to, start) - from);
        }
      }
      return { path: fileOf(first).path, start: low, end: high };
    },
  };
}

const NO_FILE: SourceFile = { path: "", text: "", kind: "sketch" };

/** The token of a file that stands at an offset; `first` is the earliest place where it can begin. */
function tokenAt(text: string, offset: number, first: number): { start: number; end: number } {
  if (offset >= text.length) return { start: text.length, end: text.length };
  let start = offset;
  if (isWord(text.charCodeAt(start))) {
    while (start > first && isWord(text.charCodeAt(start - 1))) start--;
  }
  const code = text.charCodeAt(start);
  return { start, end: behindToken(text, start, code < 128 ? (CLASS[code] as number) : LETTER) };
}
