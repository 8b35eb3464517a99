/** Where the registers of one chip are and what kind of thing each is: worked out once per chip from its tables. */
import type {
  ChannelFact,
  Chip,
  ClockSource,
  FieldFact,
  ModeFact,
  RegisterFact,
  TimerFact,
} from "../../../shared-model/chip.js";

import { type Converter, converterOf } from "./converter.js";

/** A compare unit with the flat number under which the machine keeps its working value. */
export interface ChannelSlot {
  readonly index: number;
  readonly timer: number;
  readonly fact: ChannelFact;
  /** Address of the compare register (low byte). */
  readonly compare: number;
  readonly comAddress: number;
  readonly comShift: number;
  readonly direction: number;
  readonly output: number;
  readonly bit: number;
}

/** Part of a field: where its bits are and where they belong. */
export interface FieldPlace {
  readonly address: number;
  readonly mask: number;
  readonly shift: number;
  readonly at: number;
}

export interface TimerSlot {
  /** Position in `Chip.timers`. */
  readonly index: number;
  readonly fact: TimerFact;
  readonly wide: boolean;
  readonly channels: readonly ChannelSlot[];
  readonly control: readonly number[];
  readonly counter: number;
  readonly capture: number;
  readonly modeByValue: ReadonlyMap<number, ModeFact>;
  readonly modePlaces: readonly FieldPlace[];
  readonly clockPlaces: readonly FieldPlace[];
  /** By the field's value: the one mode, the one clock, as lists. */
  readonly modeLists: readonly (readonly ModeFact[])[];
  readonly clockLists: readonly (readonly ClockSource[])[];
}

export type Role =
  | { readonly kind: "plain" }
  | { readonly kind: "control"; readonly timer: TimerSlot }
  | { readonly kind: "compare"; readonly timer: TimerSlot; readonly channel: ChannelSlot }
  | { readonly kind: "capture"; readonly timer: TimerSlot }
  | { readonly kind: "counter"; readonly timer: TimerSlot }
  | { readonly kind: "high"; readonly low: number; readonly timer: TimerSlot | null }
  | { readonly kind: "pin"; readonly output: number }
  | { readonly kind: "port" }
  | { readonly kind: "clock divisor" };

export interface Layout {
  readonly chip: Chip;
  readonly size: number;
  readonly registers: readonly (RegisterFact | undefined)[];
  readonly roles: readonly (Role | undefined)[];
  /** Low address → true where the register is kept as one 16-bit value. */
  readonly wide: readonly boolean[];
  readonly wideNames: ReadonlyMap<number, string>;
  readonly timers: readonly TimerSlot[];
  readonly channels: readonly ChannelSlot[];
  /** Timers with a unit on a port, by the address of DDR or PORT. */
  readonly timersOfPort: ReadonlyMap<number, readonly { readonly timer: number; readonly bits: number }[]>;
  /** Addresses that hold something of their own, ascending. */
  readonly present: readonly number[];
  /** By address of a control register: the bits that connect outputs. */
  readonly outputBits: readonly number[];
  readonly sreg: number;
  /** Position of control and port registers among those whose writers are kept bit by bit; −1 for all others. */
  readonly bitwise: readonly number[];
  readonly bitwiseCount: number;
  readonly converter: Converter | null;
  /** Address of SPCR; −1 where there is none. */
  readonly busControl: number;
  /** By address: true for registers of units that carry data past the timers, such as the two-wire bus. */
  readonly aside: readonly boolean[];
  readonly address: (name: string) => number;
}

/**
 * Registers that no timer, pin or wait in the model looks at: what they hold tells no states apart. SPCR is not among them
 * (it takes pins), nor what holds a reading. Which routines may come is asked of the joined value, so that they stay possible.
 */
const ASIDE = /^(?:TW(?:BR|SR|AR|DR|CR|AMR)|SP[DS]R|UDR\d|UCSR\d[AC]|UBRR\d[LH]?|DIDR\d|EE[DA]R[LH]?)$/;

const cache = new WeakMap<Chip, Layout>();

export function layoutOf(chip: Chip): Layout {
  const known = cache.get(chip);
  if (known !== undefined) return known;
  const made = makeLayout(chip);
  cache.set(chip, made);
  return made;
}

function placesOf(field: FieldFact, address: (name: string) => number): FieldPlace[] {
  return field.parts.map((part) => ({
    address: address(part.register),
    mask: ((1 << part.width) - 1) << part.shift,
    shift: part.shift,
    at: part.at,
  }));
}

function listOf<T>(entry: T | undefined): readonly T[] {
  return entry === undefined ? [] : [entry];
}

function makeLayout(chip: Chip): Layout {
  const byName = new Map<string, number>();
  let size = 0;
  for (const register of chip.registers) {
    byName.set(register.name, register.address);
    size = Math.max(size, register.address + 1);
  }
  for (const wide of chip.wide) byName.set(wide.name, wide.address);
  const address = (name: string): number => byName.get(name) ?? -1;
  const registers: (RegisterFact | undefined)[] = new Array(size).fill(undefined);
  const roles: (Role | undefined)[] = new Array(size).fill(undefined);
  const wide: boolean[] = new Array(size).fill(false);
  const wideNames = new Map<number, string>();
  for (const register of chip.registers) {
    registers[register.address] = register;
    roles[register.address] = { kind: "plain" };
  }
  const channels: ChannelSlot[] = [];
  const timersOfPort = new Map<number, { timer: number; bits: number }[]>();
  const timers = chip.timers.map((fact, index): TimerSlot => {
    const own = fact.channels.map((channel): ChannelSlot => {
      const letter = channel.port[1]!;
      const port = chip.ports.find((candidate) => candidate.letter === letter)!;
      const slot: ChannelSlot = {
        index: channels.length,
        timer: index,
        fact: channel,
        compare: address(channel.compare),
        comAddress: address(channel.com.register),
        comShift: channel.com.shift,
        direction: address(port.direction),
        output: address(port.output),
        bit: Number(channel.port[2]),
      };
      channels.push(slot);
      for (const at of [slot.direction, slot.output]) {
        const list = timersOfPort.get(at) ?? [];
        const present = list.find((entry) => entry.timer === index);
        if (present === undefined) list.push({ timer: index, bits: 1 << slot.bit });
        else present.bits |= 1 << slot.bit;
        timersOfPort.set(at, list);
      }
      return slot;
    });
    const modeByValue = new Map(fact.modes.map((mode) => [mode.select, mode]));
    return {
      index,
      fact,
      wide: fact.bits === 16,
      channels: own,
      control: fact.control.map(address),
      counter: address(fact.counter),
      capture: fact.capture === undefined ? -1 : address(fact.capture),
      modeByValue,
      modePlaces: placesOf(fact.modeField, address),
      clockPlaces: placesOf(fact.clockField, address),
      modeLists: Array.from({ length: 2 ** fact.modeField.width }, (_, value) => listOf(modeByValue.get(value))),
      clockLists: Array.from({ length: 2 ** fact.clockField.width }, (_, value) => listOf(fact.clocks[value])),
    };
  });
  for (const entry of chip.wide) {
    const timer = timers.find(
      (slot) =>
        slot.wide &&
        (slot.counter === entry.address ||
          slot.capture === entry.address ||
          slot.channels.some((channel) => channel.compare === entry.address)),
    );
    if (timer === undefined) continue;
    wide[entry.address] = true;
    wideNames.set(entry.address, entry.name);
    roles[entry.address + 1] = { kind: "high", low: entry.address, timer };
  }
  for (const timer of timers) {
    for (const at of timer.control) roles[at] = { kind: "control", timer };
    for (const channel of timer.channels) roles[channel.compare] = { kind: "compare", timer, channel };
    roles[timer.counter] = { kind: "counter", timer };
    if (timer.capture >= 0) roles[timer.capture] = { kind: "capture", timer };
  }
  for (const port of chip.ports) {
    roles[address(port.pin)] = { kind: "pin", output: address(port.output) };
    roles[address(port.output)] = { kind: "port" };
    roles[address(port.direction)] = { kind: "port" };
  }
  const outputBits: number[] = new Array(size).fill(0);
  for (const channel of channels)
    outputBits[channel.comAddress] = outputBits[channel.comAddress]! | (3 << channel.comShift);
  const bitwise: number[] = new Array(size).fill(-1);
  let bitwiseCount = 0;
  for (const [at, role] of roles.entries())
    if (role?.kind === "control" || role?.kind === "port") bitwise[at] = bitwiseCount++;
  if (address("CLKPR") >= 0) roles[address("CLKPR")] = { kind: "clock divisor" };
  return {
    chip,
    size,
    registers,
    roles,
    wide,
    wideNames,
    timers,
    channels,
    timersOfPort,
    present: roles.flatMap((role, at) =>
      role === undefined || role.kind === "high" || role.kind === "counter" ? [] : [at],
    ),
    outputBits,
    sreg: address("SREG"),
    bitwise,
    bitwiseCount,
    converter: converterOf({ chip, address }),
    busControl: address("SPCR"),
    aside: Array.from({ length: size }, (_, at) => ASIDE.test(registers[at]?.name ?? wideNames.get(at) ?? "")),
    address,
  };
}
