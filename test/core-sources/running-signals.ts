/** What a sketch's pins put out while it runs, with the core's built-in model or with its own sources executed, for comparison. */
import { analyse } from "../../server/analyse.js";
import type { PinSignal } from "../../server/analysis.js";
import { disk } from "../../server/files/file-access.js";
import { openSketch } from "../../server/files/open-sketch.js";
import { sketchFrom } from "../../server/files/sketch-place.js";
import { DEFAULT_LIMITS } from "../../server/limits.js";
import { sharedParser } from "../runner/analysed-sketch.js";

export interface Running {
  /** By port: what is put out, each different signal once. */
  readonly signals: ReadonlyMap<string, readonly PinSignal[]>;
  readonly gaps: readonly string[];
  readonly milliseconds: number;
}

export async function runningSignals(
  path: string,
  board: string | undefined,
  core: string | undefined,
  libraries: readonly string[] = [],
): Promise<Running> {
  const parser = await sharedParser();
  const begun = performance.now();
  const opening = openSketch(sketchFrom(path, disk), { commandLine: { board }, libraries, workspace: [], core }, disk);
  if (opening.kind !== "opened") throw new Error(`${path}: ${opening.reason}`);
  const { loaded, target, gaps } = opening;
  const analysis = analyse({ sources: loaded.sources, target, parser, limits: DEFAULT_LIMITS, stop: () => {} });
  const signals = new Map<string, PinSignal[]>();
  for (const pin of analysis.pins) {
    const running = pin.signals.filter((signal) => signal.regime === "running");
    if (running.length > 0) signals.set(pin.port, running);
  }
  return {
    signals,
    gaps: [...gaps, ...analysis.gaps].map((gap) => gap.reason),
    milliseconds: performance.now() - begun,
  };
}

/** How pins are compared that software pulses: all that is said of them, or only that it does. */
export type Lengths = "compared" | "let be";

/** Ports whose signals in `narrow` are not all found in `wide`, each with what was missed. */
export function notContained(narrow: Running, wide: Running, bySoftware: Lengths = "compared"): string[] {
  const missed: string[] = [];
  for (const [port, signals] of narrow.signals) {
    const others = wide.signals.get(port) ?? [];
    const pulsed = others.some((other) => other.kind === "pulse" && other.driver !== "timer");
    if (bySoftware === "let be" && pulsed) continue;
    for (const signal of signals) {
      // Where the model does not know, the sources may.
      if (signal.kind === "unknown" && bySoftware === "compared") continue;
      // A level that is not known is either of the two.
      const levels = signal.kind === "level" && signal.level === null ? (["low", "high"] as const) : [signal.level];
      const every = levels.every((level) => others.some((other) => holds(other, { ...signal, level })));
      if (!every) missed.push(`${port}: ${show(signal)}`);
    }
  }
  return missed;
}

function holds(wide: PinSignal, narrow: PinSignal): boolean {
  if (wide.kind === "unknown") return true;
  if (wide.kind !== narrow.kind) return false;
  if (wide.kind === "level") return wide.level === null || wide.level === narrow.level;
  if (wide.kind !== "pulse") return true;
  return within(wide.highTicks, narrow.highTicks) && within(wide.periodTicks, narrow.periodTicks);
}

type Bounds = { readonly min: number; readonly max: number } | null;

function within(wide: Bounds, narrow: Bounds): boolean {
  if (wide === null) return true;
  return narrow !== null && wide.min <= narrow.min && narrow.max <= wide.max;
}

function show({ kind, level, highTicks, periodTicks }: PinSignal): string {
  const range = (bounds: Bounds): string => (bounds === null ? "?" : `${bounds.min}..${bounds.max}`);
  return kind === "pulse" ? `pulse of ${range(periodTicks)} ticks, high ${range(highTicks)}` : `${kind} ${level ?? ""}`;
}
