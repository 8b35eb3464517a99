/** GTCCR and CLKPR: registers that act on the clocks of timers and chip. Source: DS40002061 sections 17.4.1 and 9.12.2. */
import * as number from "../domain/number.js";
import { BYTE, type Machine } from "./machine.js";

/** The prescaler resets of GTCCR stay set for as long as TSM is (section 17.4.1); without it they act once. */
export function heldBits(value: number.AbstractInteger, writable: number, strobes: number): number {
  const tsm = 0x80;
  return (value.zeros & tsm) !== 0 ? writable : writable | strobes;
}

/** CLKPR changes in two steps: CLKPCE alone, then the divisor (section 9.12.2). */
export function storeClockDivisor(
  machine: Machine,
  address: number,
  value: number.AbstractInteger,
  site: number,
): void {
  const enable = 0x80;
  const before = machine.raw(address);
  const divisor = number.constant(0x0f, BYTE);
  if ((value.ones & enable) !== 0) {
    machine.store(address, number.or(number.and(before, divisor, BYTE), number.constant(enable, BYTE), BYTE), site);
    return;
  }
  const opened = before.ones & enable;
  const chosen = number.and(value, divisor, BYTE);
  const kept = number.and(before, divisor, BYTE);
  if ((value.zeros & enable) !== 0 && opened !== 0) machine.store(address, chosen, site);
  else if ((before.zeros & enable) !== 0) machine.store(address, kept, site);
  else machine.store(address, number.join(chosen, kept), site);
}
