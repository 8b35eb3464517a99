/** The quantities of wants and readings: frequencies, duties, widths, with tolerances and ranges. */
import type { ReadValue, Stretch, WantedFrequency, WantedRange } from "./comment.js";
import type { Dimension, Numeral, Scanner, Unit } from "./scanner.js";

const examples: Readonly<Record<Dimension, string>> = {
  frequency: "a unit such as Hz, kHz or MHz",
  time: "a unit such as us, ms or s",
  percent: "%",
  ppm: "ppm",
  resistance: "a unit such as Ohm, kOhm or MOhm",
  capacitance: "a unit such as nF or uF",
};

/** Default tolerance of a want's frequency where none is written (design section 5). */
export const defaultFrequencyTolerance = 0.01;

interface Measured {
  readonly value: number;
  readonly halfDigit: number;
  readonly at: Stretch;
}

/** `A..B UNIT`, `A UNIT..B UNIT` or one value; in base units. */
interface Span {
  readonly low: Measured;
  readonly high: Measured | null;
  readonly at: Stretch;
}

function scaled(numeral: Numeral, unit: Unit): Measured {
  return {
    value: clean(numeral.value * unit.factor),
    halfDigit: clean(numeral.halfDigit * unit.factor),
    at: numeral.at,
  };
}

/** Decimal notation leaves noise in the last binary digits (0.1 % of 3): what was written is what is meant. */
export function clean(value: number): number {
  return Number(value.toPrecision(12));
}

/** `10 kOhm`, `10 uF`: one value above 0, in the base unit. */
export function readPart(scanner: Scanner, dimension: "resistance" | "capacitance", example: string): number {
  const numeral = scanner.numeral(example);
  const { value } = scaled(numeral, scanner.unit([dimension], examples[dimension]));
  return value > 0 ? value : scanner.fail(example, numeral.at.start);
}

function readSpan(scanner: Scanner, dimension: Dimension, first: Numeral): Span {
  const ownUnit = scanner.takeUnit([dimension]);
  if (scanner.take(/\.\./) === null) {
    const unit = ownUnit ?? scanner.unit([dimension], examples[dimension]);
    const low = scaled(first, unit);
    return { low, high: null, at: { start: first.at.start, end: scanner.at } };
  }
  const second = scanner.numeral("the upper end of the range");
  const unit = scanner.unit([dimension], examples[dimension]);
  const low = scaled(first, ownUnit ?? unit);
  const high = scaled(second, unit);
  if (high.value < low.value) {
    scanner.fail("the smaller value first", first.at.start);
  }
  return { low, high, at: { start: first.at.start, end: scanner.at } };
}

/** `+-2 %`, `± 50 ppm`, `+-20 Hz`: absolute, in the base unit; null where none is written. */
function readTolerance(scanner: Scanner, dimension: Dimension, value: number): number | null {
  if (scanner.take(/\+-|\+\/-|±/) === null) {
    return null;
  }
  const numeral = scanner.numeral("a tolerance such as 2 %");
  // A tolerance on a percentage is in points: `duty 50 % +-1 %` is 49 to 51 %.
  const relative: Dimension[] = dimension === "percent" ? [] : ["percent", "ppm"];
  const unit = scanner.unit(
    [...relative, dimension],
    `a tolerance's unit: %, ppm or ${examples[dimension].replace("a unit such as ", "")}`,
  );
  return clean(numeral.value * unit.factor * (unit.dimension === dimension ? 1 : value));
}

/** `25 kHz within 21..28 kHz`, `1 kHz +-2 %`, `980..1020 Hz`, `20 kHz or more`. The first number is already read. */
export function readFrequency(scanner: Scanner, first: Numeral): WantedFrequency {
  const span = readSpan(scanner, "frequency", first);
  if (span.high !== null) {
    return bounded(scanner, (span.low.value + span.high.value) / 2, span.low.value, span.high.value, first.at.start);
  }
  const hz = span.low.value;
  if (hz <= 0) {
    scanner.fail("a frequency above 0", first.at.start);
  }
  if (scanner.takeWord("within") !== null) {
    const inner = readSpan(scanner, "frequency", scanner.numeral("a range such as 21..28 kHz"));
    if (inner.high === null) {
      return scanner.fail("a range such as 21..28 kHz", inner.at.start);
    }
    if (hz < inner.low.value || hz > inner.high.value) {
      scanner.fail("a range that holds the wanted frequency", inner.at.start);
    }
    return bounded(scanner, hz, inner.low.value, inner.high.value, first.at.start);
  }
  if (scanner.takeWord("or") !== null) {
    if (scanner.takeWord("more") === null) {
      scanner.fail("more");
    }
    return bounded(scanner, hz, hz, Number.POSITIVE_INFINITY, first.at.start);
  }
  const off = readTolerance(scanner, "frequency", hz) ?? hz * defaultFrequencyTolerance;
  return bounded(scanner, hz, Math.max(0, hz - off), hz + off, first.at.start);
}

function bounded(scanner: Scanner, hz: number, min: number, max: number, start: number): WantedFrequency {
  return { hz: clean(hz), min: clean(min), max: clean(max), at: { start, end: scanner.at } };
}

/** `within 21..28 kHz` alone. */
export function readWithin(scanner: Scanner, start: number): WantedFrequency {
  const inner = readSpan(scanner, "frequency", scanner.numeral("a range such as 21..28 kHz"));
  if (inner.high === null) {
    return scanner.fail("a range such as 21..28 kHz", inner.at.start);
  }
  return bounded(scanner, (inner.low.value + inner.high.value) / 2, inner.low.value, inner.high.value, start);
}

/** `every 20 ms`, `every 18..22 ms`, `every 20 ms +-1 %`: a period, as the frequency it is. */
export function readPeriod(scanner: Scanner, start: number): WantedFrequency {
  const span = readSpan(scanner, "time", scanner.numeral("a period such as 20 ms"));
  const low = span.low.value;
  if (low <= 0) {
    scanner.fail("a period above 0", span.low.at.start);
  }
  if (span.high !== null) {
    return bounded(scanner, 2 / (low + span.high.value), 1 / span.high.value, 1 / low, start);
  }
  const off = readTolerance(scanner, "time", low);
  if (off === null) {
    const hz = 1 / low;
    return bounded(scanner, hz, hz * (1 - defaultFrequencyTolerance), hz * (1 + defaultFrequencyTolerance), start);
  }
  if (off >= low) {
    scanner.fail("a tolerance smaller than the period", span.low.at.start);
  }
  return bounded(scanner, 1 / low, 1 / (low + off), 1 / (low - off), start);
}

/** `duty 20..100 %`, `reach 10..96 %`, `duty 50 % +-1 %`: fractions. */
export function readShare(scanner: Scanner, start: number): WantedRange {
  const first = scanner.numeral("a range such as 20..100 %");
  const span = readSpan(scanner, "percent", first);
  const off = span.high === null ? (readTolerance(scanner, "percent", 1) ?? 0) : 0;
  const min = span.low.value - off;
  const max = (span.high?.value ?? span.low.value) + off;
  if (span.low.value > 1 + 1e-12 || (span.high?.value ?? 0) > 1 + 1e-12) {
    scanner.fail("at most 100 %", first.at.start);
  }
  return { min: clean(Math.max(0, min)), max: clean(Math.min(1, max)), at: { start, end: scanner.at } };
}

/** `pulse 1000..2000 us`: seconds. */
export function readWidth(scanner: Scanner, start: number): WantedRange {
  const first = scanner.numeral("widths such as 1000..2000 us");
  const span = readSpan(scanner, "time", first);
  const off = span.high === null ? (readTolerance(scanner, "time", span.low.value) ?? 0) : 0;
  return {
    min: clean(Math.max(0, span.low.value - off)),
    max: clean((span.high?.value ?? span.low.value) + off),
    at: { start, end: scanner.at },
  };
}

/** One measured value: half of its last digit is its uncertainty unless `+-` says otherwise. */
export function readMeasured(scanner: Scanner, dimension: Dimension, first: Numeral, start: number): ReadValue {
  const value = scaled(first, scanner.unit([dimension], examples[dimension]));
  const off = readTolerance(scanner, dimension, value.value);
  return {
    value: value.value,
    uncertainty: off ?? value.halfDigit,
    stated: off !== null,
    at: { start, end: scanner.at },
  };
}
