/** What a sketch does with one timer today, place by place: which writes set it, and which write a unit's duty. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import type { Span } from "../../shared-model/span.js";
import type { Analysis, CoreCall, RegisterWrite, WrittenExpression } from "../analysis.js";
import { maskedBits } from "../look/core-bits.js";
import { bitNameOf, knownValue, partsOf, withoutCasts } from "../look/expression.js";
import { lastingStates, ownPaths, sketchCalls, sketchWrites, unitOfPin } from "../look/look.js";
import { modeOf, topBounds, topRegister } from "../look/timer-view.js";

/** A place that gives a unit its compare value. */
export interface DutyWrite {
  readonly by: "analogWrite" | "register";
  readonly unit: string;
  /** The whole call or assignment. */
  readonly span: Span;
  /** The expression that is the duty; null where it cannot be scaled by editing it (`+=`, halves, one call for several pins). */
  readonly value: WrittenExpression | null;
  /** Its one value, where it is the same every time. */
  readonly constant: number | null;
  readonly inFunction: string;
  readonly inInterrupt: string | null;
  /** False where it stands outside the sketch's own files. */
  readonly own: boolean;
}

export interface TimerToday {
  readonly timer: TimerFact;
  /** The TOP that lasts, where it is one number. */
  readonly top: number | null;
  /** True where the core's init alone has set mode and clock. */
  readonly untouched: boolean;
  /** The sketch's own writes to control registers, counter, and whatever holds TOP, in order of execution. */
  readonly setting: readonly RegisterWrite[];
  readonly duties: readonly DutyWrite[];
  /** Interrupt routines that write or read the timer's 16-bit registers: their access shares TEMP. */
  readonly sharedWithRoutines: boolean;
  readonly capture: boolean;
}

export function timerToday(analysis: Analysis, timer: TimerFact): TimerToday {
  const tops = new Set<number | null>();
  const holders = new Set<string>();
  for (const state of lastingStates(analysis, timer.number)) {
    const mode = modeOf(timer, state.snapshot);
    const bounds = mode === undefined ? null : topBounds(timer, mode, state.snapshot);
    tops.add(bounds !== null && bounds.min === bounds.max ? bounds.min : null);
    const holder = mode === undefined ? null : topRegister(timer, mode);
    if (holder !== null) holders.add(holder);
  }
  const mine = sketchWrites(analysis).filter((write) => write.timer === timer.number);
  const setsTimer = (register: string): boolean =>
    timer.control.includes(register) ||
    registerOrHalf(register, timer.counter) ||
    (timer.capture !== undefined && registerOrHalf(register, timer.capture)) ||
    [...holders].some((holder) => registerOrHalf(register, holder));
  const duties = [
    ...analogWrites(analysis, timer),
    ...analysis.writes.flatMap((write) => registerDuty(analysis, timer, write, setsTimer)),
  ];
  return {
    timer,
    top: tops.size === 1 ? [...tops][0]! : null,
    untouched: !analysis.writes.some(
      (write) => timer.control.slice(0, 2).includes(write.register) && write.operator !== "core",
    ),
    setting: mine.filter((write) => setsTimer(write.register) && !setsCaptureOnly(analysis, timer, write)),
    duties: duties.sort((left, right) => order(left.span, right.span)),
    sharedWithRoutines: timer.bits === 16 && routinesTouch(analysis, timer),
    capture: usesCapture(analysis, timer),
  };
}

function order(left: Span, right: Span): number {
  return left.path === right.path ? left.start - right.start : left.path < right.path ? -1 : 1;
}

/** The register itself, or a half of a pair. */
function registerOrHalf(register: string, name: string): boolean {
  return register === name || register === `${name}L` || register === `${name}H`;
}

function analogWrites(analysis: Analysis, timer: TimerFact): DutyWrite[] {
  const own = ownPaths(analysis);
  const found: DutyWrite[] = [];
  for (const call of analysis.calls) {
    if (call.name !== "analogWrite") continue;
    for (const number of call.pins) {
      const unit = unitOfPin(analysis, number);
      if (unit === undefined || unit.timer.number !== timer.number) continue;
      found.push({
        by: "analogWrite",
        unit: unit.channel.unit,
        span: call.span,
        value: call.pins.length === 1 ? (call.arguments[1]?.expression ?? null) : null,
        constant: call.arguments[1] === undefined ? null : (knownValue(call.arguments[1].expression) ?? null),
        inFunction: call.inFunction,
        inInterrupt: call.inInterrupt,
        own: own.has(call.span.path),
      });
    }
  }
  return found;
}

function registerDuty(
  analysis: Analysis,
  timer: TimerFact,
  write: RegisterWrite,
  setsTimer: (register: string) => boolean,
): DutyWrite[] {
  if (write.timer !== timer.number || write.operator === "core" || setsTimer(write.register)) return [];
  const channel = timer.channels.find(({ compare }) => registerOrHalf(write.register, compare));
  if (channel === undefined) return [];
  const whole = write.register === channel.compare && write.operator === "=" && write.expression !== null;
  return [
    {
      by: "register",
      unit: channel.unit,
      span: write.span,
      value: whole ? write.expression : null,
      constant: write.after.min === write.after.max ? write.after.min : null,
      inFunction: write.inFunction,
      inInterrupt: write.inInterrupt,
      own: ownPaths(analysis).has(write.span.path),
    },
  ];
}

function routinesTouch(analysis: Analysis, timer: TimerFact): boolean {
  const wide = [timer.counter, timer.capture ?? timer.counter, ...timer.channels.map(({ compare }) => compare)];
  const touches = (register: string) => wide.some((name) => registerOrHalf(register, name));
  return (
    analysis.writes.some(
      (write) => write.inInterrupt !== null && write.operator !== "core" && touches(write.register),
    ) ||
    analysis.writes.some(
      (write) =>
        write.inInterrupt !== null &&
        write.expression !== null &&
        [...partsOf(write.expression)].some((part) => part.kind === "register" && touches(part.text)),
    ) ||
    usesCapture(analysis, timer) ||
    // A routine of the timer's own that reads a register leaves no write behind: its name in the text must do.
    (analysis.interrupts.length > 0 &&
      analysis.names.some(
        (known) => known.kind === "register" && touches(known.name) && inRoutine(analysis, known.span),
      ))
  );
}

/** Whether a place stands in the body of an interrupt routine; told by the routines' own places. */
function inRoutine(analysis: Analysis, span: Span): boolean {
  return analysis.interrupts.some(
    (routine) => routine.span.path === span.path && span.start >= routine.span.start && span.end <= routine.span.end,
  );
}

/** A routine for it, or a capture register that is named but never written: then it is read. */
function usesCapture(analysis: Analysis, timer: TimerFact): boolean {
  const { capture, captureInterrupt } = timer;
  if (capture === undefined) return false;
  const written = analysis.writes.some((write) => registerOrHalf(write.register, capture));
  const named = analysis.names.some((known) => known.kind === "register" && registerOrHalf(known.name, capture));
  return (
    (named && !written) ||
    analysis.interrupts.some((routine) => routine.vector.replace(/_vect$/, "") === captureInterrupt?.vector)
  );
}

/** Whether a write moves nothing but the capture's noise and edge bits: no part of how the timer counts. */
function setsCaptureOnly(analysis: Analysis, timer: TimerFact, write: RegisterWrite): boolean {
  const own = timer.channels.reduce(
    (mask, { com }) => mask | (com.register === write.register ? 3 << com.shift : 0),
    0,
  );
  const counting = [...timer.modeField.parts, ...timer.clockField.parts].reduce(
    (mask, part) => mask | (part.register === write.register ? ((1 << part.width) - 1) << part.shift : 0),
    own,
  );
  if (counting === 0 || !usesCapture(analysis, timer)) return false;
  const before = maskedBits(write.before, counting);
  return before !== undefined && before === maskedBits(write.after, counting);
}

/** `unit`'s channel. */
export function channelOf(timer: TimerFact, unit: string): ChannelFact | undefined {
  return timer.channels.find((channel) => channel.unit === unit);
}

/** A number written as such, with no name of its own. */
export function isPlainNumber(expression: WrittenExpression): boolean {
  const inner = withoutCasts(expression);
  return inner.kind === "literal" && bitNameOf(inner) === undefined;
}

/** Calls of pinMode that make the pin an output. */
export function madeOutput(analysis: Analysis, number: number): readonly CoreCall[] {
  return sketchCalls(analysis, "pinMode").filter(
    (call) => call.pins.includes(number) && call.arguments[1]?.value?.min === 1,
  );
}
