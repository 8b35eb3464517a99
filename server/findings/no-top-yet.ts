/** The mode takes TOP from a register that holds 0: the timer never leaves BOTTOM. */
import type { TimerFact } from "../../shared-model/chip.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite, TimerState } from "../analysis.js";
import { frequencyAskedOf } from "../look/claims.js";
import { historyOf, interruptMayBeOn, makerOf, pinLabel, pinOfUnit, sketchWrites, startsAt } from "../look/look.js";
import { listed, showHz } from "../look/show.js";
import { clockOf, counts, isPwm, modeOf, prescalerOf, topRegister } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, lineBefore, pinsOfTimer, removal, textOf } from "./fix.js";

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
          fixes: fixes(analysis, timer, state, register, maker),
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

/** TOP written before the mode is chosen: by the line that writes it too late, or for the frequency that the sketch asks for. */
function fixes(
  analysis: Analysis,
  timer: TimerFact,
  state: TimerState,
  register: string,
  maker: RegisterWrite,
): readonly Fix[] {
  const mode = modeOf(timer, state.snapshot);
  const pins = pinsOfTimer(analysis, timer.number);
  const late = sketchWrites(analysis).find(
    (write) => write.register === register && write.operator === "=" && write.expression?.nature === "constant",
  );
  if (late !== undefined) {
    const line = lineBefore(analysis, maker.span, `${textOf(analysis, late.span)};`);
    const gone = removal(analysis, late.span);
    if (line === null || gone === null || late.inFunction !== maker.inFunction) return [];
    return [
      changingFix(`Write ${register} before the mode is chosen`, "TOP is there from the start", pins, () => [
        line,
        gone,
      ]),
    ];
  }
  const hz = frequencyAskedOf(analysis, timer);
  const prescaler = prescalerOf(clockOf(timer, state.snapshot));
  if (hz === null || prescaler === null || mode === undefined) return [];
  const clocks = analysis.target.clockHz / (state.snapshot.clockDivisor ?? 1) / (prescaler * hz);
  // CTC turns the pin over once a period: two periods of the counter make one of the pulse.
  const top = Math.round(mode.family === "fast" ? clocks - 1 : mode.family === "ctc" ? clocks / 2 - 1 : clocks / 2);
  const line = lineBefore(analysis, maker.span, `${register} = ${top};`);
  if (line === null || top < 2 || top >= 2 ** timer.bits) return [];
  return [changingFix(`Write ${register} = ${top} first: ${showHz(hz)}`, "the timer gets its TOP", pins, () => [line])];
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
