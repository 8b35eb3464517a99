/**
 * One timer/counter of the oracle's machine: counts lazily, from event to event, when its registers are touched or an
 * interrupt of its own is due. Written from the data sheet, not from any simulator; checked against closed-form.ts.
 */
import type { TimerMap } from "./chip-map.js";
import { type Action, MODES_8, MODES_16, type Mode, type OutputRule, outputRule, topValue } from "./timer-modes.js";

/** Behaviour of real parts that the data sheet leaves open or contradicts (see the project's list of traits). */
export interface PartsTraits {
  /** A 16-bit compare register written while a fixed-TOP PWM mode is on keeps only the bits of that TOP. */
  readonly maskedCompare: boolean;
  /** ICRn written outside the modes that use it as TOP. */
  readonly icrOutsideModes: "sticks" | "ignored";
  /** A buffered compare value not yet taken over is lost when the mode changes to an unbuffered one. */
  readonly bufferLostOnModeChange: boolean;
}

export const REAL_PARTS: PartsTraits = { maskedCompare: true, icrOutsideModes: "sticks", bufferLostOnModeChange: true };

export const BY_THE_SHEET: PartsTraits = {
  maskedCompare: false,
  icrOutsideModes: "ignored",
  bufferLostOnModeChange: false,
};

/** What a timer tells the machine; times are CPU cycles since reset. */
export interface TimerListener {
  /** A channel's output latch moved. */
  latch(timer: Timer, channel: number, level: 0 | 1, cycle: number): void;
  /** TIFR or TIMSK may have changed what is requested. */
  requests(timer: Timer): void;
  /** Registers or counter were changed by the program, so that the running waveform is no longer the old one. */
  disturbed(timer: Timer): void;
  /** Which outputs are connected may have changed. */
  reconnected(timer: Timer): void;
}

export interface Channel {
  readonly letter: string;
  /** What the CPU writes and reads back. */
  buffer: number;
  /** What the comparator works with. */
  working: number;
  com: number;
  rule: OutputRule;
  latch: 0 | 1;
}

const TOV = 1;
const ICF = 0x20;

export class Timer {
  readonly max: number;
  readonly channels: Channel[];
  /** Control registers as they read back. */
  tccrA = 0;
  tccrB = 0;
  icr = 0;
  count = 0;
  timsk = 0;
  tifr = 0;
  mode: Mode;
  top: number;
  /** 0 = stopped, -1 = external clock. */
  divisor = 0;
  powered = true;
  held = false;
  /** Clocked from its own crystal, which the boards do not carry: stands still. */
  asynchronous = false;
  /** How often the counter came back to BOTTOM since reset: the measure of how long a state has lasted. */
  wraps = 0;

  private down = false;
  private lastCycle = 0;
  private prescalerOrigin = 0;
  private temp = 0;
  private blocked = false;

  constructor(
    readonly map: TimerMap,
    private readonly traits: PartsTraits,
    private readonly listener: TimerListener,
  ) {
    this.max = map.bits === 8 ? 0xff : 0xffff;
    this.mode = MODES_8[0]!;
    this.top = this.max;
    const idle = outputRule(this.mode, "A", 0, map.bits);
    this.channels = map.channels.map(({ letter }) => ({ letter, buffer: 0, working: 0, com: 0, rule: idle, latch: 0 }));
  }

  /** CPU cycles from BOTTOM to BOTTOM; 0 while the timer stands still. */
  get periodCycles(): number {
    if (!this.running) return 0;
    return this.divisor * (this.mode.counting === "dual" ? 2 * Math.max(1, this.top) : this.top + 1);
  }

  get running(): boolean {
    return this.divisor > 0 && this.powered && !this.held && !this.asynchronous;
  }

  /** TCCRnA, TCCRnB, TCCRnC where there is one (reads 0), every OCRn, ICRn where there is one: as the CPU reads them. */
  readBack(): number[] {
    const values = [this.tccrA, this.tccrB];
    if (this.map.tccrC !== undefined) values.push(0);
    for (const channel of this.channels) values.push(channel.buffer);
    if (this.map.icr !== undefined) values.push(this.icr);
    return values;
  }

  // ---- time

  /** Brings the counter up to `cycle`. */
  sync(cycle: number): void {
    if (cycle <= this.lastCycle) return;
    if (this.running) {
      const before = Math.floor((this.lastCycle - this.prescalerOrigin) / this.divisor);
      const after = Math.floor((cycle - this.prescalerOrigin) / this.divisor);
      if (after > before) this.advance(after - before, before);
    }
    this.lastCycle = cycle;
  }

  /** The cycle at which something that can raise an enabled interrupt flag happens next; Infinity where nothing can. */
  nextWake(): number {
    if (this.timsk === 0 || !this.running) return Number.POSITIVE_INFINITY;
    const done = Math.floor((this.lastCycle - this.prescalerOrigin) / this.divisor);
    return this.prescalerOrigin + (done + this.ticksToEvent()) * this.divisor;
  }

  private advance(ticks: number, firstTick: number): void {
    let left = ticks;
    let tick = firstTick;
    while (left > 0) {
      const distance = this.ticksToEvent();
      if (distance > left) {
        this.count += this.down ? -left : left;
        this.blocked = false;
        return;
      }
      this.count += this.down ? -(distance - 1) : distance - 1;
      if (distance > 1) this.blocked = false;
      tick += distance;
      left -= distance;
      this.event(this.prescalerOrigin + tick * this.divisor);
    }
  }

  /** Timer ticks until the clock edge that ends a count at which something happens; at least 1. */
  private ticksToEvent(): number {
    const { count, top, max } = this;
    let distance: number;
    if (this.down) {
      distance = count;
      for (const channel of this.channels) {
        const gap = count - channel.working;
        if (gap >= 0 && gap < distance) distance = gap;
      }
      return distance + 1;
    }
    distance = (count <= top ? top : max) - count;
    for (const channel of this.channels) {
      const gap = channel.working - count;
      if (gap >= 0 && gap < distance) distance = gap;
    }
    return distance + 1;
  }

  /** The clock edge that ends the present count: flags and outputs by what the count was, then the next count. */
  private event(cycle: number): void {
    const { count, mode } = this;
    let flags = 0;
    const { counting } = mode;
    const atTop = count === this.top;
    if (counting === "dual" && atTop && !mode.updatesAtBottom) this.takeBuffers();
    if (counting === "dual" && count === 0 && mode.updatesAtBottom) this.takeBuffers();
    if (counting === "dual") {
      // TOP belongs to the way down, BOTTOM to the way up: a match there acts accordingly (15.7.4).
      if (count === 0) this.down = false;
      else if (atTop || count === this.max) this.down = true;
    }
    if (!this.blocked) {
      for (let index = 0; index < this.channels.length; index++) {
        const channel = this.channels[index]!;
        if (channel.working === count) {
          flags |= 2 << index;
          // On the edge that returns to BOTTOM, BOTTOM's action wins over the match (OCR = TOP is a constant level).
          const outdone = counting === "fast" && (atTop || count === this.max) && channel.rule.atBottom !== "none";
          if (counting !== "dual") this.act(index, outdone ? "none" : channel.rule.matchUp, cycle);
          else this.act(index, this.down ? channel.rule.matchDown : channel.rule.matchUp, cycle);
        }
      }
    }
    if (mode.top === "icr" && count === this.icr) flags |= ICF;
    if (counting === "dual") {
      if (atTop) {
        // Symmetry at TOP: whatever lies below TOP must have the level that an up-counting match gives.
        for (let index = 0; index < this.channels.length; index++) {
          const channel = this.channels[index]!;
          if (channel.working < count && channel.rule.matchUp !== "toggle") {
            this.act(index, channel.rule.matchUp, cycle);
          }
        }
      }
      if (count === 0) {
        flags |= TOV;
        this.wraps++;
      }
      if (this.top > 0 || count > 0) this.count += this.down ? -1 : 1;
    } else if ((atTop && !(counting === "up" && this.blocked && mode.top === "ocra")) || count === this.max) {
      this.count = 0;
      this.wraps++;
      if (counting === "fast" || count === this.max) flags |= TOV;
      if (counting === "fast") {
        for (let index = 0; index < this.channels.length; index++) {
          this.act(index, this.channels[index]!.rule.atBottom, cycle);
        }
        this.takeBuffers();
      }
    } else {
      this.count++;
    }
    this.blocked = false;
    if ((flags & ~this.tifr) !== 0) {
      this.tifr |= flags;
      if ((flags & this.timsk) !== 0) this.listener.requests(this);
    }
  }

  private act(index: number, action: Action, cycle: number): void {
    if (action === "none") return;
    const channel = this.channels[index]!;
    const level = action === "toggle" ? (channel.latch === 1 ? 0 : 1) : action === "set" ? 1 : 0;
    if (level === channel.latch) return;
    channel.latch = level;
    this.listener.latch(this, index, level, cycle);
  }

  private takeBuffers(): void {
    for (const channel of this.channels) channel.working = channel.buffer;
    this.refreshTop();
  }

  private refreshTop(): void {
    this.top = topValue(this.mode.top, this.channels[0]!.working, this.icr, this.max);
  }

  // ---- registers (the machine has already synced this timer)

  writeControlA(value: number): void {
    const kept = value & (this.channels.length === 3 ? 0xff : 0xf3);
    if (kept === this.tccrA) return;
    this.tccrA = kept;
    this.remode();
  }

  writeControlB(value: number, cycle: number): void {
    const kept = value & (this.map.bits === 8 ? 0x0f : 0xdf);
    if (kept !== this.tccrB) {
      this.tccrB = kept;
      this.remode();
    }
    if (this.map.bits === 8) this.forceCompare(value, cycle);
  }

  /** FOCnA is bit 7, FOCnB bit 6, FOCnC bit 5: acts at once in the modes that are not PWM, sets no flag. */
  forceCompare(value: number, cycle: number): void {
    if (this.mode.counting !== "up") return;
    for (let index = 0; index < this.channels.length; index++) {
      if ((value & (0x80 >> index)) !== 0) {
        this.listener.disturbed(this);
        this.act(index, this.channels[index]!.rule.matchUp, cycle);
      }
    }
  }

  private remode(): void {
    const select =
      this.map.bits === 8 ? (this.tccrA & 3) | ((this.tccrB >> 1) & 4) : (this.tccrA & 3) | ((this.tccrB >> 1) & 0xc);
    const before = this.mode;
    this.mode = (this.map.bits === 8 ? MODES_8 : MODES_16)[select]!;
    this.divisor = this.map.divisors[this.tccrB & 7]!;
    if (before.counting !== "up" && this.mode.counting === "up") {
      for (const channel of this.channels) {
        if (this.traits.bufferLostOnModeChange) channel.buffer = channel.working;
        else channel.working = channel.buffer;
      }
    }
    if (this.mode.counting !== "dual") this.down = false;
    this.refreshTop();
    for (let index = 0; index < this.channels.length; index++) {
      const channel = this.channels[index]!;
      channel.com = (this.tccrA >> this.map.channels[index]!.comShift) & 3;
      channel.rule = outputRule(this.mode, channel.letter, channel.com, this.map.bits);
    }
    this.listener.disturbed(this);
    this.listener.reconnected(this);
    this.listener.requests(this);
  }

  writeCompare(index: number, value: number): void {
    const channel = this.channels[index]!;
    let kept = value;
    if (this.map.bits === 16 && this.traits.maskedCompare && this.mode.top.startsWith("0x")) {
      kept &= Number(this.mode.top);
    }
    const changed = kept !== channel.buffer || kept !== channel.working;
    channel.buffer = kept;
    if (this.mode.counting === "up") {
      channel.working = kept;
      this.refreshTop();
    }
    if (changed) this.listener.disturbed(this);
    this.listener.requests(this);
  }

  writeCapture(value: number): void {
    if (this.traits.icrOutsideModes === "ignored" && this.mode.top !== "icr") return;
    const changed = value !== this.icr;
    this.icr = value;
    this.refreshTop();
    if (changed) this.listener.disturbed(this);
    this.listener.requests(this);
  }

  writeCount(value: number): void {
    this.count = value;
    this.blocked = true;
    if (this.mode.counting === "dual") {
      if (value >= this.top && value > 0) this.down = true;
      else if (value === 0) this.down = false;
    }
    this.listener.disturbed(this);
    this.listener.requests(this);
  }

  writeFlags(value: number): void {
    this.tifr &= ~value;
    this.listener.requests(this);
  }

  writeMask(value: number): void {
    this.timsk = value & (this.map.bits === 8 ? 0x07 : this.channels.length === 3 ? 0x2f : 0x27);
    this.listener.requests(this);
  }

  /** Restarts the prescaler's count at `cycle`. */
  resetPrescaler(cycle: number): void {
    this.prescalerOrigin = cycle;
    this.listener.requests(this);
  }

  // ---- 16-bit access through the shared temporary register (section 16.3)

  writeHigh(value: number): void {
    this.temp = value;
  }

  withTemp(low: number): number {
    return (this.temp << 8) | low;
  }

  readLowOf(value: number): number {
    this.temp = value >> 8;
    return value & 0xff;
  }

  readHigh(): number {
    return this.temp;
  }
}
