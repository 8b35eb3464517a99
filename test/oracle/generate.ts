/** Placeholder until written below. */
import type { BoardId } from "./compile.js";
export function generate(_seed: number): { text: string; board: BoardId } {
  throw new Error("not written yet");
}
