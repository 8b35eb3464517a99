/**
 * Measures what each pin puts out. A pin's window runs while nothing the program does can change its waveform; edges
 * count once the timer has come back to BOTTOM three times since the window began (one old and one new period, and
 * one to spare). Only the extremes of period and high time are kept, not the edges.
 */
import type { Machine } from "./machine.js";
import type { Pin } from "./ports.js";
import type { Timer } from "./timer.js";

export type PinPhase = "setup" | "first" | "running";

export interface SeenSignal {
  /** `PD3` */
  readonly port: string;
  readonly phase: PinPhase;
  readonly kind: "pulse" | "level" | "not driven";
  readonly level: "low" | "high" | null;
  /** Driven by a compare unit (else by PORT). */
  readonly connected: boolean;
  /** CPU cycles; extremes over all periods measured. */
  readonly periodTicks: { readonly min: number; readonly max: number } | null;
  readonly highTicks: { readonly min: number; readonly max: number } | null;
  /** High share of each single pulse: told for pulses that the program makes. */
  readonly duty?: { readonly min: number; readonly max: number };
  readonly clockDivisor: number;
  readonly cycle: number;
  /** False where it was last seen in the first half of the running phase. */
  readonly recurs: boolean;
  readonly afterInterrupt: boolean;
}

const SETTLE_WRAPS = 3;
const LEVEL_WRAPS = 6;
const LONG_WAIT = 16_000;

interface Track {
  readonly pin: Pin;
  readonly units: readonly { timer: Timer; channel: number }[];
  start: number;
  mainStart: number;
  wraps: number[];
  direction: 0 | 1;
  connected: boolean;
  portBit: 0 | 1;
  /** Which of the units drives; null where none or both do. */
  driver: { timer: Timer; channel: number } | null;
  judged: boolean;
  /** The driving timer stood still when the window began. */
  still: boolean;
  /** A settled point was reached since the window or the phase began. */
  settled: boolean;
  everDriven: boolean;
  measuring: boolean;
  edges: number;
  lastRise: number;
  lastFall: number;
  periodMin: number;
  periodMax: number;
  highMin: number;
  highMax: number;
}

export class PinTracks {
  private readonly tracks: Track[];
  private readonly found = new Map<string, Omit<SeenSignal, "recurs"> & { last: number }>();
  private phase: PinPhase | null = null;
  private afterInterrupt = false;

  constructor(private readonly machine: Machine) {
    this.tracks = machine.ports.pins.map((pin) => {
      const units = machine.timers.flatMap((timer) =>
        timer.map.channels.flatMap(({ port }, channel) => (port === pin.name ? [{ timer, channel }] : [])),
      );
      const track: Track = {
        pin,
        units,
        start: 0,
        mainStart: 0,
        wraps: [],
        direction: 0,
        connected: false,
        portBit: 0,
        driver: null,
        judged: true,
        still: true,
        settled: false,
        everDriven: false,
        measuring: false,
        edges: 0,
        lastRise: -1,
        lastFall: -1,
        periodMin: 0,
        periodMax: 0,
        highMin: 0,
        highMax: 0,
      };
      return track;
    });
    for (const track of this.tracks) this.open(track, 0);
  }

  /** What was seen; what was last seen before `middle` does not recur. */
  signals(middle: number): SeenSignal[] {
    return [...this.found.values()].map(({ last, ...signal }) => ({ ...signal, recurs: last >= middle }));
  }

  edge(pin: Pin, cycle: number): void {
    const track = this.of(pin);
    if (!track.connected || track.driver === null) return;
    if (!track.measuring) {
      if (this.wrapsSince(track) < SETTLE_WRAPS) return;
      track.measuring = true;
      // A dual slope of no height: the sheet has no formula for it.
      if (track.driver.timer.mode.counting === "dual" && track.driver.timer.top === 0) track.judged = false;
    }
    track.edges++;
    if (pin.level === 1) {
      if (track.lastRise >= 0) {
        const period = cycle - track.lastRise;
        track.periodMin = track.periodMin === 0 ? period : Math.min(track.periodMin, period);
        track.periodMax = Math.max(track.periodMax, period);
        const high = track.lastFall - track.lastRise;
        track.highMin = track.highMin === 0 ? high : Math.min(track.highMin, high);
        track.highMax = Math.max(track.highMax, high);
      }
      track.lastRise = cycle;
    } else {
      track.lastFall = cycle;
    }
  }

  rewired(pin: Pin, cycle: number): void {
    const track = this.of(pin);
    this.close1(track, cycle);
    this.open(track, cycle);
  }

  disturbed(timer: Timer, cycle: number): void {
    for (const track of this.tracks) {
      if (!track.units.some((unit) => unit.timer === timer)) continue;
      this.close1(track, cycle);
      this.open(track, cycle);
    }
  }

  /** A new phase begins: what was measured so far belongs to the old one; windows go on, already settled. */
  enter(phase: PinPhase, cycle: number, afterInterrupt: boolean): void {
    this.afterInterrupt = afterInterrupt;
    for (const track of this.tracks) {
      this.close1(track, cycle);
      this.forget(track);
      track.start = cycle;
      track.mainStart = this.machine.mainCycles;
      track.settled = false;
      track.wraps = track.units.map(({ timer }, index) =>
        track.measuring ? timer.wraps - SETTLE_WRAPS : (track.wraps[index] ?? timer.wraps),
      );
    }
    this.phase = phase;
  }

  /** Wiring at a settled point: undriven pins and port levels need no window. */
  sample(cycle: number, afterInterrupt: boolean): void {
    this.afterInterrupt = afterInterrupt;
    for (const track of this.tracks) {
      track.settled = true;
      if (!track.connected || track.direction === 0) this.wiring(track, cycle);
    }
  }

  close(cycle: number): void {
    for (const track of this.tracks) this.close1(track, cycle);
  }

  private of(pin: Pin): Track {
    return this.tracks[pin.port * 8 + pin.bit]!;
  }

  private wrapsSince(track: Track): number {
    const { driver } = track;
    if (driver === null) return 0;
    const index = track.units.findIndex(({ timer }) => timer === driver.timer);
    return driver.timer.wraps - track.wraps[index]!;
  }

  private open(track: Track, cycle: number): void {
    const { pin, units } = track;
    track.start = cycle;
    track.mainStart = this.machine.mainCycles;
    track.settled = false;
    track.direction = pin.direction;
    track.connected = pin.connected;
    track.portBit = pin.portBit;
    track.everDriven ||= pin.direction === 1;
    track.wraps = units.map(({ timer }) => timer.wraps);
    const driving = units.filter(({ timer, channel }) => timer.channels[channel]!.rule.connected);
    track.driver = driving.length === 1 ? driving[0]! : null;
    track.still = track.driver === null || !track.driver.timer.running;
    track.judged =
      driving.length < 2 &&
      units.every(({ timer, channel }) => !timer.channels[channel]!.rule.reserved) &&
      driving.every(({ timer }) => timer.divisor >= 0 && !timer.asynchronous && !(timer.held && timer.divisor === 1));
    track.measuring = false;
    this.forget(track);
  }

  private forget(track: Track): void {
    track.edges = 0;
    track.lastRise = -1;
    track.lastFall = -1;
    track.periodMin = 0;
    track.periodMax = 0;
    track.highMin = 0;
    track.highMax = 0;
  }

  private close1(track: Track, cycle: number): void {
    const length = this.machine.mainCycles - track.mainStart;
    if (!track.connected || track.direction === 0) {
      if (length >= LONG_WAIT) this.wiring(track, cycle);
      return;
    }
    const { driver } = track;
    if (driver === null || !track.judged) return;
    // Between two statements of one burst nothing is claimed, however fast the timer is.
    if (!track.settled && length < LONG_WAIT) return;
    if (track.periodMin > 0) {
      this.add(track, cycle, {
        kind: "pulse",
        level: null,
        periodTicks: { min: track.periodMin, max: track.periodMax },
        highTicks: { min: track.highMin, max: track.highMax },
      });
      return;
    }
    // A constant level: seen long enough for any pulse of this timer to have shown itself.
    const long = track.still ? length >= LONG_WAIT : this.wrapsSince(track) >= LEVEL_WRAPS && length >= LONG_WAIT / 8;
    if (track.edges === 0 && long) {
      this.add(track, cycle, {
        kind: "level",
        level: track.pin.level === 1 ? "high" : "low",
        periodTicks: null,
        highTicks: null,
      });
    }
  }

  private wiring(track: Track, cycle: number): void {
    if (!track.everDriven && track.units.length === 0) return;
    if (!track.judged) return;
    const driven = track.direction === 1;
    this.add(track, cycle, {
      kind: driven ? "level" : "not driven",
      level: driven ? (track.portBit === 1 ? "high" : "low") : null,
      periodTicks: null,
      highTicks: null,
    });
  }

  private add(
    track: Track,
    cycle: number,
    signal: Pick<SeenSignal, "kind" | "level" | "periodTicks" | "highTicks">,
  ): void {
    if (this.phase === null) return;
    const connected = track.connected && track.direction === 1;
    const key = [
      ...[track.pin.name, this.phase, signal.kind, signal.level, connected],
      ...[signal.periodTicks?.min, signal.periodTicks?.max, signal.highTicks?.min, signal.highTicks?.max],
    ].join(" ");
    const known = this.found.get(key);
    if (known !== undefined) {
      known.last = cycle;
      return;
    }
    this.found.set(key, {
      port: track.pin.name,
      phase: this.phase,
      connected,
      clockDivisor: this.machine.clockDivisor,
      cycle,
      last: cycle,
      afterInterrupt: this.afterInterrupt,
      ...signal,
    });
  }
}
