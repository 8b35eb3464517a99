/** Facts at a place → the few lines of a hover: the answer first, then how it comes about. Never a finding's own words. */
import type { TimerFact } from "../../shared-model/chip.js";
import { compareFractions, type Fraction } from "../../shared-model/fraction.js";
import { meterVolts, showVolts } from "../../shared-model/meter-voltage.js";
import { type RegisterValue, single } from "../../shared-model/register-value.js";
import { type Bounds, isBySoftware, type Waveform, withoutHalves } from "../../shared-model/signal.js";
import { clockWords } from "../look/setting-words.js";
import { either, listed, showBits, showHz, showHzBounds, showShareBounds, showValue } from "../look/show.js";
import { timeBaseWords } from "../look/time-base.js";
import { modeWords } from "../look/top-name.js";
import { explanationWords } from "../readings/explanation.js";
import { curveLine } from "./duty-curve-text.js";
import type { HoverFacts, NameFacts, PinFacts, ReadingFacts, RegisterFacts, TakesFacts } from "./hover-facts.js";
import type { PinFact } from "./pin-facts.js";
import { WANT_HOVER_LINES, wantLines } from "./want-hover-text.js";
import type { FieldChange, WriteFacts } from "./write-facts.js";

/** Lines of a hover, at most. */
export const HOVER_LINES = 6;

/** Markdown; lines end in two blanks, so that they stay lines. */
export function hoverText(facts: HoverFacts): string {
  return linesOf(facts)
    .slice(0, facts.kind === "want" ? WANT_HOVER_LINES : HOVER_LINES)
    .join("  \n");
}

function linesOf(facts: HoverFacts): readonly string[] {
  switch (facts.kind) {
    case "write":
      return writeLines(facts);
    case "bit":
      return bitLines(facts);
    case "register":
      return registerLines(facts);
    case "pin":
      return pinLines(facts);
    case "time":
      return [`**${timeBaseWords(facts.base)}**`, "Timer 0, the core's clock, is not as the core set it."];
    case "takes timer":
      return takesLines(facts);
    case "want":
      return wantLines(facts);
    case "reading":
      return readingLines(facts);
  }
}

function writeLines(facts: WriteFacts): readonly string[] {
  const lines: string[] = [...answers(answering(facts.pins))];
  if (lines.length === 0 && facts.onceConnected !== null) {
    const { signal, arithmetic } = facts.onceConnected;
    lines.push(`**timer ${facts.timer?.number}: ${hz(signal)}** once a pin is connected${derivation(arithmetic)}`);
  }
  if (facts.pins.every((pin) => pin.signal.kind !== "pulse")) lines.push(...interruptLines(facts));
  lines.push(changeLine(facts), ...(facts.counts ? reachLines(facts) : []));
  if (facts.fields.length > 0) lines.push(...fieldLine(facts));
  if (facts.mode !== null && facts.timer !== null) lines.push(`timer ${facts.timer.number}: ${facts.mode}`);
  else if (facts.timer !== null && !facts.settles) lines.push("no time passes before a later line changes it");
  lines.push(...effectLines(facts));
  return lines;
}

/** The pins worth a line: those with a pulse; where there is none, those that are unknown or stopped with a reason. */
function answering(pins: readonly PinFact[]): readonly PinFact[] {
  const pulses = pins.filter((pin) => pin.signal.kind === "pulse");
  if (pulses.length > 0) return pulses;
  return pins.filter(
    ({ signal }) =>
      signal.kind === "unknown" || (signal.kind === "level" && signal.driver === "timer" && signal.because !== null),
  );
}

function interruptLines(facts: WriteFacts): readonly string[] {
  return facts.interrupts.slice(0, 2).map(({ vector, rateHz }) => {
    const low = showHz(rateHz.min);
    const high = showHz(rateHz.max);
    return `**interrupt ${vector}: ${low === high ? low : `${low} to ${high}`}**`;
  });
}

/** One line for each pin, or one for several pins with the same answer. */
function answers(pins: readonly PinFact[]): readonly string[] {
  const byText = new Map<string, string[]>();
  for (const pin of pins.length > 3 ? joined(pins) : pins) {
    const text = `${signalWords(pin.signal, pin.supplyVolts)}**${derivation(pin.arithmetic)}`;
    const labels = byText.get(text) ?? [];
    if (!labels.includes(pin.label)) labels.push(pin.label);
    byText.set(text, labels);
  }
  return [...byText].slice(0, 3).map(([text, labels]) => `**${labels.join(", ")}: ${text}`);
}

/** The pulses of each pin as one, where a sweep gives too many to list. */
function joined(pins: readonly PinFact[]): readonly PinFact[] {
  const byLabel = new Map<string, PinFact>();
  for (const pin of pins) {
    const present = byLabel.get(pin.label);
    byLabel.set(
      pin.label,
      present === undefined ? pin : { ...pin, signal: hull(present.signal, pin.signal), arithmetic: null },
    );
  }
  return [...byLabel.values()];
}

function hull(left: Waveform, right: Waveform): Waveform {
  return {
    ...left,
    frequencyHz: around(left.frequencyHz, right.frequencyHz),
    duty: around(left.duty, right.duty),
    steps: left.steps === right.steps ? left.steps : null,
  };
}

function around(left: Bounds<Fraction> | null, right: Bounds<Fraction> | null): Bounds<Fraction> | null {
  if (left === null || right === null) return null;
  return {
    min: compareFractions(left.min, right.min) <= 0 ? left.min : right.min,
    max: compareFractions(left.max, right.max) >= 0 ? left.max : right.max,
  };
}

function derivation(arithmetic: string | null): string {
  return arithmetic === null ? "" : ` = \`${arithmetic}\``;
}

/**
 * `980.392 Hz, duty 0.4..99.6 % (0.02..4.98 V), 256 steps`, `low`, `unknown: because …`. The volts are what a meter for direct
 * voltage shows, where it is known what feeds the chip.
 */
export function signalWords(signal: Waveform, supplyVolts: number | null = null): string {
  switch (signal.kind) {
    case "pulse": {
      if (signal.frequencyHz === null) return `switched by ${signal.driver ?? "the sketch"}, rate not known`;
      const volts = supplyVolts === null ? null : meterVolts(signal, supplyVolts);
      const meter = volts === null ? "" : ` (${showVolts(volts)})`;
      const duty = signal.duty === null ? "" : `, duty ${showShareBounds(signal.duty)}${meter}`;
      const steps = signal.steps === null || signal.steps < 2 ? "" : `, ${signal.steps} steps`;
      const driver = isBySoftware(signal) ? ` by ${signal.driver}` : "";
      return `${hz(signal)}${duty}${steps}${driver}`;
    }
    case "level":
      return `constantly ${signal.level ?? "high or low"}${signal.because === null ? "" : ` (${signal.because})`}`;
    case "not driven":
      return signal.because ?? "not driven";
    case "unknown":
      return `not known${signal.because === null ? "" : `: ${signal.because}`}`;
  }
}

function hz(signal: Waveform): string {
  return signal.frequencyHz === null ? "" : showHzBounds(signal.frequencyHz);
}

/** So few are named one by one where the register is shown. */
const NAMED_VALUES = 16;

/** Values that never come, and travel of the input that changes nothing: told where there is more of it than a person would think. */
function reachLines({ reach, curve }: Pick<WriteFacts, "reach" | "curve">): readonly string[] {
  const told = curve === null ? null : curveLine(curve);
  if (reach === null || reach.values.length < 2) return told === null ? [] : [told];
  const { values, readings, deadLow, deadHigh } = reach;
  const [low, high] = [values[0]!, values.at(-1)!];
  const parts: string[] = [];
  if (values.length > NAMED_VALUES && values.length < high - low + 1) {
    const present = new Set(values);
    const missing: number[] = [];
    for (let at = low; at <= high && missing.length < 3; at++) if (!present.has(at)) missing.push(at);
    parts.push(`${values.length} of the values ${low} to ${high} occur, not ${missing.join(", ")} …`);
  }
  const usual = Math.ceil(readings / values.length);
  const dead = [
    ...(deadLow > 2 * usual ? [`the lowest ${deadLow}`] : []),
    ...(deadHigh > 2 * usual ? [`the highest ${deadHigh}`] : []),
  ];
  if (told !== null) parts.push(told);
  else if (dead.length > 0) parts.push(`${dead.join(" and ")} of ${readings} readings change nothing`);
  return parts.length === 0 ? [] : [parts.join("; ")];
}

function changeLine(facts: WriteFacts): string {
  const same = JSON.stringify(facts.before) === JSON.stringify(facts.after);
  const before = shown(facts.before, facts);
  const after = shown(facts.after, facts);
  return same ? `\`${facts.register}\` stays ${after}` : `\`${facts.register}\`: ${before} → ${after}`;
}

/** Registers of settings in bits, counts and compare values as numbers. */
function shown(value: RegisterValue, facts: { readonly width: 8 | 16; readonly counts: boolean }): string {
  const number = showValue(value);
  return facts.counts ? number : `${showBits(value, facts.width)} (${number})`;
}

function fieldLine(facts: WriteFacts): readonly string[] {
  const moved = facts.fields.filter((change) => JSON.stringify(change.before) !== JSON.stringify(change.after));
  if (moved.length === 0) return [];
  return [moved.map((change) => fieldWords(facts.timer, change)).join(" · ")];
}

function fieldWords(timer: TimerFact | null, change: FieldChange): string {
  const { field, before, after } = change;
  const name = `\`${field.name}\``;
  if (field.kind === "clock" && timer !== null) return `${name} ${meaning(timer, before)} → ${meaning(timer, after)}`;
  return `${name} ${showBits(before, field.width).slice(2)} → ${showBits(after, field.width).slice(2)}`;
}

function meaning(timer: TimerFact, value: RegisterValue): string {
  const one = single(value);
  const clock = one === undefined ? undefined : timer.clocks[one];
  return clock === undefined ? showValue(value) : `${one} (${clockWords(clock)})`;
}

function effectLines(facts: WriteFacts): readonly string[] {
  const parts: string[] = [];
  if (facts.gained.length > 0) parts.push(`connects ${listed(facts.gained)}`);
  for (const { pin, because } of facts.lost) parts.push(`${pin} ${because}`);
  if (facts.timeBase !== null) parts.push(timeBaseWords(facts.timeBase));
  return parts.length === 0 ? [] : [parts.join(" · ")];
}

function bitLines(facts: NameFacts): readonly string[] {
  const lines = [`**${facts.name}**: bit ${facts.position} of \`${facts.register}\`${what(facts)}`];
  const { field, timer, written } = facts;
  if (field?.kind === "clock" && timer !== null) {
    const select = written?.clock ?? null;
    const shownAs = (text: string, value: number) => (value === select ? `**${text}**` : text);
    lines.push(
      timer.clocks
        .map((clock, value) =>
          shownAs(`${value} ${clock.kind === "divided" ? `/${clock.by}` : clockWords(clock)}`, value),
        )
        .join(" · "),
    );
  }
  if (field?.kind === "mode" && timer !== null && written !== null && written.mode !== null) {
    const bits = written.mode.select.toString(2).padStart(timer.modeField.width, "0");
    lines.push(
      `here ${timer.modeField.name}${timer.modeField.width - 1}..0 = ${bits}: ${modeWords(timer, written.mode)}`,
    );
  }
  return lines;
}

function what(facts: NameFacts): string {
  const { field, timer } = facts;
  const of = timer === null ? "" : ` of timer ${timer.number}`;
  if (field?.kind === "clock") return `, clock select${of}`;
  if (field?.kind === "mode") return `, waveform mode${of}`;
  if (field?.kind === "output")
    return `, compare output ${field.channel}${of}${facts.channelPin === null ? "" : ` (${facts.channelPin})`}`;
  return of === "" ? "" : `,${of.replace(" of", "")}`;
}

function registerLines(facts: RegisterFacts): readonly string[] {
  const timer = facts.timer === null ? "" : ` of timer ${facts.timer.number}`;
  const values = facts.values.slice(0, 3).map((value) => shown(value, facts));
  const lines = [`**${facts.name}**: ${facts.width}-bit register${timer}`];
  if (values.length > 0) lines.push(`running: ${values.join(" or ")}`);
  if (facts.fields.length > 0)
    lines.push(
      facts.fields
        .flatMap((field) => field.bits)
        .map((bit) => `\`${bit}\``)
        .join(" "),
    );
  return lines;
}

function pinLines(facts: PinFacts): readonly string[] {
  const counting = withoutHalves(facts.running.map((pin) => pin.signal));
  const running = facts.running.filter((pin) => counting.includes(pin.signal));
  const pulses = running.filter((pin) => pin.signal.kind === "pulse");
  const others = running.filter((pin) => pin.signal.kind !== "pulse");
  const lines = (pulses.length > 3 ? joined(pulses) : pulses).map(
    (pin) => `**${facts.label}: ${signalWords(pin.signal, pin.supplyVolts)}**${derivation(pin.arithmetic)}`,
  );
  if (pulses.length === 0)
    lines.push(...others.slice(0, 2).map((pin) => `**${facts.label}: ${signalWords(pin.signal)}**`));
  else if (others.length > 0)
    lines.push(`at other times ${either(others.slice(0, 3).map((pin) => signalWords(pin.signal)))}`);
  lines.push(...reachLines(facts));
  const unit = facts.units.length === 0 ? "no timer output" : `${facts.units.join(", ")} of timer ${facts.timer}`;
  const partners = facts.partners.length === 0 ? "" : `, shared with ${listed(facts.partners)}`;
  lines.push(`${facts.port}, ${unit}${partners}`);
  return lines;
}

function takesLines(facts: TakesFacts): readonly string[] {
  return facts.timers.map(
    ({ number, pins }) => `**${facts.name} takes timer ${number}**: no PWM on ${listed(pins)} meanwhile`,
  );
}

const FITS: Readonly<Record<ReadingFacts["fitted"]["fits"], string>> = {
  yes: "fits",
  no: "does not fit",
  unknown: "not known whether it fits",
};

function readingLines({ fitted, label }: ReadingFacts): readonly string[] {
  return [
    `**${label ?? fitted.reading.pin}: ${FITS[fitted.fits]}**`,
    fitted.because,
    ...fitted.explanations.map((explanation) => `${explanation.rank}. ${explanationWords(explanation)}`),
  ];
}
