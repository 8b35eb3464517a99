/**
 * The C library's functions of binary32 numbers. Those that are exact or correctly rounded by their definition give
 * what binary64 gives, rounded. The others (avr-libc computes them by short series) are widened: relative to the
 * result, and near zeros of sine and the like by an absolute amount too.
 *
 * Source of the errors: measured, not published. avr-libc 2.0.0 run in a CPU simulator on 6,000 pairs of numbers was
 * exact in + − × ÷, sqrt, the roundings and fmod; elsewhere at most a third of what is allowed for here
 * (test/laws/measure-avr-libc.mjs).
 */

import { each } from "./float-arithmetic.js";
import { type AbstractFloat, contains, listed, nextDown, nextUp, range, top } from "./float-range.js";

const NOTHING = listed([], true);
const LARGEST = Number.POSITIVE_INFINITY;

/** A function that never falls as its argument grows (on its domain `from..to`; NaN outside), exact once rounded. */
function rising(a: AbstractFloat, scalar: (value: number) => number, from = -LARGEST, to = LARGEST): AbstractFloat {
  const exact = each(a, scalar);
  if (exact !== null) return exact;
  const min = Math.max(a.min, from);
  const max = Math.min(a.max, to);
  const nan = a.nan || a.min < from || a.max > to;
  return min > max ? NOTHING : range(scalar(min), scalar(max), nan);
}

/** The same for a function known only to within a relative and an absolute error. */
function risingAbout(
  a: AbstractFloat,
  scalar: (value: number) => number,
  relative: number,
  absolute = 0,
  from = -LARGEST,
  to = LARGEST,
): AbstractFloat {
  const min = Math.max(a.min, from);
  const max = Math.min(a.max, to);
  const nan = a.nan || a.min < from || a.max > to;
  if (min > max) return nan ? NOTHING : top;
  return about(scalar(min), scalar(max), relative, absolute, nan);
}

/** Bounds moved apart by an error, and by two neighbours more. */
function about(min: number, max: number, relative: number, absolute: number, nan: boolean): AbstractFloat {
  if (Number.isNaN(min) || Number.isNaN(max)) return top;
  const below = Number.isFinite(min) ? min - Math.abs(min) * relative - absolute : min;
  const above = Number.isFinite(max) ? max + Math.abs(max) * relative + absolute : max;
  return range(nextDown(nextDown(Math.fround(below))), nextUp(nextUp(Math.fround(above))), nan);
}

/** 16 steps of binary32, of a step's 2^-23. */
const STEPS = 2 ** -19;

/** Half away from zero, as the library's round. */
function roundHalfAway(value: number): number {
  return value < 0 ? -Math.floor(-value + 0.5) : Math.floor(value + 0.5);
}

export function abs(a: AbstractFloat): AbstractFloat {
  const exact = each(a, Math.abs);
  if (exact !== null) return exact;
  const far = Math.max(-a.min, a.max);
  return range(contains(a, 0) ? 0 : Math.min(Math.abs(a.min), Math.abs(a.max)), far, a.nan);
}

export function sqrt(a: AbstractFloat): AbstractFloat {
  return rising(a, Math.sqrt, 0);
}

/** Sine and cosine: the extremes lie where the angle passes a multiple of a quarter turn. */
function wave(a: AbstractFloat, scalar: (value: number) => number, crest: number): AbstractFloat {
  if (a.min > a.max) return NOTHING;
  const infinite = !Number.isFinite(a.min) || !Number.isFinite(a.max);
  const nan = a.nan || infinite;
  // Large angles lose their fraction on the way.
  if (infinite || Math.max(-a.min, a.max) > 1000) return range(-1.001, 1.001, nan);
  const passes = (at: number) =>
    Math.floor((a.max - at) / (2 * Math.PI)) !== Math.ceil((a.min - at) / (2 * Math.PI)) - 1;
  const ends = [scalar(a.min), scalar(a.max)];
  const max = passes(crest) ? 1 : Math.max(...ends);
  const min = passes(crest + Math.PI) ? -1 : Math.min(...ends);
  return about(min, max, STEPS, 2 ** -20, nan);
}

/** Beyond this an exponent's parity is lost in binary32, and the library no longer takes it for a whole number. */
const WHOLE = 2 ** 23;

function power(base: AbstractFloat, exponent: AbstractFloat): AbstractFloat {
  // Only NaN on one side: C still says 1 for x to the power of 0 and for 1 to any power.
  if (base.min > base.max) return contains(exponent, 0) ? listed([1], true) : NOTHING;
  if (exponent.min > exponent.max) return contains(base, 1) ? listed([1], true) : NOTHING;
  const nan = base.nan || exponent.nan;
  const far = Math.max(-exponent.min, exponent.max);
  // Negative bases give NaN, or a sign by the exponent's parity.
  if (base.min <= 0) {
    if (base.min !== base.max || exponent.min !== exponent.max || far >= WHOLE) return top;
    const value = base.min ** exponent.min;
    if (!Number.isFinite(value)) return top;
    const log = base.min === 0 ? 0 : Math.abs(Math.log(-base.min));
    return about(value, value, STEPS * (1 + far * log), 0, nan);
  }
  const results = [
    base.min ** exponent.min,
    base.min ** exponent.max,
    base.max ** exponent.min,
    base.max ** exponent.max,
  ];
  const error = STEPS * (1 + far * Math.max(Math.abs(Math.log(base.min)), Math.abs(Math.log(base.max))));
  if (!Number.isFinite(error) || error > 0.5) return top;
  return about(Math.min(...results), Math.max(...results), error, 0, nan);
}

function exponential(a: AbstractFloat): AbstractFloat {
  const reach = Math.min(150, Math.max(1, -a.min, a.max));
  return risingAbout(a, Math.exp, STEPS * reach);
}

function remainder(a: AbstractFloat, b: AbstractFloat): AbstractFloat {
  // Of not-a-number alone nothing else comes.
  if (a.min > a.max || b.min > b.max) return NOTHING;
  if (a.min === a.max && b.min === b.max && b.min !== 0 && !a.nan && !b.nan && Number.isFinite(a.min)) {
    return range(a.min % b.min, a.min % b.min);
  }
  const most = Math.max(-b.min, b.max);
  const min = a.min < 0 ? Math.max(a.min, -most) : 0;
  const max = a.max > 0 ? Math.min(a.max, most) : 0;
  return range(min, max, true);
}

function arcTangent(y: AbstractFloat, x: AbstractFloat): AbstractFloat {
  const nan = y.nan || x.nan;
  if (y.min > y.max || x.min > x.max) return NOTHING;
  if (y.min === y.max && x.min === x.max && y.min !== 0) {
    const angle = Math.atan2(y.min, x.min);
    return about(angle, angle, STEPS, 0, nan);
  }
  return about(-Math.PI, Math.PI, STEPS, 0, nan);
}

function hypotenuse(a: AbstractFloat, b: AbstractFloat): AbstractFloat {
  const x = abs(a);
  const y = abs(b);
  // Only NaN on one side: infinity on the other still wins.
  if (x.min > x.max || y.min > y.max) return x.max === LARGEST || y.max === LARGEST ? listed([LARGEST], true) : NOTHING;
  return about(Math.hypot(x.min, y.min), Math.hypot(x.max, y.max), STEPS, 0, x.nan || y.nan);
}

type OneArgument = (a: AbstractFloat) => AbstractFloat;
type TwoArguments = (a: AbstractFloat, b: AbstractFloat) => AbstractFloat;

const ONE: Readonly<Record<string, OneArgument>> = {
  fabs: abs,
  sqrt,
  floor: (a) => rising(a, Math.floor),
  ceil: (a) => rising(a, Math.ceil),
  trunc: (a) => rising(a, Math.trunc),
  round: (a) => rising(a, roundHalfAway),
  square: (a) => {
    const size = abs(a);
    return rising(size, (value) => value * value);
  },
  cbrt: (a) => risingAbout(a, Math.cbrt, STEPS),
  exp: exponential,
  log: (a) => risingAbout(a, Math.log, STEPS, 2 ** -22, 0),
  log10: (a) => risingAbout(a, Math.log10, STEPS, 2 ** -22, 0),
  atan: (a) => risingAbout(a, Math.atan, STEPS),
  asin: (a) => risingAbout(a, Math.asin, STEPS, 2 ** -20, -1, 1),
  acos: (a) => {
    const turned = risingAbout(a, (value) => -Math.acos(value), STEPS, 2 ** -20, -1, 1);
    return turned.min > turned.max ? turned : range(-turned.max, -turned.min, turned.nan);
  },
  sin: (a) => wave(a, Math.sin, Math.PI / 2),
  cos: (a) => wave(a, Math.cos, 0),
  // Poles everywhere: nothing is said of tangents but for small angles.
  tan: (a) => (a.min >= -1.5 && a.max <= 1.5 ? risingAbout(a, Math.tan, STEPS * 32) : top),
  sinh: (a) => (Math.max(-a.min, a.max) < 80 ? risingAbout(a, Math.sinh, STEPS * 128, 2 ** -20) : top),
  cosh: (a) => {
    const size = abs(a);
    return size.max < 80 ? risingAbout(size, Math.cosh, STEPS * 128) : top;
  },
  tanh: (a) => risingAbout(a, Math.tanh, STEPS * 8, 2 ** -20),
};

const TWO: Readonly<Record<string, TwoArguments>> = {
  pow: power,
  fmod: remainder,
  atan2: arcTangent,
  hypot: hypotenuse,
};

/** A function of the C library by its name (`sqrt`, `sqrtf`); null where it is none that is known here. */
export function callFunction(name: string, args: readonly AbstractFloat[]): AbstractFloat | null {
  const [first, second] = args;
  const plain = name.endsWith("f") && !Object.hasOwn(TWO, name) ? name.slice(0, -1) : name;
  if (first === undefined) return null;
  if (second === undefined) return Object.hasOwn(ONE, plain) ? ONE[plain]!(first) : null;
  return args.length === 2 && Object.hasOwn(TWO, plain) ? TWO[plain]!(first, second) : null;
}
