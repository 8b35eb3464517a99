/**
 * The chip's registers as one path of the program has left them. Law: for every real run along this path the content of
 * each register is one of the values kept here, and the real connection of each output is one of its alternatives.
 */
import * as number from "../domain/number.js";
import { Pages } from "../pages.js";
import { type Combine, type Connection, joinAlternatives, sameAlternatives } from "./alternatives.js";
import type { Layout, TimerSlot } from "./layout.js";
import { modesOf } from "./modes.js";

export const BYTE: number.IntegerType = { bits: 8, signed: false };
export const WORD: number.IntegerType = { bits: 16, signed: false };

const MAX_WRITERS = 8;
let lastVersion = 0;

/** Numbers that tell states apart: equal numbers mean equal content. */
function freshVersion(): number {
  return ++lastVersion;
}

export class Machine {
  /** By address; 16-bit timer registers whole at their low address. */
  private readonly io: Pages<number.AbstractInteger>;
  /** Compare values at work, by channel; differs from `io` while a buffered value waits. */
  private working: number.AbstractInteger[];
  /**
   * What the compare units may really hold. `working` is what they hold once a buffered value has had its time to
   * arrive, which is what signals are claimed for; a change of mode before that finds what is here.
   */
  private held: number.AbstractInteger[];
  /** How far each timer's counter may stand at most, where that may be beyond its present TOP; by timer. */
  private reach: readonly number[];
  /** Ways in which an output may be connected, where they are known better than bit by bit. */
  private split: (readonly Connection[] | null)[];
  /** Places in the text that last wrote each register. */
  private readonly writers: Pages<readonly number[]>;
  /** The same for control and port registers bit by bit: eight per register, in the layout's `bitwise` order. */
  private readonly bitWriters: Pages<readonly number[]>;
  /** The byte that waits for the other half of a 16-bit access, by timer. */
  private temp: number.AbstractInteger[];
  /** Equal numbers mean equal registers and pins of that timer. */
  private versions: number[];
  /** The path's count of cycles when each timer's registers or pins last changed; by timer. */
  private stamps: readonly number[];
  /** The path's count of cycles, as the last write knew it. */
  private cycles = 0;
  private general: number;
  /** The version that `sum` was worked out for. */
  private printed = 0;
  private sum = 0;
  private shared = false;

  private constructor(
    readonly layout: Layout,
    from: Machine | null,
  ) {
    if (from === null) {
      this.io = Pages.of(
        layout.registers.map((register, at) =>
          layout.wide[at] ? number.constant(0, WORD) : number.constant(register?.reset ?? 0, BYTE),
        ),
      );
      this.working = layout.channels.map((channel) =>
        number.constant(0, layout.timers[channel.timer]!.wide ? WORD : BYTE),
      );
      this.held = this.working.slice();
      this.reach = layout.timers.map(() => 0);
      this.split = layout.channels.map(() => null);
      this.writers = Pages.of(new Array(layout.size).fill(NOBODY));
      this.bitWriters = Pages.of(new Array(layout.bitwiseCount * 8).fill(NOBODY));
      this.temp = layout.timers.map(() => number.constant(0, BYTE));
      this.versions = layout.timers.map(freshVersion);
      this.stamps = NEVER;
      this.general = freshVersion();
    } else {
      this.io = from.io.copy();
      this.working = from.working;
      this.held = from.held;
      this.reach = from.reach;
      this.split = from.split;
      this.writers = from.writers.copy();
      this.bitWriters = from.bitWriters.copy();
      this.temp = from.temp;
      this.versions = from.versions;
      this.stamps = from.stamps;
      this.cycles = from.cycles;
      this.general = from.general;
      this.shared = true;
    }
  }

  /** The chip just after reset. */
  static atReset(layout: Layout): Machine {
    return new Machine(layout, null);
  }

  /** A copy that shares its content until one of the two changes. */
  fork(): Machine {
    this.shared = true;
    return new Machine(this.layout, this);
  }

  private own(): void {
    if (!this.shared) return;
    this.working = this.working.slice();
    this.held = this.held.slice();
    this.split = this.split.slice();
    this.temp = this.temp.slice();
    this.versions = this.versions.slice();
    this.shared = false;
  }

  raw(address: number): number.AbstractInteger {
    return this.io.get(address)!;
  }

  workingOf(channel: number): number.AbstractInteger {
    return this.working[channel]!;
  }

  heldBy(channel: number): number.AbstractInteger {
    return this.held[channel]!;
  }

  reachOf(timer: number): number {
    return this.reach[timer]!;
  }

  setReach(timer: number, value: number): void {
    if (this.reach[timer] !== value)
      this.reach = this.reach.map((present, index) => (index === timer ? value : present));
  }

  splitOf(channel: number): readonly Connection[] | null {
    return this.split[channel]!;
  }

  writersOf(address: number): readonly number[] {
    return this.writers.get(address) ?? NOBODY;
  }

  tempOf(timer: number): number.AbstractInteger {
    return this.temp[timer]!;
  }

  versionOf(timer: number): number {
    return this.versions[timer]!;
  }

  generalVersion(): number {
    return this.general;
  }

  /** Tells how many cycles the path may have taken since its last settled point. */
  at(cycles: number): void {
    this.cycles = cycles;
  }

  /** The path's count of cycles starts from 0. */
  startCount(): void {
    this.stamps = NEVER;
    this.cycles = 0;
  }

  /** The path's count of cycles when the timer last changed; 0 where it has not since the count began. */
  changedAt(timer: number): number {
    return this.stamps[timer] ?? 0;
  }

  /** Writers of the bits in `mask` of a control or port register. */
  writersOfBits(address: number, mask: number): readonly number[] {
    const at = this.layout.bitwise[address]! * 8;
    if (at < 0) return this.writersOf(address);
    let found: readonly number[] = NOBODY;
    for (let bit = 0; bit < 8; bit++)
      if ((mask & (1 << bit)) !== 0) found = mergeWriters(found, this.bitWriters.get(at + bit)!);
    return found;
  }

  /** Stores without any of the hardware's manners; `site` is remembered as the writer of all bits but the preserved ones. */
  store(address: number, value: number.AbstractInteger, site: number, preserves = 0): void {
    const before = this.raw(address);
    const changed = !number.equal(before, value);
    if (changed) this.io.set(address, value);
    if (site >= 0) {
      const sites = [site];
      this.writers.set(address, sites);
      const at = this.layout.bitwise[address]! * 8;
      if (at >= 0)
        for (let bit = 0; bit < 8; bit++) if ((preserves & (1 << bit)) === 0) this.bitWriters.set(at + bit, sites);
    }
    if (changed) this.touch(address, ~((before.zeros & value.zeros) | (before.ones & value.ones)));
  }

  /** Stores one of several: what was there before stays possible. */
  storeWeakly(address: number, value: number.AbstractInteger, site: number): void {
    this.io.set(address, number.join(this.raw(address), value));
    if (site >= 0) this.writers.set(address, mergeWriters(this.writersOf(address), [site]));
    this.touch(address, 0xff);
  }

  /** `bits`: those of a port that may have changed. */
  private touch(address: number, bits: number): void {
    const role = this.layout.roles[address];
    if (role?.kind === "control" || role?.kind === "compare" || role?.kind === "capture")
      this.touchTimer(role.timer.index);
    const users = this.layout.timersOfPort.get(address);
    if (users !== undefined) {
      for (const user of users) if ((user.bits & bits) !== 0) this.touchTimer(user.timer);
    }
    if (role?.kind === "plain" || role?.kind === "clock divisor")
      for (const timer of this.layout.timers) this.touchIfGating(timer.index, address);
    this.general = freshVersion();
  }

  /** Power reduction, prescaler hold, asynchronous clock and the clock divisor belong to every timer's state. */
  private touchIfGating(timer: number, address: number): void {
    const fact = this.layout.timers[timer]!.fact;
    const { layout } = this;
    if (
      address === layout.address(fact.powerReduction.register) ||
      address === layout.address("GTCCR") ||
      address === layout.address("CLKPR") ||
      (fact.asynchronous !== undefined && address === layout.address(fact.asynchronous.register))
    ) {
      this.touchTimer(timer);
    }
  }

  private touchTimer(timer: number): void {
    this.own();
    this.versions[timer] = freshVersion();
    this.general = freshVersion();
    const { stamps, cycles } = this;
    if (this.changedAt(timer) !== cycles)
      this.stamps = this.versions.map((_, index) => (index === timer ? cycles : (stamps[index] ?? 0)));
  }

  setWorking(channel: number, value: number.AbstractInteger): void {
    if (number.equal(this.working[channel]!, value)) return;
    this.own();
    this.working[channel] = value;
    this.touchTimer(this.layout.channels[channel]!.timer);
  }

  setHeld(channel: number, value: number.AbstractInteger): void {
    if (number.equal(this.held[channel]!, value)) return;
    this.own();
    this.held[channel] = value;
    this.general = freshVersion();
  }

  setSplit(channel: number, alternatives: readonly Connection[] | null): void {
    if (this.split[channel] === alternatives) return;
    this.own();
    this.split[channel] = alternatives;
    this.touchTimer(this.layout.channels[channel]!.timer);
  }

  setTemp(timer: number, value: number.AbstractInteger): void {
    this.own();
    this.temp[timer] = value;
    this.general = freshVersion();
  }

  /** A number that equal machines share. */
  private print(): number {
    if (this.printed === this.general) return this.sum;
    let sum = 0;
    for (const at of this.layout.present) {
      const value = this.io.get(at)!;
      sum = (Math.imul(sum, 31) + value.min + Math.imul(value.max, 7) + Math.imul(value.ones, 13)) | 0;
    }
    this.printed = this.general;
    this.sum = sum;
    return sum;
  }

  equals(other: Machine): boolean {
    if (this.general === other.general && this.reach === other.reach) return true;
    if (this.print() !== other.print()) return false;
    if (this.reach.some((value, timer) => value !== other.reach[timer])) return false;
    if (!this.io.differences(other.io, (_, mine, others) => number.equal(mine!, others!))) return false;
    for (let at = 0; at < this.working.length; at++) {
      if (!number.equal(this.working[at]!, other.working[at]!)) return false;
      if (!number.equal(this.held[at]!, other.held[at]!)) return false;
      if (!sameAlternatives(this.split[at]!, other.split[at]!)) return false;
    }
    for (let at = 0; at < this.temp.length; at++) if (!number.equal(this.temp[at]!, other.temp[at]!)) return false;
    return true;
  }

  /**
   * True where timers run alike: same mode, clock and TOP, same interrupts and gates. How outputs are connected, their
   * levels and duties may differ: a merged state remembers those channel by channel.
   */
  runsLike(other: Machine): boolean {
    if (this.general === other.general) return true;
    const { layout } = this;
    return this.io.differences(other.io, (at, mine, others) => {
      const role = layout.roles[at]!;
      if (role.kind === "port" || role.kind === "pin" || layout.aside[at]) return true;
      if (role.kind === "compare") {
        const top = role.channel === role.timer.channels[0] && mayBeTop(this, role.timer);
        return !top || number.equal(mine!, others!);
      }
      const outputs = role.kind === "control" ? layout.outputBits[at]! : 0;
      return outputs !== 0 ? sameBits(mine!, others!, 0xff & ~outputs) : number.equal(mine!, others!);
    });
  }

  /** Takes in what `other` may be; `combine` joins or widens one register. */
  absorb(other: Machine, combine: Combine): void {
    if (this.reach !== other.reach) this.reach = this.reach.map((value, timer) => Math.max(value, other.reach[timer]!));
    if (this.stamps !== other.stamps)
      this.stamps = this.versions.map((_, timer) => Math.min(this.changedAt(timer), other.changedAt(timer)));
    if (this.general === other.general) {
      this.absorbWriters(other);
      return;
    }
    const { layout } = this;
    // Connections first: they are read from the registers as they are now.
    const splits = layout.channels.map((channel) => joinAlternatives(this, other, channel, combine));
    this.own();
    this.io.differences(other.io, (at, mine, others) => {
      this.io.set(at, combine(mine!, others!, layout.wide[at] ? WORD : BYTE));
      return true;
    });
    for (let at = 0; at < this.working.length; at++) {
      const wide = layout.timers[layout.channels[at]!.timer]!.wide;
      this.working[at] = combine(this.working[at]!, other.working[at]!, wide ? WORD : BYTE);
      this.held[at] = combine(this.held[at]!, other.held[at]!, wide ? WORD : BYTE);
      this.split[at] = splits[at]!;
    }
    for (let at = 0; at < this.temp.length; at++) this.temp[at] = combine(this.temp[at]!, other.temp[at]!, BYTE);
    this.absorbWriters(other);
    for (let timer = 0; timer < this.versions.length; timer++) {
      if (this.versions[timer] !== other.versions[timer]) this.versions[timer] = freshVersion();
    }
    this.general = freshVersion();
  }

  private absorbWriters(other: Machine): void {
    for (const [mine, others] of [
      [this.writers, other.writers],
      [this.bitWriters, other.bitWriters],
    ] as const) {
      mine.differences(others, (at, left, right) => {
        mine.set(at, mergeWriters(left!, right!));
        return true;
      });
    }
  }
}

/** Whether the first compare register may hold TOP now. */
function mayBeTop(machine: Machine, timer: TimerSlot): boolean {
  return modesOf(machine, timer)?.some((mode) => mode.top.kind === "compareA") ?? true;
}

function sameBits(a: number.AbstractInteger, b: number.AbstractInteger, mask: number): boolean {
  return (a.zeros & mask) === (b.zeros & mask) && (a.ones & mask) === (b.ones & mask);
}

const NOBODY: readonly number[] = [];
const NEVER: readonly number[] = [];

function mergeWriters(left: readonly number[], right: readonly number[]): readonly number[] {
  if (left === right || right.length === 0) return left;
  if (left.length === 0) return right;
  const merged = [...left];
  for (const site of right) if (!merged.includes(site) && merged.length < MAX_WRITERS) merged.push(site);
  return merged;
}
