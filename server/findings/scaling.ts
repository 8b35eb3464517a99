/** A duty brought to the timer's own scale, 0..TOP: with map, or in arithmetic that keeps all its bits. */

import type { TimerFact } from "../../shared-model/chip.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite, TimerState, WrittenExpression } from "../analysis.js";
import { codeOnly } from "../edits/statements.js";
import { maskedBits } from "../look/core-bits.js";
import type { DutyPlace } from "../look/duty-places.js";
import { isBinary, knownValue, withoutCasts } from "../look/expression.js";
import { makerOf, pinOfUnit, sketchWrites } from "../look/look.js";
import { modeOf, topRegister } from "../look/timer-view.js";
import type { Fix } from "./finding.js";
import { changingFix, fileText, pinsOfTimer, textOf } from "./fix.js";

/** The write that set TOP of a state; the mode says by name which of the two registers holds it. */
export function topMaker(analysis: Analysis, timer: TimerFact, state: TimerState): RegisterWrite | undefined {
  return makerOf(
    analysis,
    state.from,
    (write) =>
      (timer.channels[0]?.compare === write.register || timer.capture === write.register) &&
      state.mode.includes(write.register),
  );
}

/** `full`: the largest value of the scale that the duty is on; the one it looks like where it is not said. */
export function scalingFixes(
  analysis: Analysis,
  duty: DutyPlace,
  state: TimerState,
  top: number,
  full = fullScale(duty.value.max),
): readonly Fix[] {
  const { expression, value, channel } = duty;
  const pin = pinOfUnit(analysis, channel.unit);
  const pins = pin === undefined ? pinsOfTimer(analysis, duty.timer.number) : [pin.pin];
  const because = `the duty keeps its share of the period, now counted to ${top}`;
  const edit = (title: string, text: string, span = expression.span) =>
    changingFix(title, because, pins, () => [{ span, text }]);
  const constant = single(value);
  if (constant !== undefined) {
    const scaled = Math.round((constant * top) / full);
    return [edit(`Write ${scaled}: the same share of TOP ${top}`, String(scaled))];
  }
  const name = nameOfTop(analysis, duty, state, top);
  const title = `Scale the duty to 0..${top} with map`;
  const mapped = mappedTo(expression, full);
  // A map to the wrong end needs no second one around it; a reading cut down to 8 bits is scaled before it is cut.
  const text = textOf(analysis, expression.span);
  const scaled =
    mapped === null
      ? `map(${textOf(analysis, scaledInput(expression, full).span)}, 0, ${inputTop(expression, full)}, 0, ${name})`
      : text.slice(0, mapped.span.start - expression.span.start) +
        name +
        text.slice(mapped.span.end - expression.span.start);
  // analogWrite would take a scaled 255 for fully on.
  if (duty.call !== null && top > 255) return directly(analysis, duty, pins, value.max > 255 ? text : scaled);
  const byMap = mapped === null ? edit(title, scaled) : edit(title, name, mapped.span);
  const factor = /^\d+$/.test(name) ? `${name}UL` : `(unsigned long)${name}`;
  const product = `${isSimple(expression, text) ? text : `(${text})`} * ${factor} / ${full}`;
  return [byMap, edit(`Scale the duty to 0..${top} in 32-bit arithmetic`, product)];
}

/** The scale that a duty was made for: 8 bits, a reading's 10 bits, or its own largest value. */
function fullScale(largest: number): number {
  if (largest <= 255) return 255;
  return largest > 900 && largest <= 1023 ? 1023 : largest;
}

/** The last argument of a `map(…, 0, FULL)`; null for anything else. */
function mappedTo(expression: WrittenExpression, full: number): WrittenExpression | null {
  const inner = withoutCasts(expression);
  const last = inner.operands[4];
  if (inner.kind !== "call" || inner.text !== "map" || last === undefined) return null;
  return knownValue(last) === full ? last : null;
}

/** `analogRead(A0)` in `analogRead(A0) / 4` and `analogRead(A0) >> 2`. */
function reading(expression: WrittenExpression, full: number): WrittenExpression | null {
  const inner = withoutCasts(expression);
  const [left, right] = inner.operands;
  if (full !== 255 || left === undefined || right === undefined || left.value?.max !== 1023 || left.value.min !== 0)
    return null;
  const quarter =
    (isBinary(inner, "/") && knownValue(right) === 4) || (isBinary(inner, ">>") && knownValue(right) === 2);
  return quarter ? left : null;
}

function scaledInput(expression: WrittenExpression, full: number): WrittenExpression {
  return reading(expression, full) ?? expression;
}

function inputTop(expression: WrittenExpression, full: number): number {
  return reading(expression, full) === null ? full : 1023;
}

function isSimple(expression: WrittenExpression, text: string): boolean {
  return ["name", "call", "literal"].includes(withoutCasts(expression).kind) && /^[\w.]+(\(.*\))?$/s.test(text);
}

/** The sketch's own constant for TOP, else the register that holds it, else its number. */
function nameOfTop(analysis: Analysis, duty: DutyPlace, state: TimerState, top: number): string {
  const mode = modeOf(duty.timer, state.snapshot);
  const register = mode === undefined ? null : topRegister(duty.timer, mode);
  const expression = topMaker(analysis, duty.timer, state)?.expression;
  const written = expression == null ? null : textOf(analysis, expression.span);
  if (
    written !== null &&
    /^[A-Za-z_]\w*$/.test(written) &&
    expression?.nature === "constant" &&
    knownValue(expression) === top &&
    isGlobal(fileText(analysis, duty.expression.span.path), written, duty.expression.span.start)
  )
    return written;
  return register ?? String(top);
}

/** Whether a name is a macro, or declared outside of all braces before a place of the file. */
function isGlobal(text: string, name: string, before: number): boolean {
  if (new RegExp(`^[ \\t]*#[ \\t]*define[ \\t]+${name}\\b`, "m").test(text.slice(0, before))) return true;
  const code = codeOnly(text);
  const at = new RegExp(`\\b${name}\\b\\s*(=|\\{|;)`).exec(code)?.index ?? -1;
  if (at < 0 || at > before) return false;
  let depth = 0;
  for (const character of code.slice(0, at)) depth += character === "{" ? 1 : character === "}" ? -1 : 0;
  return depth === 0;
}

/** `analogWrite(9, v)` → `OCR1A = v`, where the sketch itself connects the unit: nothing leaves the timer then. */
function directly(analysis: Analysis, duty: DutyPlace, pins: readonly string[], value: string): readonly Fix[] {
  const { call, channel } = duty;
  const connected = sketchWrites(analysis).some(
    (write) =>
      write.register === channel.com.register &&
      maskedBits(write.after, 2 << channel.com.shift) === 2 << channel.com.shift,
  );
  const output = analysis.calls.some(
    (other) => other.name === "pinMode" && call !== null && other.pins.includes(call.pins[0]!),
  );
  if (call === null || !connected || !output || call.pins.length !== 1) return [];
  return [
    changingFix(`Write ${channel.compare} itself`, "no value leaves the timer then", pins, () => [
      { span: call.span, text: `${channel.compare} = ${value}` },
    ]),
  ];
}
