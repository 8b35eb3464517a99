/** The grammar of design section 5: what is read, what it means, and what is said where it cannot be read. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { specifications } from "../../../shared-model/specifications.js";
import type { Comment, ReadingComment, SettingsComment, WantComment } from "../../../shared-model/wants/comment.js";
import { readComment } from "../../../shared-model/wants/read-comment.js";

function only(text: string): Comment {
  const found = readComment(text);
  expect(found).toHaveLength(1);
  return found[0]!;
}
function want(text: string): WantComment {
  const found = only(text);
  if (found.kind !== "want") {
    throw new Error(`${text}: ${JSON.stringify(found)}`);
  }
  return found;
}
function reading(text: string): ReadingComment {
  const found = only(text);
  if (found.kind !== "reading") {
    throw new Error(`${text}: ${JSON.stringify(found)}`);
  }
  return found;
}
function settings(text: string): SettingsComment {
  const found = only(text);
  if (found.kind !== "settings") {
    throw new Error(`${text}: ${JSON.stringify(found)}`);
  }
  return found;
}
/** The stretch of text at which reading stopped, and what was expected. */
function unread(text: string): [string, string] {
  const found = only(text);
  if (found.kind !== "unread") {
    throw new Error(`${text}: ${JSON.stringify(found)}`);
  }
  return [text.slice(found.column), found.expected];
}
const range = (value: { min: number; max: number } | undefined) =>
  value === undefined ? undefined : [Number(value.min.toPrecision(9)), Number(value.max.toPrecision(9))];

describe("the design's own examples", () => {
  it("reads frequency with bounds, duty and steps", () => {
    const found = want("// wants D9: 25 kHz within 21..28 kHz, duty 20..100 %, 100 steps");
    expect(found.pin).toBe("D9");
    expect(found.frequency?.hz).toBe(25000);
    expect(range(found.frequency)).toEqual([21000, 28000]);
    expect(range(found.duty)).toEqual([0.2, 1]);
    expect(found.steps?.steps).toBe(100);
    expect(found.text).toBe("25 kHz within 21..28 kHz, duty 20..100 %, 100 steps");
  });

  it("reads a tolerance, reach and duty", () => {
    const found = want("// wants D3: 1 kHz +-2 %, reach 10..96 %, duty 5..100 %");
    expect(range(found.frequency)).toEqual([980, 1020]);
    expect([range(found.reach), range(found.duty)]).toEqual([
      [0.1, 0.96],
      [0.05, 1],
    ]);
  });

  it("reads widths and a period", () => {
    const found = want(
      "// wants vent: pulse 1000..2000 us every 20 ms      (a constant of the sketch that holds a pin)",
    );
    expect(found.pin).toBe("vent");
    expect(range(found.pulse)).toEqual([0.001, 0.002]);
    expect(range(found.frequency)).toEqual([49.5, 50.5]);
    expect(found.remark).toBe("a constant of the sketch that holds a pin");
    expect(found.text).toBe("pulse 1000..2000 us every 20 ms");
  });

  it("reads a named specification and merges its demands", () => {
    const found = want("// wants D5: fan-4wire                               (a named specification)");
    expect(found.specification).toBe("fan-4wire");
    expect(range(found.frequency)).toEqual([21000, 28000]);
    expect(range(want("// wants D5: fan-4wire, 24 kHz, 100 steps").frequency)).toEqual([23760, 24240]);
  });

  it("reads a measurement, half its last digit as its uncertainty", () => {
    const found = reading("// bench reads D9: 24.96 kHz, duty 50 %");
    expect([found.frequency?.value, found.frequency?.uncertainty]).toEqual([24960, 5]);
    expect([found.duty?.value, found.duty?.uncertainty]).toEqual([0.5, 0.005]);
  });

  it("reads the registers of a measurement", () => {
    const found = reading(
      "// bench reads D3 with OCR2A = 0xFE: 985 Hz          (taken while a register held another value)",
    );
    expect(found.registers.map(({ name, value }) => [name, value])).toEqual([["OCR2A", 254]]);
    expect([found.frequency?.value, found.frequency?.uncertainty]).toEqual([985, 0.5]);
    expect(
      reading("// bench reads D3 with OCR2A=12, TCCR2B = 0b1011 and OCR2B = 0x0a: 1.04 kHz").registers,
    ).toHaveLength(3);
  });

  it("reads board and clock", () => {
    const found = settings("// for pulsewright: board nano, clock 16 MHz +-0.5 %");
    expect([found.board, found.clockHz, found.tolerance]).toEqual(["nano", 16_000_000, 0.005]);
  });

  it("reads an allowance with its reason to the end of the line", () => {
    const found = settings("// for pulsewright: allow bare-number because the values come from a table, (see there)");
    expect(found.allow?.map(({ id, because }) => [id, because])).toEqual([
      ["bare-number", "the values come from a table, (see there)"],
    ]);
  });
});

describe("notation", () => {
  it.each([
    ["// wants D3: 1 kHz", 990, 1010],
    ["// wants D3: 1 kHz ± 500 ppm", 999.5, 1000.5],
    ["// wants D3: 1 kHz +-20 Hz", 980, 1020],
    ["// wants D3: 1khz+-2%", 980, 1020],
    ["// wants D3: 1 KHZ +/-2 %", 980, 1020],
    ["// wants D3: 0.001 MHz", 990, 1010],
    ["// wants D3: 980..1020 Hz", 980, 1020],
    ["// wants D3: 900 Hz..1.1 kHz", 900, 1100],
    ["// wants D3: within 0.9..1.1 kHz", 900, 1100],
    ["// wants D3: 1e3 Hz", 990, 1010],
    ["// wants D3: every 1 ms", 990, 1010],
    ["// wants D3: every 800..1250 µs", 800, 1250],
    ["// wants D3: every 1000 μs +-10 us", 1 / 0.00101, 1 / 0.00099],
    ["// wants D3: every 1000 US +-1 %", 1 / 0.00101, 1 / 0.00099],
  ])("%s", (text, min, max) => {
    expect(range(want(text).frequency)).toEqual([Number(min.toPrecision(9)), Number(max.toPrecision(9))]);
  });

  it.each([
    ["duty 20..80 %", [0.2, 0.8]],
    ["duty 20%..80%", [0.2, 0.8]],
    ["duty 50 %", [0.5, 0.5]],
    ["duty 50 % +-1 %", [0.49, 0.51]],
    ["duty 33.3..50 %", [0.333, 0.5]],
  ])("%s", (text, expected) => {
    expect(range(want(`// wants 5: ${text}`).duty)).toEqual(expected);
  });

  it("takes pins as boards, ports and constants write them", () => {
    for (const pin of ["D3", "3", "A0", "PD3", "vent", "FAN_PIN"]) {
      expect(want(`// wants ${pin}: 1 kHz`).pin).toBe(pin);
    }
  });

  it("says where things stand", () => {
    const text = "  // wants D3: 1 kHz +-2 %, duty 5..95 %, 10 steps (hand made)  ";
    const found = want(text.trim());
    const cut = (at: { start: number; end: number } | undefined) => text.trim().slice(at?.start, at?.end);
    expect([cut(found.pinAt), cut(found.frequency?.at), cut(found.duty?.at), cut(found.steps?.at)]).toEqual([
      "D3",
      "1 kHz +-2 %",
      "duty 5..95 %",
      "10 steps",
    ]);
    expect(cut(found.at)).toBe("wants D3: 1 kHz +-2 %, duty 5..95 %, 10 steps (hand made)");
  });

  it("reads settings in any order, with F_CPU and a cpu option", () => {
    const found = settings(
      "/// for pulsewright: built for 8 MHz, clock 16000 kHz ± 100 ppm, board pro:cpu=8MHzatmega328 (old one)",
    );
    expect([found.board, found.clockHz, found.builtFor, found.tolerance, found.remark]).toEqual([
      "pro:cpu=8MHzatmega328",
      16_000_000,
      8_000_000,
      0.0001,
      "old one",
    ]);
    expect(settings("// for pulsewright: clock 16 MHz").tolerance).toBeUndefined();
    expect(settings("// for pulsewright: clock 16 MHz +-8 kHz").tolerance).toBe(0.0005);
  });

  it("reads every line of a block comment that opens as ours", () => {
    const text =
      "/* wants D3: 1 kHz\r\n * wants D9: 25 kHz\n * lamp and fan\n   wants D5: 3 kHz\n * bench reads D3: 985 Hz */";
    const found = readComment(text);
    expect(
      found.map((comment) => (comment.kind === "want" || comment.kind === "reading" ? comment.pin : comment.kind)),
    ).toEqual(["D3", "D9", "D3"]);
    for (const comment of found) {
      if (comment.kind === "want" || comment.kind === "reading") {
        expect(text.slice(comment.pinAt.start, comment.pinAt.end)).toBe(comment.pin);
      }
    }
  });

  it("takes `/**` and `///` as openings too", () => {
    expect(readComment("/** wants D3: 1 kHz */")).toHaveLength(1);
    expect(readComment("/// wants D3: 1 kHz")).toHaveLength(1);
  });
});

describe("what is not ours", () => {
  it.each([
    "// the fan wants D9: 25 kHz",
    "// Wants D9: 25 kHz",
    "// wants D9 to run at 25 kHz",
    "// wants more: light and air",
    "// bench reads well",
    "// bench reads 5 V at the pump",
    "// bench reads the paper: every day",
    "// for pulse widths see below",
    "//// wants D3: 1 kHz",
    "// // wants D3: 1 kHz",
    "/* a\n wants D3: 1 kHz */",
    "wants D3: 1 kHz",
    "//",
    "/**/",
    "",
  ])("%s", (text) => {
    expect(readComment(text)).toEqual([]);
  });
});

describe("what is ours and cannot be read", () => {
  it.each([
    ["// wants D3:", "", "a frequency such as 1 kHz"],
    ["// wants D3: 25000", "", "a unit such as Hz, kHz or MHz"],
    ["// wants D3: 24,96 kHz", ",96 kHz", "a decimal point, not a comma"],
    ["// wants D3: 1 mHz", "mHz", "MHz with a capital M"],
    ["// wants D3: 1 kHz 20 steps", "20 steps", "a comma or the end"],
    ["// wants D3: 1 kHz, 2 kHz", "2 kHz", "one frequency, not two"],
    ["// wants D3: 1 kHz, 2.5 steps", "2.5 steps", "a whole number of steps"],
    ["// wants D3: 1 kHz +- kHz", "kHz", "a tolerance such as 2 %"],
    ["// wants D3: 28..21 kHz", "28..21 kHz", "the smaller value first"],
    ["// wants D3: 20 kHz within 21..28 kHz", "21..28 kHz", "a range that holds the wanted frequency"],
    ["// wants D3: 25 kHz within 21 kHz", "21 kHz", "a range such as 21..28 kHz"],
    ["// wants D3: 1 kHz, duty 20..120 %", "20..120 %", "at most 100 %"],
    ["// wants D3: 1 kHz, duty 20..80", "", "%"],
    ["// wants D3: 1 kHz, pulse 20 kHz", "kHz", "a unit such as us, ms or s"],
    ["// wants D3: every 0 ms", "0 ms", "a period above 0"],
    ["// wants D3: fan-4wires", "fan-4wires", "did you mean fan-4wire?"],
    ["// wants D3: 1 kHz, fast", "fast", "a frequency such as 1 kHz"],
    ["// bench reads D3 985 Hz", "985 Hz", "a colon, or with REGISTER = VALUE"],
    ["// bench reads D3: quick 985 Hz", "quick 985 Hz", "a reading such as 985 Hz"],
    ["// bench reads D3 with OCR2A: 985 Hz", ": 985 Hz", "= and the register's value"],
    ["// bench reads D3 with OCR2A = x: 985 Hz", "x: 985 Hz", "a number such as 0xFE"],
    ["// for pulsewright:", "", "board, clock, built for, or allow"],
    ["// for pulsewright: bord nano", "bord nano", "board, clock, built for, or allow"],
    ["// for pulsewright: clock 16", "", "a unit such as Hz, kHz or MHz"],
    ["// for pulsewright: board nano clock 16 MHz", "clock 16 MHz", "a comma or the end"],
    ["// for pulsewright: built 8 MHz", "8 MHz", "for and a clock such as 8 MHz"],
    ["// for pulsewright: allow bare-number because", "", "a reason"],
  ])("%s", (text, stopped, expected) => {
    const [rest, what] = unread(text);
    expect(rest).toBe(stopped);
    expect(what).toContain(expected);
  });
});

describe("any text", () => {
  const pieces = fc.constantFrom(
    ..."// wants D3: 1 kHz +-2 % within 21..28 , duty reach pulse every 20 ms 100 steps bench reads with OCR2A = 0xFE for pulsewright: board nano clock MHz built allow because ( ) */ /* * \n .. . - ± µs ppm 99999999999999999999 fan-4wire é 𝄞 and D10 , idle low analog-rc R C 10 kOhm uF vent::pump or more Ω".split(
      " ",
    ),
  );
  const soup = fc.array(pieces, { maxLength: 14 }).map((words) => words.join(" "));
  const ours = /(?:wants[ \t]+\w+[ \t]*:|bench[ \t]+reads[ \t]+\w|for[ \t]+pulsewright:)/;

  it("is answered without a throw, in order, inside the text, and only where an opening stands", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          soup,
          soup.map((text) => `// ${text}`),
          soup.map((text) => `/* ${text} */`),
        ),
        (text) => {
          const found = readComment(text);
          if (found.length > 0) {
            expect(text).toMatch(ours);
          }
          let last = { start: -1, end: 0 };
          for (const comment of found) {
            // The pins of one want stand for the same stretch.
            if (comment.at.start !== last.start) expect(comment.at.start).toBeGreaterThanOrEqual(last.end);
            expect(comment.at.end).toBeLessThanOrEqual(text.length);
            last = comment.at;
            if (comment.kind === "unread") {
              expect(comment.column).toBeGreaterThanOrEqual(comment.at.start);
              expect(comment.column).toBeLessThanOrEqual(comment.at.end);
              expect(comment.expected).not.toBe("");
            }
            if (comment.kind === "want" && comment.frequency !== undefined) {
              expect(comment.frequency.min).toBeLessThanOrEqual(comment.frequency.max);
            }
          }
        },
      ),
      { numRuns: 2000 },
    );
  });

  it("is answered quickly even where it is long", () => {
    const long = `// wants D3: ${"1 kHz, ".repeat(100_000)}`;
    const started = performance.now();
    readComment(long);
    readComment(`/*${" * wants D3: 1 kHz\n".repeat(20_000)}*/`);
    readComment(`// for pulsewright: ${"(".repeat(200_000)}${")".repeat(200_000)}`);
    expect(performance.now() - started).toBeLessThan(3000);
  });
});

describe("named specifications", () => {
  it("have distinct ids that a want can name, ordered bounds, and a source", () => {
    expect(new Set(specifications.map((row) => row.id)).size).toBe(specifications.length);
    for (const row of specifications) {
      expect(want(`// wants D5: ${row.id}`).specification).toBe(row.id);
      expect(row.source.length).toBeGreaterThan(10);
      for (const bounds of [row.frequency, row.duty, row.reach, row.pulse]) {
        if (bounds !== undefined) {
          expect(bounds.min).toBeLessThanOrEqual(bounds.max);
        }
      }
      if (row.frequency !== undefined) {
        expect(row.frequency.hz).toBeGreaterThanOrEqual(row.frequency.min);
        expect(row.frequency.hz).toBeLessThanOrEqual(row.frequency.max);
      }
    }
  });
});
