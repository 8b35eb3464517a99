/** How an edit writes bits by name: in the way the sketch already does. */
import type { Chip } from "../../shared-model/chip.js";
import type { Analysis } from "../analysis.js";
import { namesOfOnes } from "./register-fields.js";

export interface NamingStyle {
  /** `_BV(CS22)`, `(1 << CS22)`, `bit(CS22)`. */
  readonly bit: (name: string) => string;
  /** The core's bit functions are in use: a single bit is set by `bitSet`. */
  readonly functions: boolean;
}

export const UNDERSCORE_BV: NamingStyle = { bit: (name) => `_BV(${name})`, functions: false };
export const SHIFTS: NamingStyle = { bit: (name) => `(1 << ${name})`, functions: false };
export const BIT_FUNCTIONS: NamingStyle = { bit: (name) => `bit(${name})`, functions: true };

const STYLES: readonly { readonly pattern: RegExp; readonly style: NamingStyle }[] = [
  { pattern: /\b_BV\s*\(/g, style: UNDERSCORE_BV },
  { pattern: /\b1[uUlL]*\s*<<\s*[A-Z]/g, style: SHIFTS },
  { pattern: /\bbit(?:Set|Clear|Write)?\s*\(/g, style: BIT_FUNCTIONS },
];

/** The style the sketch uses most; `_BV` where it names no bits yet. */
export function namingStyle(analysis: Analysis): NamingStyle {
  let best = UNDERSCORE_BV;
  let most = 0;
  for (const { pattern, style } of STYLES) {
    let count = 0;
    for (const file of analysis.files) {
      if (file.kind === "sketch") count += file.text.match(pattern)?.length ?? 0;
    }
    if (count > most) {
      most = count;
      best = style;
    }
  }
  return best;
}

/** Names of the ones in `value`, most significant first; positions without a name are left out. */
export function bitsUnder(chip: Chip, register: string, value: number): readonly string[] {
  const names: string[] = [];
  for (let position = 7; position >= 0; position -= 1) {
    const one = value & (1 << position);
    if (one !== 0) names.push(...(namesOfOnes(chip, register, one) ?? []));
  }
  return names;
}
