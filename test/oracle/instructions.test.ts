/** What the machine adds to avr8js's instruction set, against the AVR Instruction Set Manual (DS40002198). */
import { describe, expect, it } from "vitest";
import { ATMEGA328P } from "./chip-map.js";
import { isCall } from "./instructions.js";
import { Machine } from "./machine.js";

const SREG = 95;

function run(words: readonly number[], set: (data: Uint8Array) => void = () => {}): Uint8Array {
  const flash = new Uint8Array(new Uint16Array([...words, 0xcfff]).buffer);
  const machine = new Machine(ATMEGA328P, flash);
  set(machine.cpu.data);
  machine.run(words.length);
  return machine.cpu.data;
}

describe("NEG", () => {
  it("gives the two's complement and its flags for every byte", () => {
    for (let value = 0; value < 256; value++) {
      // NEG r24
      const data = run([0x9581], (memory) => {
        memory[24] = value;
        memory[SREG] = 0x40;
      });
      const result = (256 - value) & 0xff;
      const [c, z, n, v] = [result !== 0, result === 0, result >= 128, result === 128];
      const h = ((result >> 3) & 1) !== 0 || ((value >> 3) & 1) !== 0;
      const flags = [c, z, n, v, n !== v, h].reduce((sum, flag, bit) => sum | (flag ? 1 << bit : 0), 0x40);
      expect([data[24], data[SREG]], `NEG ${value}`).toEqual([result, flags]);
    }
  });
});

describe("calls", () => {
  it("are told from jumps and returns", () => {
    for (const call of [0x940e, 0x940f, 0xd000, 0xdfff, 0x9509, 0x9519])
      expect(isCall(call), call.toString(16)).toBe(true);
    for (const other of [0x940c, 0xc000, 0xcfff, 0x9508, 0x9518, 0xf409, 0x0000]) {
      expect(isCall(other), other.toString(16)).toBe(false);
    }
  });
});
