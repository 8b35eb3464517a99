/** analogWrite to a pin that no timer drives. */

import { single } from "../../shared-model/register-value.js";
import type { Analysis, CoreCall } from "../analysis.js";
import { ownPaths, pinLabel } from "../look/look.js";
import { listed } from "../look/show.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, textOf } from "./fix.js";

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
      if (call.name !== "analogWrite" || !own.has(call.span.path)) continue;
      const without = analysis.target.pins.filter(
        (pin) => call.pins.includes(pin.number) && pin.analogWriteUnit === undefined,
      );
      const duty = call.arguments[1]?.value ?? null;
      // A pin that may be any of the board's is not known; a few are a list that the sketch goes through.
      if (without.length === 0 || call.pins.length > MOST_PINS || duty === null) continue;
      if (duty.values?.every((value) => value === 0 || value === 255)) continue;
      const labels = without.map((pin) => pinLabel(analysis, { pin: String(pin.number), port: pin.port }));
      const pwm = analysis.target.pins
        .filter((candidate) => candidate.analogWriteUnit !== undefined)
        .map((candidate) => `D${candidate.number}`);
      const it = labels.length === 1 ? "it" : "them";
      report({
        message: `No timer drives ${listed(labels)}: analogWrite only switches ${it}, low below 128 and high from 128 on. Pins with PWM are ${listed(pwm)}.`,
        span: call.span,
        related: [],
        fixes: call.pins.length === 1 ? switching(analysis, call) : [],
      });
    }
  },
};

const MOST_PINS = 8;

/** `digitalWrite` says what happens; it leaves the direction alone, so only where the sketch has set that by itself. */
function switching(analysis: Analysis, call: CoreCall): readonly Fix[] {
  const [pin, duty] = call.arguments;
  const made = analysis.calls.some((other) => other.name === "pinMode" && other.pins.includes(call.pins[0]!));
  const text = textOf(analysis, call.span);
  if (pin === undefined || duty === undefined || !made || !text.startsWith("analogWrite")) return [];
  const known = duty.value === null ? undefined : single(duty.value);
  const value = textOf(analysis, duty.span);
  const level =
    known === undefined
      ? `${/^[\w.]+(\([^()]*\))?$/.test(value) ? value : `(${value})`} < 128 ? LOW : HIGH`
      : known < 128
        ? "LOW"
        : "HIGH";
  const end = call.span.start + "analogWrite".length;
  return [
    changingFix("Write what it does: digitalWrite", "the pin's levels stay as they are", [String(call.pins[0])], () => [
      { span: { path: call.span.path, start: call.span.start, end }, text: "digitalWrite" },
      { span: duty.span, text: level },
    ]),
  ];
}
