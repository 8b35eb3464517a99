/**
 * The engine with faults on demand, put in the place of `server/analyse.ts` when the server is bundled for the fault tests: a
 * sketch that says so throws, hangs (deaf or listening), or eats all memory. Every other sketch goes to the real engine.
 */

import type { AnalyseInput } from "../../server/analyse.js";
import * as real from "../../server/analyse.js";
import type { Analysis } from "../../server/analysis.js";

export type { AnalyseInput };

export function analyse(input: AnalyseInput): Analysis {
  const text = [...input.sources.tabs, ...input.sources.units].map((file) => file.text).join("\n");
  if (text.includes("fault: throw")) throw new TypeError("a fault on demand");
  if (text.includes("fault: deaf")) for (;;) Math.random();
  if (text.includes("fault: slow")) for (;;) input.stop();
  if (text.includes("fault: memory")) {
    const all: number[][] = [];
    for (;;) all.push(new Array<number>(1_000_000).fill(all.length));
  }
  return real.analyse(input);
}
