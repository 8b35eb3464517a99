/** Completion inside comments addressed to the tool, and of the bits of a register. */
import { describe, expect, it } from "vitest";
import { fieldCompletions, wantCompletions } from "../../server/features/completion.js";
import { findBoard } from "../../shared-model/boards/boards.js";
import { findChip } from "../../shared-model/chips/chips.js";

const board = findBoard("nano")!;
const chip = findChip("atmega328p")!;

/** The caret stands at `|`. */
function inComment(text: string): readonly string[] {
  const offset = text.indexOf("|");
  return wantCompletions(text.replace("|", ""), offset, board, { boards: ["nano", "uno"], specifications: [] }).map(
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
