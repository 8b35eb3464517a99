/**
 * Numbers of avr-gcc's types and what C's operators make of them: only so far that the generator of expressions can
 * keep away from undefined behaviour. What is right is said by the compiler, not here.
 */

export interface CType {
  readonly name: string;
  readonly bits: 8 | 16 | 32 | 64;
  readonly signed: boolean;
  readonly kind: "integer" | "bool" | "float";
}

function integer(name: string, bits: CType["bits"], signed: boolean): CType {
  return { name, bits, signed, kind: "integer" };
}

export const INT = integer("int", 16, true);
export const BOOL: CType = { name: "bool", bits: 8, signed: false, kind: "bool" };
export const FLOAT: CType = { name: "float", bits: 32, signed: true, kind: "float" };

/** Every width and sign in several spellings; plain `char` is signed with avr-gcc. */
export const TYPES: readonly CType[] = [
  integer("int8_t", 8, true),
  integer("signed char", 8, true),
  integer("char", 8, true),
  integer("uint8_t", 8, false),
  INT,
  integer("short", 16, true),
  integer("int16_t", 16, true),
  integer("unsigned int", 16, false),
  integer("uint16_t", 16, false),
  integer("long", 32, true),
  integer("int32_t", 32, true),
  integer("unsigned long", 32, false),
  integer("uint32_t", 32, false),
  integer("int64_t", 64, true),
  integer("long long", 64, true),
  integer("uint64_t", 64, false),
  BOOL,
  FLOAT,
];

/** One number for each of the inputs that a program is run with; integers exact, floats as 32-bit floats. */
export type Lanes = readonly (bigint | number)[];

export function promoted(type: CType): CType {
  return type.kind === "float" || type.bits > 8 ? type : INT;
}

/** The usual arithmetic conversions. */
export function common(left: CType, right: CType): CType {
  if (left.kind === "float") return left;
  if (right.kind === "float") return right;
  const [a, b] = [promoted(left), promoted(right)];
  if (a.bits !== b.bits) return a.bits > b.bits ? a : b;
  return a.signed ? b : a;
}

export function fits(value: bigint, type: CType): boolean {
  if (type.kind === "bool") return value === 0n || value === 1n;
  return value === wrapped(value, type);
}

function wrapped(value: bigint, type: CType): bigint {
  return type.signed ? BigInt.asIntN(type.bits, value) : BigInt.asUintN(type.bits, value);
}

/** A number as another type takes it; null where C leaves that undefined. */
export function converted(value: bigint | number, type: CType): bigint | number | null {
  if (type.kind === "float") return Math.fround(Number(value));
  if (type.kind === "bool") return typeof value === "bigint" ? (value === 0n ? 0n : 1n) : value === 0 ? 0n : 1n;
  if (typeof value === "bigint") return wrapped(value, type);
  if (!Number.isFinite(value)) return null;
  const cut = BigInt(Math.trunc(value));
  return fits(cut, type) ? cut : null;
}

export function convertedLanes(lanes: Lanes, type: CType): Lanes | null {
  return whole(lanes.map((lane) => converted(lane, type)));
}

function whole(lanes: readonly (bigint | number | null)[]): Lanes | null {
  return lanes.every((lane) => lane !== null) ? (lanes as Lanes) : null;
}

/** Beyond this a float is of no use to further operations. */
const FLOAT_MOST = 1e9;

/** Both sides are of `type` already (of a shift the left one is, promoted); null where the result is undefined. */
export function operated(operator: string, left: Lanes, right: Lanes, type: CType): Lanes | null {
  return whole(left.map((a, lane) => one(operator, a, right[lane]!, type)));
}

function one(operator: string, a: bigint | number, b: bigint | number, type: CType): bigint | number | null {
  if (typeof a === "number" || typeof b === "number") return real(operator, Number(a), Number(b));
  const result = exact(operator, a, b, type);
  if (result === null) return null;
  return type.signed ? (fits(result, type) ? result : null) : wrapped(result, type);
}

function exact(operator: string, a: bigint, b: bigint, type: CType): bigint | null {
  switch (operator) {
    case "+":
      return a + b;
    case "-":
      return a - b;
    case "*":
      return a * b;
    case "/":
      return b === 0n ? null : a / b;
    case "%":
      return b === 0n || !fits(a / b, type) ? null : a % b;
    case "&":
      return a & b;
    case "|":
      return a | b;
    case "^":
      return a ^ b;
    case "<<":
      return b < 0n || b >= BigInt(type.bits) || a < 0n ? null : a << b;
    case ">>":
      return b < 0n || b >= BigInt(type.bits) ? null : a >> b;
    default:
      return null;
  }
}

function real(operator: string, a: number, b: number): number | null {
  const result =
    operator === "+"
      ? a + b
      : operator === "-"
        ? a - b
        : operator === "*"
          ? a * b
          : operator === "/" && b !== 0
            ? a / b
            : null;
  if (result === null || !Number.isFinite(result)) return null;
  // Numbers too large to convert, and too small to be sure of, end nowhere useful.
  if (Math.abs(result) > FLOAT_MOST || (result !== 0 && Math.abs(result) < 1 / FLOAT_MOST)) return null;
  return Math.fround(result);
}

export function compared(operator: string, left: Lanes, right: Lanes): Lanes {
  return left.map((a, lane) => {
    const b = right[lane]!;
    const yes =
      operator === "<"
        ? a < b
        : operator === ">"
          ? a > b
          : operator === "<="
            ? a <= b
            : operator === ">="
              ? a >= b
              : operator === "=="
                ? a === b
                : a !== b;
    return yes ? 1n : 0n;
  });
}

export function isTrue(lane: bigint | number): boolean {
  return typeof lane === "bigint" ? lane !== 0n : lane !== 0;
}
