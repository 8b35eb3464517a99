/**
 * The analog converter's result: ten bits of a sixteen-bit register, at its right or left end as ADLAR says at the moment
 * of reading (DS40002061 section 24.9.3).
 */
import * as number from "../domain/number.js";
import type { Layout } from "./layout.js";
import { BYTE, type Machine, WORD } from "./machine.js";

/** Where the result is and what aligns it. */
export interface Converter {
  readonly low: number;
  readonly high: number;
  readonly select: number;
  readonly left: number;
}

export function converterOf({ chip, address }: Pick<Layout, "chip" | "address">): Converter | null {
  const select = chip.registers.find((register) => register.bits.some((bit) => bit.name === "ADLAR"));
  const bit = select?.bits.find((candidate) => candidate.name === "ADLAR");
  const low = address("ADCL");
  if (select === undefined || bit === undefined || low < 0) return null;
  return { low, high: address("ADCH"), select: select.address, left: 1 << bit.position };
}

export function resultWord(machine: Machine, { select, left }: Converter): number.AbstractInteger {
  const aligned = machine.raw(select);
  if ((aligned.ones & left) !== 0) return number.fromBits(0x3f, 0, WORD);
  if ((aligned.zeros & left) !== 0) return number.range(0, 1023, WORD);
  return number.top(WORD);
}

export function resultByte(machine: Machine, converter: Converter, address: number): number.AbstractInteger {
  const word = resultWord(machine, converter);
  return number.convert(
    address === converter.low ? word : number.shr(word, number.constant(8, WORD), WORD),
    WORD,
    BYTE,
  );
}
