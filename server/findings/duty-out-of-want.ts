/** The duty or the pulse width leaves the want. */

import type { WantedSignal } from "../../shared-model/wants/comment.js";
import { judgePart, wantVerdicts } from "../look/judged-wants.js";
import { pinLabel, sameSpan } from "../look/look.js";
import type { FindingRule } from "./finding.js";

export const dutyOutOfWant: FindingRule = {
  id: "duty-out-of-want",
  severity: "error",
  says: "The duty or the pulse width leaves the bounds of the want.",
  why: "A servo is driven against its stop, a fan stalls, a heater gets more than it may: bounds of a duty are mostly there for a reason.",
  source: "the sketch's own want",
  fires: `// wants D9: 490 Hz +-2 %, duty 20..80 %
void setup() {}

void loop() { analogWrite(9, 230); }
`,
  quiet: `// wants D9: 490 Hz +-2 %, duty 20..80 %
void setup() {}

void loop() { analogWrite(9, 180); }
`,
  whenFine: "Constant levels count as 0 and 100 %: where off is allowed, begin the want's duty at 0.",
  check(analysis, report) {
    for (const { want, pin, span, signals } of wantVerdicts(analysis)) {
      if (pin === null || !signals.some((signal) => signal.kind === "pulse")) continue;
      const parts: readonly WantedSignal[] = [
        ...(want.duty === undefined ? [] : [{ duty: want.duty }]),
        ...(want.pulse === undefined ? [] : [{ pulse: want.pulse }]),
        ...(want.idle === undefined ? [] : [{ idle: want.idle }]),
      ];
      for (const part of parts) {
        // Where the want says how the pin rests, its levels are a matter of that alone.
        const concerned =
          want.idle === undefined || part.idle !== undefined
            ? signals
            : signals.filter((signal) => signal.kind !== "level");
        const judged = judgePart(analysis, part, concerned);
        const reason = judged.reasons[0];
        if (judged.met !== "no" || reason === undefined) continue;
        const places = dutyPlaces(analysis, pin.pin);
        const place = places.length === 1 && part.idle === undefined ? places[0]! : span;
        const way =
          part.idle === undefined
            ? "Hold the duty with constrain, or widen the want"
            : `Leave the pin ${part.idle.level} where no pulse is meant, or take idle out of the want`;
        report({
          message: `${pinLabel(analysis, pin)}: ${reason}. ${way}.`,
          span: place,
          related: sameSpan(place, span) ? [] : [{ span, message: "wanted here" }],
        });
      }
    }
  },
};

/** The analogWrite calls of a pin. */
function dutyPlaces(analysis: Parameters<FindingRule["check"]>[0], pin: string) {
  return analysis.calls
    .filter((call) => call.name === "analogWrite" && call.pins.map(String).includes(pin))
    .map((call) => call.span);
}
