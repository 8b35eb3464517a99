/** Lists that share pages: a copy never sees what happens to the other, and differences name exactly the places that differ. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { Pages } from "../../server/execute/pages.js";

const LENGTH = 70;

it("keeps copies apart, however they are copied and changed", () => {
  const step = fc.record({ list: fc.nat(5), at: fc.nat(LENGTH - 1), value: fc.nat(9), copies: fc.boolean() });
  fc.assert(
    fc.property(fc.array(step, { maxLength: 60 }), (steps) => {
      const lists = [Pages.of<number>(new Array(LENGTH).fill(0))];
      const plain = [new Array<number>(LENGTH).fill(0)];
      for (const { list, at, value, copies } of steps) {
        const chosen = list % lists.length;
        if (copies) {
          lists.push(lists[chosen]!.copy());
          plain.push([...plain[chosen]!]);
        } else {
          lists[chosen]!.set(at, value);
          plain[chosen]![at] = value;
        }
      }
      for (const [index, list] of lists.entries()) {
        expect(Array.from({ length: LENGTH }, (_, at) => list.get(at))).toEqual(plain[index]);
      }
      const found: number[] = [];
      lists[0]!.differences(lists.at(-1)!, (at) => found.push(at) > 0);
      const expected = plain[0]!.flatMap((value, at) => (value === plain.at(-1)![at] ? [] : [at]));
      expect(found).toEqual(expected);
    }),
    { numRuns: 300 },
  );
});

it("may be changed where a difference is told", () => {
  const one = Pages.of<number>(new Array(LENGTH).fill(0));
  const other = one.copy();
  for (const at of [0, 17, 18, 69]) other.set(at, at + 1);
  one.differences(other, (at, _, others) => {
    one.set(at, others!);
    return true;
  });
  expect([0, 17, 18, 69].map((at) => one.get(at))).toEqual([1, 18, 19, 70]);
  expect(one.differences(other, () => false)).toBe(true);
});
