/**
 * Measures the pulses that the program itself makes by writing PORT or PIN: from rise to rise, on pins that are outputs and
 * driven by no unit. Extremes are kept for stretches of a quarter of a second, so that what does not recur can be left out.
 */
import type { PinPhase, SeenSignal } from "./pin-tracks.js";
import type { Pin } from "./ports.js";

const STRETCH = 4_000_000;
/** Pulses of about the same length, some percent, are looked at together. */
const ALIKE = 12;

interface Extremes {
  period: { min: number; max: number };
  high: { min: number; max: number };
  duty: { min: number; max: number };
  last: number;
}

interface Course {
  readonly pin: Pin;
  rise: number;
  fall: number;
  /** Rises still to be passed over. */
  skip: number;
  readonly stretches: Map<string, Extremes>;
}

export class SoftwarePulses {
  private readonly courses = new Map<Pin, Course>();
  private readonly wired = new Map<Pin, number>();
  private counting = false;

  /** A new phase: pulses count from the first rise in the running one. */
  enter(phase: PinPhase): void {
    this.counting = phase === "running";
    this.courses.clear();
  }

  /**
   * Called before the level moves: a pin that became an input or was given to a unit starts anew, and an edge made by the
   * change itself is the odd first pulse that nothing is claimed of.
   */
  rewired(pin: Pin, cycle: number): void {
    this.wired.set(pin, cycle);
    const course = this.courses.get(pin);
    if (course !== undefined && (pin.direction === 0 || pin.connected)) course.rise = course.fall = -1;
  }

  /** What is measured next belongs to another signal: its first two pulses are odd (one old and one new period). */
  startAnew(): void {
    for (const course of this.courses.values()) {
      course.rise = -1;
      course.skip = 2;
    }
  }

  edge(pin: Pin, cycle: number): void {
    if (!this.counting || pin.connected || this.wired.get(pin) === cycle) return;
    let course = this.courses.get(pin);
    if (course === undefined) {
      course = { pin, rise: -1, fall: -1, skip: 0, stretches: new Map() };
      this.courses.set(pin, course);
    }
    if (pin.level === 0) {
      course.fall = cycle;
      return;
    }
    if (course.rise >= 0 && course.fall > course.rise) this.add(course, cycle);
    if (course.skip > 0) course.skip--;
    else course.rise = cycle;
  }

  private add(course: Course, cycle: number): void {
    const period = cycle - course.rise;
    const high = course.fall - course.rise;
    const key = `${Math.floor(cycle / STRETCH)} ${Math.round(Math.log(period) * ALIKE)}`;
    const present = course.stretches.get(key);
    if (present === undefined) {
      const only = (value: number) => ({ min: value, max: value });
      course.stretches.set(key, { period: only(period), high: only(high), duty: only(high / period), last: cycle });
      return;
    }
    widen(present.period, period);
    widen(present.high, high);
    widen(present.duty, high / period);
    present.last = cycle;
  }

  /** What was seen; `middle` as in `PinTracks.signals`. */
  signals(middle: number, cycle: number, clockDivisor: number, afterInterrupt: boolean): SeenSignal[] {
    const found: SeenSignal[] = [];
    for (const { pin, stretches } of this.courses.values()) {
      for (const { period, high, duty, last } of stretches.values()) {
        found.push({
          port: pin.name,
          phase: "running",
          kind: "pulse",
          level: null,
          connected: false,
          periodTicks: period,
          highTicks: high,
          duty,
          clockDivisor,
          cycle,
          recurs: last >= middle,
          afterInterrupt,
        });
      }
    }
    return found;
  }
}

function widen(range: { min: number; max: number }, value: number): void {
  range.min = Math.min(range.min, value);
  range.max = Math.max(range.max, value);
}
