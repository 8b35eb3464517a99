/**
 * What a value that is written can be at all, and how much of the input's travel it uses. Law: every value that can be
 * written is listed; where that cannot be said there is no answer.
 */
import type { Dependence } from "./domain/dependence.js";
import * as number from "./domain/number.js";
import type { State } from "./state.js";

export interface Reach {
  /** Every value that occurs, ascending. */
  readonly values: readonly number[];
  /** Possible readings of the input; of those, how many at either end all give the same value. 0: it depends on the path. */
  readonly readings: number;
  readonly deadLow: number;
  readonly deadHigh: number;
  /** What is asked to be written for each reading, from the reading `low` on; null where it depends on the path. */
  readonly course: { readonly low: number; readonly values: readonly number[] } | null;
}

/**
 * Of a constant, or a value that is worked out of one reading; `stored` is what of it is written, `asked` what the value was
 * worked out of before it was cut to the register's width. Null for all others.
 */
export function reachOf(
  state: State,
  value: number.AbstractInteger,
  stored: number.AbstractInteger,
  asked: Dependence | undefined,
): Reach | null {
  if (number.isSingle(stored)) return { values: [stored.min], readings: 0, deadLow: 0, deadHigh: 0, course: null };
  const table = value.by === undefined ? null : value.by.table();
  if (table === null) return null;
  const allowed = state.inputs?.get(value.by!.source);
  const found = new Set<number>();
  for (let at = 0; at < table.length; at++)
    if ((allowed === undefined || allowed[at] === 1) && number.contains(stored, table[at]!)) found.add(table[at]!);
  const values = [...found].sort((a, b) => a - b);
  if (allowed !== undefined) return { values, readings: 0, deadLow: 0, deadHigh: 0, course: null };
  let deadLow = 1;
  while (deadLow < table.length && table[deadLow] === table[0]) deadLow++;
  let deadHigh = 1;
  while (deadHigh < table.length && table[table.length - 1 - deadHigh] === table[table.length - 1]) deadHigh++;
  const { source } = value.by!;
  const before = asked?.source === source ? asked.table() : null;
  const course = { low: source.low, values: [...(before ?? table)] };
  return { values, readings: table.length, deadLow, deadHigh, course };
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
  if (!same || values.length !== a.values.length) return { values, readings: 0, deadLow: 0, deadHigh: 0, course: null };
  return sameCourse(a, b) ? a : { ...a, course: null };
}

function sameCourse({ course: a }: Reach, { course: b }: Reach): boolean {
  if (a === null || b === null) return a === b;
  return a.low === b.low && a.values.every((value, at) => value === b.values[at]);
}
