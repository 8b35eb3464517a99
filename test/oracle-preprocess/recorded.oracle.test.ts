/**
 * What `npm test` holds the preprocessor against without a compiler: the hand-written programs and some random ones,
 * with the compiler's answers. Here the record is checked; `RECORD=1` writes it anew.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { plain, tokens } from "../preprocess/expand-text.js";
import { compilerExpands } from "./compiler.js";
import { HAND_WRITTEN } from "./hand-written.js";
import { Dice, randomProgram } from "./random-programs.js";

interface Recorded {
  readonly name: string;
  readonly program: string;
  /** Tokens with one blank between each. */
  readonly tokens: string;
}

const RECORD = join(__dirname, "..", "preprocess", "recorded.json");
const RANDOM = 30;

function measure(): Recorded[] {
  const recorded: Recorded[] = [];
  for (const [name, text] of Object.entries(HAND_WRITTEN)) {
    const program = `${text}\n`;
    const theirs = compilerExpands(program);
    expect(theirs, `the compiler refuses "${name}"`).toBeDefined();
    recorded.push({ name, program, tokens: tokens(theirs as string) });
  }
  for (let state = 1; recorded.length < Object.keys(HAND_WRITTEN).length + RANDOM; state++) {
    const program = randomProgram(new Dice(state * 104_729));
    const theirs = compilerExpands(program);
    // A lone expansion to little says nothing.
    if (theirs === undefined || theirs.length < 40) continue;
    recorded.push({ name: `random ${state}`, program, tokens: tokens(theirs) });
  }
  return recorded;
}

test("the record is what the compiler says today", { timeout: 120_000 }, () => {
  const measured = measure();
  if (process.env["RECORD"] !== undefined) writeFileSync(RECORD, `${JSON.stringify(measured, null, 2)}\n`);
  expect(JSON.parse(readFileSync(RECORD, "utf8"))).toEqual(measured);
  for (const { name, program, tokens: theirs } of measured) expect(tokens(plain(program).text), name).toBe(theirs);
});
