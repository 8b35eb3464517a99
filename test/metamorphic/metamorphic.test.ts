/**
 * Rewriting a sketch without changing its meaning must not change its report (fingerprint.ts says what of it). Rewritings are applied one
 * by one and in chains, to as many sketches as the time allows; which meet which is drawn from a fixed seed.
 *
 *     PULSEWRIGHT_METAMORPHIC=all npx vitest run test/metamorphic      every rewriting on every sketch
 *     PULSEWRIGHT_METAMORPHIC=7 …                                      the draw of another seed
 */
import * as fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import type { Parser } from "../../server/parse/parse.js";
import { sharedParser } from "../runner/analysed-sketch.js";
import { analysed, readingOf } from "./analysed.js";
import { expressionRewritings } from "./expressions.js";
import { differences, fingerprint } from "./fingerprint.js";
import { functionRewritings } from "./functions.js";
import { choiceFrom, type Rewriting, restartNames } from "./rewriting.js";
import type { Sketch } from "./sketch.js";
import { sourceSketches } from "./sources.js";
import { statementRewritings } from "./statements.js";

const REWRITINGS: readonly Rewriting[] = [...expressionRewritings, ...statementRewritings, ...functionRewritings];
const setting = process.env["PULSEWRIGHT_METAMORPHIC"];
const EVERYTHING = setting === "all";
const SEED = setting === undefined || EVERYTHING ? 20_251 : Number(setting);
/** Sketches that each rewriting meets. */
const EACH = EVERYTHING ? Number.POSITIVE_INFINITY : 8;
const CHAINS = EVERYTHING ? 2_000 : 120;
const LONGEST_CHAIN = 4;

const sketches = sourceSketches();
let parser: Parser;
beforeAll(async () => {
  parser = await sharedParser();
});
const before = new Map<Sketch, readonly string[]>();

function reportOf(sketch: Sketch): readonly string[] {
  let known = before.get(sketch);
  if (known === undefined) {
    known = fingerprint(analysed(sketch, parser));
    before.set(sketch, known);
  }
  return known;
}

/** The sketch after a rewriting; null where there is nothing to rewrite. A rewriting that changes no letter is a bug of its own. */
function rewritten(rewriting: Rewriting, sketch: Sketch, seed: number): Sketch | null {
  const reading = readingOf(sketch, parser);
  if (reading === null) return null;
  const after = rewriting.rewrite(reading, choiceFrom(seed));
  if (after === null) return null;
  const whole = (each: Sketch): string => JSON.stringify([each.text, [...each.headers], each.tabs, each.units]);
  if (whole(after) === whole(sketch)) throw new Error(`${rewriting.name} changed nothing`);
  return after;
}

/** The lines that the rewriting made, and the files beside. */
function shown(before: Sketch, after: Sketch): string {
  const old = new Set(before.text.split("\n"));
  const beside = [...[...after.headers].map(([name, text]) => ({ name, text })), ...after.tabs, ...after.units];
  const lines = after.text.split("\n").map((line, at) => (old.has(line) ? "" : `    ${at + 1}: ${line}`));
  return [...lines.filter((line) => line !== ""), ...beside.map(({ name, text }) => `--- ${name}\n${text}`)].join("\n");
}

describe("one rewriting at a time", () => {
  for (const [number, rewriting] of REWRITINGS.entries()) {
    it(rewriting.name, () => {
      restartNames();
      let met = 0;
      const choice = choiceFrom(SEED + number);
      const start = choice.below(sketches.length);
      const failures: string[] = [];
      for (let at = 0; at < sketches.length && met < EACH; at++) {
        const { name, sketch } = sketches[(start + at) % sketches.length]!;
        const after = rewritten(rewriting, sketch, SEED + at);
        if (after === null) continue;
        met++;
        const changes = differences(reportOf(sketch), fingerprint(analysed(after, parser)), rewriting.slower);
        if (changes.length > 0) failures.push(`${name}\n${changes.join("\n")}\n${shown(sketch, after)}`);
      }
      expect(failures.join("\n========\n")).toBe("");
      expect(met).toBeGreaterThan(0);
    });
  }
});

it("chains of rewritings", () => {
  fc.assert(
    fc.property(
      fc.nat(sketches.length - 1),
      fc.array(fc.record({ rewriting: fc.nat(REWRITINGS.length - 1), seed: fc.nat(1_000) }), {
        minLength: 2,
        maxLength: LONGEST_CHAIN,
      }),
      (index, chain) => {
        restartNames();
        const { name, sketch } = sketches[index]!;
        let after = sketch;
        for (const { rewriting, seed } of chain) after = rewritten(REWRITINGS[rewriting]!, after, seed) ?? after;
        const slower = chain.some(({ rewriting }) => REWRITINGS[rewriting]!.slower);
        const changes = differences(reportOf(sketch), fingerprint(analysed(after, parser)), slower);
        if (changes.length > 0) throw new Error(`${name}\n${changes.join("\n")}\n${shown(sketch, after)}`);
      },
    ),
    { seed: SEED, numRuns: CHAINS },
  );
});
