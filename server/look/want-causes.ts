/** Where a pin's frequency comes from, and which setting of the same timer would give another one. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import { toNumber } from "../../shared-model/fraction.js";
import type { Analysis, PinHistory, PinSignal, RegisterWrite, TimerState } from "../analysis.js";
import { historyOf, makerOf } from "./look.js";
import { pulseRate } from "./pulse-rate.js";
import { showHz } from "./show.js";
import { clockOf, isPwm, modeOf, prescalerOf, topRegister } from "./timer-view.js";
import { modeWords } from "./top-name.js";

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
  const better = registerTop(analysis, found.timer, pin, mode, wanted);
  if (better === null) return `Timer ${found.timer.number} cannot give it on this pin.`;
  return `${capital(modeWords(found.timer, better.mode))} = ${better.top} and prescaler ${better.by} gives ${better.exact ? "exactly " : ""}${showHz(better.hz)}.`;
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

interface RegisterTop {
  readonly mode: ModeFact;
  readonly by: number;
  readonly top: number;
  readonly hz: number;
  readonly exact: boolean;
}

/**
 * The best setting with TOP in a register that leaves this pin its duty: in bounds, the same slope first, then an exact
 * frequency, then the most steps.
 */
function registerTop(
  analysis: Analysis,
  timer: TimerFact,
  pin: PinHistory,
  now: ModeFact,
  wanted: { readonly hz: number; readonly min: number; readonly max: number },
): RegisterTop | null {
  const channel = timer.channels.find((candidate) => pin.units.includes(candidate.unit));
  const found: RegisterTop[] = [];
  for (const mode of timer.modes) {
    if (!isPwm(mode) || mode.top.kind === "fixed" || (mode.top.kind === "compareA" && channel === timer.channels[0]))
      continue;
    for (const clock of timer.clocks) {
      if (clock.kind !== "divided") continue;
      const counts = analysis.target.clockHz / (clock.by * wanted.hz);
      const top = Math.round(mode.family === "fast" ? counts - 1 : counts / 2);
      const rate = top >= 2 && top < 2 ** timer.bits ? pulseRate(analysis.target.clockHz, clock.by, mode, top) : null;
      if (rate === null) continue;
      const hz = toNumber(rate);
      if (hz >= wanted.min && hz <= wanted.max)
        found.push({ mode, by: clock.by, top, hz, exact: rate.den === 1 && rate.num === wanted.hz });
    }
  }
  const slope = (each: RegisterTop) => Number(each.mode.family !== now.family);
  found.sort(
    (left, right) => slope(left) - slope(right) || Number(right.exact) - Number(left.exact) || right.top - left.top,
  );
  return found[0] ?? null;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
