/** Where a pin's frequency comes from, and which setting of the same timer would give another one. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import { toNumber } from "../../shared-model/fraction.js";
import type { Analysis, PinHistory, PinSignal, RegisterWrite, TimerState } from "../analysis.js";
import { historyOf, makerOf } from "./look.js";
import { pulseRate } from "./pulse-rate.js";
import { showHz } from "./show.js";
import { clockOf, modeOf, prescalerOf, topRegister } from "./timer-view.js";

/** The timer and state that a signal belongs to. */
export function stateOf(
  analysis: Analysis,
  pin: PinHistory,
  signal: PinSignal,
): { readonly timer: TimerFact; readonly state: TimerState } | null {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === pin.timer);
  const state =
    pin.timer === null || signal.state === null ? undefined : historyOf(analysis, pin.timer)?.states[signal.state];
  return timer === undefined || state === undefined ? null : { timer, state };
}

/** The newest write of the sketch that set this signal's clock, mode or TOP; undefined where the core alone did. */
export function frequencyMaker(analysis: Analysis, pin: PinHistory, signal: PinSignal): RegisterWrite | undefined {
  const found = stateOf(analysis, pin, signal);
  if (found === null) return undefined;
  const { timer, state } = found;
  const mode = modeOf(timer, state.snapshot);
  const top = mode === undefined ? null : topRegister(timer, mode);
  return makerOf(
    analysis,
    state.from,
    (write) => timer.control.includes(write.register) || (top !== null && write.register.startsWith(top)),
  );
}

export interface Setting {
  readonly register: string;
  readonly top: number;
  readonly hz: number;
  /** True where it gives the wanted value to the last digit. */
  readonly exact: boolean;
}

/** The TOP that comes nearest to a frequency with the state's own mode and prescaler; null where TOP is fixed. */
export function nearestTop(analysis: Analysis, pin: PinHistory, signal: PinSignal, wantedHz: number): Setting | null {
  const found = stateOf(analysis, pin, signal);
  if (found === null) return null;
  const { timer, state } = found;
  const mode = modeOf(timer, state.snapshot);
  const prescaler = prescalerOf(clockOf(timer, state.snapshot));
  if (mode === undefined || prescaler === null) return null;
  const register = topRegister(timer, mode);
  if (register === null) return null;
  const clockHz = analysis.target.clockHz / (state.snapshot.clockDivisor ?? 1);
  const ideal = mode.family === "fast" ? clockHz / (prescaler * wantedHz) - 1 : clockHz / (2 * prescaler * wantedHz);
  const top = Math.round(ideal);
  const rate = top >= 1 && top < 2 ** timer.bits ? pulseRate(clockHz, prescaler, mode, top) : null;
  if (rate === null) return null;
  const hz = toNumber(rate);
  return {
    register,
    top,
    hz,
    exact: rate.den === 1 ? rate.num === wantedHz : Math.abs(hz - wantedHz) < wantedHz * 1e-12,
  };
}

/** One sentence on how this timer gets into the wanted bounds, or why it does not. */
export function wayTo(
  analysis: Analysis,
  pin: PinHistory,
  signal: PinSignal,
  wanted: { readonly hz: number; readonly min: number; readonly max: number },
): string {
  const fits = (hz: number) => hz >= wanted.min && hz <= wanted.max;
  const near = nearestTop(analysis, pin, signal, wanted.hz);
  if (near !== null && fits(near.hz))
    return `${near.register} = ${near.top} gives ${near.exact ? "exactly " : ""}${showHz(near.hz)}.`;
  const found = stateOf(analysis, pin, signal);
  const mode = found === null ? undefined : modeOf(found.timer, found.state.snapshot);
  if (found === null || mode === undefined) return "Choose another setting of its timer.";
  const other = otherPrescaler(analysis, found.timer, mode, signal, fits);
  if (other !== null) return `Prescaler ${other.by} gives ${showHz(other.hz)}.`;
  return mode.top.kind === "fixed"
    ? "No prescaler gives it with this TOP: choose a mode whose TOP is a register."
    : "Choose another prescaler.";
}

/** A prescaler that brings the same mode and TOP into the bounds. */
export function otherPrescaler(
  analysis: Analysis,
  timer: TimerFact,
  mode: ModeFact,
  signal: PinSignal,
  fits: (hz: number) => boolean,
): { readonly by: number; readonly hz: number } | null {
  const top = signal.top;
  if (top === null || top.min !== top.max) return null;
  for (const clock of timer.clocks) {
    const rate = clock.kind === "divided" ? pulseRate(analysis.target.clockHz, clock.by, mode, top.min) : null;
    if (clock.kind === "divided" && rate !== null && fits(toNumber(rate))) return { by: clock.by, hz: toNumber(rate) };
  }
  return null;
}
