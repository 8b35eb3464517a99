/**
 * Kinds of characters. Source: avr-libc ctype.h and the core's WCharacter.h, ASCII only; measured over −300..599 with avr-gcc
 * 5.4 and avr-libc 2.0: characters outside of 0..127 are of no kind, and what stands for true is 1..255.
 */
import * as number from "../domain/number.js";
import type { Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";

const INT: number.IntegerType = { bits: 16, signed: true };
const BOOL: number.IntegerType = { bits: 8, signed: false };

const LOWER = /[a-z]/;
const UPPER = /[A-Z]/;
const DIGIT = /[0-9]/;
const KINDS = {
  isdigit: DIGIT,
  isalpha: /[a-zA-Z]/,
  isalnum: /[a-zA-Z0-9]/,
  isspace: /[\t-\r ]/,
  isupper: UPPER,
  islower: LOWER,
  isxdigit: /[0-9a-fA-F]/,
  isprint: /[ -~]/,
} as const satisfies Record<string, RegExp>;

/** By the core's names: the same kinds, with a true that is 1. */
const KINDS_OF_CORE = {
  isDigit: KINDS.isdigit,
  isAlpha: KINDS.isalpha,
  isAlphaNumeric: KINDS.isalnum,
  isSpace: KINDS.isspace,
  isUpperCase: UPPER,
  isLowerCase: LOWER,
  isHexadecimalDigit: KINDS.isxdigit,
  isPrintable: KINDS.isprint,
  isWhitespace: /[\t ]/,
  isAscii: /[\0-\x7f]/,
} as const satisfies Record<string, RegExp>;

/** Whether all, some or none of the characters that the value may be are of the kind; null: some. */
function ofKind(call: CoreCall, kind: RegExp): boolean | null {
  const value = call.values[0];
  if (value === undefined || !("zeros" in value)) return null;
  const possible = value.values ?? characters(value.min, value.max);
  let some = value.values === null && (value.min < 0 || value.max > 127) ? false : null;
  for (const code of possible) {
    const is = code >= 0 && code <= 127 && kind.test(String.fromCharCode(code));
    if (some !== null && some !== is) return null;
    some = is;
  }
  return some;
}

function characters(min: number, max: number): number[] {
  const found: number[] = [];
  for (let code = Math.max(0, min); code <= Math.min(127, max); code++) found.push(code);
  return found;
}

function kindModel(kind: RegExp, type: number.IntegerType, most: number): Model {
  return (call) => {
    const is = ofKind(call, kind);
    return is === null ? null : is ? number.range(1, most, type) : number.constant(0, type);
  };
}

/** Letters in the other case; everything else as it is. */
function caseModel(from: RegExp, by: number): Model {
  return ({ values: [value] }): Value | null => {
    if (value === undefined || !("zeros" in value) || value.values === null || value.min < 0 || value.max > 127)
      return null;
    const changed = value.values.map((code) => (from.test(String.fromCharCode(code)) ? code + by : code));
    return number.fromValues(changed, INT);
  };
}

const upper = caseModel(LOWER, -0x20);
const lower = caseModel(UPPER, 0x20);

export const characterModels: Readonly<Record<string, Model>> = {
  ...Object.fromEntries(Object.entries(KINDS).map(([name, kind]) => [name, kindModel(kind, INT, 255)])),
  ...Object.fromEntries(Object.entries(KINDS_OF_CORE).map(([name, kind]) => [name, kindModel(kind, BOOL, 1)])),
  toupper: upper,
  tolower: lower,
  toUpperCase: upper,
  toLowerCase: lower,
};
