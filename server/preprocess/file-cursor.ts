/** One visit to one source file: where reading stands, which conditionals are open, which lines its tokens are on. */
import type { SourceFile } from "./source.js";
import { TokenReader } from "./token-reader.js";

/** One `#if` … `#endif` that is open. */
export interface Conditional {
  /** Offset of its `#`. */
  readonly start: number;
  /** One of its groups has been taken. */
  taken: boolean;
  sawElse: boolean;
}

export interface SeenComment {
  readonly file: number;
  readonly start: number;
  readonly end: number;
  /** Length of the expanded text when it was met. */
  readonly at: number;
  readonly codeBefore: boolean;
}

export class FileCursor {
  readonly text: string;
  readonly reader: TokenReader;
  conditionals: Conditional[] = [];
  /** As changed by `#line`. */
  presumedName: string;
  lineShift = 0;
  /** Comments in groups that are skipped do not count. */
  muted = false;
  private lastCommentEnd = -1;
  private lastCommentHadCode = false;
  private newlines: number[] | undefined;

  constructor(
    readonly source: SourceFile,
    readonly number: number,
    private readonly noteComment: ((comment: { start: number; end: number; codeBefore: boolean }) => void) | undefined,
    isMacro: ((name: string) => boolean) | undefined,
  ) {
    this.text = source.text;
    this.presumedName = source.path;
    this.reader = new TokenReader(source.text, number, (start, end) => this.comment(start, end), isMacro);
  }

  /** Takes note of a comment that was passed. */
  comment(start: number, end: number): void {
    const codeBefore = this.codeBefore(start);
    this.lastCommentEnd = end;
    this.lastCommentHadCode = codeBefore;
    // The carriage return belongs to the end of the line.
    const last = this.text.charCodeAt(end - 1) === 0x0d ? end - 1 : end;
    if (!this.muted) this.noteComment?.({ start, end: last, codeBefore });
  }

  /** Whether anything but blank space and comments stands before this offset on its logical line. */
  codeBefore(offset: number): boolean {
    const { text } = this;
    for (let at = offset - 1; at >= 0; at--) {
      if (at + 1 === this.lastCommentEnd) return this.lastCommentHadCode;
      const code = text.charCodeAt(at);
      if (code === 0x0a) {
        let before = at - 1;
        while (before >= 0 && isBlank(text.charCodeAt(before))) before--;
        if (text.charCodeAt(before) !== 0x5c) return false;
        at = before;
      } else if (code > 0x20 && code !== 0xfeff) return true;
    }
    return false;
  }

  /** The number of the line, from 1, as `__LINE__` gives it. */
  lineOf(offset: number): number {
    this.newlines ??= newlinesOf(this.text);
    let low = 0;
    let high = this.newlines.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.newlines[middle] as number) < offset) low = middle + 1;
      else high = middle;
    }
    return low + 1 + this.lineShift;
  }
}

function isBlank(code: number): boolean {
  return code === 0x20 || code === 0x09 || code === 0x0d;
}

function newlinesOf(text: string): number[] {
  const newlines: number[] = [];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) newlines.push(at);
  return newlines;
}
