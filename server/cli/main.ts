/** The command line's work: read the words, report, choose the exit status. Output goes through the caller, so tests see all of it. */
import type { Severity } from "../../shared-model/report.js";
import { gravity } from "../findings/findings.js";
import { createParser, type Parser } from "../parse/parse.js";
import { sheetsMarkdown } from "../report/markdown.js";
import { report } from "../report/report.js";
import { sheetText } from "../report/text.js";
import { type Format, type ReportRequest, readArguments } from "./arguments.js";
import { explainReading } from "./explain-reading.js";
import { USAGE } from "./help.js";
import { planPins } from "./plan-pins.js";
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
    case "plan":
      return planPins(request.plan, surroundings.out, surroundings.complain);
  }
}

const VERSION = process.env["PULSEWRIGHT_VERSION"] ?? "0";

async function runReport(request: ReportRequest, surroundings: Surroundings): Promise<Status> {
  if (request.format === "sarif") {
    surroundings.complain("pulsewright: the sarif format is not available yet");
    return 2;
  }
  const parser: Parser = await createParser("auto", { directories: [surroundings.beside] });
  const { sheets, complaints } = reportOn(request, parser);
  for (const complaint of complaints) surroundings.complain(`pulsewright: ${complaint}`);
  surroundings.out(printed(sheets, request.format));
  if (complaints.length > 0) return 2;
  return sheets.some((sheet) => reaches(sheet, request.failOn)) ? 1 : 0;
}

function printed(sheets: readonly SketchSheet[], format: Format): string {
  switch (format) {
    case "text":
      return sheets.map(({ reported, analysis }) => sheetText(reported, analysis)).join("\n");
    case "json": {
      const whole = report(
        sheets.map((sheet) => sheet.reported),
        VERSION,
      );
      return `${JSON.stringify(whole, null, 2)}\n`;
    }
    case "markdown":
      return sheetsMarkdown(sheets, VERSION);
    case "sarif":
      throw new RangeError("not here yet");
  }
}

function reaches(sheet: SketchSheet, failOn: Severity): boolean {
  return sheet.reported.findings.some((finding) => gravity(finding.severity) <= gravity(failOn));
}
