/** A duty above TOP: the unit never switches within the period, and all such values give one constant level. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import type { Span } from "../../shared-model/span.js";
import type { Analysis, TimerState } from "../analysis.js";
import { type DutyPlace, dutyPlaces } from "../look/duty-places.js";
import { lastingStates, unitLabel } from "../look/look.js";
import { showNumbers, showShare } from "../look/show.js";
import { channelSnapshot, counts, isPwm, modeOf, topBounds } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { scalingFixes, topMaker } from "./scaling.js";

export const dutyPastTop: FindingRule = {
  id: "duty-past-top",
  severity: "warning",
  says: "A duty value above TOP is written, or a duty passes through analogWrite's 255 where TOP is higher: says which values give one constant level.",
  why: "The counter never gets there. The last part of a knob's turn does nothing but hold the pin at one level.",
  source:
    "the chip's data sheet, fast PWM and phase correct PWM modes: compare values at and above TOP; the core's wiring_analog.c: 0 and 255 become port levels",
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
    const top = topOf(timer, channel, state);
    if (top === null) continue;
    for (const duty of dutyPlaces(analysis)) {
      const key = `${duty.expression.span.path}:${duty.expression.span.start}`;
      if (duty.channel !== channel || told.has(key) || !isIn(duty, state)) continue;
      const words = (isPast(channel, state, top) ? pastWords(duty, top) : null) ?? jumpWords(duty, top, state);
      if (words === null) continue;
      told.add(key);
      const setter = topMaker(analysis, timer, state);
      found.push({
        message: `${unitLabel(analysis, channel)} counts to TOP ${top}: ${words}. ${way(duty, top)}`,
        span: duty.expression.span,
        related: setter === undefined ? [] : [{ span: setter.span, message: `TOP is set here` }],
        fixes: scalingFixes(analysis, duty, state, top),
      });
    }
  }
  return found;
}

/** TOP of a PWM state, where it is one known value and the unit is not TOP itself. */
function topOf(timer: TimerFact, channel: ChannelFact, state: TimerState): number | null {
  const mode = modeOf(timer, state.snapshot);
  if (mode === undefined || !isPwm(mode) || !counts(timer, state.snapshot)) return null;
  if (mode.top.kind === "compareA" && channel === timer.channels[0]) return null;
  const top = topBounds(timer, mode, state.snapshot);
  return top === null || top.min !== top.max || top.min === 0 ? null : top.min;
}

/** Whether some compare value above TOP is connected in this state. */
function isPast(channel: ChannelFact, state: TimerState, top: number): boolean {
  const ways = channelSnapshot(state.snapshot, channel.unit)?.alternatives ?? [];
  return ways.some((way) => way.com.max > 0 && way.output !== false && way.compare.max > top);
}

function isIn(duty: DutyPlace, state: TimerState): boolean {
  const limit = duty.timer.bits === 8 ? 255 : 65535;
  if (duty.value.max > limit || duty.value.min < 0) return false;
  return duty.call === null || duty.call.regimes.includes(state.regime) || duty.call.regimes.includes("setup");
}

/** `the values 249..254 all give one constant level, no pulse`; null where no value is above TOP for all that is known. */
function pastWords(duty: DutyPlace, top: number): string | null {
  const shown = valuesPast(duty, top);
  if (shown === null) return null;
  const { values } = duty;
  const many = shown.includes("..") || shown.includes(",") || shown.includes(" or ");
  const level = `${many ? "values" : "value"} ${shown} ${many ? "all give" : "gives"} one constant level, no pulse`;
  if (values === null || values.length < 8) return `the ${level}`;
  const dead = values.filter((value) => value > top && !duty.levels.includes(value)).length;
  const leaves = duty.levels.every((end) => values.includes(end)) && duty.levels.length > 0;
  return `the ${level} (${dead} of ${values.length}${leaves ? "; at 0 and 255 analogWrite leaves the timer for low and high" : ""})`;
}

function valuesPast(duty: DutyPlace, top: number): string | null {
  const { value, values } = duty;
  if (values !== null) {
    const past = values.filter((each) => each > top && !duty.levels.includes(each));
    return past.length === 0 ? null : showNumbers(past);
  }
  if (!duty.known) return null;
  const last = duty.levels.includes(value.max) ? value.max - 1 : value.max;
  const first = Math.max(value.min, top + 1);
  if (first > last) return null;
  return first === last ? String(first) : `${first}..${last}`;
}

/** So many values are a duty that moves, fewer are settings. */
const SWEEP = 8;

/**
 * analogWrite takes 255 for fully on, whatever TOP is (wiring_analog.c): a duty that passes through 255 on its way jumps there.
 * A lone 255 is somebody's "on" and left alone.
 */
function jumpWords(duty: DutyPlace, top: number, state: TimerState): string | null {
  if (duty.call === null || top <= 255 || duty.value.max < 255) return null;
  const { values, value } = duty;
  const sweeps = (values?.length ?? value.max - value.min + 1) >= SWEEP;
  if (!duty.known || !sweeps || (values !== null && !values.includes(255))) return null;
  const fast = modeOf(duty.timer, state.snapshot)?.family === "fast";
  // Fast PWM is high for OCR + 1 of TOP + 1 clocks, the dual-slope modes for OCR of TOP: sections 15.7.3, 15.7.4.
  const share = (at: number) => showShare(fast ? (at + 1) / (top + 1) : at / top);
  const back = value.max > 255 && (values === null || values.includes(256)) ? ` and back to ${share(256)}` : "";
  return `analogWrite takes 255 for fully on, so the duty jumps from ${share(254)} to 100 % there${back}`;
}

function way(duty: DutyPlace, top: number): string {
  if (duty.call === null || top <= 255) return `Scale the duty to 0..${top}.`;
  return `Write ${duty.channel.compare} itself${duty.value.max > 255 ? "" : `, scaled to 0..${top}`}.`;
}
