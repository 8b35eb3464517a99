/** Pins that no unit drives while their timer's registers change. Law: what a pin may put out without its timer, while the timer itself never stands, is on record. */
import type * as number from "./domain/number.js";
import { bitOf } from "./hardware/alternatives.js";
import type { ChannelSlot, TimerSlot } from "./hardware/layout.js";
import type { Machine } from "./hardware/machine.js";
import { type Condition, commonConditions, type State } from "./state.js";

export type Rest = "not driven" | "low" | "high";

interface RestRecord {
  conditions: Condition | null;
  readonly writers: Set<number>;
}

export class RestingPins {
  /** By port (`PB1`). */
  private readonly pins = new Map<string, Map<Rest, RestRecord>>();

  settle(state: State, timers: readonly TimerSlot[]): void {
    for (const timer of timers) {
      for (const channel of timer.channels) {
        for (const rest of restsOf(state.machine, channel)) this.put(state, channel, rest);
      }
    }
  }

  of(
    port: string,
  ): ReadonlyMap<Rest, { readonly conditions: Condition | null; readonly writers: ReadonlySet<number> }> {
    return this.pins.get(port) ?? NONE;
  }

  /** Takes in another stretch. */
  add(other: RestingPins): void {
    for (const [port, rests] of other.pins) {
      for (const [rest, record] of rests) this.merge(port, rest, record.conditions, record.writers);
    }
  }

  private put(state: State, channel: ChannelSlot, rest: Rest): void {
    const bit = 1 << channel.bit;
    const { machine } = state;
    const writers = [...machine.writersOfBits(channel.direction, bit), ...machine.writersOfBits(channel.output, bit)];
    this.merge(channel.fact.port, rest, state.conditions, writers);
  }

  private merge(port: string, rest: Rest, conditions: Condition | null, writers: Iterable<number>): void {
    const rests = this.pins.get(port) ?? new Map<Rest, RestRecord>();
    this.pins.set(port, rests);
    const present = rests.get(rest);
    if (present === undefined) {
      rests.set(rest, { conditions, writers: new Set(writers) });
      return;
    }
    present.conditions = commonConditions(present.conditions, conditions);
    for (const site of writers) present.writers.add(site);
  }
}

const NONE: ReadonlyMap<Rest, RestRecord> = new Map();

function restsOf(machine: Machine, channel: ChannelSlot): Rest[] {
  const driven = bitOf(machine.raw(channel.direction), channel.bit);
  const rests: Rest[] = driven === true ? [] : ["not driven"];
  if (driven === false || !mayBeDisconnected(machine.raw(channel.comAddress), channel.comShift)) return rests;
  const high = bitOf(machine.raw(channel.output), channel.bit);
  if (high !== true) rests.push("low");
  if (high !== false) rests.push("high");
  return rests;
}

function mayBeDisconnected(control: number.AbstractInteger, shift: number): boolean {
  return (control.ones & (3 << shift)) === 0;
}
