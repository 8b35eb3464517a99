/** A compare value above TOP: its interrupt never comes, its output never switches. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite, TimerState } from "../analysis.js";
import { interruptMayBeOn, lastingStates, makerOf, unitLabel } from "../look/look.js";
import { showValue } from "../look/show.js";
import { channelSnapshot, counts, isPwm, modeOf, topBounds } from "../look/timer-view.js";
import { topName } from "../look/top-name.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, pinsOfTimer } from "./fix.js";

export const neverMatches: FindingRule = {
  id: "never-matches",
  severity: "error",
  says: "A compare value lies above TOP: its interrupt never comes and its output never switches.",
  why: "The counter turns back before it reaches the value, so the routine that should run does not, and nothing tells why.",
  source: "the chip's data sheet, modes of operation: the counter counts from BOTTOM to TOP",
  fires: `ISR(TIMER1_COMPB_vect) {}

void setup() {
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 999;
  OCR1B = 2000;
  TIMSK1 = _BV(OCIE1B);
}

void loop() {}
`,
  quiet: `ISR(TIMER1_COMPB_vect) {}

void setup() {
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 999;
  OCR1B = 500;
  TIMSK1 = _BV(OCIE1B);
}

void loop() {}
`,
  whenFine: "Where no state lets the compare match and that is meant, switch the interrupt or the output off instead.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      for (const channel of timer.channels) {
        const found = outOfReach(analysis, timer, channel);
        if (found === null) continue;
        report({ message: found.message, span: found.write.span, related: [], fixes: fixes(analysis, timer, found) });
      }
    }
  },
};

interface Found {
  readonly message: string;
  readonly write: RegisterWrite;
  readonly top: number | null;
}

/** The compare value brought down to TOP: the match then comes once a period. */
function fixes(analysis: Analysis, timer: TimerFact, { write, top }: Found): readonly Fix[] {
  const { expression } = write;
  if (top === null || write.operator !== "=" || expression === null || single(write.after) === undefined) return [];
  return [
    changingFix(
      `Write ${top}, which is TOP`,
      "the match comes once a period, as the counter turns back",
      pinsOfTimer(analysis, timer.number),
      () => [{ span: expression.span, text: String(top) }],
    ),
  ];
}

/** Told only where the value is out of reach in every lasting state: a match in any of them is a match. */
function outOfReach(analysis: Analysis, timer: TimerFact, channel: ChannelFact): Found | null {
  const states = lastingStates(analysis, timer.number);
  const interrupt = interruptMayBeOn(analysis, timer, channel.interrupt);
  let told: Found | null = null;
  for (const state of states) {
    const mode = modeOf(timer, state.snapshot);
    const top = mode === undefined ? null : topBounds(timer, mode, state.snapshot);
    if (mode === undefined || top === null || (mode.top.kind === "compareA" && channel === timer.channels[0]))
      return null;
    const ways = channelSnapshot(state.snapshot, channel.unit)?.alternatives ?? [];
    if (ways.length === 0 || ways.some((way) => way.compare.min <= top.max)) return null;
    if (told !== null || !counts(timer, state.snapshot)) continue;
    const toggles = !isPwm(mode) && ways.every((way) => way.com.min > 0 && way.output === true);
    if (!interrupt && !toggles) continue;
    const write =
      makerOf(analysis, state.from, (candidate) => candidate.register === channel.compare) ??
      writeOf(analysis, channel, state);
    if (write === undefined) continue;
    const effect = interrupt
      ? `the interrupt ${channel.interrupt.vector} never comes`
      : `${unitLabel(analysis, channel)} never switches`;
    const value = ways[0]!.compare;
    const where = mode.top.kind === "fixed" ? `TOP ${top.max}` : `TOP ${showBounds(top)} (${topName(timer, mode)})`;
    told = {
      write,
      top: top.min === top.max ? top.min : null,
      message: `${channel.compare} = ${showValue(value)} lies above ${where}, so ${effect}. Write a value up to TOP, or raise TOP.`,
    };
  }
  return told;
}

function showBounds(top: { readonly min: number; readonly max: number }): string {
  return top.min === top.max ? String(top.min) : `${top.min}..${top.max}`;
}

function writeOf(analysis: Analysis, channel: ChannelFact, state: TimerState): RegisterWrite | undefined {
  return makerOf(
    analysis,
    state.from,
    (candidate) => candidate.register === `${channel.compare}L` || candidate.register === `${channel.compare}H`,
  );
}
