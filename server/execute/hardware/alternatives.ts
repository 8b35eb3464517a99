/**
 * How one output may be connected. Register bits alone forget that "attached" goes with one duty and "detached" with
 * another level; a short list of alternatives remembers it. Dropping a list is always sound.
 */
import type { Known } from "../../../shared-model/register-value.js";
import type { ChannelAlternative } from "../../../shared-model/timer-snapshot.js";
import * as number from "../domain/number.js";
import type { ChannelSlot } from "./layout.js";
import { BYTE, type Machine, WORD } from "./machine.js";

const MAX_ALTERNATIVES = 8;

/** An alternative with the compare value that waits in its buffer (the same as `compare` where none waits). */
export interface Connection extends ChannelAlternative {
  readonly buffered: number.AbstractInteger;
}

/** Join or widening of one register. */
export type Combine = (
  before: number.AbstractInteger,
  after: number.AbstractInteger,
  type: number.IntegerType,
) => number.AbstractInteger;

/** The bit at `position`: true, false, or not known. */
export function bitOf(value: number.AbstractInteger, position: number): Known {
  const mask = 1 << position;
  if ((value.ones & mask) !== 0) return true;
  return (value.zeros & mask) !== 0 ? false : null;
}

/** The connection as the registers alone tell it. */
export function plainAlternative(machine: Machine, channel: ChannelSlot): Connection {
  const control = machine.raw(channel.comAddress);
  const com = number.and(
    number.shr(control, number.constant(channel.comShift, BYTE), BYTE),
    number.constant(3, BYTE),
    BYTE,
  );
  return {
    com,
    compare: machine.workingOf(channel.index),
    buffered: machine.raw(channel.compare),
    output: bitOf(machine.raw(channel.direction), channel.bit),
    high: bitOf(machine.raw(channel.output), channel.bit),
  };
}

export function alternativesOf(machine: Machine, channel: ChannelSlot): readonly Connection[] {
  return machine.splitOf(channel.index) ?? [plainAlternative(machine, channel)];
}

function sameAlternative(a: Connection, b: Connection): boolean {
  return (
    a === b || (sameConnection(a, b) && number.equal(a.compare, b.compare) && number.equal(a.buffered, b.buffered))
  );
}

function sameConnection(a: Connection, b: Connection): boolean {
  return a.output === b.output && a.high === b.high && number.equal(a.com, b.com);
}

export function sameAlternatives(a: readonly Connection[] | null, b: readonly Connection[] | null): boolean {
  if (a === b) return true;
  if (a === null || b === null || a.length !== b.length) return false;
  return a.every((entry, index) => sameAlternative(entry, b[index]!));
}

/** One list out of two: alike connections share an entry, their compare values joined. Null where it says nothing more than the bits do. */
export function mergeAlternatives(
  list: readonly Connection[],
  combine: Combine = number.join,
  type: number.IntegerType = WORD,
): readonly Connection[] | null {
  const merged: Connection[] = [];
  for (const entry of list) {
    const at = merged.findIndex((present) => sameConnection(present, entry));
    if (at < 0) merged.push(entry);
    else {
      const present = merged[at]!;
      merged[at] = {
        ...present,
        compare: combine(present.compare, entry.compare, type),
        buffered: combine(present.buffered, entry.buffered, type),
      };
    }
  }
  if (merged.length <= 1 || merged.length > MAX_ALTERNATIVES) return null;
  return merged.sort(order);
}

function order(a: Connection, b: Connection): number {
  return rank(a) - rank(b) || a.compare.min - b.compare.min;
}

function rank(a: Connection): number {
  const known = (value: Known): number => (value === null ? 2 : value ? 1 : 0);
  return a.com.min * 100 + a.com.max * 27 + known(a.output) * 3 + known(a.high);
}

/** What both machines allow for a channel; null where the joined bits say the same. */
export function joinAlternatives(
  left: Machine,
  right: Machine,
  channel: ChannelSlot,
  combine: Combine,
): readonly Connection[] | null {
  const a = left.splitOf(channel.index);
  const b = right.splitOf(channel.index);
  if (sameAlternatives(a, b) && (a !== null || sameRegisters(left, right, channel))) return a;
  const first = alternativesOf(left, channel);
  const second = alternativesOf(right, channel);
  return mergeAlternatives([...first, ...second], combine, left.layout.timers[channel.timer]!.wide ? WORD : BYTE);
}

function sameRegisters(left: Machine, right: Machine, channel: ChannelSlot): boolean {
  return (
    left.raw(channel.comAddress) === right.raw(channel.comAddress) &&
    left.raw(channel.direction) === right.raw(channel.direction) &&
    left.raw(channel.output) === right.raw(channel.output)
  );
}

/** A compare value or port bit changes under a list: applied to every entry. */
export function mapAlternatives(
  machine: Machine,
  channel: ChannelSlot,
  change: (entry: Connection) => Connection,
): void {
  const present = machine.splitOf(channel.index);
  if (present === null) return;
  const changed = present.map(change);
  machine.setSplit(channel.index, mergeAlternatives(changed));
}
