/**
 * The run as a SARIF log, for code scanning and for viewers. Deterministic: no time, machine, user or absolute path; results
 * sorted; no facts beside the findings. There is no page on the net yet, so no `informationUri` and no `helpUri`: the rules carry
 * their help with them.
 */
import type { Analysis } from "../analysis.js";
import type { Gap } from "../preprocess/source.js";
import type { SarifLog, SarifNotification } from "./sarif-log.js";
import { type KnownFile, ROOT, type SarifPlaces, sarifPlaces } from "./sarif-places.js";
import { type SarifFindings, sarifResults } from "./sarif-results.js";
import { type Condition, conditionReference, notificationDescriptors, ruleDescriptors, textOf } from "./sarif-rules.js";
import { shownPaths } from "./shown-paths.js";

export interface SarifSketch extends SarifFindings {
  /** Files that could not be read. */
  readonly unread: readonly Gap[];
  /** The analysis was given up, a check failed. */
  readonly failures: readonly Gap[];
  /** Fixes that were not tried. */
  readonly untried: number;
}

export interface SarifRequest {
  readonly sketches: readonly SarifSketch[];
  /** A path from the root, percent-encoded; null for a file outside of it. */
  readonly uriOf: (path: string) => string | null;
  /** What the root is, in a sentence. */
  readonly root: string;
  /** Paths of the command line that could not be read, one line each. */
  readonly complaints: readonly string[];
  readonly exitCode: number;
  readonly version: string;
  /** Tells runs of one repository apart that should not replace one another: the board, where one was asked for. */
  readonly category: string;
}

const SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

export function sarifLog(request: SarifRequest): SarifLog {
  const places = sarifPlaces(request.sketches.flatMap((sketch) => knownFiles(sketch, request)));
  const given = request.sketches.flatMap(({ failures, analysis }) =>
    failures.map((gap) => notification("given up", gap, analysis, places)),
  );
  const gaps = request.sketches.flatMap(({ unread, analysis }) =>
    [...unread, ...analysis.gaps].map((gap) => notification("not followed", gap, analysis, places)),
  );
  const untried = request.sketches.reduce((sum, sketch) => sum + sketch.untried, 0);
  return {
    $schema: SCHEMA,
    version: "2.1.0",
    runs: [
      {
        tool: {
          driver: {
            name: "Pulsewright",
            fullName: `Pulsewright ${request.version}`,
            version: request.version,
            semanticVersion: request.version,
            language: "en",
            shortDescription: { text: "Says what every pin of an Arduino / AVR sketch puts out." },
            isComprehensive: true,
            rules: ruleDescriptors(),
            notifications: notificationDescriptors(),
          },
        },
        automationDetails: { id: `pulsewright/${request.category === "" ? "" : `${request.category}/`}` },
        invocations: [
          {
            executionSuccessful: request.complaints.length === 0 && given.length === 0,
            exitCode: request.exitCode,
            toolExecutionNotifications: [
              ...unique([...given, ...gaps]),
              ...(untried === 0 ? [] : [fixesNotTried(untried)]),
            ],
            toolConfigurationNotifications: request.complaints.map((complaint) => ({
              descriptor: conditionReference("not read"),
              level: "error",
              message: { text: sentence(complaint) },
            })),
          },
        ],
        originalUriBaseIds: { [ROOT]: { description: { text: request.root } } },
        defaultEncoding: "utf-8",
        defaultSourceLanguage: "cplusplus",
        newlineSequences: ["\r\n", "\n", "\r"],
        columnKind: "utf16CodeUnits",
        artifacts: places.artifacts,
        results: sarifResults(request.sketches, places),
      },
    ],
  };
}

function knownFiles({ analysis }: SarifSketch, { uriOf }: SarifRequest): KnownFile[] {
  return analysis.files.map(({ path, text, kind }) => ({
    path,
    text,
    uri: uriOf(path),
    role: kind === "sketch" ? "analysisTarget" : "tracedFile",
  }));
}

/** A gap that leaves the results incomplete is what the standard calls an error. */
function notification(condition: Condition, gap: Gap, analysis: Analysis, places: SarifPlaces): SarifNotification {
  const whole = places.artifact(analysis.files[0]?.path ?? "");
  const at = gap.span === null ? null : places.location(gap.span);
  const location = at ?? (whole === null ? null : { physicalLocation: { artifactLocation: whole } });
  const touches = gap.affects.length === 0 ? "" : ` It touches ${gap.affects.join(", ")}.`;
  return {
    descriptor: conditionReference(condition),
    level: condition === "given up" || !analysis.complete ? "error" : "warning",
    message: { text: `${sentence(textOf(shownPaths(analysis).clean(gap.reason)).text)}${touches}` },
    ...(location === null ? {} : { locations: [location] }),
  };
}

function fixesNotTried(count: number): SarifNotification {
  return {
    descriptor: conditionReference("fixes not tried"),
    level: "note",
    message: {
      text: `${count} ${count === 1 ? "fix was" : "fixes were"} not tried and ${count === 1 ? "is" : "are"} left out.`,
    },
  };
}

function unique(notifications: readonly SarifNotification[]): SarifNotification[] {
  return [...new Map(notifications.map((each) => [JSON.stringify(each), each])).values()];
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
