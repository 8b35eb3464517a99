/** From a sketch's text to its analysis: the stages in a row. The one entry for the server, the command line and the tests. */
import type { Target } from "../shared-model/chip.js";
import type { Analysis } from "./analysis.js";
import type { Limits, Stop } from "./limits.js";
import type { Parser } from "./parse/parse.js";
import type { SketchSources } from "./preprocess/source.js";

export interface AnalyseInput {
  readonly sources: SketchSources;
  readonly target: Target;
  readonly parser: Parser;
  readonly limits: Limits;
  readonly stop: Stop;
}

/** Total: broken text gives an analysis with gaps, never an exception (but for `Stopped`, which `stop` throws). */
export declare function analyse(input: AnalyseInput): Analysis;
