/** Completion inside comments addressed to the tool, and of the bits of a register. */
import { describe, expect, it } from "vitest";
import { fieldCompletions, wantCompletions } from "../../server/features/completion.js";
import { findBoard } from "../../shared-model/boards/boards.js";
import { findChip } from "../../shared-model/chips/chips.js";
import { readComment } from "../../shared-model/wants/read-comment.js";

const board = findBoard("nano")!;
const chip = findChip("atmega328p")!;

/** The caret stands at `|`. */
function inComment(text: string): readonly string[] {
  const offset = text.indexOf("|");
  const specifications = [
    { id: "fan-4wire", says: "4-wire fan control" },
    { id: "analog-rc", says: "through an RC filter" },
  ];
  return wantCompletions(text.replace("|", ""), offset, board, { boards: ["nano", "uno"], specifications }).map(
    (item) => item.insert,
  );
}

function inCode(text: string): readonly string[] {
  const offset = text.indexOf("|>");
  return fieldCompletions(text.replace("|>", ""), offset, chip).map((item) => item.insert);
}

describe("comments", () => {
  it("offer the three openings", () => {
    expect(inComment("// |")).toEqual(["wants ", "bench reads ", "for pulsewright: "]);
    expect(inComment("// wa|")).toEqual(["wants "]);
  });

  it("offer pins, those with PWM first", () => {
    const pins = inComment("int a;\n// wants |\nint b;");
    expect(pins.slice(0, 6)).toEqual(["D3: ", "D5: ", "D6: ", "D9: ", "D10: ", "D11: "]);
    expect(pins).toContain("A0: ");
    expect(inComment("// wants D1|")).toEqual(
      ["D10: ", "D11: ", "D0: ", "D1: "].filter((pin) => pin.startsWith("D1")).concat(["D12: ", "D13: "]),
    );
  });

  it("offer demands after the colon and after each comma", () => {
    expect(inComment("// wants D3: |")).toContain("1 kHz +-2 %");
    expect(inComment("// wants D3: 1 kHz, |")).toContain("duty 0..100 %");
  });

  it.each([
    // Pins
    ["// wants D9 |", ["and "]],
    ["// wants D9 a|", ["and "]],
    ["// wants D9 and D1|", ["D10: ", "D11: ", "D0: ", "D1: ", "D12: ", "D13: "].filter((pin) => pin.startsWith("D1"))],
    ["// wants D10, D1|", ["D11: ", "D1: ", "D12: ", "D13: "]],
    // Demands
    ["// wants D9: du|", ["duty 0..100 %"]],
    ["// wants D9: duty 5..10 %, du|", []],
    ["// wants D9: 1 kHz, e|", []],
    ["// wants D9: e|", ["every 20 ms"]],
    ["// wants D9: id|", ["idle low", "idle high"]],
    ["// wants D9: idle |", ["low", "high"]],
    ["// wants D9: idle h|", ["high"]],
    ["// wants D9: fa|", ["fan-4wire"]],
    ["// wants D9: fan-4|", ["fan-4wire"]],
    ["// wants D9: fan-4wire, an|", []],
    ["// wants D9: 100 steps, fan|", ["fan-4wire"]],
    // Units
    ["// wants D9: 25 |", ["kHz", "Hz", "MHz", "steps"]],
    ["// wants D9: 25k|", ["kHz"]],
    ["// wants D9: 25 st|", ["steps"]],
    ["// wants D9: 21..28 |", ["kHz", "Hz", "MHz"]],
    ["// wants D9: 25 kHz within 21..28 |", ["kHz", "Hz", "MHz"]],
    ["// wants D9: 25 kHz +-2 |", ["%", "ppm", "kHz", "Hz", "MHz"]],
    ["// wants D9: every 20 |", ["us", "ms", "s"]],
    ["// wants D9: every 20 ms +-2 |", ["%", "ppm", "us", "ms", "s"]],
    ["// wants D9: pulse 1000..2000 u|", ["us"]],
    ["// wants D9: duty 20..100 |", ["%"]],
    ["// wants D9: duty 50 % +-1 |", ["%"]],
    ["// wants D9: 1 kHz, reach 10..90 |", ["%"]],
    // What follows
    ["// wants D9: 25 kHz |", ["+-2 %", "within 24.5..25.5 kHz", "or more"]],
    ["// wants D9: 25 kHz w|", ["within 24.5..25.5 kHz"]],
    ["// wants D9: 25 kHz or |", ["more"]],
    ["// wants D9: pulse 1..2 ms |", ["every 20 ms"]],
    ["// wants D9: duty 50 % |", ["+-1 %"]],
    // The filter
    ["// wants D9: analog-rc |", ["with R = 10 kOhm, C = 10 uF"]],
    ["// wants D9: analog-rc with |", ["R = 10 kOhm", "C = 10 uF"]],
    ["// wants D9: analog-rc with R = |", ["10 kOhm"]],
    ["// wants D9: analog-rc with R = 10 |", ["kOhm", "Ohm", "MOhm"]],
    ["// wants D9: analog-rc with R = 10 kOhm, |", ["C = 10 uF"]],
    ["// wants D9: analog-rc with R = 10 kOhm |", ["and "]],
    ["// wants D9: analog-rc with R = 10 kOhm, C = 1 n|", ["nF"]],
    ["// wants D9: analog-rc with R = 10 kOhm, C = 1 nF, id|", ["idle low", "idle high"]],
    ["// wants Pins::fan: 25 |", ["kHz", "Hz", "MHz", "steps"]],
    // Other comments
    ["// for pulsewright: clock 16 |", ["MHz", "kHz"]],
    ["// for pulsewright: allow bare-number |", ["because "]],
    ["// bench reads D9: 985 |", ["Hz", "kHz", "MHz"]],
    ["// bench reads D9: 985 Hz, duty 50 |", ["%"]],
    ["// bench reads D9: pulse 1500 u|", ["us"]],
  ])("%s", (text, expected) => {
    expect(inComment(text)).toEqual(expected);
  });

  it("offer only what can be read", () => {
    const whole = [
      ...inComment("// wants D9: |"),
      ...inComment("// wants D9: analog-rc |").map((each) => `analog-rc ${each}`),
    ];
    expect(whole.length).toBeGreaterThan(10);
    for (const each of whole) expect(readComment(`// wants D9: ${each}`)[0]?.kind, each).toBe("want");
  });

  it("offer boards and findings", () => {
    expect(inComment("// for pulsewright: board |")).toEqual(["nano", "uno"]);
    expect(inComment("// for pulsewright: allow bare|")).toEqual(["bare-number because "]);
  });

  it("are silent in code and in other comments", () => {
    expect(inComment("int wants = |1;")).toEqual([]);
    expect(inComment("// the pump |")).toEqual([]);
  });

  it("replace only the word being typed", () => {
    const text = "// wants D1";
    expect(wantCompletions(text, text.length, board)[0]?.span).toEqual({ start: 9, end: 11 });
  });
});

describe("bits", () => {
  it("are those of the register being written", () => {
    expect(inCode("TCCR2B = _BV(|>")).toEqual(["FOC2A", "FOC2B", "WGM22", "CS22", "CS21", "CS20"]);
    expect(inCode("  TCCR2B |= (1 << CS|>")).toEqual(["CS22", "CS21", "CS20"]);
    expect(inCode("bitSet(TCCR1A, W|>")).toEqual(["WGM11", "WGM10"]);
  });

  it("are not offered where no register is written", () => {
    expect(inCode("int x = |>")).toEqual([]);
    expect(inCode("if (TCCR2B == |>")).toEqual([]);
    expect(inCode("// TCCR2B = |>")).toEqual([]);
    expect(inCode("TCCR2B = 3; x(|>")).toEqual([]);
  });
});
