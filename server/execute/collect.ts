/** What an execution leaves behind besides its settled states: writes and calls, each with the timers' states around it. */
import type { Regime } from "../../shared-model/signal.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import { Bucket } from "./bucket.js";
import * as number from "./domain/number.js";
import { type Loss, readByte } from "./hardware/access.js";
import type { Layout, TimerSlot } from "./hardware/layout.js";
import { BYTE, type Machine, WORD } from "./hardware/machine.js";
import { eitherReach, type Reach } from "./reach.js";
import type { RegisterWriteContext } from "./register-writes.js";
import type { Run, Where } from "./run.js";
import { snapshotOf } from "./snapshot.js";
import type { Condition, State } from "./state.js";
import type { Value } from "./value.js";
import { Watches } from "./watches.js";

const MAX_EFFECTS = 4;

export interface EffectRecord {
  readonly regime: Regime;
  readonly before: TimerSnapshot;
  readonly after: TimerSnapshot;
  readonly conditions: Condition | null;
}

export interface WriteRecord {
  readonly address: number;
  readonly word: boolean;
  readonly context: RegisterWriteContext;
  readonly where: Where;
  readonly beforeInit: boolean;
  readonly timer: TimerSlot | null;
  before: number.AbstractInteger;
  after: number.AbstractInteger;
  asked: number.AbstractInteger;
  /** What it can write at all, where that is known value by value. */
  reach: Reach | null;
  readonly effects: EffectRecord[];
  readonly losses: Loss[];
  times: number;
  readonly regimes: Set<Regime>;
}

export interface CallRecord {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  readonly where: Where;
  readonly written: readonly number[];
  readonly values: (Value | undefined)[];
  readonly argumentTypes: readonly unknown[];
  readonly pins: Set<number>;
  readonly timers: Set<number>;
  readonly effects: EffectRecord[];
  readonly regimes: Set<Regime>;
}

/** Registers whose writes are worth listing. */
function isOfInterest(layout: Layout, address: number): boolean {
  const role = layout.roles[address];
  if (role === undefined) return false;
  if (role.kind !== "plain") return true;
  const name = layout.registers[address]?.name ?? "";
  return /^(?:TIMSK|TIFR|PRR|GTCCR|ASSR|SREG)/.test(name);
}

/** Executions of a write of which every value is listed; of more, bounds must do. */
const MOST_REACHES = 32;

export class Collector {
  bucket: Bucket;
  regime: Regime = "setup";
  readonly writes = new Map<string, WriteRecord>();
  readonly calls = new Map<string, CallRecord>();
  /** When each place in the text last wrote: a count of writes. */
  readonly lastWrite = new Map<number, number>();
  private writesSoFar = 0;
  /** Nothing is put on record but settled states: what is executed has been executed before. */
  muted = false;

  constructor(
    readonly layout: Layout,
    readonly watches: Watches = new Watches([], layout),
  ) {
    this.bucket = new Bucket(layout);
  }

  settle(state: State, place: number, standing: readonly TimerSlot[] = this.layout.timers): void {
    this.bucket.settle(state, place, standing);
    if (!this.muted && !this.watches.isEmpty) this.watches.settle(this.regime, state, place, standing);
  }

  /** Opens the record of a write; `end` closes it with the value given. Null where nothing is kept. */
  beginWrite(
    run: Run,
    state: State,
    address: number,
    wholeWord: boolean,
    context: RegisterWriteContext,
  ): { lost(loss: Loss): void; end(given: number.AbstractInteger, reach: () => Reach | null): void } | null {
    const { layout } = this;
    if (this.muted || context.start < 0 || !isOfInterest(layout, address)) return null;
    this.lastWrite.set(context.start, ++this.writesSoFar);
    const role = layout.roles[address]!;
    const timer = "timer" in role ? role.timer : timerOfMask(layout, address);
    const word = layout.wide[address]! && wholeWord;
    const isHalf = role.kind === "high" || (layout.wide[address]! && !wholeWord);
    const key = `${context.start}:${context.end}:${address}:${context.operator}`;
    const present = this.writes.get(key);
    const content = (): number.AbstractInteger =>
      isHalf ? halfOf(state.machine, address) : state.machine.raw(address);
    const before = content();
    const wantsEffect = timer !== null && (present === undefined || present.effects.length < MAX_EFFECTS);
    const snapshot = wantsEffect && timer !== null ? snapshotOf(state.machine, timer) : null;
    const version = timer === null ? 0 : state.machine.versionOf(timer.index);
    const losses: Loss[] = [];
    const { conditions } = state;
    return {
      lost: (loss) => losses.push(loss),
      end: (given, reach) => {
        const after = content();
        const asked = askedOf(context, given, word);
        let record = present;
        if (record === undefined) {
          record = {
            address,
            word,
            context,
            where: run.where,
            beforeInit: run.beforeInit,
            timer,
            before,
            after,
            asked,
            reach: reach(),
            effects: [],
            losses: [],
            times: 0,
            regimes: new Set(),
          };
          this.writes.set(key, record);
        } else {
          record.before = number.join(record.before, before);
          record.after = number.join(record.after, after);
          record.asked = number.join(record.asked, asked);
          if (record.reach !== null)
            record.reach = record.times < MOST_REACHES ? eitherReach(record.reach, reach()) : null;
        }
        record.times++;
        record.regimes.add(this.regime);
        for (const loss of losses) if (record.losses.length < MAX_EFFECTS) record.losses.push(loss);
        if (
          snapshot !== null &&
          timer !== null &&
          (record.effects.length === 0 || state.machine.versionOf(timer.index) !== version)
        ) {
          record.effects.push({
            regime: this.regime,
            before: snapshot,
            after: snapshotOf(state.machine, timer),
            conditions,
          });
        }
      },
    };
  }

  /** Opens the record of a call; the answer adds an effect on a timer. */
  call(
    run: Run,
    name: string,
    start: number,
    end: number,
    written: readonly number[],
    values: readonly Value[],
  ): CallRecord {
    const key = `${start}:${name}`;
    let record = this.calls.get(key);
    if (record === undefined) {
      record = {
        name,
        start,
        end,
        where: run.where,
        written,
        values: [...values],
        argumentTypes: [],
        pins: new Set(),
        timers: new Set(),
        effects: [],
        regimes: new Set(),
      };
      this.calls.set(key, record);
    } else {
      for (const [index, value] of values.entries()) {
        const present = record.values[index];
        if (present !== undefined && "zeros" in present && "zeros" in value)
          record.values[index] = number.join(present, value);
      }
    }
    if (!this.muted) record.regimes.add(this.regime);
    return record;
  }

  /** The core's init has changed what these places had written. */
  wiped(address: number, sites: readonly number[], after: number.AbstractInteger): void {
    for (const record of this.writes.values()) {
      if (record.address === address && sites.includes(record.context.start))
        record.losses.push({ kind: "wiped", after });
    }
  }

  effect(record: CallRecord, before: TimerSnapshot, after: TimerSnapshot, conditions: Condition | null): void {
    if (record.effects.length < MAX_EFFECTS && !this.muted)
      record.effects.push({ regime: this.regime, before, after, conditions });
  }
}

/** What the CPU would read back from one half of a 16-bit register (the waiting byte, for a high half). */
function halfOf(machine: Machine, address: number): number.AbstractInteger {
  const role = machine.layout.roles[address];
  if (role?.kind === "high" && role.timer !== null) return machine.tempOf(role.timer.index);
  return readByte(machine, address);
}

function askedOf(context: RegisterWriteContext, given: number.AbstractInteger, word: boolean): number.AbstractInteger {
  if (context.asked === null) return given;
  const { value, type } = context.asked;
  const width = word ? WORD : BYTE;
  return type.bits < width.bits ? number.convert(value, type, width) : value;
}

function timerOfMask(layout: Layout, address: number): TimerSlot | null {
  const name = layout.registers[address]?.name;
  return layout.timers.find((timer) => timer.fact.interruptMask === name || timer.fact.flags === name) ?? null;
}
