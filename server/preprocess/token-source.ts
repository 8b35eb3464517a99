/** The two places that tokens come from: a line that has been read, and the text of a file. */
import { behindSplice } from "./characters.js";
import type { TokenSource } from "./expand.js";
import type { Conditional, FileCursor } from "./file-cursor.js";
import type { Token } from "./token.js";

/** The tokens of a directive's line. */
export function lineSource(tokens: readonly Token[]): TokenSource {
  let at = 0;
  return {
    opens: () => tokens[at]?.text === "(" && tokens[at]?.kind === "mark",
    next: () => tokens[at++],
    mark: () => at,
    rewind(mark) {
      at = mark;
    },
  };
}

/** The text behind a macro's name in a file, read as arguments: directives in between are carried out. */
export class FileSource implements TokenSource {
  private before: Snapshot;
  /** As it was before the first directive among the arguments. */
  private readonly atFirst: Snapshot;

  constructor(
    private readonly cursor: FileCursor,
    from: number,
    private readonly directive: (hash: number) => number,
    private readonly comments: unknown[],
  ) {
    cursor.reader.at = from;
    cursor.reader.spaced = false;
    this.before = this.atFirst = { comments: comments.length, conditionals: undefined };
  }

  /** Behind the last token read. */
  get at(): number {
    return this.cursor.reader.at;
  }

  opens(): boolean {
    const { text, reader } = this.cursor;
    let at = reader.at;
    for (;;) {
      const code = text.charCodeAt(at);
      if (code === 0x28) return true;
      if (code <= 0x20) at++;
      else if (code === 0x2f && text.charCodeAt(at + 1) === 0x2f) {
        const newline = text.indexOf("\n", at);
        if (newline < 0) return false;
        at = newline;
      } else if (code === 0x2f && text.charCodeAt(at + 1) === 0x2a) {
        const close = text.indexOf("*/", at + 2);
        if (close < 0) return false;
        at = close + 2;
      } else {
        const behind = behindSplice(text, at);
        if (behind === at) return false;
        at = behind;
      }
    }
  }

  next(): Token | undefined {
    const { cursor } = this;
    const { reader, text } = cursor;
    for (;;) {
      const stop = reader.read();
      if (stop === "end") return undefined;
      if (stop === "line") {
        reader.at++;
        reader.spaced = true;
        continue;
      }
      const token = reader.token as Token;
      if (token.text === "#" && text.charCodeAt(token.start) === 0x23 && !cursor.codeBefore(token.start)) {
        this.before.conditionals ??= cursor.conditionals.map((conditional) => ({ ...conditional }));
        this.atFirst.conditionals ??= this.before.conditionals.map((conditional) => ({ ...conditional }));
        reader.at = this.directive(token.start);
        reader.spaced = true;
        continue;
      }
      return token;
    }
  }

  mark(): number {
    if (this.before.conditionals !== undefined || this.before.comments !== this.comments.length) {
      this.before = { comments: this.comments.length, conditionals: undefined };
    }
    return this.cursor.reader.at;
  }

  rewind(mark: number): void {
    this.cursor.reader.at = mark;
    this.restore(this.before);
  }

  /** As if nothing behind the macro's name had been read. */
  forget(): void {
    this.restore(this.atFirst);
  }

  private restore(snapshot: Snapshot): void {
    this.cursor.reader.spaced = false;
    this.comments.length = snapshot.comments;
    if (snapshot.conditionals !== undefined) this.cursor.conditionals = snapshot.conditionals;
  }
}

/** What reading ahead changes and going back has to undo. Definitions are made again on the second reading. */
interface Snapshot {
  readonly comments: number;
  conditionals: Conditional[] | undefined;
}
