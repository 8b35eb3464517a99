/**
 * Runs a compiled sketch in the machine and writes down what it did: register states at settled points and signals
 * measured from edges, each with the phase of the program it belongs to (design, "What is claimed").
 */
import type { ChipMap } from "./chip-map.js";
import type { Image } from "./elf.js";
import { type InputEvent, Machine, type MachineObserver } from "./machine.js";
import type { AnalogSource } from "./peripherals.js";
import { type PinPhase, PinTracks, type SeenSignal } from "./pin-tracks.js";
import type { Pin } from "./ports.js";
import { named } from "./read-back.js";
import { SoftwarePulses } from "./software-pulses.js";
import type { PartsTraits, Timer } from "./timer.js";

/**
 * `setup`: before loop is first entered. `first`: the first two turns of loop, whose states may belong to either regime.
 * `running`: from the third turn on. A program with its own main counts as `first` for the first half of the run and
 * as `running` after.
 */
export type Phase = PinPhase;

export interface SeenState {
  readonly timer: number;
  readonly phase: Phase;
  /** All TCCRn, OCRn, ICRn as the CPU reads them back. */
  readonly registers: Readonly<Record<string, number>>;
  /** Where it was seen: `delay`, `end of loop`, `long wait` … */
  readonly where: string;
  readonly cycle: number;
  /** False where it was last seen in the first half of the running phase: it belongs to the start-up, however long. */
  readonly recurs: boolean;
  /** Whether an interrupt routine other than the core's millisecond one had run by then. */
  readonly afterInterrupt: boolean;
}

export interface Observation {
  readonly states: readonly SeenState[];
  readonly signals: readonly SeenSignal[];
  readonly cycles: number;
  readonly turnsOfLoop: number;
  readonly ownMain: boolean;
  readonly interrupts: readonly number[];
  /** Final register values of every timer. */
  readonly final: readonly { readonly timer: number; readonly registers: Readonly<Record<string, number>> }[];
}

export interface RunOptions {
  readonly analog?: AnalogSource;
  readonly inputs?: readonly InputEvent[];
  readonly partsTraits?: PartsTraits;
  /** Simulated cycles at least; 300 ms at 16 MHz unless told. */
  readonly cycles?: number;
  /** Simulated cycles at most, where loop turns or slow timers need more time to be seen. */
  readonly maxCycles?: number;
  /** Turns of loop to be seen, as far as `maxCycles` allows; a few unless told. */
  readonly turns?: number;
}

/** Calls in which time passes: reaching one of them makes the register state a settled one. */
const WAITS = ["delay", "delayMicroseconds", "analogRead", "pulseIn"];
/** tone and noTone, as the compiler names them: after them what an interrupt routine plays on a pin is another signal. */
const TONES = ["_Z4tonehjm", "_Z6noToneh"];
/**
 * A stretch this long without writes is a wait, whatever the code looks like (1 ms at 16 MHz). Time spent in interrupt
 * routines does not count: it can stretch any two statements.
 */
const LONG_WAIT = 16_000;
const TURNS_WANTED = 6;
/** What the first turn of loop set may still stand at settled points early in the second; from the third on it recurs. */
const FIRST_RUNNING_TURN = 3;

export function observe(map: ChipMap, image: Image, options: RunOptions = {}): Observation {
  return new Run(map, image, options).run();
}

class Run implements MachineObserver {
  private readonly machine: Machine;
  private readonly tracks: PinTracks;
  private readonly pulses = new SoftwarePulses();
  private readonly states = new Map<string, Omit<SeenState, "recurs"> & { last: number }>();
  private readonly waits = new Map<number, string>();
  private readonly tones = new Set<number>();
  private readonly held: { since: number; mainSince: number; registers: number[]; period: number }[];
  private readonly loop: number | undefined;
  private readonly setup: number | undefined;
  private readonly interrupts = new Set<number>();
  private readonly timeBase: number;
  private phase: Phase | null = null;
  private turns = 0;
  private runningSince = 0;
  private afterInterrupt = false;
  /** Something changed since the last sample: most turns of most loops change nothing. */
  private fresh = true;
  private ownMain: boolean;

  constructor(
    map: ChipMap,
    image: Image,
    private readonly options: RunOptions,
  ) {
    this.machine = new Machine(map, image.flash, {
      observer: this,
      analog: options.analog,
      inputs: options.inputs,
      partsTraits: options.partsTraits,
    });
    this.tracks = new PinTracks(this.machine);
    this.setup = image.symbols.get("setup");
    this.loop = image.symbols.get("loop");
    this.ownMain = this.setup === undefined || this.loop === undefined;
    const start = this.ownMain ? image.symbols.get("main") : this.setup;
    for (const name of WAITS) {
      const address = image.symbols.get(name);
      if (address !== undefined) this.waits.set(address, name);
    }
    for (const name of TONES) {
      const address = image.symbols.get(name);
      if (address !== undefined) this.tones.add(address);
    }
    for (const address of [start, ...this.waits.keys(), ...this.tones]) {
      if (address !== undefined) this.machine.watch(address);
    }
    if (this.loop !== undefined) this.machine.watch(this.loop, true);
    this.timeBase = map.timers[0]!.overflowVector;
    this.held = this.machine.timers.map((timer) => ({
      since: 0,
      mainSince: 0,
      registers: timer.readBack(),
      period: 0,
    }));
    if (this.ownMain) this.setup = start;
  }

  run(): Observation {
    const wanted = this.options.cycles ?? 4_800_000;
    const most = this.options.maxCycles ?? 64_000_000;
    if (this.ownMain) {
      this.machine.run(wanted / 2);
      this.enter("running");
      this.machine.run(wanted);
    } else {
      this.machine.run(wanted);
      while (this.machine.cycle < most && this.needsMore()) this.machine.run(this.machine.cycle + 1_600_000);
    }
    const { cycle } = this.machine;
    for (const timer of this.machine.timers) this.closeTimer(timer, cycle);
    this.tracks.close(cycle);
    const middle = (this.runningSince + cycle) / 2;
    return {
      states: [...this.states.values()].map(({ last, ...state }) => ({ ...state, recurs: last >= middle })),
      signals: [
        ...this.tracks.signals(middle),
        ...this.pulses.signals(middle, cycle, this.machine.clockDivisor, this.afterInterrupt),
      ],
      cycles: cycle,
      turnsOfLoop: this.turns,
      ownMain: this.ownMain,
      interrupts: [...this.interrupts].sort((a, b) => a - b),
      final: this.machine.timers.map((timer) => ({
        timer: timer.map.number,
        registers: this.machine.registers(timer),
      })),
    };
  }

  /** Too few turns of loop, or an output whose timer is too slow to have been measured. */
  private needsMore(): boolean {
    if (this.turns < (this.options.turns ?? TURNS_WANTED)) return true;
    const { cycle } = this.machine;
    return this.machine.timers.some((timer, index) => {
      const driving = timer.map.channels.some(
        ({ port }, channel) =>
          timer.channels[channel]!.rule.connected && this.machine.ports.named(port).direction === 1,
      );
      return (
        driving &&
        cycle - this.held[index]!.since > 3_000_000 &&
        cycle - this.held[index]!.since < 8 * timer.periodCycles
      );
    });
  }

  // ---- what the machine reports

  edge(pin: Pin, cycle: number): void {
    this.tracks?.edge(pin, cycle);
    this.pulses?.edge(pin, cycle);
  }

  rewired(pin: Pin, cycle: number): void {
    this.fresh = true;
    this.tracks?.rewired(pin, cycle);
    this.pulses?.rewired(pin, cycle);
  }

  disturbed(timer: Timer, cycle: number): void {
    if (this.tracks === undefined) return;
    this.fresh = true;
    this.closeTimer(timer, cycle);
    this.tracks.disturbed(timer, cycle);
  }

  entered(address: number, cycle: number): void {
    if (address === this.setup && this.phase === null) {
      this.enter(this.ownMain ? "first" : "setup");
    } else if (address === this.loop) {
      this.turns++;
      if (this.turns > 1) this.sample("end of loop", cycle);
      if (this.turns === 1) this.enter("first");
      else if (this.turns === FIRST_RUNNING_TURN) this.enter("running");
    } else {
      if (this.tones.has(address)) this.pulses.startAnew();
      const name = this.waits.get(address);
      if (name !== undefined && !this.overAtOnce(name)) this.sample(name, cycle);
    }
  }

  interrupted(vector: number): void {
    this.interrupts.add(vector);
    if (vector !== this.timeBase) this.afterInterrupt = true;
  }

  // ---- inside

  /** A delay of 0: its argument stands in r25:r22, of delayMicroseconds in r25:r24 (avr-gcc's calling convention). */
  private overAtOnce(name: string): boolean {
    const { data } = this.machine.cpu;
    if (name !== "delay" && name !== "delayMicroseconds") return false;
    const low = name === "delay" ? data[22]! | data[23]! : 0;
    return (low | data[24]! | data[25]!) === 0;
  }

  private enter(phase: Phase): void {
    this.machine.syncAll();
    const { cycle } = this.machine;
    for (const timer of this.machine.timers) this.closeTimer(timer, cycle);
    // A wait of the old phase is no wait of the new one.
    for (const held of this.held) {
      held.since = cycle;
      held.mainSince = this.machine.mainCycles;
    }
    if (phase === "running") this.runningSince = cycle;
    this.phase = phase;
    this.fresh = true;
    this.tracks.enter(phase, cycle, this.afterInterrupt);
    this.pulses.enter(phase);
  }

  /** Every timer's state and every pin's wiring at a settled point. */
  private sample(where: string, cycle: number): void {
    if (this.phase === null || !this.fresh) return;
    this.fresh = false;
    this.machine.syncAll();
    for (const timer of this.machine.timers) this.record(timer, timer.readBack(), where, cycle);
    this.tracks.sample(cycle, this.afterInterrupt);
  }

  private record(timer: Timer, values: readonly number[], where: string, cycle: number): void {
    // While power reduction is on the registers cannot be read (section 10.11.3).
    if (this.phase === null || !timer.powered) return;
    const key = `${timer.map.number} ${this.phase} ${values.join(" ")}`;
    const known = this.states.get(key);
    if (known !== undefined) {
      known.last = cycle;
      return;
    }
    const { phase, afterInterrupt } = this;
    const registers = named(timer, values);
    this.states.set(key, { timer: timer.map.number, phase, registers, where, cycle, last: cycle, afterInterrupt });
  }

  /** A timer's state ends: if it lasted, it was a settled one. */
  private closeTimer(timer: Timer, cycle: number): void {
    const held = this.held[this.machine.timers.indexOf(timer)]!;
    const own = this.machine.mainCycles - held.mainSince;
    if (own >= LONG_WAIT && cycle - held.since >= 3 * held.period) {
      this.record(timer, held.registers, "long wait", cycle);
    }
    const registers = timer.readBack();
    const same = registers.every((value, index) => value === held.registers[index]);
    if (!same) {
      held.since = cycle;
      held.mainSince = this.machine.mainCycles;
    }
    held.registers = registers;
    held.period = timer.periodCycles;
  }
}
