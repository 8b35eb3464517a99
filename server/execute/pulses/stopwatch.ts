/**
 * The stopwatch that a state carries while pulses are timed: for each pin watched, its level and when it last rose and
 * fell. Law: every real course of the pin up to now is one of the pin's strands.
 */
import { joined, marked, NOTHING_YET, passed, sameZone, widened, type Zone } from "./zone.js";

/** Events of a zone. */
export const RISE = 1;
export const FALL = 2;

/** One way in which a pin may have come here. */
export interface Strand {
  readonly high: boolean;
  readonly zone: Zone;
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

  constructor(private pins: readonly Strands[]) {}

  copy(): Stopwatch {
    const copy = new Stopwatch(this.pins);
    copy.least = this.least;
    copy.most = this.most;
    copy.busy = this.busy;
    copy.tail = this.tail;
    return copy;
  }

  /** Time goes by; `busy` of it at most is spent computing. */
  pass(least: number, most: number, busy = most): void {
    this.least += least;
    this.most += most + this.tail;
    this.busy += busy + this.tail;
    this.tail = 0;
  }

  /** Code takes `most` cycles, at any of which it may switch a pin. */
  spend(most: number): void {
    this.pass(0, most);
    this.after = most;
  }

  /** A call inside such code: once it has switched a pin, it lasts for `after` more, and the code around it goes on. */
  spendCall(most: number, least: number, after: number): void {
    this.pass(least, most);
    this.after += after;
  }

  private after = 0;

  private bringUpToDate(): void {
    if (this.most === 0 && this.busy === 0) return;
    const { least, most, busy } = this;
    this.pins = this.pins.map(
      (strands) =>
        strands?.map((strand) => ({ high: strand.high, zone: passed(strand.zone, least, most, busy) })) ?? null,
    );
    this.least = 0;
    this.most = 0;
    this.busy = 0;
  }

  lose(pin: number): void {
    this.pins = this.pins.map((strands, at) => (at === pin ? null : strands));
  }

  /** A write to the pin's port; `edge` is told of every strand in which the level changes, before it does. */
  change(pin: number, change: Change, edge: (strand: Strand) => void): void {
    const strands = this.pins[pin];
    if (change === "stay" || strands === null || strands === undefined) return;
    this.pass(1, 2);
    this.bringUpToDate();
    this.tail = this.after;
    const after: Strand[] = [];
    for (const strand of this.pins[pin]!) {
      for (const high of levelsAfter(strand.high, change)) {
        if (high === strand.high) add(after, strand);
        else {
          edge(strand);
          add(after, { high, zone: marked(strand.zone, high ? RISE : FALL) });
        }
      }
    }
    this.pins = this.pins.map((present, at) => (at === pin ? after : present));
  }

  /** Takes in another course. */
  absorb(other: Stopwatch, widen: boolean): void {
    this.settle();
    other.settle();
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
    return this.pins.every((own, at) => sameStrands(own, other.pins[at]!));
  }
}

/** A stopwatch just started: nothing has been seen of the pins yet but their levels. */
export function started(levels: readonly (boolean | null)[]): Stopwatch {
  return new Stopwatch(levels.map((high) => (high === null ? null : [{ high, zone: NOTHING_YET }])));
}

export function sameWatch(a: Stopwatch | null, b: Stopwatch | null): boolean {
  return a === b || (a !== null && b !== null && a.equals(b));
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
  const { zone } = strands[at]!;
  const both = joined(zone, strand.zone);
  strands[at] = { high: strand.high, zone: widen ? widened(zone, both) : both };
}

function sameStrands(a: Strands, b: Strands): boolean {
  if (a === b) return true;
  if (a === null || b === null || a.length !== b.length) return false;
  return a.every((strand) => b.some((other) => other.high === strand.high && sameZone(strand.zone, other.zone)));
}
