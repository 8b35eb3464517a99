/** What one run of the preprocessor carries along, and what each translation unit starts afresh. */
import type { FileCursor, SeenComment } from "./file-cursor.js";
import type { BaseTable } from "./macro-table.js";
import { MacroTable } from "./macro-table.js";
import type { Output } from "./output.js";
import type { Gap, SketchSources, SourceFile } from "./source.js";

/** Every limit hit is a gap. */
export interface PreprocessLimits {
  /** Tokens that a single invocation of a macro may produce on the way. */
  readonly maxTokens: number;
  readonly maxIncludeDepth: number;
  /** Nesting of macro arguments within macro arguments. */
  readonly maxMacroDepth: number;
  /** UTF-16 units of expanded text. */
  readonly maxText: number;
}

/** Who reads more than this many gaps? Half-typed text can make one for every word. */
const MAX_GAPS = 500;

/** One run: all units of a program. */
export class Run {
  readonly gaps: Gap[] = [];
  readonly comments: SeenComment[] = [];
  readonly files: SourceFile[] = [];
  readonly builtinHeaders = new Set<string>();
  private readonly numbers = new Map<string, number>();

  constructor(
    readonly sources: SketchSources,
    readonly base: BaseTable,
    readonly limits: PreprocessLimits,
    readonly output: Output,
    readonly stop: () => void,
  ) {}

  fileNumber(file: SourceFile): number {
    const known = this.numbers.get(file.path);
    if (known !== undefined) return known;
    this.numbers.set(file.path, this.files.length);
    this.files.push(file);
    return this.files.length - 1;
  }

  gap(reason: string, file: number, start: number, end: number): void {
    if (this.gaps.length >= MAX_GAPS) return;
    this.gaps.push({ reason, span: { path: (this.files[file] as SourceFile).path, start, end }, affects: [] });
  }
}

/** One translation unit: its macros and what it has included. */
export class UnitState {
  readonly table: MacroTable;
  /** Paths under `#pragma once`. */
  readonly once = new Set<string>();
  /** Files being read, outermost first. */
  readonly open: FileCursor[] = [];
  /** Headers of the core that were read in place of built-in ones. */
  readonly read = new Set<string>();
  counter = 0;
  /** Includes of files that are being read already are refused from then on. */
  tooDeep = false;

  constructor(
    readonly run: Run,
    filter: Uint8Array,
  ) {
    this.table = new MacroTable(run.base, filter, run.sources.core?.headers ?? new Map());
  }

  get cursor(): FileCursor {
    return this.open[this.open.length - 1] as FileCursor;
  }
}
