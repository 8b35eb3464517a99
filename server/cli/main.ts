/** The command line's work: read the words, report, choose the exit status. Output goes through the caller, so tests see all of it. */
import type { Severity } from "../../shared-model/report.js";
import { gravity } from "../findings/findings.js";
import { createParser, type Parser } from "../parse/parse.js";
import { report } from "../report/report.js";
import { type ReportRequest, readArguments } from "./arguments.js";
import { USAGE } from "./help.js";
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
  }
}

const VERSION = process.env["PULSEWRIGHT_VERSION"] ?? "0";

async function runReport(request: ReportRequest, surroundings: Surroundings): Promise<Status> {
  if (request.format === "markdown" || request.format === "sarif") {
    surroundings.complain(`pulsewright: the ${request.format} format is not available yet; text and json are`);
    return 2;
  }
  const parser: Parser = await createParser("auto", { directories: [surroundings.beside] });
  const { sheets, complaints } = reportOn(request, parser);
  for (const complaint of complaints) surroundings.complain(`pulsewright: ${complaint}`);
  if (request.format === "json") {
    const whole = report(
      sheets.map((sheet) => sheet.reported),
      VERSION,
    );
    surroundings.out(`${JSON.stringify(whole, null, 2)}\n`);
  } else {
    surroundings.out(sheets.map((sheet) => sheet.text()).join("\n"));
  }
  if (complaints.length > 0) return 2;
  return sheets.some((sheet) => reaches(sheet, request.failOn)) ? 1 : 0;
}

function reaches(sheet: SketchSheet, failOn: Severity): boolean {
  return sheet.reported.findings.some((finding) => gravity(finding.severity) <= gravity(failOn));
}
