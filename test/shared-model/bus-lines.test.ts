/** Lines of the buses against the packaged core's constants, the chips' own bits, and by hand where neither says it. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { busLines } from "../../shared-model/boards/bus-lines.js";
import { chips } from "../../shared-model/chips/chips.js";

interface PinFacts {
  mcu: string;
  pins: { number: number; port: string }[];
  constants: Record<string, number>;
}
const facts = (
  JSON.parse(readFileSync(join(__dirname, "facts", "boards.json"), "utf8")) as {
    boards: { board: string; pins: PinFacts[] }[];
  }
).boards;

for (const { board, pins } of facts) {
  for (const { mcu, pins: rows, constants } of pins) {
    it(`${board} (${mcu}): SPI and two-wire lines are where the core's constants are`, () => {
      const chip = chips.find((each) => each.id === mcu)!;
      const lines = busLines({ chip });
      for (const signal of ["SS", "MOSI", "MISO", "SCK", "SDA", "SCL"]) {
        const port = rows.find((pin) => pin.number === constants[signal])?.port;
        expect(port === undefined ? undefined : lines.get(port)?.signal, signal).toBe(signal);
      }
    });
  }
}

describe("every chip carried", () => {
  for (const chip of chips) {
    it(chip.id, () => {
      const lines = busLines({ chip });
      expect(lines.size).toBeGreaterThan(0);
      const bitNames = new Map(chip.registers.map((each) => [each.name, each.bits.map((bit) => bit.name)]));
      for (const [port, line] of lines) {
        expect(chip.ports.map((each) => `P${each.letter}`)).toContain(port.slice(0, 2));
        for (const bit of line.enabledBy.bits)
          expect(bitNames.get(line.enabledBy.register), line.signal).toContain(bit);
      }
      // Each serial port of the chip has its two lines, each signal one port.
      const ports = chip.registers.filter((each) => /^UCSR\dB$/.test(each.name)).length;
      expect([...lines.values()].filter((line) => line.library.startsWith("Serial"))).toHaveLength(2 * ports);
      expect(new Set([...lines.values()].map((line) => line.signal)).size).toBe(lines.size);
    });
  }
});

// Numbers as the pins file's comments have them (variants/mega: "PE 0 ** 0 ** USART0_RX", "PD 3 ** 18 ** USART1_TX" …).
it("serial lines of the large chips", () => {
  const chip = chips.find((each) => each.id === "atmega2560")!;
  const of = (signal: string) => [...busLines({ chip })].find(([, line]) => line.signal === signal)?.[0];
  expect(["RX", "TX", "RX1", "TX1", "RX2", "TX2", "RX3", "TX3"].map(of)).toEqual([
    "PE0",
    "PE1",
    "PD2",
    "PD3",
    "PH0",
    "PH1",
    "PJ0",
    "PJ1",
  ]);
});

it("says what the line is", () => {
  const chip = chips.find((each) => each.id === "atmega328p")!;
  expect(busLines({ chip }).get("PB3")!.line).toBe("data line of the SPI bus (MOSI)");
  expect(busLines({ chip }).get("PD0")!.line).toBe(
    "receiving line of the serial port (RX), which uploading uses as well",
  );
});
