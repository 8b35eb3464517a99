/**
 * Dependence on one reading of the outside. A value that is worked out of a single `analogRead` and constants alone is a
 * function of what was read: a table with an entry per possible reading says exactly which values occur, and which
 * occur together. Law: where a value has a dependence, it is worth the entry of what its source gave.
 *
 * Tables are made only when somebody asks, and every table counts against the source's budget.
 */

/** One reading: each time the program reads, it is another one. */
export interface Source {
  /** What it gives: `low`, `low + 1` … `size` numbers in all. */
  readonly low: number;
  readonly size: number;
  readonly budget: Budget;
}

/** Entries that may still be worked out; shared by all readings of a run. */
export interface Budget {
  left: number;
}

export type Table = Float64Array;

/** Readings with more possible values are not followed. */
export const MOST_READINGS = 1024;
/** Longer chains of operations are not followed back. */
const MOST_STEPS = 60;

export class Dependence {
  private made: Table | null | undefined;
  /** What was last worked out of the table; kept by whoever asks again for the same. */
  last: { readonly allowed: Uint8Array | undefined; readonly bits: number; readonly value: unknown } | null = null;

  constructor(
    readonly source: Source,
    /** Operations between the reading and this value. */
    readonly steps: number,
    /** The entry for a reading, out of the tables that it needs; NaN where it is not defined. */
    private readonly work: (() => ((at: number) => number) | null) | null,
  ) {}

  /** What the value is worth for each reading; null where that is not defined for all, or the budget is spent. */
  table(): Table | null {
    if (this.made === undefined) this.made = this.make();
    return this.made;
  }

  private make(): Table | null {
    const { size, low, budget } = this.source;
    const table = new Float64Array(size);
    if (this.work === null) {
      for (let at = 0; at < size; at++) table[at] = low + at;
      return table;
    }
    const entry = this.work();
    if (entry === null || budget.left < size) return null;
    budget.left -= size;
    for (let at = 0; at < size; at++) {
      const value = entry(at);
      if (Number.isNaN(value)) return null;
      table[at] = value;
    }
    return table;
  }
}

/** The reading itself. */
export function reading(low: number, size: number, budget: Budget): Dependence {
  return new Dependence({ low, size, budget }, 0, null);
}

/** A value of the domains that may carry a dependence. */
export interface Dependent {
  readonly by?: Dependence;
  readonly min: number;
  readonly max: number;
}

/** The value without what it depends on: where it is one of several that may have been meant. */
export function plain<T extends Dependent>(value: T): T {
  if (value.by === undefined) return value;
  const { by: _, ...rest } = value;
  return rest as T;
}

export function dependent<T extends Dependent>(value: T, by: Dependence | undefined): T {
  return by === undefined || value.min === value.max || value.by === by ? value : { ...value, by };
}

/** The result of an operation with one operand. `cost`: entries' worth of work for one entry. */
export function through<T extends Dependent>(result: T, operand: Dependent, entry: (value: number) => number): T {
  const { by } = operand;
  if (by === undefined || result.by !== undefined || result.min === result.max || by.steps >= MOST_STEPS) return result;
  const work = (): ((at: number) => number) | null => {
    const table = by.table();
    return table === null ? null : (at) => entry(table[at]!);
  };
  return { ...result, by: new Dependence(by.source, by.steps + 1, work) };
}

/** The result of an operation with two operands: followed where both depend on the same reading, or one is a constant. */
export function throughBoth<T extends Dependent>(
  result: T,
  left: Dependent,
  right: Dependent,
  entry: (left: number, right: number) => number,
): T {
  const source = left.by?.source ?? right.by?.source;
  if (source === undefined || result.by !== undefined || result.min === result.max) return result;
  if (!isFunctionOf(left, source) || !isFunctionOf(right, source)) return result;
  const steps = 1 + Math.max(left.by?.steps ?? 0, right.by?.steps ?? 0);
  if (steps > MOST_STEPS) return result;
  const work = (): ((at: number) => number) | null => {
    const a = entries(left);
    const b = entries(right);
    return a === null || b === null ? null : (at) => entry(a(at), b(at));
  };
  return { ...result, by: new Dependence(source, steps, work) };
}

/** Whether the value is a constant or depends on this reading alone. */
export function isFunctionOf(value: Dependent, source: Source): boolean {
  return value.by === undefined ? value.min === value.max : value.by.source === source;
}

/** The value's worth by reading; null where its table cannot be made. */
export function entries(value: Dependent): ((at: number) => number) | null {
  if (value.by === undefined) return value.min === value.max ? () => value.min : null;
  const table = value.by.table();
  return table === null ? null : (at) => table[at]!;
}

/** Worth `left` for the readings that `chosen` holds and `right` for the others. */
export function eitherOf<T extends Dependent>(
  joined: T,
  source: Source,
  chosen: Uint8Array,
  left: Dependent,
  right: Dependent,
): T {
  if (!isFunctionOf(left, source) || !isFunctionOf(right, source) || joined.min === joined.max) return joined;
  const steps = 1 + Math.max(left.by?.steps ?? 0, right.by?.steps ?? 0);
  if (steps > MOST_STEPS) return joined;
  const work = (): ((at: number) => number) | null => {
    const a = entries(left);
    const b = entries(right);
    return a === null || b === null ? null : (at) => (chosen[at] === 1 ? a(at) : b(at));
  };
  return { ...plain(joined), by: new Dependence(source, steps, work) };
}
