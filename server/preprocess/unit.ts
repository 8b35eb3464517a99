/**
 * Reads one translation unit and puts out its expanded text. The loop in `scanText` is the hot path: it passes over
 * characters, and stops only at words that may be macros, at `#`, at comments, literals and splices. What it passes
 * over is copied through in whole stretches.
 */
import {
  BACKSLASH,
  behindLiteral,
  behindNumber,
  behindRawString,
  behindSplice,
  CLASS,
  DIGIT,
  DOT,
  HASH,
  isDigit,
  isRawPrefix,
  isWord,
  LETTER,
  QUOTE,
  SLASH,
} from "./characters.js";
import { Directives } from "./directives.js";
import { Expander, ExpansionTooLarge, type TokenSource } from "./expand.js";
import { FileCursor } from "./file-cursor.js";
import { bodyOf, type Macro } from "./macro.js";
import { FILTER_SIZE } from "./macro-table.js";
import type { SourceFile } from "./source.js";
import { makeToken, SPACED, spell, type Token } from "./token.js";
import { FileSource } from "./token-source.js";
import { type Run, UnitState } from "./unit-state.js";

/** Built-in macros that begin an interrupt routine. */
const ROUTINES = new Set(["ISR", "SIGNAL", "EMPTY_INTERRUPT", "ISR_ALIAS"]);

/** Of conditionals that a file leaves open, so many are told. */
const MAX_OPEN_TOLD = 5;

export class Unit {
  readonly state: UnitState;
  private readonly expander: Expander;
  private readonly directives: Directives;

  constructor(
    private readonly run: Run,
    filter: Uint8Array,
  ) {
    this.state = new UnitState(run, filter);
    this.expander = new Expander(
      this.state.table,
      {
        dynamic: (macro, at) => this.dynamic(macro, at),
        complain: (reason, at) => {
          run.gap(reason, at.file, at.start, at.end);
        },
        operator: (name, next) => this.directives.operator(name, next),
      },
      run.limits,
    );
    this.directives = new Directives(this.state, this.expander, (file) => this.scan(file));
  }

  /** Puts a built-in header in force. */
  include(name: string): void {
    const header = this.state.table.header(name);
    if (header !== undefined) this.state.table.include(header);
  }

  /** Arduino.h, as the build puts it before the tabs: the core's own where there is one. */
  includeCore(): void {
    const header = this.run.sources.core?.headers.get("Arduino.h");
    if (header === undefined) {
      this.run.builtinHeaders.add("Arduino.h");
      this.include("Arduino.h");
    } else {
      this.scan(header);
      this.run.output.endLine();
    }
  }

  includes(name: string): boolean {
    if (this.state.read.has(name)) return true;
    const header = this.state.table.header(name);
    return header !== undefined && this.state.table.isActive(header);
  }

  /** Reads a whole file at the place where the output stands. */
  scan(file: SourceFile): void {
    const { run } = this;
    run.stop();
    const number = run.fileNumber(file);
    if (file.text.includes("\0")) {
      run.gap("this file is not text", number, 0, 0);
      return;
    }
    const noteComment =
      file.kind !== "sketch"
        ? undefined
        : (comment: { start: number; end: number; codeBefore: boolean }) => {
            run.comments.push({ ...comment, file: number, at: run.output.length });
          };
    const { table } = this.state;
    const isMacro =
      table.find("__cplusplus") === undefined ? undefined : (name: string) => table.find(name) !== undefined;
    const cursor = new FileCursor(file, number, noteComment, isMacro);
    this.state.open.push(cursor);
    this.scanText(cursor);
    this.state.open.pop();
    for (const { start } of cursor.conditionals.slice(0, MAX_OPEN_TOLD)) {
      run.gap("an #if is not closed by #endif in its file", number, start, start + 1);
    }
  }

  private scanText(cursor: FileCursor): void {
    const { text, number } = cursor;
    const { output } = this.run;
    const { table } = this.state;
    const { filter } = table;
    let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
    /** Everything before is put out. */
    let copied = at;
    /** What is copied next follows directly, since only a splice stood between. */
    let joined = false;
    let wordStart = 0;
    let wordEnd = -1;
    while (at < text.length) {
      const code = text.charCodeAt(at);
      switch (code < 128 ? CLASS[code] : LETTER) {
        case LETTER: {
          let hash = code;
          let end = at + 1;
          let next = text.charCodeAt(end);
          while (isWord(next)) {
            hash = (Math.imul(hash, 31) + next) | 0;
            next = text.charCodeAt(++end);
          }
          wordStart = at;
          wordEnd = end;
          at = end;
          if (next === 0x5c && behindSplice(text, end) > end) {
            output.copy(text, number, copied, wordStart, joined);
            joined = false;
            copied = at = this.splicedWord(cursor, wordStart);
          } else if (filter[hash & (FILTER_SIZE - 1)] === 1) {
            const macro = table.find(text.slice(wordStart, end));
            if (macro === undefined || macro.self) break;
            const behind = this.invoke(cursor, macro, wordStart, end, copied, joined);
            if (behind >= 0) {
              copied = at = behind;
              joined = false;
            }
          }
          break;
        }
        case DIGIT:
          at = behindNumber(text, at);
          break;
        case DOT:
          at = isDigit(text.charCodeAt(at + 1)) ? behindNumber(text, at) : at + 1;
          break;
        case QUOTE: {
          const isRaw = wordEnd === at && code === 0x22 && isRawPrefix(text, wordStart, wordEnd);
          const end = isRaw ? behindRawString(text, at) : behindLiteral(text, at);
          if (!isRaw) {
            // A literal may be continued on the next line.
            for (let splice = newlineIn(text, at, end); splice >= 0; splice = newlineIn(text, splice + 1, end)) {
              const backslash = text.lastIndexOf("\\", splice);
              output.copy(text, number, copied, backslash, joined);
              copied = splice + 1;
              joined = true;
            }
          }
          at = end;
          break;
        }
        case SLASH: {
          const next = text.charCodeAt(at + 1);
          if (next === 0x2f || next === 0x2a) {
            output.copy(text, number, copied, at, joined);
            joined = false;
            copied = at = cursor.reader.behindComment(at);
          } else at++;
          break;
        }
        case HASH:
          if (cursor.codeBefore(at)) at++;
          else {
            output.copy(text, number, copied, at, joined);
            joined = false;
            copied = at = this.directives.handle(cursor, at, false);
          }
          break;
        case BACKSLASH: {
          const end = behindSplice(text, at);
          if (end > at) {
            output.copy(text, number, copied, at, joined);
            joined = true;
            copied = at = end;
          } else at++;
          break;
        }
        default:
          at++;
      }
    }
    output.copy(text, number, copied, text.length, joined);
  }

  /** Puts out the macro's expansion; gives the offset behind the invocation, or −1 where it is none. */
  private invoke(
    cursor: FileCursor,
    macro: Macro,
    start: number,
    end: number,
    copied: number,
    joined: boolean,
  ): number {
    const { output } = this.run;
    const { text, number } = cursor;
    if (macro.flat !== undefined) {
      output.copy(text, number, copied, start, joined);
      output.put(macro.flat, number, start, end, macro.name, macro.single ? macro.name : null, false);
      return end;
    }
    if (macro.parameters !== undefined) {
      const next = text.charCodeAt(end);
      // Anything but a parenthesis, blank space, a comment or a splice says that this is no invocation.
      if (next !== 0x28 && next > 0x20 && next !== 0x2f && next !== 0x5c) return -1;
    }
    this.run.stop();
    const { gaps, comments } = this.run;
    const gapsBefore = gaps.length;
    output.copy(text, number, copied, start, joined);
    const source = new FileSource(cursor, end, (hash) => this.directives.handle(cursor, hash, true), comments);
    const name = makeToken("word", macro.name, 0, number, start, end);
    try {
      const tokens = this.expander.invoke(macro, name, source);
      if (tokens !== undefined) {
        if (macro.header > 0 && ROUTINES.has(macro.name)) this.checkVector(tokens[1]);
        for (const token of tokens) {
          output.put(
            token.text,
            token.file,
            token.start,
            token.end,
            macro.name,
            token.constant,
            (token.flags & SPACED) !== 0,
          );
        }
        return source.at;
      }
    } catch (error) {
      if (!(error instanceof ExpansionTooLarge)) throw error;
      gaps.length = gapsBefore;
      this.run.gap(`macro '${macro.name}' is not expanded: it grows past the limit`, number, start, end);
      source.forget();
    }
    // No invocation: the name stands for itself.
    output.copy(text, number, start, end);
    return end;
  }

  /** An interrupt routine whose vector the chip does not have is a function that nothing calls. */
  private checkVector(name: Token | undefined): void {
    if (name === undefined || name.text.startsWith("__isr_")) return;
    this.run.gap(
      `'${name.text}' is no interrupt of this chip: nothing calls the routine`,
      name.file,
      name.start,
      name.end,
    );
  }

  /** A word that a splice cuts in two: put out whole. Gives the offset behind it. */
  private splicedWord(cursor: FileCursor, start: number): number {
    const { reader, number } = cursor;
    reader.at = start;
    reader.read();
    reader.spaced = false;
    const token = reader.token as Token;
    const macro = this.state.table.find(token.text);
    if (macro !== undefined && !macro.self) {
      const behind = this.invoke(cursor, macro, start, token.end, start, false);
      if (behind > token.end || macro.parameters === undefined) return behind;
    }
    this.run.output.put(token.text, number, start, token.end, null, null, false);
    return token.end;
  }

  private dynamic(macro: Macro, at: Token): string {
    const { open } = this.state;
    const cursor = open[open.length - 1];
    // Asked for when the unit has been read.
    if (cursor === undefined) return "0";
    switch (macro.dynamic) {
      case "line":
        return String(cursor.lineOf(at.start));
      case "counter":
        return String(this.state.counter++);
      case "depth":
        return String(open.length - 1);
      default: {
        const name = macro.dynamic === "file" ? cursor.presumedName : (open[0] as FileCursor).source.path;
        return `"${name.replace(/[\\"]/g, "\\$&")}"`;
      }
    }
  }

  /** The text for which an object-like macro stands at the end of the unit. */
  macroText(name: string): string | undefined {
    const macro = this.state.table.find(name);
    if (macro === undefined || macro.parameters !== undefined || macro.dynamic !== undefined) return undefined;
    if (macro.self) return name;
    const token = makeToken("word", name, 0, 0, 0, 0);
    const { gaps } = this.run;
    const told = gaps.length;
    try {
      const none: TokenSource = { opens: () => false, next: () => undefined, mark: () => 0, rewind: () => {} };
      return spell(this.expander.invoke(macro, token, none) ?? []);
    } catch (error) {
      if (error instanceof ExpansionTooLarge) return spell(bodyOf(macro));
      throw error;
    } finally {
      // The answer is given; what this question finds wrong is no part of it.
      gaps.length = told;
    }
  }
}

/** The offset of the first newline in a stretch, or −1. Looks no further, however long the text is. */
function newlineIn(text: string, from: number, to: number): number {
  for (let at = from; at < to; at++) if (text.charCodeAt(at) === 0x0a) return at;
  return -1;
}
