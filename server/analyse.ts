/** From a sketch's text to its analysis: the stages in a row. The one entry for the server, the command line and the tests. */
import { corePinsOf } from "../shared-model/boards/boards.js";
import type { Target } from "../shared-model/chip.js";
import { type Specification, specifications } from "../shared-model/specifications.js";
import type { Analysis } from "./analysis.js";
import { concludeComments } from "./conclude/comments.js";
import { conclude } from "./conclude/conclude.js";
import { watchedPlaces } from "./conclude/watched-places.js";
import { execute } from "./execute/execute.js";
import type { Limits, Stop } from "./limits.js";
import type { Parser } from "./parse/parse.js";
import { PREPROCESS_LIMITS, preprocess } from "./preprocess/preprocess.js";
import type { SketchSources } from "./preprocess/source.js";
import { lowerProgram } from "./program/program.js";

export interface AnalyseInput {
  readonly sources: SketchSources;
  readonly target: Target;
  /** Named specifications of the workspace's own, besides those of the house. */
  readonly specifications?: readonly Specification[];
  readonly parser: Parser;
  readonly limits: Limits;
  readonly stop: Stop;
}

/** The Arduino version that sketches are told of: the packaged core's IDE. */
const ARDUINO_VERSION = 10819;

/** Total: broken text gives an analysis with gaps, never an exception (but for `Stopped`, which `stop` throws). */
export function analyse(input: AnalyseInput): Analysis {
  const { target, limits, stop } = input;
  const source = preprocess(input.sources, {
    chip: target.chip,
    board: target.board ?? corePinsOf(target.chip.id) ?? null,
    boardMacro: target.boardMacro ?? target.board?.macro ?? null,
    fCpu: target.fCpu,
    arduinoVersion: ARDUINO_VERSION,
    limits: PREPROCESS_LIMITS,
    stop,
  });
  stop();
  const tree = input.parser.parse(source.text);
  stop();
  const program = lowerProgram(
    tree,
    source,
    target.chip,
    (target.board ?? corePinsOf(target.chip.id))?.constants ?? {},
  );
  stop();
  const known = [...specifications, ...(input.specifications ?? [])];
  const watched = watchedPlaces(concludeComments(source, program, target, known).wants);
  const execution = execute(program, target, limits, stop, watched);
  return conclude(source, program, execution, target, known);
}
