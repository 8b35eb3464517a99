/**
 * What a value that is written can be at all, and how much of the input's travel it uses. Law: every value that can be
 * written is listed; where that cannot be said there is no answer.
 */
import * as number from "./domain/number.js";
import type { State } from "./state.js";

export interface Reach {
  /** Every value that occurs, ascending. */
  readonly values: readonly number[];
  /** Possible readings of the input; of those, how many at either end all give the same value. 0: it depends on the path. */
  readonly readings: number;
  readonly deadLow: number;
  readonly deadHigh: number;
}

/** Of a constant, or a value that is worked out of one reading; `stored` is what of it is written. Null for all others. */
export function reachOf(state: State, value: number.AbstractInteger, stored: number.AbstractInteger): Reach | null {
  if (number.isSingle(stored)) return { values: [stored.min], readings: 0, deadLow: 0, deadHigh: 0 };
  const table = value.by === undefined || value.by.steps === 0 ? null : value.by.table();
  if (table === null) return null;
  const allowed = state.inputs?.get(value.by!.source);
  const found = new Set<number>();
  for (let at = 0; at < table.length; at++)
    if ((allowed === undefined || allowed[at] === 1) && number.contains(stored, table[at]!)) found.add(table[at]!);
  const values = [...found].sort((a, b) => a - b);
  if (allowed !== undefined) return { values, readings: 0, deadLow: 0, deadHigh: 0 };
  let deadLow = 1;
  while (deadLow < table.length && table[deadLow] === table[0]) deadLow++;
  let deadHigh = 1;
  while (deadHigh < table.length && table[table.length - 1 - deadHigh] === table[table.length - 1]) deadHigh++;
  return { values, readings: table.length, deadLow, deadHigh };
}

/** What two executions of the same write reach. */
export function eitherReach(a: Reach | null, b: Reach | null): Reach | null {
  if (a === null || b === null) return null;
  const same =
    a.values.length === b.values.length &&
    a.readings === b.readings &&
    a.deadLow === b.deadLow &&
    a.deadHigh === b.deadHigh;
  const values = [...new Set([...a.values, ...b.values])].sort((x, y) => x - y);
  return same && values.length === a.values.length ? a : { values, readings: 0, deadLow: 0, deadHigh: 0 };
}
