/** Macro expansion and conditions against the compiler's preprocessor, on random programs. Needs avr-gcc. */
import { expect, test } from "vitest";
import { plain, reasons, tokens } from "../preprocess/expand-text.js";
import { compilerExpands } from "./compiler.js";
import { Dice, randomProgram } from "./random-programs.js";

const PROGRAMS = Number(process.env["PREPROCESS_PROGRAMS"] ?? 400);
const SEED = Number(process.env["PREPROCESS_SEED"] ?? 20_240_601);

test(`${PROGRAMS} random programs give the compiler's tokens`, { timeout: 600_000 }, () => {
  let compared = 0;
  for (let index = 0; index < PROGRAMS; index++) {
    const program = randomProgram(new Dice(SEED + index * 7919));
    const theirs = compilerExpands(program);
    const ours = plain(program);
    const what = `number ${SEED + index * 7919}\n${program}`;
    // What the compiler refuses is at least a gap.
    if (theirs === undefined) expect(reasons(ours), what).not.toEqual([]);
    else {
      compared++;
      expect(tokens(ours.text), what).toBe(tokens(theirs));
      expect(reasons(ours), what).toEqual([]);
    }
  }
  // A generator that only writes what the compiler refuses would prove nothing.
  expect(compared).toBeGreaterThan(PROGRAMS / 4);
});
