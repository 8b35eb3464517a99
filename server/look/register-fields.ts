/**
 * What the bits of a register mean, field by field: for messages, hovers and the naming of bits. Reads the chip's
 * tables only; knows no sketch.
 */
import type { Chip, RegisterFact, TimerFact } from "../../shared-model/chip.js";

export interface RegisterField {
  /** `CS2`, `WGM2`, `COM2B`; for a single bit its own name. */
  readonly name: string;
  readonly kind: "clock" | "mode" | "output" | "bit";
  /** Lowest bit's position in the register. */
  readonly shift: number;
  readonly width: number;
  /** The stretch of ones that the field covers in the register. */
  readonly mask: number;
  /** Names of its bits, most significant first. */
  readonly bits: readonly string[];
  /** Channel letter of a compare output field. */
  readonly channel: string | null;
}

/** Rows by name, made once for each chip. */
const rows = new WeakMap<Chip, ReadonlyMap<string, RegisterFact>>();

function rowOf(chip: Chip, register: string): RegisterFact | undefined {
  let byName = rows.get(chip);
  if (byName === undefined) {
    byName = new Map(chip.registers.map((row) => [row.name, row]));
    rows.set(chip, byName);
  }
  return byName.get(register);
}

/** The timer that a control register belongs to, where it is one. */
export function timerOfControl(chip: Chip, register: string): TimerFact | undefined {
  return chip.timers.find((timer) => timer.control.includes(register));
}

/** The fields of a register, most significant first. Registers without named bits have none. */
export function fieldsOf(chip: Chip, register: string): readonly RegisterField[] {
  let byName = fields.get(chip);
  if (byName === undefined) {
    byName = new Map();
    fields.set(chip, byName);
  }
  let found = byName.get(register);
  if (found === undefined) {
    found = makeFields(chip, register);
    byName.set(register, found);
  }
  return found;
}

const fields = new WeakMap<Chip, Map<string, readonly RegisterField[]>>();

function makeFields(chip: Chip, register: string): readonly RegisterField[] {
  const row = rowOf(chip, register);
  if (row === undefined) return [];
  const found: RegisterField[] = [];
  let taken = 0;
  const add = (name: string, kind: RegisterField["kind"], shift: number, width: number, channel: string | null) => {
    const mask = ((1 << width) - 1) << shift;
    if ((taken & mask) !== 0) return;
    taken |= mask;
    const bits = Array.from({ length: width }, (_, index) => bitName(chip, register, shift + width - 1 - index) ?? "?");
    found.push({ name, kind, shift, width, mask, bits, channel });
  };
  const timer = timerOfControl(chip, register);
  if (timer !== undefined) {
    for (const channel of timer.channels) {
      if (channel.com.register === register) add(channel.com.name, "output", channel.com.shift, 2, channel.letter);
    }
    for (const part of timer.modeField.parts) {
      if (part.register === register) add(timer.modeField.name, "mode", part.shift, part.width, null);
    }
    for (const part of timer.clockField.parts) {
      if (part.register === register) add(timer.clockField.name, "clock", part.shift, part.width, null);
    }
  }
  for (const bit of row.bits) {
    if ((taken & (1 << bit.position)) === 0) add(bit.name, "bit", bit.position, 1, null);
  }
  return found.sort((left, right) => right.shift - left.shift);
}

/** The name of one bit of a register; the first where several share the position. */
export function bitName(chip: Chip, register: string, position: number): string | undefined {
  const row = rowOf(chip, register);
  return row?.bits.find((bit) => bit.position === position)?.name;
}

/** Names of the bits that are 1 in `value`, most significant first; undefined where one of them has no name. */
export function namesOfOnes(chip: Chip, register: string, value: number): readonly string[] | undefined {
  const names: string[] = [];
  for (let position = 7; position >= 0; position -= 1) {
    if ((value & (1 << position)) === 0) continue;
    const name = bitName(chip, register, position);
    if (name === undefined) return undefined;
    names.push(name);
  }
  return value > 0xff ? undefined : names;
}

/** Where a bit of this name lives: register and position; the registers of one chip rarely share a name. */
export function homesOfBit(
  chip: Chip,
  name: string,
): readonly { readonly register: string; readonly position: number }[] {
  const homes: { register: string; position: number }[] = [];
  for (const row of chip.registers) {
    for (const bit of row.bits) {
      if (bit.name === name) homes.push({ register: row.name, position: bit.position });
    }
  }
  return homes;
}

/** The named bits of a register, most significant first. */
export function bitsOf(chip: Chip, register: string): readonly { readonly name: string; readonly position: number }[] {
  const row = rowOf(chip, register);
  return [...(row?.bits ?? [])].sort((left, right) => right.position - left.position);
}
