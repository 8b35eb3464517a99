/**
 * The 8-bit timer block (timers 0 and 2): two compare units, modes normal, CTC, fast PWM and phase correct PWM.
 * Written once for all chips that have it; a chip gives number, addresses, pins and clock table.
 */
import type { Citation, ClockSource, RegisterFact, TimerFact } from "../chip.js";
import { type Bits, numbered, row } from "../chips/register-row.js";
import { eightBitModes } from "./mode-tables.js";

export interface EightBitPlacement {
  readonly number: number;
  /** Addresses of TCCRnA (TCCRnB, TCNTn, OCRnA, OCRnB follow it), TIMSKn and TIFRn. */
  readonly base: number;
  readonly interruptMask: number;
  readonly flags: number;
  readonly ports: { readonly a: string; readonly b: string };
  readonly clocks: readonly ClockSource[];
  readonly powerReduction: { readonly register: string; readonly bit: string };
  readonly prescalerReset: string;
  readonly asynchronous?: { readonly register: string; readonly bit: string };
  /** Prefixes of the data bits' names where the chip's header names them. */
  readonly dataBits?: { readonly counter: string; readonly a: string; readonly b: string };
  readonly citation: Citation;
}

export interface TimerBlock {
  readonly timer: TimerFact;
  readonly registers: readonly RegisterFact[];
}

/** DS40002061 sections 15.9 and 18.11; 2549 sections 16.9 and 20.10: reserved bits read 0, FOC bits always read 0. */
export function eightBitTimer(place: EightBitPlacement): TimerBlock {
  const n = place.number;
  const data = (prefix: string | undefined): Bits => (prefix === undefined ? {} : numbered(prefix));
  const registers = [
    row(`TCCR${n}A`, place.base, {
      [`WGM${n}0`]: 0,
      [`WGM${n}1`]: 1,
      [`COM${n}B0`]: 4,
      [`COM${n}B1`]: 5,
      [`COM${n}A0`]: 6,
      [`COM${n}A1`]: 7,
    }),
    row(
      `TCCR${n}B`,
      place.base + 1,
      { [`CS${n}0`]: 0, [`CS${n}1`]: 1, [`CS${n}2`]: 2, [`WGM${n}2`]: 3, [`FOC${n}B`]: 6, [`FOC${n}A`]: 7 },
      { writable: 0x0f, strobes: 0xc0 },
    ),
    row(`TCNT${n}`, place.base + 2, data(place.dataBits?.counter), { writable: 0xff, hardware: 0xff }),
    row(`OCR${n}A`, place.base + 3, data(place.dataBits?.a)),
    row(`OCR${n}B`, place.base + 4, data(place.dataBits?.b)),
    row(`TIMSK${n}`, place.interruptMask, { [`TOIE${n}`]: 0, [`OCIE${n}A`]: 1, [`OCIE${n}B`]: 2 }),
    // Flags: set by the timer, cleared by writing 1 or by running the interrupt routine.
    row(
      `TIFR${n}`,
      place.flags,
      { [`TOV${n}`]: 0, [`OCF${n}A`]: 1, [`OCF${n}B`]: 2 },
      { writable: 0, strobes: 0x07, hardware: 0x07 },
    ),
  ];
  const timer: TimerFact = {
    number: n,
    bits: 8,
    control: [`TCCR${n}A`, `TCCR${n}B`],
    counter: `TCNT${n}`,
    channels: [
      {
        letter: "A",
        compare: `OCR${n}A`,
        unit: `OC${n}A`,
        port: place.ports.a,
        com: { name: `COM${n}A`, register: `TCCR${n}A`, shift: 6 },
        interrupt: { vector: `TIMER${n}_COMPA`, mask: `OCIE${n}A` },
      },
      {
        letter: "B",
        compare: `OCR${n}B`,
        unit: `OC${n}B`,
        port: place.ports.b,
        com: { name: `COM${n}B`, register: `TCCR${n}A`, shift: 4 },
        interrupt: { vector: `TIMER${n}_COMPB`, mask: `OCIE${n}B` },
      },
    ],
    modeField: {
      name: `WGM${n}`,
      width: 3,
      parts: [
        { register: `TCCR${n}A`, shift: 0, width: 2, at: 0 },
        { register: `TCCR${n}B`, shift: 3, width: 1, at: 2 },
      ],
    },
    clockField: { name: `CS${n}`, width: 3, parts: [{ register: `TCCR${n}B`, shift: 0, width: 3, at: 0 }] },
    modes: eightBitModes,
    clocks: place.clocks,
    interruptMask: `TIMSK${n}`,
    flags: `TIFR${n}`,
    overflow: { vector: `TIMER${n}_OVF`, mask: `TOIE${n}` },
    powerReduction: place.powerReduction,
    prescalerReset: place.prescalerReset,
    ...(place.asynchronous === undefined ? {} : { asynchronous: place.asynchronous }),
    citation: place.citation,
  };
  return { timer, registers };
}
