/**
 * Integer constant expressions of `#if` and `#elif`: 64-bit arithmetic as the compiler does it, signed unless an
 * operand is unsigned. Gets tokens with macros expanded and `defined` answered.
 */
import type { Token } from "./token.js";

/** The value is `wide` modulo 2^64, read as signed or unsigned. */
interface Value {
  readonly wide: bigint;
  readonly unsigned: boolean;
}

class NotUnderstood extends Error {}

/** Deeper nesting of parentheses and unary operators is given up. */
const MAX_DEPTH = 400;

/** Whether the condition holds; in words why it cannot be said. */
export function evaluateCondition(tokens: readonly Token[]): boolean | string {
  if (tokens.length === 0) return "a condition is missing";
  try {
    const reader = new ConditionReader(tokens);
    const value = reader.conditional(true);
    if (reader.peek() !== undefined) throw new NotUnderstood(`'${reader.peek()}' is not expected`);
    return value.wide !== 0n;
  } catch (error) {
    if (error instanceof NotUnderstood) return error.message;
    throw error;
  }
}

/** Binary operators by rank; higher binds tighter. */
const RANKS: Readonly<Record<string, number>> = {
  "||": 1,
  or: 1,
  "&&": 2,
  and: 2,
  "|": 3,
  bitor: 3,
  "^": 4,
  xor: 4,
  "&": 5,
  bitand: 5,
  "==": 6,
  "!=": 6,
  not_eq: 6,
  "<": 7,
  ">": 7,
  "<=": 7,
  ">=": 7,
  "<<": 8,
  ">>": 8,
  "+": 9,
  "-": 9,
  "*": 10,
  "/": 10,
  "%": 10,
};

class ConditionReader {
  private at = 0;
  private depth = 0;

  constructor(private readonly tokens: readonly Token[]) {}

  peek(): string | undefined {
    return this.tokens[this.at]?.text;
  }

  /** `live`: the value counts; a division by zero in an operand that is not evaluated is no error. */
  conditional(live: boolean): Value {
    const condition = this.binary(1, live);
    if (this.peek() !== "?") return condition;
    this.at++;
    const holds = condition.wide !== 0n;
    this.enter();
    const yes = this.comma(live && holds);
    this.expect(":");
    const no = this.conditional(live && !holds);
    this.depth--;
    const unsigned = yes.unsigned || no.unsigned;
    return { wide: (holds ? yes : no).wide, unsigned };
  }

  private comma(live: boolean): Value {
    let value = this.conditional(live);
    while (this.peek() === ",") {
      this.at++;
      value = this.conditional(live);
    }
    return value;
  }

  private binary(lowest: number, live: boolean): Value {
    let left = this.unary(live);
    for (;;) {
      const operator = this.peek();
      const rank = operator === undefined ? undefined : RANKS[operator];
      if (rank === undefined || rank < lowest || !Object.hasOwn(RANKS, operator as string)) return left;
      this.at++;
      const isOr = rank === 1;
      const isAnd = rank === 2;
      const decided = (isOr && left.wide !== 0n) || (isAnd && left.wide === 0n);
      const right = this.binary(rank + 1, live && !decided);
      if (isOr) left = truth(left.wide !== 0n || right.wide !== 0n);
      else if (isAnd) left = truth(left.wide !== 0n && right.wide !== 0n);
      else left = combine(operator as string, left, right, live);
    }
  }

  private unary(live: boolean): Value {
    const operator = this.peek();
    switch (operator) {
      case "+":
      case "-":
      case "~":
      case "!":
      case "compl":
      case "not": {
        this.at++;
        this.enter();
        const { wide, unsigned } = this.unary(live);
        this.depth--;
        if (operator === "!" || operator === "not") return truth(wide === 0n);
        if (operator === "-") return fitted(-wide, unsigned);
        return operator === "+" ? { wide, unsigned } : fitted(~wide, unsigned);
      }
      case "(": {
        this.at++;
        this.enter();
        const value = this.comma(live);
        this.depth--;
        this.expect(")");
        return value;
      }
    }
    return this.primary();
  }

  private primary(): Value {
    const token = this.tokens[this.at++];
    if (token === undefined) throw new NotUnderstood("a condition ends too early");
    if (token.kind === "number") return integer(token.text);
    // Whatever is still a name is 0; `true` is C++'s own.
    if (token.kind === "word") return { wide: token.text === "true" ? 1n : 0n, unsigned: false };
    if (token.kind === "text" && token.text.endsWith("'")) return character(token.text);
    throw new NotUnderstood(`'${token.text}' cannot stand in a condition`);
  }

  private expect(text: string): void {
    if (this.peek() !== text) throw new NotUnderstood(`'${text}' is missing in a condition`);
    this.at++;
  }

  private enter(): void {
    if (++this.depth > MAX_DEPTH) throw new NotUnderstood("a condition is nested too deep");
  }
}

function truth(holds: boolean): Value {
  return { wide: holds ? 1n : 0n, unsigned: false };
}

function fitted(wide: bigint, unsigned: boolean): Value {
  return { wide: unsigned ? BigInt.asUintN(64, wide) : BigInt.asIntN(64, wide), unsigned };
}

function combine(operator: string, left: Value, right: Value, live: boolean): Value {
  // The value of a shift has the left operand's type; everything else is unsigned where either side is.
  if (operator === "<<" || operator === ">>") return shifted(left, operator === "<<" ? right : negated(right));
  const unsigned = left.unsigned || right.unsigned;
  const a = fitted(left.wide, unsigned).wide;
  const b = fitted(right.wide, unsigned).wide;
  switch (operator) {
    case "|":
    case "bitor":
      return fitted(a | b, unsigned);
    case "^":
    case "xor":
      return fitted(a ^ b, unsigned);
    case "&":
    case "bitand":
      return fitted(a & b, unsigned);
    case "==":
      return truth(a === b);
    case "!=":
    case "not_eq":
      return truth(a !== b);
    case "<":
      return truth(a < b);
    case ">":
      return truth(a > b);
    case "<=":
      return truth(a <= b);
    case ">=":
      return truth(a >= b);
    case "+":
      return fitted(a + b, unsigned);
    case "-":
      return fitted(a - b, unsigned);
    case "*":
      return fitted(a * b, unsigned);
    default:
      if (b === 0n) {
        if (live) throw new NotUnderstood("a condition divides by zero");
        return { wide: 0n, unsigned };
      }
      return fitted(operator === "/" ? a / b : a % b, unsigned);
  }
}

function negated(value: Value): Value {
  return { wide: -value.wide, unsigned: false };
}

/** Left by `by`, right where that is negative; as the compiler does it, no count is out of range. */
function shifted(value: Value, by: Value): Value {
  const count = by.wide;
  if (count >= 64n) return fitted(0n, value.unsigned);
  if (count <= -64n) return fitted(!value.unsigned && value.wide < 0n ? -1n : 0n, value.unsigned);
  return fitted(count >= 0n ? value.wide << count : value.wide >> -count, value.unsigned);
}

function integer(text: string): Value {
  const plain = text.replaceAll("'", "");
  const parts = /^(0[xX][0-9a-fA-F]+|0[bB][01]+|0[0-7]*|[1-9][0-9]*)([uUlL]*)$/.exec(plain);
  if (parts === null) throw new NotUnderstood(`'${text}' is no integer`);
  const digits = parts[1] as string;
  const isOctal = /^0[0-7]+$/.test(digits);
  const wide = BigInt(isOctal ? `0o${digits}` : digits);
  const suffix = parts[2] as string;
  if (!/^([uU]?(l|L|ll|LL)?|(l|L|ll|LL)[uU])$/.test(suffix)) throw new NotUnderstood(`'${text}' is no integer`);
  // A literal that does not fit the signed type is unsigned.
  return fitted(wide, /[uU]/.test(suffix) || wide >= 1n << 63n);
}

const ESCAPES: Readonly<Record<string, number>> = { n: 10, t: 9, r: 13, a: 7, b: 8, f: 12, v: 11, e: 27 };

/** A character constant; of several characters each takes eight bits of the 16-bit value. */
function character(text: string): Value {
  let value = 0;
  const inner = text.slice(text.indexOf("'") + 1, -1);
  const pattern = /\\x([0-9a-fA-F]+)|\\([0-7]{1,3})|\\([\s\S])|([\s\S])/g;
  for (let part = pattern.exec(inner); part !== null; part = pattern.exec(inner)) {
    const [, hex, octal, escaped, plain] = part;
    const code =
      hex !== undefined
        ? Number.parseInt(hex, 16)
        : octal !== undefined
          ? Number.parseInt(octal, 8)
          : escaped !== undefined
            ? (ESCAPES[escaped] ?? escaped.charCodeAt(0))
            : (plain as string).charCodeAt(0);
    value = (((value << 8) | (code & 0xff)) << 16) >> 16;
  }
  // A single plain character is a signed char.
  const isSingle = /^(\\.[0-9a-fA-F]*|[\s\S])$/.test(inner);
  return { wide: BigInt(isSingle ? (value << 24) >> 24 : value), unsigned: false };
}
