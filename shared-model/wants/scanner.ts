/**
 * Reads numbers, units and words from one line of a comment, and says where it stopped and what it had expected there.
 * Knows the notation of design section 5, not what a want is.
 */
import type { Stretch } from "./comment.js";

/** Thrown inside the reader and caught by `readComment` alone: where reading stopped and what was expected. */
export class Unreadable {
  constructor(
    readonly column: number,
    readonly expected: string,
  ) {}
}

/** A number as written, with half of its last digit. */
export interface Numeral {
  readonly value: number;
  readonly halfDigit: number;
  readonly at: Stretch;
}

export type Dimension = "frequency" | "time" | "percent" | "ppm" | "resistance" | "capacitance";

export interface Unit {
  readonly dimension: Dimension;
  readonly factor: number;
}

const units: readonly (Unit & { readonly spelling: string })[] = [
  { spelling: "Hz", dimension: "frequency", factor: 1 },
  { spelling: "kHz", dimension: "frequency", factor: 1e3 },
  { spelling: "MHz", dimension: "frequency", factor: 1e6 },
  { spelling: "us", dimension: "time", factor: 1e-6 },
  { spelling: "µs", dimension: "time", factor: 1e-6 },
  { spelling: "μs", dimension: "time", factor: 1e-6 },
  { spelling: "ms", dimension: "time", factor: 1e-3 },
  { spelling: "s", dimension: "time", factor: 1 },
  { spelling: "%", dimension: "percent", factor: 0.01 },
  { spelling: "ppm", dimension: "ppm", factor: 1e-6 },
  // Two characters that look alike: the Greek letter and the sign for ohm, as with micro above.
  ...["Ohm", "Ω", "\u2126"].flatMap((spelling): (Unit & { readonly spelling: string })[] => [
    { spelling, dimension: "resistance", factor: 1 },
    { spelling: `k${spelling}`, dimension: "resistance", factor: 1e3 },
    { spelling: `M${spelling}`, dimension: "resistance", factor: 1e6 },
  ]),
  { spelling: "pF", dimension: "capacitance", factor: 1e-12 },
  { spelling: "nF", dimension: "capacitance", factor: 1e-9 },
  { spelling: "uF", dimension: "capacitance", factor: 1e-6 },
  { spelling: "µF", dimension: "capacitance", factor: 1e-6 },
  { spelling: "μF", dimension: "capacitance", factor: 1e-6 },
  { spelling: "mF", dimension: "capacitance", factor: 1e-3 },
];

/** Nothing that a pin gives is larger, and what is larger still is no number any more. */
const greatestNumber = 1e12;

export class Scanner {
  constructor(
    private readonly text: string,
    private position: number,
    private readonly end: number,
  ) {}

  get at(): number {
    return this.position;
  }

  skipBlanks(): void {
    while (this.position < this.end && (this.text[this.position] === " " || this.text[this.position] === "\t")) {
      this.position++;
    }
  }

  atEnd(): boolean {
    this.skipBlanks();
    return this.position >= this.end;
  }

  fail(expected: string, column?: number): never {
    this.skipBlanks();
    throw new Unreadable(column ?? this.position, expected);
  }

  /** The text matched at the cursor by a sticky pattern, or null; the cursor moves behind it. */
  take(pattern: RegExp): { readonly text: string; readonly at: Stretch } | null {
    this.skipBlanks();
    const sticky = new RegExp(pattern.source, `${pattern.flags.replace(/[gy]/g, "")}y`);
    sticky.lastIndex = this.position;
    const match = sticky.exec(this.text);
    if (match === null || match[0] === "" || this.position + match[0].length > this.end) {
      return null;
    }
    const start = this.position;
    this.position += match[0].length;
    return { text: match[0], at: { start, end: this.position } };
  }

  takeWord(word: string): Stretch | null {
    return this.take(new RegExp(`${word}(?![A-Za-z0-9_-])`, "i"))?.at ?? null;
  }

  /** The rest of the line, blanks cut. */
  rest(): { readonly text: string; readonly at: Stretch } {
    this.skipBlanks();
    const at = { start: this.position, end: this.end };
    this.position = this.end;
    return { text: this.text.slice(at.start, at.end), at };
  }

  /** A decimal number; `..` is never part of one. */
  takeNumeral(): Numeral | null {
    const found = this.take(/\d+(?:\.(?!\.)\d+)?(?:[eE][+-]?\d{1,2}(?![\dA-Za-z]))?/);
    if (found === null) {
      return null;
    }
    if (Number(found.text) > greatestNumber) this.fail("a smaller number", found.at.start);
    const digits = /^\d+(?:\.(\d+))?(?:[eE]([+-]?\d+))?/.exec(found.text);
    const decimals = (digits?.[1]?.length ?? 0) - Number(digits?.[2] ?? 0);
    return { value: Number(found.text), halfDigit: 0.5 * 10 ** -decimals, at: found.at };
  }

  numeral(expected: string): Numeral {
    return this.takeNumeral() ?? this.fail(expected);
  }

  /** A unit of one of the dimensions, or null. Case does not matter except for M and m. */
  takeUnit(dimensions: readonly Dimension[]): Unit | null {
    const before = this.position;
    const found = this.take(/%|[A-Za-zµμΩ\u2126]+/);
    if (found === null) {
      return null;
    }
    const unit = units.find(
      (candidate) => dimensions.includes(candidate.dimension) && sameUnit(candidate.spelling, found.text),
    );
    if (unit === undefined) {
      this.position = before;
      return null;
    }
    return unit;
  }

  unit(dimensions: readonly Dimension[], example: string): Unit {
    const found = this.takeUnit(dimensions);
    if (found !== null) {
      return found;
    }
    if (this.take(/,\d/) !== null) {
      return this.fail("a decimal point, not a comma", this.position - 2);
    }
    const milli = this.take(/m(?:hz|ohm|Ω|\u2126)(?![A-Za-z])/i);
    const mega = units.find(
      (unit) => dimensions.includes(unit.dimension) && unit.spelling.toLowerCase() === milli?.text.toLowerCase(),
    );
    if (milli !== null && mega !== undefined) {
      return this.fail(`${mega.spelling} with a capital M`, milli.at.start);
    }
    return this.fail(example, milli?.at.start);
  }
}

/** `khz` is kHz and `PPM` is ppm, but `mHz` is not MHz and `Ms` is not ms. */
function sameUnit(spelling: string, written: string): boolean {
  if (spelling.toLowerCase() !== written.toLowerCase()) {
    return false;
  }
  return spelling === "ppm" || !/^m/i.test(spelling) || spelling[0] === written[0];
}
