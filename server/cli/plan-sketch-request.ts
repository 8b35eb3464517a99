/** The words of `pulsewright plan SKETCH`: told from `plan --pin PIN "WANT"` by what the one word looks like. Pure. */
import { parseArgs } from "node:util";
import { readClock } from "../../shared-model/clock-text.js";
import type { SketchRequest } from "./report-sketches.js";

export interface PlanSketchWords extends SketchRequest {
  readonly format: "text" | "json";
}

/** Null where the words ask for something else; a string says what is wrong. */
export function readPlanSketchWords(words: readonly string[]): PlanSketchWords | string | null {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(words);
  } catch {
    return null;
  }
  const { values, positionals } = parsed;
  if (positionals.length === 0 || !positionals.every(looksLikeSketch)) return null;
  const format = values.format ?? "text";
  if (format !== "text" && format !== "json")
    return `unknown format "${format}": the plans of a sketch are printed as text or json`;
  const clockHz = values.clock === undefined ? undefined : readClock(values.clock);
  if (clockHz === null) return `"${values.clock}" is no clock: give it in Hz, as in 16000000, 8e6 or 8MHz`;
  return {
    paths: positionals,
    board: values.board,
    clockHz,
    libraries: values.libraries ?? [],
    core: values.core,
    format,
  };
}

/** A want has a blank or a unit in it, a sketch an ending or a folder. */
function looksLikeSketch(word: string): boolean {
  return /\.(?:ino|pde|cpp|c)$/i.test(word) || /^[^\s"]*[\\/][^\s"]*$/.test(word);
}

function parse(words: readonly string[]) {
  return parseArgs({
    args: [...words],
    allowPositionals: true,
    strict: true,
    options: {
      board: { type: "string" },
      clock: { type: "string" },
      format: { type: "string" },
      libraries: { type: "string", multiple: true },
      core: { type: "string" },
    },
  });
}
