/**
 * Hints at the end of lines: what a pin puts out from this statement on. Few: one for each timer setting, at the last
 * statement that makes it, one for each duty, one for each want. Their text is of fixed width and cannot pass for C++.
 */
import { toNumber } from "../../shared-model/fraction.js";
import { type Bounds, isBySoftware, type Waveform } from "../../shared-model/signal.js";
import type { Span } from "../../shared-model/span.js";
import type { Analysis, CoreCall } from "../analysis.js";
import { lineOf } from "../edits/source-text.js";
import { verdictsByWant } from "../look/judged-wants.js";
import { historyOf, makerOf, ownPaths } from "../look/look.js";
import { signalWords } from "./hover-text.js";
import { factOf, type PinFact, pinFacts, pulseOnceConnected, statesMadeBy, switchesOf } from "./pin-facts.js";
import { interruptsOf } from "./write-facts.js";

export type HintKind = "frequency" | "duty" | "verdict";

export interface HintOptions {
  /** Off: no hint of any kind. */
  readonly enable: boolean;
  readonly frequency: boolean;
  readonly duty: boolean;
  readonly verdict: boolean;
}

export interface InlayHint {
  readonly path: string;
  /** The end of the line; the hint stands there. */
  readonly offset: number;
  readonly text: string;
  readonly kind: HintKind;
  readonly tooltip: string | null;
}

export const ALL_HINTS: HintOptions = { enable: true, frequency: true, duty: true, verdict: true };

/** Hints in a stretch of a file, ascending. */
export function inlayHints(
  analysis: Analysis,
  path: string,
  range: { readonly start: number; readonly end: number },
  options: HintOptions = ALL_HINTS,
): readonly InlayHint[] {
  const file = analysis.files.find((candidate) => candidate.path === path);
  if (!options.enable || file === undefined || !ownPaths(analysis).has(path)) return [];
  const hints: InlayHint[] = [];
  const add = (span: Span, kind: HintKind, text: string, tooltip: string | null) => {
    const offset = lineOf(file.text, span.end).end;
    if (span.path !== path || offset < range.start || offset > range.end) return;
    if (hints.some((hint) => hint.offset === offset)) return;
    hints.push({ path, offset, text, kind, tooltip });
  };
  if (options.frequency || options.duty) {
    for (const { span, facts } of dutyPlaces(analysis)) {
      const text = pulseText(facts, options.frequency, options.duty);
      if (text !== null) add(span, "duty", text, facts[0]?.arithmetic ?? null);
    }
  }
  if (options.frequency) {
    for (const { span, fact } of settingPlaces(analysis)) {
      const text = pulseText([fact], true, false);
      if (text !== null) add(span, "frequency", text, fact.arithmetic);
    }
  }
  if (options.frequency) {
    for (const { span, rateHz } of interruptPlaces(analysis))
      add(span, "frequency", `≈ ${fixedHz([rateHz.min, rateHz.max])} interrupt`, null);
  }
  if (options.frequency || options.duty) {
    for (const { span, fact } of switchingPlaces(analysis)) {
      const text = pulseText([fact], options.frequency, options.duty);
      if (text !== null) add(span, "duty", text, `${fact.label} ${signalWords(fact.signal)}`);
    }
  }
  if (options.verdict) {
    for (const { span, met, reasons } of verdictsByWant(analysis))
      add(span, "verdict", VERDICT[met], reasons.join("; "));
  }
  return hints.sort((left, right) => left.offset - right.offset);
}

function isTimerPulse(signal: Waveform): boolean {
  return signal.kind === "pulse" && !isBySoftware(signal);
}

/** The first statement that switches each pin of which the program itself makes pulses. */
function switchingPlaces(analysis: Analysis): readonly { readonly span: Span; readonly fact: PinFact }[] {
  return analysis.pins.flatMap((pin) => {
    const signal = pin.signals.find((candidate) => candidate.regime === "running" && isBySoftware(candidate));
    const [span] = signal === undefined ? [] : switchesOf(analysis, pin);
    return signal === undefined || span === undefined ? [] : [{ span, fact: factOf(analysis, pin, signal, 1) }];
  });
}

/** All of one width. */
const VERDICT: Readonly<Record<"yes" | "marginal" | "no" | "unknown", string>> = {
  yes: "✓ met      ",
  marginal: "± marginal ",
  no: "✗ not met  ",
  unknown: "? not known",
};

/** The newest statement that made each state's clock, mode or TOP, with the pulse it gives. */
function settingPlaces(analysis: Analysis): readonly { readonly span: Span; readonly fact: PinFact }[] {
  const places: { span: Span; fact: PinFact }[] = [];
  for (const timer of analysis.target.chip.timers) {
    const setting = new Set([
      ...timer.control,
      ...(timer.capture === undefined ? [] : [timer.capture]),
      timer.channels[0]?.compare ?? "",
    ]);
    const states = historyOf(analysis, timer.number)?.states ?? [];
    const pulsing = pinFacts(analysis, timer.number, states).some(({ signal }) => isTimerPulse(signal));
    for (const state of states) {
      const maker = makerOf(analysis, state.from, (write) => setting.has(write.register));
      if (maker === undefined) continue;
      const pulses = pinFacts(analysis, timer.number, [state]).filter(({ signal }) => isTimerPulse(signal));
      // What a pin would get is worth a hint only while none has it: a gated pulse is told where it is on.
      const fact = pulses[0] ?? (pulsing ? null : pulseOnceConnected(analysis, timer, state.snapshot));
      if (fact !== null && fact !== undefined) places.push({ span: maker.span, fact });
    }
  }
  return places;
}

/** Timers that give no pulse but an interrupt: the newest statement that sets its rate. */
function interruptPlaces(analysis: Analysis): readonly { readonly span: Span; readonly rateHz: Bounds<number> }[] {
  const places: { span: Span; rateHz: Bounds<number> }[] = [];
  for (const timer of analysis.target.chip.timers) {
    const [interrupt] = interruptsOf(analysis, timer);
    const states = (historyOf(analysis, timer.number)?.states ?? []).filter((state) => state.regime === "running");
    const pulsing = pinFacts(analysis, timer.number, states).some(({ signal }) => isTimerPulse(signal));
    if (interrupt === undefined || pulsing || states.length !== 1) continue;
    const setting = [...timer.control, timer.channels[0]?.compare];
    const maker = makerOf(analysis, states[0]!.from, (write) => setting.includes(write.register));
    if (maker !== undefined) places.push({ span: maker.span, rateHz: interrupt.rateHz });
  }
  return places;
}

/** Statements that give a pin its duty: analogWrite, and writes of a compare register that is not TOP. */
function dutyPlaces(analysis: Analysis): readonly { readonly span: Span; readonly facts: readonly PinFact[] }[] {
  const places: { span: Span; facts: readonly PinFact[] }[] = [];
  for (const call of analysis.calls) {
    if (call.name === "analogWrite") places.push({ span: call.span, facts: factsOfDuty(analysis, call) });
  }
  for (const write of analysis.writes) {
    const timer = analysis.target.chip.timers.find((candidate) => candidate.number === write.timer);
    const channel = timer?.channels.find((candidate) => candidate.compare === write.register);
    if (timer === undefined || channel === undefined || write.operator === "core") continue;
    const label = analysis.pins.find((pin) => pin.units.includes(channel.unit));
    const facts = pinFacts(analysis, timer.number, statesMadeBy(analysis, timer.number, write.span)).filter(
      (fact) =>
        label !== undefined && isTimerPulse(fact.signal) && fact.label.endsWith(label.pin) && fact.signal.steps !== 1,
    );
    places.push({ span: write.span, facts });
  }
  return places;
}

function factsOfDuty(analysis: Analysis, call: CoreCall): readonly PinFact[] {
  if (call.pins.length !== 1) return [];
  const pin = analysis.pins.find((candidate) => candidate.pin === String(call.pins[0]));
  if (pin === undefined || pin.timer === null) return [];
  const states = statesMadeBy(analysis, pin.timer, call.span);
  return pinFacts(analysis, pin.timer, states).filter(
    (fact) => isTimerPulse(fact.signal) && fact.label === `D${pin.pin}`,
  );
}

/** `≈ 980.4 Hz · 0.4..99.6 %`; null where the pulses differ too much for one hint. */
function pulseText(facts: readonly PinFact[], frequency: boolean, duty: boolean): string | null {
  const pulses = facts.map((fact) => fact.signal).filter((signal) => signal.kind === "pulse");
  if (pulses.length === 0 || pulses.some((signal) => signal.frequencyHz === null)) return null;
  const hz = pulses.flatMap((signal) =>
    signal.frequencyHz === null ? [] : [toNumber(signal.frequencyHz.min), toNumber(signal.frequencyHz.max)],
  );
  const shares = pulses.flatMap((signal) =>
    signal.duty === null ? [] : [toNumber(signal.duty.min), toNumber(signal.duty.max)],
  );
  const parts: string[] = [];
  if (frequency) parts.push(fixedHz(hz));
  if (duty) parts.push(fixedShare(shares));
  return `≈ ${parts.join(" · ")}`;
}

const PAD = "\u00a0";

/** Four digits and a unit, always of the same width: `980.4 Hz `, `1.042 kHz`. */
export function fixedHz(values: readonly number[]): string {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const [divisor, unit] = high >= 999_950 ? [1e6, "MHz"] : high >= 999.95 ? [1e3, "kHz"] : [1, `Hz${PAD}`];
  const text = (value: number) => fourDigits(value / (divisor as number));
  return text(low) === text(high) ? `${text(low)} ${unit}` : `${text(low)}..${text(high)} ${unit}`;
}

/** Five characters: `980.4`, `30.64`, `1.042`. */
function fourDigits(value: number): string {
  const whole = value >= 1 ? Math.floor(Math.log10(value)) + 1 : 1;
  return value
    .toFixed(Math.max(0, 4 - whole))
    .slice(0, 6)
    .padStart(5, PAD);
}

/** `50.0 %`, `0.4..99.6 %`, each number in four characters. */
export function fixedShare(values: readonly number[]): string {
  const low = Math.min(...values) * 100;
  const high = Math.max(...values) * 100;
  const text = (value: number) => Math.min(99.9, Math.max(0.1, value)).toFixed(1).padStart(4, PAD);
  return text(low) === text(high) ? `${text(low)} %` : `${text(low)}..${text(high)} %`;
}
