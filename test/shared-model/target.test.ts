/** Which source decides board, clock and F_CPU, and how unknown names are refused (design sections 5 and 6). */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Target } from "../../shared-model/chip.js";
import { resolveTarget, type TargetRequest } from "../../shared-model/target.js";

function target(request: TargetRequest): Target {
  const answer = resolveTarget(request);
  if ("problem" in answer) {
    throw new Error(answer.problem);
  }
  return answer.target;
}
const problem = (board: string) => {
  const answer = resolveTarget({ commandLine: { board } });
  return "problem" in answer ? answer.problem : "no problem";
};
const brief = (request: TargetRequest) => {
  const { board, boardId, chip, clockHz, fCpu, clockTolerance, decidedBy } = target(request);
  return [board?.id ?? null, boardId, chip.id, clockHz, fCpu, clockTolerance, decidedBy];
};

describe("names of boards and chips", () => {
  it.each([
    ["uno", "uno", "atmega328p", 16e6],
    ["nano", "nano", "atmega328p", 16e6],
    ["Nano", "nano", "atmega328p", 16e6],
    ["nano:cpu=atmega168", "nano:cpu=atmega168", "atmega168", 16e6],
    ["nano:cpu=atmega328old", "nano:cpu=atmega328old", "atmega328p", 16e6],
    ["pro:cpu=8MHzatmega328", "pro:cpu=8MHzatmega328", "atmega328p", 8e6],
    ["arduino:avr:nano", "nano", "atmega328p", 16e6],
    ["arduino:avr:nano:cpu=atmega168", "nano:cpu=atmega168", "atmega168", 16e6],
    ["mega", "mega", "atmega2560", 16e6],
    ["mega:cpu=atmega1280", "mega:cpu=atmega1280", "atmega1280", 16e6],
    ["megaadk", "megaADK", "atmega2560", 16e6],
    ["ATmega328P", "atmega328p", "atmega328p", 16e6],
    ["atmega2560", "atmega2560", "atmega2560", 16e6],
  ])("%s", (asked, boardId, chip, fCpu) => {
    const found = target({ commandLine: { board: asked } });
    expect([found.boardId, found.chip.id, found.fCpu, found.clockHz]).toEqual([boardId, chip, fCpu, fCpu]);
  });

  it("gives the macro of the chosen processor", () => {
    expect(target({ commandLine: { board: "mega" } }).boardMacro).toBe("ARDUINO_AVR_MEGA2560");
    expect(target({ commandLine: { board: "mega:cpu=atmega1280" } }).boardMacro).toBe("ARDUINO_AVR_MEGA");
    expect(target({ commandLine: { board: "atmega328p" } }).boardMacro).toBeUndefined();
  });

  it("gives a bare chip the standard pins and no board", () => {
    const bare = target({ commandLine: { board: "atmega168p" } });
    expect(bare.board).toBeNull();
    expect(bare.pins.find((pin) => pin.number === 3)?.port).toBe("PD3");
  });

  it("refuses what it does not know, by name and with near ones", () => {
    expect(problem("nanoo")).toBe('unknown board or chip "nanoo": did you mean nano? (command line)');
    expect(problem("atmega328")).toMatch(/^unknown board or chip "atmega328": did you mean atmega328p/);
    expect(problem("zzz-zzz")).toMatch(/known are uno, nano, pro/);
    expect(problem("arduino:samd:zero")).toMatch(/"arduino:samd:zero" is not an AVR board/);
    expect(problem("nano:cpu=atmega32")).toMatch(
      /has no cpu option "atmega32": it has atmega328, atmega328old, atmega168/,
    );
    expect(problem("uno:cpu=atmega328")).toMatch(/board uno has no cpu options/);
    expect(problem("nano:speed=1")).toMatch(/no option of board nano/);
    expect(problem("atmega328p:cpu=x")).toMatch(/unknown board or chip/);
  });

  it("answers every text with a target or one line", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string().map((text) => `nano:${text}`),
        ),
        (board) => {
          const answer = resolveTarget({ settings: { board } });
          expect("target" in answer || !answer.problem.includes("\n")).toBe(true);
        },
      ),
    );
  });
});

describe("precedence, each field for itself", () => {
  it("falls back to the nano", () => {
    expect(brief({})).toEqual(["nano", "nano", "atmega328p", 16e6, 16e6, 0.005, "default"]);
  });

  it("goes from the command line through comment and settings to the project file", () => {
    const projectFile = { board: "arduino:avr:uno" };
    const settings = { board: "mega" };
    const comment = { board: "pro:cpu=8MHzatmega328" };
    const commandLine = { board: "atmega168p" };
    expect(brief({ projectFile })[6]).toBe("project file");
    expect(brief({ projectFile, settings }).slice(0, 1)).toEqual(["mega"]);
    expect(brief({ projectFile, settings, comment })).toEqual([
      "pro",
      "pro:cpu=8MHzatmega328",
      "atmega328p",
      8e6,
      8e6,
      0.005,
      "comment",
    ]);
    expect(brief({ projectFile, settings, comment, commandLine })[2]).toBe("atmega168p");
  });

  it("takes a comment's clock as the oscillator alone, and `built for` as F_CPU", () => {
    const comment = { board: "uno", clockHz: 8e6, tolerance: 0.01 };
    expect(brief({ comment })).toEqual(["uno", "uno", "atmega328p", 8e6, 16e6, 0.01, "comment"]);
    expect(brief({ comment: { ...comment, fCpu: 8e6 } }).slice(3, 5)).toEqual([8e6, 8e6]);
  });

  it("takes --clock as both", () => {
    expect(brief({ commandLine: { clockHz: 8e6 }, comment: { clockHz: 12e6, fCpu: 1e6 } }).slice(3, 5)).toEqual([
      8e6, 8e6,
    ]);
  });

  it("says where the tolerance comes from", () => {
    expect(target({}).toleranceSource).toMatch(/resonator/);
    expect(target({ comment: { tolerance: 0.0001 } }).toleranceSource).toBe("as given, ±100 ppm");
  });

  it("refuses numbers that are no clock", () => {
    for (const clockHz of [0, -1, Number.NaN, 1e12]) {
      expect("problem" in resolveTarget({ commandLine: { clockHz } })).toBe(true);
    }
    expect("problem" in resolveTarget({ comment: { tolerance: 2 } })).toBe(true);
  });
});
