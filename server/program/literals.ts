/** Number, character and string literals with the types that C++ gives them on AVR (C++11 2.14; int is 16 bit). */
import { CHAR, FLOAT, INT16, INT32, INT64, type Type, UINT16, UINT32, UINT64 } from "./types.js";

export interface NumberLiteral {
  readonly type: Type;
  readonly value: number;
}

/** Null where the text is no number. 64-bit literals beyond 2^53 lose their low bits; they are rare enough to be a gap of the caller's. */
export function readNumber(raw: string): NumberLiteral | null {
  // The parser takes a sign for part of the literal; to C++ it is an operator on a promoted operand.
  if (raw[0] === "-" || raw[0] === "+") {
    const operand = readNumber(raw.slice(1).trim());
    if (operand === null || raw[0] === "+") return operand;
    const { type, value } = operand;
    if (type.kind !== "integer" || type.integer.signed || value === 0) return { type, value: -value + 0 };
    return { type, value: 2 ** type.integer.bits - value };
  }
  const text = raw.replace(/'/g, "");
  const match = /^(0[xX][0-9a-fA-F]+|0[bB][01]+|[0-9]+)([uUlL]*)$/.exec(text);
  if (match === null) {
    const real = /^((?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)[fFlL]?$/.exec(text);
    if (real === null) return null;
    return { type: FLOAT, value: Math.fround(Number(real[1])) };
  }
  const digits = match[1]!;
  const suffix = match[2]!.toLowerCase();
  const octal = /^0[0-7]+$/.test(digits);
  const value = octal ? Number.parseInt(digits, 8) : Number(digits);
  const decimal = !octal && !/^0[xXbB]/.test(digits);
  const unsigned = suffix.includes("u");
  const longs = suffix.replace("u", "").length;
  return { value, type: literalType(value, unsigned, longs, decimal) };
}

function literalType(value: number, unsigned: boolean, longs: number, decimal: boolean): Type {
  const choices: readonly (readonly [Type, number])[] = [
    [INT16, 0x7fff],
    [UINT16, 0xffff],
    [INT32, 0x7fffffff],
    [UINT32, 0xffffffff],
    [INT64, 2 ** 63],
    [UINT64, 2 ** 64],
  ];
  for (let index = longs * 2; index < choices.length; index++) {
    const [type, max] = choices[index]!;
    const isUnsigned = index % 2 === 1;
    if (unsigned && !isUnsigned) continue;
    if (!unsigned && isUnsigned && decimal) continue;
    if (value <= max) return type;
  }
  return unsigned ? UINT64 : INT64;
}

const ESCAPES: Readonly<Record<string, number>> = {
  n: 10,
  t: 9,
  r: 13,
  "0": 0,
  a: 7,
  b: 8,
  f: 12,
  v: 11,
  "\\": 92,
  "'": 39,
  '"': 34,
  "?": 63,
};

/** The bytes of a character or string literal's inside, escapes resolved; text beyond ASCII as UTF-8. */
export function readCharacters(inside: string): number[] {
  const bytes: number[] = [];
  for (let i = 0; i < inside.length; ) {
    if (inside[i] !== "\\") {
      const point = inside.codePointAt(i)!;
      if (point < 0x80) bytes.push(point);
      else if (point < 0x800) bytes.push(0xc0 | (point >> 6), 0x80 | (point & 0x3f));
      else if (point < 0x10000) bytes.push(0xe0 | (point >> 12), 0x80 | ((point >> 6) & 0x3f), 0x80 | (point & 0x3f));
      else {
        bytes.push(
          0xf0 | (point >> 18),
          0x80 | ((point >> 12) & 0x3f),
          0x80 | ((point >> 6) & 0x3f),
          0x80 | (point & 0x3f),
        );
      }
      i += point > 0xffff ? 2 : 1;
      continue;
    }
    const hex = /^\\x([0-9a-fA-F]+)/.exec(inside.slice(i, i + 12));
    const octal = /^\\([0-7]{1,3})/.exec(inside.slice(i, i + 4));
    if (hex !== null) {
      bytes.push(Number.parseInt(hex[1]!, 16) & 0xff);
      i += hex[0].length;
    } else if (octal !== null) {
      bytes.push(Number.parseInt(octal[1]!, 8) & 0xff);
      i += octal[0].length;
    } else {
      bytes.push(ESCAPES[inside[i + 1] ?? ""] ?? (inside.charCodeAt(i + 1) || 0));
      i += 2;
    }
  }
  return bytes;
}

/** A character literal; several characters make an int, as gcc does it. */
export function readCharacter(raw: string): NumberLiteral {
  const inside = raw.replace(/^(?:u8|u|U|L)?'/, "").replace(/'$/, "");
  const bytes = readCharacters(inside);
  if (bytes.length === 1) return { type: CHAR, value: (bytes[0]! << 24) >> 24 };
  let value = 0;
  for (const byte of bytes) value = ((value << 8) | byte) & 0xffff;
  return { type: INT16, value: (value << 16) >> 16 };
}
