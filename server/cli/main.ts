/** The command line's work: read the words, report, choose the exit status. Output goes through the caller, so tests see all of it. */
import type { Severity } from "../../shared-model/report.js";
import { gravity } from "../findings/findings.js";
import { createParser, type Parser } from "../parse/parse.js";
import { type ReportRequest, readArguments } from "./arguments.js";
import { explainReading } from "./explain-reading.js";
import { USAGE } from "./help.js";
import { planPins } from "./plan-pins.js";
import { planSketch } from "./plan-sketch.js";
import { printed } from "./printed-report.js";
import { reportOn, type SketchSheet } from "./report-sketches.js";

export interface Surroundings {
  readonly out: (text: string) => void;
  /** One line on stderr. */
  readonly complain: (line: string) => void;
  readonly serve: () => Promise<number>;
  /** The folder of the bundle, where the parser's files are. */
  readonly beside: string;
}

/** 0: nothing at or above --fail-on. 1: something was. 2: bad usage or unreadable input. */
export type Status = 0 | 1 | 2;

export async function main(words: readonly string[], surroundings: Surroundings): Promise<number> {
  const request = readArguments(words);
  switch (request.kind) {
    case "help":
      surroundings.out(USAGE);
      return 0;
    case "version":
      surroundings.out(`pulsewright ${VERSION}\n`);
      return 0;
    case "wrong":
      surroundings.complain(`pulsewright: ${request.reason} (see pulsewright --help)`);
      return 2;
    case "serve":
      return surroundings.serve();
    case "report":
      return runReport(request.report, surroundings);
    case "explain":
      return explainReading(request.explain, surroundings.beside, surroundings.out, surroundings.complain);
    case "plan sketch":
      return planSketch(request.plan, surroundings.beside, surroundings.out, surroundings.complain);
    case "plan":
      return planPins(request.plan, surroundings.out, surroundings.complain);
  }
}

const VERSION = process.env["PULSEWRIGHT_VERSION"] ?? "0";

async function runReport(request: ReportRequest, surroundings: Surroundings): Promise<Status> {
  const parser: Parser = await createParser("auto", { directories: [surroundings.beside] });
  const { sheets, complaints } = reportOn(request, parser);
  for (const { path, reason } of complaints) surroundings.complain(`pulsewright: ${path}: ${reason}`);
  const failed = sheets.some((sheet) => reaches(sheet, request.failOn));
  const status = complaints.length > 0 ? 2 : failed ? 1 : 0;
  surroundings.out(printed({ sheets, complaints }, request, status, VERSION));
  return status;
}

function reaches(sheet: SketchSheet, failOn: Severity): boolean {
  return sheet.reported.findings.some((finding) => gravity(finding.severity) <= gravity(failOn));
}
