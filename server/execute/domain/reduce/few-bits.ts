/** What a small set tells the known bits: a bit that all its values share is known. */

import type { KnownBits } from "../bits.js";
import { type AnyIntegerType, maskOf } from "../integer-type.js";

export function sharedBits(values: readonly number[], type: AnyIntegerType): KnownBits {
  const mask = maskOf(type);
  let zeros = mask;
  let ones = mask;
  for (let at = 0; at < values.length; at++) {
    const value = values[at]!;
    zeros &= ~value;
    ones &= value;
  }
  return { zeros: zeros >>> 0, ones: ones >>> 0 };
}
