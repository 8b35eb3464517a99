/**
 * The oracle's own map of the two chips that it simulates: addresses, vectors and pins, written from avr-libc's
 * iom328p.h and iomxx0_1.h. It must not import the product's chip tables: what judges them may not share them.
 */

export interface PortMap {
  readonly letter: string;
  /** Data-space addresses; DDRx and PORTx follow PINx directly. */
  readonly pin: number;
  /** Bits that exist; the others keep nothing and read 0 (DS40002061 section 14.4.5, DS40002211 section 13.4.20). 8 where not said. */
  readonly bits?: number;
}

export interface ChannelMap {
  readonly letter: "A" | "B" | "C";
  /** Address of OCRnx (low byte where 16 bits wide). */
  readonly ocr: number;
  /** Shift of the two COM bits in TCCRnA. */
  readonly comShift: number;
  /** `PD3` */
  readonly port: string;
  readonly vector: number;
}

export interface TimerMap {
  readonly number: number;
  readonly bits: 8 | 16;
  readonly tccrA: number;
  readonly tccrB: number;
  /** Only 16-bit timers have it. */
  readonly tccrC?: number;
  readonly tcnt: number;
  readonly icr?: number;
  readonly channels: readonly ChannelMap[];
  readonly timsk: number;
  readonly tifr: number;
  readonly overflowVector: number;
  readonly captureVector?: number;
  /** Clock-select value → divisor; 0 = stopped, -1 = external clock. */
  readonly divisors: readonly number[];
  /** Which bit of GTCCR resets its prescaler. */
  readonly prescalerReset: number;
  readonly prr: number;
  readonly prrBit: number;
  readonly assr?: number;
}

export interface ChipMap {
  readonly mcu: "atmega328p" | "atmega2560";
  readonly ramStart: number;
  readonly ramBytes: number;
  readonly flashBytes: number;
  readonly ports: readonly PortMap[];
  readonly timers: readonly TimerMap[];
  readonly gtccr: number;
  readonly clkpr: number;
  readonly uarts: readonly { readonly ucsrA: number; readonly udr: number }[];
  readonly vectors: { readonly adc: number; readonly twi: number; readonly spi: number; readonly eepromReady: number };
  /** External interrupts INT0…: pin and vector. */
  readonly external: readonly { readonly port: string; readonly vector: number }[];
  /** Pin-change groups: port pins by bit of PCMSKn (null = no pin carried), and the vector. */
  readonly pinChange: readonly { readonly ports: readonly (string | null)[]; readonly vector: number }[];
  /** Two units on one pin through the output compare modulator. */
  readonly modulator: { readonly port: string } | null;
}

/** Clock select of timers 0, 1, 3, 4, 5 (ATmega328P data sheet, tables 15-9 and 16-5). */
const SYNCHRONOUS = [0, 1, 8, 64, 256, 1024, -1, -1] as const;
/** Clock select of timer 2 (table 18-9). */
const TIMER_2 = [0, 1, 8, 32, 64, 128, 256, 1024] as const;

function eightBit(
  number: 0 | 2,
  pins: readonly [string, string],
  vectors: { compareA: number; compareB: number; overflow: number },
  prrBit: number,
): TimerMap {
  const base = number === 0 ? 0x44 : 0xb0;
  return {
    number,
    bits: 8,
    tccrA: base,
    tccrB: base + 1,
    tcnt: base + 2,
    channels: [
      { letter: "A", ocr: base + 3, comShift: 6, port: pins[0], vector: vectors.compareA },
      { letter: "B", ocr: base + 4, comShift: 4, port: pins[1], vector: vectors.compareB },
    ],
    timsk: 0x6e + number,
    tifr: 0x35 + number,
    overflowVector: vectors.overflow,
    divisors: number === 0 ? SYNCHRONOUS : TIMER_2,
    prescalerReset: number === 0 ? 0 : 1,
    prr: 0x64,
    prrBit,
    ...(number === 2 ? { assr: 0xb6 } : {}),
  };
}

function sixteenBit(
  number: 1 | 3 | 4 | 5,
  pins: readonly string[],
  captureVector: number,
  prr: number,
  prrBit: number,
): TimerMap {
  const base = { 1: 0x80, 3: 0x90, 4: 0xa0, 5: 0x120 }[number];
  return {
    number,
    bits: 16,
    tccrA: base,
    tccrB: base + 1,
    tccrC: base + 2,
    tcnt: base + 4,
    icr: base + 6,
    channels: pins.map((port, index) => ({
      letter: (["A", "B", "C"] as const)[index]!,
      ocr: base + 8 + 2 * index,
      comShift: 6 - 2 * index,
      port,
      vector: captureVector + 1 + index,
    })),
    timsk: 0x6e + number,
    tifr: 0x35 + number,
    captureVector,
    overflowVector: captureVector + 1 + pins.length,
    divisors: SYNCHRONOUS,
    prescalerReset: 0,
    prr,
    prrBit,
  };
}

const bitsOf = (letter: string): string[] => [0, 1, 2, 3, 4, 5, 6, 7].map((bit) => `P${letter}${bit}`);

export const ATMEGA328P: ChipMap = {
  mcu: "atmega328p",
  ramStart: 0x100,
  ramBytes: 2048,
  flashBytes: 32768,
  ports: [
    { letter: "B", pin: 0x23 },
    { letter: "C", pin: 0x26, bits: 7 },
    { letter: "D", pin: 0x29 },
  ],
  timers: [
    eightBit(0, ["PD6", "PD5"], { compareA: 14, compareB: 15, overflow: 16 }, 5),
    sixteenBit(1, ["PB1", "PB2"], 10, 0x64, 3),
    eightBit(2, ["PB3", "PD3"], { compareA: 7, compareB: 8, overflow: 9 }, 6),
  ],
  gtccr: 0x43,
  clkpr: 0x61,
  uarts: [{ ucsrA: 0xc0, udr: 0xc6 }],
  vectors: { adc: 21, twi: 24, spi: 17, eepromReady: 22 },
  external: [
    { port: "PD2", vector: 1 },
    { port: "PD3", vector: 2 },
  ],
  pinChange: [
    { ports: bitsOf("B"), vector: 3 },
    { ports: bitsOf("C"), vector: 4 },
    { ports: bitsOf("D"), vector: 5 },
  ],
  modulator: null,
};

export const ATMEGA2560: ChipMap = {
  mcu: "atmega2560",
  ramStart: 0x200,
  ramBytes: 8192,
  flashBytes: 262144,
  ports: [
    ...["A", "B", "C", "D", "E", "F"].map((letter, index) => ({ letter, pin: 0x20 + 3 * index })),
    { letter: "G", pin: 0x32, bits: 6 },
    ...["H", "J", "K", "L"].map((letter, index) => ({ letter, pin: 0x100 + 3 * index })),
  ],
  timers: [
    eightBit(0, ["PB7", "PG5"], { compareA: 21, compareB: 22, overflow: 23 }, 5),
    sixteenBit(1, ["PB5", "PB6", "PB7"], 16, 0x64, 3),
    eightBit(2, ["PB4", "PH6"], { compareA: 13, compareB: 14, overflow: 15 }, 6),
    sixteenBit(3, ["PE3", "PE4", "PE5"], 31, 0x65, 3),
    sixteenBit(4, ["PH3", "PH4", "PH5"], 41, 0x65, 4),
    sixteenBit(5, ["PL3", "PL4", "PL5"], 46, 0x65, 5),
  ],
  gtccr: 0x43,
  clkpr: 0x61,
  uarts: [
    { ucsrA: 0xc0, udr: 0xc6 },
    { ucsrA: 0xc8, udr: 0xce },
    { ucsrA: 0xd0, udr: 0xd6 },
    { ucsrA: 0x130, udr: 0x136 },
  ],
  vectors: { adc: 29, twi: 39, spi: 24, eepromReady: 30 },
  external: [
    ...[0, 1, 2, 3].map((bit) => ({ port: `PD${bit}`, vector: 1 + bit })),
    ...[4, 5, 6, 7].map((bit) => ({ port: `PE${bit}`, vector: 1 + bit })),
  ],
  pinChange: [
    { ports: bitsOf("B"), vector: 9 },
    { ports: ["PE0", ...bitsOf("J").slice(0, 7)], vector: 10 },
    { ports: bitsOf("K"), vector: 11 },
  ],
  modulator: { port: "PB7" },
};

/** Registers of a timer by name, as the report names them; 16-bit ones whole. */
export function timerRegisters(timer: TimerMap): { name: string; address: number; wide: boolean }[] {
  const n = timer.number;
  const wide = timer.bits === 16;
  return [
    { name: `TCCR${n}A`, address: timer.tccrA, wide: false },
    { name: `TCCR${n}B`, address: timer.tccrB, wide: false },
    ...(timer.tccrC === undefined ? [] : [{ name: `TCCR${n}C`, address: timer.tccrC, wide: false }]),
    ...timer.channels.map((channel) => ({ name: `OCR${n}${channel.letter}`, address: channel.ocr, wide })),
    ...(timer.icr === undefined ? [] : [{ name: `ICR${n}`, address: timer.icr, wide: true }]),
  ];
}
