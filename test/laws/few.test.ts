/** The laws of small sets. */

import fc from "fast-check";
import { describe } from "vitest";
import type { Domain } from "../../server/execute/domain/domain.js";
import * as few from "../../server/execute/domain/few.js";
import { type AnyIntegerType, highest, lowest } from "../../server/execute/domain/integer-type.js";
import { everyValue } from "./concrete.js";
import { BOTH_SIGNS, checkEnds, checkEverywhere, checkSampled } from "./kit.js";

/** Bottom is lifted outside: `common` says undefined for it, the kit wants null, and null is top here. So top is boxed. */
interface Boxed {
  readonly set: few.Few;
}

const domain: Domain<Boxed> = {
  top: (type) => ({ set: few.top(type) }),
  leq: (a, b) => few.leq(a.set, b.set),
  equal: (a, b) => few.equal(a.set, b.set),
  join: (a, b) => ({ set: few.join(a.set, b.set) }),
  meet: (a, b) => {
    if (a.set === null) return b;
    if (b.set === null) return a;
    const set = few.common(a.set, b.set);
    return set === undefined ? null : { set };
  },
  widen: (before, after, round, type) => ({ set: few.widen(before.set, after.set, round, type) }),
  show: (a, type) => few.show(a.set, type),
  whyNotLeq: (a, b) => few.whyNotLeq(a.set, b.set),
};

function everySet(type: AnyIntegerType): Boxed[] {
  const values = everyValue(type);
  const sets: Boxed[] = [{ set: null }];
  for (let chosen = 1; chosen < 2 ** values.length; chosen += 5)
    sets.push({ set: values.filter((_, at) => (chosen >> at) & 1) });
  return sets;
}

function anySet(type: AnyIntegerType): fc.Arbitrary<Boxed> {
  const value = fc.oneof(fc.integer({ min: 0, max: 20 }), fc.integer({ min: lowest(type), max: highest(type) }));
  const set = fc
    .uniqueArray(value, { minLength: 1, maxLength: few.FEW })
    .map((list) => ({ set: list.sort((a, b) => a - b) }));
  return fc.oneof({ weight: 9, arbitrary: set }, fc.constant({ set: null }));
}

describe.each(BOTH_SIGNS)("small sets, signed: %s", (signed) => {
  checkEverywhere(domain, { bits: 3, signed }, everySet({ bits: 3, signed }));
  for (const width of [8, 16, 32]) {
    checkSampled(domain, { bits: width, signed }, anySet({ bits: width, signed }));
    checkEnds(domain, { bits: width, signed }, anySet({ bits: width, signed }), few.GROWING_ROUNDS + 1);
  }
});
