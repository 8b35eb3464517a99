/** Written before the core's init runs, and changed by it. */
import type { FindingRule } from "./finding.js";
import { sketchWrites } from "./look.js";
import { showHex, showValue } from "./show.js";

export const wipedByCore: FindingRule = {
  id: "wiped-by-core",
  severity: "error",
  says: "A register is written before the core's init runs, which then changes it.",
  why: "Global constructors run first, the core's init second, setup third: a timer set up in a constructor is set up again by the core.",
  source: "the core's main.cpp and wiring.c: constructors, then init, then setup",
  fires: `struct Fan {
  Fan() { TCCR1B = _BV(WGM12) | _BV(CS10); }
};
Fan fan;

void setup() {}

void loop() { analogWrite(9, 60); }
`,
  quiet: `struct Fan {
  void begin() { TCCR1B = _BV(WGM12) | _BV(CS10); }
};
Fan fan;

void setup() { fan.begin(); }

void loop() { analogWrite(9, 60); }
`,
  whenFine: "Never: move the write into setup, or into a begin method that setup calls.",
  check(analysis, report) {
    for (const write of sketchWrites(analysis)) {
      const lost = write.lost.find((reason) => reason.kind === "wiped by the core's init");
      if (lost === undefined || lost.kind !== "wiped by the core's init") continue;
      if (lost.after.min === write.after.min && lost.after.max === write.after.max) continue;
      const wide = write.after.max > 0xff;
      const shown = (value: typeof write.after) =>
        value.min === value.max && !wide ? showHex(value.min) : showValue(value);
      report({
        message: `${write.register} = ${shown(write.after)} is written before the core's init, which changes it to ${shown(lost.after)}. Write it in setup, or in a method that setup calls.`,
        span: write.span,
        related: [],
      });
    }
  },
};
