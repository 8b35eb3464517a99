/**
 * A timing under way: pins that software switches are watched while the recurring turns are run once more, each state with
 * a stopwatch. Law: between two edges of a watched pin a stopwatch has let pass at least as little and at most as much time
 * as really passes, interrupt routines apart; these are added where a pulse is measured.
 */
import { alternativesOf, bitOf } from "../hardware/alternatives.js";
import type { ChannelSlot } from "../hardware/layout.js";
import type { Run } from "../run.js";
import type { State } from "../state.js";
import { heldUp, type Interruption } from "./load.js";
import { pinKey, pulseOf } from "./pulse-records.js";
import { type Change, FALL, laterBy, type Mark, RISE, type Strand } from "./stopwatch.js";
import type { Spell } from "./waits.js";
import { between, busySince, type Interval } from "./zone.js";

export interface WatchedPin {
  readonly output: number;
  readonly direction: number;
  readonly bit: number;
  /** Compare units on the pin: while one drives it, it does not follow PORT. */
  readonly channels: readonly ChannelSlot[];
}

/** Nothing can be told any more: the turns take too long to be run again, or a wait has no end that is known. */
export class TimingAbandoned extends Error {}

export class Timing {
  interruptions: readonly Interruption[] = [];
  /** The longest for which the program holds interrupts off by itself. */
  longestMasked = 0;

  constructor(
    readonly pins: readonly WatchedPin[],
    /** Steps of the run at which the timing is given up. */
    readonly stepsAtMost: number,
    /** Where interrupt routines are timed: how late each may start. Null: the main program is. */
    readonly late: number | null,
  ) {}

  goOn(steps: number): void {
    if (steps > this.stepsAtMost) this.abandon();
  }

  /** Something happened that is not followed. */
  abandon(): never {
    throw new TimingAbandoned();
  }

  /** Whether it is this code that is timed. */
  times(run: Run): boolean {
    return run.inInterrupt === (this.late !== null);
  }

  /** The program waits. */
  wait(run: Run, state: State, spell: Spell): void {
    if (!this.times(run)) return;
    // Turns recur: a wait without an end lies between two rises of every pin.
    const endless = spell.most === Number.POSITIVE_INFINITY;
    if (endless && (this.pins.length > 0 || state.stopwatch?.holdsOff === true)) this.abandon();
    // A routine may hold up the end of the wait, once each; what comes later is added where it is measured.
    const waits = spell.busy < spell.most;
    const late = waits ? heldUp(this.interruptions, spell.busy) : 0;
    state.stopwatch?.pass(spell.least, spell.most + late, spell.busy);
  }

  /** A register has been written: `output` is the PORT behind it, where there is one. */
  wrote(run: Run, state: State, output: number, flips: number, kept: number): void {
    if (!this.times(run)) return;
    for (const [index, pin] of this.pins.entries()) {
      if (pin.output !== output) continue;
      const mask = 1 << pin.bit;
      if ((kept & mask) !== 0) continue;
      if (!this.follows(state, pin)) {
        this.lose(run, state, index);
        continue;
      }
      const level = bitOf(state.machine.raw(output), pin.bit);
      const change: Change = (flips & mask) !== 0 ? "flip" : level === null ? "any" : level ? "high" : "low";
      state.stopwatch?.change(index, change, (strand, mark) => this.edge(run, pin, strand, mark));
    }
  }

  /** A register has been written that decides whether a watched pin follows its PORT. */
  rewired(run: Run, state: State, address: number): void {
    for (const [index, pin] of this.pins.entries()) {
      if (pin.direction !== address && !pin.channels.some((channel) => channel.comAddress === address)) continue;
      if (!this.follows(state, pin)) this.lose(run, state, index);
    }
  }

  /** An output that no unit drives. */
  follows(state: State, pin: WatchedPin): boolean {
    return (
      bitOf(state.machine.raw(pin.direction), pin.bit) === true &&
      pin.channels.every((channel) => alternativesOf(state.machine, channel).every((entry) => entry.com.max === 0))
    );
  }

  /** A pin that is switched in ways that are not followed. */
  losePin(run: Run, state: State, output: number, bit: number): void {
    const index = this.pins.findIndex((pin) => pin.output === output && pin.bit === bit);
    if (index >= 0) this.lose(run, state, index);
  }

  private lose(run: Run, state: State, index: number): void {
    const pin = this.pins[index]!;
    state.stopwatch?.lose(index);
    run.collector.bucket.pulses.note(pinKey(pin.output, pin.bit), null);
  }

  /** Interrupts are held off, or let in again. */
  masks(run: Run, state: State, on: boolean): void {
    if (!this.times(run) || state.stopwatch === null) return;
    if (on) state.stopwatch.holdOff();
    else if (state.stopwatch.holdsOff) this.longestMasked = Math.max(this.longestMasked, state.stopwatch.letIn());
  }

  /** The status register has been written: where it is not known what to, interrupts may still be held off. */
  maskedAsStored(run: Run, state: State): void {
    const enabled = bitOf(state.machine.raw(state.machine.layout.sreg), 7);
    if (enabled !== null) this.masks(run, state, !enabled);
  }

  private edge(run: Run, pin: WatchedPin, strand: Strand, mark: Mark): void {
    const { zone } = strand;
    // A pulse is measured from rise to rise: at the second one, where the first and the fall between were seen.
    if (strand.high || zone.events.length < 2) return;
    const period = this.drawnOut(between(zone, RISE, null), laterBy(mark, strand.rise), busySince(zone, RISE));
    const high = this.drawnOut(between(zone, RISE, FALL), laterBy(strand.fall, strand.rise), busySince(zone, RISE));
    const low = this.drawnOut(between(zone, FALL, null), laterBy(mark, strand.fall), busySince(zone, FALL));
    run.collector.bucket.pulses.note(pinKey(pin.output, pin.bit), pulseOf(period, high, low));
  }

  /** With the time that interrupt routines take from the program; a routine's own edges come late by as much. */
  private drawnOut(interval: Interval, later: Interval, busy: number): Interval {
    if (this.late !== null) {
      return { least: interval.least + later.least - this.late, most: interval.most + later.most + this.late };
    }
    const most = interval.most + heldUp(this.interruptions, Math.min(busy, interval.most));
    return { least: interval.least, most };
  }

  /** States that differ in a watched pin's level are worth being kept apart. */
  apart(a: State, b: State): boolean {
    return this.pins.some((pin) => {
      const left = bitOf(a.machine.raw(pin.output), pin.bit);
      const right = bitOf(b.machine.raw(pin.output), pin.bit);
      return left !== null && right !== null && left !== right;
    });
  }
}
