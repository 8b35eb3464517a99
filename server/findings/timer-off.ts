/** A timer that drives a pin is stopped, held, or without power. */
import type { TimerFact } from "../../shared-model/chip.js";
import type { Analysis, RegisterWrite, TimerState } from "../analysis.js";
import { lastingStates, makerOf, sketchWrites, unitLabel } from "../look/look.js";
import { listed } from "../look/show.js";
import { clocksOf } from "../look/timer-view.js";
import type { FindingRule } from "./finding.js";

export const timerOff: FindingRule = {
  id: "timer-off",
  severity: "warning",
  says: "A timer that drives a pin has no clock: stopped, held in reset, or switched off for power.",
  why: "The registers read right and the pin stands still.",
  source: "the chip's data sheet: clock select 0, GTCCR.TSM, power reduction register",
  fires: `void setup() {
  TCCR1B = 0;
}

void loop() { analogWrite(9, 60); }
`,
  quiet: `void setup() {
  TCCR1B = 0;
  TCCR1B = _BV(CS11);
}

void loop() { analogWrite(9, 60); }
`,
  whenFine: "A timer that is stopped only now and then, to gate its pulses, is left alone.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      const states = lastingStates(analysis, timer.number);
      const reasons = states.map((state) => offBecause(timer, state));
      const reason = reasons[0];
      if (reason === undefined || reason === null || !reasons.every((each) => each !== null)) continue;
      const pins = connected(analysis, timer, states);
      const maker = blamed(analysis, timer, states);
      if (pins.length === 0 || maker === undefined) continue;
      report({
        message: `Timer ${timer.number} ${reason}, so ${listed(pins)} ${pins.length === 1 ? "stands" : "stand"} still. Give the timer a clock before its pins are used.`,
        span: maker.span,
        related: [],
      });
    }
  },
};

function offBecause(timer: TimerFact, state: TimerState): string | null {
  if (state.snapshot.powered === false) return `is switched off (${timer.powerReduction.bit})`;
  if (state.snapshot.held === true) return "is held in reset (TSM)";
  const clocks = clocksOf(timer, state.snapshot);
  return clocks.length > 0 && clocks.every((clock) => clock.kind === "stopped") ? "has no clock selected" : null;
}

/** Pins that are connected to the timer's units in some state, as outputs. */
function connected(analysis: Analysis, timer: TimerFact, states: readonly TimerState[]): readonly string[] {
  const labels: string[] = [];
  for (const channel of timer.channels) {
    const on = states.some((state) =>
      (state.snapshot.channels.find((each) => each.unit === channel.unit)?.alternatives ?? []).some(
        (way) => way.com.min > 0 && way.output === true,
      ),
    );
    if (on) labels.push(unitLabel(analysis, channel));
  }
  return labels;
}

function blamed(analysis: Analysis, timer: TimerFact, states: readonly TimerState[]): RegisterWrite | undefined {
  const clockRegisters = timer.clockField.parts.map((part) => part.register);
  for (const state of states) {
    const maker = makerOf(analysis, state.from, (write) => clockRegisters.includes(write.register));
    const switched = sketchWrites(analysis).filter((write) =>
      [timer.powerReduction.register, "GTCCR"].includes(write.register),
    );
    if (state.snapshot.powered === false || state.snapshot.held === true) return switched.at(-1);
    if (maker !== undefined) return maker;
  }
  return undefined;
}
