/** Where expanded text is gathered, piece by piece, with the origin of each piece. */
import { runsTogether } from "./token.js";

/** Thrown where a limit on the whole program's text is hit; caught by `preprocess` alone. */
export class TextTooLong extends Error {}

/** Pieces of text in order, columns of equal length: row i holds from `starts[i]` to `starts[i + 1]`. */
export interface Segments {
  /** Offset in the expanded text. */
  readonly starts: number[];
  /** Number of the source file. */
  readonly files: number[];
  /** Offset in the source file. */
  readonly sources: number[];
  /** End in the source file of what the piece stands for, or −1 where the piece is a copy, character for character. */
  readonly ends: number[];
  readonly macros: (string | null)[];
  readonly constants: (string | null)[];
}

export class Output {
  readonly parts: string[] = [];
  readonly segments: Segments = { starts: [], files: [], sources: [], ends: [], macros: [], constants: [] };
  length = 0;
  /** Last character put out. */
  private last = 0x0a;

  constructor(private readonly maxText: number) {}

  /** Copies `start … end` of a file. `joined`: directly behind what was last put, since a splice stood between. */
  copy(text: string, file: number, start: number, end: number, joined = false): void {
    if (start >= end) return;
    if (!joined && runsTogether(this.last, text.charCodeAt(start))) this.push(" ");
    this.segment(file, start, -1, null, null);
    this.push(start === 0 && end === text.length ? text : text.slice(start, end));
    this.last = text.charCodeAt(end - 1);
  }

  /** Puts text that stands for `start … end` of a file. */
  put(
    text: string,
    file: number,
    start: number,
    end: number,
    macro: string | null,
    constant: string | null,
    spaced: boolean,
  ): void {
    if (text.length === 0) return;
    if (this.last > 0x20 && (spaced || runsTogether(this.last, text.charCodeAt(0)))) this.push(" ");
    this.segment(file, start, end, macro, constant);
    this.push(text);
    this.last = text.charCodeAt(text.length - 1);
  }

  /** A file ends its last line, whether or not its text does. */
  endLine(): void {
    if (this.last !== 0x0a) this.push("\n");
    this.last = 0x0a;
  }

  private push(text: string): void {
    this.parts.push(text);
    this.length += text.length;
    if (this.length > this.maxText) throw new TextTooLong();
  }

  private segment(file: number, source: number, end: number, macro: string | null, constant: string | null): void {
    const { starts, files, sources, ends, macros, constants } = this.segments;
    const before = starts.length - 1;
    if (
      end >= 0 &&
      before >= 0 &&
      sources[before] === source &&
      ends[before] === end &&
      files[before] === file &&
      macros[before] === macro &&
      constants[before] === constant
    ) {
      return;
    }
    starts.push(this.length);
    files.push(file);
    sources.push(source);
    ends.push(end);
    macros.push(macro);
    constants.push(constant);
  }
}
