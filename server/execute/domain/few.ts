/** The domain of small sets: every possible value by name, as long as they are few. */

import type { AnyIntegerType } from "./integer-type.js";

/** How many values are still called few. */
export const FEW = 32;

/** Ascending, without repeats, 1..FEW of them; null where there are more or they are not known. */
export type Few = readonly number[] | null;

export function top(_type: AnyIntegerType): Few {
  return null;
}

export function contains(a: readonly number[], value: number): boolean {
  for (let at = 0; at < a.length; at++) {
    const here = a[at]!;
    if (here >= value) return here === value;
  }
  return false;
}

export function leq(a: Few, b: Few): boolean {
  if (b === null || a === b) return true;
  if (a === null || a.length > b.length) return false;
  let at = 0;
  for (let of = 0; of < a.length; of++) {
    const value = a[of]!;
    while (at < b.length && b[at]! < value) at++;
    if (at === b.length || b[at] !== value) return false;
  }
  return true;
}

export function equal(a: Few, b: Few): boolean {
  if (a === b) return true;
  if (a === null || b === null || a.length !== b.length) return false;
  for (let at = 0; at < a.length; at++) if (a[at] !== b[at]) return false;
  return true;
}

export function join(a: Few, b: Few): Few {
  if (a === null || b === null) return null;
  const all: number[] = [];
  let ofA = 0;
  let ofB = 0;
  while (ofA < a.length || ofB < b.length) {
    if (all.length === FEW) return null;
    const left = ofA < a.length ? a[ofA]! : Number.POSITIVE_INFINITY;
    const right = ofB < b.length ? b[ofB]! : Number.POSITIVE_INFINITY;
    if (left <= right) ofA++;
    if (right <= left) ofB++;
    all.push(Math.min(left, right));
  }
  return all;
}

/** Values of `a` that are in `b` too. An empty set is bottom: null cannot mean it here, so the answer is undefined. */
export function common(a: readonly number[], b: readonly number[]): readonly number[] | undefined {
  const both = a.filter((value) => contains(b, value));
  return both.length === 0 ? undefined : both;
}

/** Past this many turns of a loop a growing set is given up. */
export const GROWING_ROUNDS = 8;

export function widen(before: Few, after: Few, round: number, _type: AnyIntegerType): Few {
  if (leq(after, before)) return before;
  return round >= GROWING_ROUNDS ? null : join(before, after);
}

export function show(a: Few, _type: AnyIntegerType): string {
  return a === null ? "any" : a.length === 1 ? String(a[0]) : `{${a.join(", ")}}`;
}

export function whyNotLeq(a: Few, b: Few): string | null {
  if (leq(a, b) || b === null) return null;
  if (a === null) return `more than ${FEW} values`;
  return `${a.find((value) => !contains(b, value))} is not among {${b.join(", ")}}`;
}

/** Puts a value at its place in an ascending list; false where it was there already. */
export function insert(list: number[], value: number): boolean {
  let at = list.length;
  while (at > 0 && list[at - 1]! >= value) at--;
  if (at < list.length && list[at] === value) return false;
  list.splice(at, 0, value);
  return true;
}
