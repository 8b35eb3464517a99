/** analogWrite to a pin that no timer drives. */

import { ownPaths, pinLabel } from "../look/look.js";
import { listed } from "../look/show.js";
import type { FindingRule } from "./finding.js";

export const pinWithoutTimer: FindingRule = {
  id: "pin-without-timer",
  severity: "warning",
  says: "analogWrite to a pin that no timer drives: it only switches at 128.",
  why: "The lamp does not dim: below 128 it is off, from 128 on it is fully on.",
  source: "the core's wiring_analog.c and the board's pins file",
  fires: `void setup() {}

void loop() { analogWrite(4, analogRead(A0) / 4); }
`,
  quiet: `void setup() {}

void loop() { analogWrite(5, analogRead(A0) / 4); }
`,
  whenFine: "0 and 255 written as plain off and on are left alone.",
  check(analysis, report) {
    const own = ownPaths(analysis);
    for (const call of analysis.calls) {
      if (call.name !== "analogWrite" || call.pins.length !== 1 || !own.has(call.span.path)) continue;
      const pin = analysis.target.pins.find((candidate) => candidate.number === call.pins[0]);
      const duty = call.arguments[1]?.value ?? null;
      if (pin === undefined || pin.analogWriteUnit !== undefined || duty === null) continue;
      if (duty.values?.every((value) => value === 0 || value === 255)) continue;
      const label = pinLabel(analysis, { pin: String(pin.number), port: pin.port });
      const pwm = analysis.target.pins
        .filter((candidate) => candidate.analogWriteUnit !== undefined)
        .map((candidate) => `D${candidate.number}`);
      report({
        message: `No timer drives ${label}: analogWrite only switches it, low below 128 and high from 128 on. Pins with PWM are ${listed(pwm)}.`,
        span: call.span,
        related: [],
      });
    }
  },
};
