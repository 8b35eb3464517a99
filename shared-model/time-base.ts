/**
 * What millis, micros and delay become when timer 0 counts otherwise: worked out from the core's own code (wiring.c of the
 * packaged core: the overflow routine, micros and delay), not from its manual. Source read: ArduinoCore-avr 1.8.7.
 *
 * - The overflow routine adds 64 · 256 cycles' worth of time at each overflow, however long the overflow took.
 * - micros is (overflows · 256 + TCNT0) · 64 cycles.
 * - delay counts micros up by 1000; a micros that runs back looks like 71 minutes gone by and ends the delay.
 */
import type { ModeFact } from "./chip.js";
import { showFactor, showSeconds } from "./show-numbers.js";

/** How one clock of the core runs: `factor` is counted time over real time. */
export type Pace =
  | { readonly kind: "paced"; readonly factor: number }
  | { readonly kind: "stopped" }
  | { readonly kind: "runs back" }
  | { readonly kind: "unknown" };

export interface TimeBase {
  readonly millis: Pace;
  readonly micros: Pace;
  /** For delay: `paced` with counted over real time (64: ends 64 times too early), `stopped` never ends, `runs back` ends almost at once. */
  readonly delay: Pace;
}

/** Cycles between overflows as the core's init leaves timer 0: 64 · 256. */
const CORE_OVERFLOW_CYCLES = 64 * 256;

export const TIME_BASE_UNKNOWN: TimeBase = {
  millis: { kind: "unknown" },
  micros: { kind: "unknown" },
  delay: { kind: "unknown" },
};
export const TIME_BASE_STOPPED: TimeBase = {
  millis: { kind: "stopped" },
  micros: { kind: "stopped" },
  delay: { kind: "stopped" },
};
/** Without overflows micros repeats the same stretch of TCNT0 again and again. */
const BACKWARDS: TimeBase = {
  millis: { kind: "stopped" },
  micros: { kind: "runs back" },
  delay: { kind: "runs back" },
};

/** How timer 0 counts: everything known. */
export interface CountedTime {
  readonly mode: Pick<ModeFact, "family">;
  readonly top: number;
  /** What the CPU clock is divided by, the timer's prescaler and CLKPR together. */
  readonly dividedBy: number;
  /** Whether TOIE0 is set. */
  readonly overflowOn: boolean;
}

/** The core's clocks where timer 0 counts like this. */
export function timeBaseAt({ mode, top, dividedBy, overflowOn }: CountedTime): TimeBase {
  // Normal and CTC overflow at MAX, fast PWM at TOP, dual slope at BOTTOM (DS40002061 table 15-8, column TOV).
  const reachesMax = mode.family === "normal" || (mode.family === "ctc" && top === 0xff);
  if (mode.family === "ctc" && !reachesMax) return top === 0 ? TIME_BASE_STOPPED : BACKWARDS;
  if (!overflowOn) return BACKWARDS;
  const dual = mode.family === "phase correct";
  const counts = mode.family === "normal" ? 256 : dual ? 2 * top : top + 1;
  if (counts === 0 || mode.family === "reserved") return TIME_BASE_UNKNOWN;
  const paced: Pace = { kind: "paced", factor: CORE_OVERFLOW_CYCLES / (counts * dividedBy) };
  return dual
    ? { millis: paced, micros: { kind: "runs back" }, delay: { kind: "runs back" } }
    : { millis: paced, micros: paced, delay: paced };
}

/** Whether all three run as the core means them to. */
export function isTrue(base: TimeBase): boolean {
  return [base.millis, base.micros, base.delay].every((pace) => pace.kind === "paced" && pace.factor === 1);
}

/** All three in one clause: `delay(1000) lasts 15.63 ms, millis() and micros() run 64 times too fast`. */
export function timeBaseWords(base: TimeBase): string {
  const { millis, micros, delay } = base;
  if (millis.kind === "paced" && micros.kind === "paced" && delay.kind === "paced") {
    return `delay(1000) lasts ${showSeconds(1 / delay.factor)}, millis() and micros() run ${speed(millis.factor)}`;
  }
  return `${delayWords(delay)}, millis() ${paceWords(millis)}, micros() ${paceWords(micros)}`;
}

function delayWords(pace: Pace): string {
  if (pace.kind === "paced") return `delay(1000) lasts ${showSeconds(1 / pace.factor)}`;
  if (pace.kind === "stopped") return "delay never ends";
  return pace.kind === "runs back" ? "delay ends almost at once" : "delay is not known";
}

function paceWords(pace: Pace): string {
  if (pace.kind === "paced") return pace.factor === 1 ? "keeps time" : `runs ${speed(pace.factor)}`;
  if (pace.kind === "stopped") return "stands still";
  return pace.kind === "runs back" ? "jumps back again and again" : "is not known";
}

function speed(factor: number): string {
  return factor >= 1 ? `${showFactor(factor)} times too fast` : `${showFactor(1 / factor)} times too slow`;
}
