/** The duty written never reaches what the want asks to reach, since its scale was not adapted to TOP. */

import type { Analysis, PinHistory } from "../analysis.js";
import { dutyPlaces } from "../look/duty-places.js";
import { judgePart, wantVerdicts } from "../look/judged-wants.js";
import { lastingStates, pinLabel } from "../look/look.js";
import { modeOf, topBounds } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { scalingFixes } from "./scaling.js";

export const shortOfReach: FindingRule = {
  id: "short-of-reach",
  severity: "warning",
  says: "The duty never gets to an end that the want asks it to reach.",
  why: "A knob at its stop gives a quarter of the power, because 0..255 is written where TOP is 1023.",
  source: "the sketch's own want",
  fires: `// wants D9: 15.6 kHz +-2 %, reach 5..95 %
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}

void loop() { OCR1A = analogRead(A0) / 4 + 1; }
`,
  quiet: `// wants D9: 15.6 kHz +-2 %, reach 5..95 %
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}

void loop() { OCR1A = analogRead(A0) | 1; }
`,
  whenFine: "Where the end is left out on purpose, narrow the want's reach.",
  check(analysis, report) {
    for (const { want, pin, span, signals } of wantVerdicts(analysis)) {
      if (want.reach === undefined || pin === null || signals.some((signal) => signal.kind === "unknown")) continue;
      const judged = judgePart(analysis, { reach: want.reach }, signals);
      const reason = judged.reasons[0];
      if (judged.met !== "no" || reason === undefined || !signals.some((signal) => signal.kind === "pulse")) continue;
      const top = signals.find((signal) => signal.top !== null && signal.top.min === signal.top.max)?.top?.min;
      const way =
        top === undefined ? "Scale the duty to the whole range." : `Scale the duty to 0..${top}, the timer's TOP.`;
      report({
        message: `${pinLabel(analysis, pin)}: ${reason}. ${way}`,
        span,
        related: [],
        fixes: fixes(analysis, pin),
      });
    }
  },
};

/** The one place that gives the pin a varying duty, scaled to TOP; none where several do. */
function fixes(analysis: Analysis, pin: PinHistory): readonly Fix[] {
  const duties = dutyPlaces(analysis).filter(
    (place) => pin.units.includes(place.channel.unit) && place.value.min !== place.value.max,
  );
  const [duty] = duties;
  const states = duty === undefined ? [] : lastingStates(analysis, duty.timer.number);
  const [state] = states;
  const mode = duty === undefined || state === undefined ? undefined : modeOf(duty.timer, state.snapshot);
  if (duty === undefined || state === undefined || mode === undefined || duties.length !== 1 || states.length !== 1)
    return [];
  const top = topBounds(duty.timer, mode, state.snapshot);
  if (top === null || top.min !== top.max || top.min <= duty.value.max) return [];
  return scalingFixes(analysis, duty, state, top.min, duty.value.max);
}
