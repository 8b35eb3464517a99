/**
 * The macros in force at one moment of one translation unit: a built-in table shared by all units of all analyses for
 * the same chip and board, and over it what this unit defined and undefined itself.
 */
import type { Macro } from "./macro.js";

/** Names hash to a bit each: a word whose bit is not set is no macro, and need not be cut out of the text. */
export const FILTER_SIZE = 1 << 15;

/** Built-in macros and headers. Never changed once made. */
export interface BaseTable {
  readonly macros: ReadonlyMap<string, Macro>;
  readonly filter: Uint8Array;
  /** Header name to its number. */
  readonly headers: ReadonlyMap<string, BuiltinHeader>;
}

export interface BuiltinHeader {
  readonly name: string;
  readonly number: number;
  /** Headers that it includes. */
  readonly pulls: readonly string[];
  /** Found where the sketch's own files and libraries have no file of that name, even for `<…>`. */
  readonly replaceable: boolean;
  readonly macros: readonly Macro[];
}

/** As the scanner computes it while it passes over a word. */
export function hashOf(name: string): number {
  let hash = 0;
  for (let at = 0; at < name.length; at++) hash = (Math.imul(hash, 31) + name.charCodeAt(at)) | 0;
  return hash & (FILTER_SIZE - 1);
}

export class MacroTable {
  /** Own definitions; null for what was undefined. */
  private readonly own = new Map<string, Macro | null>();
  private readonly active: Uint8Array;

  constructor(
    private readonly base: BaseTable,
    /** 1 for every name that may be a macro; the caller's to reuse. */
    readonly filter: Uint8Array,
    /** Built-in headers that files stand for: what includes them has to include the files. */
    private readonly replaced: ReadonlyMap<string, unknown> = new Map(),
  ) {
    filter.set(base.filter);
    this.active = new Uint8Array(base.headers.size + 1);
    this.active[0] = 1;
  }

  find(name: string): Macro | undefined {
    if (this.own.size > 0) {
      const own = this.own.get(name);
      if (own !== undefined) return own ?? undefined;
    }
    const builtin = this.base.macros.get(name);
    return builtin !== undefined && this.active[builtin.header] === 1 ? builtin : undefined;
  }

  define(macro: Macro): void {
    this.own.set(macro.name, macro);
    this.filter[hashOf(macro.name)] = 1;
  }

  undefine(name: string): void {
    this.own.set(name, null);
  }

  /** For sketches from file systems that do not tell `arduino.h` from `Arduino.h`. */
  headerOfAnyCase(name: string): BuiltinHeader | undefined {
    const wanted = name.toLowerCase();
    for (const [known, header] of this.base.headers) if (known.toLowerCase() === wanted) return header;
    return undefined;
  }

  header(name: string): BuiltinHeader | undefined {
    return this.base.headers.get(name);
  }

  isActive(header: BuiltinHeader): boolean {
    return this.active[header.number] === 1;
  }

  /** Puts a built-in header's macros in force, and those of the headers that it includes. */
  include(header: BuiltinHeader): void {
    if (this.active[header.number] === 1) return;
    this.active[header.number] = 1;
    for (const name of header.pulls) {
      const pulled = this.base.headers.get(name);
      if (pulled !== undefined && !this.replaced.has(name)) this.include(pulled);
    }
    // The header's definition comes later than the unit's own, and so replaces it.
    if (this.own.size > 0) {
      for (const macro of header.macros) {
        if (!macro.yields || this.own.get(macro.name) === null) this.own.delete(macro.name);
      }
    }
  }
}
