/** Fast PWM cannot reach 0: a compare value of 0 leaves one tick in each period. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import { fraction } from "../../shared-model/fraction.js";
import type { Analysis } from "../analysis.js";
import { lastingStates, sketchWrites, unitLabel } from "../look/look.js";
import { showSeconds, showShare } from "../look/show.js";
import { channelSnapshot, clockOf, counts, modeOf, prescalerOf, topBounds } from "../look/timer-view.js";
import type { FindingRule } from "./finding.js";
import { spikeFixes } from "./spike-fixes.js";

export const spikeAtZero: FindingRule = {
  id: "spike-at-zero",
  severity: "note",
  says: "In fast PWM a compare value of 0 does not give 0 %: one tick remains in each period.",
  why: "A lamp glows and a fan hums at what should be off; a gate driver sees a needle in every period.",
  source:
    "DS40002061 sections 15.7.3 and 16.9.3: with OCRnx at BOTTOM the output is a narrow spike for each TOP + 1 clocks",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
}

void loop() { OCR2B = analogRead(A0) / 4; }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(CS22);
}

void loop() { OCR2B = analogRead(A0) / 4; }
`,
  whenFine: "Where a glimmer at 0 does no harm. analogWrite(pin, 0) is not concerned: the core disconnects the unit.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      for (const channel of timer.channels) {
        const message = spike(analysis, timer, channel);
        if (message === null) continue;
        for (const write of sketchWrites(analysis)) {
          const zero = write.after.values === null ? write.after.min === 0 : write.after.values.includes(0);
          if (write.register === channel.compare && zero && lasts(analysis, timer, channel, write.span)) {
            report({ message, span: write.span, related: [], fixes: spikeFixes(analysis, timer, channel, write) });
          }
        }
      }
    }
  },
};

/** Whether the write is among those that made a lasting state. */
function lasts(
  analysis: Analysis,
  timer: TimerFact,
  channel: ChannelFact,
  span: { readonly path: string; readonly start: number },
): boolean {
  return lastingStates(analysis, timer.number).some(
    (state) =>
      (channelSnapshot(state.snapshot, channel.unit)?.alternatives ?? []).some((way) => way.compare.min === 0) &&
      state.from.some((place) => place.path === span.path && place.start === span.start),
  );
}

function spike(analysis: Analysis, timer: TimerFact, channel: ChannelFact): string | null {
  for (const state of lastingStates(analysis, timer.number)) {
    const mode = modeOf(timer, state.snapshot);
    if (mode?.family !== "fast" || !counts(timer, state.snapshot)) continue;
    if (mode.top.kind === "compareA" && channel === timer.channels[0]) continue;
    const top = topBounds(timer, mode, state.snapshot);
    const prescaler = prescalerOf(clockOf(timer, state.snapshot));
    if (top === null || top.min !== top.max || top.min === 0 || prescaler === null) continue;
    const ways = channelSnapshot(state.snapshot, channel.unit)?.alternatives ?? [];
    if (!ways.some((way) => way.com.min === 2 && way.com.max === 2 && way.compare.min === 0 && way.output === true))
      continue;
    const seconds = (prescaler * (state.snapshot.clockDivisor ?? 1)) / analysis.target.clockHz;
    return `At ${channel.compare} = 0 fast PWM still gives one tick in ${top.min + 1}: ${showSeconds(seconds)} high, ${showShare(fraction(1, top.min + 1))}, at ${unitLabel(analysis, channel)}. Use phase-correct PWM, or disconnect the output (${channel.com.name}1:0 = 0) for off.`;
  }
  return null;
}
