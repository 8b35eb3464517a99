/**
 * Programs that work out many random expressions and write each result, 16 bits at a time, to ICR1: the same text for
 * the compiler and for the interpreter. Bits 0 and 1 of port B choose one of four inputs.
 */
import { Dice } from "../generate/dice.js";
import { type CType, convertedLanes, type Lanes, operated, promoted, TYPES } from "./c-values.js";
import { ExpressionWriter, INPUTS, type Term, term } from "./expressions.js";

export interface Result {
  /** The statement that works it out, for messages. */
  readonly text: string;
  /** Writes to ICR1 in a row. */
  readonly writes: number;
  /** No input is in it: the interpreter must know it exactly. */
  readonly fixed: boolean;
  /** A float or a number of 64 bits is in it: not every bit need be known. */
  readonly loose: boolean;
  /** A number of 64 bits is in it. */
  readonly wide: boolean;
}

export interface ArithmeticProgram {
  readonly text: string;
  readonly results: readonly Result[];
}

export function arithmeticProgram(seed: number, expressions: number): ArithmeticProgram {
  const dice = new Dice(seed);
  const globals: string[] = [];
  const lines: string[] = ["  uint8_t input = PINB & 3;"];
  const variables: Term[] = [];
  TYPES.forEach((type, index) => {
    const fixed = edge(dice, type);
    const kind = dice.pick(["volatile ", "volatile ", "", "const "]);
    globals.push(`${kind}${type.name} fixed${index} = ${spelled(fixed, type)};`);
    variables.push(term(`fixed${index}`, type, new Array(INPUTS).fill(fixed), true));
    const row = Array.from({ length: INPUTS }, () => edge(dice, type));
    globals.push(`${type.name} row${index}[${INPUTS}] = { ${row.map((value) => spelled(value, type)).join(", ")} };`);
    lines.push(`  ${type.name} given${index} = row${index}[input];`);
    variables.push(term(`given${index}`, type, row, true));
    globals.push(`__attribute__((noinline)) ${type.name} pass${index}(${type.name} x) { return x; }`);
  });
  // Terms of inputs alone would make nearly all results depend on them.
  const known = variables.filter(({ text }) => text.startsWith("fixed"));
  const plain = new ExpressionWriter(dice, known);
  const mixed = new ExpressionWriter(dice, [...variables, ...known]);
  const results: Result[] = [];
  while (results.length < expressions) {
    const writer = dice.chance(55) ? plain : mixed;
    const made = statement(dice, writer, results.length);
    if (made === null) continue;
    lines.push(...made.lines.map((line) => `  ${line}`));
    results.push(made.result);
  }
  const text = [
    "#include <avr/io.h>",
    "#include <stdint.h>",
    ...globals,
    "int main() {",
    ...lines,
    "  for (;;) ;",
    "}",
    "",
  ].join("\n");
  return { text, results };
}

/** Numbers near the ends, near zero, and anywhere. */
function edge(dice: Dice, type: CType): bigint | number {
  if (type.kind === "bool") return BigInt(dice.int(0, 1));
  if (type.kind === "float")
    return Math.fround(dice.pick([0, 0.1, -1.5, 440, 3.999, -77.25, 1e4, dice.int(-500, 500) / 8]));
  const bits = BigInt(type.bits);
  const low = type.signed ? -(1n << (bits - 1n)) : 0n;
  const high = type.signed ? (1n << (bits - 1n)) - 1n : (1n << bits) - 1n;
  const any =
    (BigInt(dice.int(0, 0xffffff)) << 40n) ^ (BigInt(dice.int(0, 0xffffff)) << 20n) ^ BigInt(dice.int(0, 0xffffff));
  const chosen = dice.pick([
    0n,
    1n,
    low,
    high,
    high - 1n,
    low + 1n,
    BigInt(dice.int(-120, 120)),
    BigInt(dice.int(0, 99)),
    any,
    any >> 30n,
  ]);
  return type.signed ? BigInt.asIntN(type.bits, chosen) : BigInt.asUintN(type.bits, chosen);
}

function spelled(value: bigint | number, type: CType): string {
  if (type.kind === "float") return String(value);
  if (type.bits < 32) return String(value);
  // The lowest number has no literal of its own type.
  const suffix = type.bits === 64 ? (type.signed ? "LL" : "ULL") : type.signed ? "L" : "UL";
  if (type.signed && value === -(1n << BigInt(type.bits - 1))) return `(-${-(value as bigint) - 1n}${suffix} - 1)`;
  return `${value}${suffix}`;
}

function statement(dice: Dice, writer: ExpressionWriter, index: number): { lines: string[]; result: Result } | null {
  const form = dice.int(0, 99);
  if (form < 60) {
    const value = writer.term(dice.int(1, 4));
    return put(index, dice.chance(70) ? value.type : dice.pick(TYPES), value, []);
  }
  const type = dice.pick(TYPES);
  const first = writer.term(2);
  const start = convertedLanes(first.lanes, type);
  if (start === null) return null;
  const name = `own${index}`;
  const declared = `${type.name} ${name} = ${first.text};`;
  const own = term(name, type, start, true, [first]);
  if (form < 85) {
    const operator = dice.pick(["+", "-", "*", "/", "%", "&", "|", "^", "<<", ">>"]);
    const by = operator === "<<" || operator === ">>" ? writer.literal(dice.int(0, 9)) : writer.term(2);
    const result = writer.joined(operator, own, by);
    const lanes = result === null ? null : convertedLanes(result.lanes, type);
    if (result === null || lanes === null) return null;
    const text = `${name} ${operator}= ${by.text}`;
    if (dice.chance(40)) return put(index, type, term(text, type, lanes, false, [result]), [declared]);
    return put(index, type, term(name, type, lanes, false, [result]), [declared, `${text};`]);
  }
  if (type.kind === "bool") return null;
  const step = dice.pick(["++", "--"]);
  const one: Lanes = start.map((lane) => (typeof lane === "number" ? 1 : 1n));
  const moved = operated(step === "++" ? "+" : "-", start, one, promoted(type));
  const lanes = moved === null ? null : convertedLanes(moved, type);
  if (lanes === null) return null;
  const [text, value] = dice.pick([
    [`${name}${step}`, start],
    [`${step}${name}`, lanes],
  ] as const);
  return put(index, type, term(text, type, value, false, [own]), [declared]);
}

/** Stores the value and writes it, 16 bits at a time; floats as whole numbers and 65,536ths where that is defined. */
function put(
  index: number,
  type: CType,
  value: Term,
  before: readonly string[],
): { lines: string[]; result: Result } | null {
  const stored = convertedLanes(value.lanes, type);
  if (stored === null) return null;
  const name = `result${index}`;
  // The halves of a 64-bit number are taken from memory: avr-gcc 5.4 at times mixes them up in registers.
  const kept = type.bits === 64 ? "volatile " : "";
  const head = [...before, `${kept}${type.name} ${name} = ${value.text};`];
  const fixed = !/\bgiven\d/.test(head.join(" "));
  const wide = value.wide || type.bits === 64;
  const loose = wide || value.real || type.kind === "float";
  const result = (writes: number): Result => ({ text: head.join(" "), writes, fixed, loose, wide });
  if (type.kind === "float") {
    if (stored.some((lane) => Math.abs(Number(lane)) > 30000)) return null;
    const parts = `int32_t parts${index} = ${name} * 65536.0f;`;
    return { lines: [...head, parts, `ICR1 = parts${index};`, `ICR1 = parts${index} >> 16;`], result: result(2) };
  }
  const writes = Math.max(1, type.bits / 16);
  const lines = Array.from({ length: writes }, (_, part) => `ICR1 = ${name}${part === 0 ? "" : ` >> ${16 * part}`};`);
  return { lines: [...head, ...lines], result: result(writes) };
}
