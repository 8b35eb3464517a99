/** The settled states of one stretch of a program's life: timers, ports, tones and servos. Law: what was put in is described by what comes out. */
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import { CutPeriods } from "./cut-periods.js";
import type * as number from "./domain/number.js";
import type { Layout, TimerSlot } from "./hardware/layout.js";
import type { Machine } from "./hardware/machine.js";
import { modesOf } from "./hardware/modes.js";
import { PulseRecords } from "./pulses/pulse-records.js";
import { RestingPins } from "./resting-pins.js";
import { joinSnapshots, snapshotKey, snapshotOf } from "./snapshot.js";
import { type Condition, commonConditions, type State } from "./state.js";

const MAX_STATES_PER_TIMER = 64;
const MAX_PLACES = 6;

export interface TimerRecord {
  snapshot: TimerSnapshot;
  conditions: Condition | null;
  /** Starts of the writes that made it, by part: `mode` (mode and clock), a compare or capture register, a unit's connection. */
  readonly writers: Map<string, Set<number>>;
  readonly places: Set<number>;
}

/** Bits of one port that are switched. */
export interface Switching {
  low: number;
  high: number;
  /** By the main program. */
  byMain: number;
  byInterrupt: number;
  /** By analogWrite for a duty of 0 or full: no switching by itself, but half of one where the program does the other half. */
  lowByDuty: number;
  highByDuty: number;
  /** By each interrupt routine, by its name. */
  readonly routines: Map<string, number>;
}

/** The settled states of one stretch of the program's life. */
export class Bucket {
  readonly timers: Map<string, TimerRecord>[];
  readonly ports = new Map<
    number,
    Map<
      string,
      {
        direction: number.AbstractInteger;
        output: number.AbstractInteger;
        conditions: Condition | null;
        readonly writers: Set<number>[];
      }
    >
  >();
  /** Port bits that were written, by address of PORT. */
  readonly switched = new Map<number, Switching>();
  /** Interrupts are held off by the sketch's own words somewhere. */
  masksInterrupts = false;
  /** The longest that an interrupt routine may be late, in CPU cycles. */
  lateness = 0;
  /** Pulses that software makes of these pins, as far as they were timed. */
  readonly pulses = new PulseRecords();
  /** Pins on which tone() may be playing, with its timer's state; by pin and state. */
  readonly tones = new Map<
    string,
    { readonly pin: number | null; readonly snapshot: TimerSnapshot; readonly writers: readonly number[] }
  >();
  /** Pins given to the Servo library. */
  readonly servos = new Set<number | null>();
  /** Timers whose counter is set anew while it counts. */
  readonly cut = new CutPeriods();
  /** Pins that stay as they are while their timer does not. */
  readonly rests = new RestingPins();
  private readonly seen: Set<number>[];
  private readonly seenPorts = new Set<number>();

  constructor(readonly layout: Layout) {
    this.timers = layout.timers.map(() => new Map());
    this.seen = layout.timers.map(() => new Set());
  }

  /** `standing`: the timers that have been as they are for long enough. */
  settle(state: State, place: number, standing: readonly TimerSlot[]): void {
    const { machine } = state;
    for (const timer of standing) {
      const version = machine.versionOf(timer.index);
      if (this.seen[timer.index]!.has(version)) continue;
      this.seen[timer.index]!.add(version);
      this.addTimer(machine, timer, state.madeUnder(timer.index), place);
    }
    const general = machine.generalVersion();
    if (this.seenPorts.has(general)) return;
    this.seenPorts.add(general);
    this.settlePorts(machine, state.conditions);
    this.settleLibraries(state);
  }

  private settleLibraries(state: State): void {
    const { tonePin, servoPins } = state.core;
    for (const pin of servoPins) this.servos.add(pin);
    if (tonePin === -1) return;
    const timer = this.layout.timers.find((candidate) => candidate.fact.number === 2);
    if (timer === undefined) return;
    const key = `${tonePin}/${state.machine.versionOf(timer.index)}`;
    if (this.tones.has(key) || this.tones.size >= MAX_STATES_PER_TIMER) return;
    this.tones.set(key, {
      pin: tonePin,
      snapshot: snapshotOf(state.machine, timer),
      writers: state.machine.writersOf(timer.channels[0]!.compare),
    });
  }

  private addTimer(machine: Machine, timer: TimerSlot, conditions: Condition | null, place: number): void {
    const snapshot = snapshotOf(machine, timer);
    const writers = new Map<string, Set<number>>();
    const note = (part: string, sites: readonly number[]): void => {
      if (sites.length > 0) writers.set(part, new Set(sites));
    };
    let outputs = 0;
    for (const channel of timer.channels) if (channel.comAddress === timer.control[0]) outputs |= 3 << channel.comShift;
    note("mode", [
      ...machine.writersOfBits(timer.control[0]!, 0xff & ~outputs),
      ...machine.writersOfBits(timer.control[1]!, 0xff),
    ]);
    for (const channel of timer.channels) {
      note(channel.fact.compare, machine.writersOf(channel.compare));
      const bit = 1 << channel.bit;
      note(channel.fact.unit, [
        ...machine.writersOfBits(channel.comAddress, 3 << channel.comShift),
        ...machine.writersOfBits(channel.direction, bit),
        ...machine.writersOfBits(channel.output, bit),
      ]);
    }
    if (timer.fact.capture !== undefined) note(timer.fact.capture, machine.writersOf(timer.capture));
    this.put(timer, { snapshot, conditions, writers, places: new Set([place]) }, topsOf(machine, timer));
  }

  private put(timer: TimerSlot, record: TimerRecord, tops: readonly string[]): void {
    const records = this.timers[timer.index]!;
    const key = snapshotKey(record.snapshot, timer, tops);
    let present = records.get(key);
    if (present === undefined && records.size >= MAX_STATES_PER_TIMER) present = records.values().next().value;
    if (present === undefined) {
      records.set(key, record);
      return;
    }
    mergeRecord(present, record);
  }

  private settlePorts(machine: Machine, conditions: Condition | null): void {
    for (const port of this.layout.chip.ports) {
      const directionAt = this.layout.address(port.direction);
      const outputAt = this.layout.address(port.output);
      const direction = machine.raw(directionAt);
      const output = machine.raw(outputAt);
      let records = this.ports.get(outputAt);
      if (records === undefined) {
        records = new Map();
        this.ports.set(outputAt, records);
      }
      const key = `${direction.zeros}/${direction.ones}/${output.zeros}/${output.ones}`;
      const present = records.get(key);
      if (present === undefined)
        records.set(key, { direction, output, conditions, writers: bitSites(machine, directionAt, outputAt) });
      else {
        present.conditions = commonConditions(present.conditions, conditions);
        mergeSites(present.writers, bitSites(machine, directionAt, outputAt));
      }
    }
  }

  /** `written`: the bits that the write does not leave as they are, whatever they are. */
  noteSwitch(
    address: number,
    written: number,
    before: number.AbstractInteger,
    after: number.AbstractInteger,
    routine: string | null,
    byDuty: boolean,
  ): void {
    const bits = written & ~((before.ones & after.ones) | (before.zeros & after.zeros));
    const entry = this.switching(address);
    if (byDuty) {
      entry.lowByDuty |= bits & ~after.ones;
      entry.highByDuty |= bits & ~after.zeros;
      return;
    }
    entry.low |= bits & ~after.ones;
    entry.high |= bits & ~after.zeros;
    if (routine === null) entry.byMain |= bits;
    else {
      entry.byInterrupt |= bits;
      entry.routines.set(routine, (entry.routines.get(routine) ?? 0) | bits);
    }
  }

  private switching(address: number): Switching {
    let entry = this.switched.get(address);
    if (entry === undefined) {
      entry = { low: 0, high: 0, byMain: 0, byInterrupt: 0, lowByDuty: 0, highByDuty: 0, routines: new Map() };
      this.switched.set(address, entry);
    }
    return entry;
  }

  /** Takes in another stretch. */
  add(other: Bucket): void {
    for (const timer of this.layout.timers) {
      for (const [key, record] of other.timers[timer.index]!) {
        const records = this.timers[timer.index]!;
        let present = records.get(key);
        if (present === undefined && records.size >= MAX_STATES_PER_TIMER) present = records.values().next().value;
        if (present === undefined) records.set(key, copyRecord(record));
        else mergeRecord(present, record);
      }
    }
    for (const [address, records] of other.ports) {
      const own = this.ports.get(address) ?? new Map();
      for (const [key, record] of records) {
        const present = own.get(key);
        if (present === undefined) own.set(key, { ...record, writers: record.writers.map((sites) => new Set(sites)) });
        else mergeSites(present.writers, record.writers);
      }
      this.ports.set(address, own);
    }
    for (const [key, tone] of other.tones) this.tones.set(key, tone);
    for (const pin of other.servos) this.servos.add(pin);
    this.masksInterrupts ||= other.masksInterrupts;
    this.lateness = Math.max(this.lateness, other.lateness);
    this.cut.add(other.cut);
    this.pulses.add(other.pulses);
    this.rests.add(other.rests);
    for (const [address, entry] of other.switched) {
      const own = this.switching(address);
      own.low |= entry.low;
      own.high |= entry.high;
      own.lowByDuty |= entry.lowByDuty;
      own.highByDuty |= entry.highByDuty;
      own.byMain |= entry.byMain;
      own.byInterrupt |= entry.byInterrupt;
      for (const [routine, bits] of entry.routines) own.routines.set(routine, (own.routines.get(routine) ?? 0) | bits);
    }
  }
}

/** Writers of direction and level, pin by pin. */
function bitSites(machine: Machine, direction: number, output: number): Set<number>[] {
  return Array.from({ length: 8 }, (_, bit) => {
    const mask = 1 << bit;
    return new Set([...machine.writersOfBits(direction, mask), ...machine.writersOfBits(output, mask)]);
  });
}

function mergeSites(into: readonly Set<number>[], other: readonly Set<number>[]): void {
  for (const [bit, sites] of other.entries()) for (const site of sites) into[bit]!.add(site);
}

function copyRecord(record: TimerRecord): TimerRecord {
  const writers = new Map([...record.writers].map(([address, sites]) => [address, new Set(sites)] as const));
  return { ...record, writers, places: new Set(record.places) };
}

function mergeRecord(into: TimerRecord, other: TimerRecord): void {
  into.snapshot = joinSnapshots(into.snapshot, other.snapshot);
  into.conditions = commonConditions(into.conditions, other.conditions);
  for (const [address, sites] of other.writers) {
    const own = into.writers.get(address);
    if (own === undefined) into.writers.set(address, new Set(sites));
    else for (const site of sites) if (own.size < MAX_PLACES * 2) own.add(site);
  }
  for (const place of other.places) if (into.places.size < MAX_PLACES) into.places.add(place);
}

/** Registers that may hold TOP in the modes the timer may be in. */
function topsOf(machine: Machine, timer: TimerSlot): readonly string[] {
  const tops = new Set<string>();
  for (const mode of modesOf(machine, timer) ?? timer.fact.modes) {
    if (mode.top.kind === "compareA") tops.add(timer.fact.channels[0]!.compare);
    if (mode.top.kind === "capture" && timer.fact.capture !== undefined) tops.add(timer.fact.capture);
  }
  return [...tops];
}
