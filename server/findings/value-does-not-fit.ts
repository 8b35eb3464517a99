/** The value is wider than the register, or overflowed 16-bit arithmetic on the way. */
import type { Analysis, CoreCall, RegisterWrite, WrittenExpression } from "../analysis.js";
import { isBinary, knownValue, partsOf, withoutCasts } from "../look/expression.js";
import { ownPaths, sketchWrites, unitLabel, unitOfPin } from "../look/look.js";
import { registerBits } from "../look/register-width.js";
import { showNumbers } from "../look/show.js";
import type { FindingRule, Fix, Report } from "./finding.js";
import { changingFix, pinsOfTimer } from "./fix.js";
import { narrowFixes } from "./narrow-fixes.js";

export const valueDoesNotFit: FindingRule = {
  id: "value-does-not-fit",
  severity: "error",
  says: "The value is wider than the register, or overflowed 16-bit arithmetic before it got there.",
  why: "The upper bits are lost without a word: 999 in an 8-bit register is 231, 16000 * 1000 in an int is 9216.",
  source: "C standard, conversion to a narrower unsigned type; int is 16 bits wide on AVR",
  fires: `void setup() {
  TCCR2A = _BV(WGM21) | _BV(WGM20) | _BV(COM2B1);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = 999;
  OCR2B = 100;
  pinMode(3, OUTPUT);
}

void loop() {}
`,
  quiet: `void setup() {
  TCCR2A = _BV(WGM21) | _BV(WGM20) | _BV(COM2B1);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = 249;
  OCR2B = 100;
  pinMode(3, OUTPUT);
}

void loop() {}
`,
  whenFine: "~MASK and negative counter preloads (TCNT1 = -1000) are cut on purpose and are left alone.",
  check(analysis, report) {
    for (const write of sketchWrites(analysis)) {
      const overflow = write.expression === null ? null : overflowIn(write.expression);
      if (overflow !== null) {
        report({
          message: overflow.message,
          span: overflow.span,
          fixes: overflow.fixes(analysis, write.timer),
          related: [{ span: write.span, message: `written to ${write.register} here` }],
        });
        continue;
      }
      const message = tooWide(analysis, write);
      if (message !== null)
        report({
          message,
          span: write.expression?.span ?? write.span,
          related: [],
          fixes: narrowFixes(analysis, write),
        });
    }
    duties(analysis, report);
  },
};

function tooWide(analysis: Analysis, write: RegisterWrite): string | null {
  const bits = registerBits(analysis.target.chip, write.register);
  const largest = 2 ** bits - 1;
  const values = write.asked.values;
  const over = values === null ? [] : values.filter((value) => value > largest);
  const surely = write.asked.min > largest;
  // Some of a few written values: each is a line's own constant, not an input's whole range.
  const few = values !== null && over.length > 0 && values.length <= 4 && write.expression?.nature !== "input";
  if (!surely && !few) return null;
  const shown = over.length > 0 ? over : [write.asked.min];
  const counted = analysis.target.chip.timers.some((timer) =>
    timer.channels.some((channel) => channel.compare === write.register),
  );
  const wider = bits === 8 && counted ? ", or take a 16-bit timer" : "";
  const becomes = shown.length === 1 ? `: it becomes ${shown[0]! % (largest + 1)}` : "";
  return `${showNumbers(shown)} does not fit into ${write.register}, which is ${bits} bits wide (0..${largest})${becomes}. Write a value up to ${largest}${wider}.`;
}

function duties(analysis: Analysis, report: Report): void {
  const own = ownPaths(analysis);
  for (const call of analysis.calls) {
    if (own.has(call.span.path)) waits(analysis, call, report);
    const duty = call.arguments[1];
    if (call.name !== "analogWrite" || duty === undefined || !own.has(call.span.path)) continue;
    const overflow = overflowIn(duty.expression);
    if (overflow !== null) {
      report({ message: overflow.message, span: overflow.span, related: [], fixes: overflow.fixes(analysis, null) });
      continue;
    }
    const unit = call.pins.length === 1 ? unitOfPin(analysis, call.pins[0]!) : undefined;
    if (unit === undefined || unit.timer.bits !== 8 || duty.value === null || duty.value.min <= 255) continue;
    const shown = duty.value.min === duty.value.max ? String(duty.value.min) : `${duty.value.min}..${duty.value.max}`;
    const becomes =
      duty.value.min === duty.value.max ? `: ${unit.channel.compare} becomes ${duty.value.min % 256}` : "";
    report({
      message: `${shown} is more than ${unitLabel(analysis, unit.channel)} takes (0..255)${becomes}. Write a value up to 255.`,
      span: duty.span,
      related: [],
      fixes:
        duty.value.min !== duty.value.max
          ? []
          : [
              changingFix(
                "Write 255: fully on",
                "the duty is then the largest there is",
                pinsOf(analysis, call),
                () => [{ span: duty.span, text: "255" }],
              ),
            ],
    });
  }
}

/** `delay(60 * 1000)`: a product that overflows an int becomes a wait of weeks. */
function waits(analysis: Analysis, call: CoreCall, report: Report): void {
  const first = call.arguments[0];
  if ((call.name !== "delay" && call.name !== "delayMicroseconds") || first === undefined) return;
  const overflow = overflowIn(first.expression);
  if (overflow === null) return;
  report({
    message: overflow.message,
    span: overflow.span,
    related: [],
    fixes: overflow.fixes(analysis, null),
  });
}

function pinsOf(analysis: Analysis, call: CoreCall): readonly string[] {
  return analysis.pins.filter((pin) => call.pins.map(String).includes(pin.pin)).map((pin) => pin.pin);
}

interface Overflow {
  readonly message: string;
  readonly span: WrittenExpression["span"];
  readonly fixes: (analysis: Analysis, timer: number | null) => readonly Fix[];
}

/** Signed arithmetic on known values whose true result is outside the type, or a shift by more bits than there are. */
function overflowIn(expression: WrittenExpression): Overflow | null {
  for (const part of partsOf(expression)) {
    if (part.kind !== "binary" || part.type === null) continue;
    const [left, right] = part.operands.map(knownValue);
    if (left === undefined || right === undefined) continue;
    const { bits, signed } = part.type;
    if (isBinary(part, "<<")) {
      if (right < bits) continue;
      return {
        span: part.span,
        fixes: () => [],
        message: `A shift by ${right} leaves nothing of a ${bits}-bit value: the result is not what the bit name suggests. Shift by the bit's number, 0..7 in an 8-bit register.`,
      };
    }
    const exact = isBinary(part, "*")
      ? left * right
      : isBinary(part, "+")
        ? left + right
        : isBinary(part, "-")
          ? left - right
          : null;
    if (exact === null || !signed || bits > 32) continue;
    const limit = 2 ** (bits - 1);
    if (exact >= -limit && exact < limit) continue;
    const wrapped = ((((exact + limit) % (2 * limit)) + 2 * limit) % (2 * limit)) - limit;
    const suffix = bits === 16 ? "L" : "LL";
    const literal = part.operands
      .map(withoutCasts)
      .find((operand) => operand.kind === "literal" && operand.macro === null && /^\d+$/.test(operand.text));
    const way =
      literal === undefined
        ? `Make one of the two a ${bits === 16 ? "long" : "long long"} first.`
        : `Write one of them with ${suffix}, as in ${literal.text}${suffix}.`;
    return {
      span: part.span,
      fixes: (analysis, timer) => (literal === undefined ? [] : [widerFix(analysis, timer, literal, suffix)]),
      message: `${left} ${part.text} ${right} is ${exact}, too large for a ${bits}-bit ${bits === 16 ? "int" : "long"}: it becomes ${wrapped}. ${way}`,
    };
  }
  return null;
}

function widerFix(analysis: Analysis, timer: number | null, literal: WrittenExpression, suffix: string): Fix {
  const pins = timer === null ? analysis.pins.map((pin) => pin.pin) : pinsOfTimer(analysis, timer);
  const end = { path: literal.span.path, start: literal.span.end, end: literal.span.end };
  return changingFix(`Write ${literal.text}${suffix}`, "the product keeps all its bits", pins, () => [
    { span: end, text: suffix },
  ]);
}
