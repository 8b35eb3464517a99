/**
 * Listens to one pin from reset on: every high pulse as the pin's driver makes it, and when the timer was stopped and
 * started anew. An undriven pin counts as low: a pull resistor holds it there.
 */
import type { Machine, MachineObserver } from "../machine.js";
import type { Pin } from "../ports.js";
import type { Timer } from "../timer.js";

export interface HighPulse {
  readonly rise: number;
  readonly fall: number;
  /** Whether a timer drove the pin when it rose; else it is a level that the sketch itself has put there. */
  readonly byTimer: boolean;
}

export class PulseWatch implements MachineObserver {
  readonly pulses: HighPulse[] = [];
  /** Cycles at which the timer was stopped, after the core's init. */
  readonly stops: number[] = [];
  readonly starts: number[] = [];
  machine: Machine | null = null;
  #high = false;
  #rise = 0;
  #byTimer = false;
  #running = true;

  constructor(
    readonly port: string,
    readonly timer: number,
  ) {}

  edge(pin: Pin, cycle: number): void {
    this.#look(pin, cycle);
  }

  rewired(pin: Pin, cycle: number): void {
    this.#look(pin, cycle);
  }

  disturbed(timer: Timer): void {
    if (timer.map.number !== this.timer || this.machine === null) return;
    const running = timer.divisor > 0;
    if (running !== this.#running) (running ? this.starts : this.stops).push(this.machine.cycle);
    this.#running = running;
  }

  entered(): void {}
  interrupted(): void {}

  /** The pulse that goes on at the end of the run. */
  openSince(): number | null {
    return this.#high ? this.#rise : null;
  }

  #look(pin: Pin, cycle: number): void {
    if (pin.name !== this.port) return;
    const high = pin.direction === 1 && pin.level === 1;
    if (high === this.#high) return;
    this.#high = high;
    if (high) {
      this.#rise = cycle;
      this.#byTimer = pin.connected;
    } else if (cycle > this.#rise) this.pulses.push({ rise: this.#rise, fall: cycle, byTimer: this.#byTimer });
  }
}
