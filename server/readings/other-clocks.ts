/** Another clock than was taken for granted: the board's other oscillator, the fuse that divides by eight, a build for another one. */

import { showClockError } from "../../shared-model/clock-spread.js";
import { type Fraction, fraction } from "../../shared-model/fraction.js";
import { WIDEST } from "../../shared-model/readings/clock-error.js";
import { matchOf, meet } from "../../shared-model/readings/compare.js";
import type { Bounds, Waveform } from "../../shared-model/signal.js";
import { isBySoftware } from "../../shared-model/signal.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { benchClock, type ComparedReading, clockSpread, compareAnother } from "../look/bench-clock.js";
import { showClock, showShare } from "../look/show.js";
import type { Candidate } from "./candidate.js";

interface OtherClock {
  readonly num: number;
  readonly den: number;
  readonly words: string;
  readonly size: number;
}

/** Oscillators that these boards are sold or built with (common practice, no source). */
const COMMON_CLOCKS = [16_000_000, 8_000_000, 20_000_000, 12_000_000];

/** Another reading that fits at the clock as it is speaks against every other clock. */
const CONTRADICTED = 3;
/** Another reading that misses by the same factor speaks for one cause of both: that is the clock. */
const SHARED = -1;

export function* clockCandidates(analysis: Analysis, reading: ReadingComment, pin: PinHistory): Generator<Candidate> {
  const others = benchClock(analysis).readings.filter((each) => each.reading !== reading);
  const confirmed = others.some(({ fits, clockError }) => fits === "yes" && clockError !== null);
  const { predictions } = compareAnother(analysis, reading, pin);
  for (const { waveform } of predictions) {
    if (waveform.kind !== "pulse" || waveform.frequencyHz === null) continue;
    for (const clock of clocksFor(analysis)) {
      const shared = others.some((each) => each.fits === "no" && each.pin?.timer !== pin.timer && misses(each, clock));
      yield candidate(waveform, clock, confirmed ? CONTRADICTED : shared ? SHARED : 0);
    }
    // What timers give says nothing of what the build was told.
    if (isBySoftware(waveform)) for (const build of buildsFor(analysis)) yield candidate(waveform, build, 0);
    const poor = confirmed ? null : poorClock(analysis, reading, waveform);
    if (poor !== null) yield poor;
  }
}

function candidate(waveform: Waveform, clock: OtherClock, more: number): Candidate {
  const frequencyHz = scaled(waveform.frequencyHz!, clock.num, clock.den);
  return {
    waveform: { ...waveform, frequencyHz },
    registers: {},
    words: clock.words,
    size: clock.size + more,
    key: clock.words,
  };
}

/** Whether that reading misses its prediction by the factor of this clock. */
function misses({ reading, predictions }: ComparedReading, { num, den }: OtherClock): boolean {
  return predictions.some(({ waveform }) => {
    if (waveform.kind !== "pulse" || waveform.frequencyHz === null) return false;
    const match = matchOf(reading, { ...waveform, frequencyHz: scaled(waveform.frequencyHz, num, den) });
    return match.kind === "gives" && match.clock !== null && meet(match.clock, { min: -WIDEST, max: WIDEST }) !== null;
  });
}

function clocksFor({ target }: Analysis): readonly OtherClock[] {
  const { clockHz, fCpu, board } = target;
  const found: OtherClock[] = COMMON_CLOCKS.filter((hz) => hz !== clockHz).map((hz) => {
    const pair = hz === 2 * clockHz || clockHz === 2 * hz;
    const build = pair && fCpu === clockHz ? `: a build for ${showClock(clockHz)} on a board of ${showClock(hz)}` : "";
    return {
      num: hz,
      den: clockHz,
      words: `a clock of ${showClock(hz)} in place of ${showClock(clockHz)}${build}`,
      size: pair ? 1.5 : 3,
    };
  });
  found.push({
    num: 1,
    den: 8,
    words: `a clock of ${showClock(clockHz / 8)}: the fuse CKDIV8 divides the clock by 8`,
    // Boards are sold with it off; a new chip has it on.
    size: board === null ? 1.6 : 2.4,
  });
  // The internal oscillator of 8 MHz, as chips leave the factory (DS40002061 section 9.2.1): divided by 8.
  if (clockHz !== 8_000_000)
    found.push({
      num: 1_000_000,
      den: clockHz,
      words: "a clock of 1 MHz: a new chip's fuses, the internal 8 MHz divided by 8",
      size: board === null ? 2 : 3,
    });
  // Every other power of two that CLKPR can set (DS40002061 table 9-17).
  for (const by of [2, 4, 8, 16, 32, 64, 128, 256])
    if (!found.some(({ num, den }) => num * by === den))
      found.push({ num: 1, den: by, words: `the CPU's clock divided by ${by} (CLKPR)`, size: 2.6 });
  return found;
}

/** What software counts out is timed by what the build was told. */
function buildsFor({ target }: Analysis): readonly OtherClock[] {
  return [8_000_000, 16_000_000]
    .filter((hz) => hz !== target.fCpu)
    .map((hz) => ({
      num: target.fCpu,
      den: hz,
      words: `a build for ${showClock(hz)} on this board of ${showClock(target.clockHz)}`,
      size: 1.5,
    }));
}

function scaled(hz: Bounds<Fraction>, num: number, den: number): Bounds<Fraction> {
  return { min: times(hz.min, num, den), max: times(hz.max, num, den) };
}

/** Exact where it can be, else the nearest micro-hertz: this is for showing and comparing with a reading. */
function times(hz: Fraction, num: number, den: number): Fraction {
  const factor = fraction(num, den);
  const [top, bottom] = [hz.num * factor.num, hz.den * factor.den];
  if (Number.isSafeInteger(top) && Number.isSafeInteger(bottom)) return fraction(top, bottom);
  return fraction(Math.round((top / bottom) * 1e6), 1_000_000);
}

/** The prediction itself with a clock that is further off than it should be. */
function poorClock(analysis: Analysis, reading: ReadingComment, waveform: Waveform): Candidate | null {
  const match = matchOf(reading, waveform);
  const spread = clockSpread(analysis);
  if (match.kind !== "gives" || match.clock === null || waveform.frequencyHz === null) return null;
  const { min, max } = match.clock;
  const least = min > 0 ? min : max < 0 ? -max : 0;
  if (least > WIDEST || (max >= spread.min && min <= spread.max)) return null;
  const middle = 1 + (min + max) / 2;
  const off = least / Math.max(spread.max, 1e-6);
  return {
    waveform: { ...waveform, frequencyHz: scaled(waveform.frequencyHz, Math.round(middle * 1e7), 1e7) },
    registers: {},
    words: `a clock error of ${showClockError(match.clock)}, where ±${showShare(analysis.target.clockTolerance)} is expected`,
    size: Math.min(5, 1.5 + 0.5 * off),
    key: "clock error",
  };
}
