/** What a timer's setting takes from the rest of the sketch, and from the person: each cost with its clause for people. */
import type { ChannelFact, ModeFact, TimerFact } from "../chip.js";
import { fraction } from "../fraction.js";
import { showHz, showSeconds } from "../show-numbers.js";
import { isTrue, timeBaseAt, timeBaseWords } from "../time-base.js";
import type { WantedSignal } from "../wants/comment.js";
import type { LaneOutput } from "./lanes.js";
import type { Occupation } from "./occupation.js";
import { pinLabel } from "./pin-label.js";
import type { Cost } from "./plan.js";
import type { PlanTarget } from "./search.js";
import { slopeOf } from "./ways.js";

export interface CostQuestion {
  readonly target: PlanTarget;
  readonly occupation: Occupation;
  readonly timer: TimerFact;
  readonly mode: ModeFact;
  readonly prescaler: number;
  /** Null: any TOP but those of `tellingTops`. */
  readonly top: number | null;
  readonly outputs: readonly LaneOutput[];
}

/** The TOPs whose costs may differ from all the others': the present one, and the one that keeps the core's time. */
export function tellingTops(question: Omit<CostQuestion, "top">): number[] {
  const { occupation, timer, mode, prescaler } = question;
  const tops: number[] = [];
  const present = occupation.present?.get(timer.number);
  if (present !== undefined && present.prescaler === prescaler) tops.push(present.top);
  if (occupation.timeBase?.timer === timer.number && slopeOf(mode) === "single" && prescaler === 64) tops.push(0xff);
  return [...new Set(tops)];
}

/** Null where the setting would change a pin that must stay as it is. */
export function costsOf(question: CostQuestion): readonly Cost[] | null {
  const others = otherPins(question);
  if (others === null) return null;
  return [...others, ...timeCosts(question), ...takenCosts(question), ...question.outputs.flatMap(ownCosts(question))];
}

/** Pins of the timer's other units: lost, changed, or kept and therefore in the way. */
function otherPins(question: CostQuestion): Cost[] | null {
  const { occupation, timer, mode, target, outputs } = question;
  const costs: Cost[] = [];
  for (const channel of timer.channels) {
    if (outputs.some((output) => output.way.channel === channel)) continue;
    const use = occupation.used.get(channel.port);
    const kept = occupation.kept.has(channel.port);
    // In use without a frequency: not by a timer, so that no timer's setting touches it. Kept and not known: by this one.
    const driven = use === undefined ? kept : use.hz !== null;
    const lost = mode.top.kind === "compareA" && channel === timer.channels[0];
    const same = !lost && isPresent(question);
    if (driven && kept && !same) return null;
    const label = pinLabel(target, channel.port);
    if (lost) {
      const text = driven
        ? `${label} (${use?.what ?? "kept"}) loses its duty: ${channel.compare} holds TOP`
        : `${label} can no longer have a duty of its own: ${channel.compare} holds TOP`;
      costs.push({ kind: "pin lost", port: channel.port, text, hurts: driven });
    } else if (driven && !same) {
      costs.push({
        kind: "pin changed",
        port: channel.port,
        text: changedText(question, channel, label, use!.hz!),
        hurts: true,
      });
    }
  }
  return costs;
}

function changedText(question: CostQuestion, channel: ChannelFact, label: string, hz: number): string {
  const { mode, prescaler, top, target, occupation, timer } = question;
  const what = occupation.used.get(channel.port)?.what ?? "in use";
  if (top === null) return `${label} (${what}) gets another frequency`;
  const dual = slopeOf(mode) === "dual";
  const steered = mode.family !== "normal" && mode.family !== "ctc";
  if (!steered)
    return `${label} (${what}) loses its duty: ${mode.family === "ctc" ? "CTC" : "normal"} mode only toggles`;
  const after = showHz(fraction(target.clockHz, prescaler * (dual ? 2 * top : top + 1)));
  const before = showHz(hz);
  const present = occupation.present?.get(timer.number);
  const scale = present !== undefined && present.top === top ? "" : `, its duty counts to ${top}`;
  return before === after
    ? `${label} (${what})${scale.slice(1)}`
    : `${label} (${what}) goes from ${before} to ${after}${scale}`;
}

/** Whether the timer counts as it does today. */
function isPresent({ occupation, timer, mode, prescaler, top }: CostQuestion): boolean {
  const present = occupation.present?.get(timer.number);
  if (present === undefined || top === null) return false;
  const before = timer.modes[present.mode];
  const counts = (each: ModeFact) => (each.family === "normal" || each.family === "ctc" ? "toggles" : slopeOf(each));
  return (
    before !== undefined && counts(before) === counts(mode) && present.prescaler === prescaler && present.top === top
  );
}

function timeCosts(question: CostQuestion): Cost[] {
  const { occupation, timer, mode, prescaler, top } = question;
  const base = occupation.timeBase;
  if (base === null || base.timer !== timer.number) return [];
  if (slopeOf(mode) === "single" && prescaler === 64 && top === 0xff) return [];
  const cost = (text: string): Cost[] => [{ kind: "time base", port: null, text, hurts: base.used }];
  if (top === null) return cost(`timer ${timer.number} counts the milliseconds`);
  const after = timeBaseAt({ mode, top, dividedBy: prescaler, overflowOn: true });
  return cost(
    isTrue(after)
      ? "millis() and delay() keep time, but micros() moves in jumps"
      : `timer ${timer.number} counts the milliseconds: ${timeBaseWords(after)}`,
  );
}

function takenCosts(question: CostQuestion): Cost[] {
  const by = question.occupation.taken.get(question.timer.number);
  if (by === undefined || isPresent(question)) return [];
  const text = `timer ${question.timer.number} is taken by ${by}: the two disturb each other`;
  return [{ kind: "timer shared", port: null, text, hurts: true }];
}

/** Whether a duty of 0 is not ruled out. */
export function asksForZero(want: WantedSignal): boolean {
  return want.pulse === undefined && (want.duty?.min ?? 0) <= 0 && (want.reach?.min ?? 0) <= 0;
}

/** Costs of the wanted pin itself. */
function ownCosts(question: CostQuestion): (output: LaneOutput) => Cost[] {
  const { target, occupation, timer, mode, prescaler } = question;
  return ({ want, way }) => {
    const { port, unit } = way.channel;
    const label = pinLabel(target, port);
    const costs: Cost[] = [];
    const own = (kind: Cost["kind"], text: string, hurts = false) => void costs.push({ kind, port, text, hurts });
    const count = showSeconds(prescaler / target.clockHz);
    const zero = asksForZero(want);
    const full = want.pulse === undefined && (want.duty?.max ?? 1) >= 1 && (want.reach?.max ?? 1) >= 1;
    if (way.com === 1) own("fixed duty", `${label} toggles: its duty is 50 % and stays so`);
    if (way.com === 2 && mode.family === "fast" && zero)
      own(
        "spike at zero",
        `${label} is never quite off: compare value 0 leaves a pulse of one count (${count}) each period`,
      );
    if (way.com === 3) own("inverted", `inverted: a greater ${way.channel.compare} makes the pulse shorter`);
    if (way.com === 3 && mode.family === "fast" && full)
      own(
        "gap at full",
        `${label} is never quite on: compare value 0 leaves a gap of one count (${count}) each period`,
      );
    const bus = occupation.buses.get(port);
    if (bus !== undefined)
      own(
        "bus line",
        `${label} is ${article(bus.line)}${bus.inUse ? ", and the sketch uses that bus" : ""}`,
        bus.inUse,
      );
    const second = target.chip.modulators
      .find((modulator) => modulator.port === port)
      ?.units.find((other) => other !== unit);
    const written = target.pins.find((pin) => pin.port === port)?.analogWriteUnit;
    if (second !== undefined && written === second)
      own(
        "second unit",
        `analogWrite on ${label} would connect ${second} as well: set ${way.channel.compare} instead (timer ${timer.number})`,
        (occupation.used.get(port)?.hz ?? null) !== null,
      );
    return costs;
  };
}

/** `data line of the SPI bus` → `a data line of the SPI bus`. */
function article(line: string): string {
  return /^(?:an?|the|one) /.test(line) ? line : `a ${line}`;
}
