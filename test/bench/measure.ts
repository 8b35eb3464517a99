/** How long each stage takes on a sketch: the same calls as in server/analyse.ts, one by one, and that one as a whole. */
import { createRequire } from "node:module";
import { join } from "node:path";
import { type AnalyseInput, analyse } from "../../server/analyse.js";
import { conclude } from "../../server/conclude/conclude.js";
import { execute } from "../../server/execute/execute.js";
import { findingsOf } from "../../server/findings/findings.js";
import { DEFAULT_LIMITS } from "../../server/limits.js";
import type { Parser } from "../../server/parse/parse.js";
import { PREPROCESS_LIMITS, preprocess } from "../../server/preprocess/preprocess.js";
import { lowerProgram } from "../../server/program/program.js";
import { specifications } from "../../shared-model/specifications.js";
import { resolveTarget } from "../../shared-model/target.js";

/** Milliseconds. */
export interface Timings {
  /** tree-sitter alone on the text as written: what the ratio is taken against. */
  readonly treeSitter: number;
  readonly preprocess: number;
  /** tree-sitter on the expanded text, and the walk that makes plain nodes. */
  readonly parse: number;
  readonly lower: number;
  readonly execute: number;
  readonly conclude: number;
  /** `analyse` from text to analysis. */
  readonly whole: number;
  readonly findings: number;
}

export interface Measured extends Timings {
  readonly steps: number;
  readonly complete: boolean;
  readonly gaps: readonly string[];
}

/** tree-sitter without anything of ours around it. Undefined where the native build does not load. */
export function bareTreeSitter(): ((text: string) => void) | undefined {
  try {
    const load = createRequire(join(process.cwd(), "from-here.js"));
    const Bare = load("tree-sitter") as new () => {
      setLanguage(language: unknown): void;
      parse(text: string): unknown;
    };
    const parser = new Bare();
    parser.setLanguage(load("tree-sitter-cpp"));
    return (text) => void parser.parse(text);
  } catch {
    return undefined;
  }
}

export function measure(text: string, parser: Parser, bare: (text: string) => void): Measured {
  const answer = resolveTarget({});
  if ("problem" in answer) throw new Error(answer.problem);
  const { target } = answer;
  const sources = { tabs: [{ path: "bench.ino", text, kind: "sketch" as const }], units: [], include: () => undefined };
  const input: AnalyseInput = { sources, target, parser, limits: DEFAULT_LIMITS, stop: () => {} };

  const watch = stopwatch();
  const analysis = analyse(input);
  const whole = watch();
  findingsOf(analysis);
  const findings = watch();

  bare(text);
  const treeSitter = watch();
  const source = preprocess(sources, {
    chip: target.chip,
    board: target.board,
    boardMacro: target.boardMacro ?? null,
    fCpu: target.fCpu,
    arduinoVersion: 10819,
    limits: PREPROCESS_LIMITS,
    stop: () => {},
  });
  const preprocessing = watch();
  const tree = parser.parse(source.text);
  const parse = watch();
  const program = lowerProgram(tree, source, target.chip, target.board?.constants ?? {});
  const lower = watch();
  const execution = execute(program, target, DEFAULT_LIMITS, () => {});
  const executing = watch();
  conclude(source, program, execution, target, specifications);
  const concluding = watch();
  return {
    treeSitter,
    preprocess: preprocessing,
    parse,
    lower,
    execute: executing,
    conclude: concluding,
    whole,
    findings,
    steps: execution.steps,
    complete: analysis.complete,
    gaps: analysis.gaps.map((gap) => gap.reason),
  };
}

/** Milliseconds since the last asking. */
function stopwatch(): () => number {
  let last = performance.now();
  return () => {
    const now = performance.now();
    const passed = now - last;
    last = now;
    return passed;
  };
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
