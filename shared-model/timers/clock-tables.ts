/**
 * Clock-select tables of the timer blocks, indexed by the value of the CSn bits.
 *
 * Sources: ATmega48A/PA/88A/PA/168A/PA/328/P data sheet (DS40002061), tables 15-9, 16-5, 18-9 "Clock Select Bit
 * Description"; ATmega640/1280/1281/2560/2561 data sheet (2549), tables 16-9, 17-6, 20-9: the same settings.
 */
import type { ClockSource } from "../chip.js";

/** Timers 0, 1, 3, 4, 5: 1, 8, 64, 256, 1024 and both edges of the pin Tn. */
export function synchronousClocks(externalPin: string): readonly ClockSource[] {
  return [
    { kind: "stopped" },
    { kind: "divided", by: 1 },
    { kind: "divided", by: 8 },
    { kind: "divided", by: 64 },
    { kind: "divided", by: 256 },
    { kind: "divided", by: 1024 },
    { kind: "external", pin: externalPin, edge: "falling" },
    { kind: "external", pin: externalPin, edge: "rising" },
  ];
}

/** Timer 2: 1, 8, 32, 64, 128, 256, 1024; no external edge, but a crystal of its own (ASSR.AS2). */
export const asynchronousClocks: readonly ClockSource[] = [
  { kind: "stopped" },
  { kind: "divided", by: 1 },
  { kind: "divided", by: 8 },
  { kind: "divided", by: 32 },
  { kind: "divided", by: 64 },
  { kind: "divided", by: 128 },
  { kind: "divided", by: 256 },
  { kind: "divided", by: 1024 },
];
