/**
 * The types in which chips, timers and boards are written down. Plain data: a chip is composed of timer blocks,
 * and a block is written once for all chips that have it. What does not exist is absent, never 0.
 */
import type { Supply } from "./supply.js";

/** Where a block of rows comes from: document, section, table. */
export interface Citation {
  readonly document: string;
  readonly section: string;
}

/** One named bit of a register: `position` counts from 0, the least significant bit. */
export interface BitFact {
  readonly name: string;
  readonly position: number;
}

/**
 * One 8-bit register. Sixteen-bit registers are two rows (`OCR1AL`, `OCR1AH`) plus a `WideRegisterFact` for the pair.
 * `address` is the data-space address (0x20 and up), as the CPU's LDS/STS sees it.
 */
export interface RegisterFact {
  readonly name: string;
  readonly address: number;
  /** Named bits; several names may share a position. */
  readonly bits: readonly BitFact[];
  /** Mask of the bits that keep what is written. Reserved bits read back 0. */
  readonly writable: number;
  /** Mask of the bits that act when written as 1 and read back 0 (force compare, prescaler reset …). */
  readonly strobes: number;
  /** Value after reset. */
  readonly reset: number;
  /** Mask of the bits that the hardware sets or clears by itself (flags, counters, pins): a read of them is not known. */
  readonly hardware?: number;
}

/** A 16-bit register seen as one name (`OCR1A`, `TCNT1`, `ICR1`): `address` is that of the low byte. */
export interface WideRegisterFact {
  readonly name: string;
  readonly address: number;
  readonly low: string;
  readonly high: string;
}

/** What one setting of the clock-select bits does. */
export type ClockSource =
  | { readonly kind: "stopped" }
  | { readonly kind: "divided"; readonly by: number }
  | { readonly kind: "external"; readonly pin: string; readonly edge: "falling" | "rising" };

/** Where TOP comes from in a mode. */
export type TopSource =
  | { readonly kind: "fixed"; readonly value: number }
  | { readonly kind: "compareA" }
  | { readonly kind: "capture" };

export type Slope = "single" | "dual";
export type ModeFamily = "normal" | "ctc" | "fast" | "phase correct" | "phase and frequency correct" | "reserved";

/** One row of a timer's mode table. `select` is the value of the WGM bits, most significant first. */
export interface ModeFact {
  readonly select: number;
  readonly family: ModeFamily;
  readonly top: TopSource;
  /** When a buffered compare value is taken over. */
  readonly updates: "immediate" | "bottom" | "top";
  /** Whether COMnA = 1 toggles OCnA in this mode (PWM families only; CTC and normal always toggle). */
  readonly toggleA: boolean;
}

/** Part of a register: bits `shift … shift + width - 1`, which carry bits `at …` of the whole field. */
export interface FieldPart {
  readonly register: string;
  readonly shift: number;
  readonly width: number;
  readonly at: number;
}

/** A field that may be spread over two registers (`WGM2`). */
export interface FieldFact {
  readonly name: string;
  readonly width: number;
  readonly parts: readonly FieldPart[];
}

/** One compare unit and its output pin. */
export interface ChannelFact {
  /** "A", "B" or "C". */
  readonly letter: string;
  /** `OCR2B`: the 8-bit register or the wide register's name. */
  readonly compare: string;
  /** `OC2B` */
  readonly unit: string;
  /** `PD3` */
  readonly port: string;
  /** The COM field's name, its register and the shift of its two bits. */
  readonly com: { readonly name: string; readonly register: string; readonly shift: number };
  /** Name of the compare interrupt's vector without `_vect`, and its mask bit in `TIMSKn`. */
  readonly interrupt: { readonly vector: string; readonly mask: string };
}

/** One timer of a chip. */
export interface TimerFact {
  readonly number: number;
  readonly bits: 8 | 16;
  /** TCCRnA, TCCRnB, (TCCRnC). */
  readonly control: readonly string[];
  readonly counter: string;
  /** ICRn, where the timer has one. */
  readonly capture?: string;
  readonly channels: readonly ChannelFact[];
  readonly modeField: FieldFact;
  readonly clockField: FieldFact;
  readonly modes: readonly ModeFact[];
  /** By the value of the clock-select field; index = value. */
  readonly clocks: readonly ClockSource[];
  readonly interruptMask: string;
  readonly flags: string;
  readonly overflow: { readonly vector: string; readonly mask: string };
  readonly captureInterrupt?: { readonly vector: string; readonly mask: string };
  readonly powerReduction: { readonly register: string; readonly bit: string };
  /** Which GTCCR bit resets and (with TSM) holds this timer's prescaler. */
  readonly prescalerReset: string;
  /** Present on a timer that can run from its own crystal: the bit of ASSR that says so. */
  readonly asynchronous?: { readonly register: string; readonly bit: string };
  readonly citation: Citation;
}

/** One 8-bit digital port. */
export interface PortFact {
  readonly letter: string;
  readonly pin: string;
  readonly direction: string;
  readonly output: string;
}

/** Two compare units that share a pin through the modulator (ATmega2560: OC0A and OC1C on PB7). */
export interface ModulatorFact {
  readonly port: string;
  readonly units: readonly [string, string];
  readonly citation: Citation;
}

export interface Chip {
  /** `atmega328p` */
  readonly id: string;
  /** The compiler's macro: `__AVR_ATmega328P__` */
  readonly macro: string;
  readonly registers: readonly RegisterFact[];
  readonly wide: readonly WideRegisterFact[];
  readonly timers: readonly TimerFact[];
  readonly ports: readonly PortFact[];
  readonly modulators: readonly ModulatorFact[];
  /** All interrupt vectors without `_vect`, in table order, with numbers from 1 (0 is reset). */
  readonly vectors: readonly { readonly name: string; readonly number: number }[];
  readonly ramBytes: number;
  readonly flashBytes: number;
  readonly eepromBytes: number;
  readonly citation: Citation;
}

/** One numbered board pin. `timer` names the compare unit that the core's analogWrite uses there. */
export interface BoardPin {
  readonly number: number;
  readonly port: string;
  readonly analogWriteUnit?: string;
  /** `A0` … where the pin has an analog channel. */
  readonly analog?: string;
}

export interface ClockFact {
  readonly hz: number;
  /** Relative, one-sided: 0.005 is ±0.5 %. */
  readonly tolerance: number;
  readonly source: string;
}

/** One choice of processor for a board (`nano:cpu=atmega168`); the first one of a board is its default. */
export interface BoardVariant {
  readonly option: string | null;
  readonly chip: string;
  readonly fCpu: number;
  readonly clock: ClockFact;
  readonly supply: Supply;
  /** The board macro where it differs from the board's own (the first mega: `ARDUINO_AVR_MEGA`). */
  readonly macro?: string;
}

export interface Board {
  /** Board id of the board packages: `uno`, `nano`, `mega` … */
  readonly id: string;
  readonly name: string;
  /** `ARDUINO_AVR_UNO` */
  readonly macro: string;
  readonly variants: readonly BoardVariant[];
  readonly pins: readonly BoardPin[];
  readonly ledPin?: number;
  /** Named constants of the pins file: SS, MOSI, SDA, LED_BUILTIN … → pin number. */
  readonly constants: Readonly<Record<string, number>>;
  /** Pin numbers that attachInterrupt knows, index = interrupt number. */
  readonly interruptPins: readonly number[];
  readonly citation: Citation;
}

/** What a sketch is analysed for. Every field says in `decidedBy` which source decided it. */
export interface Target {
  readonly board: Board | null;
  /** As asked for: `nano`, `nano:cpu=atmega168`, `atmega328p`. */
  readonly boardId: string;
  /** The board's macro for the chosen processor; absent for a bare chip. */
  readonly boardMacro?: string;
  readonly chip: Chip;
  /** Whether the Arduino core runs (false only for a program with its own main). Bare chips of core boards get standard pins. */
  readonly pins: readonly BoardPin[];
  /** The oscillator. */
  readonly clockHz: number;
  /** What the build was told. */
  readonly fCpu: number;
  readonly clockTolerance: number;
  readonly toleranceSource: string;
  /** Null for a bare chip: nobody said what feeds it. */
  readonly supply: Supply | null;
  /** Who named the board. */
  readonly decidedBy: DecidedBy;
  /** Who named the oscillator; `board` where nobody did and the board's own counts. */
  readonly clockDecidedBy: DecidedBy | "board";
}

export type DecidedBy = "command line" | "comment" | "settings" | "project file" | "default";
