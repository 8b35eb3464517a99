/** What one register write did, as plain facts: bits before and after, pins, the core's clocks. */
import type { Chip, TimerFact } from "../../shared-model/chip.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Bounds } from "../../shared-model/signal.js";
import type { Span } from "../../shared-model/span.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import type { Analysis, RegisterWrite, WriteReach } from "../analysis.js";
import { unitLabel } from "../look/look.js";
import { pulseRate } from "../look/pulse-rate.js";
import { fieldsOf, type RegisterField } from "../look/register-fields.js";
import { registerBits } from "../look/register-width.js";
import { showHz } from "../look/show.js";
import { isTrue, type TimeBase, timeBaseOf } from "../look/time-base.js";
import { channelSnapshot, clockOf, isPwm, modeOf, modesOf, prescalerOf, topRegister } from "../look/timer-view.js";
import { curveOfWrite, type DutyCurve } from "./duty-curve.js";
import { type PinFact, pinFacts, pinsSwitchedBy, pulseOnceConnected, statesMadeBy } from "./pin-facts.js";

export interface FieldChange {
  readonly field: RegisterField;
  readonly before: RegisterValue;
  readonly after: RegisterValue;
}

export interface WriteFacts {
  readonly kind: "write";
  readonly span: Span;
  readonly register: string;
  readonly width: 8 | 16;
  /** True for counts and compare values, which are read as numbers; false for settings, which are read as bits. */
  readonly counts: boolean;
  readonly before: RegisterValue;
  readonly after: RegisterValue;
  readonly reach: WriteReach | null;
  /** From the input to the duty, where the write is one. */
  readonly curve: DutyCurve | null;
  readonly fields: readonly FieldChange[];
  readonly timer: TimerFact | null;
  /** What the pins put out once the state that this write belongs to has settled. */
  readonly pins: readonly PinFact[];
  /** Where no pin pulses yet: the pulse once one is connected. */
  readonly onceConnected: PinFact | null;
  /** False where a later write of the same burst replaces this state before time passes. */
  readonly settles: boolean;
  /** Mode names possible after the settled state. */
  readonly mode: string | null;
  /** Pins whose unit is connected, disconnected, or whose compare register becomes TOP by this write. */
  readonly gained: readonly string[];
  readonly lost: readonly { readonly pin: string; readonly because: string }[];
  readonly timeBase: TimeBase | null;
  /** Interrupts of the timer whose rate is known, once the state has settled. */
  readonly interrupts: readonly { readonly vector: string; readonly rateHz: Bounds<number> }[];
}

export function writeFacts(analysis: Analysis, write: RegisterWrite): WriteFacts {
  const { chip } = analysis.target;
  const timer = chip.timers.find((candidate) => candidate.number === write.timer) ?? null;
  const states = timer === null ? [] : statesMadeBy(analysis, timer.number, write.span);
  const settled = states[0]?.snapshot ?? write.effects[0]?.after ?? null;
  const pins = timer === null ? pinsSwitchedBy(analysis, write.span) : pinFacts(analysis, timer.number, states);
  const pulsing = pins.some((pin) => pin.signal.kind === "pulse" || pin.signal.kind === "unknown");
  return {
    kind: "write",
    span: write.span,
    register: write.register,
    width: registerBits(chip, write.register),
    counts: isCount(chip, write.register),
    before: write.before,
    after: write.after,
    reach: write.reach,
    curve: curveOfWrite(analysis, write),
    fields: changes(chip, write),
    timer,
    pins,
    onceConnected:
      timer === null || settled === null || pulsing || states.length === 0
        ? null
        : pulseOnceConnected(analysis, timer, settled),
    settles: states.length > 0 || !isSetting(timer, write.register),
    mode: states[0]?.mode ?? null,
    ...pinChanges(analysis, timer, write),
    timeBase: timeChange(analysis, timer, write),
    interrupts: timer === null || states.length === 0 ? [] : interruptsOf(analysis, timer),
  };
}

function changes(chip: Chip, write: RegisterWrite): readonly FieldChange[] {
  if (isCount(chip, write.register)) return [];
  return fieldsOf(chip, write.register).map((field) => ({
    field,
    before: part(write.before, field),
    after: part(write.after, field),
  }));
}

/** A field's own value inside a register's. */
export function part(value: RegisterValue, field: RegisterField): RegisterValue {
  const cut = (whole: number) => (whole & field.mask) >>> field.shift;
  const ones = cut(value.ones);
  const zeros = cut(value.zeros);
  if (value.values !== null) {
    const values = [...new Set(value.values.map(cut))].sort((left, right) => left - right);
    return { min: values[0] ?? 0, max: values.at(-1) ?? 0, ones, zeros, values };
  }
  const most = 2 ** field.width - 1;
  return { min: ones, max: most & ~zeros, ones, zeros, values: null };
}

function pinChanges(
  analysis: Analysis,
  timer: TimerFact | null,
  write: RegisterWrite,
): Pick<WriteFacts, "gained" | "lost"> {
  const gained: string[] = [];
  const lost: { pin: string; because: string }[] = [];
  const effect = write.effects[0];
  if (timer === null || effect === undefined) return { gained, lost };
  const topBefore = tops(timer, effect.before);
  const topAfter = tops(timer, effect.after);
  for (const channel of timer.channels) {
    const label = unitLabel(analysis, channel);
    const before = channelSnapshot(effect.before, channel.unit)?.alternatives ?? [];
    const after = channelSnapshot(effect.after, channel.unit)?.alternatives ?? [];
    const was = before.some((way) => way.com.max > 0);
    const is = after.some((way) => way.com.max > 0);
    if (!was && is) gained.push(label);
    if (was && !is) lost.push({ pin: label, because: "is disconnected" });
    const takesTop = !topBefore.includes(channel.compare) && topAfter.includes(channel.compare);
    if (takesTop && modesOf(timer, effect.after).every(isPwm)) {
      lost.push({
        pin: label,
        because: `has no duty of its own: ${channel.compare} is TOP now${sweep(analysis, timer, effect.after)}`,
      });
    }
  }
  return { gained, lost };
}

/** What a duty written to the TOP register would do to the timer's other pins: `, 100 would give D3 2500 Hz`. */
function sweep(analysis: Analysis, timer: TimerFact, snapshot: TimerSnapshot): string {
  const mode = modeOf(timer, snapshot);
  const prescaler = prescalerOf(clockOf(timer, snapshot));
  const other = timer.channels.at(-1);
  if (mode === undefined || prescaler === null || other === undefined || other === timer.channels[0]) return "";
  const rate = pulseRate(analysis.target.clockHz / (snapshot.clockDivisor ?? 1), prescaler, mode, 100);
  return rate === null ? "" : `, and a duty of 100 there would give ${unitLabel(analysis, other)} ${showHz(rate)}`;
}

/** Registers that make up a timer's state, as opposed to its interrupts, flags and counter. */
function isSetting(timer: TimerFact | null, register: string): boolean {
  if (timer === null) return false;
  const counts = [timer.capture, ...timer.channels.map((channel) => channel.compare)];
  return timer.control.includes(register) || counts.includes(register);
}

export function interruptsOf(analysis: Analysis, timer: TimerFact): WriteFacts["interrupts"] {
  const vectors = [timer.overflow.vector, ...timer.channels.map((channel) => channel.interrupt.vector)];
  return analysis.interrupts.flatMap(({ vector, rateHz }) => {
    const name = vector.replace(/_vect$/, "");
    return rateHz !== null && vectors.includes(name) ? [{ vector: name, rateHz }] : [];
  });
}

/** Compare, capture and counter registers hold numbers. */
export function isCount(chip: Chip, register: string): boolean {
  return chip.timers.some(
    (timer) =>
      timer.counter === register ||
      timer.capture === register ||
      timer.channels.some((channel) => channel.compare === register),
  );
}

function tops(timer: TimerFact, snapshot: Parameters<typeof modesOf>[1]): readonly (string | null)[] {
  return modesOf(timer, snapshot).map((mode) => topRegister(timer, mode));
}

/** What the core's clocks become, where this write changes them. */
function timeChange(analysis: Analysis, timer: TimerFact | null, write: RegisterWrite): TimeBase | null {
  const effect = write.effects[0];
  if (!analysis.core || timer?.number !== 0 || effect === undefined) return null;
  const before = timeBaseOf(timer, effect.before, true);
  const after = timeBaseOf(timer, effect.after, true);
  return JSON.stringify(before) === JSON.stringify(after) || isTrue(after) ? null : after;
}
