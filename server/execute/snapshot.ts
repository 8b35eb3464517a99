/** A timer's registers and pins at one moment, as the rest of the house wants to see them. */
import type { Known, RegisterValue } from "../../shared-model/register-value.js";
import type { ChannelSnapshot, TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import * as number from "./domain/number.js";
import { alternativesOf, bitOf, type Connection, mergeAlternatives } from "./hardware/alternatives.js";
import type { Layout, TimerSlot } from "./hardware/layout.js";
import type { Machine } from "./hardware/machine.js";

export function snapshotOf(machine: Machine, timer: TimerSlot): TimerSnapshot {
  const { layout } = machine;
  const registers: Record<string, RegisterValue> = {};
  const working: Record<string, RegisterValue> = {};
  for (const [index, name] of timer.fact.control.entries()) registers[name] = machine.raw(timer.control[index]!);
  for (const channel of timer.channels) {
    registers[channel.fact.compare] = machine.raw(channel.compare);
    working[channel.fact.compare] = machine.workingOf(channel.index);
  }
  if (timer.fact.capture !== undefined) {
    registers[timer.fact.capture] = machine.raw(timer.capture);
    working[timer.fact.capture] = machine.raw(timer.capture);
  }
  const channels = timer.channels.map(
    (channel): ChannelSnapshot => ({ unit: channel.fact.unit, alternatives: alternativesOf(machine, channel) }),
  );
  return {
    timer: timer.fact.number,
    registers,
    working,
    channels,
    powered: inverted(namedBit(machine, layout, timer.fact.powerReduction.register, timer.fact.powerReduction.bit)),
    held: isHeld(machine, layout, timer),
    asynchronous:
      timer.fact.asynchronous === undefined
        ? false
        : namedBit(machine, layout, timer.fact.asynchronous.register, timer.fact.asynchronous.bit),
    clockDivisor: clockDivisor(machine, layout),
  };
}

function inverted(known: Known): Known {
  return known === null ? null : !known;
}

function namedBit(machine: Machine, layout: Layout, register: string, bit: string): Known {
  const address = layout.address(register);
  if (address < 0) return false;
  const position = layout.registers[address]?.bits.find((candidate) => candidate.name === bit)?.position;
  return position === undefined ? false : bitOf(machine.raw(address), position);
}

/** GTCCR: TSM holds the reset bits that are written with it. */
function isHeld(machine: Machine, layout: Layout, timer: TimerSlot): Known {
  const address = layout.address("GTCCR");
  if (address < 0) return false;
  const tsm = namedBit(machine, layout, "GTCCR", "TSM");
  if (tsm === false) return false;
  const held = namedBit(machine, layout, "GTCCR", timer.fact.prescalerReset);
  return held === false ? false : tsm === true && held === true ? true : null;
}

/** CLKPS3..0: division by 2^n, n at most 8 (DS40002061 section 9.12.2). */
function clockDivisor(machine: Machine, layout: Layout): number | null {
  const address = layout.address("CLKPR");
  if (address < 0) return 1;
  const value = machine.raw(address);
  if (!number.isSingle(value)) return null;
  const select = value.min & 0x0f;
  return select > 8 ? null : 2 ** select;
}

/** A snapshot that stands for both. */
export function joinSnapshots(a: TimerSnapshot, b: TimerSnapshot): TimerSnapshot {
  return {
    timer: a.timer,
    registers: joinRegisters(a.registers, b.registers),
    working: joinRegisters(a.working, b.working),
    channels: a.channels.map((channel, index) => ({
      unit: channel.unit,
      alternatives: joinedChannel(channel, b.channels[index]!),
    })),
    powered: a.powered === b.powered ? a.powered : null,
    held: a.held === b.held ? a.held : null,
    asynchronous: a.asynchronous === b.asynchronous ? a.asynchronous : null,
    clockDivisor: a.clockDivisor === b.clockDivisor ? a.clockDivisor : null,
  };
}

function joinedChannel(a: ChannelSnapshot, b: ChannelSnapshot): ChannelSnapshot["alternatives"] {
  if (isListed(a.alternatives, b.alternatives)) return a.alternatives;
  const list = [...a.alternatives, ...b.alternatives].map(
    (entry): Connection => ({ ...entry, buffered: entry.compare }),
  );
  const merged = mergeAlternatives(list);
  if (merged !== null) return merged;
  // One connection, or too many to tell apart.
  return [
    list.reduce(
      (left, right): Connection => ({
        com: number.join(left.com, right.com),
        compare: number.join(left.compare, right.compare),
        buffered: number.join(left.buffered, right.buffered),
        output: left.output === right.output ? left.output : null,
        high: left.high === right.high ? left.high : null,
      }),
    ),
  ];
}

/** True where every connection of `some` is among `all`. */
function isListed(all: ChannelSnapshot["alternatives"], some: ChannelSnapshot["alternatives"]): boolean {
  return some.every((entry) =>
    all.some(
      (known) =>
        known.output === entry.output &&
        known.high === entry.high &&
        number.equal(known.com, entry.com) &&
        number.equal(known.compare, entry.compare),
    ),
  );
}

function joinRegisters(a: TimerSnapshot["registers"], b: TimerSnapshot["registers"]): TimerSnapshot["registers"] {
  const joined: Record<string, RegisterValue> = {};
  for (const name of Object.keys(a)) joined[name] = a[name] === b[name] ? a[name]! : number.join(a[name]!, b[name]!);
  return joined;
}

/** Equal keys: the timer runs alike and its outputs are connected alike; only duty may differ. */
export function snapshotKey(snapshot: TimerSnapshot, timer: TimerSlot, tops: readonly string[]): string {
  let key = "";
  for (const name of timer.fact.control) key += keyOf(snapshot.registers[name]!);
  for (const name of tops) key += keyOf(snapshot.working[name]!);
  for (const channel of snapshot.channels) {
    key += "|";
    for (const entry of channel.alternatives) key += `${entry.com.min}${entry.com.max}${entry.output}${entry.high};`;
  }
  return `${key}${snapshot.powered}${snapshot.held}${snapshot.asynchronous}${snapshot.clockDivisor}`;
}

function keyOf(value: RegisterValue): string {
  return value.values !== null && value.values.length === 1
    ? `${value.min},`
    : `${value.min}-${value.max}/${value.zeros}/${value.ones},`;
}
