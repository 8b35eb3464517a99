/**
 * In which ways a compare unit can make a pulse: mode × output setting, each with the arithmetic of its period. Facts from
 * the data sheets only; wants, costs and clocks' tolerance are unknown here.
 *
 * Formulas (DS40002061 sections 15.7, 16.9, 18.7; 2549 sections 16, 17, 20): fast PWM N · (1 + TOP) cycles a period, dual
 * slope 2 · N · TOP, toggling in normal, CTC and fast PWM 2 · N · (1 + TOP), toggling in a dual-slope mode 4 · N · TOP.
 */
import type { ChannelFact, ModeFact, TimerFact } from "../chip.js";

export type Slope = "single" | "dual";

/** One unit in one mode with one output setting. A period lasts `times · prescaler · (TOP + plus)` cycles. */
export interface Way {
  readonly channel: ChannelFact;
  /** 1 toggles, 2 is high while below, 3 is inverted. */
  readonly com: 1 | 2 | 3;
  readonly times: 1 | 2 | 4;
  readonly plus: 0 | 1;
  /** Its compare register is TOP itself (only toggling outputs do something then). */
  readonly own: boolean;
}

export function slopeOf(mode: ModeFact): Slope {
  return mode.family === "phase correct" || mode.family === "phase and frequency correct" ? "dual" : "single";
}

/** Everything that makes a pulse; clear or set on match outside the PWM modes only makes levels. */
export function waysOf(channel: ChannelFact, mode: ModeFact): Way[] {
  const own = mode.top.kind === "compareA" && channel.letter === "A";
  const toggling = (times: 2 | 4, plus: 0 | 1): Way => ({ channel, com: 1, times, plus, own });
  switch (mode.family) {
    case "reserved":
      return [];
    case "normal":
    case "ctc":
      return [toggling(2, 1)];
    default: {
      const dual = slopeOf(mode) === "dual";
      const plus = dual ? 0 : 1;
      const steered: Way[] = own
        ? []
        : ([2, 3] as const).map((com) => ({ channel, com, times: dual ? 2 : 1, plus, own: false }));
      // In the dual-slope modes the unit toggles at TOP, which only its own register reaches in every mode that allows it.
      return mode.toggleA && channel.letter === "A" ? [...steered, toggling(dual ? 4 : 2, plus)] : steered;
    }
  }
}

/** Every TOP that the mode can have and that the data sheet allows: at least 2 bits in the 16-bit timer's PWM modes. */
export function topsOf(timer: TimerFact, mode: ModeFact): { readonly min: number; readonly max: number } {
  if (mode.top.kind === "fixed") return { min: mode.top.value, max: mode.top.value };
  const least = mode.family === "ctc" ? 0 : timer.bits === 16 ? 3 : 1;
  return { min: least, max: 2 ** timer.bits - 1 };
}

/** The register that holds TOP; null where the mode fixes it. */
export function topRegisterOf(timer: TimerFact, mode: ModeFact): string | null {
  if (mode.top.kind === "fixed") return null;
  return mode.top.kind === "compareA" ? timer.channels[0]!.compare : (timer.capture ?? null);
}

const FAMILIES = ["normal", "ctc", "fast", "phase correct", "phase and frequency correct"];

/** Modes in the order of preference where two give the very same: the plainer family first. */
export function modesInOrder(timer: TimerFact): readonly ModeFact[] {
  return timer.modes
    .filter((mode) => mode.family !== "reserved")
    .sort((a, b) => FAMILIES.indexOf(a.family) - FAMILIES.indexOf(b.family) || a.select - b.select);
}

/** How long the output is high, in units of its own counts: from `least` to `most` of `whole` counts a period. */
export interface HighCounts {
  readonly least: number;
  readonly most: number;
  readonly whole: number;
}

/** All high times that the compare register gives; 0 and `whole` are constant levels. */
export function highCounts(way: Way, top: number): HighCounts {
  if (way.com === 1) return { least: 1, most: 1, whole: 2 };
  if (way.plus === 0) return { least: 0, most: top, whole: top };
  return way.com === 2 ? { least: 1, most: top + 1, whole: top + 1 } : { least: 0, most: top, whole: top + 1 };
}

/** The compare value that makes the output high for that many counts (not for toggling outputs). */
export function compareFor(way: Way, top: number, high: number): number {
  if (way.com === 3) return top - high;
  return way.plus === 0 ? high : high - 1;
}

/** The different duties that the compare register gives. */
export function stepsOf(way: Way, top: number): number {
  return way.com === 1 ? 1 : top + 1;
}
