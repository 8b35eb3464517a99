/**
 * What millis, micros and delay become when timer 0 is changed: worked out from the core's own code (wiring.c of the
 * packaged core: the overflow routine, micros and delay), not from its manual. Source read: ArduinoCore-avr 1.8.7.
 *
 * - The overflow routine adds 64 · 256 cycles' worth of time at each overflow, however long the overflow took.
 * - micros is (overflows · 256 + TCNT0) · 64 cycles.
 * - delay counts micros up by 1000; a micros that runs back looks like 71 minutes gone by and ends the delay.
 */
import type { TimerFact } from "../../shared-model/chip.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import { showFactor, showSeconds } from "./show.js";
import { clocksOf, modeOf, topBounds } from "./timer-view.js";

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
export const CORE_OVERFLOW_CYCLES = 64 * 256;

const UNKNOWN: TimeBase = { millis: { kind: "unknown" }, micros: { kind: "unknown" }, delay: { kind: "unknown" } };
const STOPPED: TimeBase = { millis: { kind: "stopped" }, micros: { kind: "stopped" }, delay: { kind: "stopped" } };
/** Without overflows micros repeats the same stretch of TCNT0 again and again. */
const BACKWARDS: TimeBase = {
  millis: { kind: "stopped" },
  micros: { kind: "runs back" },
  delay: { kind: "runs back" },
};

/** The core's clocks on this timer 0; `overflowOn`: whether TOIE0 is set. */
export function timeBaseOf(timer: TimerFact, snapshot: TimerSnapshot, overflowOn: boolean): TimeBase {
  const clocks = clocksOf(timer, snapshot);
  const clock = clocks[0];
  const mode = modeOf(timer, snapshot);
  if (snapshot.powered === false || snapshot.held === true) return STOPPED;
  if (clocks.length !== 1 || clock === undefined || mode === undefined) return UNKNOWN;
  if (clock.kind === "stopped") return STOPPED;
  if (clock.kind === "external") return UNKNOWN;
  const top = topBounds(timer, mode, snapshot);
  if (top === null || top.min !== top.max || snapshot.clockDivisor === null) return UNKNOWN;
  // Normal and CTC overflow at MAX, fast PWM at TOP, dual slope at BOTTOM (DS40002061 table 15-8, column TOV).
  const reachesMax = mode.family === "normal" || (mode.family === "ctc" && top.max === 0xff);
  if (mode.family === "ctc" && !reachesMax) return top.max === 0 ? STOPPED : BACKWARDS;
  if (!overflowOn) return BACKWARDS;
  const dual = mode.family === "phase correct";
  const counts = mode.family === "normal" ? 256 : dual ? 2 * top.max : top.max + 1;
  if (counts === 0 || mode.family === "reserved") return UNKNOWN;
  const factor = CORE_OVERFLOW_CYCLES / (counts * clock.by * snapshot.clockDivisor);
  const paced: Pace = { kind: "paced", factor };
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
