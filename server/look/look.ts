/** Questions that several findings ask of a finished analysis. */
import type { BoardPin, ChannelFact, TimerFact } from "../../shared-model/chip.js";
import type { Span } from "../../shared-model/span.js";
import type {
  Analysis,
  CoreCall,
  PinHistory,
  RegisterWrite,
  TimerHistory,
  TimerState,
  WriteEffect,
} from "../analysis.js";

/** What many checks look up, made once for each analysis: an analysis never changes. */
interface Lookup {
  readonly own: ReadonlySet<string>;
  readonly writes: readonly RegisterWrite[];
  /** Names of registers by `path:start` of where they stand. */
  readonly registerNames: ReadonlyMap<string, string>;
  /** The sketch's own writes by `path:start`. */
  readonly byStart: ReadonlyMap<string, readonly RegisterWrite[]>;
}

const lookups = new WeakMap<Analysis, Lookup>();

function lookup(analysis: Analysis): Lookup {
  const present = lookups.get(analysis);
  if (present !== undefined) return present;
  const own = new Set(analysis.files.filter((file) => file.kind === "sketch").map((file) => file.path));
  const writes = analysis.writes.filter((write) => write.operator !== "core" && own.has(write.span.path));
  const byStart = new Map<string, RegisterWrite[]>();
  for (const write of writes) {
    const key = `${write.span.path}:${write.span.start}`;
    const list = byStart.get(key);
    if (list === undefined) byStart.set(key, [write]);
    else list.push(write);
  }
  const registerNames = new Map(
    analysis.names
      .filter((known) => known.kind === "register")
      .map((known) => [`${known.span.path}:${known.span.start}`, known.name]),
  );
  const made = { own, writes, byStart, registerNames };
  lookups.set(analysis, made);
  return made;
}

/** Writes that stand in the sketch's own text; what the core or a library writes is left out. */
export function sketchWrites(analysis: Analysis): readonly RegisterWrite[] {
  return lookup(analysis).writes;
}

/** Calls that stand in the sketch's own text. */
export function sketchCalls(analysis: Analysis, name: string): readonly CoreCall[] {
  const own = ownPaths(analysis);
  return analysis.calls.filter((call) => call.name === name && own.has(call.span.path));
}

export function ownPaths(analysis: Analysis): ReadonlySet<string> {
  return lookup(analysis).own;
}

/** The pin at which a compare unit comes out. */
export function pinOfUnit(analysis: Analysis, unit: string): PinHistory | undefined {
  return analysis.pins.find((pin) => pin.units.includes(unit));
}

/** The unit that the core's analogWrite uses on a board pin, with its timer. */
export function unitOfPin(
  analysis: Analysis,
  number: number,
): { readonly timer: TimerFact; readonly channel: ChannelFact; readonly pin: BoardPin } | undefined {
  const pin = analysis.target.pins.find((candidate) => candidate.number === number);
  if (pin?.analogWriteUnit === undefined) return undefined;
  for (const timer of analysis.target.chip.timers) {
    const channel = timer.channels.find((candidate) => candidate.unit === pin.analogWriteUnit);
    if (channel !== undefined) return { timer, channel, pin };
  }
  return undefined;
}

/** `D3`, `A0`, or the port's name where the board has no number for it. */
export function pinLabel(analysis: Analysis, pin: { readonly pin: string; readonly port: string }): string {
  const known = analysis.target.pins.find((candidate) => candidate.port === pin.port);
  if (known?.analog !== undefined && known.analogWriteUnit === undefined) return known.analog;
  return /^\d+$/.test(pin.pin) ? `D${pin.pin}` : pin.port;
}

/** The label of a unit's pin, with the unit's name where the board does not bring it out. */
export function unitLabel(analysis: Analysis, channel: ChannelFact): string {
  const known = analysis.target.pins.find((candidate) => candidate.port === channel.port);
  if (known === undefined || analysis.target.board === null) return channel.port;
  return pinLabel(analysis, { pin: String(known.number), port: channel.port });
}

export function historyOf(analysis: Analysis, timer: number): TimerHistory | undefined {
  return analysis.timers.find((history) => history.timer === timer);
}

/** The states of the running regime; those of setup where the sketch has no other. */
export function lastingStates(analysis: Analysis, timer: number): readonly TimerState[] {
  const states = historyOf(analysis, timer)?.states ?? [];
  const running = states.filter((state) => state.regime === "running");
  return running.length > 0 ? running : states;
}

export function sameSpan(left: Span, right: Span): boolean {
  return left.path === right.path && left.start === right.start && left.end === right.end;
}

export function within(inner: Span, outer: Span): boolean {
  return inner.path === outer.path && inner.start >= outer.start && inner.end <= outer.end;
}

/** Whether two places begin at the same spot: makers of a state are told by where they begin. */
export function startsAt(left: Span, right: Span): boolean {
  return left.path === right.path && left.start === right.start;
}

/** The newest sketch write among the places that made a state, for which `fits` holds. */
export function makerOf(
  analysis: Analysis,
  from: readonly Span[],
  fits: (write: RegisterWrite) => boolean,
): RegisterWrite | undefined {
  const { byStart } = lookup(analysis);
  for (const span of from) {
    const found = byStart.get(`${span.path}:${span.start}`)?.find(fits);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Whether an interrupt of the timer may be on: its routine is there, or some write sets its mask bit. */
export function interruptMayBeOn(
  analysis: Analysis,
  timer: TimerFact,
  interrupt: { readonly vector: string; readonly mask: string },
): boolean {
  if (analysis.interrupts.some((rate) => rate.vector.replace(/_vect$/, "") === interrupt.vector)) return true;
  const bit = analysis.target.chip.registers
    .find((row) => row.name === timer.interruptMask)
    ?.bits.find((candidate) => candidate.name === interrupt.mask);
  if (bit === undefined) return false;
  return analysis.writes.some(
    (write) =>
      write.register === timer.interruptMask &&
      (write.after.values === null
        ? (write.after.zeros & (1 << bit.position)) === 0
        : write.after.values.some((value) => (value & (1 << bit.position)) !== 0)),
  );
}

/** Whether a name (register or bit) stands anywhere in the sketch's own text. */
export function mentions(analysis: Analysis, ...names: readonly string[]): boolean {
  return analysis.names.some((known) => names.includes(known.name));
}

/** Effects on one timer. */
export function effectsOn(effects: readonly WriteEffect[], timer: number): readonly WriteEffect[] {
  return effects.filter((effect) => effect.after.timer === timer);
}

/** The register as the line names it: a half of a pair keeps its own name. */
export function nameWritten(analysis: Analysis, write: RegisterWrite): string {
  return lookup(analysis).registerNames.get(`${write.target.path}:${write.target.start}`) ?? write.register;
}
