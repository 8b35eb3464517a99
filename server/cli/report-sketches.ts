/** The paths of the command line → one sheet a sketch. A sketch that fails loses only itself. */

import type { Target } from "../../shared-model/chip.js";
import type { ReportedSketch } from "../../shared-model/report.js";
import { specifications } from "../../shared-model/specifications.js";
import { type AnalyseInput, analyse } from "../analyse.js";
import type { Analysis } from "../analysis.js";
import { disk } from "../files/file-access.js";
import { type OpenedSketch, openSketch } from "../files/open-sketch.js";
import { isSketchFile, type SketchPlace, sketchesUnder, sketchFrom } from "../files/sketch-place.js";
import type { Finding } from "../findings/finding.js";
import { findingsOf } from "../findings/findings.js";
import { DEFAULT_LIMITS, DOOR_LIMITS, Stopped } from "../limits.js";
import type { Parser } from "../parse/parse.js";
import type { Gap } from "../preprocess/source.js";
import { reportSketch } from "../report/report.js";
import type { ReportRequest } from "./arguments.js";

export interface SketchSheet {
  readonly reported: ReportedSketch;
  readonly analysis: Analysis;
  readonly findings: readonly Finding[];
  /** Findings that a comment of the sketch allows. */
  readonly allowed: readonly Finding[];
  /** Files of the sketch that could not be read. */
  readonly unread: readonly Gap[];
  /** The analysis was given up, a check failed. */
  readonly failures: readonly Gap[];
  /** What the analysis was made from; null where it was given up. */
  readonly input: AnalyseInput | null;
}

/** A path of the command line, or one of its folders, that could not be read. */
export interface Complaint {
  readonly path: string;
  readonly reason: string;
}

export interface Sheets {
  readonly sheets: readonly SketchSheet[];
  /** One for each path or sketch that could not be read. */
  readonly complaints: readonly Complaint[];
}

/** The words of the command line that decide what is analysed, and as what. */
export type SketchRequest = Pick<ReportRequest, "paths" | "board" | "clockHz" | "libraries" | "core">;

export function reportOn(request: SketchRequest, parser: Parser): Sheets {
  const complaints: Complaint[] = [];
  for (const folder of request.libraries) {
    if (disk.kindOf(folder) !== "folder")
      complaints.push({ path: folder, reason: "there is no such folder of libraries" });
  }
  if (request.core !== undefined && disk.kindOf(request.core) !== "folder")
    complaints.push({ path: request.core, reason: "there is no such folder of a core" });
  const places = request.paths.flatMap((path) => {
    const found = placesAt(path);
    if (typeof found !== "string") return found;
    complaints.push({ path, reason: found });
    return [];
  });
  const sheets: SketchSheet[] = [];
  for (const place of withoutRepeats(places)) {
    const sheet = sheetOf(place, request, parser);
    if (typeof sheet === "string") complaints.push({ path: place.path, reason: sheet });
    else sheets.push(sheet);
  }
  return { sheets, complaints };
}

/** The sketches that a path stands for, or why there are none. */
function placesAt(path: string): readonly SketchPlace[] | string {
  const kind = disk.kindOf(path);
  if (kind === undefined) return "there is no such file or folder";
  if (kind === "folder") {
    const found = sketchesUnder(path, disk);
    return found.length === 0 ? "there is no sketch in this folder" : found;
  }
  return isSketchFile(path) ? [sketchFrom(path, disk)] : "this is no sketch file (.ino, .pde, .cpp, .c)";
}

/** Two tabs of one sketch named side by side are one sketch. */
function withoutRepeats(places: readonly SketchPlace[]): SketchPlace[] {
  const byFiles = new Map<string, SketchPlace>();
  for (const place of places) {
    const key = JSON.stringify([place.tabs, place.units]);
    if (!byFiles.has(key)) byFiles.set(key, place);
  }
  return [...byFiles.values()];
}

function sheetOf(place: SketchPlace, request: SketchRequest, parser: Parser): SketchSheet | string {
  const opening = openSketch(
    place,
    {
      commandLine: { board: request.board, clockHz: request.clockHz },
      libraries: request.libraries,
      core: request.core,
      workspace: [],
    },
    disk,
  );
  if (opening.kind !== "opened") return opening.reason;
  const gaps: Gap[] = [...opening.gaps];
  const input = inputOf(opening, parser);
  const known = analysed(input, gaps);
  const analysis = known ?? nothingKnown(opening, opening.target);
  const allowed: Finding[] = [];
  const findings = findingsOf(analysis, {
    perFile: DEFAULT_LIMITS.findingsPerFile,
    onAllowed: (finding) => allowed.push(finding),
    onFailure: (id, error) => gaps.push(failure(`the check ${id}`, error)),
  });
  const reported = reportSketch({ path: place.path, analysis, findings, gaps });
  return {
    reported,
    analysis,
    findings,
    allowed,
    unread: opening.gaps,
    failures: gaps.slice(opening.gaps.length),
    input: known === null ? null : input,
  };
}

function inputOf({ loaded, target, specifications: known }: OpenedSketch, parser: Parser): AnalyseInput {
  const deadline = performance.now() + DOOR_LIMITS.commandLineMilliseconds;
  return {
    sources: loaded.sources,
    target,
    specifications: known,
    parser,
    limits: DEFAULT_LIMITS,
    stop: () => {
      if (performance.now() > deadline) throw new Stopped();
    },
  };
}

/** The analysis; null, with the reason among the gaps, where the engine fails or takes too long. */
function analysed(input: AnalyseInput, gaps: Gap[]): Analysis | null {
  try {
    return analyse(input);
  } catch (error) {
    const seconds = DOOR_LIMITS.commandLineMilliseconds / 1000;
    gaps.push(
      error instanceof Stopped
        ? { reason: `the analysis took longer than ${seconds} s and was given up`, span: null, affects: ["everything"] }
        : failure("the analysis", error),
    );
    return null;
  }
}

/** A fault of ours, said as such. */
function failure(what: string, error: unknown): Gap {
  const reason = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return {
    reason: `${what} failed (a bug in Pulsewright): ${reason.slice(0, 300)}`,
    span: null,
    affects: ["everything"],
  };
}

function nothingKnown({ loaded }: OpenedSketch, target: Target): Analysis {
  return {
    target,
    files: [...loaded.sources.tabs, ...loaded.sources.units],
    core: true,
    specifications,
    comments: [],
    remarks: [],
    writes: [],
    calls: [],
    timers: target.chip.timers.map((timer) => ({ timer: timer.number, states: [] })),
    pins: [],
    interrupts: [],
    gaps: [],
    complete: false,
    names: [],
  };
}
