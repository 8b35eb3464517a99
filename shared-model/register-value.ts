/** What is known of a register's or an integer's value: a plain view of the abstract number, free of the engine. */

/**
 * All bounds inclusive. `values` lists every possible value, ascending, where they are few (at most `FEW`);
 * null where only the bounds and the bits are known. `zeros` and `ones` are masks of the bits known to be 0 and 1
 * (low 32 bits; meaningful up to the value's width).
 */
export interface RegisterValue {
  readonly min: number;
  readonly max: number;
  readonly zeros: number;
  readonly ones: number;
  readonly values: readonly number[] | null;
}

/** Whether a yes/no fact of the hardware holds: `null` is "not known". */
export type Known = boolean | null;

/** The one possible value, or undefined where there are several. */
export function single(value: RegisterValue): number | undefined {
  return value.min === value.max ? value.min : undefined;
}

/** A value known exactly, of the given width in bits. */
export function exactly(value: number, bits: number): RegisterValue {
  const mask = bits >= 32 ? 0xffffffff : 2 ** bits - 1;
  const ones = (value & mask) >>> 0;
  return { min: value, max: value, zeros: (~ones & mask) >>> 0, ones, values: [value] };
}
