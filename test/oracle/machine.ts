/**
 * The oracle's chip: avr8js's instruction set around timers and ports of our own (avr8js's and simavr's timers are
 * not right in every mode; see recipes). Time is in CPU cycles since reset.
 */
import { avrInstruction, CPU } from "avr8js";
import type { ChipMap } from "./chip-map.js";
import { attachClocking } from "./clocking.js";
import { attachExternalInterrupts } from "./external-interrupts.js";
import { isCall, NEG, negate, RETI } from "./instructions.js";
import {
  type AnalogSource,
  attachAnalog,
  attachEeprom,
  attachSerial,
  attachSpi,
  attachTwoWire,
  type Host,
} from "./peripherals.js";
import { type Pin, type PinListener, Ports } from "./ports.js";
import { named } from "./read-back.js";
import { type PartsTraits, REAL_PARTS, Timer } from "./timer.js";

/** A pin level from outside, at a time. */
export interface InputEvent {
  readonly cycle: number;
  readonly port: string;
  readonly level: 0 | 1;
}

export interface MachineOptions {
  readonly partsTraits?: PartsTraits;
  readonly analog?: AnalogSource;
  readonly inputs?: readonly InputEvent[];
  readonly observer?: MachineObserver;
}

/** What a measurement may listen to. */
export interface MachineObserver extends PinListener {
  /** The program changed this timer's registers or counter, its clock or its power. */
  disturbed(timer: Timer, cycle: number): void;
  /** The program counter reached a watched address (words). */
  entered(address: number, cycle: number): void;
  /** An interrupt routine is about to run. */
  interrupted(vector: number, cycle: number): void;
}

const SILENT: MachineObserver = {
  edge() {},
  rewired() {},
  disturbed() {},
  entered() {},
  interrupted() {},
};

const SREG = 95;
const CALLED = 2;
const I_FLAG = 0x80;
interface Due {
  readonly cycle: number;
  readonly action: () => void;
}

export class Machine implements Host {
  readonly cpu: CPU;
  readonly timers: Timer[];
  readonly ports: Ports;
  /** CLKPR's divisor of the oscillator: CPU cycles get longer, nothing else changes. */
  clockDivisor = 1;
  /** GTCCR as written while TSM holds it. */
  private readonly requested = new Uint8Array(64);
  private requestCount = 0;
  private readonly watched: Uint8Array;
  private readonly taken = new Map<number, () => void>();
  private readonly units = new Map<string, { timer: Timer; channel: number }[]>();
  private due: Due[] = [];
  private wake = 0;
  private routineSince = -1;
  private routineCycles = 0;
  private merging: { pin: Pin; cycle: number; unit: number; level: 0 | 1 }[] | null = null;
  private readonly observer: MachineObserver;

  constructor(
    readonly map: ChipMap,
    flash: Uint8Array,
    options: MachineOptions = {},
  ) {
    const words = new Uint16Array(map.flashBytes / 2);
    words.fill(0xffff);
    new Uint8Array(words.buffer).set(flash);
    this.cpu = new CPU(words, map.ramStart - 0x100 + map.ramBytes);
    this.watched = new Uint8Array(words.length);
    this.observer = options.observer ?? SILENT;
    this.ports = new Ports(map, this.observer);
    const traits = options.partsTraits ?? REAL_PARTS;
    this.timers = map.timers.map((timerMap) => new Timer(timerMap, traits, this.timerListener()));
    for (const timer of this.timers) {
      timer.map.channels.forEach((channel, index) => {
        const units = this.units.get(channel.port) ?? [];
        units.push({ timer, channel: index });
        this.units.set(channel.port, units);
      });
    }
    this.attachPorts();
    for (const timer of this.timers) this.attachTimer(timer);
    attachClocking(this);
    attachSerial(this, map);
    attachAnalog(this, map, options.analog ?? (() => 512));
    attachEeprom(this, map);
    attachSpi(this, map);
    attachTwoWire(this, map);
    attachExternalInterrupts(this, map, this.ports);
    for (const input of options.inputs ?? []) {
      if (input.cycle <= 0) this.ports.setInput(input.port, input.level);
      else this.later(input.cycle, () => this.ports.setInput(input.port, input.level));
    }
  }

  get cycle(): number {
    return this.cpu.cycles;
  }

  /** Cycles since reset that were not spent in interrupt routines: the program's own time. */
  get mainCycles(): number {
    return this.routineSince < 0 ? this.cpu.cycles - this.routineCycles : this.routineSince - this.routineCycles;
  }

  /** `called`: only calls count, not jumps back to a function whose first statement is a loop. */
  watch(address: number, called = false): void {
    this.watched[address] = called ? CALLED : 1;
  }

  /** Runs until the cycle counter reaches `until` or `stop` (asked every few thousand instructions) says so. */
  run(until: number, stop?: () => boolean): void {
    const { cpu, watched } = this;
    const { data } = cpu;
    // Bundled, an imported name is a getter: a local one is a fifth faster.
    const step = avrInstruction;
    let beat = 0;
    while (cpu.cycles < until) {
      const enabledBefore = data[SREG]! & I_FLAG;
      const { pc } = cpu;
      if ((cpu.progMem[pc]! & 0xfe0f) === NEG) negate(cpu);
      else step(cpu);
      // A routine that interrupted right at the watched place comes back to it: that is no second arrival.
      const watch = watched[cpu.pc]!;
      if (watch !== 0 && cpu.progMem[pc] !== RETI && (watch !== CALLED || isCall(cpu.progMem[pc]!)))
        this.observer.entered(cpu.pc, cpu.cycles);
      if (cpu.cycles >= this.wake) this.service();
      if (enabledBefore === 0 && this.routineSince >= 0 && cpu.progMem[pc] === RETI) {
        this.routineCycles += cpu.cycles - this.routineSince;
        this.routineSince = -1;
      }
      // The instruction after SEI or RETI runs before any interrupt (section 7.7).
      if (this.requestCount > 0 && enabledBefore !== 0 && (data[SREG]! & I_FLAG) !== 0) this.interrupt();
      if (stop !== undefined && ++beat >= 4096) {
        beat = 0;
        if (stop()) break;
      }
    }
    this.syncAll();
  }

  /** Brings every timer up to now. */
  syncAll(): void {
    const { cycles } = this.cpu;
    const both = this.modulated();
    if (both !== null) this.merging = [];
    for (const timer of this.timers) timer.sync(cycles);
    if (both !== null) this.merge(both);
  }

  /** A timer's registers by name as the CPU would read them, without disturbing the 16-bit access registers. */
  registers(timer: Timer): Record<string, number> {
    return named(timer, timer.readBack());
  }

  // ---- Host

  request(vector: number, on: boolean): void {
    const before = this.requested[vector]!;
    if (before === (on ? 1 : 0)) return;
    this.requested[vector] = on ? 1 : 0;
    this.requestCount += on ? 1 : -1;
  }

  later(cycles: number, action: () => void): void {
    const cycle = this.cpu.cycles + cycles;
    const at = this.due.findIndex((entry) => entry.cycle > cycle);
    this.due.splice(at < 0 ? this.due.length : at, 0, { cycle, action });
    if (cycle < this.wake) this.wake = cycle;
  }

  onTaken(vector: number, action: () => void): void {
    this.taken.set(vector, action);
  }

  /** The program changed what this timer does from outside its own registers. */
  disturb(timer: Timer): void {
    this.observer.disturbed(timer, this.cpu.cycles);
  }

  // ---- inside

  private service(): void {
    this.syncAll();
    const { cycles } = this.cpu;
    while (this.due.length > 0 && this.due[0]!.cycle <= cycles) this.due.shift()!.action();
    this.plan();
  }

  /** Works out anew when something is due. */
  plan(): void {
    let wake = this.due[0]?.cycle ?? Number.POSITIVE_INFINITY;
    for (const timer of this.timers) wake = Math.min(wake, timer.nextWake());
    this.wake = wake;
  }

  private interrupt(): void {
    const { cpu, requested } = this;
    let vector = 1;
    while (requested[vector] === 0) vector++;
    this.observer.interrupted(vector, cpu.cycles);
    if (this.routineSince < 0) this.routineSince = cpu.cycles;
    const { data } = cpu;
    let sp = cpu.SP;
    data[sp--] = cpu.pc & 0xff;
    data[sp--] = (cpu.pc >> 8) & 0xff;
    if (cpu.pc22Bits) data[sp--] = (cpu.pc >> 16) & 0xff;
    cpu.SP = sp;
    data[SREG] = data[SREG]! & ~I_FLAG;
    cpu.cycles += cpu.pc22Bits ? 5 : 4;
    cpu.pc = vector * 2;
    const taken = this.taken.get(vector);
    if (taken !== undefined) taken();
    this.request(vector, false);
  }

  private timerListener() {
    return {
      latch: (timer: Timer, channel: number, level: 0 | 1, cycle: number) => this.latched(timer, channel, level, cycle),
      requests: (timer: Timer) => this.refreshRequests(timer),
      disturbed: (timer: Timer) => this.observer.disturbed(timer, this.cpu.cycles),
      reconnected: (timer: Timer) => this.reconnect(timer),
    };
  }

  private refreshRequests(timer: Timer): void {
    const { map } = timer;
    const active = timer.tifr & timer.timsk;
    this.request(map.overflowVector, (active & 1) !== 0);
    map.channels.forEach((channel, index) => {
      this.request(channel.vector, (active & (2 << index)) !== 0);
    });
    if (map.captureVector !== undefined) this.request(map.captureVector, (active & 0x20) !== 0);
    this.wake = Math.min(this.wake, timer.nextWake());
  }

  private latched(timer: Timer, channel: number, level: 0 | 1, cycle: number): void {
    if (!timer.channels[channel]!.rule.connected) return;
    const pin = this.ports.named(timer.map.channels[channel]!.port);
    if (this.merging !== null && pin.name === this.map.modulator?.port) {
      this.merging.push({ pin, cycle, unit: timer.map.number, level });
      return;
    }
    this.ports.drive(pin, true, this.unitLevel(pin), cycle);
  }

  /** The level that the units on a pin give together; PORT decides AND or OR where two share it (2560, section 19.2). */
  private unitLevel(pin: Pin): 0 | 1 {
    const levels = this.units
      .get(pin.name)!
      .filter(({ timer, channel }) => timer.channels[channel]!.rule.connected)
      .map(({ timer, channel }) => timer.channels[channel]!.latch);
    return this.combine(pin, levels);
  }

  private combine(pin: Pin, levels: readonly (0 | 1)[]): 0 | 1 {
    if (levels.length < 2) return levels[0] ?? 0;
    return pin.portBit === 1 ? ((levels[0]! | levels[1]!) as 0 | 1) : ((levels[0]! & levels[1]!) as 0 | 1);
  }

  /** The pin on which two units are connected at once, or null. */
  private modulated(): Pin | null {
    if (this.map.modulator === null) return null;
    const units = this.units.get(this.map.modulator.port)!;
    if (units.some(({ timer, channel }) => !timer.channels[channel]!.rule.connected)) return null;
    return this.ports.named(this.map.modulator.port);
  }

  private merge(pin: Pin): void {
    const moves = this.merging!.sort((a, b) => a.cycle - b.cycle);
    this.merging = null;
    if (moves.length === 0) return;
    const units = this.units.get(pin.name)!;
    // The latches are already at their last level: go back to the first, then replay in order of time.
    const levels = units.map(({ timer, channel }) => {
      const first = moves.find((move) => move.unit === timer.map.number);
      return first === undefined ? timer.channels[channel]!.latch : ((1 - first.level) as 0 | 1);
    });
    for (const move of moves) {
      levels[units.findIndex(({ timer }) => timer.map.number === move.unit)] = move.level;
      this.ports.drive(pin, true, this.combine(pin, levels), move.cycle);
    }
  }

  private reconnect(timer: Timer): void {
    for (const { port } of timer.map.channels) {
      const pin = this.ports.named(port);
      const connected = this.units.get(port)!.some((unit) => unit.timer.channels[unit.channel]!.rule.connected);
      this.ports.drive(pin, connected, this.unitLevel(pin), this.cpu.cycles);
    }
  }

  private attachPorts(): void {
    const { cpu, ports } = this;
    this.map.ports.forEach(({ pin }, index) => {
      cpu.readHooks[pin] = () => {
        this.syncAll();
        return ports.readPort(index);
      };
      // Writing 1 to a PINx bit toggles the PORTx bit (section 14.2.2).
      cpu.writeHooks[pin] = (value, _old, _address, mask) => {
        this.syncAll();
        const next = cpu.data[pin + 2]! ^ (value & mask);
        cpu.data[pin + 2] = next;
        ports.writeOutput(index, next, cpu.cycles);
        return true;
      };
      cpu.writeHooks[pin + 1] = (value) => {
        this.syncAll();
        ports.writeDirection(index, value, cpu.cycles);
      };
      cpu.writeHooks[pin + 2] = (value) => {
        this.syncAll();
        ports.writeOutput(index, value, cpu.cycles);
        this.modulatedPortChanged();
      };
    });
  }

  /** PORT chooses between AND and OR while two units share a pin. */
  private modulatedPortChanged(): void {
    const pin = this.modulated();
    if (pin !== null) this.ports.drive(pin, true, this.unitLevel(pin), this.cpu.cycles);
  }

  private attachTimer(timer: Timer): void {
    const { cpu } = this;
    const { map } = timer;
    const write = (address: number, action: (value: number, mask: number) => void): void => {
      cpu.writeHooks[address] = (value, _old, _address, mask) => {
        this.syncAll();
        if (timer.powered) action(value, mask);
        this.plan();
        return true;
      };
    };
    const read = (address: number, action: () => number): void => {
      cpu.readHooks[address] = () => {
        this.syncAll();
        return action();
      };
    };
    write(map.tccrA, (value) => timer.writeControlA(value));
    read(map.tccrA, () => timer.tccrA);
    write(map.tccrB, (value) => timer.writeControlB(value, cpu.cycles));
    read(map.tccrB, () => timer.tccrB);
    if (map.tccrC !== undefined) {
      write(map.tccrC, (value) => timer.forceCompare(value, cpu.cycles));
      read(map.tccrC, () => 0);
    }
    write(map.timsk, (value) => timer.writeMask(value));
    read(map.timsk, () => timer.timsk);
    write(map.tifr, (value, mask) => timer.writeFlags(value & mask));
    read(map.tifr, () => timer.tifr);
    const acknowledge = (vector: number, flag: number): void => {
      this.onTaken(vector, () => {
        timer.tifr &= ~flag;
      });
    };
    acknowledge(map.overflowVector, 1);
    map.channels.forEach((channel, index) => {
      acknowledge(channel.vector, 2 << index);
    });
    if (map.captureVector !== undefined) acknowledge(map.captureVector, 0x20);
    if (map.bits === 8) {
      write(map.tcnt, (value) => timer.writeCount(value));
      read(map.tcnt, () => timer.count);
      map.channels.forEach(({ ocr }, index) => {
        write(ocr, (value) => timer.writeCompare(index, value));
        read(ocr, () => timer.channels[index]!.buffer);
      });
      return;
    }
    const wide = (address: number, set: (value: number) => void): void => {
      write(address + 1, (value) => timer.writeHigh(value));
      write(address, (value) => set(timer.withTemp(value)));
    };
    wide(map.tcnt, (value) => timer.writeCount(value));
    read(map.tcnt, () => timer.readLowOf(timer.count));
    read(map.tcnt + 1, () => timer.readHigh());
    wide(map.icr!, (value) => timer.writeCapture(value));
    read(map.icr!, () => timer.readLowOf(timer.icr));
    read(map.icr! + 1, () => timer.readHigh());
    map.channels.forEach(({ ocr }, index) => {
      wide(ocr, (value) => timer.writeCompare(index, value));
      // Reading OCRnx does not go through the temporary register (section 16.3).
      read(ocr, () => timer.channels[index]!.buffer & 0xff);
      read(ocr + 1, () => timer.channels[index]!.buffer >> 8);
    });
  }
}
