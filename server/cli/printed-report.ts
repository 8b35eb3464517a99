/** What `report` prints, in the format that was asked for. */
import { sheetsMarkdown } from "../report/markdown.js";
import { report } from "../report/report.js";
import { sarifLog } from "../report/sarif.js";
import type { SarifLog } from "../report/sarif-log.js";
import { sheetText } from "../report/text.js";
import type { ReportRequest } from "./arguments.js";
import { provedFixes } from "./proved-fixes.js";
import type { Sheets } from "./report-sketches.js";
import { sourceRoot } from "./source-root.js";

export function printed(made: Sheets, request: ReportRequest, status: number, version: string): string {
  const { sheets } = made;
  switch (request.format) {
    case "text":
      return sheets.map(({ reported, analysis }) => sheetText(reported, analysis)).join("\n");
    case "json": {
      const whole = report(
        sheets.map((sheet) => sheet.reported),
        version,
      );
      return `${JSON.stringify(whole, null, 2)}\n`;
    }
    case "markdown":
      return sheetsMarkdown(sheets, version);
    case "sarif":
      return `${JSON.stringify(sarifOf(made, request, status, version), null, 2)}\n`;
  }
}

function sarifOf({ sheets, complaints }: Sheets, request: ReportRequest, status: number, version: string): SarifLog {
  const root = sourceRoot(sheets.map(({ analysis, reported }) => analysis.files[0]?.path ?? reported.path));
  return sarifLog({
    sketches: sheets.map((sheet) => {
      const { edits, untried } = provedFixes(sheet);
      return { ...sheet, allowed: request.allowed ? sheet.allowed : [], proved: edits, untried };
    }),
    uriOf: root.uriOf,
    root: root.words,
    complaints: complaints.map(({ path, reason }) => `${lastName(path)}: ${reason}`),
    exitCode: status,
    version,
    category: request.board ?? "",
  });
}

/** A path as a log may show it: without the machine's folders. */
function lastName(path: string): string {
  return path.replace(/[\\/]+$/, "").replace(/^.*[\\/]/, "") || path;
}
