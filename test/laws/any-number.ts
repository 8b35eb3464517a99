/** Random abstract integers together with a value that is one of them, crowded around the edges of C's types. */

import fc from "fast-check";
import type { AnyIntegerType } from "../../server/execute/domain/integer-type.js";
import {
  type AbstractInteger,
  constant,
  fromBits,
  fromValues,
  join,
  meet,
  range,
} from "../../server/execute/domain/number.js";
import { greatestOf, leastOf, wrapBig } from "./concrete.js";

/** `member` is one of the concrete integers that `value` stands for. */
export interface Sample {
  readonly value: AbstractInteger;
  readonly member: bigint;
}

const SAFE = BigInt(Number.MAX_SAFE_INTEGER);
const EDGES = [0n, 1n, 2n, 3n, 0x7fn, 0x80n, 0xffn, 0x100n, 0x7fffn, 0xffffn, 0x7fffffffn, 0xffffffffn, SAFE];

/** A concrete integer of the type. */
export function anyMember(type: AnyIntegerType): fc.Arbitrary<bigint> {
  const edge = fc
    .tuple(fc.constantFrom(...EDGES), fc.constantFrom(1n, -1n), fc.constantFrom(-1n, 0n, 1n))
    .map(([at, sign, by]) => wrapBig(at * sign + by, type));
  const near = fc.integer({ min: -300, max: 300 }).map((value) => wrapBig(BigInt(value), type));
  const anywhere = fc.bigInt({ min: leastOf(type), max: greatestOf(type) });
  return fc.oneof(edge, near, anywhere);
}

/** The nearest double that is on the given side; the abstract domain is told bounds in doubles. */
function toBound(value: bigint, type: AnyIntegerType): number {
  const inside = value < leastOf(type) ? leastOf(type) : value > greatestOf(type) ? greatestOf(type) : value;
  return Number(inside);
}

function holding(member: bigint, type: AnyIntegerType): fc.Arbitrary<AbstractInteger> {
  const mask = Number(BigInt.asUintN(32, greatestOf({ bits: type.bits, signed: false })));
  const word = Number(BigInt.asUintN(32, member)) & mask;
  const exact = member >= -SAFE && member <= SAFE;
  const reach = fc.oneof(fc.bigInt({ min: 0n, max: 40n }), fc.bigInt({ min: 0n, max: 1n << BigInt(type.bits) }));
  const bounds = fc
    .tuple(reach, reach)
    .map(([below, above]) => range(toBound(member - below, type), toBound(member + above, type), type));
  const known = fc.tuple(fc.nat(0xffffffff), fc.nat(0xffffffff), fc.boolean()).map(([a, b, dense]) => {
    const told = (dense ? a | b : a & b) & mask;
    return fromBits((~word & told) >>> 0, (word & told) >>> 0, type);
  });
  const both = fc.tuple(bounds, known).map(([a, b]) => meet(a, b, type)!);
  if (!exact) return fc.oneof(fc.constant(constant(Number(member), type)), known);
  const single = fc.constant(constant(Number(member), type));
  const set = fc
    .array(anyMember(type), { maxLength: 34 })
    .map((list) => fromValues([member, ...list.filter((each) => each >= -SAFE && each <= SAFE)].map(Number), type));
  const strided = fc.tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 9 })).map(([count, stride]) =>
    fromValues(
      Array.from({ length: count }, (_, at) => Number(member) + at * stride),
      type,
    ),
  );
  return fc.oneof(single, set, strided, bounds, known, both);
}

export function anySample(type: AnyIntegerType): fc.Arbitrary<Sample> {
  return anyMember(type).chain((member) => {
    const one = holding(member, type);
    return fc
      .oneof(
        { weight: 4, arbitrary: one },
        {
          weight: 1,
          arbitrary: fc.tuple(one, anyMember(type)).map(([a, other]) => join(a, constant(Number(other), type))),
        },
      )
      .map((value) => ({ value, member }));
  });
}

export function anyNumber(type: AnyIntegerType): fc.Arbitrary<AbstractInteger> {
  return anySample(type).map((sample) => sample.value);
}

/** Does the abstract value hold this concrete integer? Written out anew, so as not to trust the domain's own `contains`. */
export function holds(a: AbstractInteger, member: bigint, type: AnyIntegerType): boolean {
  if (a.values !== null) return a.values.some((value) => BigInt(value) === member);
  const word = BigInt.asUintN(Math.min(32, type.bits), member);
  // The greatest 64-bit integer is written as the double above it.
  if (member < BigInt(a.min) || member > BigInt(a.max)) return false;
  return (word & BigInt(a.zeros)) === 0n && (~word & BigInt(a.ones)) === 0n;
}
