/** Bounds on times keep every real course: random courses of waits and edges, followed by hand beside the zone. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  between,
  joined,
  marked,
  NOTHING_YET,
  passed,
  sameZone,
  widened,
  type Zone,
} from "../../../server/execute/pulses/zone.js";

/** A wait between two bounds with where in them it really ended, or an event. */
type Step = { readonly least: number; readonly more: number; readonly part: number } | { readonly event: 1 | 2 };

const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({ least: fc.nat(1000), more: fc.nat(500), part: fc.integer({ min: 0, max: 100 }) }),
  fc.record({ event: fc.constantFrom(1 as const, 2 as const) }),
);

function follow(steps: readonly Step[]): { zone: Zone; at: Map<number, number>; now: number } {
  let zone = NOTHING_YET;
  let now = 0;
  const at = new Map<number, number>();
  for (const each of steps) {
    if ("event" in each) {
      zone = marked(zone, each.event);
      at.set(each.event, now);
    } else {
      zone = passed(zone, each.least, each.least + each.more, 0);
      now += each.least + Math.floor((each.more * each.part) / 100);
    }
  }
  return { zone, at, now };
}

function holds(zone: Zone, at: ReadonlyMap<number, number>, now: number): boolean {
  return [...at].every(([event, when]) => {
    const age = between(zone, event, null);
    const pairs = [...at].every(([other, then]) => {
      const gap = between(zone, event, other);
      return gap.least <= then - when && then - when <= gap.most;
    });
    return age.least <= now - when && now - when <= age.most && pairs;
  });
}

describe("bounds on when events happened", () => {
  it("hold whatever the waits really were", () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 20 }), (steps) => {
        const { zone, at, now } = follow(steps);
        expect(holds(zone, at, now)).toBe(true);
      }),
    );
  });

  it("hold on either side of a join, and after widening", () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), fc.array(step, { maxLength: 12 }), (first, second) => {
        const [a, b] = [follow(first), follow(second)];
        if (a.zone.events.join() !== b.zone.events.join()) return;
        for (const zone of [joined(a.zone, b.zone), widened(a.zone, joined(a.zone, b.zone))]) {
          expect(holds(zone, a.at, a.now)).toBe(true);
          expect(holds(zone, b.at, b.now)).toBe(true);
        }
      }),
    );
  });

  it("are exact where the waits are", () => {
    const zone = passed(marked(passed(marked(NOTHING_YET, 1), 30, 30, 0), 2), 70, 70, 0);
    expect(between(zone, 1, 2)).toEqual({ least: 30, most: 30 });
    expect(between(zone, 1, null)).toEqual({ least: 100, most: 100 });
  });

  it("stop growing once widened", () => {
    const before = passed(marked(NOTHING_YET, 1), 10, 20, 0);
    const wide = widened(before, joined(before, passed(before, 1, 5, 0)));
    expect(between(wide, 1, null).most).toBe(Number.POSITIVE_INFINITY);
    expect(sameZone(widened(wide, joined(wide, passed(wide, 1, 5, 0))), wide)).toBe(true);
  });
});
