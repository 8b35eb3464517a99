/** A duty above TOP: the unit never switches within the period, and all such values give one constant level. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Span } from "../../shared-model/span.js";
import type { Analysis, TimerState, WrittenExpression } from "../analysis.js";
import {
  lastingStates,
  makerOf,
  nameWritten,
  ownPaths,
  pinOfUnit,
  sketchWrites,
  unitLabel,
  unitOfPin,
} from "../look/look.js";
import { showNumbers } from "../look/show.js";
import { channelSnapshot, counts, isPwm, modeOf, topBounds } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, pinsOfTimer, textOf } from "./fix.js";

export const dutyPastTop: FindingRule = {
  id: "duty-past-top",
  severity: "warning",
  says: "A duty value above TOP is written: says which values, and that they all give one constant level.",
  why: "The counter never gets there. The last part of a knob's turn does nothing but hold the pin at one level.",
  source: "the chip's data sheet, fast PWM and phase correct PWM modes: compare values at and above TOP",
  fires: `void setup() {
  OCR2A = 248;
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
}

void loop() { analogWrite(3, analogRead(A0) / 4); }
`,
  quiet: `void setup() {
  OCR2A = 248;
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
}

void loop() { analogWrite(3, map(analogRead(A0), 0, 1023, 0, 248)); }
`,
  whenFine: "A constant level that is meant is better written with digitalWrite, or as 0 or 255 to analogWrite.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      for (const channel of timer.channels) {
        for (const past of pastTop(analysis, timer, channel)) report(past);
      }
    }
  },
};

function pastTop(analysis: Analysis, timer: TimerFact, channel: ChannelFact) {
  const found: { message: string; span: Span; related: { span: Span; message: string }[]; fixes: readonly Fix[] }[] =
    [];
  const told = new Set<string>();
  for (const state of lastingStates(analysis, timer.number)) {
    const top = excess(timer, channel, state);
    if (top === null) continue;
    for (const duty of dutiesOf(analysis, timer, channel, state)) {
      const key = `${duty.expression.span.path}:${duty.expression.span.start}`;
      const values = valuesPast(duty, top.min, 2 ** timer.bits - 1);
      if (values === null || told.has(key)) continue;
      told.add(key);
      const setter = makerOf(
        analysis,
        state.from,
        // The mode says by name which of the two holds TOP.
        (write) =>
          (timer.channels[0]?.compare === write.register || timer.capture === write.register) &&
          state.mode.includes(write.register),
      );
      found.push({
        message: `${unitLabel(analysis, channel)} counts to TOP ${top.min}: the ${values.includes("..") ? "values" : "value"} ${values} ${values.includes("..") ? "all give" : "gives"} one constant level, no pulse. Scale the duty to 0..${top.min}.`,
        span: duty.expression.span,
        related: setter === undefined ? [] : [{ span: setter.span, message: `TOP is set here` }],
        fixes: [rescale(analysis, timer, channel, duty, top.min)],
      });
    }
  }
  return found;
}

/** TOP, where it is one known value in this state and some connected compare value is above it. */
function excess(timer: TimerFact, channel: ChannelFact, state: TimerState): { readonly min: number } | null {
  const mode = modeOf(timer, state.snapshot);
  if (mode === undefined || !isPwm(mode) || !counts(timer, state.snapshot)) return null;
  if (mode.top.kind === "compareA" && channel === timer.channels[0]) return null;
  const top = topBounds(timer, mode, state.snapshot);
  if (top === null || top.min !== top.max || top.min === 0) return null;
  const ways = channelSnapshot(state.snapshot, channel.unit)?.alternatives ?? [];
  const past = ways.some((way) => way.com.max > 0 && way.output !== false && way.compare.max > top.max);
  return past ? { min: top.min } : null;
}

interface Duty {
  readonly expression: WrittenExpression;
  readonly value: RegisterValue;
  /** Values that the core turns into port levels. */
  readonly levels: readonly number[];
}

/** The places that write this unit's duty. */
function dutiesOf(analysis: Analysis, timer: TimerFact, channel: ChannelFact, state: TimerState): readonly Duty[] {
  const duties: Duty[] = [];
  const own = ownPaths(analysis);
  for (const write of sketchWrites(analysis)) {
    if (write.register !== channel.compare || write.expression === null || write.operator !== "=") continue;
    if (nameWritten(analysis, write) !== channel.compare) continue;
    duties.push({ expression: write.expression, value: write.after, levels: [] });
  }
  for (const call of analysis.calls) {
    const argument = call.arguments[1];
    if (call.name !== "analogWrite" || argument === undefined || argument.value === null || !own.has(call.span.path))
      continue;
    if (!call.pins.some((number) => unitOfPin(analysis, number)?.channel === channel)) continue;
    if (!call.regimes.includes(state.regime) && !call.regimes.includes("setup")) continue;
    const limit = timer.bits === 8 ? 255 : 65535;
    if (argument.value.max > limit || argument.value.min < 0) continue;
    duties.push({ expression: argument.expression, value: argument.value, levels: [0, 255] });
  }
  return duties;
}

/**
 * `249..254`: the values of this duty above TOP; null where there are none, or the range is only the type's own or the
 * register's (`width`: its highest value).
 */
function valuesPast(duty: Duty, top: number, width: number): string | null {
  const { value, expression } = duty;
  if (value.values !== null) {
    const past = value.values.filter((each) => each > top && !duty.levels.includes(each));
    return past.length === 0 ? null : showNumbers(past);
  }
  if (expression.type !== null && expression.nature !== "input") {
    const most = 2 ** (expression.type.bits - (expression.type.signed ? 1 : 0)) - 1;
    if (value.max >= most) return null;
    // Cut to the register's width and anything there: nothing is known of it.
    if (value.min === 0 && value.max === width) return null;
  }
  const last = duty.levels.includes(value.max) ? value.max - 1 : value.max;
  const first = Math.max(value.min, top + 1);
  if (first > last) return null;
  return first === last ? String(first) : `${first}..${last}`;
}

function rescale(analysis: Analysis, timer: TimerFact, channel: ChannelFact, duty: Duty, top: number): Fix {
  const pin = pinOfUnit(analysis, channel.unit);
  const pins = pin === undefined ? pinsOfTimer(analysis, timer.number) : [pin.pin];
  const { expression, value } = duty;
  const constant = value.min === value.max;
  const full = value.max <= 255 ? 255 : Math.max(value.max, 1023);
  const scaled = Math.round((value.min * top) / full);
  return changingFix(
    constant ? `Write ${scaled}: the same share of TOP ${top}` : `Scale the duty to 0..${top} with map`,
    `the duty keeps its share of the period, now counted to ${top}`,
    pins,
    () => [
      {
        span: expression.span,
        text: constant ? String(scaled) : `map(${textOf(analysis, expression.span)}, 0, ${full}, 0, ${top})`,
      },
    ],
  );
}
