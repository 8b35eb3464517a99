/**
 * Compares what the machine did with what the report says. Sound: everything observed lies inside the report. Exact:
 * a deterministic sketch gets exactly the values that were observed, and nothing unknown.
 */
import type { Observation, SeenState } from "./measure.js";
import type { PinPhase, SeenSignal } from "./pin-tracks.js";
import {
  hex,
  holds,
  type Range,
  type ReportedSignal,
  type ReportedSketch,
  type ReportedState,
  type ReportedValue,
  showValue,
} from "./report-shape.js";

export interface Verdict {
  readonly path: string;
  /** Why the report does not contain what happened; empty = sound. */
  readonly exceptions: readonly string[];
  /** Everything lies inside the report, but not in the regime expected: a longer run decides whether it recurs. */
  readonly regimeOnly: boolean;
  /** Only for deterministic sketches: why the report is not one value; empty = exact; null = not asked. */
  readonly inexact: readonly string[] | null;
  /** Several register states were observed in the running regime. */
  readonly varying: boolean;
  /** Interrupt routines other than the core's millisecond one ran: when they come is not in the text. */
  readonly routines: boolean;
  readonly pins: number;
  readonly unknownPins: number;
  readonly gaps: number;
  /** How much was compared. */
  readonly statesSeen: number;
  readonly signalsSeen: number;
}

export function judge(
  path: string,
  observations: readonly Observation[],
  report: ReportedSketch | undefined,
  deterministic: boolean,
): Verdict {
  const states = observations.flatMap((observation) => observation.states);
  const signals = observations.flatMap((observation) => observation.signals);
  const counts = { statesSeen: states.length, signalsSeen: signals.length };
  if (report === undefined) {
    const missing = {
      regimeOnly: false,
      exceptions: ["no report for this sketch"],
      inexact: deterministic ? ["no report"] : null,
    };
    return { path, ...missing, varying: false, routines: false, pins: 0, unknownPins: 0, gaps: 0, ...counts };
  }
  const exceptions = exceptionsOf(states, signals, report);
  const anyRegime = <T extends { readonly recurs: boolean }>(seen: readonly T[]): T[] =>
    seen.map((one) => ({ ...one, recurs: false }));
  const varying = report.timers.some(({ timer }) => runningStates(states, timer).length > 1);
  // What an interrupt routine changes comes at times of its own: a run shows some of it, not all.
  const routines = observations.some(({ interrupts }) => interrupts.length > 1);
  const withUnit = report.pins.filter(({ units }) => units.length > 0);
  return {
    path,
    exceptions: [...new Set(exceptions)],
    regimeOnly: exceptions.length > 0 && exceptionsOf(anyRegime(states), anyRegime(signals), report).length === 0,
    inexact:
      deterministic && !(varying && routines)
        ? [...inexactStates(states, report), ...inexactSignals(states, signals, report)]
        : null,
    varying,
    routines,
    pins: withUnit.length,
    unknownPins: withUnit.filter((pin) => pin.signals.some(({ kind }) => kind === "unknown")).length,
    gaps: report.gaps.length,
    ...counts,
  };
}

function exceptionsOf(states: readonly SeenState[], signals: readonly SeenSignal[], report: ReportedSketch): string[] {
  return [
    ...states.flatMap((state) => stateException(state, report)),
    ...signals.flatMap((signal) => signalException(signal, report)),
  ];
}

function regimes(phase: PinPhase, recurs: boolean, afterInterrupt: boolean): readonly string[] {
  if (phase === "running" && recurs) return ["running"];
  return phase !== "setup" || afterInterrupt ? ["setup", "running"] : ["setup"];
}

// ---- sound

function stateException(seen: SeenState, report: ReportedSketch): string[] {
  const allowed = regimes(seen.phase, seen.recurs, seen.afterInterrupt);
  const timer = report.timers.find((entry) => entry.timer === seen.timer);
  const states = (timer?.states ?? []).filter(({ regime }) => allowed.includes(regime));
  const misses = states.map((state) =>
    Object.entries(seen.registers).filter(([name, value]) => {
      const reported = state.registers[name];
      return reported === undefined || !holds(reported, value);
    }),
  );
  if (misses.some((missed) => missed.length === 0)) return [];
  const place = `timer ${seen.timer}, ${seen.phase}, at ${seen.where}`;
  const all = Object.entries(seen.registers).map(([name, value]) => `${name}=${hex(value)}`);
  if (states.length === 0) {
    return [`${place}: chip has ${all.join(" ")}, report has no state of ${allowed.join("/")} for it`];
  }
  const nearest = misses.reduce((best, missed) => (missed.length < best.length ? missed : best));
  const state = states[misses.indexOf(nearest)]!;
  const parts = nearest.map(([name, value]) => `${name}=${hex(value)} not in ${showValue(state.registers[name])}`);
  return [`${place}: ${parts.join("; ")} (chip: ${all.join(" ")}; ${states.length} states reported)`];
}

function signalException(seen: SeenSignal, report: ReportedSketch): string[] {
  const allowed = regimes(seen.phase, seen.recurs, seen.afterInterrupt);
  const pin = report.pins.find(({ port }) => port === seen.port);
  const place = `${seen.port}, ${seen.phase}`;
  if (pin === undefined) return [`${place}: chip has ${showSeen(seen)}, pin is not in the report`];
  const signals = pin.signals.filter(({ regime }) => allowed.includes(regime));
  if (signals.some((signal) => contains(signal, seen, report.clockHz))) return [];
  return [`${place}: chip has ${showSeen(seen)}, report has ${signals.map(showSignal).join(" | ") || "nothing"}`];
}

function contains(signal: ReportedSignal, seen: SeenSignal, clockHz: number): boolean {
  if (signal.kind === "unknown") return true;
  if (seen.kind === "not driven") return signal.kind === "not driven";
  const bySoftware = signal.driver === "software" || signal.driver === "interrupt";
  if (seen.kind === "level") {
    if (signal.kind === "pulse") return !seen.connected && bySoftware;
    return signal.kind === "level" && (signal.level === null || signal.level === seen.level);
  }
  if (signal.kind !== "pulse" || bySoftware === seen.connected) return false;
  const period = seen.periodTicks!;
  const frequency = { min: clockHz / seen.clockDivisor / period.max, max: clockHz / seen.clockDivisor / period.min };
  const duty = seen.duty ?? { min: seen.highTicks!.min / period.max, max: seen.highTicks!.max / period.min };
  return (
    within(period, signal.periodTicks, 0) &&
    within(seen.highTicks!, signal.highTicks, 0) &&
    within(frequency, signal.frequencyHz, 1e-4) &&
    within(duty, signal.duty, 1e-3)
  );
}

/** `slack` is relative: printed numbers are rounded. null means that nothing is claimed. */
function within(seen: Range, reported: Range | null, slack: number): boolean {
  if (reported === null) return true;
  const give = slack * Math.max(Math.abs(reported.min), Math.abs(reported.max));
  return seen.min >= reported.min - give && seen.max <= reported.max + give;
}

function showSeen(seen: SeenSignal): string {
  if (seen.kind === "pulse") return `pulse ${showRange(seen.periodTicks)} ticks, high ${showRange(seen.highTicks)}`;
  return `${seen.kind}${seen.level === null ? "" : ` ${seen.level}`}${seen.connected ? " (timer)" : " (port)"}`;
}

function showSignal(signal: ReportedSignal): string {
  if (signal.kind === "pulse") {
    return `pulse ${showRange(signal.periodTicks)} ticks, high ${showRange(signal.highTicks)} by ${signal.driver}`;
  }
  return signal.kind === "level" ? `level ${signal.level} by ${signal.driver}` : signal.kind;
}

function showRange(range: Range | null): string {
  if (range === null) return "?";
  return range.min === range.max ? String(range.min) : `${range.min}..${range.max}`;
}

// ---- exact

function runningStates(states: readonly SeenState[], timer: number): SeenState[] {
  const found = new Map<string, SeenState>();
  for (const state of states) {
    if (state.timer === timer && state.phase === "running") found.set(JSON.stringify(state.registers), state);
  }
  return [...found.values()];
}

function inexactStates(states: readonly SeenState[], report: ReportedSketch): string[] {
  const reasons: string[] = [];
  for (const { timer, states: reported } of report.timers) {
    const seen = runningStates(states, timer);
    const running = reported.filter(({ regime }) => regime === "running");
    if (seen.length === 0 || running.length === 0) continue;
    if (seen.length === 1 && distinct(running) > 1)
      reasons.push(`timer ${timer}: ${distinct(running)} running states reported`);
    for (const name of Object.keys(seen[0]!.registers)) {
      const values = new Set(seen.map(({ registers }) => registers[name]!));
      const hull = { min: Math.min(...values), max: Math.max(...values) };
      const told = running.map(({ registers }) => registers[name]).filter((value) => value !== undefined);
      const wide = told.find((value) => !exactlyCovers(value, hull, values, seen.length === 1));
      if (wide !== undefined) {
        reasons.push(
          `timer ${timer}: ${name} is ${[...values].slice(0, 4).map(hex).join(",")}, reported ${showValue(wide)}`,
        );
      }
    }
  }
  return reasons;
}

function distinct(states: readonly ReportedState[]): number {
  return new Set(states.map(({ registers }) => JSON.stringify(registers))).size;
}

/** Nothing is reported that was not seen: each value where few were seen, the ends where the report gives a range. */
function exactlyCovers(value: ReportedValue, hull: Range, seen: ReadonlySet<number>, steady: boolean): boolean {
  if ("values" in value) return value.values.every((one) => seen.has(one));
  if (steady) return value.min === value.max;
  return value.min >= hull.min && value.max <= hull.max;
}

function inexactSignals(
  states: readonly SeenState[],
  signals: readonly SeenSignal[],
  report: ReportedSketch,
): string[] {
  const reasons: string[] = [];
  for (const pin of report.pins) {
    const running = pin.signals.filter(({ regime }) => regime === "running");
    const seen = signals.filter(({ port, phase }) => port === pin.port && phase === "running");
    // Nothing measured: reserved combinations, outside clocks, two units at once; unknown is the honest answer there.
    if (seen.length === 0 || pin.units.length === 0) continue;
    // Where registers vary, the windows are often too short to measure: there the registers alone are held to.
    if (pin.units.some((unit) => runningStates(states, Number(unit[2])).length > 1)) continue;
    if (running.some(({ kind }) => kind === "unknown")) {
      reasons.push(`${pin.port}: unknown`);
      continue;
    }
    const kinds = new Set(seen.map(({ kind, level }) => `${kind} ${level}`));
    for (const signal of running) {
      // What software toggles is told as a range with its cause; only what a timer drives is held to one value.
      if (signal.driver === "software" || signal.driver === "interrupt") continue;
      const known = signal.kind !== "level" || signal.level !== null;
      if (known && !kinds.has(`${signal.kind} ${signal.level}`)) {
        reasons.push(`${pin.port}: ${showSignal(signal)} was never seen (chip: ${seen.map(showSeen).join(" | ")})`);
      } else if (signal.kind === "pulse" && signal.driver === "timer") {
        const pulses = seen.filter(({ kind }) => kind === "pulse");
        const hull = (pick: (one: SeenSignal) => Range): Range => ({
          min: Math.min(...pulses.map((one) => pick(one).min)),
          max: Math.max(...pulses.map((one) => pick(one).max)),
        });
        const period = hull((one) => one.periodTicks!);
        const high = hull((one) => one.highTicks!);
        if (signal.periodTicks === null || !within(signal.periodTicks, period, 0)) {
          reasons.push(`${pin.port}: period ${showRange(signal.periodTicks)} reported, ${showRange(period)} seen`);
        } else if (signal.highTicks === null || !within(signal.highTicks, high, 0)) {
          reasons.push(`${pin.port}: high ${showRange(signal.highTicks)} reported, ${showRange(high)} seen`);
        }
      }
    }
  }
  return reasons;
}
