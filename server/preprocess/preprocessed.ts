/** What the preprocessor gives: one text for the parser, and the way back from it to the source files. */
import type { Span } from "../../shared-model/span.js";
import type { Gap, SourceFile } from "./source.js";

/**
 * Where a token of the expanded text comes from. In `TCCR2B = _BV(CS22);`, expanded to `TCCR2B = (1 << (2));`:
 * `TCCR2B` is a copy: its own span, no macro. The `1` and the brackets come out of `_BV`'s body: their span is the whole
 * `_BV(CS22)`, their macro `_BV`. The `2` came through as an argument: its span is `CS22` alone, its macro `_BV`, its
 * constant `CS22`.
 */
export interface Origin {
  /**
   * In the source file. Of a copied token: itself. Of a token from a macro's body: the whole invocation, from the name
   * to the closing bracket; of an invocation that stands in another's arguments: that inner one. Of a token that was
   * written as an argument: itself, or the invocation written there whose expansion it is. Of what `#` and `##` made:
   * the invocation.
   */
  readonly span: Span;
  /** Outermost macro, where the text came out of one; also of what came through as its argument. */
  readonly macro: string | null;
  /** Innermost object-like macro whose body is exactly this token (`CS22` for the `2`), where there is one. */
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
  /** Names of built-in headers that were included (`Servo.h`, `avr/interrupt.h`); `Arduino.h` wherever there are tabs. */
  readonly builtinHeaders: ReadonlySet<string>;
  /** Every file that took part, main file first. */
  readonly files: readonly SourceFile[];
  /** Missing includes, #error in active text, unbalanced conditionals, limits. */
  readonly gaps: readonly Gap[];
  /** Stretches of expanded text by translation unit; `core`: Arduino.h is in force (tabs always); `c`: a C file. */
  readonly units: readonly {
    readonly path: string;
    readonly start: number;
    readonly end: number;
    readonly c: boolean;
    readonly core: boolean;
    readonly kind: SourceFile["kind"];
  }[];
  /** The final text of an object-like macro, for those who ask (`F_CPU`); undefined where not defined. */
  macroText(name: string): string | undefined;
}
