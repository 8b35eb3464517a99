/** What the preprocessor gives: one text for the parser, and the way back from it to the source files. */
import type { Span } from "../../shared-model/span.js";
import type { Gap, SourceFile } from "./source.js";

/** Where a stretch of expanded text comes from. */
export interface Origin {
  /** In the source file: the token itself, or the whole invocation of the outermost macro that produced it. */
  readonly span: Span;
  /** Outermost macro, where the text came out of one. */
  readonly macro: string | null;
  /** Innermost object-like macro whose body is this token (`CS22` for the `2`), where there is one. */
  readonly constant: string | null;
}

export interface SourceMap {
  /** Origin of the token that stands at this offset of the expanded text. */
  origin(offset: number): Origin;
  /** Smallest stretch of source that holds all of expanded text `start … end`; of the first token's file if they differ. */
  span(start: number, end: number): Span;
}

/** A comment of the sketch's own active text. */
export interface SourceComment {
  /** From the opening `//` or `/*` to the end of the comment. */
  readonly span: Span;
  readonly text: string;
  /** Where in the expanded text the comment stands (offset of the next token). */
  readonly at: number;
  /** A comment that ends a line of code, as opposed to standing alone. */
  readonly trailing: boolean;
}

export interface Preprocessed {
  /** All translation units behind one another. Built-in headers add no text. */
  readonly text: string;
  readonly map: SourceMap;
  readonly comments: readonly SourceComment[];
  /** Angled or quoted names of built-in headers that were included (`Servo.h`, `avr/interrupt.h`). */
  readonly builtinHeaders: ReadonlySet<string>;
  /** Every file that took part, main file first. */
  readonly files: readonly SourceFile[];
  /** Missing includes, #error in active text, unbalanced conditionals, limits. */
  readonly gaps: readonly Gap[];
  /** Stretches of expanded text by translation unit; `core` says whether Arduino.h is in force (tabs always). */
  readonly units: readonly {
    readonly path: string;
    readonly start: number;
    readonly end: number;
    readonly c: boolean;
    readonly core: boolean;
  }[];
  /** The final text of an object-like macro, for those who ask (`F_CPU`); undefined where not defined. */
  macroText(name: string): string | undefined;
}
