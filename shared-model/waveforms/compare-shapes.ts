/**
 * What one compare unit does to its pin while the timer counts: pulses and levels in timer counts, for TOP and compare
 * value known exactly or within bounds. Knows the modes' rules and nothing of clocks, ports or registers' names.
 *
 * Sources: ATmega48A/PA/88A/PA/168A/PA/328/P data sheet (DS40002061), sections 15.5 to 15.7, 16.8 to 16.9, 18.5 to
 * 18.7 and the tables "Compare Output Mode"; ATmega640/1280/1281/2560/2561 data sheet (2549), sections 16, 17, 20.
 */
import type { ModeFact } from "../chip.js";
import { compareFractions, type Fraction, fraction } from "../fraction.js";
import type { Bounds } from "../signal.js";

/** Why a pin holds a level, or nothing can be said: wording is the caller's. */
export type LevelReason =
  /** Set (cleared) at the first match and never the other way. */
  | "after first match"
  /** Never matches: keeps the level it had. */
  | "never matches"
  /** Single slope, at or above TOP: set (cleared) at BOTTOM, never undone. */
  | "at or above top"
  /** Dual slope. */
  | "at bottom"
  | "at top"
  /** Dual slope, above TOP: the data sheet is silent. */
  | "above top"
  /** The counter does not move. */
  | "top is zero";

export type Shape =
  | {
      readonly kind: "pulse";
      readonly toggles: boolean;
      /** All in timer counts. */
      readonly high: Bounds<number>;
      readonly period: Bounds<number>;
      readonly duty: Bounds<Fraction>;
      readonly top: Bounds<number>;
    }
  | { readonly kind: "level"; readonly level: "low" | "high" | null; readonly reason: LevelReason }
  | { readonly kind: "disconnected" }
  | { readonly kind: "unknown"; readonly reason: "reserved mode" | "reserved output mode" | "toggle with top zero" };

/** One case: TOP within `top`, the compare value within `compare`; `own` where the compare register is TOP itself. */
export interface CompareCase {
  readonly top: Bounds<number>;
  readonly compare: Bounds<number> | "own";
}

/** How the COM bits act in a mode, or that they do not reach the pin. */
export type OutputAction = "disconnected" | "toggle" | "normal" | "inverted" | "clear" | "set" | "reserved";

/** `reservedForOthers`: on the 8-bit block COM = 1 is reserved for channel B in the PWM modes, on the 16-bit block it disconnects. */
export function outputAction(mode: ModeFact, com: number, letter: string, timerBits: 8 | 16): OutputAction {
  if (com === 0) {
    return "disconnected";
  }
  switch (mode.family) {
    case "reserved":
      return "reserved";
    case "normal":
    case "ctc":
      return com === 1 ? "toggle" : com === 2 ? "clear" : "set";
    default:
      if (com !== 1) {
        return com === 2 ? "normal" : "inverted";
      }
      if (letter === "A") {
        return mode.toggleA ? "toggle" : "disconnected";
      }
      return timerBits === 8 ? "reserved" : "disconnected";
  }
}

/** Every shape that is possible in this case. */
export function shapesOf(mode: ModeFact, action: OutputAction, range: CompareCase): Shape[] {
  if (action === "disconnected") {
    return [{ kind: "disconnected" }];
  }
  if (action === "reserved" || mode.family === "reserved") {
    return [{ kind: "unknown", reason: mode.family === "reserved" ? "reserved mode" : "reserved output mode" }];
  }
  const dual = mode.family === "phase correct" || mode.family === "phase and frequency correct";
  if (action === "toggle") {
    return dual ? dualToggle(range) : singleToggle(range);
  }
  if (action === "clear" || action === "set") {
    return onceOnly(action, range);
  }
  return dual ? dualSlope(action, range) : singleSlope(action, range);
}

/** Normal, CTC and toggling fast PWM: one toggle per run of TOP + 1 counts. */
function singleToggle({ top, compare }: CompareCase): Shape[] {
  const c = compare === "own" ? { min: 0, max: 0 } : compare;
  const shapes: Shape[] = [];
  const matched = corners(top, c, 0, 0);
  if (matched.length > 0) {
    shapes.push(
      pulse(
        true,
        matched,
        (t) => t + 1,
        (t) => 2 * (t + 1),
      ),
    );
  }
  if (c.max > top.min) {
    shapes.push({ kind: "level", level: null, reason: "never matches" });
  }
  return shapes;
}

/** Phase (and frequency) correct with TOP in the channel's own register: one match per period, at TOP. */
function dualToggle({ top }: CompareCase): Shape[] {
  const shapes: Shape[] = [];
  if (top.max >= 1) {
    const ends = [Math.max(top.min, 1), top.max].map((t) => ({ t, c: t }));
    shapes.push(
      pulse(
        true,
        ends,
        (t) => 2 * t,
        (t) => 4 * t,
      ),
    );
  }
  if (top.min === 0) {
    shapes.push({ kind: "unknown", reason: "toggle with top zero" });
  }
  return shapes;
}

/** Normal and CTC, clear or set on match. */
function onceOnly(action: "clear" | "set", { top, compare }: CompareCase): Shape[] {
  const shapes: Shape[] = [];
  if (compare === "own" || compare.min <= top.max) {
    shapes.push({ kind: "level", level: action === "clear" ? "low" : "high", reason: "after first match" });
  }
  if (compare !== "own" && compare.max > top.min) {
    shapes.push({ kind: "level", level: null, reason: "never matches" });
  }
  return shapes;
}

/** Fast PWM: active for compare + 1 of TOP + 1 counts. */
function singleSlope(action: "normal" | "inverted", { top, compare }: CompareCase): Shape[] {
  const shapes: Shape[] = [];
  const full = action === "normal" ? "high" : "low";
  if (compare !== "own") {
    const inside = corners(top, compare, 0, 1);
    if (inside.length > 0) {
      shapes.push(pulse(false, inside, action === "normal" ? (_, c) => c + 1 : (t, c) => t - c, (t) => t + 1));
    }
  }
  const reaches = compare === "own" ? top.max >= 1 : top.max >= 1 && compare.max >= Math.max(top.min, 1);
  if (reaches) {
    shapes.push({ kind: "level", level: full, reason: "at or above top" });
  }
  if (top.min === 0) {
    shapes.push({ kind: "level", level: null, reason: "top is zero" });
  }
  return shapes;
}

/** Phase correct and phase and frequency correct PWM: active for 2 · compare of 2 · TOP counts. */
function dualSlope(action: "normal" | "inverted", { top, compare }: CompareCase): Shape[] {
  const shapes: Shape[] = [];
  const [empty, full] = action === "normal" ? (["low", "high"] as const) : (["high", "low"] as const);
  if (compare !== "own") {
    const inside = corners(top, compare, 1, 1);
    if (inside.length > 0) {
      shapes.push(pulse(false, inside, action === "normal" ? (_, c) => 2 * c : (t, c) => 2 * (t - c), (t) => 2 * t));
    }
    if (compare.min === 0 && top.max >= 1) {
      shapes.push({ kind: "level", level: empty, reason: "at bottom" });
    }
  }
  const meets = compare === "own" ? top.max >= 1 : Math.max(compare.min, top.min, 1) <= Math.min(compare.max, top.max);
  if (meets) {
    shapes.push({ kind: "level", level: full, reason: "at top" });
  }
  if (compare !== "own" && top.max >= 1 && compare.max > Math.max(top.min, 1)) {
    shapes.push({ kind: "level", level: null, reason: "above top" });
  }
  if (top.min === 0) {
    shapes.push({ kind: "level", level: null, reason: "top is zero" });
  }
  return shapes;
}

interface Corner {
  readonly t: number;
  readonly c: number;
}

/**
 * The corners of the region `least ≤ c ≤ t - below` inside the case's rectangle; none where it is empty. Frequency,
 * width and duty are ratios of linear functions of t and c, so their extremes over the region lie at its corners, and
 * those are whole numbers because the slanted edge has slope 1.
 */
function corners(top: Bounds<number>, compare: Bounds<number>, least: number, below: number): Corner[] {
  const low = Math.max(compare.min, least);
  const found: Corner[] = [];
  const inside = (t: number, c: number) =>
    t >= top.min && t <= top.max && c >= low && c <= compare.max && c <= t - below;
  const keep = (t: number, c: number) => {
    if (inside(t, c)) {
      found.push({ t, c });
    }
  };
  for (const c of [low, compare.max]) {
    keep(top.min, c);
    keep(top.max, c);
    keep(c + below, c);
  }
  for (const t of [top.min, top.max]) {
    keep(t, t - below);
  }
  return found;
}

function pulse(
  toggles: boolean,
  at: readonly Corner[],
  highOf: (t: number, c: number) => number,
  periodOf: (t: number) => number,
): Shape {
  const highs = at.map(({ t, c }) => highOf(t, c));
  const periods = at.map(({ t }) => periodOf(t));
  const duties = at.map(({ t, c }) => fraction(highOf(t, c), periodOf(t))).sort(compareFractions);
  const tops = at.map(({ t }) => t);
  return {
    kind: "pulse",
    toggles,
    high: { min: Math.min(...highs), max: Math.max(...highs) },
    period: { min: Math.min(...periods), max: Math.max(...periods) },
    duty: { min: duties[0]!, max: duties[duties.length - 1]! },
    top: { min: Math.min(...tops), max: Math.max(...tops) },
  };
}
