/** Where spans stand in the sketch's files, as a report says it: the line from 1, the range as in the Language Server Protocol. */
import type { ReportedPlace, ReportedRange } from "../../shared-model/report.js";
import type { Span } from "../../shared-model/span.js";
import { type LineIndex, lineIndex } from "../../shared-model/text-position.js";
import type { Analysis } from "../analysis.js";

export interface Places {
  /** Line from 1. */
  place(span: Span): ReportedPlace;
  range(span: Span): ReportedRange;
  /** For what concerns the whole program. */
  readonly main: ReportedPlace;
}

export function placesOf(analysis: Analysis): Places {
  const texts = new Map(analysis.files.map((file) => [file.path, file.text]));
  const indexes = new Map<string, LineIndex>();
  const indexOf = (path: string): LineIndex => {
    const known = indexes.get(path);
    if (known !== undefined) return known;
    const made = lineIndex(texts.get(path) ?? "");
    indexes.set(path, made);
    return made;
  };
  return {
    place: (span) => ({ path: span.path, line: indexOf(span.path).positionAt(span.start).line + 1 }),
    range: (span) => ({
      start: indexOf(span.path).positionAt(span.start),
      end: indexOf(span.path).positionAt(span.end),
    }),
    main: { path: analysis.files[0]?.path ?? "", line: 1 },
  };
}
