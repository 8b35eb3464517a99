/** A bench reading does not fit the prediction; says which clock or setting would explain it. */
import { toNumber } from "../../shared-model/fraction.js";
import type { Analysis, PinHistory, PinSignal } from "../analysis.js";
import { pinLabel } from "../look/look.js";
import { pulseRate } from "../look/pulse-rate.js";
import { clockWords } from "../look/setting-words.js";
import { either, showClock, showHz, showHzBounds } from "../look/show.js";
import { modeOf } from "../look/timer-view.js";
import { modeWords } from "../look/top-name.js";
import { stateOf } from "../look/want-causes.js";
import { pinOfComment } from "../look/wanted-pin.js";
import type { FindingRule } from "./finding.js";

export const readingDisagrees: FindingRule = {
  id: "reading-disagrees",
  severity: "warning",
  says: "A bench reading does not fit the prediction, and which clock or setting would explain it.",
  why: "Either the board runs from another clock, or another sketch is on it, or the prediction misses something: each is worth knowing.",
  source: "the sketch's own reading; frequency by the data sheet's formulas",
  fires: `// bench reads D9: 245 Hz
void setup() {}

void loop() { analogWrite(9, 60); }
`,
  quiet: `// bench reads D9: 490 Hz
void setup() {}

void loop() { analogWrite(9, 60); }
`,
  whenFine: "A reading taken with other register values says so: bench reads D9 with ICR1 = 400: 20 kHz.",
  check(analysis, report) {
    for (const placed of analysis.comments) {
      const { comment, span } = placed;
      if (comment.kind !== "reading" || comment.frequency === undefined || comment.registers.length > 0) continue;
      const pin = pinOfComment(analysis, placed);
      if (pin === null || pin === undefined) continue;
      const running = pin.signals.filter((signal) => signal.regime === "running");
      const pulses = running.filter((signal) => signal.frequencyHz !== null);
      if (pulses.length === 0 || running.some((signal) => signal.kind === "unknown")) continue;
      const { value, uncertainty } = comment.frequency;
      const low = value - uncertainty;
      const high = value + uncertainty;
      const { clockTolerance } = analysis.target;
      const fits = (hz: number) => high >= hz * (1 - clockTolerance) && low <= hz * (1 + clockTolerance);
      const inside = pulses.some(
        (signal) =>
          high >= toNumber(signal.frequencyHz!.min) * (1 - clockTolerance) &&
          low <= toNumber(signal.frequencyHz!.max) * (1 + clockTolerance),
      );
      if (inside) continue;
      const predicted = either(pulses.slice(0, 2).map((signal) => showHzBounds(signal.frequencyHz!)));
      const why = explanation(analysis, pin, pulses, fits);
      report({
        message: `${pinLabel(analysis, pin)} reads ${showHz(value)}, but ${predicted} is predicted. ${why}`,
        span: { path: span.path, start: span.start + comment.at.start, end: span.start + comment.at.end },
        related: [],
      });
    }
  },
};

function explanation(
  analysis: Analysis,
  pin: PinHistory,
  pulses: readonly PinSignal[],
  fits: (hz: number) => boolean,
): string {
  for (const signal of pulses) {
    const hz = toNumber(signal.frequencyHz!.min);
    if (signal.frequencyHz!.min.num !== signal.frequencyHz!.max.num) continue;
    for (const divisor of [2, 8]) {
      if (fits(hz / divisor))
        return `A clock of ${showClock(analysis.target.clockHz / divisor)} would explain it: check board and fuses.`;
    }
    if (fits(hz * 2)) {
      const doubled = showClock(analysis.target.clockHz * 2);
      return `A clock of ${doubled} would explain it: check board and fuses.`;
    }
    const found = stateOf(analysis, pin, signal);
    const mode = found === null ? undefined : modeOf(found.timer, found.state.snapshot);
    if (found === null || mode === undefined || signal.top === null || signal.top.min !== signal.top.max) continue;
    for (const clock of found.timer.clocks) {
      const rate = clock.kind === "divided" ? pulseRate(analysis.target.clockHz, clock.by, mode, signal.top.min) : null;
      if (rate !== null && fits(toNumber(rate)))
        return `With ${clockWords(clock)} it would be ${showHz(rate)}: is this sketch the one on the board?`;
    }
    for (const other of found.timer.modes) {
      const rate =
        other.top.kind === "fixed"
          ? pulseRate(analysis.target.clockHz, signal.prescaler ?? 1, other, other.top.value)
          : null;
      if (rate !== null && fits(toNumber(rate)))
        return `In ${modeWords(found.timer, other)} it would be ${showHz(rate)}: is this sketch the one on the board?`;
    }
  }
  return "No clock or prescaler of this timer explains it: check pin, board and sketch.";
}
