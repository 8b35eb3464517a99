/** What voltage feeds the chip of a board: the high level of its pins, as near as a meter tells. */

export interface Supply {
  readonly volts: number;
  /** Where the number comes from. */
  readonly source: string;
}

const title = (words: string): string => `packaged core arduino-core-avr 1.8.7, boards.txt: pro.menu.cpu, "${words}"`;

export const supplies = {
  five: { volts: 5, source: "boards of this kind run from 5 V (common practice, no source)" },
  proFive: { volts: 5, source: title("(5V, 16 MHz)") },
  proThree: { volts: 3.3, source: title("(3.3V, 8 MHz)") },
} as const satisfies Record<string, Supply>;
