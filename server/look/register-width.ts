/** How wide a register is, by its name. */
import type { Chip } from "../../shared-model/chip.js";

/** 16 for a pair written as one name (`OCR1A`, `ICR1`, `TCNT1`), else 8. */
export function registerBits(chip: Chip, register: string): 8 | 16 {
  return chip.wide.some((pair) => pair.name === register) ? 16 : 8;
}
