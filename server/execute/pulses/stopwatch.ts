/**
 * The stopwatch that a state carries while pulses are timed: for each pin watched, its level and when it last rose and
 * fell. Law: every real course of the pin up to now is one of the pin's strands.
 */
import { type Interval, joined, marked, NOTHING_YET, passed, sameZone, widened, type Zone } from "./zone.js";

/** Events of a zone. */
export const RISE = 1;
export const FALL = 2;

/**
 * Where in a routine an edge came: so many cycles after the moment at which the routine was due. Two edges with the same
 * path come equally late, but for `varies` cycles: the code between is the same.
 */
export interface Mark extends Interval {
  readonly path: number | null;
  readonly varies: number;
}

/** In the main program time goes by as it is told. */
const AT_ONCE: Mark = { least: 0, most: 0, path: 0, varies: 0 };

/** One way in which a pin may have come here. */
export interface Strand {
  readonly high: boolean;
  readonly zone: Zone;
  readonly rise: Mark;
  readonly fall: Mark;
}

/** What a switching does to a pin's level. */
export type Change = "low" | "high" | "flip" | "stay" | "any";

/** Strands with the same level and the same events are one; null: the pin can no longer be followed. */
export type Strands = readonly Strand[] | null;

export class Stopwatch {
  /** Time since the strands were last brought up to date. */
  private least = 0;
  private most = 0;
  private busy = 0;
  /** What may still follow of a statement whose edge has been taken. */
  private tail = 0;
  /** How long the statement under way may go on after an edge. */
  private after = 0;
  /** While a routine runs: how far it has come. The clock stands still meanwhile. */
  private inside: Mark | null = null;
  /** The longest for which interrupts may have been held off by now; null: they are let in. */
  private masked: number | null = null;

  constructor(private pins: readonly Strands[]) {}

  copy(): Stopwatch {
    const copy = new Stopwatch(this.pins);
    copy.least = this.least;
    copy.most = this.most;
    copy.busy = this.busy;
    copy.tail = this.tail;
    copy.after = this.after;
    copy.inside = this.inside;
    copy.masked = this.masked;
    return copy;
  }

  /** Time goes by; `busy` of it at most is spent computing. */
  pass(least: number, most: number, busy = most): void {
    if (this.masked !== null) this.masked += most + this.tail;
    if (this.inside !== null) {
      this.inside = { ...this.inside, least: this.inside.least + least, most: this.inside.most + most + this.tail };
    } else {
      this.least += least;
      this.most += most + this.tail;
      this.busy += busy + this.tail;
    }
    this.tail = 0;
  }

  /** Code at `place` takes `most` cycles, at any of which it may switch a pin; each time the same, but for `varies`. */
  spend(most: number, place: number, varies: number): void {
    this.pass(0, most);
    this.after = most;
    this.goOn(place, varies);
  }

  /** A call inside such code: once it has switched a pin, it lasts for `after` more, and the code around it goes on. */
  spendCall(most: number, least: number, after: number, place: number, varies: number): void {
    this.pass(least, most);
    this.after += after;
    this.goOn(place, varies);
  }

  private goOn(place: number, varies: number): void {
    if (this.inside === null) return;
    const { path } = this.inside;
    // A statement more or less may be a cycle longer where a jump is taken.
    const more = this.inside.varies + varies + 2;
    this.inside = { ...this.inside, path: path === null ? null : (Math.imul(path, 31) + place) | 0, varies: more };
  }

  /** A routine is due now. */
  enterRoutine(number: number): void {
    this.inside = { least: 0, most: 0, path: number, varies: 0 };
    this.after = 0;
    this.tail = 0;
  }

  /** The routine is over; answers with how long it took at most. */
  leaveRoutine(): number {
    const taken = this.inside?.most ?? 0;
    this.inside = null;
    this.tail = 0;
    return taken;
  }

  /** Interrupts are held off from now on. */
  holdOff(): void {
    this.masked ??= 0;
  }

  /** Interrupts are let in; answers with how long they were held off at most. */
  letIn(): number {
    const held = (this.masked ?? 0) + this.after;
    this.masked = null;
    return held;
  }

  get holdsOff(): boolean {
    return this.masked !== null;
  }

  private bringUpToDate(): void {
    if (this.most === 0 && this.busy === 0) return;
    const { least, most, busy } = this;
    this.pins = this.pins.map(
      (strands) => strands?.map((strand) => ({ ...strand, zone: passed(strand.zone, least, most, busy) })) ?? null,
    );
    this.least = 0;
    this.most = 0;
    this.busy = 0;
  }

  lose(pin: number): void {
    this.pins = this.pins.map((strands, at) => (at === pin ? null : strands));
  }

  /** A write to the pin's port; `edge` is told of every strand in which the level changes, before it does, and where that is. */
  change(pin: number, change: Change, edge: (strand: Strand, mark: Mark) => void): void {
    const strands = this.pins[pin];
    if (change === "stay" || strands === null || strands === undefined) return;
    this.pass(1, 2);
    this.bringUpToDate();
    this.tail = this.after;
    const mark = this.inside ?? AT_ONCE;
    const after: Strand[] = [];
    for (const strand of this.pins[pin]!) {
      for (const high of levelsAfter(strand.high, change)) {
        if (high === strand.high) {
          add(after, strand);
          continue;
        }
        edge(strand, mark);
        const zone = marked(strand.zone, high ? RISE : FALL);
        add(after, { high, zone, rise: high ? mark : strand.rise, fall: high ? strand.fall : mark });
      }
    }
    this.pins = this.pins.map((present, at) => (at === pin ? after : present));
  }

  /** Takes in another course. */
  absorb(other: Stopwatch, widen: boolean): void {
    this.settle();
    other.settle();
    if (this.inside !== null && other.inside !== null) this.inside = eitherMark(this.inside, other.inside);
    if (this.masked !== other.masked) {
      const longest = Math.max(this.masked ?? 0, other.masked ?? 0);
      this.masked = widen && longest > (this.masked ?? 0) ? Number.POSITIVE_INFINITY : longest;
    }
    if (this.pins === other.pins) return;
    this.pins = this.pins.map((own, at) => {
      const others = other.pins[at]!;
      if (own === others) return own;
      if (own === null || others === null) return null;
      const merged = own.slice();
      for (const strand of others) add(merged, strand, widen);
      return merged;
    });
  }

  /** All that has passed is written into the strands. */
  private settle(): void {
    this.pass(0, 0);
    this.bringUpToDate();
  }

  equals(other: Stopwatch): boolean {
    this.settle();
    other.settle();
    if (this.masked !== other.masked) return false;
    return this.pins.every((own, at) => sameStrands(own, other.pins[at]!));
  }
}

/** A stopwatch just started: nothing has been seen of the pins yet but their levels. */
export function started(levels: readonly (boolean | null)[]): Stopwatch {
  const fresh = { zone: NOTHING_YET, rise: AT_ONCE, fall: AT_ONCE };
  return new Stopwatch(levels.map((high) => (high === null ? null : [{ high, ...fresh }])));
}

export function sameWatch(a: Stopwatch | null, b: Stopwatch | null): boolean {
  return a === b || (a !== null && b !== null && a.equals(b));
}

/** How much later than its moment an edge came, beside another one. */
export function laterBy(mark: Mark, than: Mark): Interval {
  if (mark.path !== null && mark.path === than.path) {
    const varies = mark === than || mark.path === 0 ? 0 : mark.varies + than.varies;
    return { least: -varies, most: varies };
  }
  return { least: mark.least - than.most, most: mark.most - than.least };
}

function eitherMark(a: Mark, b: Mark): Mark {
  if (a === b) return a;
  return {
    least: Math.min(a.least, b.least),
    most: Math.max(a.most, b.most),
    path: a.path === b.path ? a.path : null,
    varies: Math.max(a.varies, b.varies),
  };
}

function levelsAfter(high: boolean, change: Change): readonly boolean[] {
  switch (change) {
    case "low":
      return [false];
    case "high":
      return [true];
    case "flip":
      return [!high];
    case "stay":
      return [high];
    case "any":
      return [false, true];
  }
}

function add(strands: Strand[], strand: Strand, widen = false): void {
  const at = strands.findIndex(
    (present) =>
      present.high === strand.high &&
      present.zone.events.length === strand.zone.events.length &&
      present.zone.events.every((event, index) => event === strand.zone.events[index]),
  );
  if (at < 0) {
    strands.push(strand);
    return;
  }
  const present = strands[at]!;
  const both = joined(present.zone, strand.zone);
  strands[at] = {
    high: strand.high,
    zone: widen ? widened(present.zone, both) : both,
    rise: eitherMark(present.rise, strand.rise),
    fall: eitherMark(present.fall, strand.fall),
  };
}

function sameStrands(a: Strands, b: Strands): boolean {
  if (a === b) return true;
  if (a === null || b === null || a.length !== b.length) return false;
  return a.every((strand) =>
    b.some(
      (other) =>
        other.high === strand.high &&
        sameZone(strand.zone, other.zone) &&
        sameMark(strand.rise, other.rise) &&
        sameMark(strand.fall, other.fall),
    ),
  );
}

function sameMark(a: Mark, b: Mark): boolean {
  return a === b || (a.least === b.least && a.most === b.most && a.path === b.path && a.varies === b.varies);
}
