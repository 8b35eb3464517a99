/** The mode takes TOP from a register that holds 0: the timer never leaves BOTTOM. */
import type { TimerFact } from "../../shared-model/chip.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, TimerState } from "../analysis.js";
import { historyOf, interruptMayBeOn, makerOf, pinLabel, pinOfUnit, sketchWrites, startsAt } from "../look/look.js";
import { listed } from "../look/show.js";
import { counts, isPwm, modeOf, topRegister } from "../look/timer-view.js";
import type { FindingRule } from "./finding.js";

export const noTopYet: FindingRule = {
  id: "no-top-yet",
  severity: "error",
  says: "The timer takes its TOP from a register that still holds 0.",
  why: "With TOP = 0 the counter has nowhere to go: the pin shows a constant level or needles of one tick instead of the wanted pulse.",
  source: "the chip's data sheet, waveform generation mode tables; OCRnx and ICRn are 0 after reset",
  fires: `void setup() {
  TCCR2B |= _BV(WGM22);
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  OCR2A = 249;
  TCCR2B |= _BV(WGM22);
}

void loop() { analogWrite(3, 60); }
`,
  whenFine:
    "TOP may be written after the mode, as long as no time passes in between. CTC with OCRnA = 0 written on purpose toggles at the highest rate and is left alone.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      for (const state of historyOf(analysis, timer.number)?.states ?? []) {
        const register = lasts(analysis, state) ? emptyTop(analysis, timer, state) : null;
        if (register === null) continue;
        const maker = makerOf(analysis, state.from, (write) => timer.control.includes(write.register));
        if (maker === undefined) continue;
        const pins = drivenPins(analysis, timer, state);
        const pinWords =
          pins.length === 0 ? "it never counts" : `${listed(pins)} ${pins.length === 1 ? "gives" : "give"} no pulse`;
        report({
          message: `Timer ${timer.number} takes TOP from ${register}, which is still 0 here: ${pinWords}. Write ${register} before the mode is chosen.`,
          span: maker.span,
          related: [],
        });
      }
    }
  },
};

/** A state that recurs, or one of setup in which the sketch waits; a conversion's worth of time on the way is no harm. */
function lasts(analysis: Analysis, state: TimerState): boolean {
  if (state.regime === "running") return true;
  return state.at.some((at) => analysis.calls.some((call) => call.name === "delay" && startsAt(call.span, at)));
}

/** The register that should hold TOP and surely holds 0, where that matters; null else. */
function emptyTop(analysis: Analysis, timer: TimerFact, state: TimerState): string | null {
  const mode = modeOf(timer, state.snapshot);
  const register = mode === undefined ? null : topRegister(timer, mode);
  if (mode === undefined || register === null || !counts(timer, state.snapshot)) return null;
  const value = state.snapshot.working[register] ?? state.snapshot.registers[register];
  if (value === undefined || single(value) !== 0) return null;
  if (isPwm(mode))
    return drivenPins(analysis, timer, state).length > 0 || interruptsOn(analysis, timer) ? register : null;
  const written = sketchWrites(analysis).some(
    (write) => write.register === register || write.register === `${register}L`,
  );
  return mode.family === "ctc" &&
    !written &&
    (interruptsOn(analysis, timer) || drivenPins(analysis, timer, state).length > 0)
    ? register
    : null;
}

/** Labels of the pins that this timer's units drive in this state. */
function drivenPins(analysis: Analysis, timer: TimerFact, state: TimerState): readonly string[] {
  const labels: string[] = [];
  for (const channel of timer.channels) {
    const ways = state.snapshot.channels.find((candidate) => candidate.unit === channel.unit)?.alternatives ?? [];
    const pin = pinOfUnit(analysis, channel.unit);
    if (pin !== undefined && ways.some((way) => way.com.max > 0 && way.output !== false))
      labels.push(pinLabel(analysis, pin));
  }
  return labels;
}

function interruptsOn(analysis: Analysis, timer: TimerFact): boolean {
  return timer.channels.some((channel) => interruptMayBeOn(analysis, timer, channel.interrupt));
}
