/** What a direct-voltage meter shows, and the supplies behind it against the packaged core's words. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { boards } from "../../shared-model/boards/boards.js";
import { fraction } from "../../shared-model/fraction.js";
import { meterVolts, showVolts } from "../../shared-model/meter-voltage.js";
import { resolveTarget } from "../../shared-model/target.js";

const pulse = (low: [number, number], high: [number, number]) =>
  ({ kind: "pulse", level: null, duty: { min: fraction(...low), max: fraction(...high) } }) as const;

it("is duty × supply", () => {
  expect(meterVolts(pulse([1, 2], [1, 2]), 5)).toEqual({ min: 2.5, max: 2.5 });
  expect(meterVolts(pulse([1, 4], [3, 4]), 3.3)).toEqual({ min: 0.825, max: expect.closeTo(2.475, 9) });
  expect(meterVolts({ kind: "level", level: "high", duty: null }, 5)).toEqual({ min: 5, max: 5 });
  expect(meterVolts({ kind: "level", level: "low", duty: null }, 5)).toEqual({ min: 0, max: 0 });
});

it("is not known where the duty or the level is not", () => {
  expect(meterVolts({ kind: "pulse", level: null, duty: null }, 5)).toBeNull();
  expect(meterVolts({ kind: "level", level: null, duty: null }, 5)).toBeNull();
  expect(meterVolts({ kind: "not driven", level: null, duty: null }, 5)).toBeNull();
  expect(meterVolts({ kind: "unknown", level: null, duty: null }, 5)).toBeNull();
});

it.each([
  [2.5, 2.5, "2.5 V"],
  [0, 5, "0..5 V"],
  [0.0196, 0.0196, "19.6 mV"],
  [0.0196, 4.98039, "0.0196..4.98 V"],
  [0, 0, "0 V"],
  [1.17647, 1.17647, "1.18 V"],
])("%f to %f V is shown as %s", (min, max, shown) => {
  expect(showVolts({ min, max })).toBe(shown);
});

interface Facts {
  boards: { board: string; options: { option: string | null; title: string | null }[] }[];
}
const facts = JSON.parse(readFileSync(join(__dirname, "facts", "boards.json"), "utf8")) as Facts;

it("takes the supply that boards.txt names, and 5 V where it names none", () => {
  for (const { board, options } of facts.boards) {
    for (const { option, title } of options) {
      const variant = boards.find(({ id }) => id === board)!.variants.find((each) => each.option === option)!;
      const named = /\(([\d.]+)V,/.exec(title ?? "")?.[1];
      expect(variant.supply.volts, `${board} ${option}`).toBe(named === undefined ? 5 : Number(named));
      expect(variant.supply.source).toContain(named === undefined ? "common practice, no source" : `(${named}V`);
    }
  }
});

it("is part of the target; a bare chip has none", () => {
  const supplyOf = (board: string) => {
    const answer = resolveTarget({ settings: { board } });
    if ("problem" in answer) throw new Error(answer.problem);
    return answer.target.supply?.volts ?? null;
  };
  expect([supplyOf("nano"), supplyOf("pro:cpu=8MHzatmega328"), supplyOf("atmega328p")]).toEqual([5, 3.3, null]);
});
