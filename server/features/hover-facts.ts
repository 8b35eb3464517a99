/** What is known at a place in the sketch, as plain facts. The words are `hover-text.ts`. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Span } from "../../shared-model/span.js";
import type { Analysis, CoreCall, KnownName, PinHistory, RegisterWrite, WriteReach } from "../analysis.js";
import { lastingStates, ownPaths, pinLabel, unitLabel } from "../look/look.js";
import { fieldsOf, homesOfBit, type RegisterField, timerOfControl } from "../look/register-fields.js";
import { registerBits } from "../look/register-width.js";
import { isTrue, type TimeBase, timeBaseOf } from "../look/time-base.js";
import { fieldValues, modeOf } from "../look/timer-view.js";
import { type FittedReading, fittedReadings } from "../readings/fitted-reading.js";
import { type DutyCurve, dutyCurveAt } from "./duty-curve.js";
import { factOf, type PinFact, statesMadeBy } from "./pin-facts.js";
import { type WantFacts, wantFactsAt } from "./want-facts.js";
import { isCount, type WriteFacts, writeFacts } from "./write-facts.js";

export interface NameFacts {
  readonly kind: "bit";
  readonly span: Span;
  readonly name: string;
  readonly register: string;
  readonly position: number;
  readonly field: RegisterField | null;
  readonly timer: TimerFact | null;
  readonly channelPin: string | null;
  /** What the write in which the name stands selects; null outside writes. */
  readonly written: { readonly clock: number | null; readonly mode: ModeFact | null } | null;
}

export interface RegisterFacts {
  readonly kind: "register";
  readonly span: Span;
  readonly name: string;
  readonly timer: TimerFact | null;
  readonly width: 8 | 16;
  readonly counts: boolean;
  /** Its value in each lasting state, without repeats. */
  readonly values: readonly RegisterValue[];
  readonly fields: readonly RegisterField[];
}

export interface PinFacts {
  readonly kind: "pin";
  readonly span: Span;
  readonly label: string;
  readonly port: string;
  readonly units: readonly string[];
  readonly timer: number | null;
  readonly running: readonly PinFact[];
  /** Pins of the same timer. */
  readonly partners: readonly string[];
  /** What a call for this pin writes, where it is worked out of one input. */
  readonly reach: WriteReach | null;
  readonly curve: DutyCurve | null;
}

export interface TimeFacts {
  readonly kind: "time";
  readonly span: Span;
  readonly name: string;
  readonly base: TimeBase;
}

export interface TakesFacts {
  readonly kind: "takes timer";
  readonly span: Span;
  readonly name: string;
  readonly timers: readonly { readonly number: number; readonly pins: readonly string[] }[];
}

export interface ReadingFacts {
  readonly kind: "reading";
  readonly span: Span;
  readonly fitted: FittedReading;
  readonly label: string | null;
}

export type HoverFacts =
  | WriteFacts
  | NameFacts
  | RegisterFacts
  | PinFacts
  | TimeFacts
  | TakesFacts
  | WantFacts
  | ReadingFacts;

/** Facts at an offset of a source file; null where nothing is known. The smallest named thing wins. */
export function hoverFacts(analysis: Analysis, path: string, offset: number): HoverFacts | null {
  if (!ownPaths(analysis).has(path)) return null;
  const want = wantFactsAt(analysis, path, offset);
  if (want !== null) return want;
  const reading = readingFactsAt(analysis, path, offset);
  if (reading !== null) return reading;
  const name = nameAt(analysis, path, offset);
  const write = writeAt(analysis, path, offset);
  const call = callAt(analysis, path, offset);
  if (name?.kind === "bit")
    return bitFacts(analysis, name, write) ?? (write === undefined ? null : writeFacts(analysis, write));
  if (write !== undefined && (name === undefined || name.kind === "register")) {
    const reads = name !== undefined && !inside(name.span, write.target) && name.name !== write.register;
    if (!reads) return writeFacts(analysis, write);
  }
  if (name?.kind === "register") return registerFacts(analysis, name);
  if (name?.kind === "pin") return pinFactsAt(analysis, name.span, name.name, call);
  if (call !== undefined) return callFacts(analysis, call, name?.span ?? call.span);
  return null;
}

function readingFactsAt(analysis: Analysis, path: string, offset: number): ReadingFacts | null {
  for (const fitted of fittedReadings(analysis)) {
    const { placed, reading, pin } = fitted;
    const start = placed.span.start + reading.at.start;
    const span = { path: placed.span.path, start, end: placed.span.start + reading.at.end };
    if (holds(span, path, offset))
      return { kind: "reading", span, fitted, label: pin === null ? null : pinLabel(analysis, pin) };
  }
  return null;
}

function nameAt(analysis: Analysis, path: string, offset: number): KnownName | undefined {
  return analysis.names.find((known) => holds(known.span, path, offset));
}

function writeAt(analysis: Analysis, path: string, offset: number): RegisterWrite | undefined {
  let best: RegisterWrite | undefined;
  for (const write of analysis.writes) {
    if (write.operator === "core" || !holds(write.span, path, offset)) continue;
    if (best === undefined || size(write.span) < size(best.span)) best = write;
  }
  return best;
}

function callAt(analysis: Analysis, path: string, offset: number): CoreCall | undefined {
  let best: CoreCall | undefined;
  for (const call of analysis.calls) {
    if (holds(call.span, path, offset) && (best === undefined || size(call.span) < size(best.span))) best = call;
  }
  return best;
}

function holds(span: Span, path: string, offset: number): boolean {
  return span.path === path && offset >= span.start && offset < Math.max(span.end, span.start + 1);
}

function inside(inner: Span, outer: Span): boolean {
  return inner.start >= outer.start && inner.end <= outer.end;
}

function size(span: Span): number {
  return span.end - span.start;
}

function bitFacts(analysis: Analysis, name: KnownName, write: RegisterWrite | undefined): NameFacts | null {
  const { chip } = analysis.target;
  const home = homesOfBit(chip, name.name)[0];
  if (home === undefined) return null;
  const field =
    fieldsOf(chip, home.register).find((candidate) => (candidate.mask & (1 << home.position)) !== 0) ?? null;
  const timer =
    timerOfControl(chip, home.register) ??
    chip.timers.find((candidate) => candidate.interruptMask === home.register || candidate.flags === home.register) ??
    null;
  const channel = timer?.channels.find((candidate) => candidate.letter === field?.channel);
  return {
    kind: "bit",
    span: name.span,
    name: name.name,
    register: home.register,
    position: home.position,
    field,
    timer,
    channelPin: channel === undefined ? null : unitLabel(analysis, channel),
    written: timer === null || write === undefined ? null : selections(analysis, timer, write),
  };
}

/** The clock and mode that hold once the write's state has settled, or just after it. */
function selections(analysis: Analysis, timer: TimerFact, write: RegisterWrite): NameFacts["written"] {
  const snapshot = statesMadeBy(analysis, timer.number, write.span)[0]?.snapshot ?? write.effects[0]?.after;
  if (snapshot === undefined || snapshot.timer !== timer.number) return null;
  const clocks = fieldValues(timer.clockField, snapshot.registers);
  return { clock: clocks.length === 1 ? clocks[0]! : null, mode: modeOf(timer, snapshot) ?? null };
}

function registerFacts(analysis: Analysis, name: KnownName): RegisterFacts | null {
  const { chip } = analysis.target;
  const known = chip.registers.some((row) => row.name === name.name) || chip.wide.some((row) => row.name === name.name);
  if (!known) return null;
  const timer = chip.timers.find((candidate) => registersOf(candidate).includes(name.name)) ?? null;
  const values = new Map<string, RegisterValue>();
  for (const history of analysis.timers) {
    for (const state of history.states) {
      const value = state.snapshot.registers[name.name];
      if (value !== undefined && state.regime === "running") values.set(JSON.stringify(value), value);
    }
  }
  return {
    kind: "register",
    span: name.span,
    name: name.name,
    timer,
    width: registerBits(chip, name.name),
    counts: isCount(chip, name.name),
    values: [...values.values()],
    fields: isCount(chip, name.name) ? [] : fieldsOf(chip, name.name),
  };
}

function registersOf(timer: TimerFact): readonly string[] {
  return [
    ...timer.control,
    timer.counter,
    timer.interruptMask,
    timer.flags,
    ...timer.channels.map((channel) => channel.compare),
    ...(timer.capture === undefined ? [] : [timer.capture]),
  ];
}

function pinFactsAt(analysis: Analysis, span: Span, name: string, call: CoreCall | undefined): PinFacts | null {
  const number = call !== undefined && call.pins.length === 1 ? String(call.pins[0]) : name;
  const pin = analysis.pins.find((candidate) => candidate.pin === number || candidate.port === number);
  if (pin === undefined) return null;
  const written = analysis.writes.find(
    (write) =>
      call !== undefined &&
      write.reach !== null &&
      isCount(analysis.target.chip, write.register) &&
      write.span.path === call.span.path &&
      write.span.start === call.span.start,
  );
  const curve = call === undefined ? null : dutyCurveAt(analysis, call.span.path, call.span.start);
  return { ...factsOfPin(analysis, pin, span), reach: written?.reach ?? null, curve };
}

export function factsOfPin(analysis: Analysis, pin: PinHistory, span: Span): PinFacts {
  const states =
    pin.timer === null ? [] : (analysis.timers.find((history) => history.timer === pin.timer)?.states ?? []);
  const facts = new Map<string, PinFact>();
  for (const signal of pin.signals) {
    if (signal.regime !== "running") continue;
    const fact = factOf(analysis, pin, signal, states[signal.state ?? -1]?.snapshot.clockDivisor ?? 1);
    facts.set(JSON.stringify([signal.kind, signal.level, signal.frequencyHz, signal.duty]), fact);
  }
  const partners = analysis.pins
    .filter((other) => other !== pin && other.timer !== null && other.timer === pin.timer)
    .map((other) => pinLabel(analysis, other));
  return {
    kind: "pin",
    span,
    label: pinLabel(analysis, pin),
    port: pin.port,
    units: pin.units,
    timer: pin.timer,
    running: [...facts.values()],
    partners,
    reach: null,
    curve: null,
  };
}

const TIME_CALLS = ["delay", "millis", "micros"];

function callFacts(analysis: Analysis, call: CoreCall, span: Span): HoverFacts | null {
  if (TIME_CALLS.includes(call.name)) {
    const timer = analysis.target.chip.timers.find((candidate) => candidate.number === 0);
    const states = lastingStates(analysis, 0);
    const only = states.length === 1 ? states[0]?.snapshot : undefined;
    const snapshot = call.effects.find((effect) => effect.before.timer === 0)?.before ?? only;
    if (timer === undefined || snapshot === undefined) return null;
    const base = timeBaseOf(timer, snapshot, true);
    return isTrue(base) ? null : { kind: "time", span, name: call.name, base };
  }
  if (call.name === "tone" || call.name === "Servo.attach") {
    const timers = call.timers.map((number) => ({ number, pins: labelsOfTimer(analysis, number) }));
    return timers.length === 0 ? null : { kind: "takes timer", span, name: call.name, timers };
  }
  if (call.pins.length !== 1) return null;
  return pinFactsAt(analysis, span, String(call.pins[0]), call);
}

function labelsOfTimer(analysis: Analysis, number: number): readonly string[] {
  return analysis.pins.filter((pin) => pin.timer === number).map((pin) => pinLabel(analysis, pin));
}
