/** A timer that drives a pin is stopped, held, or without power. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import { toNumber } from "../../shared-model/fraction.js";
import type { Analysis, RegisterWrite, TimerState } from "../analysis.js";
import { frequencyAskedOf } from "../look/claims.js";
import { maskedBits } from "../look/core-bits.js";
import { lastingStates, makerOf, sketchWrites, unitLabel } from "../look/look.js";
import { bitsUnder } from "../look/naming.js";
import { pulseRate } from "../look/pulse-rate.js";
import { listed, showHz } from "../look/show.js";
import { clocksOf, modeOf, topBounds } from "../look/timer-view.js";
import { setBits } from "./bit-edits.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, lineAfter, pinsOfTimer, removal } from "./fix.js";

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
      const way =
        reason.kind === "no clock"
          ? "Give the timer a clock before its pins are used."
          : reason.kind === "no power"
            ? "Leave its power on while its pins are used."
            : "Let the prescaler go again (GTCCR = 0) before its pins are used.";
      report({
        message: `Timer ${timer.number} ${reason.words}, so ${listed(pins)} ${pins.length === 1 ? "stands" : "stand"} still. ${way}`,
        span: maker.span,
        related: [],
        fixes: fixes(analysis, timer, states, reason.kind, maker),
      });
    }
  },
};

interface Reason {
  readonly kind: "no clock" | "no power" | "held";
  readonly words: string;
}

function offBecause(timer: TimerFact, state: TimerState): Reason | null {
  if (state.snapshot.powered === false)
    return { kind: "no power", words: `is switched off (${timer.powerReduction.bit})` };
  if (state.snapshot.held === true) return { kind: "held", words: "is held in reset (TSM)" };
  const clocks = clocksOf(timer, state.snapshot);
  return clocks.length > 0 && clocks.every((clock) => clock.kind === "stopped")
    ? { kind: "no clock", words: "has no clock selected" }
    : null;
}

/** A clock in the line that leaves it out, the power left on, the prescaler let go. */
function fixes(
  analysis: Analysis,
  timer: TimerFact,
  states: readonly TimerState[],
  kind: Reason["kind"],
  maker: RegisterWrite,
): readonly Fix[] {
  const pins = pinsOfTimer(analysis, timer.number);
  if (kind === "held") {
    const line = lineAfter(analysis, maker.span, "GTCCR = 0;");
    return [changingFix("Let the prescaler go: GTCCR = 0", "the timer counts again", pins, () => [line])];
  }
  if (kind === "no power") {
    const gone = removal(analysis, maker.span);
    return gone === null || !switchesOnly(analysis, timer, maker)
      ? []
      : [changingFix(`Leave timer ${timer.number} switched on`, "the timer counts", pins, () => [gone])];
  }
  const register = timer.clockField.parts[0]!.register;
  return prescalersFor(analysis, timer, states).map(({ by, hz }) => {
    const select = timer.clocks.findIndex((clock) => clock.kind === "divided" && clock.by === by);
    const part = timer.clockField.parts[0]!;
    const names = bitsUnder(analysis.target.chip, register, select << part.shift);
    return changingFix(
      `Start timer ${timer.number} with prescaler ${by}${hz === null ? "" : `: ${showHz(hz)}`}`,
      "the timer counts",
      pins,
      () => setBits(analysis, register, names, maker, maker.span),
    );
  });
}

/** Whether a write to the power reduction register switches this timer off and nothing else. */
function switchesOnly(analysis: Analysis, timer: TimerFact, write: RegisterWrite): boolean {
  const bit = analysis.target.chip.registers
    .find((row) => row.name === timer.powerReduction.register)
    ?.bits.find((each) => each.name === timer.powerReduction.bit);
  const mask = bit === undefined ? 0xff : 0xff & ~(1 << bit.position);
  const before = maskedBits(write.before, mask);
  return before !== undefined && before === maskedBits(write.after, mask);
}

/** The prescaler for the frequency that the sketch asks for, else the core's own and none, slowest and fastest of the usual ones. */
function prescalersFor(
  analysis: Analysis,
  timer: TimerFact,
  states: readonly TimerState[],
): readonly { readonly by: number; readonly hz: number | null }[] {
  const state = states[0]!;
  const mode = modeOf(timer, state.snapshot);
  const top = mode === undefined ? null : topBounds(timer, mode, state.snapshot);
  const hzAt = (by: number): number | null => {
    const rate = mode === undefined || top === null || top.min !== top.max ? null : rateAt(analysis, by, mode, top.min);
    return rate === null ? null : toNumber(rate);
  };
  const all = timer.clocks.flatMap((clock) => (clock.kind === "divided" ? [{ by: clock.by, hz: hzAt(clock.by) }] : []));
  const asked = frequencyAskedOf(analysis, timer);
  const meant = all.find(({ hz }) => hz !== null && asked !== null && Math.abs(hz - asked) <= 0.02 * asked);
  return meant === undefined ? all.filter(({ by }) => by === 1 || by === 64) : [meant];
}

function rateAt(analysis: Analysis, by: number, mode: ModeFact, top: number) {
  return pulseRate(analysis.target.clockHz, by, mode, top);
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
