/**
 * Random programs in the styles that people write, always well-defined C++ (no signed overflow, no shift or division
 * out of range, no unsequenced effects), made from a seed alone.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { BoardId } from "./compile.js";
import { Dice } from "./generate/dice.js";
import { writeProgram } from "./generate/program.js";
import { MEGA_TIMERS, UNO_TIMERS } from "./generate/registers.js";

export interface Generated {
  readonly text: string;
  /** Further tabs, headers and sources by name; the sketch is a folder where there are some. */
  readonly beside: Readonly<Record<string, string>>;
  readonly board: BoardId;
}

export function generate(seed: number): Generated {
  const dice = new Dice(seed);
  const board = dice.chance(85) ? "uno" : "mega";
  const { text, beside } = writeProgram(dice, board === "uno" ? UNO_TIMERS : MEGA_TIMERS);
  return { text: `// Random sketch, seed ${seed}, board ${board}.\n${text}`, beside, board };
}

/** Writes the sketch of a seed into `folder`: the path of its file, or of its own folder. */
export function writeGenerated(seed: number, folder: string): { path: string; board: BoardId } {
  const { text, beside, board } = generate(seed);
  const name = `random-${seed}`;
  const plain = Object.keys(beside).length === 0;
  const home = plain ? folder : join(folder, name);
  mkdirSync(home, { recursive: true });
  for (const [file, content] of Object.entries({ ...beside, [`${name}.ino`]: text })) {
    writeFileSync(join(home, file), content);
  }
  return { path: plain ? join(home, `${name}.ino`) : home, board };
}
