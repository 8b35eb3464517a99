/**
 * Random integer expressions of mixed widths, never undefined: ranges are carried along, and an operation that could
 * overflow a signed type, divide by zero or shift too far is not made (or made unsigned by a cast).
 */
import type { Dice } from "./dice.js";
import {
  ALL_TYPES,
  common,
  converted,
  type Expr,
  highest,
  I16,
  I32,
  type IntType,
  lowest,
  promote,
  SPELLINGS,
  U8,
  U16,
  U32,
} from "./types.js";

/** What an expression may use. */
export interface Names {
  /** Things that can be read, by text. */
  readonly values: readonly Expr[];
  /** Power-of-two sized tables. */
  readonly tables: readonly { name: string; size: number; element: IntType }[];
  /** Functions without side effects. */
  readonly functions: readonly { name: string; parameters: readonly IntType[]; result: IntType }[];
  /** Whether inputs may be read. */
  readonly inputs: boolean;
}

export class Expressions {
  constructor(private readonly dice: Dice) {}

  /** A value of any integer type. */
  value(names: Names, depth: number): Expr {
    const { dice } = this;
    if (depth <= 0 || dice.chance(18)) return this.leaf(names);
    const kind = dice.int(0, 99);
    if (kind < 62) return this.binary(names, depth);
    if (kind < 70) return this.unary(names, depth);
    if (kind < 77) return this.cast(this.value(names, depth - 1), dice.pick(ALL_TYPES));
    if (kind < 83) return this.ternary(names, depth);
    if (kind < 88) return this.table(names, depth) ?? this.leaf(names);
    if (kind < 94) return this.call(names, depth) ?? this.binary(names, depth);
    return this.coreMacro(names, depth);
  }

  /** A value between `min` and `max`, by masking, remainder or choice. */
  bounded(names: Names, depth: number, min: number, max: number): Expr {
    const { dice } = this;
    if (dice.chance(30)) return this.literal(dice.int(min, max));
    const inner = this.value(names, depth - 1);
    if (inner.min >= min && inner.max <= max) return inner;
    const span = max - min + 1;
    const unsigned = inner.type.bits === 32 ? U32 : U16;
    const base = this.cast(inner, unsigned);
    const small = dice.chance(50)
      ? this.join(base, "%", this.literal(span, unsigned), 13, unsigned, 0, span - 1)
      : this.and(base, 2 ** Math.floor(Math.log2(span)) - 1);
    return min === 0 ? small : this.add(small, this.literal(min));
  }

  literal(value: number, type?: IntType): Expr {
    const { dice } = this;
    const negative = value < 0;
    const size = Math.abs(value);
    const fits = size <= 32767 ? I16 : size <= 2147483647 ? I32 : U32;
    let text = String(size);
    if (!negative && dice.chance(35)) {
      const binary = size <= 255 ? dice.int(0, 9) : 9;
      if (binary < 3 && type === undefined) text = `B${size.toString(2).padStart(8, "0")}`;
      else if (binary < 5) text = `0b${size.toString(2).padStart(8, "0")}`;
      else text = `0x${size.toString(16).toUpperCase()}`;
    }
    let own: IntType = fits;
    // Hexadecimal and binary literals of 0x8000 … 0xFFFF are unsigned int.
    if (text.startsWith("0") && size > 32767 && size <= 65535) own = U16;
    if (type === U32 || (type === undefined && !negative && dice.chance(6) && !text.startsWith("B"))) {
      text += "UL";
      own = U32;
    } else if (type === U16) {
      text += "U";
      own = U16;
    }
    if (text.startsWith("0") && !text.endsWith("L") && size > 2147483647) own = U32;
    return { text: negative ? `-${text}` : text, type: own, min: value, max: value, level: negative ? 15 : 16 };
  }

  /** A condition: any scalar expression, mostly comparisons. */
  condition(names: Names, depth: number): Expr {
    const { dice } = this;
    if (dice.chance(15)) return this.value(names, depth);
    const test = this.comparison(names, depth);
    if (depth > 1 && dice.chance(25)) {
      const operator = dice.pick(["&&", "||"]);
      return this.join(test, operator, this.comparison(names, depth - 1), operator === "&&" ? 5 : 4, I16, 0, 1);
    }
    return test;
  }

  private leaf(names: Names): Expr {
    const { dice } = this;
    if (names.inputs && dice.chance(12)) {
      if (dice.chance(70)) return { text: `analogRead(A${dice.int(0, 5)})`, type: I16, min: 0, max: 1023, level: 16 };
      // Pins without a unit: reading one of the others disconnects it, and which operand comes first is the compiler's choice.
      return { text: `digitalRead(${dice.pick(["A1", "A2", "A3"])})`, type: I16, min: 0, max: 1, level: 16 };
    }
    if (names.values.length > 0 && dice.chance(62)) return dice.pick(names.values);
    const sizes = [dice.int(0, 8), dice.int(0, 255), dice.int(0, 1023), dice.int(0, 32767)];
    const value = dice.chance(8) ? dice.int(32768, 65535) : dice.pick(sizes);
    return this.literal(dice.chance(7) ? -value : value);
  }

  private comparison(names: Names, depth: number): Expr {
    const { dice } = this;
    const left = this.value(names, depth - 1);
    const operator = dice.pick(["<", ">", "<=", ">=", "==", "!="]);
    const right = dice.chance(60)
      ? this.literal(dice.int(Math.max(-200, left.min), Math.min(4000, Math.max(0, left.max))))
      : this.value(names, depth - 1);
    return this.join(
      left,
      operator,
      right,
      operator.length === 2 && operator !== "<=" && operator !== ">=" ? 9 : 10,
      I16,
      0,
      1,
    );
  }

  private unary(names: Names, depth: number): Expr {
    const inner = this.value(names, depth - 1);
    const type = promote(inner.type);
    const operator = this.dice.pick(["~", "!", "-"]);
    if (operator === "!") return this.prefix("!", inner, I16, 0, 1);
    if (operator === "~") {
      if (type.signed) return this.prefix("~", inner, type, -inner.max - 1, -inner.min - 1);
      return this.prefix("~", inner, type, lowest(type), highest(type));
    }
    if (!type.signed) return this.prefix("-", inner, type, 0, highest(type));
    if (inner.min <= lowest(type)) return inner;
    return this.prefix("-", inner, type, -inner.max, -inner.min);
  }

  private binary(names: Names, depth: number): Expr {
    const { dice } = this;
    const operator = dice.pick(["+", "+", "-", "-", "*", "/", "%", "&", "&", "|", "|", "^", "<<", ">>", "<", "=="]);
    if (operator === "<" || operator === "==") return this.comparison(names, depth);
    let left = this.value(names, depth - 1);
    if (operator === "<<" || operator === ">>") return this.shift(names, left, operator, depth);
    if (operator === "/" || operator === "%") return this.divide(names, left, operator, depth);
    let right = dice.chance(45)
      ? this.literal(dice.int(0, dice.pick([7, 63, 255, 999])))
      : this.value(names, depth - 1);
    let type = common(left.type, right.type);
    let a = converted(left.min, left.max, type);
    let b = converted(right.min, right.max, type);
    let range = apply(operator, a, b, type);
    if (range === null) {
      // Would overflow: the same in an unsigned type wraps, as C defines.
      const wide = type.bits === 32 || dice.chance(40) ? U32 : U16;
      left = this.cast(left, wide);
      if (common(wide, right.type).signed) right = this.cast(right, U32);
      type = common(left.type, right.type);
      a = converted(left.min, left.max, type);
      b = converted(right.min, right.max, type);
      range = apply(operator, a, b, type);
      if (range === null) return left;
    }
    const level = { "+": 12, "-": 12, "*": 13, "&": 8, "|": 6, "^": 7 }[operator]!;
    return this.join(left, operator, right, level, type, range.min, range.max);
  }

  private shift(names: Names, left: Expr, operator: string, depth: number): Expr {
    const type = promote(left.type);
    const { dice } = this;
    if (operator === ">>") {
      const constant = dice.int(0, Math.min(type.bits - 1, 9));
      if (dice.chance(75)) {
        const min = Math.floor(left.min / 2 ** constant);
        const max = Math.floor(left.max / 2 ** constant);
        return this.join(left, ">>", this.literal(constant), 11, type, min, max);
      }
      const amount = this.and(this.cast(this.value(names, depth - 2), U8), 7);
      return this.join(left, ">>", amount, 11, type, Math.min(0, left.min), Math.max(0, left.max));
    }
    const amount = dice.int(0, Math.min(type.bits - 1, 7));
    if (type.signed) {
      // Left shift is only defined where nothing is lost and nothing is negative.
      if (left.min < 0 || left.max * 2 ** amount > highest(type)) {
        return this.shift(names, this.cast(left, type.bits === 32 ? U32 : U16), operator, depth);
      }
      return this.join(left, "<<", this.literal(amount), 11, type, left.min * 2 ** amount, left.max * 2 ** amount);
    }
    const fits = left.max * 2 ** amount <= highest(type);
    const range = fits ? { min: left.min * 2 ** amount, max: left.max * 2 ** amount } : { min: 0, max: highest(type) };
    return this.join(left, "<<", this.literal(amount), 11, type, range.min, range.max);
  }

  private divide(names: Names, left: Expr, operator: string, depth: number): Expr {
    const { dice } = this;
    let right: Expr;
    if (dice.chance(70)) {
      right = this.literal(dice.pick([2, 3, 4, 5, 7, 8, 10, 16, 60, 100, 255, 1000]));
    } else {
      right = this.add(
        this.and(this.cast(this.value(names, depth - 2), U16), dice.pick([1, 3, 7, 15, 31])),
        this.literal(1),
      );
    }
    const type = common(left.type, right.type);
    const a = converted(left.min, left.max, type);
    if (operator === "%") {
      const limit = Math.max(Math.abs(a.min), Math.abs(a.max));
      const most = Math.min(right.max - 1, limit);
      return this.join(left, "%", right, 13, type, a.min < 0 ? -most : 0, a.max > 0 ? most : 0);
    }
    const ends = [a.min, a.max].flatMap((n) => [right.min, right.max].map((d) => Math.trunc(n / d)));
    return this.join(left, "/", right, 13, type, Math.min(...ends), Math.max(...ends));
  }

  private ternary(names: Names, depth: number): Expr {
    const test = this.condition(names, depth - 1);
    const yes = this.value(names, depth - 1);
    const no = this.value(names, depth - 1);
    const type = common(yes.type, no.type);
    const a = converted(yes.min, yes.max, type);
    const b = converted(no.min, no.max, type);
    const text = `${wrap(test, 4)} ? ${wrap(yes, 3)} : ${wrap(no, 3)}`;
    return { text, type, min: Math.min(a.min, b.min), max: Math.max(a.max, b.max), level: 3 };
  }

  private table(names: Names, depth: number): Expr | null {
    if (names.tables.length === 0) return null;
    const { name, size, element } = this.dice.pick(names.tables);
    const index = this.bounded(names, Math.max(1, depth - 1), 0, size - 1);
    return { text: `${name}[${index.text}]`, type: element, min: lowest(element), max: highest(element), level: 16 };
  }

  private call(names: Names, depth: number): Expr | null {
    if (names.functions.length === 0) return null;
    const { name, parameters, result } = this.dice.pick(names.functions);
    const given = parameters.map(() => this.value(names, depth - 2).text);
    return { text: `${name}(${given.join(", ")})`, type: result, min: lowest(result), max: highest(result), level: 16 };
  }

  /** The core's macros and bit functions; arguments have no side effects, so evaluating them twice is the same. */
  private coreMacro(names: Names, depth: number): Expr {
    const { dice } = this;
    const small = (max: number): Expr => this.bounded({ ...names, inputs: false }, depth - 1, 0, max);
    switch (dice.int(0, 6)) {
      case 0: {
        const a = small(1000);
        const b = small(500);
        return { text: `min(${a.text}, ${b.text})`, type: common(a.type, b.type), min: 0, max: 500, level: 16 };
      }
      case 1: {
        const a = small(300);
        const b = small(255);
        return { text: `max(${a.text}, ${b.text})`, type: common(a.type, b.type), min: 0, max: 300, level: 16 };
      }
      case 2: {
        const low = dice.int(0, 100);
        const inner = small(1023);
        const text = `constrain(${inner.text}, ${low}, ${low + dice.int(1, 400)})`;
        return { text, type: common(inner.type, I16), min: 0, max: 1023, level: 16 };
      }
      case 3:
        return {
          text: `map(${small(1023).text}, 0, 1023, ${dice.int(0, 50)}, ${dice.int(51, 400)})`,
          type: I32,
          min: 0,
          max: 400,
          level: 16,
        };
      case 4:
        return { text: `lowByte(${this.value(names, depth - 1).text})`, type: U8, min: 0, max: 255, level: 15 };
      case 5:
        return {
          text: `highByte(${this.cast(this.value(names, depth - 1), U16).text})`,
          type: U8,
          min: 0,
          max: 255,
          level: 15,
        };
      default: {
        const inner = small(255);
        return {
          text: `bitRead(${inner.text}, ${dice.int(0, 7)})`,
          type: promote(inner.type),
          min: 0,
          max: 1,
          level: 16,
        };
      }
    }
  }

  cast(inner: Expr, type: IntType): Expr {
    const range = converted(inner.min, inner.max, type);
    const spelled = this.dice.pick(SPELLINGS[type.name]!);
    if (this.dice.chance(15) && !spelled.includes(" ")) {
      return { text: `${spelled}(${inner.text})`, type, ...range, level: 16 };
    }
    return this.prefix(`(${spelled})`, inner, type, range.min, range.max);
  }

  private and(inner: Expr, mask: number): Expr {
    return this.join(inner, "&", this.literal(mask), 8, common(inner.type, I16), 0, mask);
  }

  private add(left: Expr, right: Expr): Expr {
    const type = common(left.type, right.type);
    return this.join(left, "+", right, 12, type, left.min + right.min, left.max + right.max);
  }

  private prefix(operator: string, inner: Expr, type: IntType, min: number, max: number): Expr {
    const text = wrap(inner, 15);
    const gap = operator === "-" && text.startsWith("-") ? " " : "";
    return { text: `${operator}${gap}${text}`, type, min, max, level: 15 };
  }

  /** Parentheses only where C needs them, sometimes more, sometimes without blanks: as people write. */
  private join(
    left: Expr,
    operator: string,
    right: Expr,
    level: number,
    type: IntType,
    min: number,
    max: number,
  ): Expr {
    // `0xE+x` is one token to the preprocessor.
    const tight = this.dice.chance(15) && !right.text.startsWith("-") && !/[eE]$/.test(left.text);
    const extra = this.dice.chance(35);
    const a = extra && left.level < 16 ? `(${left.text})` : wrap(left, level);
    const b = extra && right.level < 16 ? `(${right.text})` : wrap(right, level + 1);
    return { text: tight ? `${a}${operator}${b}` : `${a} ${operator} ${b}`, type, min, max, level };
  }
}

function wrap(inner: Expr, level: number): string {
  return inner.level < level ? `(${inner.text})` : inner.text;
}

interface Range {
  readonly min: number;
  readonly max: number;
}

/** The result's range, or null where a signed type would overflow. */
function apply(operator: string, a: Range, b: Range, type: IntType): Range | null {
  let range: Range;
  if (operator === "+") range = { min: a.min + b.min, max: a.max + b.max };
  else if (operator === "-") range = { min: a.min - b.max, max: a.max - b.min };
  else if (operator === "*") {
    const ends = [a.min * b.min, a.min * b.max, a.max * b.min, a.max * b.max];
    range = { min: Math.min(...ends), max: Math.max(...ends) };
  } else {
    if (a.min < 0 || b.min < 0) return { min: lowest(type), max: highest(type) };
    const top = 2 ** Math.ceil(Math.log2(Math.max(a.max, b.max) + 1)) - 1;
    range = operator === "&" ? { min: 0, max: Math.min(a.max, b.max) } : { min: 0, max: top };
  }
  if (range.min >= lowest(type) && range.max <= highest(type)) return range;
  return type.signed ? null : { min: 0, max: highest(type) };
}
