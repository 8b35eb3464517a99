/** Single instructions that the machine looks at, and one that avr8js gets wrong. */
import type { CPU } from "avr8js";

export const RETI = 0x9518;
/** NEG Rd, without the register's bits. */
export const NEG = 0x9401;

const SREG = 95;
const I_AND_T = 0xc0;

/** CALL, RCALL, ICALL, EICALL. */
export function isCall(opcode: number): boolean {
  return (opcode & 0xfe0e) === 0x940e || (opcode & 0xf000) === 0xd000 || (opcode & 0xffef) === 0x9509;
}

/** avr8js 0.21.1 does not set V, and so neither S, for the negation of -128 (instruction set manual, NEG). */
export function negate(cpu: CPU): void {
  const { data } = cpu;
  const at = (cpu.progMem[cpu.pc]! & 0x1f0) >> 4;
  const value = data[at]!;
  const result = -value & 0xff;
  data[at] = result;
  const [c, z, n, v] = [result !== 0 ? 1 : 0, result === 0 ? 2 : 0, (result & 0x80) >> 5, result === 0x80 ? 8 : 0];
  const s = (n >> 2) ^ (v >> 3) ? 16 : 0;
  const h = ((result | value) & 8) << 2;
  data[SREG] = (data[SREG]! & I_AND_T) | c | z | n | v | s | h;
  cpu.pc++;
  cpu.cycles++;
}
