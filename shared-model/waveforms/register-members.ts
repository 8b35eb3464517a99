/** Which values a partly known register can hold: the bridge from `RegisterValue` to lists of cases. */
import type { RegisterValue } from "../register-value.js";
import type { Bounds } from "../signal.js";

/** Nothing known of a register of that many bits. */
export function anyValue(bits: number): RegisterValue {
  return { min: 0, max: 2 ** bits - 1, zeros: 0, ones: 0, values: null };
}

/**
 * The distinct values of `value & mask`, ascending. For fields of up to 8 bits; exact where `values` are listed, else
 * every value that bounds and known bits allow.
 */
export function maskedMembers(value: RegisterValue, mask: number): number[] {
  const found = new Set<number>();
  if (value.values !== null) {
    for (const member of value.values) {
      found.add(member & mask);
    }
  } else {
    for (let member = Math.max(0, value.min); member <= Math.min(value.max, 0xff); member++) {
      if ((member & value.zeros) === 0 && (~member & value.ones & 0xff) === 0) {
        found.add(member & mask);
      }
    }
  }
  return [...found].sort((a, b) => a - b);
}

/** The value as stretches: one for each listed value, else one for its bounds, cut to `0 … max`. */
export function stretches(value: RegisterValue, max: number): Bounds<number>[] {
  if (value.values !== null && value.values.length > 0 && value.values.length <= 256) {
    return value.values.map((member) => {
      const inside = Math.min(Math.max(member, 0), max);
      return { min: inside, max: inside };
    });
  }
  return [{ min: Math.min(Math.max(value.min, 0), max), max: Math.max(Math.min(value.max, max), 0) }];
}

/** The bounds of several stretches together. */
export function hull(parts: readonly Bounds<number>[]): Bounds<number> {
  return { min: Math.min(...parts.map((part) => part.min)), max: Math.max(...parts.map((part) => part.max)) };
}
