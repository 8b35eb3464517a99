/**
 * What millis, micros and delay become in a state of timer 0: the arithmetic is `shared-model/time-base.ts`, what is not
 * known of the state is weighed here.
 */
import type { TimerFact } from "../../shared-model/chip.js";
import { TIME_BASE_STOPPED, TIME_BASE_UNKNOWN, type TimeBase, timeBaseAt } from "../../shared-model/time-base.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import { clocksOf, modeOf, topBounds } from "./timer-view.js";

export { isTrue, type Pace, type TimeBase, timeBaseWords } from "../../shared-model/time-base.js";

/** The core's clocks on this timer 0; `overflowOn`: whether TOIE0 is set. */
export function timeBaseOf(timer: TimerFact, snapshot: TimerSnapshot, overflowOn: boolean): TimeBase {
  const clocks = clocksOf(timer, snapshot);
  const clock = clocks[0];
  const mode = modeOf(timer, snapshot);
  if (snapshot.powered === false || snapshot.held === true) return TIME_BASE_STOPPED;
  if (clocks.length !== 1 || clock === undefined || mode === undefined) return TIME_BASE_UNKNOWN;
  if (clock.kind === "stopped") return TIME_BASE_STOPPED;
  if (clock.kind === "external") return TIME_BASE_UNKNOWN;
  const top = topBounds(timer, mode, snapshot);
  if (top === null || top.min !== top.max || snapshot.clockDivisor === null) return TIME_BASE_UNKNOWN;
  return timeBaseAt({ mode, top: top.max, dividedBy: clock.by * snapshot.clockDivisor, overflowOn });
}
