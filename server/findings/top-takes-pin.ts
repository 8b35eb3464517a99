/** The register that sets TOP belongs to a pin that also gets a duty: each duty moves the timer's frequency. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import type { Analysis } from "../analysis.js";
import {
  lastingStates,
  makerOf,
  ownPaths,
  pinLabel,
  pinOfUnit,
  sketchWrites,
  unitLabel,
  unitOfPin,
} from "../look/look.js";
import { pulseRate } from "../look/pulse-rate.js";
import { bitName } from "../look/register-fields.js";
import { listed, showHz } from "../look/show.js";
import { channelSnapshot, clockOf, isPwm, modeOf, prescalerOf } from "../look/timer-view.js";
import { takenOut } from "./bit-edits.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, pinsOfTimer, textOf } from "./fix.js";

export const topTakesPin: FindingRule = {
  id: "top-takes-pin",
  severity: "warning",
  says: "A duty is written to the register that sets the timer's TOP: it moves the frequency of the timer's other pins.",
  why: "With OCRnA as TOP, pin A has no duty of its own. Each analogWrite to it sets a new period for all pins of the timer.",
  source: "the chip's data sheet, waveform generation mode tables: modes with TOP = OCRnA",
  fires: `void setup() {
  OCR2A = 248;
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
}

void loop() {
  analogWrite(3, 60);
  analogWrite(11, 100);
}
`,
  quiet: `void setup() {
  OCR2A = 248;
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
}

void loop() {
  analogWrite(3, 60);
}
`,
  whenFine:
    "Where OCRnA is written on purpose to sweep the frequency, and its own pin carries no pulse, nothing is said.",
  check(analysis, report) {
    duties(analysis, report);
    registers(analysis, report);
  },
};

function duties(analysis: Analysis, report: Parameters<FindingRule["check"]>[1]): void {
  const own = ownPaths(analysis);
  for (const call of analysis.calls) {
    if (call.name !== "analogWrite" || !own.has(call.span.path)) continue;
    const duty = call.arguments[1]?.value ?? null;
    if (duty !== null && (duty.max <= 0 || duty.min >= 255) && duty.min === duty.max) continue;
    for (const number of call.pins) {
      const unit = unitOfPin(analysis, number);
      if (unit === undefined || unit.timer.channels[0] !== unit.channel) continue;
      const effect = call.effects.find(
        (candidate) =>
          candidate.before.timer === unit.timer.number && modeOf(unit.timer, candidate.before)?.top.kind === "compareA",
      );
      const mode = effect === undefined ? undefined : modeOf(unit.timer, effect.before);
      if (effect === undefined || mode === undefined) continue;
      const pin = unitLabel(analysis, unit.channel);
      const maker = makerOf(analysis, stateFrom(analysis, unit.timer), (write) =>
        unit.timer.control.includes(write.register),
      );
      report({
        message: `${unit.channel.compare} is TOP of timer ${unit.timer.number} here, so this duty for ${pin} sets the frequency of ${others(analysis, unit.timer)}${example(analysis, unit.timer, mode, effect.before, duty)}. Take a pin of another timer for it, or a mode with a fixed TOP.`,
        span: call.span,
        related: maker === undefined ? [] : [{ span: maker.span, message: `${unit.channel.compare} became TOP here` }],
        fixes: otherTop(analysis, unit.timer, effect.before),
      });
      break;
    }
  }
}

/** Writes of a varying value to OCRnA while it is TOP and its own pin is connected for pulses. */
function registers(analysis: Analysis, report: Parameters<FindingRule["check"]>[1]): void {
  for (const timer of analysis.target.chip.timers) {
    const channel = timer.channels[0];
    if (channel === undefined) continue;
    const writes = sketchWrites(analysis).filter((write) => write.register === channel.compare);
    const varies = writes.some((write) => write.after.min !== write.after.max);
    const connected = lastingStates(analysis, timer.number).find((state) => {
      const mode = modeOf(timer, state.snapshot);
      if (mode === undefined || !isPwm(mode) || mode.top.kind !== "compareA") return false;
      const ways = channelSnapshot(state.snapshot, channel.unit)?.alternatives ?? [];
      return ways.length > 0 && ways.every((way) => way.com.min >= 2 && way.output === true);
    });
    if (!varies || connected === undefined) continue;
    const mode = modeOf(timer, connected.snapshot)!;
    for (const write of writes) {
      if (write.after.min === write.after.max) continue;
      report({
        message: `${channel.compare} is TOP of timer ${timer.number}, so this value sets the period of all its pins and ${unitLabel(analysis, channel)} stays at a constant level${example(analysis, timer, mode, connected.snapshot, write.after)}. Take a pin of another unit for the duty, or a mode with a fixed TOP.`,
        span: write.span,
        related: [],
        fixes: otherTop(analysis, timer, connected.snapshot),
      });
    }
  }
}

/** TOP in ICRn where the timer has it, the same otherwise; else the mode's twin with TOP 255. */
function otherTop(analysis: Analysis, timer: TimerFact, snapshot: TimerSnapshot): readonly Fix[] {
  const mode = modeOf(timer, snapshot);
  const twin =
    mode === undefined
      ? undefined
      : timer.modes.find(
          (each) =>
            each.family === mode.family &&
            (timer.capture === undefined ? each.top.kind === "fixed" : each.top.kind === "capture") &&
            (each.select & ~mode.select) === 0,
        );
  if (mode === undefined || twin === undefined) return [];
  const gone = mode.select & ~twin.select;
  const part = timer.modeField.parts.find((each) => ((((1 << each.width) - 1) << each.at) & gone) === gone);
  const name =
    part === undefined
      ? undefined
      : bitName(analysis.target.chip, part.register, part.shift + Math.log2(gone) - part.at);
  const maker = makerOf(analysis, stateFrom(analysis, timer), (write) => write.register === part?.register);
  const cleared = name === undefined || maker === undefined ? null : takenOut(analysis, maker, [name]);
  if (cleared === null || timer.channels[0] === undefined) return [];
  const { compare } = timer.channels[0];
  const because = `${unitLabel(analysis, timer.channels[0])} then has a duty of its own`;
  const pins = pinsOfTimer(analysis, timer.number);
  const { capture } = timer;
  if (capture === undefined) {
    const fixed = twin.top.kind === "fixed" ? twin.top.value : 255;
    const prescaler = prescalerOf(clockOf(timer, snapshot));
    const rate = prescaler === null ? null : pulseRate(analysis.target.clockHz, prescaler, twin, fixed);
    const words = rate === null ? "" : `: ${showHz(rate)}`;
    return [changingFix(`Take the mode with TOP ${fixed}${words}`, because, pins, () => cleared)];
  }
  // The line that sets TOP once and for all; what varies is the duty.
  const top = sketchWrites(analysis).find(
    (write) => write.register === compare && write.operator === "=" && write.expression?.nature === "constant",
  );
  if (top === undefined || textOf(analysis, top.target) !== compare) return [];
  return [changingFix(`Set TOP in ${capture}`, because, pins, () => [...cleared, { span: top.target, text: capture }])];
}

function stateFrom(analysis: Analysis, timer: TimerFact) {
  return lastingStates(analysis, timer.number).flatMap((state) => state.from);
}

function others(analysis: Analysis, timer: TimerFact): string {
  const labels = timer.channels.slice(1).map((channel) => {
    const pin = pinOfUnit(analysis, channel.unit);
    return pin === undefined ? unitLabel(analysis, channel) : pinLabel(analysis, pin);
  });
  return listed(labels);
}

/** ` (100 gives 2.5 kHz)`, by the data sheet's formula. */
function example(
  analysis: Analysis,
  timer: TimerFact,
  mode: ModeFact,
  snapshot: TimerSnapshot,
  duty: RegisterValue | null,
): string {
  const prescaler = prescalerOf(clockOf(timer, snapshot));
  if (duty === null || prescaler === null) return "";
  const clockHz = analysis.target.clockHz / (snapshot.clockDivisor ?? 1);
  const at = (top: number) => pulseRate(clockHz, prescaler, mode, top);
  const largest = timer.bits === 8 ? 254 : duty.max;
  const low = at(Math.max(1, duty.min));
  const high = at(Math.min(duty.max, largest));
  if (low === null || high === null) return "";
  if (duty.min === duty.max) return ` (${duty.min} gives ${showHz(low)})`;
  return ` (${Math.max(1, duty.min)} gives ${showHz(low)}, ${Math.min(duty.max, largest)} gives ${showHz(high)})`;
}
