/** The duty wraps below 0 or past the register's width for some inputs. */
import type { TimerFact } from "../../shared-model/chip.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Analysis } from "../analysis.js";
import { type DutyPlace, dutyPlaces } from "../look/duty-places.js";
import { partsOf } from "../look/expression.js";
import { lastingStates, pinOfUnit } from "../look/look.js";
import { isPwm, modeOf, topBounds } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, textOf } from "./fix.js";

export const dutyWraps: FindingRule = {
  id: "duty-wraps",
  severity: "warning",
  says: "For some inputs the duty leaves the register's range and wraps round.",
  why: "A knob turned past the end of the range sends the duty from full back to nothing, or from nothing to full.",
  source: "C standard, conversion to a narrower unsigned type; the core's analogWrite stores its int as it is",
  fires: `void setup() {}

void loop() { analogWrite(3, analogRead(A0)); }
`,
  quiet: `void setup() {}

void loop() { analogWrite(3, analogRead(A0) / 4); }
`,
  whenFine: "A value whose range is not known is left alone.",
  check(analysis, report) {
    const told = new Set<string>();
    for (const place of dutyPlaces(analysis)) {
      const { expression, value, channel, timer } = place;
      const key = `${expression.span.path}:${expression.span.start}`;
      if (!place.byReading || told.has(key) || (place.call !== null && place.call.pins.length !== 1)) continue;
      const largest = timer.bits === 8 ? 255 : 65535;
      const message = wraps(value, expression.type, largest);
      if (message === null) continue;
      told.add(key);
      report({
        message: `${message} in ${channel.compare}. Scale it with map or hold it with constrain.`,
        span: expression.span,
        related: [],
        fixes: fixes(analysis, place, largest),
      });
    }
  },
};

/** Scaled to what the unit counts to, or held at its ends. constrain is a macro that reads its argument more than once. */
function fixes(analysis: Analysis, place: DutyPlace, largest: number): readonly Fix[] {
  const { expression, value, channel, timer } = place;
  const pin = pinOfUnit(analysis, channel.unit);
  const end = Math.min(largest, ...topsOf(analysis, timer));
  const text = textOf(analysis, expression.span);
  const pins = pin === undefined ? [] : [pin.pin];
  const write = (title: string, because: string, now: string) =>
    changingFix(title, because, pins, () => [{ span: expression.span, text: now }]);
  const calls = [...partsOf(expression)].some((part) => part.kind === "call");
  return [
    ...(calls
      ? []
      : [
          write(
            `Hold it in 0..${end} with constrain`,
            "what is beyond stays at the end",
            `constrain(${text}, 0, ${end})`,
          ),
        ]),
    write(
      `Scale ${value.min}..${value.max} to 0..${end} with map`,
      "the whole travel of the input is used",
      `map(${text}, ${value.min}, ${value.max}, 0, ${end})`,
    ),
  ];
}

/** TOP in each lasting state of the timer, where it is known. */
function topsOf(analysis: Analysis, timer: TimerFact): readonly number[] {
  return lastingStates(analysis, timer.number).flatMap((state) => {
    const mode = modeOf(timer, state.snapshot);
    const top = mode === undefined || !isPwm(mode) ? null : topBounds(timer, mode, state.snapshot);
    return top === null || top.min !== top.max || top.min === 0 ? [] : [top.min];
  });
}

/** What happens to the values outside 0..largest; null where none are, all are, or the range is only the type's own. */
function wraps(
  value: RegisterValue,
  type: { readonly bits: number; readonly signed: boolean } | null,
  largest: number,
): string | null {
  if (value.min > largest || value.max < 0 || (value.min >= 0 && value.max <= largest)) return null;
  if (type !== null) {
    const least = type.signed ? -(2 ** (type.bits - 1)) : 0;
    const most = type.signed ? 2 ** (type.bits - 1) - 1 : 2 ** type.bits - 1;
    if (value.min <= least && value.max >= most) return null;
  }
  const size = largest + 1;
  const over =
    value.max > largest
      ? `${largest + 1} and up ${value.min < 0 ? "and what is below 0 wrap" : "wrap to 0 and up"}`
      : `below 0 they wrap to ${size + Math.max(value.min, -size)}..${largest}`;
  return `The values ${value.min}..${value.max} leave 0..${largest}: ${over}`;
}
