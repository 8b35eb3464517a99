/** The pin's frequency is outside its want, whatever the clock. */

import { judgePart, wantVerdicts } from "../look/judged-wants.js";
import { pinLabel } from "../look/look.js";
import { showBoundsHz, showHzBounds } from "../look/show.js";
import { frequencyMaker, wayTo } from "../look/want-causes.js";
import type { FindingRule } from "./finding.js";
import { settingFixes } from "./setting-fixes.js";

export const offFrequency: FindingRule = {
  id: "off-frequency",
  severity: "error",
  says: "The pin's frequency is outside its want.",
  why: "What hangs on the pin was specified for another frequency: fans whine, coils heat, receivers see nothing.",
  source: "the sketch's own want; frequency by the data sheet's formulas",
  fires: `// wants D3: 1 kHz within 980..1020 Hz
void setup() {}

void loop() { analogWrite(3, 60); }
`,
  quiet: `// wants D3: 490 Hz +-2 %
void setup() {}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "Correct the want where the specification allows more than it says.",
  check(analysis, report) {
    for (const { want, placed, pin, span, signals } of wantVerdicts(analysis)) {
      if (want.frequency === undefined) continue;
      const asked = showBoundsHz(want.frequency);
      if (pin === null && placed.pin !== null && analysis.complete) {
        report({
          message: `${want.pin} gives no pulse: nothing in the sketch drives it; ${asked} is wanted.`,
          span,
          related: [],
        });
        continue;
      }
      const pulses = signals.filter((signal) => signal.kind === "pulse" && signal.frequencyHz !== null);
      if (pin === null || pulses.length === 0) {
        const level = signals.find((signal) => signal.kind === "level" || signal.kind === "not driven");
        if (pin === null || level === undefined || signals.some((signal) => signal.kind === "unknown")) continue;
        const because = level.because === null ? "" : `: ${level.because}`;
        report({
          message: `${pinLabel(analysis, pin)} gives no pulse${because}; ${asked} is wanted.`,
          span,
          related: [],
        });
        continue;
      }
      for (const signal of pulses) {
        if (judgePart(analysis, { frequency: want.frequency }, [signal]).met !== "no") continue;
        const maker = frequencyMaker(analysis, pin, signal);
        const here = {
          span: maker?.span ?? span,
          related: maker === undefined ? [] : [{ span, message: "wanted here" }],
        };
        report({
          message: `${pinLabel(analysis, pin)} puts out ${showHzBounds(signal.frequencyHz!)}, outside the wanted ${asked}. ${wayTo(analysis, pin, signal, want.frequency)}`,
          ...here,
          fixes: settingFixes(analysis, pin, signal, want.frequency),
        });
      }
    }
  },
};
