/** Random C expressions over all widths and signs, well-defined for every one of the inputs. */
import type { Dice } from "../generate/dice.js";
import {
  BOOL,
  type CType,
  common,
  compared,
  convertedLanes,
  FLOAT,
  fits,
  INT,
  isTrue,
  type Lanes,
  operated,
  promoted,
  TYPES,
} from "./c-values.js";

/** How many inputs a program is run with: 0 to 3. */
export const INPUTS = 4;

export interface Term {
  readonly text: string;
  readonly type: CType;
  readonly lanes: Lanes;
  /** An operand of any operator as it stands. */
  readonly primary: boolean;
  /** A float is in it: its last bit may be left open. */
  readonly real: boolean;
  /** A number of 64 bits is in it: the interpreter need not know all of them. */
  readonly wide: boolean;
}

/** A term made of others. */
export function term(text: string, type: CType, lanes: Lanes, primary: boolean, parts: readonly Term[] = []): Term {
  const real = type.kind === "float" || parts.some((part) => part.real);
  const wide = type.bits === 64 || parts.some((part) => part.wide);
  return { text, type, lanes, primary, real, wide };
}

export class ExpressionWriter {
  constructor(
    private readonly dice: Dice,
    private readonly variables: readonly Term[],
  ) {}

  /** A term whose value is defined for every input. */
  term(depth: number): Term {
    const { dice } = this;
    if (depth <= 0 || dice.chance(12)) return this.leaf();
    for (let tries = 0; tries < 6; tries++) {
      const found = this.compound(depth);
      if (found !== null) return found;
    }
    return this.leaf();
  }

  private compound(depth: number): Term | null {
    const kind = this.dice.int(0, 99);
    if (kind < 52) return this.binary(depth);
    if (kind < 64) return this.comparison(depth);
    if (kind < 74) return this.unary(depth);
    if (kind < 86) return this.cast(this.term(depth - 1), this.dice.pick(TYPES));
    if (kind < 92) return this.choice(depth);
    if (kind < 96) return this.logic(depth);
    return this.passed(depth);
  }

  binary(depth: number): Term | null {
    const { dice } = this;
    const operator = dice.pick(["+", "+", "-", "-", "*", "*", "/", "%", "&", "|", "^", "<<", ">>", ">>"]);
    const left = this.term(depth - 1);
    const right =
      operator === "<<" || operator === ">>"
        ? dice.chance(75)
          ? this.literal(dice.int(0, 15))
          : this.term(depth - 2)
        : this.term(depth - 1);
    return this.joined(operator, left, right);
  }

  joined(operator: string, left: Term, right: Term): Term | null {
    const shift = operator === "<<" || operator === ">>";
    const type = shift ? promoted(left.type) : common(left.type, right.type);
    if (type.kind === "float" && !["+", "-", "*", "/"].includes(operator)) return null;
    if (shift && right.type.kind === "float") return null;
    const a = convertedLanes(left.lanes, type);
    const b = shift ? right.lanes : convertedLanes(right.lanes, type);
    const lanes = a === null || b === null ? null : operated(operator, a, b, type);
    return lanes === null ? null : term(this.around(left, operator, right), type, lanes, false, [left, right]);
  }

  private comparison(depth: number): Term | null {
    const left = this.term(depth - 1);
    const right = this.term(depth - 1);
    const operator = this.dice.pick(["<", ">", "<=", ">=", "==", "!="]);
    const type = common(left.type, right.type);
    const a = convertedLanes(left.lanes, type);
    const b = convertedLanes(right.lanes, type);
    if (a === null || b === null) return null;
    // Equal floats may differ in their last bit from the compiler's.
    if (type.kind === "float" && a.some((lane, index) => Math.abs(Number(lane) - Number(b[index])) < 1e-3)) return null;
    return term(this.around(left, operator, right), BOOL, compared(operator, a, b), false, [left, right]);
  }

  private unary(depth: number): Term | null {
    const inner = this.term(depth - 1);
    const operator = this.dice.pick(["-", "~", "!", "+", "-"]);
    const text = `${operator}${inner.primary ? inner.text : `(${inner.text})`}`;
    if (operator === "!") {
      const lanes = inner.lanes.map((lane) => (isTrue(lane) ? 0n : 1n));
      return term(text, BOOL, lanes, false, [inner]);
    }
    const type = promoted(inner.type);
    const lanes = convertedLanes(inner.lanes, type)!;
    if (operator === "+") return term(text, type, lanes, false, [inner]);
    if (type.kind === "float") {
      if (operator === "~") return null;
      const negated = lanes.map((lane) => -Number(lane));
      return term(text, type, negated, false, [inner]);
    }
    const zero = lanes.map(() => 0n);
    const ones = lanes.map(() => -1n);
    const value = operated(operator === "-" ? "-" : "^", operator === "-" ? zero : ones, lanes, type);
    return value === null ? null : term(text, type, value, false, [inner]);
  }

  cast(inner: Term, type: CType): Term | null {
    const lanes = convertedLanes(inner.lanes, type);
    if (lanes === null) return null;
    const form = this.dice.int(0, 3);
    const operand = inner.primary ? inner.text : `(${inner.text})`;
    if (form === 0) return term(`static_cast<${type.name}>(${inner.text})`, type, lanes, true, [inner]);
    if (form === 1 && !type.name.includes(" ")) return term(`${type.name}(${inner.text})`, type, lanes, true, [inner]);
    return term(`(${type.name})${operand}`, type, lanes, false, [inner]);
  }

  private choice(depth: number): Term | null {
    const test = this.term(depth - 1);
    const yes = this.term(depth - 1);
    const no = this.term(depth - 1);
    // Two of one type keep it, without promotion.
    const type = yes.type.name === no.type.name ? yes.type : common(yes.type, no.type);
    const a = convertedLanes(yes.lanes, type);
    const b = convertedLanes(no.lanes, type);
    if (a === null || b === null) return null;
    const lanes = test.lanes.map((lane, index) => (isTrue(lane) ? a[index]! : b[index]!));
    return term(`(${test.text}) ? (${yes.text}) : (${no.text})`, type, lanes, false, [test, yes, no]);
  }

  private logic(depth: number): Term {
    const left = this.term(depth - 1);
    const right = this.term(depth - 1);
    const and = this.dice.chance(50);
    const lanes = left.lanes.map((lane, index) => {
      const b = isTrue(right.lanes[index]!);
      return (and ? isTrue(lane) && b : isTrue(lane) || b) ? 1n : 0n;
    });
    return term(this.around(left, and ? "&&" : "||", right), BOOL, lanes, false, [left, right]);
  }

  /** Through a function's parameter and result. */
  private passed(depth: number): Term | null {
    const inner = this.term(depth - 1);
    const at = this.dice.int(0, TYPES.length - 1);
    const lanes = convertedLanes(inner.lanes, TYPES[at]!);
    return lanes === null ? null : term(`pass${at}(${inner.text})`, TYPES[at]!, lanes, true, [inner]);
  }

  private leaf(): Term {
    const { dice } = this;
    if (dice.chance(60)) return dice.pick(this.variables);
    const most = dice.pick([9, 255, 300, 32767, 65535, 70000, 2 ** 31, 2 ** 33]);
    if (dice.chance(10)) {
      const value = Math.fround(dice.pick([0.5, 1.25, 3.75, 100.1, 1e-2, 12345.678, 2.5]));
      return term(dice.pick([String(value), `${value}f`]), FLOAT, new Array(INPUTS).fill(value), true);
    }
    if (dice.chance(5)) {
      const letter = dice.pick(["a", "Z", "0", "~"]);
      return this.constant(`'${letter}'`, TYPES[2]!, BigInt(letter.charCodeAt(0)));
    }
    if (dice.chance(4)) return this.constant("true", BOOL, 1n);
    return this.literal(Math.floor((dice.int(0, 0xffffff) / 0x1000000) * (most + 1)));
  }

  literal(value: number): Term {
    const { dice } = this;
    const hex = dice.chance(35);
    const suffix = dice.pick(["", "", "", "", "U", "L", "UL", "LL", "ULL", "u", "ul"]);
    const unsigned = /u/i.test(suffix);
    const least = /ll/i.test(suffix) ? 64 : /l/i.test(suffix) ? 32 : 16;
    // The first type of the literal's list that holds it (C++11 2.14.2); hexadecimal ones may be unsigned.
    for (const bits of [16, 32, 64] as const) {
      if (bits < least) continue;
      for (const signed of [true, false]) {
        if (signed ? unsigned : !unsigned && !hex) continue;
        const type = TYPES.find((one) => one.kind === "integer" && one.bits === bits && one.signed === signed)!;
        if (fits(BigInt(value), type)) {
          return this.constant(`${hex ? `0x${value.toString(16)}` : value}${suffix}`, type, BigInt(value));
        }
      }
    }
    return this.constant("7", INT, 7n);
  }

  private constant(text: string, type: CType, value: bigint): Term {
    return term(text, type, new Array(INPUTS).fill(value), true);
  }

  private around(left: Term, operator: string, right: Term): string {
    const side = (term: Term): string => (term.primary ? term.text : `(${term.text})`);
    return `${side(left)} ${operator} ${side(right)}`;
  }
}
