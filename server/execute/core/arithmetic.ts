/** map, random, makeWord, abs and the C library's mathematics. Source: WMath.cpp, Arduino.h of the packaged core; avr-libc math.h. */
import { MOST_READINGS, through } from "../domain/dependence.js";
import * as float from "../domain/float.js";
import * as number from "../domain/number.js";
import { readingOf } from "../inputs.js";
import type { Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";

const LONG: number.IntegerType = { bits: 32, signed: true };
const WORD: number.IntegerType = { bits: 16, signed: false };

function longs(call: CoreCall): number.AbstractInteger[] | null {
  const found: number.AbstractInteger[] = [];
  for (const value of call.values) {
    if (!("zeros" in value)) return null;
    found.push(value);
  }
  return found;
}

/** (x − fromLow) · (toHigh − toLow) / (fromHigh − fromLow) + toLow in 32-bit arithmetic. */
function map(call: CoreCall): Value | null {
  const values = longs(call);
  if (values === null || values.length < 5) return null;
  const [x, fromLow, fromHigh, toLow, toHigh] = values as [
    number.AbstractInteger,
    number.AbstractInteger,
    number.AbstractInteger,
    number.AbstractInteger,
    number.AbstractInteger,
  ];
  const scaled = number.mul(number.sub(x, fromLow, LONG), number.sub(toHigh, toLow, LONG), LONG);
  return number.add(number.div(scaled, number.sub(fromHigh, fromLow, LONG), LONG), toLow, LONG);
}

/** random(high) or random(low, high): low … high − 1; 0 where high is 0, low where low is not below high. */
function random(call: CoreCall): Value | null {
  const values = longs(call);
  if (values === null) return null;
  // The C library's own: 0 … RANDOM_MAX.
  if (values.length === 0) return number.range(0, 0x7fffffff, LONG);
  const low = values.length > 1 ? values[0]! : number.constant(0, LONG);
  const high = values.length > 1 ? values[1]! : values[0]!;
  if (values.length === 1 && high.min < 0) return number.top(LONG);
  const [least, most] = [low.min, Math.max(low.max, high.max - 1)];
  if (number.isSingle(low) && number.isSingle(high) && most - least < MOST_READINGS)
    return readingOf(call.run, call.state, least, most - least + 1, LONG);
  return number.range(least, most, LONG);
}

function makeWord(call: CoreCall): Value | null {
  const values = longs(call);
  if (values === null) return null;
  if (values.length === 1) return values[0]!;
  const low = number.and(values[1]!, number.constant(0xff, WORD), WORD);
  return number.or(number.shl(values[0]!, number.constant(8, WORD), WORD), low, WORD);
}

function mathematics(call: CoreCall): Value | null {
  const floats: float.AbstractFloat[] = [];
  for (const value of call.values) {
    if (!("nan" in value)) return null;
    floats.push(value);
  }
  return float.callFunction(call.name, floats);
}

function absolute(call: CoreCall): Value | null {
  const value = call.values[0];
  const type = call.expression.type;
  if (value === undefined || !("zeros" in value) || type.kind !== "integer")
    return value !== undefined && "nan" in value ? float.abs(value) : null;
  const least = number.top(type.integer).min;
  const positive = number.lessEqual(number.constant(0, type.integer), value);
  if (positive === true) return value;
  const negated = number.neg(value, type.integer);
  if (positive === false) return negated;
  return through(number.join(value, negated), value, (each) => (each < 0 && each !== least ? -each : each));
}

/** lround: nearest, halves away from zero. */
function lround(call: CoreCall): Value | null {
  const value = call.values[0];
  if (value === undefined || !("nan" in value)) return null;
  if (value.values !== null && !value.nan)
    return number.fromValues(
      value.values.map((each) => Math.sign(each) * Math.round(Math.abs(each))),
      LONG,
    );
  return null;
}

export const arithmeticModels: Readonly<Record<string, Model>> = {
  map,
  random,
  makeWord,
  abs: absolute,
  labs: absolute,
  lround,
  // Only tells the compiler what is likely.
  __builtin_expect: ({ values }) => values[0] ?? null,
  ...Object.fromEntries(
    ["fabs", "sqrt", "pow", "exp", "log", "log10", "sin", "cos", "tan", "floor", "ceil", "round", "trunc", "fmod"].map(
      (name) => [name, mathematics],
    ),
  ),
};
