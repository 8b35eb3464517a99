/** A timer's registers by name. */
import type { Timer } from "./timer.js";

/** What `readBack` gave, by the registers' names. */
export function named(timer: Timer, values: readonly number[]): Record<string, number> {
  const n = timer.map.number;
  const names = [`TCCR${n}A`, `TCCR${n}B`, ...timer.channels.map(({ letter }) => `OCR${n}${letter}`)];
  if (timer.map.tccrC !== undefined) names.splice(2, 0, `TCCR${n}C`);
  if (timer.map.icr !== undefined) names.push(`ICR${n}`);
  return Object.fromEntries(names.map((name, index) => [name, values[index]!]));
}
