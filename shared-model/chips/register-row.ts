/**
 * A short way to write one row of a register table. The rows themselves are data; nothing here knows a chip.
 */
import type { BitFact, RegisterFact, WideRegisterFact } from "../chip.js";

/** What a row says besides name, address and bits. Left out: `writable` = the named bits, the rest 0. */
export interface RowOptions {
  readonly writable?: number;
  readonly strobes?: number;
  readonly reset?: number;
  readonly hardware?: number;
}

/** Bits by name → position. */
export type Bits = Readonly<Record<string, number>>;

/** One register row. A register without named bits keeps all eight unless `writable` says otherwise. */
export function row(name: string, address: number, bits: Bits = {}, options: RowOptions = {}): RegisterFact {
  const facts: BitFact[] = Object.entries(bits).map(([bit, position]) => ({ name: bit, position }));
  const named = facts.reduce((mask, bit) => mask | (1 << bit.position), 0);
  return {
    name,
    address,
    bits: facts,
    writable: options.writable ?? (facts.length > 0 ? named : 0xff),
    strobes: options.strobes ?? 0,
    reset: options.reset ?? 0,
    hardware: options.hardware ?? 0,
  };
}

/** Eight bits named `prefix0` … `prefix7`, as avr-libc names the bits of plain data registers. */
export function numbered(prefix: string, count = 8, from = 0): Bits {
  return Object.fromEntries(Array.from({ length: count }, (_, index) => [`${prefix}${from + index}`, index]));
}

/** The 16-bit register that two rows `nameL`, `nameH` make. */
export function wide(
  name: string,
  address: number,
  parts: { low: string; high: string } | null = null,
): WideRegisterFact {
  return { name, address, low: parts?.low ?? `${name}L`, high: parts?.high ?? `${name}H` };
}
