/** A bench reading does not fit the prediction; says which clock or setting would explain it. */
import { showClockError } from "../../shared-model/clock-spread.js";
import type { Analysis } from "../analysis.js";
import { clockSpread } from "../look/bench-clock.js";
import { pinLabel } from "../look/look.js";
import { explanationWords } from "../readings/explanation.js";
import { type FittedReading, fittedReadings, readWords } from "../readings/fitted-reading.js";
import type { FindingRule } from "./finding.js";

export const readingDisagrees: FindingRule = {
  id: "reading-disagrees",
  severity: "warning",
  says: "A bench reading does not fit the prediction, and which clock or setting would explain it.",
  why: "Either the board runs from another clock, or another sketch is on it, or the prediction misses something: each is worth knowing.",
  source:
    "the sketch's own readings; frequency by the data sheet's formulas; how small a slip is: common practice, no source",
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
    for (const fitted of fittedReadings(analysis)) {
      if (fitted.fits !== "no" || fitted.pin === null) continue;
      const { span } = fitted.placed;
      const { at } = fitted.reading;
      report({
        message: `${pinLabel(analysis, fitted.pin)} reads ${readWords(fitted.reading)}, but ${fitted.predicted} is predicted${fitted.withinTolerance ? clock(analysis) : ""}. ${explanation(fitted)}`,
        span: { path: span.path, start: span.start + at.start, end: span.start + at.end },
        related: [],
      });
    }
  },
};

/** The other readings' word on the clock, where they agree on one. */
function clock(analysis: Analysis): string {
  const spread = clockSpread(analysis);
  return spread.readings === null
    ? ""
    : ` with the clock error of ${showClockError(spread)} that the other ${spread.readings} readings agree on`;
}

function explanation({ explanations }: FittedReading): string {
  const [first] = explanations;
  if (first?.near === true) return `Nearest explanation: ${explanationWords(first)}.`;
  const far = first === undefined ? "" : ` (${first.slip} would)`;
  return `No small slip in clock, prescaler, mode or TOP explains it${far}: check pin, board and sketch.`;
}
