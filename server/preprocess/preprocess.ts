/**
 * A sketch's files to one expanded text: conditionals decided, includes read, macros expanded, comments set aside, and
 * a map back. Total: whatever cannot be followed becomes a gap. Knows the chip's and the board's names, nothing of C++.
 */
import type { Chip } from "../../shared-model/chip.js";
import { baseTable, IN_C, IN_CPLUSPLUS } from "./base-table.js";
import type { PinNames } from "./builtin-chip.js";
import type { SeenComment } from "./file-cursor.js";
import { FILTER_SIZE } from "./macro-table.js";
import { Output, TextTooLong } from "./output.js";
import type { Preprocessed, SourceComment } from "./preprocessed.js";
import type { SketchSources, SourceFile } from "./source.js";
import { createSourceMap } from "./source-map.js";
import { Unit } from "./unit.js";
import { type PreprocessLimits, Run } from "./unit-state.js";

export type { PreprocessLimits } from "./unit-state.js";

export interface PreprocessOptions {
  readonly chip: Chip;
  /** Where the pins' names come from; a `Board` will do. Null: no board, so no names. */
  readonly board: PinNames | null;
  /** `ARDUINO_AVR_UNO` */
  readonly boardMacro: string | null;
  /** Hz. */
  readonly fCpu: number;
  /** The value of `ARDUINO`: 10819 says 1.8.19. */
  readonly arduinoVersion: number;
  readonly limits: PreprocessLimits;
  /** Asked at every file, conditional and expansion; ends the work by throwing. */
  readonly stop?: () => void;
}

/** Defaults for `limits`, and why. */
export const PREPROCESS_LIMITS: PreprocessLimits = {
  // A table in a header takes some thousand; more is a macro that doubles itself.
  maxTokens: 200_000,
  // The compiler's own limit.
  maxIncludeDepth: 200,
  maxMacroDepth: 200,
  // The parser refuses more.
  maxText: 4 * 1024 * 1024,
};

export function preprocess(sources: SketchSources, options: PreprocessOptions): Preprocessed {
  const base = baseTable(options);
  const output = new Output(options.limits.maxText);
  const run = new Run(sources, base, options.limits, output, options.stop ?? (() => {}));
  const units: Preprocessed["units"][number][] = [];
  let first: Unit | undefined;

  /** Reads files as one translation unit. */
  const read = (files: readonly SourceFile[], core: boolean, c: boolean): void => {
    const unit = new Unit(run, new Uint8Array(FILTER_SIZE));
    first ??= unit;
    const start = output.length;
    unit.include(c ? IN_C : IN_CPLUSPLUS);
    run.fileNumber(files[0] as SourceFile);
    try {
      if (core) unit.includeCore();
      for (const file of files) {
        unit.scan(file);
        output.endLine();
      }
    } finally {
      const { path, kind } = files[0] as SourceFile;
      const withCore = core || unit.includes("Arduino.h");
      units.push({ path, start, end: output.length, c, core: withCore, kind });
    }
  };

  try {
    if (sources.tabs.length > 0) read(sources.tabs, true, false);
    for (const file of [...sources.units, ...(sources.core?.units ?? [])]) read([file], false, /\.c$/.test(file.path));
  } catch (error) {
    if (!(error instanceof TextTooLong)) throw error;
    run.gaps.push({
      reason: `the program's text grows past ${options.limits.maxText} characters; the rest was not read`,
      span: null,
      affects: [],
    });
  }

  const text = output.parts.join("");
  return {
    text,
    map: createSourceMap(output.segments, run.files, text.length),
    comments: distinct(run.comments).map((comment) => placeComment(comment, run.files, text)),
    builtinHeaders: run.builtinHeaders,
    files: run.files,
    gaps: run.gaps,
    units,
    macroText: (name) => first?.macroText(name),
  };
}

/** A header that is read more than once tells its comments once. */
function distinct(comments: readonly SeenComment[]): SeenComment[] {
  const seen = new Set<string>();
  return comments.filter(({ file, start }) => {
    const key = `${file} ${start}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function placeComment(comment: SeenComment, files: readonly SourceFile[], text: string): SourceComment {
  const { path, text: source } = files[comment.file] as SourceFile;
  const { start, end } = comment;
  let at = comment.at;
  while (at < text.length && text.charCodeAt(at) <= 0x20) at++;
  return {
    span: { path, start, end },
    text: source.slice(start, end),
    at,
    trailing: comment.codeBefore && nothingFollows(source, end),
  };
}

/** Whether the line ends here, but for blank space and further comments. */
function nothingFollows(text: string, from: number): boolean {
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 0x0a) return true;
    if (code > 0x20) return code === 0x2f && (text.charCodeAt(at + 1) === 0x2f || text.charCodeAt(at + 1) === 0x2a);
  }
  return true;
}
