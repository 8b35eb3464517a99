/** The grammar of wants as one table: every text with what it means, or where reading stops and what was expected there. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { specifications } from "../../../shared-model/specifications.js";
import type { WantComment } from "../../../shared-model/wants/comment.js";
import { printWant } from "../../../shared-model/wants/print-want.js";
import { readComment } from "../../../shared-model/wants/read-comment.js";

const round = (value: number) => (Number.isFinite(value) ? Number(value.toPrecision(9)) : value);

/** A want's meaning as one short text: `f 1000 990..1010 | duty 0.2..1`. */
function meaning({ frequency, duty, reach, pulse, steps, idle, filter, specification }: WantComment): string {
  const pair = (range: { min: number; max: number }) => `${round(range.min)}..${round(range.max)}`;
  return [
    ...(specification === undefined ? [] : [specification]),
    ...(frequency === undefined ? [] : [`f ${round(frequency.hz)} ${pair(frequency)}`]),
    ...(duty === undefined ? [] : [`duty ${pair(duty)}`]),
    ...(reach === undefined ? [] : [`reach ${pair(reach)}`]),
    ...(pulse === undefined ? [] : [`pulse ${pair(pulse)}`]),
    ...(steps === undefined ? [] : [`${steps.steps} steps`]),
    ...(idle === undefined ? [] : [`idle ${idle.level}`]),
    ...(filter === undefined ? [] : [`${round(filter.ohms)} Ohm ${round(filter.farads)} F`]),
  ].join(" | ");
}

function wants(text: string): WantComment[] {
  return readComment(text).map((found) => {
    if (found.kind !== "want") throw new Error(`${text}: ${JSON.stringify(found)}`);
    return found;
  });
}

describe("what is read", () => {
  it.each([
    // Frequencies
    ["1 kHz", "f 1000 990..1010"],
    ["1kHz", "f 1000 990..1010"],
    ["1 KHZ", "f 1000 990..1010"],
    ["1 khz", "f 1000 990..1010"],
    ["1000 hz", "f 1000 990..1010"],
    ["1 MHz", "f 1000000 990000..1010000"],
    ["1 Mhz", "f 1000000 990000..1010000"],
    ["62.5 kHz", "f 62500 61875..63125"],
    ["1e3 Hz", "f 1000 990..1010"],
    ["1.5e+3 Hz", "f 1500 1485..1515"],
    ["0.5 Hz", "f 0.5 0.495..0.505"],
    ["1 kHz +-2 %", "f 1000 980..1020"],
    ["1 kHz +- 2 %", "f 1000 980..1020"],
    ["1 kHz+-2%", "f 1000 980..1020"],
    ["1 kHz ±2 %", "f 1000 980..1020"],
    ["1 kHz +/-2 %", "f 1000 980..1020"],
    ["1 kHz ± 50 ppm", "f 1000 999.95..1000.05"],
    ["1 kHz ± 50 PPM", "f 1000 999.95..1000.05"],
    ["1 kHz +-20 Hz", "f 1000 980..1020"],
    ["1 kHz +-0.02 kHz", "f 1000 980..1020"],
    ["1 kHz +-200 %", "f 1000 0..3000"],
    ["25 kHz within 21..28 kHz", "f 25000 21000..28000"],
    ["25 kHz within 21 kHz..28000 Hz", "f 25000 21000..28000"],
    ["25 kHz within 21 .. 28 kHz", "f 25000 21000..28000"],
    ["25 kHz WITHIN 21..28 kHz", "f 25000 21000..28000"],
    ["within 980..1020 Hz", "f 1000 980..1020"],
    ["980..1020 Hz", "f 1000 980..1020"],
    ["980 Hz..1.02 kHz", "f 1000 980..1020"],
    ["20 kHz or more", "f 20000 20000..Infinity"],
    ["every 20 ms", "f 50 49.5..50.5"],
    ["every 20 ms +-1 %", "f 50 49.5049505..50.5050505"],
    ["every 20 ms ± 1 ms", "f 50 47.6190476..52.6315789"],
    ["every 18..22 ms", "f 50 45.4545455..55.5555556"],
    ["every 20000 us", "f 50 49.5..50.5"],
    ["every 20000 µs", "f 50 49.5..50.5"],
    ["every 20000 μs", "f 50 49.5..50.5"],
    ["every 20000 µs +-1000 μs", "f 50 47.6190476..52.6315789"],
    ["every 2 s", "f 0.5 0.495..0.505"],
    // Duty, reach, width, steps, idle
    ["duty 20..100 %", "duty 0.2..1"],
    ["duty 20%..100%", "duty 0.2..1"],
    ["duty 20 % .. 100 %", "duty 0.2..1"],
    ["duty 50 %", "duty 0.5..0.5"],
    ["duty 50 % +-1 %", "duty 0.49..0.51"],
    ["duty 99 % ± 2 %", "duty 0.97..1"],
    ["duty 0.4..99.6 %", "duty 0.004..0.996"],
    ["reach 10..96 %", "reach 0.1..0.96"],
    ["pulse 1000..2000 us", "pulse 0.001..0.002"],
    ["pulse 1..2 ms", "pulse 0.001..0.002"],
    ["pulse 500 us..2 ms", "pulse 0.0005..0.002"],
    ["pulse 1500 µs +-10 %", "pulse 0.00135..0.00165"],
    ["pulse 1500 us +-5 μs", "pulse 0.001495..0.001505"],
    ["pulse 1000..2000 us every 20 ms", "f 50 49.5..50.5 | pulse 0.001..0.002"],
    ["pulse 1000..2000 us, every 20 ms", "f 50 49.5..50.5 | pulse 0.001..0.002"],
    ["100 steps", "100 steps"],
    ["1 step", "1 steps"],
    ["1e2 steps", "100 steps"],
    ["idle low", "idle low"],
    ["idle HIGH", "idle high"],
    ["1 kHz, idle low", "f 1000 990..1010 | idle low"],
    ["idle high, 1 kHz, 10 steps, duty 5..95 %", "f 1000 990..1010 | duty 0.05..0.95 | 10 steps | idle high"],
    // Specifications
    ["fan-4wire", "fan-4wire | f 25000 21000..28000"],
    ["fan-4wire, 24 kHz", "fan-4wire | f 24000 23760..24240"],
    ["100 steps, fan-4wire, idle low", "fan-4wire | f 25000 21000..28000 | 100 steps | idle low"],
    ["analog-rc", "analog-rc | f 1000 1000..Infinity | 200 steps"],
    ["analog-rc with R = 10 kOhm, C = 10 uF", "analog-rc | f 1000 1000..Infinity | 200 steps | 10000 Ohm 0.00001 F"],
    [
      "analog-rc with C=100nF and R=4.7 kohm, 62.5 kHz",
      "analog-rc | f 62500 61875..63125 | 200 steps | 4700 Ohm 1e-7 F",
    ],
    ["analog-rc with R = 470 Ω, C = 1 µF", "analog-rc | f 1000 1000..Infinity | 200 steps | 470 Ohm 0.000001 F"],
    [
      "analog-rc with R = 1 M\u2126, and C = 220 pF",
      "analog-rc | f 1000 1000..Infinity | 200 steps | 1000000 Ohm 2.2e-10 F",
    ],
    ["analog-rc with R = 1 kOHM, C = 1 μF", "analog-rc | f 1000 1000..Infinity | 200 steps | 1000 Ohm 0.000001 F"],
    // Blanks and remarks
    ["1 kHz (the lamp)", "f 1000 990..1010"],
    ["1 kHz   ( one (two) )", "f 1000 990..1010"],
    ["\t1 kHz\t,\tduty 5..95 %\t", "f 1000 990..1010 | duty 0.05..0.95"],
  ])("%s", (text, expected) => {
    expect(wants(`// wants D9: ${text}`).map(meaning)).toEqual([expected]);
  });
});

describe("which pins are meant", () => {
  it.each([
    ["D9", ["D9"]],
    ["9", ["9"]],
    ["A0", ["A0"]],
    ["PB1", ["PB1"]],
    ["vent", ["vent"]],
    ["Pins::vent", ["Pins::vent"]],
    ["a::b::c", ["a::b::c"]],
    ["D9 and D10", ["D9", "D10"]],
    ["D9, D10", ["D9", "D10"]],
    ["D9,D10", ["D9", "D10"]],
    ["D9 , D10 and D11", ["D9", "D10", "D11"]],
    ["D9, D10, and D11", ["D9", "D10", "D11"]],
    ["D9 and D10 and D11", ["D9", "D10", "D11"]],
    ["vent and Pins::pump", ["vent", "Pins::pump"]],
    ["and and D9", ["and", "D9"]],
  ])("%s", (pins, expected) => {
    const text = `// wants ${pins}: 25 kHz (both)`;
    const found = wants(text);
    expect(found.map((want) => want.pin)).toEqual(expected);
    for (const want of found) {
      expect(want.together).toEqual(expected);
      expect(text.slice(want.pinAt.start, want.pinAt.end)).toBe(want.pin);
      expect([want.text, want.remark, meaning(want)]).toEqual(["25 kHz", "both", "f 25000 24750..25250"]);
      expect(want.at).toEqual(found[0]!.at);
    }
  });
});

describe("what stops the reader, and what it says", () => {
  it.each([
    // Pins
    ["D9 & D10: 25 kHz", "& D10: 25 kHz", "and, a comma or a colon"],
    ["D9/D10: 25 kHz", "/D10: 25 kHz", "and, a comma or a colon"],
    ["D9 + D10: 25 kHz", "+ D10: 25 kHz", "and, a comma or a colon"],
    ["D9 D10: 25 kHz", "D10: 25 kHz", "and or a comma between pins, or a colon"],
    ["D9 or D10: 25 kHz", "or D10: 25 kHz", "and or a comma between pins, or a colon"],
    ["D9 and D9: 25 kHz", "D9: 25 kHz", "another pin: this one stands there already"],
    ["D9, 9: 25 kHz", "9: 25 kHz", "another pin: this one stands there already"],
    // Items
    ["D9:", "", "a frequency such as 1 kHz"],
    ["D9: ,", ",", "a frequency such as 1 kHz"],
    ["D9: 1 kHz,", "", "a frequency such as 1 kHz"],
    ["D9: 1 kHz, , 2 steps", ", 2 steps", "a frequency such as 1 kHz"],
    ["D9: 1 kHz; 2 steps", "; 2 steps", "a comma or the end"],
    ["D9: 1 kHz 20 steps", "20 steps", "a comma or the end"],
    ["D9: 1 kHz and duty 5..10 %", "and duty 5..10 %", "a comma or the end"],
    ["D9: 1 kHz, 2 kHz", "2 kHz", "one frequency, not two"],
    ["D9: 1 kHz every 20 ms", "every 20 ms", "one frequency, not two"],
    ["D9: duty 5..10 %, duty 5 %", "duty 5 %", "one duty, not two"],
    ["D9: idle low, idle high", "idle high", "one idle, not two"],
    ["D9: fan-4wire, hobby-servo", "hobby-servo", "one named specification, not two"],
    // Numbers and units
    ["D9: 25000", "", "a unit such as Hz, kHz or MHz"],
    ["D9: 25 k", "k", "a unit such as Hz, kHz or MHz"],
    ["D9: 25 kHertz", "kHertz", "a unit such as Hz, kHz or MHz"],
    ["D9: 24,96 kHz", ",96 kHz", "a decimal point, not a comma"],
    ["D9: 1 mHz", "mHz", "MHz with a capital M"],
    ["D9: 0 Hz", "0 Hz", "a frequency above 0"],
    ["D9: -1 kHz", "-1 kHz", "a frequency such as 1 kHz"],
    ["D9: .5 kHz", ".5 kHz", "a frequency such as 1 kHz"],
    ["D9: 1...2 kHz", ".2 kHz", "the upper end of the range"],
    ["D9: 1..kHz", "kHz", "the upper end of the range"],
    ["D9: 9999999999999999 Hz", "9999999999999999 Hz", "a smaller number"],
    ["D9: 1e99 Hz", "1e99 Hz", "a smaller number"],
    ["D9: 28..21 kHz", "28..21 kHz", "the smaller value first"],
    ["D9: 1 kHz within 2..3 kHz", "2..3 kHz", "a range that holds the wanted frequency"],
    ["D9: 1 kHz within 1 kHz", "1 kHz", "a range such as 21..28 kHz"],
    ["D9: 1 kHz within", "", "a range such as 21..28 kHz"],
    ["D9: 20 kHz or", "", "more"],
    ["D9: 20 kHz or less", "less", "more"],
    ["D9: 1 kHz +-", "", "a tolerance such as 2 %"],
    ["D9: 1 kHz +-2", "", "a tolerance's unit: %, ppm or Hz, kHz or MHz"],
    ["D9: 1 kHz +-2 ms", "ms", "a tolerance's unit: %, ppm or Hz, kHz or MHz"],
    ["D9: every 20", "", "a unit such as us, ms or s"],
    ["D9: every 20 Ms", "Ms", "a unit such as us, ms or s"],
    ["D9: every 20 kHz", "kHz", "a unit such as us, ms or s"],
    ["D9: every 0 ms", "0 ms", "a period above 0"],
    ["D9: every 20 ms +-30 ms", "20 ms +-30 ms", "a tolerance smaller than the period"],
    ["D9: duty", "", "a range such as 20..100 %"],
    ["D9: duty 20..100", "", "%"],
    ["D9: duty 0.2..1", "", "%"],
    ["D9: duty 20..120 %", "20..120 %", "at most 100 %"],
    ["D9: duty 50 % +-100 ppm", "ppm", "a tolerance's unit: %"],
    ["D9: reach 96..10 %", "96..10 %", "the smaller value first"],
    ["D9: pulse 1000..2000", "", "a unit such as us, ms or s"],
    ["D9: pulse 1..2 kHz", "kHz", "a unit such as us, ms or s"],
    ["D9: pulse 1..2 ms 20 ms", "20 ms", "a comma or the end"],
    ["D9: 0 steps", "0 steps", "a whole number of steps"],
    ["D9: 2.5 steps", "2.5 steps", "a whole number of steps"],
    ["D9: idle", "", "low or high"],
    ["D9: idle off", "off", "low or high"],
    // Names
    ["D9: fan-4wires", "fan-4wires", "did you mean fan-4wire?"],
    ["D9: Fan-4wire", "Fan-4wire", "did you mean fan-4wire?"],
    ["D9: servo", "servo", "did you mean hobby-servo?"],
    ["D9: duti 5..10 %", "duti 5..10 %", "did you mean duty?"],
    ["D9: idel low", "idel low", "a frequency such as 1 kHz"],
    ["D9: frequency 1 kHz", "frequency 1 kHz", "a frequency such as 1 kHz"],
    // The filter
    ["D9: analog-rc with", "", "the filter's parts, such as R = 10 kOhm, C = 10 uF"],
    ["D9: analog-rc with R", "", "= and a value such as 10 kOhm"],
    ["D9: analog-rc with R =", "", "a resistance such as 10 kOhm"],
    ["D9: analog-rc with R = 10", "", "a unit such as Ohm, kOhm or MOhm"],
    ["D9: analog-rc with R = 10k, C = 1 uF", "k, C = 1 uF", "a unit such as Ohm, kOhm or MOhm"],
    ["D9: analog-rc with R = 10 mOhm, C = 1 uF", "mOhm, C = 1 uF", "MOhm with a capital M"],
    ["D9: analog-rc with R = 10 uF, C = 1 uF", "uF, C = 1 uF", "a unit such as Ohm, kOhm or MOhm"],
    ["D9: analog-rc with R = 0 Ohm, C = 1 uF", "0 Ohm, C = 1 uF", "a resistance such as 10 kOhm"],
    ["D9: analog-rc with R = 10 kOhm", "", "and C = a capacitance such as 10 uF"],
    ["D9: analog-rc with C = 10 uF", "", "and R = a resistance such as 10 kOhm"],
    ["D9: analog-rc with R = 1 kOhm, R = 1 kOhm", "R = 1 kOhm", "the filter's parts, such as C = 10 uF"],
    ["D9: analog-rc with R = 10 kOhm, C = 10 F", "F", "a unit such as nF or uF"],
    ["D9: analog-rc with R = 4,7 kOhm, C = 10 uF", ",7 kOhm, C = 10 uF", "a decimal point, not a comma"],
    ["D9: fan-4wire with R = 1 kOhm", "with R = 1 kOhm", "fan-4wire takes no R and C"],
  ])("%s", (text, stopped, expected) => {
    const comment = `// wants ${text}`;
    const found = readComment(comment);
    expect(found).toHaveLength(1);
    const [unread] = found;
    if (unread?.kind !== "unread") throw new Error(JSON.stringify(unread));
    expect(comment.slice(unread.column)).toBe(stopped);
    expect(unread.expected).toContain(expected);
  });
});

describe("what is nobody's but the reader's", () => {
  it.each([
    "wants more: light and air",
    "wants bread and butter: 2 slices a day",
    "wants water, light and care: every 2 days",
    "wants food and water: twice",
    "wants std::vector: never a list",
    "wants D9 to run: 25 kHz",
    "wants D9",
    "wants D9 and D10",
    "wants D9::x 1 kHz",
  ])("%s", (text) => {
    expect(readComment(`// ${text}`)).toEqual([]);
  });
});

describe("printed and read again", () => {
  const number = (min: number, max: number) =>
    fc.oneof(
      fc.integer({ min: Math.ceil(min), max: Math.floor(max) }),
      fc.double({ min, max, noNaN: true }).map((value) => Number(value.toFixed(3))),
    );
  const pair = (each: fc.Arbitrary<number>, unit: string) =>
    fc.tuple(each, each).map(([a, b]) => `${Math.min(a, b)}..${Math.max(a, b)} ${unit}`);
  const frequency = fc.oneof(
    number(1, 1e6).map((hz) => `${hz} Hz`),
    fc.tuple(number(1, 900), number(0, 20)).map(([khz, off]) => `${khz} kHz +-${off} %`),
    fc.tuple(number(1, 900), number(0, 500)).map(([hz, off]) => `${hz} Hz ± ${off} ppm`),
    pair(number(1, 1e6), "Hz"),
    pair(number(1, 1e3), "ms").map((range) => `every ${range}`),
    number(1, 1e4).map((us) => `every ${us} µs`),
    number(1, 1e4).map((hz) => `${hz} Hz or more`),
  );
  const items = [
    frequency,
    pair(number(0, 100), "%").map((range) => `duty ${range}`),
    pair(number(0, 100), "%").map((range) => `reach ${range}`),
    pair(number(0, 5000), "us").map((range) => `pulse ${range}`),
    fc.integer({ min: 1, max: 65536 }).map((steps) => `${steps} steps`),
    fc.constantFrom("idle low", "idle high"),
    fc.oneof(
      fc.constantFrom(...specifications.map(({ id }) => id)),
      fc
        .tuple(number(1, 1e6), number(1, 1e6), fc.constantFrom("pF", "nF", "uF", "µF"))
        .map(([ohms, farads, unit]) => `analog-rc with R = ${ohms} Ohm, C = ${farads} ${unit}`),
    ),
  ];
  const text = fc
    .subarray(items, { minLength: 1 })
    .chain((chosen) => fc.tuple(...chosen))
    .map((parts) => parts.join(", "));
  const pins = fc.subarray(["D9", "10", "A0", "PB3", "vent", "Pins::fan"], { minLength: 1 });
  /** Everything but where it stands and how it is spelled; numbers to eleven digits. */
  const shape = (value: unknown): unknown => {
    if (typeof value === "number") return Number(value.toPrecision(11));
    if (typeof value !== "object" || value === null) return value;
    if (Array.isArray(value)) return value.map(shape);
    const entries = Object.entries(value).filter(([key]) => key !== "at" && key !== "pinAt" && key !== "text");
    return Object.fromEntries(entries.map(([key, part]) => [key, shape(part)]));
  };

  it("says the same", () => {
    fc.assert(
      fc.property(pins, text, fc.boolean(), (names, said, remark) => {
        const written = `// wants ${names.join(", ")}: ${said}${remark ? " (a remark)" : ""}`;
        const first = wants(written);
        const printed = `// ${printWant(first[0]!)}`;
        const second = wants(printed);
        expect(second.map(shape), printed).toEqual(first.map(shape));
        // A second printing changes nothing any more.
        expect(`// ${printWant(second[0]!)}`).toBe(printed);
      }),
      { numRuns: 1500 },
    );
  });
});
