/**
 * Random programs in the styles that people write, always well-defined C++ (no signed overflow, no shift or division
 * out of range, no unsequenced effects), made from a seed alone.
 */
import type { BoardId } from "./compile.js";
import { Dice } from "./generate/dice.js";
import { ProgramWriter } from "./generate/program.js";
import { MEGA_TIMERS, UNO_TIMERS } from "./generate/registers.js";

export interface Generated {
  readonly text: string;
  readonly board: BoardId;
}

export function generate(seed: number): Generated {
  const dice = new Dice(seed);
  const board = dice.chance(85) ? "uno" : "mega";
  const program = new ProgramWriter(dice, board === "uno" ? UNO_TIMERS : MEGA_TIMERS);
  return { text: `// Random sketch, seed ${seed}, board ${board}.\n${program.write()}`, board };
}
