/** The occupation of a chip on which only the Arduino core runs: what a plan meets where no sketch is at hand. */
import type { Target } from "../chip.js";
import type { Occupation, PresentSetting } from "./occupation.js";

/** From wiring.c, `init`, of the packaged core 1.8.7: timer 0 fast PWM, the others phase correct, all 8 bits and clock / 64. */
export function bareCore(
  target: Pick<Target, "chip">,
  more: Partial<Pick<Occupation, "kept" | "buses">> = {},
): Occupation {
  const present = target.chip.timers.map((timer): [number, PresentSetting] => [
    timer.number,
    { mode: timer.number === 0 ? 3 : 1, prescaler: 64, top: 0xff },
  ]);
  return {
    kept: more.kept ?? new Set(),
    used: new Map(),
    taken: new Map(),
    present: new Map(present),
    timeBase: { timer: 0, used: true },
    buses: more.buses ?? new Map(),
  };
}
