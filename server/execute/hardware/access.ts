/**
 * Reading and writing registers with the hardware's manners: read-back masks, strobes, 16-bit access through TEMP,
 * double buffering, PIN toggles. Source: ATmega48A/PA/88A/PA/168A/PA/328/P data sheet (DS40002061), sections 14.2, 15.9,
 * 16.3, 16.11, 18.11; ATmega640/1280/1281/2560/2561 data sheet (2549), the same registers. Two habits of real parts
 * stand beside it (reported from boards, no published source at hand): a fixed-TOP PWM mode keeps only the bits of its
 * TOP in a 16-bit compare register, and ICRn written outside of its modes is kept.
 */
import * as number from "../domain/number.js";
import { mapAlternatives } from "./alternatives.js";
import { heldBits, storeClockDivisor } from "./clock-control.js";
import { resultByte, resultWord } from "./converter.js";
import { standsStill } from "./counting.js";
import type { ChannelSlot, Role, TimerSlot } from "./layout.js";
import { BYTE, type Machine, WORD } from "./machine.js";
import { compareMask, isBuffered, modesOf, noteReach } from "./modes.js";

/** Why a write, or part of it, did not last. */
export type Loss =
  | {
      readonly kind: "masked";
      readonly top: number;
      readonly asked: number.AbstractInteger;
      readonly stored: number.AbstractInteger;
    }
  | { readonly kind: "capture" }
  | { readonly kind: "wiped"; readonly after: number.AbstractInteger }
  /** A routine may come between the two bytes of the write and leave a high byte of its own. */
  | { readonly kind: "parted"; readonly high: number.AbstractInteger }
  /** A compare value of channel `channel` was still in its buffer when the mode changed. */
  | {
      readonly kind: "dropped";
      readonly channel: ChannelSlot;
      readonly buffered: number.AbstractInteger;
      readonly writers: readonly number[];
    };

export interface Access {
  /** Whether a buffered compare value may have been taken over since it was written (time may have passed). */
  readonly mayHaveUpdated: boolean;
  readonly site: number;
  /** Bits that the write leaves as they were, whatever they are (`|=`, `&=`, `^=` with a known mask). */
  readonly preserves: number;
  readonly lost: (loss: Loss) => void;
}

const ANY_BYTE = number.top(BYTE);
const ANY_WORD = number.top(WORD);

/** What the CPU gets from an 8-bit access. */
export function readByte(machine: Machine, address: number): number.AbstractInteger {
  const { layout } = machine;
  const role = layout.roles[address];
  if (role === undefined) return ANY_BYTE;
  const { converter } = layout;
  if (converter !== null && (address === converter.low || address === converter.high))
    return resultByte(machine, converter, address);
  if (role.kind === "high") return role.timer === null ? ANY_BYTE : highByte(machine, role.low);
  if (role.kind === "counter") return ANY_BYTE;
  if (role.kind === "pin") return pinInput(machine, address, role.output);
  if (layout.wide[address]) {
    return number.convert(machine.raw(address), WORD, BYTE);
  }
  const hardware = layout.registers[address]!.hardware ?? 0;
  return hardware === 0 ? machine.raw(address) : withUnknownBits(machine.raw(address), hardware);
}

function highByte(machine: Machine, low: number): number.AbstractInteger {
  const role = machine.layout.roles[low];
  if (role?.kind === "counter") return ANY_BYTE;
  return number.convert(number.shr(machine.raw(low), number.constant(8, WORD), WORD), WORD, BYTE);
}

/** A pin reads what drives it: the PORT bit where it is an output that no unit drives, else the outside world. */
function pinInput(machine: Machine, address: number, output: number): number.AbstractInteger {
  const port = machine.raw(output);
  const direction = machine.raw(address + 1);
  const byTimer = machine.layout.channels.filter((channel) => channel.output === output);
  let known = direction.ones;
  for (const channel of byTimer) known &= ~(1 << channel.bit);
  const implemented = machine.layout.registers[address]!.strobes | machine.layout.registers[address]!.writable;
  return number.fromBits(((port.zeros & known) | (~implemented & 0xff)) >>> 0, (port.ones & known) >>> 0, BYTE);
}

function withUnknownBits(value: number.AbstractInteger, mask: number): number.AbstractInteger {
  return number.fromBits((value.zeros & ~mask & 0xff) >>> 0, (value.ones & ~mask & 0xff) >>> 0, BYTE);
}

/** What the CPU gets from a 16-bit access at a low address. */
export function readWord(machine: Machine, address: number): number.AbstractInteger {
  const { converter } = machine.layout;
  if (converter !== null && address === converter.low) return resultWord(machine, converter);
  const role = machine.layout.roles[address];
  if (role?.kind === "counter") return ANY_WORD;
  if (machine.layout.wide[address]) return machine.raw(address);
  const low = readByte(machine, address);
  const high = readByte(machine, address + 1);
  return number.or(
    number.convert(low, BYTE, WORD),
    number.shl(number.convert(high, BYTE, WORD), number.constant(8, WORD), WORD),
    WORD,
  );
}

/** Stores a byte as an STS would. */
export function writeByte(machine: Machine, address: number, value: number.AbstractInteger, access: Access): void {
  const { layout } = machine;
  const role = layout.roles[address];
  if (role === undefined) return;
  if (role.kind === "high") {
    if (role.timer !== null) machine.setTemp(role.timer.index, value);
    return;
  }
  if (layout.wide[address]) {
    const timer = timerOfRole(role);
    const high = timer === null ? ANY_BYTE : machine.tempOf(timer.index);
    const whole = number.or(
      number.convert(value, BYTE, WORD),
      number.shl(number.convert(high, BYTE, WORD), number.constant(8, WORD), WORD),
      WORD,
    );
    storeTimerRegister(machine, address, role, whole, access);
    return;
  }
  switch (role.kind) {
    case "pin":
      togglePort(machine, role.output, value, access);
      return;
    case "counter":
      machine.setReach(
        role.timer.index,
        number.isSingle(value) && value.min === 0 ? machine.reachOf(role.timer.index) : 0xffff,
      );
      return;
    case "control":
    case "compare":
    case "capture":
      storeTimerRegister(machine, address, role, value, access);
      return;
    case "port":
      storePort(machine, address, value, access);
      return;
    case "clock divisor":
      storeClockDivisor(machine, address, value, access.site);
      return;
    default: {
      const fact = layout.registers[address]!;
      const kept = fact.name === "GTCCR" ? heldBits(value, fact.writable, fact.strobes) : fact.writable;
      const stored = number.and(value, number.constant(kept & 0xff, BYTE), BYTE);
      machine.store(address, stored, access.site);
    }
  }
}

function timerOfRole(role: Role): TimerSlot | null {
  return "timer" in role ? role.timer : null;
}

/** Stores a word as the compiler does it: high byte first, into TEMP, then the low byte with both. */
export function writeWord(machine: Machine, address: number, value: number.AbstractInteger, access: Access): void {
  const role = machine.layout.roles[address];
  if (role === undefined) return;
  if (!machine.layout.wide[address]) {
    writeByte(
      machine,
      address + 1,
      number.convert(number.shr(value, number.constant(8, WORD), WORD), WORD, BYTE),
      access,
    );
    writeByte(machine, address, number.convert(value, WORD, BYTE), access);
    return;
  }
  const timer = timerOfRole(role);
  if (timer !== null)
    machine.setTemp(timer.index, number.convert(number.shr(value, number.constant(8, WORD), WORD), WORD, BYTE));
  storeTimerRegister(machine, address, role, value, access);
}

function storeTimerRegister(
  machine: Machine,
  address: number,
  role: Role,
  value: number.AbstractInteger,
  access: Access,
): void {
  switch (role.kind) {
    case "control":
      storeControl(machine, address, role.timer, value, access);
      return;
    case "compare":
      storeCompare(machine, role.timer, role.channel, value, access);
      return;
    case "capture": {
      noteReach(machine, role.timer);
      const modes = modesOf(machine, role.timer);
      if (modes?.every((mode) => mode.top.kind !== "capture")) access.lost({ kind: "capture" });
      machine.store(address, value, access.site);
      return;
    }
    case "counter":
      machine.setReach(
        role.timer.index,
        number.isSingle(value) && value.min === 0 ? machine.reachOf(role.timer.index) : 0xffff,
      );
      return;
    default:
  }
}

/** A new mode: what waits in a buffer and is not taken over in time is lost where the new mode has no buffer. */
function storeControl(
  machine: Machine,
  address: number,
  timer: TimerSlot,
  value: number.AbstractInteger,
  access: Access,
): void {
  noteReach(machine, timer);
  const before = modesOf(machine, timer);
  const fact = machine.layout.registers[address]!;
  const stored = number.and(value, number.constant(fact.writable, BYTE), BYTE);
  const connected = timer.channels.filter((channel) => channel.comAddress === address);
  machine.store(address, stored, access.site, access.preserves);
  for (const channel of connected) {
    // A connection that the write did not touch stays known; any other is what was just stored.
    const bits = 3 << channel.comShift;
    if ((access.preserves & bits) === bits) continue;
    mapAlternatives(machine, channel, (entry) => ({
      ...entry,
      com: number.and(
        number.shr(stored, number.constant(channel.comShift, BYTE), BYTE),
        number.constant(3, BYTE),
        BYTE,
      ),
    }));
  }
  const after = modesOf(machine, timer);
  if (before !== null && after !== null && before.every((mode) => !isBuffered(mode))) return;
  const staysBuffered = after?.every(isBuffered) ?? false;
  if (staysBuffered) return;
  const surelyImmediate = after?.every((mode) => !isBuffered(mode)) ?? false;
  for (const channel of timer.channels) {
    const buffered = machine.raw(channel.compare);
    const held = machine.heldBy(channel.index);
    const waits =
      machine.splitOf(channel.index)?.some((entry) => !number.equal(entry.compare, entry.buffered)) ?? false;
    if (!waits && number.equal(buffered, held)) continue;
    const mayArrive = access.mayHaveUpdated || !surelyImmediate;
    const kept = mayArrive ? number.join(held, buffered) : held;
    if (!number.equal(buffered, held)) {
      access.lost({ kind: "dropped", channel, buffered, writers: machine.writersOf(channel.compare) });
    }
    machine.store(channel.compare, kept, -1);
    machine.setWorking(channel.index, kept);
    machine.setHeld(channel.index, kept);
    mapAlternatives(machine, channel, (entry) => {
      const left = number.join(mayArrive ? number.join(entry.compare, entry.buffered) : entry.compare, held);
      return { ...entry, compare: left, buffered: left };
    });
  }
}

function storeCompare(
  machine: Machine,
  timer: TimerSlot,
  channel: ChannelSlot,
  value: number.AbstractInteger,
  access: Access,
): void {
  if (channel === timer.channels[0]) noteReach(machine, timer);
  if (access.mayHaveUpdated) noteArrival(machine, timer, channel);
  const modes = modesOf(machine, timer);
  if (modes === null) {
    const stored = timer.wide ? number.join(value, number.and(value, number.constant(0xff, WORD), WORD)) : value;
    machine.store(channel.compare, number.join(stored, value), access.site);
    machine.setWorking(channel.index, number.join(machine.workingOf(channel.index), stored));
    machine.setHeld(channel.index, number.join(machine.heldBy(channel.index), stored));
    mapAlternatives(machine, channel, (entry) => ({
      ...entry,
      compare: number.join(entry.compare, stored),
      buffered: stored,
    }));
    return;
  }
  let stored: number.AbstractInteger | null = null;
  const masked: Loss[] = [];
  for (const mode of modes) {
    const mask = compareMask(timer, mode);
    const kept = mask === null ? value : number.and(value, number.constant(mask, WORD), WORD);
    if (mask !== null && !number.equal(kept, value))
      masked.push({ kind: "masked", top: mask, asked: value, stored: kept });
    stored = stored === null ? kept : number.join(stored, kept);
  }
  // Among modes of which some would keep the value, nothing is known to be lost.
  if (masked.length === modes.length) for (const loss of masked) access.lost(loss);
  const kept = stored ?? value;
  machine.store(channel.compare, kept, access.site);
  if (modes.every((mode) => !isBuffered(mode))) {
    machine.setWorking(channel.index, kept);
    machine.setHeld(channel.index, kept);
    mapAlternatives(machine, channel, (entry) => ({ ...entry, compare: kept, buffered: kept }));
  } else if (!modes.every(isBuffered)) {
    machine.setWorking(channel.index, number.join(machine.workingOf(channel.index), kept));
    machine.setHeld(channel.index, number.join(machine.heldBy(channel.index), kept));
    mapAlternatives(machine, channel, (entry) => ({
      ...entry,
      compare: number.join(entry.compare, kept),
      buffered: kept,
    }));
  } else mapAlternatives(machine, channel, (entry) => ({ ...entry, buffered: kept }));
}

/** A buffered value that is about to be overwritten may have been taken over just before. */
function noteArrival(machine: Machine, timer: TimerSlot, channel: ChannelSlot): void {
  const waiting = machine.raw(channel.compare);
  const held = machine.heldBy(channel.index);
  if (number.equal(waiting, held) || standsStill(machine, timer)) return;
  machine.setHeld(channel.index, number.join(held, waiting));
}

function togglePort(machine: Machine, output: number, mask: number.AbstractInteger, access: Access): void {
  // Zeros leave their bits as they are, whatever those are.
  const preserves = access.preserves | mask.zeros;
  storePort(machine, output, number.xor(machine.raw(output), mask, BYTE), { ...access, preserves });
}

function storePort(machine: Machine, address: number, value: number.AbstractInteger, access: Access): void {
  const { layout } = machine;
  const fact = layout.registers[address]!;
  const stored = number.and(value, number.constant(fact.writable & 0xff, BYTE), BYTE);
  const before = machine.raw(address);
  machine.store(address, stored, access.site, access.preserves);
  if (before === stored) return;
  for (const channel of layout.channels) {
    if (channel.direction !== address && channel.output !== address) continue;
    const bit = 1 << channel.bit;
    const known = (stored.ones & bit) !== 0 ? true : (stored.zeros & bit) !== 0 ? false : null;
    if ((access.preserves & bit) !== 0) continue;
    mapAlternatives(machine, channel, (entry) =>
      channel.direction === address ? { ...entry, output: known } : { ...entry, high: known },
    );
  }
}
