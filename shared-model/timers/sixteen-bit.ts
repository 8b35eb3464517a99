/**
 * The 16-bit timer block (timers 1, 3, 4, 5): two or three compare units, input capture, sixteen modes.
 * Written once for all chips that have it; a chip gives number, addresses, pins and clock table.
 */
import type { ChannelFact, Citation, ClockSource, RegisterFact, TimerFact, WideRegisterFact } from "../chip.js";
import { type Bits, numbered, row, wide } from "../chips/register-row.js";
import { sixteenBitModes } from "./mode-tables.js";

export interface SixteenBitPlacement {
  readonly number: number;
  /** Addresses of TCCRnA (the others follow at fixed distances), TIMSKn and TIFRn. */
  readonly base: number;
  readonly interruptMask: number;
  readonly flags: number;
  /** Output pins of the channels A, B and, where there is one, C. */
  readonly ports: readonly string[];
  readonly clocks: readonly ClockSource[];
  readonly powerReduction: { readonly register: string; readonly bit: string };
  /** Whether the chip's header names the data bits (`OCR1AL0` …). */
  readonly namedDataBits: boolean;
  readonly citation: Citation;
}

export interface SixteenBitBlock {
  readonly timer: TimerFact;
  readonly registers: readonly RegisterFact[];
  readonly wide: readonly WideRegisterFact[];
}

const letters = ["A", "B", "C"];

/** DS40002061 section 16.11; 2549 section 17.11: reserved bits read 0, FOC bits always read 0. */
export function sixteenBitTimer(place: SixteenBitPlacement): SixteenBitBlock {
  const n = place.number;
  const used = letters.slice(0, place.ports.length);
  const data = (prefix: string): Bits => (place.namedDataBits ? numbered(prefix) : {});
  const pair = (name: string, address: number, hardware = 0): RegisterFact[] => [
    row(`${name}L`, address, data(`${name}L`), { writable: 0xff, hardware }),
    row(`${name}H`, address + 1, data(`${name}H`), { writable: 0xff, hardware }),
  ];
  const compareAddress = (index: number) => place.base + 8 + 2 * index;
  const perChannel = (name: (letter: string) => string, position: (index: number) => number): Bits =>
    Object.fromEntries(used.map((letter, index) => [name(letter), position(index)]));
  const comBits = Object.fromEntries(
    used.flatMap((letter, index) => [
      [`COM${n}${letter}0`, 6 - 2 * index],
      [`COM${n}${letter}1`, 7 - 2 * index],
    ]),
  );
  const force = perChannel(
    (letter) => `FOC${n}${letter}`,
    (index) => 7 - index,
  );
  const forceMask = Object.values(force).reduce((mask, position) => mask | (1 << position), 0);
  const flags = {
    [`TOV${n}`]: 0,
    ...perChannel(
      (letter) => `OCF${n}${letter}`,
      (index) => 1 + index,
    ),
    [`ICF${n}`]: 5,
  };
  const flagMask = Object.values(flags).reduce((mask, position) => mask | (1 << position), 0);
  const registers = [
    row(`TCCR${n}A`, place.base, { [`WGM${n}0`]: 0, [`WGM${n}1`]: 1, ...comBits }),
    row(`TCCR${n}B`, place.base + 1, {
      [`CS${n}0`]: 0,
      [`CS${n}1`]: 1,
      [`CS${n}2`]: 2,
      [`WGM${n}2`]: 3,
      [`WGM${n}3`]: 4,
      [`ICES${n}`]: 6,
      [`ICNC${n}`]: 7,
    }),
    row(`TCCR${n}C`, place.base + 2, force, { writable: 0, strobes: forceMask }),
    ...pair(`TCNT${n}`, place.base + 4, 0xff),
    ...pair(`ICR${n}`, place.base + 6),
    ...used.flatMap((letter, index) => pair(`OCR${n}${letter}`, compareAddress(index))),
    row(`TIMSK${n}`, place.interruptMask, {
      [`TOIE${n}`]: 0,
      ...perChannel(
        (letter) => `OCIE${n}${letter}`,
        (index) => 1 + index,
      ),
      [`ICIE${n}`]: 5,
    }),
    // Flags: set by the timer, cleared by writing 1 or by running the interrupt routine.
    row(`TIFR${n}`, place.flags, flags, { writable: 0, strobes: flagMask, hardware: flagMask }),
  ];
  const channels: ChannelFact[] = used.map((letter, index) => ({
    letter,
    compare: `OCR${n}${letter}`,
    unit: `OC${n}${letter}`,
    port: place.ports[index]!,
    com: { name: `COM${n}${letter}`, register: `TCCR${n}A`, shift: 6 - 2 * index },
    interrupt: { vector: `TIMER${n}_COMP${letter}`, mask: `OCIE${n}${letter}` },
  }));
  const timer: TimerFact = {
    number: n,
    bits: 16,
    control: [`TCCR${n}A`, `TCCR${n}B`, `TCCR${n}C`],
    counter: `TCNT${n}`,
    capture: `ICR${n}`,
    channels,
    modeField: {
      name: `WGM${n}`,
      width: 4,
      parts: [
        { register: `TCCR${n}A`, shift: 0, width: 2, at: 0 },
        { register: `TCCR${n}B`, shift: 3, width: 2, at: 2 },
      ],
    },
    clockField: { name: `CS${n}`, width: 3, parts: [{ register: `TCCR${n}B`, shift: 0, width: 3, at: 0 }] },
    modes: sixteenBitModes,
    clocks: place.clocks,
    interruptMask: `TIMSK${n}`,
    flags: `TIFR${n}`,
    overflow: { vector: `TIMER${n}_OVF`, mask: `TOIE${n}` },
    captureInterrupt: { vector: `TIMER${n}_CAPT`, mask: `ICIE${n}` },
    powerReduction: place.powerReduction,
    prescalerReset: "PSRSYNC",
    citation: place.citation,
  };
  return {
    timer,
    registers,
    wide: [
      wide(`TCNT${n}`, place.base + 4),
      wide(`ICR${n}`, place.base + 6),
      ...used.map((letter, index) => wide(`OCR${n}${letter}`, compareAddress(index))),
    ],
  };
}
