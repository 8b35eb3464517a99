/** Inside the want at the nominal clock, outside once the clock's tolerance is applied. */
import { type ClockSpread, showSpread } from "../../shared-model/clock-spread.js";
import { toNumber } from "../../shared-model/fraction.js";
import { clockSpread } from "../look/bench-clock.js";
import { judgePart, wantVerdicts } from "../look/judged-wants.js";
import { pinLabel } from "../look/look.js";
import { showBoundsHz, showHz, showHzBounds } from "../look/show.js";
import { frequencyMaker, wayTo } from "../look/want-causes.js";
import type { FindingRule } from "./finding.js";
import { settingFixes } from "./setting-fixes.js";

export const thinMargin: FindingRule = {
  id: "thin-margin",
  severity: "warning",
  says: "The frequency meets the want nominally, but not over the whole tolerance of the board's clock.",
  why: "On the bench it reads right; on the next board, or in the cold, the same sketch is outside its specification.",
  source: "the board's clock tolerance, with its own source; the sketch's own want",
  fires: `// wants D3: 1 kHz within 980..1020 Hz
void setup() {
  TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `// wants D3: 1 kHz within 970..1020 Hz
void setup() {
  TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);
}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "Where this board's clock has been measured, say so in a comment: for pulsewright: clock 16 MHz +-50 ppm.",
  check(analysis, report) {
    for (const { want, pin, span, signals } of wantVerdicts(analysis)) {
      if (want.frequency === undefined || pin === null) continue;
      for (const signal of signals) {
        if (signal.kind !== "pulse" || signal.frequencyHz === null) continue;
        if (judgePart(analysis, { frequency: want.frequency }, [signal]).met !== "marginal") continue;
        const spread = clockSpread(analysis);
        const slow = toNumber(signal.frequencyHz.min) * (1 + spread.min);
        const fast = toNumber(signal.frequencyHz.max) * (1 + spread.max);
        const worst = slow < want.frequency.min ? slow : fast;
        const maker = frequencyMaker(analysis, pin, signal);
        report({
          message: `${pinLabel(analysis, pin)}: ${showHzBounds(signal.frequencyHz)} is inside ${showBoundsHz(want.frequency)}, but with the clock's ${showSpread(spread)} it may be ${showHz(worst)}. ${wayTo(analysis, pin, signal, steadyBounds(want.frequency, spread))}`,
          span: maker?.span ?? span,
          related: maker === undefined ? [] : [{ span, message: "wanted here" }],
          fixes: settingFixes(analysis, pin, signal, steadyBounds(want.frequency, spread)),
        });
      }
    }
  },
};

/** The bounds that a nominal frequency must keep so that the want is met over the clock's whole spread. */
function steadyBounds(
  wanted: { readonly hz: number; readonly min: number; readonly max: number },
  spread: ClockSpread,
) {
  return { hz: wanted.hz, min: wanted.min / (1 + spread.min), max: wanted.max / (1 + spread.max) };
}
