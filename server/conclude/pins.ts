/** Settled timer states and port levels → signals by pin. */
import type { BoardPin, Chip, Target } from "../../shared-model/chip.js";
import { compareFractions, type Fraction } from "../../shared-model/fraction.js";
import type { Bounds, Regime, Waveform } from "../../shared-model/signal.js";
import type { Span } from "../../shared-model/span.js";
import { modeNames } from "../../shared-model/waveforms/control-states.js";
import { pinWaveforms } from "../../shared-model/waveforms/pin-waveforms.js";
import type { PinHistory, PinSignal, TimerHistory, TimerState } from "../analysis.js";
import type { Bucket, TimerRecord } from "../execute/bucket.js";
import { bitOf } from "../execute/hardware/alternatives.js";
import type { ChannelSlot, Layout, TimerSlot } from "../execute/hardware/layout.js";
import { servoSignal, toneSignals } from "./library-signals.js";
import { switchedSignals } from "./switched-signals.js";
import type { Words } from "./words.js";

export interface Regimes {
  readonly setup: Bucket;
  readonly running: Bucket;
}

const REGIMES: readonly Regime[] = ["setup", "running"];

export function concludeTimers(regimes: Regimes, layout: Layout, words: Words, places: Places): TimerHistory[] {
  return layout.timers.map((timer) => ({
    timer: timer.fact.number,
    states: REGIMES.flatMap((regime) =>
      [...regimes[regime].timers[timer.index]!.values()].map(
        (record): TimerState => ({
          regime,
          snapshot: record.snapshot,
          mode: modeNames(timer.fact, record.snapshot),
          when: words.conditions(record.conditions),
          from: places([...record.writers.values()].flatMap((sites) => [...sites])),
          at: spansOf([...record.places], words),
        }),
      ),
    ),
  }));
}

/** The writes that stand at these places of the text, the latest first, without the core's own. */
export type Places = (sites: Iterable<number>) => Span[];

/** Places in the text, latest first, without the core's own. */
function spansOf(sites: readonly number[], words: Words): Span[] {
  const unique = [...new Set(sites)].filter((site) => site >= 0).sort((a, b) => b - a);
  return unique.map((site) => words.span(site, site + 1));
}

/** Every pin that has a compare unit or is driven by the sketch, in board order; further ports behind. */
export function concludePins(
  regimes: Regimes,
  layout: Layout,
  target: Target,
  words: Words,
  spans: Places,
): PinHistory[] {
  const { chip } = target;
  const ordered: { readonly label: string; readonly port: string; readonly pin: BoardPin | null }[] = [];
  const seen = new Set<string>();
  for (const pin of target.pins) {
    if (seen.has(pin.port)) continue;
    seen.add(pin.port);
    ordered.push({ label: target.board === null ? pin.port : String(pin.number), port: pin.port, pin });
  }
  for (const channel of layout.channels) {
    if (seen.has(channel.fact.port)) continue;
    seen.add(channel.fact.port);
    ordered.push({ label: channel.fact.port, port: channel.fact.port, pin: null });
  }
  for (const port of chip.ports) {
    for (let bit = 0; bit < 8; bit++) {
      const name = `P${port.letter}${bit}`;
      if (!seen.has(name)) ordered.push({ label: name, port: name, pin: null });
    }
  }
  const histories: PinHistory[] = [];
  for (const entry of ordered) {
    const channels = layout.channels.filter((channel) => channel.fact.port === entry.port);
    if (channels.length === 0 && !isDriven(regimes, layout, chip, entry.port)) continue;
    const signals = REGIMES.flatMap((regime) => signalsOf(regime, regimes, layout, target, entry, words, spans));
    histories.push({
      pin: entry.label,
      port: entry.port,
      units: channels.map((channel) => channel.fact.unit),
      timer: channels[0] === undefined ? null : layout.timers[channels[0].timer]!.fact.number,
      signals,
    });
  }
  return histories;
}

/** A pin that the sketch makes an output, or pulls up, in any settled state. */
function isDriven(regimes: Regimes, layout: Layout, chip: Chip, port: string): boolean {
  const fact = chip.ports.find((candidate) => candidate.letter === port[1]);
  if (fact === undefined) return false;
  const bit = Number(port[2]);
  const address = layout.address(fact.output);
  return REGIMES.some((regime) =>
    [...(regimes[regime].ports.get(address)?.values() ?? [])].some((record) => bitOf(record.direction, bit) !== false),
  );
}

function signalsOf(
  regime: Regime,
  regimes: Regimes,
  layout: Layout,
  target: Target,
  entry: { readonly label: string; readonly port: string; readonly pin: BoardPin | null },
  words: Words,
  spans: Places,
): PinSignal[] {
  const bucket = regimes[regime];
  const channels = layout.channels.filter((channel) => channel.fact.port === entry.port);
  const signals: PinSignal[] = [];
  if (channels.length > 0) {
    for (const combination of combinations(
      bucket,
      layout,
      channels.map((channel) => channel.timer),
    )) {
      const waveforms = pinWaveforms(
        target.chip,
        entry.port,
        combination.map(({ record }) => record.snapshot),
        target.clockHz,
      );
      const sites = combination.flatMap(({ record, timer }) => sitesFor(record, timer, channels));
      const first = combination[0]!;
      const offset = regime === "running" ? regimes.setup.timers[first.timer.index]!.size : 0;
      const common = {
        regime,
        when: words.conditions(first.record.conditions),
        from: spans(sites),
        state: offset + first.index,
      };
      for (const waveform of waveforms) signals.push({ ...waveform, ...common });
      if (regime === "running" && waveforms.some((waveform) => isCut(bucket, combination, waveform)))
        signals.push({
          ...CUT,
          ...common,
          because: `the sketch sets ${counterNames(combination)} while it counts: periods end early or run on`,
        });
    }
    signals.push(...restingSignals(bucket, regime, entry.port, words, spans));
  } else signals.push(...portSignals(bucket, regime, layout, target.chip, entry.port, words, spans));
  signals.push(...switchedSignals(bucket, regime, layout, target, entry.port, signals));
  if (entry.pin !== null) {
    signals.push(...toneSignals(bucket, regime, layout, target, entry.pin.number, spans));
    signals.push(...servoSignal(bucket, regime, entry.pin.number, target));
  }
  return mergeSignals(signals);
}

/** A pulse of a timer whose counter is set again and again. */
function isCut(bucket: Bucket, combination: readonly Combined[], { kind, driver, periodTicks }: Waveform): boolean {
  if (kind !== "pulse" || driver !== "timer" || periodTicks === null) return false;
  return combination.some(({ timer }) => bucket.cut.isCut(timer.index, periodTicks.max));
}

function counterNames(combination: readonly Combined[]): string {
  return combination.map(({ timer }) => timer.fact.counter).join(" or ");
}

interface Combined {
  readonly record: TimerRecord;
  readonly timer: TimerSlot;
  readonly index: number;
}

/** One record per timer that has a unit on the pin; every pairing where there are two. */
function combinations(bucket: Bucket, layout: Layout, timers: readonly number[]): Combined[][] {
  let found: Combined[][] = [[]];
  for (const index of new Set(timers)) {
    const records = [...bucket.timers[index]!.values()];
    found = found.flatMap((partial) =>
      records.map((record, position) => [...partial, { record, timer: layout.timers[index]!, index: position }]),
    );
  }
  return found.filter((combination) => combination.length > 0);
}

/** Writes to what shapes this pin: mode and clock, its own compare value, TOP, its connection, direction and level. */
function sitesFor(record: TimerRecord, timer: TimerSlot, channels: readonly ChannelSlot[]): number[] {
  const parts = new Set(["mode", ...modeTops(timer, record)]);
  for (const channel of channels) {
    parts.add(channel.fact.compare);
    parts.add(channel.fact.unit);
  }
  const sites: number[] = [];
  for (const [part, writers] of record.writers) if (parts.has(part)) sites.push(...writers);
  return sites;
}

/** The registers that may hold TOP. */
function modeTops(timer: TimerSlot, record: TimerRecord): string[] {
  const name = modeNames(timer.fact, record.snapshot);
  const candidates = [
    timer.fact.channels[0]!.compare,
    ...(timer.fact.capture === undefined ? [] : [timer.fact.capture]),
  ];
  return candidates.filter((candidate) => name.includes(candidate));
}

export const QUIET: Omit<Waveform, "kind" | "level" | "driver"> = {
  frequencyHz: null,
  duty: null,
  highTicks: null,
  periodTicks: null,
  steps: null,
  top: null,
  prescaler: null,
  because: null,
};

const CUT = { ...QUIET, kind: "unknown", level: null, driver: null } as const;

/** A pin without a unit: what its port says. */
function portSignals(
  bucket: Bucket,
  regime: Regime,
  layout: Layout,
  chip: Chip,
  port: string,
  words: Words,
  spans: Places,
): PinSignal[] {
  const fact = chip.ports.find((candidate) => candidate.letter === port[1])!;
  const bit = Number(port[2]);
  const signals: PinSignal[] = [];
  for (const record of bucket.ports.get(layout.address(fact.output))?.values() ?? []) {
    const output = bitOf(record.direction, bit);
    const high = bitOf(record.output, bit);
    const common = {
      ...QUIET,
      regime,
      when: words.conditions(record.conditions),
      from: spans(record.writers[bit]!),
      state: null,
    };
    if (output !== false) {
      for (const level of high === null ? [false, true] : [high]) {
        signals.push({ ...common, kind: "level", level: level ? "high" : "low", driver: "port" });
      }
    }
    if (output !== true) signals.push({ ...common, kind: "not driven", level: null, driver: null });
  }
  return signals;
}

/** A pin with a unit, while its timer's registers changed too often for a state of the timer to stand. */
function restingSignals(bucket: Bucket, regime: Regime, port: string, words: Words, spans: Places): PinSignal[] {
  return [...bucket.rests.of(port)].map(([rest, record]) => ({
    ...QUIET,
    ...(rest === "not driven"
      ? { kind: "not driven", level: null, driver: null }
      : { kind: "level", level: rest, driver: "port" }),
    regime,
    when: words.conditions(record.conditions),
    from: spans(record.writers),
    state: null,
  }));
}

/** Signals that differ in nothing but duty are one; causes are put together. */
function mergeSignals(signals: readonly PinSignal[]): PinSignal[] {
  const merged: PinSignal[] = [];
  for (const signal of signals) {
    const at = merged.findIndex((present) => isLike(present, signal));
    if (at < 0) merged.push(signal);
    else merged[at] = mergeTwo(merged[at]!, signal);
  }
  return merged;
}

function isLike(a: PinSignal, b: PinSignal): boolean {
  return (
    a.kind === b.kind &&
    a.level === b.level &&
    a.driver === b.driver &&
    a.prescaler === b.prescaler &&
    a.steps === b.steps &&
    sameBounds(a.top, b.top) &&
    sameBounds(a.periodTicks, b.periodTicks)
  );
}

function sameBounds(a: Bounds<number> | null, b: Bounds<number> | null): boolean {
  return a === b || (a !== null && b !== null && a.min === b.min && a.max === b.max);
}

function mergeTwo(a: PinSignal, b: PinSignal): PinSignal {
  const from = [...a.from];
  for (const span of b.from)
    if (!from.some((present) => present.path === span.path && present.start === span.start)) from.push(span);
  return {
    ...a,
    duty: hullOfFractions(a.duty, b.duty),
    highTicks:
      a.highTicks === null || b.highTicks === null
        ? null
        : { min: Math.min(a.highTicks.min, b.highTicks.min), max: Math.max(a.highTicks.max, b.highTicks.max) },
    when: a.when === b.when ? a.when : null,
    because: a.because === b.because ? a.because : (a.because ?? b.because),
    from,
  };
}

function hullOfFractions(a: Bounds<Fraction> | null, b: Bounds<Fraction> | null): Bounds<Fraction> | null {
  if (a === null || b === null) return null;
  return {
    min: compareFractions(a.min, b.min) <= 0 ? a.min : b.min,
    max: compareFractions(a.max, b.max) >= 0 ? a.max : b.max,
  };
}
