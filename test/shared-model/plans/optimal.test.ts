/**
 * The proof that nothing better was missed: the planner's whole front against every setting of the hardware, walked one by one
 * (`brute-force.ts`). The same vectors of verdict, error, steps and costs, no more and no fewer.
 * `PULSEWRIGHT_PLANS=400` draws more random wants (8-bit and 16-bit timers on all boards).
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boards } from "../../../shared-model/boards/boards.js";
import { chipIds } from "../../../shared-model/chips/chips.js";
import { type PlanRequest, plansFor } from "../../../shared-model/plans/planner.js";
import { requestFor, wanted } from "./asked.js";
import { bruteFront, keyOf, type Vector, vectorsOf } from "./brute-force.js";

const DRAWS = Number(process.env["PULSEWRIGHT_PLANS"] ?? 8);

function expectSameFront(request: PlanRequest): void {
  const answer = plansFor(request);
  const brute = bruteFront(request);
  const planned = vectorsOf(request, answer.front);
  expect(difference(planned, brute), "on the planner's front, not on the walked one").toEqual([]);
  expect(difference(brute, planned), "walked, and missing on the planner's front").toEqual([]);
  expect(answer.plans.length > 0).toBe(brute.length > 0);
  if (brute.length === 0) return;
  // What is shown holds the least error and the most steps of the best verdict.
  const best = Math.max(...brute.map(({ grade }) => grade));
  const shown = answer.plans.filter((plan) => (plan.verdict === "yes" ? 2 : 1) === best);
  const ofBest = brute.filter(({ grade }) => grade === best);
  const unhurt = ofBest.some(({ costs }) => !costs.includes("true"));
  expect(shown[0]!.costs.some((cost) => cost.hurts)).toBe(!unhurt);
  expect(Math.max(...shown.map((plan) => Math.min(...plan.outputs.map((output) => output.steps))))).toBe(
    Math.max(...ofBest.map(({ steps }) => steps)),
  );
}

function difference(these: readonly Vector[], those: readonly Vector[]): string[] {
  const there = new Set(those.map(keyOf));
  return these.filter((vector) => !there.has(keyOf(vector))).map((vector) => `${keyOf(vector)} (${vector.where})`);
}

/** Pins of each make of timer and each kind of unit: 8-bit timers A and B, synchronous and not, 16-bit A, B and C. */
const EIGHT_BIT = [
  ["nano", 3],
  ["nano", 11],
  ["nano", 5],
  ["nano", 6],
  ["mega", 9],
  ["mega", 10],
  ["mega", 4],
] as const;
const SIXTEEN_BIT = [
  ["nano", 9],
  ["nano", 10],
  ["mega", 5],
  ["mega", 8],
  ["mega", 44],
  ["mega", 13],
] as const;

describe("chosen wants", () => {
  it.each([
    "1 kHz within 980..1020 Hz",
    "1 kHz +-2 %, reach 10..96 %, duty 5..100 %",
    "within 100..1000 Hz",
    "100 steps",
    "within 3.9..4 kHz, duty 20..80 %",
    "2 kHz +-3 %, duty 50 %",
    "within 1..1.1 kHz, reach 0..100 %",
    "pulse 100..200 us every 2 ms +-10 %",
    "38 kHz, duty 33..50 %",
    "ir-40khz",
    "25 kHz, idle low",
    "4 MHz within 2..8 MHz",
    "led-no-flicker",
    "charging-pilot",
  ])("8 bits: %s", (text) => {
    for (const [board, pin] of EIGHT_BIT.slice(0, 4)) expectSameFront(requestFor(board, { [pin]: text }));
  });

  it("8 bits, duty at any frequency", () => expectSameFront(requestFor("nano", { 6: "reach 0..100 %" })));

  it.each([
    "25 kHz",
    "50 Hz within 49.5..50.3 Hz",
    "1 Hz +-0.1 %, 40000 steps",
    "62.5 kHz",
    "20 kHz, 700 steps",
    "fan-4wire",
  ])("16 bits: %s", (text) => {
    for (const [board, pin] of SIXTEEN_BIT) expectSameFront(requestFor(board, { [pin]: text }));
  });

  it("widths and duties on 16 bits, where the walk is short", () => {
    for (const text of [
      "40 kHz, duty 10..90 %",
      "40 kHz, pulse 5..9 us",
      "100 kHz, duty 50 %",
      "50 kHz, reach 1..100 %",
    ])
      expectSameFront(requestFor("nano", { 9: text }));
  });
});

describe("all boards and chips", () => {
  const ids = [
    ...boards.flatMap((board) =>
      board.variants.map((variant) => (variant.option === null ? board.id : `${board.id}:cpu=${variant.option}`)),
    ),
    ...chipIds,
  ];
  it.each(ids)("%s", (id) => {
    const { target } = requestFor(id, { 3: "1 kHz" });
    const driven = target.pins.filter(({ port }) =>
      target.chip.timers.some((timer) => timer.channels.some((channel) => channel.port === port)),
    );
    for (const { number } of driven) expectSameFront(requestFor(id, { [number]: "3 kHz +-0.3 %" }));
  });
});

describe("random wants", () => {
  const percent = fc.integer({ min: 0, max: 100 });
  const frequency = fc.tuple(
    fc.double({ min: Math.log(0.5), max: Math.log(6e6), noNaN: true }),
    fc.constantFrom("", " +-0.1 %", " +-3 %", " +-20 %"),
  );
  const eight = fc.record({
    at: fc.constantFrom<readonly [string, number]>(...EIGHT_BIT),
    frequency: fc.option(frequency, { freq: 12 }),
    duty: fc.option(fc.tuple(percent, percent), { freq: 2 }),
    reach: fc.option(fc.tuple(percent, percent), { freq: 1 }),
    steps: fc.option(fc.integer({ min: 1, max: 256 }), { freq: 1 }),
    clockHz: fc.constantFrom(16_000_000, 8_000_000, 20_000_000, 7_372_800),
  });

  it("8 bits", () => {
    fc.assert(
      fc.property(eight, ({ at: [board, pin], frequency: hz, duty, reach, steps, clockHz }) => {
        const text = [
          ...(hz === null ? [] : [`${Number(Math.exp(hz[0]).toPrecision(4))} Hz${hz[1]}`]),
          ...(duty === null ? [] : [`duty ${Math.min(...duty)}..${Math.max(...duty)} %`]),
          ...(reach === null ? [] : [`reach ${Math.min(...reach)}..${Math.max(...reach)} %`]),
          ...(steps === null ? [] : [`${steps} steps`]),
        ].join(", ");
        if (text !== "") expectSameFront(requestFor(board, { [pin]: wanted(text) }, { clockHz }));
      }),
      { numRuns: DRAWS, seed: 5 },
    );
  });

  it("16 bits", () => {
    fc.assert(
      fc.property(
        fc.constantFrom<readonly [string, number]>(...SIXTEEN_BIT),
        frequency,
        fc.option(fc.integer({ min: 1, max: 3000 })),
        ([board, pin], hz, steps) => {
          const text = `${Number(Math.exp(hz[0]).toPrecision(4))} Hz${hz[1] === " +-20 %" || hz[1] === " +-3 %" ? " +-0.7 %" : hz[1]}${steps === null ? "" : `, ${steps} steps`}`;
          expectSameFront(requestFor(board, { [pin]: wanted(text) }));
        },
      ),
      { numRuns: DRAWS, seed: 7 },
    );
  });
});
