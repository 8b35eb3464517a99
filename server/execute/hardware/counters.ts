/**
 * Where the timers' counters stand while a sketch starts up, as far as the code's costs allow it to be known: it decides
 * whether a compare value has left its buffer when the mode changes. Law: the real position lies within the one kept, and a
 * value is told to have arrived, or not to have, only where every position agrees.
 * Source for the moments of update: DS40002061 tables 15-8, 16-4 and 18-8 (column "Update of OCRnx at").
 */
import * as number from "../domain/number.js";
import { countsOn, standsStill } from "./counting.js";
import type { Role, TimerSlot } from "./layout.js";
import { BYTE, type Machine, WORD } from "./machine.js";
import { clocksOf, isBuffered, modesOf } from "./modes.js";

/** Ticks of the timer since it last came to BOTTOM: whole ticks and the part of one that the prescaler has counted. */
interface Position {
  readonly least: number;
  readonly most: number;
}

/** How a timer counts: cycles a tick (0: it stands), ticks from BOTTOM to BOTTOM, and where in them values arrive. */
interface Course {
  readonly by: number;
  readonly top: number;
  readonly dual: boolean;
  /** Ticks after BOTTOM; null where values do not wait. */
  readonly update: number | null;
}

function periodOf({ dual, top }: Course): number {
  return dual ? 2 * top : top + 1;
}

/** Null where any part of it is not known. */
function courseOf(machine: Machine, timer: TimerSlot): Course | null {
  const still = standsStill(machine, timer);
  if (!still && !countsOn(machine, timer)) return null;
  const modes = modesOf(machine, timer);
  const clocks = clocksOf(machine, timer);
  const [mode] = modes ?? [];
  if (mode === undefined || modes?.length !== 1 || mode.family === "reserved") return null;
  const [clock] = clocks ?? [];
  if (!still && (clocks?.length !== 1 || clock?.kind !== "divided")) return null;
  const top = topNow(machine, timer, mode.top);
  if (!still && (top === null || top === 0)) return null;
  const dual = mode.family === "phase correct" || mode.family === "phase and frequency correct";
  const update = !isBuffered(mode) ? null : mode.family === "phase correct" ? top : 0;
  const by = still || clock?.kind !== "divided" ? 0 : clock.by;
  return { by, top: top ?? Number.POSITIVE_INFINITY, dual, update };
}

function topNow(machine: Machine, timer: TimerSlot, top: { kind: string; value?: number }): number | null {
  if (top.kind === "fixed") return top.value ?? null;
  if (top.kind === "capture") return single(machine.raw(timer.capture));
  // A TOP that waits in its buffer will change at a moment of its own.
  const channel = timer.channels[0]!;
  const held = machine.heldBy(channel.index);
  return number.equal(held, machine.raw(channel.compare)) ? single(held) : null;
}

function single(value: number.AbstractInteger): number | null {
  return number.isSingle(value) ? value.min : null;
}

export class Counters {
  /** By timer; null where nothing is known. */
  private positions: readonly (Position | null)[];
  /** CPU cycles gone by since the positions were brought up to date. */
  private least = 0;
  private most = 0;
  /** Cycles since the last wait that routines make longer, and by how much they were made longer already. */
  private stretch = 0;
  private added = 0;

  private constructor(positions: readonly (Position | null)[]) {
    this.positions = positions;
  }

  /** Just after reset all counters stand at 0. */
  static atReset(timers: readonly TimerSlot[]): Counters {
    return new Counters(timers.map(() => ({ least: 0, most: 0 })));
  }

  copy(): Counters {
    const copy = new Counters(this.positions);
    copy.least = this.least;
    copy.most = this.most;
    copy.stretch = this.stretch;
    copy.added = this.added;
    return copy;
  }

  /** Code goes by, for so many cycles at most. */
  spend(most: number): void {
    this.most += most;
    this.stretch += most;
  }

  /** A wait goes by; `busy`: cycles of it from which routines take their own time away. To be brought up before. */
  wait(least: number, most: number, busy: number): void {
    this.least += least;
    this.most += most;
    this.stretch = Math.min(busy, most);
    this.added = 0;
  }

  get pending(): number {
    return this.most;
  }

  knows(timer: TimerSlot): boolean {
    return this.positions[timer.index] !== null;
  }

  get isLost(): boolean {
    return this.positions.every((position) => position === null);
  }

  /**
   * Brings all positions up to now; values that have arrived, or may have, are put to work. `heldUp`: cycles that routines
   * add to a stretch of code, at most.
   */
  bringUp(machine: Machine, heldUp: (busy: number) => number): void {
    const added = heldUp(this.stretch);
    const least = this.least;
    const most = this.most + Math.max(0, added - this.added);
    this.added = Math.max(this.added, added);
    this.least = 0;
    this.most = 0;
    if (most === 0) return;
    this.positions = this.positions.map((position, index) => {
      if (position === null) return null;
      const timer = machine.layout.timers[index]!;
      const course = courseOf(machine, timer);
      if (course === null) return null;
      if (course.by === 0) return position;
      const next = { least: position.least + least / course.by, most: position.most + most / course.by };
      letArrive(machine, timer, course, position, next);
      return reduced(next, periodOf(course));
    });
  }

  /** What a write to one of the timer's registers may change of the way it counts. Taken before the write. */
  course(machine: Machine, timer: TimerSlot): Course | null {
    return this.positions[timer.index] === null ? null : courseOf(machine, timer);
  }

  /** A register of the timer has been written; `before` is what `course` said. */
  wrote(machine: Machine, timer: TimerSlot, role: Role, value: number.AbstractInteger, before: Course | null): void {
    const position = this.positions[timer.index];
    if (role.kind === "counter") this.put(timer, counterWritten(value, courseOf(machine, timer), timer.wide));
    else if (position !== null && position !== undefined) {
      const after = courseOf(machine, timer);
      if (before === null || after === null) this.put(timer, null);
      else if (!sameCourse(before, after)) this.put(timer, moved(position, before, after));
    }
  }

  private put(timer: TimerSlot, position: Position | null): void {
    this.positions = this.positions.map((present, index) => (index === timer.index ? position : present));
  }

  /** Lets this stand for `other` too. */
  absorb(other: Counters): void {
    this.least = Math.min(this.least, other.least);
    this.most = Math.max(this.most, other.most);
    this.stretch = Math.max(this.stretch, other.stretch);
    this.added = Math.min(this.added, other.added);
    if (this.positions === other.positions) return;
    this.positions = this.positions.map((mine, index) => {
      const others = other.positions[index]!;
      return mine === null || others === null
        ? null
        : { least: Math.min(mine.least, others.least), most: Math.max(mine.most, others.most) };
    });
  }
}

function sameCourse(a: Course, b: Course): boolean {
  return a.by === b.by && a.top === b.top && a.dual === b.dual && a.update === b.update;
}

/** A value leaves its buffer within a tick after the moment of update. */
function letArrive(machine: Machine, timer: TimerSlot, course: Course, from: Position, to: Position): void {
  if (course.update === null) return;
  const period = periodOf(course);
  // The first moment that may still be ahead at the earliest position; BOTTOM itself lies behind.
  let moment = course.update === 0 ? period : course.update;
  while (moment + 1 < from.least) moment += period;
  const may = moment <= to.most;
  if (!may) return;
  while (moment <= from.most) moment += period;
  const must = moment + 1 <= to.least;
  for (const channel of timer.channels) {
    const waiting = machine.raw(channel.compare);
    const held = machine.heldBy(channel.index);
    if (!number.equal(waiting, held)) machine.setHeld(channel.index, must ? waiting : number.join(held, waiting));
  }
}

/** Whole periods taken off; a moment of update within the last tick is not forgotten. */
function reduced(position: Position, period: number): Position | null {
  if (!(position.most - position.least < period)) return null;
  const periods = Math.max(0, Math.floor((position.least - 1) / period));
  return { least: position.least - periods * period, most: position.most - periods * period };
}

/** TCNTn is written: counting goes on from there; downwards or upwards is known at BOTTOM alone. */
function counterWritten(value: number.AbstractInteger, course: Course | null, wide: boolean): Position | null {
  if (course === null || !number.isSingle(value) || value.min > course.top) return null;
  if (wide ? value === number.top(WORD) : value === number.top(BYTE)) return null;
  return course.dual && value.min !== 0 ? null : { least: value.min, most: value.min + 1 };
}

/** The counter keeps its value and its direction when the way of counting changes. */
function moved(position: Position, before: Course, after: Course): Position | null {
  if (before.by === 0 && after.by === 0 && !before.dual && !after.dual) return position;
  const period = periodOf(before);
  const turns = period === Number.POSITIVE_INFINITY ? 0 : Math.floor(position.least / period);
  const least = position.least - turns * period;
  const most = position.most - turns * period;
  if (most >= period) return null;
  const up = !before.dual || most < before.top;
  const down = before.dual && least >= before.top;
  if (!up && !down) return null;
  const [low, high] = up ? [least, most] : [period - most, period - least];
  if (Math.floor(high) > after.top) return null;
  // The next tick is a whole one or what is left of it: with another clock that is not known.
  const same = before.by === after.by;
  const from = same ? low : Math.floor(low);
  const to = same ? high : Math.floor(high) + 1;
  if (up) return { least: from, most: to };
  const whole = periodOf(after);
  return after.dual && whole < Number.POSITIVE_INFINITY ? { least: whole - to, most: whole - from } : null;
}
