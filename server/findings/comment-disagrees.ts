/** A comment beside a write claims a prescaler, a mode or a frequency that the registers do not give. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import { toNumber } from "../../shared-model/fraction.js";
import type { Analysis, RegisterWrite, Remark, TimerState } from "../analysis.js";
import { historyOf, makerOf, sameSpan, sketchWrites, within } from "../look/look.js";
import { pulseRate } from "../look/pulse-rate.js";
import { timerOfControl } from "../look/register-fields.js";
import { clockWords } from "../look/setting-words.js";
import { showHz } from "../look/show.js";
import { clockOf, isPwm, modeOf, prescalerOf, topBounds } from "../look/timer-view.js";
import { modeWords } from "../look/top-name.js";
import type { FindingRule } from "./finding.js";

export const commentDisagrees: FindingRule = {
  id: "comment-disagrees",
  severity: "warning",
  says: "A comment beside the write claims a prescaler, a mode or a PWM frequency that the registers do not give.",
  why: "A line copied from elsewhere keeps its comment when its numbers change, and the next reader believes the comment.",
  source: "the sketch's own comment; the chip's data sheet, clock select and waveform generation tables",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = _BV(CS21) | _BV(CS20);  // prescaler 64
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = _BV(CS21) | _BV(CS20);  // prescaler 32
}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "A comment that tells of another state, such as what was there before, is better placed elsewhere.",
  check(analysis, report) {
    for (const remark of analysis.remarks) {
      const write = controlWrite(analysis, remark);
      const timer = write === undefined ? undefined : timerOfControl(analysis.target.chip, write.register);
      if (write === undefined || timer === undefined) continue;
      const message = disagreement(analysis, timer, write, remark.text);
      if (message !== null)
        report({ message, span: remark.span, related: [{ span: write.span, message: "the write it stands beside" }] });
    }
  },
};

/** The one control-register write that the comment belongs to. */
function controlWrite(analysis: Analysis, remark: Remark): RegisterWrite | undefined {
  const { beside } = remark;
  if (beside === null) return undefined;
  const writes = sketchWrites(analysis).filter(
    (write) => within(write.span, beside) && timerOfControl(analysis.target.chip, write.register) !== undefined,
  );
  return writes.length === 1 ? writes[0] : undefined;
}

function disagreement(analysis: Analysis, timer: TimerFact, write: RegisterWrite, text: string): string | null {
  const after = write.effects.map((effect) => effect.after);
  const holdsClock = timer.clockField.parts.some((part) => part.register === write.register);
  const claimed = prescalerClaim(text);
  if (holdsClock && claimed !== null && after.length > 0) {
    const clocks = after.map((snapshot) => clockOf(timer, snapshot));
    if (clocks.every((clock) => clock !== undefined && prescalerOf(clock) !== claimed)) {
      return `The comment says prescaler ${claimed}, but this gives ${clockWords(clocks[0]!)}. Correct the one or the other.`;
    }
  }
  const state = settledBy(analysis, timer, write);
  const mode = state === undefined ? undefined : modeOf(timer, state.snapshot);
  if (state === undefined || mode === undefined) return null;
  const family = familyClaim(text);
  if (family !== null && !family.includes(mode.family)) {
    return `The comment says ${family[0] === "ctc" ? "CTC" : `${family[0]} PWM`}, but timer ${timer.number} runs in ${modeWords(timer, mode)}. Correct the one or the other.`;
  }
  return frequencyDisagrees(analysis, timer, state, mode, text);
}

/** The settled state of which this write is the newest maker. */
function settledBy(analysis: Analysis, timer: TimerFact, write: RegisterWrite): TimerState | undefined {
  return (historyOf(analysis, timer.number)?.states ?? []).find((state) => {
    const newest = makerOf(
      analysis,
      state.from,
      (candidate) => timer.control.includes(candidate.register) || candidate.register === timer.capture,
    );
    return newest !== undefined && sameSpan(newest.span, write.span);
  });
}

/** `prescaler 64`, `prescale = 64`, `prescaler: /64`, `clk/64`; null where the comment names none or several. */
function prescalerClaim(text: string): number | null {
  const named = [
    ...text.matchAll(/\bprescal\w*\s*(?:of|to|is|=|:)?\s*\/?\s*(\d+)\b|\bclk(?:_?i\/?o)?\s*\/\s*(\d+)\b/gi),
  ];
  const values = new Set(named.map((match) => Number(match[1] ?? match[2])));
  return values.size === 1 && !/\b(not|was|instead|from|or|before)\b/i.test(text) ? [...values][0]! : null;
}

function familyClaim(text: string): readonly ModeFact["family"][] | null {
  if (/\b(not|was|instead|from|or|before|default)\b/i.test(text)) return null;
  const ctc = /\bCTC\b/.test(text);
  const fast = /\bfast[ -]?PWM\b/i.test(text);
  const phase = /\bphase[ -]correct\b/i.test(text);
  if (Number(ctc) + Number(fast) + Number(phase) !== 1) return null;
  if (ctc) return ["ctc"];
  return fast ? ["fast"] : ["phase correct", "phase and frequency correct"];
}

/** One frequency named in the comment, far from the timer's PWM frequency, its half and its double. */
function frequencyDisagrees(
  analysis: Analysis,
  timer: TimerFact,
  state: TimerState,
  mode: ModeFact,
  text: string,
): string | null {
  if (!isPwm(mode) || /\b(not|was|instead|from|or|before|default|interrupt|clock|timer clock)\b/i.test(text))
    return null;
  const named = [...text.matchAll(/(\d+(?:\.\d+)?)\s*(k|M)?Hz\b/gi)];
  const prescaler = prescalerOf(clockOf(timer, state.snapshot));
  const top = topBounds(timer, mode, state.snapshot);
  if (named.length !== 1 || prescaler === null || top === null || top.min !== top.max) return null;
  const factor = named[0]![2]?.toLowerCase() === "k" ? 1e3 : named[0]![2] === "M" ? 1e6 : 1;
  const claimed = Number(named[0]![1]) * factor;
  const rate = pulseRate(analysis.target.clockHz / (state.snapshot.clockDivisor ?? 1), prescaler, mode, top.min);
  if (rate === null || claimed === analysis.target.clockHz) return null;
  const hz = toNumber(rate);
  // A comment rounds, and may tell the rate of a toggled pin: only a clear contradiction is told.
  if ([hz, hz / 2, hz * 2].some((each) => Math.abs(each - claimed) <= 0.15 * each)) return null;
  return `The comment says ${showHz(claimed)}, but timer ${timer.number} gives ${showHz(rate)} here. Correct the one or the other.`;
}
