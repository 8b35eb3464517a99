/** Register access of the machine's timers, rule by rule, each beside the data-sheet section (ATmega328P) it comes from. */
import { describe, expect, it } from "vitest";
import { ATMEGA328P } from "./chip-map.js";
import { Machine } from "./machine.js";
import { type PartsTraits, REAL_PARTS } from "./timer.js";

const [TIFR1, TIFR2, PINB, DDRB, PORTB, GTCCR] = [0x36, 0x37, 0x23, 0x24, 0x25, 0x43];
const [TCCR1A, TCCR1B, TCCR1C, TCNT1, ICR1, OCR1A, OCR1B] = [0x80, 0x81, 0x82, 0x84, 0x86, 0x88, 0x8a];
const [TCCR2A, TCCR2B, TCNT2, OCR2A, OCR2B] = [0xb0, 0xb1, 0xb2, 0xb3, 0xb4];
const [PRR, CLKPR, ASSR] = [0x64, 0x61, 0xb6];

function chip(traits: Partial<PartsTraits> = {}) {
  const edges: { pin: string; level: number; cycle: number }[] = [];
  const machine = new Machine(ATMEGA328P, new Uint8Array(0), {
    partsTraits: { ...REAL_PARTS, ...traits },
    observer: {
      edge: (pin, cycle) => edges.push({ pin: pin.name, level: pin.level, cycle }),
      rewired() {},
      disturbed() {},
      entered() {},
      interrupted() {},
    },
  });
  const { cpu } = machine;
  const write = (address: number, value: number): void => cpu.writeData(address, value);
  const read = (address: number): number => cpu.readData(address);
  const write16 = (address: number, value: number): void => {
    write(address + 1, value >> 8);
    write(address, value & 0xff);
  };
  const read16 = (address: number): number => {
    const low = read(address);
    return low | (read(address + 1) << 8);
  };
  const pass = (cycles: number): void => {
    cpu.cycles += cycles;
    machine.syncAll();
  };
  return { machine, edges, write, read, write16, read16, pass };
}

describe("what reads back", () => {
  it.each([
    ["TCCR1A", TCCR1A, 0xf3],
    ["TCCR1B", TCCR1B, 0xdf],
    ["TCCR1C (strobes)", TCCR1C, 0],
    ["TCCR2A", TCCR2A, 0xf3],
    ["TCCR2B (strobes)", TCCR2B, 0x0f],
    ["TIMSK1", 0x6f, 0x27],
    ["TIMSK2", 0x70, 0x07],
    ["ASSR", ASSR, 0x60],
  ])("%s keeps only its own bits (16.11, 18.11)", (_name, address, kept) => {
    const { write, read } = chip();
    write(address, 0xff);
    expect(read(address)).toBe(kept);
  });

  it("a 16-bit write goes in with the low byte, the high byte waits in TEMP (16.3)", () => {
    const { write, read16 } = chip();
    write(OCR1A, 0x11);
    write(OCR1A + 1, 0x22);
    expect(read16(OCR1A)).toBe(0x0011);
    write(OCR1B, 0x33);
    expect(read16(OCR1B)).toBe(0x2233);
  });

  it("reading the low byte of TCNT1 holds the high byte (16.3)", () => {
    const { write, write16, read, pass } = chip();
    write16(TCNT1, 0x01ff);
    write(TCCR1B, 1);
    expect(read(TCNT1)).toBe(0xff);
    pass(300);
    expect(read(TCNT1 + 1)).toBe(0x01);
  });
});

describe("buffers (16.7.1)", () => {
  const fastIcr = (write: (address: number, value: number) => void, write16: typeof write): void => {
    write16(ICR1, 99);
    write16(OCR1A, 20);
    write(TCCR1A, 0x82);
    write(TCCR1B, 0x19);
  };

  it("fast PWM takes a new compare value at BOTTOM", () => {
    const { machine, edges, write, write16, read16, pass } = chip();
    write(DDRB, 2);
    fastIcr(write, write16);
    pass(210);
    write16(OCR1A, 60);
    expect(read16(OCR1A)).toBe(60);
    expect(machine.timers[1]!.channels[0]!.working).toBe(20);
    pass(190);
    const falls = edges.filter(({ level }) => level === 0).map(({ cycle }) => cycle % 100);
    expect(falls).toEqual([21, 21, 61]);
  });

  it("phase correct takes it at TOP, phase and frequency correct at BOTTOM (16.9.4, 16.9.5)", () => {
    const at = (control: number): number => {
      const { machine, write, write16, pass } = chip();
      write16(ICR1, 50);
      write(TCCR1A, control & 3);
      write(TCCR1B, 0x11);
      write16(OCR1A, 7);
      for (let tick = 0; tick < 300; tick++) {
        if (machine.timers[1]!.channels[0]!.working === 7) return machine.cycle;
        pass(1);
      }
      return -1;
    };
    // Mode 10 (WGM11): TOP is left on the 51st clock. Mode 8: BOTTOM is left on the first.
    expect(at(0x02)).toBe(51);
    expect(at(0x00)).toBe(1);
  });

  it("CTC and normal mode take it at once (16.7.1)", () => {
    const { machine, write, write16 } = chip();
    write(TCCR1B, 0x09);
    write16(OCR1A, 1234);
    expect(machine.timers[1]!.top).toBe(1234);
  });
});

describe("traits of real parts", () => {
  it.each([
    [true, 63],
    [false, 7999],
  ])("maskedCompare %s: OCR1A = 7999 in the core's mode reads %i", (maskedCompare, kept) => {
    const { write, write16, read16 } = chip({ maskedCompare });
    write(TCCR1A, 1);
    write(TCCR1B, 3);
    write16(OCR1A, 7999);
    expect(read16(OCR1A)).toBe(kept);
  });

  it.each([
    [true, 0],
    [false, 50],
  ])("bufferLostOnModeChange %s: the value is %i in CTC", (bufferLostOnModeChange, kept) => {
    const { write, write16, read16 } = chip({ bufferLostOnModeChange });
    write(TCCR1A, 1);
    write16(OCR1A, 50);
    write(TCCR1A, 0);
    write(TCCR1B, 0x08);
    expect(read16(OCR1A)).toBe(kept);
  });

  it.each([
    ["sticks", 500],
    ["ignored", 0],
  ] as const)("icrOutsideModes %s: ICR1 reads %i", (icrOutsideModes, kept) => {
    const { write16, read16 } = chip({ icrOutsideModes });
    write16(ICR1, 500);
    expect(read16(ICR1)).toBe(kept);
  });
});

describe("counter and flags", () => {
  it("CTC sets OCF1A and not TOV1; writing 1 clears a flag (16.9.2, 16.11.9)", () => {
    const { write, write16, read, pass } = chip();
    write16(OCR1A, 9);
    write(TCCR1B, 0x09);
    pass(25);
    expect(read(TIFR1)).toBe(0x02 | 0x04);
    write(TIFR1, 0x02);
    expect(read(TIFR1)).toBe(0x04);
    pass(20);
    expect(read(TIFR1)).toBe(0x06);
  });

  it("CTC by ICR1 sets ICF1 (16.9.2)", () => {
    const { write, write16, read, pass } = chip();
    write16(ICR1, 9);
    write16(OCR1A, 100);
    write(TCCR1B, 0x19);
    pass(25);
    expect(read(TIFR1) & 0x22).toBe(0x20);
  });

  it("a compare value passed over lets the counter run to MAX in CTC (18.7.2)", () => {
    const { write, read, pass } = chip();
    write(TCCR2A, 2);
    write(OCR2A, 200);
    write(TCCR2B, 1);
    pass(100);
    write(OCR2A, 50);
    pass(150);
    expect(read(TCNT2)).toBe(250);
    pass(6);
    expect(read(TCNT2)).toBe(0);
    expect(read(TIFR2) & 1).toBe(1);
  });

  it("writing TCNT2 blocks the compare match of the next clock (18.5.2)", () => {
    const { write, read, pass } = chip();
    write(OCR2A, 50);
    write(OCR2B, 60);
    write(TCCR2B, 1);
    pass(10);
    write(TCNT2, 50);
    pass(5);
    expect(read(TIFR2) & 0x06).toBe(0);
    write(TCNT2, 49);
    pass(2);
    expect(read(TIFR2) & 0x02).toBe(0x02);
  });

  it("phase correct sets TOV at BOTTOM only (18.7.4)", () => {
    const { write, read, pass } = chip();
    write(TCCR2A, 1);
    write(TCCR2B, 1);
    pass(2);
    write(TIFR2, 7);
    pass(500);
    expect(read(TIFR2) & 1).toBe(0);
    pass(12);
    expect(read(TIFR2) & 1).toBe(1);
  });
});

describe("outputs", () => {
  it("DDR gates the unit, PORT drives where no unit is connected (15.6)", () => {
    const { machine, edges, write, pass } = chip();
    const pin = machine.ports.named("PB3");
    write(TCCR2A, 0x83);
    write(OCR2A, 100);
    write(TCCR2B, 1);
    pass(1000);
    expect(edges).toEqual([]);
    write(DDRB, 8);
    pass(1000);
    expect(edges.length).toBeGreaterThan(6);
    write(PORTB, 8);
    write(TCCR2A, 0x03);
    pass(1000);
    expect(pin.level).toBe(1);
    const before = edges.length;
    pass(1000);
    expect(edges.length).toBe(before);
  });

  it("writing 1 to PINx toggles PORTx (14.2.2)", () => {
    const { machine, write, read } = chip();
    write(DDRB, 0x21);
    write(PINB, 0x20);
    expect(read(PORTB)).toBe(0x20);
    write(PINB, 0x21);
    expect(read(PORTB)).toBe(0x01);
    expect(machine.ports.named("PB5").level).toBe(0);
  });

  it("a forced compare acts at once outside PWM modes and sets no flag (15.5.1)", () => {
    const { machine, write, read } = chip();
    write(DDRB, 2);
    write(TCCR1A, 0xc0);
    write(TCCR1C, 0x80);
    expect(machine.ports.named("PB1").level).toBe(1);
    expect(read(TIFR1)).toBe(0);
    write(TCCR1A, 0x81);
    write(TCCR1C, 0x80);
    expect(machine.ports.named("PB1").level).toBe(1);
  });
});

describe("clocking", () => {
  it("one prescaler for timers 0 and 1, in step after its reset; timer 2 has its own (17.1, 18.10)", () => {
    const { write, read, read16, pass } = chip();
    write(0x45, 3);
    pass(37);
    write(TCCR1B, 3);
    write(TCCR2B, 4);
    pass(30);
    // 67 cycles since the start: one step of the shared prescaler, one of timer 2's.
    expect([read(0x46), read16(TCNT1), read(TCNT2)]).toEqual([1, 1, 1]);
    write(GTCCR, 1);
    pass(63);
    expect([read(0x46), read16(TCNT1), read(TCNT2)]).toEqual([1, 1, 2]);
    pass(1);
    expect([read(0x46), read16(TCNT1), read(TCNT2)]).toEqual([2, 2, 2]);
  });

  it("TSM holds the prescalers until it is cleared (17.4.1)", () => {
    const { write, read, pass } = chip();
    write(GTCCR, 0x83);
    write(TCCR2B, 2);
    pass(1000);
    expect(read(TCNT2)).toBe(0);
    expect(read(GTCCR)).toBe(0x83);
    write(GTCCR, 0);
    pass(80);
    expect(read(TCNT2)).toBe(10);
  });

  it("power reduction freezes the timer and its registers (10.11.3)", () => {
    const { machine, write, read16, pass } = chip();
    write(TCCR1B, 1);
    pass(100);
    write(PRR, 8);
    pass(1000);
    write(TCCR1A, 0x82);
    expect(machine.timers[1]!.tccrA).toBe(0);
    write(PRR, 0);
    expect(read16(TCNT1)).toBe(100);
    pass(10);
    expect(read16(TCNT1)).toBe(110);
  });

  it("CLKPR changes only after CLKPCE alone (9.12.2)", () => {
    const { machine, write } = chip();
    write(CLKPR, 3);
    expect(machine.clockDivisor).toBe(1);
    write(CLKPR, 0x80);
    write(CLKPR, 3);
    expect(machine.clockDivisor).toBe(8);
  });

  it("timer 2 stands still without its crystal (18.9)", () => {
    const { write, read, pass } = chip();
    write(TCCR2B, 1);
    write(ASSR, 0x20);
    pass(500);
    expect(read(TCNT2)).toBe(0);
    expect(read(ASSR)).toBe(0x20);
  });
});
