/**
 * A timer and one compare unit counted tick by tick, straight from the data sheets' descriptions of counter and compare
 * output ("Modes of Operation"), to check the closed formulas with. Shares no code with the engine.
 */
import type { ModeFact } from "../../../shared-model/chip.js";

export interface Counted {
  /** Null where the output never changes once it has settled. */
  readonly pulse: { readonly high: number; readonly period: number } | null;
  /** Every level seen after settling; both output levels before the start are tried. */
  readonly levels: readonly ("low" | "high")[];
}

/** `com` is 1 (toggle), 2 or 3; TOP at least 1. Counts enough runs to settle, then two periods. */
export function countOutput(mode: ModeFact, com: 1 | 2 | 3, top: number, compare: number): Counted {
  const runs = [0, 1].map((start) => countFrom(start, mode, com, top, compare));
  const pulses = runs.map((run) => run.pulse);
  const levels = [...new Set(runs.map((run) => run.level).filter((level) => level !== null))];
  return { pulse: pulses[0] ?? null, levels: pulses[0] ? [] : (levels as ("low" | "high")[]) };
}

function countFrom(start: number, mode: ModeFact, com: 1 | 2 | 3, top: number, compare: number) {
  const outputs = mode.family.startsWith("phase")
    ? dualSlope(start, com, top, compare)
    : singleSlope(start, mode, com, top, compare);
  const run = mode.family.startsWith("phase") ? 2 * top : top + 1;
  // Two periods of the slowest output: toggling takes two runs.
  const settled = outputs.slice(outputs.length - 8 * run);
  const rises = settled.flatMap((value, index) =>
    index > 0 && value === 1 && settled[index - 1] === 0 ? [index] : [],
  );
  if (rises.length < 2) {
    return { pulse: null, level: settled.every((value) => value === 0) ? ("low" as const) : ("high" as const) };
  }
  const period = rises[1]! - rises[0]!;
  const high = settled.slice(rises[0], rises[1]).filter((value) => value === 1).length;
  return { pulse: { high, period }, level: null };
}

/** Normal, CTC, fast PWM: 0 … TOP, then 0. A match acts at the next tick; PWM acts again on reaching BOTTOM. */
function singleSlope(start: number, mode: ModeFact, com: 1 | 2 | 3, top: number, compare: number): number[] {
  const pwm = mode.family === "fast" && com !== 1;
  let output = start;
  const seen: number[] = [];
  for (let run = 0; run < 12; run++) {
    for (let count = 0; count <= top; count++) {
      seen.push(output);
      const matches = count === compare;
      // "A special case occurs when OCRnx equals TOP and COMnx1 is set: the match is ignored, but the set or clear is
      // done at BOTTOM."
      if (matches && !(pwm && count === top)) {
        output = com === 1 ? 1 - output : com === 2 ? 0 : 1;
      }
      if (pwm && count === top) {
        output = com === 2 ? 1 : 0;
      }
    }
  }
  return seen;
}

/** 0 … TOP … 1: clear (set) on a match counting up, set (clear) on a match counting down. */
function dualSlope(start: number, com: 1 | 2 | 3, top: number, compare: number): number[] {
  let output = start;
  const seen: number[] = [];
  for (let run = 0; run < 12; run++) {
    for (let step = 0; step < 2 * top; step++) {
      const up = step < top;
      const count = up ? step : 2 * top - step;
      // At TOP the direction turns: the set or clear of the way down is done there ("equals TOP … done at TOP"); at
      // BOTTOM that of the way up.
      if (count === compare) {
        if (com === 1) {
          output = 1 - output;
        } else {
          output = (com === 2) === up ? 0 : 1;
        }
      }
      seen.push(output);
    }
  }
  return seen;
}
