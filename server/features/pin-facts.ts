/** What the pins of a timer put out after a statement: the facts that hovers and hints share. */

import type { TimerFact } from "../../shared-model/chip.js";
import { exactly } from "../../shared-model/register-value.js";
import { isBySoftware, type Waveform } from "../../shared-model/signal.js";
import type { Span } from "../../shared-model/span.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import { arithmetic } from "../../shared-model/waveforms/arithmetic.js";
import { channelWaveforms } from "../../shared-model/waveforms/channel-waveforms.js";
import type { Analysis, PinHistory, PinSignal, TimerState } from "../analysis.js";
import { historyOf, pinLabel, startsAt, unitLabel } from "../look/look.js";

/** One pin's signal in one settled state. */
export interface PinFact {
  /** `D3` */
  readonly label: string;
  readonly signal: Waveform;
  /** `16 MHz / (2 · 32 · 255)`; null where there is no pulse of one prescaler. */
  readonly arithmetic: string | null;
  /** What feeds the chip; null where nobody said. */
  readonly supplyVolts: number | null;
}

/** States of a timer that this statement helped to make; those of the running regime first. */
export function statesMadeBy(analysis: Analysis, timer: number, span: Span): readonly TimerState[] {
  const states = (historyOf(analysis, timer)?.states ?? []).filter((state) =>
    state.from.some((from) => startsAt(from, span)),
  );
  const running = states.filter((state) => state.regime === "running");
  return running.length > 0 ? running : states;
}

/** The signals of the timer's pins in the given states, without repeats. */
export function pinFacts(analysis: Analysis, timer: number, states: readonly TimerState[]): readonly PinFact[] {
  const all = historyOf(analysis, timer)?.states ?? [];
  const wanted = new Set(states.map((state) => all.indexOf(state)));
  const facts = new Map<string, PinFact>();
  for (const pin of analysis.pins) {
    if (pin.timer !== timer) continue;
    for (const signal of pin.signals) {
      if (signal.state !== null && !wanted.has(signal.state)) continue;
      const fact = factOf(analysis, pin, signal, all[signal.state ?? -1]?.snapshot.clockDivisor ?? 1);
      facts.set(`${fact.label} ${signalKey(signal)}`, fact);
    }
  }
  return [...facts.values()];
}

/** Statements that switch the pin by its port, in the order of the text. */
export function switchesOf(analysis: Analysis, pin: PinHistory): readonly Span[] {
  const from = pin.signals.filter((signal) => signal.regime === "running").flatMap((signal) => signal.from);
  const made = (span: Span): boolean => from.some((each) => startsAt(each, span));
  const calls = analysis.calls.filter((call) => call.name === "digitalWrite" && made(call.span));
  const writes = analysis.writes.filter((write) => /^(?:PORT|PIN)/.test(write.register) && made(write.span));
  return [...calls, ...writes].map(({ span }) => span).sort((a, b) => a.start - b.start);
}

/** Pins of which the program itself makes pulses, by this statement among others. */
export function pinsSwitchedBy(analysis: Analysis, span: Span): readonly PinFact[] {
  return analysis.pins.flatMap((pin) => {
    const signal = pin.signals.find((candidate) => candidate.regime === "running" && isBySoftware(candidate));
    const here = signal !== undefined && switchesOf(analysis, pin).some((each) => startsAt(each, span));
    return here ? [factOf(analysis, pin, signal, 1)] : [];
  });
}

export function factOf(analysis: Analysis, pin: PinHistory, signal: PinSignal, clockDivisor: number): PinFact {
  return {
    label: pinLabel(analysis, pin),
    signal,
    arithmetic: arithmetic(signal, analysis.target.clockHz, clockDivisor),
    supplyVolts: analysis.target.supply?.volts ?? null,
  };
}

function signalKey(signal: Waveform): string {
  const { kind, level, frequencyHz, duty } = signal;
  return JSON.stringify([kind, level, frequencyHz, duty]);
}

/**
 * The pulse that the timer's outputs would give once connected: what a sketch sets up before its first analogWrite. The
 * last channel stands for all, since the first may be TOP.
 */
export function pulseOnceConnected(analysis: Analysis, timer: TimerFact, snapshot: TimerSnapshot): PinFact | null {
  const channel = timer.channels.at(-1);
  if (channel === undefined) return null;
  const connected = { com: exactly(2, 2), compare: exactly(1, timer.bits), output: true, high: false };
  const hypothetical: TimerSnapshot = {
    ...snapshot,
    channels: [
      ...snapshot.channels.filter((each) => each.unit !== channel.unit),
      { unit: channel.unit, alternatives: [connected] },
    ],
  };
  const waves = channelWaveforms(analysis.target.chip, timer, hypothetical, channel, analysis.target.clockHz);
  const signal = waves.length === 1 ? waves[0]! : undefined;
  if (signal === undefined || signal.kind !== "pulse") return null;
  return {
    label: unitLabel(analysis, channel),
    signal,
    arithmetic: arithmetic(signal, analysis.target.clockHz, snapshot.clockDivisor ?? 1),
    supplyVolts: analysis.target.supply?.volts ?? null,
  };
}
