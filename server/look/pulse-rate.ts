/** How often a timer's pulses come for a given TOP: for messages that compare what was with what would be. */
import type { ModeFact } from "../../shared-model/chip.js";
import { type Fraction, fraction } from "../../shared-model/fraction.js";
import { isPwm } from "./timer-view.js";

/**
 * DS40002061 sections 15.7.3, 15.7.4: fast PWM counts TOP + 1 clocks a period, the dual-slope modes 2 · TOP. Null where
 * there is no pulse (TOP 0 in dual slope, modes without PWM, clocks that are no whole number of Hz).
 */
export function pulseRate(clockHz: number, prescaler: number, mode: ModeFact, top: number): Fraction | null {
  if (!isPwm(mode) || !Number.isSafeInteger(clockHz)) return null;
  const counts = mode.family === "fast" ? top + 1 : 2 * top;
  return counts === 0 ? null : fraction(clockHz, prescaler * counts);
}
