/** TOP is one away from the count that gives the wanted frequency exactly: the count includes 0. */

import { wantVerdicts } from "../look/judged-wants.js";
import { makerOf, pinLabel } from "../look/look.js";
import { showHz } from "../look/show.js";
import { nearestTop, stateOf } from "../look/want-causes.js";
import type { FindingRule } from "./finding.js";
import { topFix } from "./setting-fixes.js";

export const oneCountOff: FindingRule = {
  id: "one-count-off",
  severity: "note",
  says: "TOP is one away from the count that gives the wanted frequency exactly: the count includes 0.",
  why: "16 MHz / 640 is 25 kHz, but a counter that counts to 640 needs 641 clocks: 24.961 kHz.",
  source: "the chip's data sheet: fast PWM and CTC count TOP + 1 clocks, dual-slope modes 2 · TOP",
  fires: `// wants D9: 25 kHz +-1 %
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 640;
  OCR1A = 200;
}

void loop() {}
`,
  quiet: `// wants D9: 25 kHz +-1 %
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 639;
  OCR1A = 200;
}

void loop() {}
`,
  whenFine: "Where the last parts in a thousand do not matter.",
  check(analysis, report) {
    for (const { want, pin, span, signals } of wantVerdicts(analysis)) {
      if (want.frequency === undefined || pin === null) continue;
      for (const signal of signals) {
        if (signal.kind !== "pulse" || signal.top === null || signal.top.min !== signal.top.max) continue;
        const near = nearestTop(analysis, pin, signal, want.frequency.hz);
        const found = stateOf(analysis, pin, signal);
        if (near === null || found === null || !near.exact || Math.abs(near.top - signal.top.min) !== 1) continue;
        const maker = makerOf(analysis, found.state.from, (write) => write.register === near.register);
        if (maker === undefined) continue;
        report({
          message: `${near.register} = ${signal.top.min} is one count off for ${pinLabel(analysis, pin)}: ${near.top} gives exactly ${showHz(near.hz)}.`,
          span: maker.span,
          related: [{ span, message: "wanted here" }],
          fixes: topFix(analysis, found.timer, maker, near.top, near.hz),
        });
      }
    }
  },
};
