/** A marked sketch, analysed as the doors would: the few helpers through which tests meet the engine. */
import { readFileSync } from "node:fs";
import { type AnalyseInput, analyse } from "../../server/analyse.js";
import type { Analysis } from "../../server/analysis.js";
import { targetInComments } from "../../server/files/target-comment.js";
import { DEFAULT_LIMITS } from "../../server/limits.js";
import { createParser, type Parser } from "../../server/parse/parse.js";
import type { SketchSources, SourceFile } from "../../server/preprocess/source.js";
import { resolveTarget } from "../../shared-model/target.js";
import { type MarkedSketch, readMarks } from "./marks.js";

let parser: Promise<Parser> | undefined;

/** One parser for all tests of a worker. */
export function sharedParser(): Promise<Parser> {
  parser ??= createParser("auto");
  return parser;
}

export interface AnalysedSketch extends MarkedSketch {
  readonly path: string;
  readonly input: AnalyseInput;
  readonly analysis: Analysis;
}

/** Reads a marked sketch from disk and analyses it with its marks blanked out. */
export async function analysedFile(file: string, shownAs: string): Promise<AnalysedSketch> {
  return analysedMarked(readFileSync(file, "utf8"), shownAs);
}

export async function analysedMarked(source: string, path: string): Promise<AnalysedSketch> {
  const marked = readMarks(source);
  const { input, analysis } = await analysedText(marked.text, path);
  return { ...marked, path, input, analysis };
}

export async function analysedText(
  text: string,
  path = "sketch.ino",
): Promise<{ readonly input: AnalyseInput; readonly analysis: Analysis }> {
  const file: SourceFile = { path, text, kind: "sketch" };
  const sources: SketchSources = { tabs: [file], units: [], include: () => undefined };
  const answer = resolveTarget({ comment: targetInComments([file]) });
  if ("problem" in answer) throw new Error(answer.problem);
  const input: AnalyseInput = {
    sources,
    target: answer.target,
    parser: await sharedParser(),
    limits: DEFAULT_LIMITS,
    stop: () => {},
  };
  return { input, analysis: analyse(input) };
}
