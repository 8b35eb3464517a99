/** Every row of the chip tables against avr-libc's headers (facts/*.json, see facts/measure.mjs), both ways. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Chip } from "../../shared-model/chip.js";
import { chips, findChip } from "../../shared-model/chips/chips.js";
import { portNeutralBits } from "../../shared-model/chips/peripherals.js";

interface ChipFacts {
  macro: string;
  registers: { name: string; address: number; width: number }[];
  bits: { register: string; name: string; position: number }[];
  generic: { name: string; position: number }[];
  vectors: { name: string; number: number }[];
  memory: { RAMSTART: number; RAMEND: number; FLASHEND: number; E2END: number };
}

const factsOf = (chip: Chip): ChipFacts =>
  JSON.parse(readFileSync(join(__dirname, "facts", `${chip.id}.json`), "utf8")) as ChipFacts;

const sorted = (lines: string[]) => [...lines].sort();
const hex = (address: number) => `0x${address.toString(16)}`;

describe.each(chips.map((chip) => [chip.id, chip] as const))("%s against its header", (_, chip) => {
  const facts = factsOf(chip);

  it("has exactly the header's 8-bit registers at the header's addresses", () => {
    expect(sorted(chip.registers.map((row) => `${row.name} ${hex(row.address)}`))).toEqual(
      sorted(facts.registers.filter((row) => row.width === 8).map((row) => `${row.name} ${hex(row.address)}`)),
    );
  });

  it("has exactly the header's 16-bit registers, low byte first", () => {
    expect(sorted(chip.wide.map((row) => `${row.name} ${hex(row.address)}`))).toEqual(
      sorted(facts.registers.filter((row) => row.width === 16).map((row) => `${row.name} ${hex(row.address)}`)),
    );
    for (const pair of chip.wide) {
      const address = (name: string) => chip.registers.find((row) => row.name === name)?.address;
      expect([pair.name, address(pair.low), address(pair.high)]).toEqual([pair.name, pair.address, pair.address + 1]);
    }
  });

  it("has exactly the header's bits at the header's positions", () => {
    const ours = chip.registers.flatMap((row) => row.bits.map((bit) => `${row.name}.${bit.name} ${bit.position}`));
    expect(sorted(ours)).toEqual(sorted(facts.bits.map((bit) => `${bit.register}.${bit.name} ${bit.position}`)));
  });

  it("has exactly the header's interrupt vectors", () => {
    expect(chip.vectors).toEqual(facts.vectors);
  });

  it("has the header's memory sizes and the compiler's macro", () => {
    expect({
      ramBytes: chip.ramBytes,
      flashBytes: chip.flashBytes,
      eepromBytes: chip.eepromBytes,
      macro: chip.macro,
    }).toEqual({
      ramBytes: facts.memory.RAMEND - facts.memory.RAMSTART + 1,
      flashBytes: facts.memory.FLASHEND + 1,
      eepromBytes: facts.memory.E2END + 1,
      macro: facts.macro,
    });
    const stack = chip.registers.filter((row) => row.name === "SPH" || row.name === "SPL");
    expect(stack.reduce((sum, row) => sum + (row.name === "SPH" ? row.reset << 8 : row.reset), 0)).toBe(
      facts.memory.RAMEND,
    );
  });

  it("has the header's port-neutral bit names", () => {
    expect(sorted(Object.entries(portNeutralBits).map(([name, position]) => `${name} ${position}`))).toEqual(
      sorted(facts.generic.map((bit) => `${bit.name} ${bit.position}`)),
    );
  });
});

describe.each(chips.map((chip) => [chip.id, chip] as const))("the shape of %s", (_, chip) => {
  const row = (name: string) => chip.registers.find((candidate) => candidate.name === name);

  it("has no two registers at one address but the known alias", () => {
    const names = new Map<number, string[]>();
    for (const { name, address } of chip.registers) {
      names.set(address, [...(names.get(address) ?? []), name]);
    }
    expect([...names.values()].filter((list) => list.length > 1)).toEqual(
      chip.registers.some((register) => register.name === "OCDR") ? [["MONDR", "OCDR"]] : [],
    );
  });

  it("keeps masks apart: what strobes is not kept, everything fits eight bits", () => {
    for (const register of chip.registers) {
      expect([register.name, register.writable & register.strobes]).toEqual([register.name, 0]);
      for (const mask of [register.writable, register.strobes, register.reset, register.hardware ?? 0]) {
        expect(mask).toBeGreaterThanOrEqual(0);
        expect(mask).toBeLessThanOrEqual(0xff);
      }
    }
  });

  it("names only registers, bits, vectors and ports that exist", () => {
    const wide = new Set(chip.wide.map((pair) => pair.name));
    const bitOf = (register: string, bit: string) => row(register)?.bits.some((fact) => fact.name === bit);
    const vectors = new Set(chip.vectors.map((vector) => vector.name));
    for (const timer of chip.timers) {
      const registers = [...timer.control, timer.interruptMask, timer.flags];
      expect(registers.filter((name) => row(name) === undefined)).toEqual([]);
      const values = [
        timer.counter,
        ...(timer.capture ? [timer.capture] : []),
        ...timer.channels.map((c) => c.compare),
      ];
      expect(values.filter((name) => (timer.bits === 16 ? !wide.has(name) : row(name) === undefined))).toEqual([]);
      expect(bitOf(timer.powerReduction.register, timer.powerReduction.bit)).toBe(true);
      expect(bitOf("GTCCR", timer.prescalerReset)).toBe(true);
      for (const interrupt of [
        timer.overflow,
        ...(timer.captureInterrupt ? [timer.captureInterrupt] : []),
        ...timer.channels.map((channel) => channel.interrupt),
      ]) {
        expect([interrupt.vector, vectors.has(interrupt.vector)]).toEqual([interrupt.vector, true]);
        expect([interrupt.mask, bitOf(timer.interruptMask, interrupt.mask)]).toEqual([interrupt.mask, true]);
      }
      for (const channel of timer.channels) {
        const [, letter, bit] = /^P([A-L])([0-7])$/.exec(channel.port) ?? [];
        expect(chip.ports.some((port) => port.letter === letter)).toBe(true);
        expect(bitOf(`PORT${letter}`, `P${letter}${bit}`)).toBe(true);
        expect(bitOf(channel.com.register, `${channel.com.name}0`)).toBe(true);
        expect(row(channel.com.register)?.bits.find((fact) => fact.name === `${channel.com.name}0`)?.position).toBe(
          channel.com.shift,
        );
      }
      for (const field of [timer.modeField, timer.clockField]) {
        for (const part of field.parts) {
          for (let offset = 0; offset < part.width; offset++) {
            const bit = row(part.register)?.bits.find((fact) => fact.name === `${field.name}${part.at + offset}`);
            expect([field.name, part.at + offset, bit?.position]).toEqual([
              field.name,
              part.at + offset,
              part.shift + offset,
            ]);
          }
        }
      }
      expect(timer.modes.map((mode) => mode.select)).toEqual(timer.modes.map((__, index) => index));
      expect([timer.modes.length, timer.clocks.length]).toEqual([2 ** timer.modeField.width, 8]);
    }
  });

  it("gives each pin one compare unit, or two where a modulator joins them", () => {
    const units = new Map<string, string[]>();
    for (const channel of chip.timers.flatMap((timer) => timer.channels)) {
      units.set(channel.port, [...(units.get(channel.port) ?? []), channel.unit]);
    }
    expect([...units].filter(([, list]) => list.length > 1)).toEqual(
      chip.modulators.map((modulator) => [modulator.port, [...modulator.units]]),
    );
  });
});

describe("timer registers' masks, by the data sheet", () => {
  // DS40002061 sections 15.9, 16.11, 18.11 (bits shown "R" read 0, FOC bits "W" always read 0); 2549 17.11 for C.
  const rows: [string, string, number, number][] = [
    ["atmega328p", "TCCR0A", 0b11110011, 0],
    ["atmega328p", "TCCR0B", 0b00001111, 0b11000000],
    ["atmega328p", "TIMSK0", 0b00000111, 0],
    ["atmega328p", "TIFR0", 0, 0b00000111],
    ["atmega328p", "TCCR1A", 0b11110011, 0],
    ["atmega328p", "TCCR1B", 0b11011111, 0],
    ["atmega328p", "TCCR1C", 0, 0b11000000],
    ["atmega328p", "TIMSK1", 0b00100111, 0],
    ["atmega328p", "TIFR1", 0, 0b00100111],
    ["atmega328p", "TCCR2A", 0b11110011, 0],
    ["atmega328p", "TCCR2B", 0b00001111, 0b11000000],
    ["atmega328p", "TIMSK2", 0b00000111, 0],
    ["atmega328p", "ASSR", 0b01100000, 0],
    ["atmega328p", "GTCCR", 0b10000000, 0b00000011],
    ["atmega328p", "PRR", 0b11101111, 0],
    ["atmega2560", "TCCR1A", 0b11111111, 0],
    ["atmega2560", "TCCR3B", 0b11011111, 0],
    ["atmega2560", "TCCR4C", 0, 0b11100000],
    ["atmega2560", "TIMSK5", 0b00101111, 0],
    ["atmega2560", "TIFR5", 0, 0b00101111],
    ["atmega2560", "PRR0", 0b11101111, 0],
    ["atmega2560", "PRR1", 0b00111111, 0],
  ];
  it.each(rows)("%s %s keeps and strobes", (chip, register, writable, strobes) => {
    const fact = findChip(chip)?.registers.find((candidate) => candidate.name === register);
    expect([fact?.writable, fact?.strobes]).toEqual([writable, strobes]);
  });
});

describe("finding a chip", () => {
  it("takes any case and knows what it does not know", () => {
    expect(findChip("ATmega328P")?.id).toBe("atmega328p");
    expect(findChip("atmega4809")).toBeUndefined();
    expect(findChip("")).toBeUndefined();
  });
});
