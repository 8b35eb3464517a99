/** Fewer duty steps than wanted. */

import { judgePart, wantVerdicts } from "../look/judged-wants.js";
import { pinLabel } from "../look/look.js";
import { frequencyMaker } from "../look/want-causes.js";
import type { FindingRule } from "./finding.js";

export const coarseDuty: FindingRule = {
  id: "coarse-duty",
  severity: "warning",
  says: "The timer gives fewer duty steps than the want asks for.",
  why: "A high frequency leaves few counts in a period: a lamp dims in visible jumps, a valve cannot be set finely.",
  source: "the data sheet's resolution formula: TOP + 1 counts",
  fires: `// wants D9: 160 kHz +-2 %, 200 steps
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 99;
  OCR1A = 50;
}

void loop() {}
`,
  quiet: `// wants D9: 160 kHz +-2 %, 100 steps
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 99;
  OCR1A = 50;
}

void loop() {}
`,
  whenFine: "Where fewer steps do, write fewer into the want.",
  check(analysis, report) {
    for (const { want, pin, span, signals } of wantVerdicts(analysis)) {
      if (want.steps === undefined || pin === null) continue;
      for (const signal of signals) {
        if (signal.kind !== "pulse" || signal.steps === null) continue;
        if (judgePart(analysis, { steps: want.steps }, [signal]).met !== "no") continue;
        const maker = frequencyMaker(analysis, pin, signal);
        const top = signal.top === null ? "" : ` (TOP ${signal.top.min})`;
        report({
          message: `${pinLabel(analysis, pin)} has ${signal.steps} duty steps${top}, ${want.steps.steps} are wanted. A higher TOP with a smaller prescaler, or a lower frequency, gives more.`,
          span: maker?.span ?? span,
          related: maker === undefined ? [] : [{ span, message: "wanted here" }],
        });
      }
    }
  },
};
