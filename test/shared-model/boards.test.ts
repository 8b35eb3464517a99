/** Every row of the board tables against the packaged core's own files (facts/boards.json), both ways. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { boardIds, boards, corePinsOf, findBoard } from "../../shared-model/boards/boards.js";
import type { Board } from "../../shared-model/chip.js";
import { chips, findChip } from "../../shared-model/chips/chips.js";
import { clockTolerances } from "../../shared-model/clock-tolerance.js";

interface PinFacts {
  mcu: string;
  pins: { number: number; port: string; timer: string }[];
  analog: number[];
  constants: Record<string, number>;
  interruptPins: number[];
}
interface BoardFacts {
  board: string;
  name: string;
  options: { option: string | null; mcu: string; fCpu: number; macro: string }[];
  pins: PinFacts[];
}

const facts = (JSON.parse(readFileSync(join(__dirname, "facts", "boards.json"), "utf8")) as { boards: BoardFacts[] })
  .boards;
const sortedByName = (record: Record<string, number>) => Object.entries(record).sort(([a], [b]) => a.localeCompare(b));

it("carries the boards that were measured, and no others", () => {
  expect([...boardIds].sort()).toEqual(facts.map((fact) => fact.board).sort());
});

describe.each(boards.map((board) => [board.id, board] as const))("%s against the packaged core", (_, board: Board) => {
  const fact = facts.find((candidate) => candidate.board === board.id)!;

  it("has the core's name, options, chips, clocks and macros, in the core's order", () => {
    expect(board.name).toBe(fact.name);
    expect(
      board.variants.map((variant) => ({
        option: variant.option,
        mcu: variant.chip,
        fCpu: variant.fCpu,
        macro: variant.macro ?? board.macro,
      })),
    ).toEqual(fact.options.map(({ option, mcu, fCpu, macro }) => ({ option, mcu, fCpu, macro })));
  });

  it("has the core's pins, compare units, analog channels, names and interrupt pins for every chip option", () => {
    for (const pins of fact.pins) {
      expect(
        board.pins.map((pin) => ({ number: pin.number, port: pin.port, timer: pin.analogWriteUnit ?? "none" })),
      ).toEqual(
        pins.pins.map((pin) => ({
          number: pin.number,
          port: pin.port,
          timer: pin.timer === "NOT_ON_TIMER" ? "none" : pin.timer.replace(/^TIMER/, "OC"),
        })),
      );
      // The pins file counts analog inputs 6 and 7 of the small boards as 20 and 21 or as no pin; they are no digital
      // pins in its tables, so our rows leave them out.
      const digital = pins.analog.filter((number) => number >= 0 && number < pins.pins.length);
      expect(board.pins.filter((pin) => pin.analog !== undefined).map((pin) => pin.number)).toEqual(digital);
      expect(board.pins.filter((pin) => pin.analog !== undefined).map((pin) => pin.analog)).toEqual(
        digital.map((_, index) => `A${index}`),
      );
      expect(sortedByName({ ...board.constants })).toEqual(sortedByName(pins.constants));
      expect(board.interruptPins).toEqual(pins.interruptPins);
      expect(board.ledPin).toBe(pins.constants["LED_BUILTIN"]);
    }
  });

  it("names chips, ports and compare units that exist", () => {
    for (const variant of board.variants) {
      const chip = findChip(variant.chip)!;
      const units = new Map(
        chip.timers.flatMap((timer) => timer.channels.map((channel) => [channel.unit, channel.port])),
      );
      for (const pin of board.pins) {
        expect(chip.ports.some((port) => port.letter === pin.port[1])).toBe(true);
        if (pin.analogWriteUnit !== undefined) {
          expect([pin.analogWriteUnit, units.get(pin.analogWriteUnit)]).toEqual([pin.analogWriteUnit, pin.port]);
        }
      }
      expect(variant.clock.hz).toBe(variant.fCpu);
      expect(variant.clock.tolerance).toBe(clockTolerances.resonator.tolerance);
    }
  });
});

it("gives every bare chip pins that it has", () => {
  for (const chip of chips) {
    const layout = corePinsOf(chip.id)!;
    expect(layout.pins.length).toBeGreaterThan(0);
    expect(layout.pins.every((pin) => chip.ports.some((port) => port.letter === pin.port[1]))).toBe(true);
  }
  expect(corePinsOf("attiny85")).toBeUndefined();
});

it("finds boards in any case", () => {
  expect(findBoard("NANO")?.id).toBe("nano");
  expect(findBoard("megaadk")?.id).toBe("megaADK");
  expect(findBoard("leonardo")).toBeUndefined();
});
