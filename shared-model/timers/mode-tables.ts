/**
 * Mode tables ("Waveform Generation Mode Bit Description") of the two timer blocks; index = value of the WGM bits.
 *
 * Sources: ATmega48A/PA/88A/PA/168A/PA/328/P data sheet (DS40002061), table 15-8 (timer 0), 18-8 (timer 2) and 16-4
 * (timer 1); ATmega640/1280/1281/2560/2561 data sheet (2549), tables 16-8, 20-8 and 17-2.
 *
 * `toggleA`: compare output mode 1 toggles channel A. 8-bit block: "WGMn2 = 1: Toggle OCnA on Compare Match" (tables
 * 15-3, 15-4, 18-3, 18-4), so modes 5 and 7. 16-bit block: tables 16-2 and 16-3 of DS40002061 and 17-4, 17-5 of 2549
 * say 14 or 15 for fast PWM, 9 or 11 for the dual-slope modes. Older revisions of the 48/88/168/328 sheet print 15
 * alone for fast PWM, and 8, 9, 10 or 11 for dual slope: the newest revision is followed.
 */
import type { ModeFact } from "../chip.js";

export const eightBitModes: readonly ModeFact[] = [
  { select: 0, family: "normal", top: { kind: "fixed", value: 0xff }, updates: "immediate", toggleA: false },
  { select: 1, family: "phase correct", top: { kind: "fixed", value: 0xff }, updates: "top", toggleA: false },
  { select: 2, family: "ctc", top: { kind: "compareA" }, updates: "immediate", toggleA: false },
  { select: 3, family: "fast", top: { kind: "fixed", value: 0xff }, updates: "bottom", toggleA: false },
  { select: 4, family: "reserved", top: { kind: "fixed", value: 0xff }, updates: "immediate", toggleA: false },
  { select: 5, family: "phase correct", top: { kind: "compareA" }, updates: "top", toggleA: true },
  { select: 6, family: "reserved", top: { kind: "fixed", value: 0xff }, updates: "immediate", toggleA: false },
  { select: 7, family: "fast", top: { kind: "compareA" }, updates: "bottom", toggleA: true },
];

export const sixteenBitModes: readonly ModeFact[] = [
  { select: 0, family: "normal", top: { kind: "fixed", value: 0xffff }, updates: "immediate", toggleA: false },
  { select: 1, family: "phase correct", top: { kind: "fixed", value: 0xff }, updates: "top", toggleA: false },
  { select: 2, family: "phase correct", top: { kind: "fixed", value: 0x1ff }, updates: "top", toggleA: false },
  { select: 3, family: "phase correct", top: { kind: "fixed", value: 0x3ff }, updates: "top", toggleA: false },
  { select: 4, family: "ctc", top: { kind: "compareA" }, updates: "immediate", toggleA: false },
  { select: 5, family: "fast", top: { kind: "fixed", value: 0xff }, updates: "bottom", toggleA: false },
  { select: 6, family: "fast", top: { kind: "fixed", value: 0x1ff }, updates: "bottom", toggleA: false },
  { select: 7, family: "fast", top: { kind: "fixed", value: 0x3ff }, updates: "bottom", toggleA: false },
  { select: 8, family: "phase and frequency correct", top: { kind: "capture" }, updates: "bottom", toggleA: false },
  { select: 9, family: "phase and frequency correct", top: { kind: "compareA" }, updates: "bottom", toggleA: true },
  { select: 10, family: "phase correct", top: { kind: "capture" }, updates: "top", toggleA: false },
  { select: 11, family: "phase correct", top: { kind: "compareA" }, updates: "top", toggleA: true },
  { select: 12, family: "ctc", top: { kind: "capture" }, updates: "immediate", toggleA: false },
  { select: 13, family: "reserved", top: { kind: "fixed", value: 0xffff }, updates: "immediate", toggleA: false },
  { select: 14, family: "fast", top: { kind: "capture" }, updates: "bottom", toggleA: true },
  { select: 15, family: "fast", top: { kind: "compareA" }, updates: "bottom", toggleA: true },
];
