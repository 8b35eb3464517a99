/**
 * What was measured of the pulses that software makes on one pin. Law: every pulse from one rise to the next that the pin
 * gives in the stretch of the program's life described lies inside; where that cannot be said, the record says so.
 */
import type { Interval } from "./zone.js";

/** A ratio of two lengths of time in whole cycles. */
export interface Share {
  readonly part: number;
  readonly whole: number;
}

/** One pulse, or all of them; null: not known. Whole cycles of the CPU's clock. */
export interface PulseTimes {
  readonly period: Interval;
  readonly high: Interval;
  readonly duty: { readonly least: Share; readonly most: Share };
}

/** Beyond this no time is told: some hours. */
const LONGEST = 2 ** 38;

/** A pulse that is high and low for so long; null where that is not bounded. */
export function pulseOf(period: Interval, high: Interval, low: Interval): PulseTimes | null {
  if (!(period.most < LONGEST && high.most < LONGEST && low.most < LONGEST)) return null;
  const whole = (interval: Interval): Interval => ({
    least: Math.max(1, Math.floor(interval.least)),
    most: Math.ceil(interval.most),
  });
  const [up, down] = [whole(high), whole(low)];
  return {
    period: whole(period),
    high: up,
    duty: {
      least: { part: up.least, whole: up.least + down.most },
      most: { part: up.most, whole: up.most + down.least },
    },
  };
}

/** By pin (`pinKey`): undefined where it was never seen to pulse, null where its pulses cannot be told. */
export class PulseRecords {
  private readonly pins = new Map<number, PulseTimes | null>();

  note(pin: number, times: PulseTimes | null): void {
    const present = this.pins.get(pin);
    this.pins.set(
      pin,
      present === undefined || times === null || present === null
        ? present === null
          ? null
          : times
        : either(present, times),
    );
  }

  of(pin: number): PulseTimes | null | undefined {
    return this.pins.get(pin);
  }

  /** True where nothing can be said of any of the pins. */
  lost(pins: readonly number[]): boolean {
    return pins.every((pin) => this.pins.get(pin) === null);
  }

  add(other: PulseRecords): void {
    for (const [pin, times] of other.pins) this.note(pin, times);
  }
}

/** Ports have eight pins. */
export function pinKey(output: number, bit: number): number {
  return output * 8 + bit;
}

function either(a: PulseTimes, b: PulseTimes): PulseTimes {
  const hull = (one: Interval, other: Interval): Interval => ({
    least: Math.min(one.least, other.least),
    most: Math.max(one.most, other.most),
  });
  const less = (one: Share, other: Share): boolean => one.part / one.whole <= other.part / other.whole;
  return {
    period: hull(a.period, b.period),
    high: hull(a.high, b.high),
    duty: {
      least: less(a.duty.least, b.duty.least) ? a.duty.least : b.duty.least,
      most: less(a.duty.most, b.duty.most) ? b.duty.most : a.duty.most,
    },
  };
}
