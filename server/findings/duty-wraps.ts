/** The duty wraps below 0 or past the register's width for some inputs. */
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Analysis } from "../analysis.js";
import { ownPaths, sketchWrites, unitOfPin } from "../look/look.js";
import { registerBits } from "../look/register-width.js";
import type { FindingRule } from "./finding.js";

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
    for (const write of sketchWrites(analysis)) {
      const timer = analysis.target.chip.timers.find((candidate) => candidate.number === write.timer);
      const isDuty = timer?.channels.some((channel) => channel.compare === write.register) ?? false;
      if (!isDuty || write.operator !== "=" || write.expression === null || write.expression.nature !== "input")
        continue;
      const message = wraps(
        write.asked,
        write.expression.type,
        2 ** registerBits(analysis.target.chip, write.register) - 1,
      );
      if (message !== null)
        report({ message: `${message} in ${write.register}. ${WAY}`, span: write.expression.span, related: [] });
    }
    calls(analysis, report);
  },
};

const WAY = "Scale it with map or hold it with constrain.";

function calls(analysis: Analysis, report: Parameters<FindingRule["check"]>[1]): void {
  const own = ownPaths(analysis);
  for (const call of analysis.calls) {
    const duty = call.arguments[1];
    if (call.name !== "analogWrite" || duty === undefined || duty.value === null || !own.has(call.span.path)) continue;
    const unit = call.pins.length === 1 ? unitOfPin(analysis, call.pins[0]!) : undefined;
    if (unit === undefined || duty.expression.nature !== "input") continue;
    const message = wraps(duty.value, duty.expression.type, unit.timer.bits === 8 ? 255 : 65535);
    if (message !== null)
      report({ message: `${message} in ${unit.channel.compare}. ${WAY}`, span: duty.span, related: [] });
  }
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
