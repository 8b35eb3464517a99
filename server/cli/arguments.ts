/** Words of the command line → what is asked for. Pure: no files, no output. */
import { parseArgs } from "node:util";
import { readClock } from "../../shared-model/clock-text.js";
import type { Severity } from "../../shared-model/report.js";
import { type ExplainWords, readExplainWords } from "./explain-request.js";
import { type PlanWords, readPlanWords } from "./plan-request.js";
import { type PlanSketchWords, readPlanSketchWords } from "./plan-sketch-request.js";

export const FORMATS = ["text", "json", "markdown", "sarif"] as const;
export type Format = (typeof FORMATS)[number];

export interface ReportRequest {
  readonly paths: readonly string[];
  readonly board: string | undefined;
  readonly clockHz: number | undefined;
  readonly format: Format;
  readonly libraries: readonly string[];
  /** Folder of an installed core, executed in place of the built-in model. */
  readonly core: string | undefined;
  readonly failOn: Severity;
  /** Findings that a comment allows are listed too, as suppressed (SARIF). */
  readonly allowed: boolean;
}

export type Request =
  | { readonly kind: "report"; readonly report: ReportRequest }
  | { readonly kind: "plan"; readonly plan: PlanWords }
  | { readonly kind: "plan sketch"; readonly plan: PlanSketchWords }
  | { readonly kind: "explain"; readonly explain: ExplainWords }
  | { readonly kind: "serve" }
  | { readonly kind: "help" }
  | { readonly kind: "version" }
  | { readonly kind: "wrong"; readonly reason: string };

const SEVERITIES: readonly Severity[] = ["note", "warning", "error"];

export function readArguments(words: readonly string[]): Request {
  const [command, ...rest] = words;
  if (command === undefined) return wrong("no command given");
  if (command === "--help" || command === "-h" || command === "help") return { kind: "help" };
  if (command === "--version" || command === "-v") return { kind: "version" };
  if (rest.includes("--help") || rest.includes("-h")) return { kind: "help" };
  if (command === "report") return readReport(rest);
  if (command === "serve")
    return rest.length === 1 && rest[0] === "--stdio" ? { kind: "serve" } : wrong("serve takes exactly --stdio");
  if (command === "plan") return readPlan(rest);
  if (command === "explain") return readExplain(rest);
  return wrong(`unknown command "${command}"`);
}

function readPlan(words: readonly string[]): Request {
  const ofSketch = readPlanSketchWords(words);
  if (ofSketch !== null)
    return typeof ofSketch === "string" ? wrong(ofSketch) : { kind: "plan sketch", plan: ofSketch };
  const plan = readPlanWords(words);
  return "problem" in plan ? wrong(plan.problem) : { kind: "plan", plan };
}

function readExplain(words: readonly string[]): Request {
  const explain = readExplainWords(words);
  return "problem" in explain ? wrong(explain.problem) : { kind: "explain", explain };
}

function readReport(words: readonly string[]): Request {
  let parsed: ReturnType<typeof parseReport>;
  try {
    parsed = parseReport(words);
  } catch (error) {
    return wrong(error instanceof Error ? firstSentence(error.message) : String(error));
  }
  const { values, positionals } = parsed;
  if (positionals.length === 0) return wrong("report needs a sketch file or a folder");
  const format = values.format ?? "text";
  if (!isOneOf(format, FORMATS)) return wrong(`unknown format "${format}": it is one of ${FORMATS.join(", ")}`);
  const failOn = values["fail-on"] ?? "error";
  if (!isOneOf(failOn, SEVERITIES))
    return wrong(`unknown severity "${failOn}": --fail-on takes ${SEVERITIES.join(", ")}`);
  if (values.allowed === true && format !== "sarif") return wrong("--allowed goes with --format sarif");
  const clockHz = values.clock === undefined ? undefined : readClock(values.clock);
  if (clockHz === null) return wrong(`"${values.clock}" is no clock: give it in Hz, as in 16000000, 8e6 or 8MHz`);
  return {
    kind: "report",
    report: {
      paths: positionals,
      board: values.board,
      clockHz,
      format,
      libraries: values.libraries ?? [],
      core: values.core,
      failOn,
      allowed: values.allowed ?? false,
    },
  };
}

function parseReport(words: readonly string[]) {
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
      "fail-on": { type: "string" },
      allowed: { type: "boolean" },
    },
  });
}

function isOneOf<T extends string>(word: string, words: readonly T[]): word is T {
  return words.some((known) => known === word);
}

function firstSentence(message: string): string {
  const end = message.search(/\.\s|\n/);
  return end < 0 ? message.replace(/\.$/, "") : message.slice(0, end);
}

function wrong(reason: string): Request {
  return { kind: "wrong", reason };
}
