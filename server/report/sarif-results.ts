/** Findings as SARIF's results: message, places, what tells them again, and the fixes that were proved. */
import type { Span } from "../../shared-model/span.js";
import type { Analysis } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";
import { type Allowance, allowances, isAllowed } from "../findings/allow.js";
import type { Finding, Fix } from "../findings/finding.js";
import { hashOf, lineHashes, normalised } from "./fingerprints.js";
import { message as marked } from "./markdown-words.js";
import type { SarifFix, SarifLocation, SarifMessage, SarifResult } from "./sarif-log.js";
import type { SarifPlaces } from "./sarif-places.js";
import { ruleReference, textOf } from "./sarif-rules.js";
import { shownPaths } from "./shown-paths.js";

export interface SarifFindings {
  readonly analysis: Analysis;
  readonly findings: readonly Finding[];
  /** Findings that a comment of the sketch allows; only where they were asked for. */
  readonly allowed: readonly Finding[];
  /** The edits of the fixes that keep their promise. */
  readonly proved: ReadonlyMap<Fix, readonly TextEdit[]>;
}

/** In the order of place, then rule. */
export function sarifResults(sketches: readonly SarifFindings[], places: SarifPlaces): SarifResult[] {
  const results = sketches.flatMap((sketch) => {
    const prints = fingerprintsOf(sketch.analysis);
    const excuses = sketch.allowed.length === 0 ? [] : allowances(sketch.analysis);
    return [
      ...sketch.findings.map((finding) => resultOf(finding, sketch, places, prints)),
      ...sketch.allowed.map((finding) => ({
        ...resultOf(finding, sketch, places, prints),
        suppressions: [suppression(finding, sketch.analysis, excuses)],
      })),
    ];
  });
  // A header that two sketches share is told of once.
  const once = new Map(results.map((result) => [JSON.stringify(result), result]));
  return [...once.values()].sort(
    (left, right) =>
      compare(uriOf(left), uriOf(right)) ||
      offsetOf(left) - offsetOf(right) ||
      left.ruleIndex - right.ruleIndex ||
      compare(left.message.text, right.message.text),
  );
}

function resultOf(
  finding: Finding,
  sketch: SarifFindings,
  places: SarifPlaces,
  fingerprints: (finding: Finding) => Readonly<Record<string, string>>,
): SarifResult {
  const { clean } = shownPaths(sketch.analysis);
  const here = places.location(finding.span);
  const related: SarifLocation[] = finding.related.flatMap(({ span, message }) => {
    const there = places.location(span);
    return there === null ? [] : [{ ...there, message: { text: sentence(textOf(clean(message)).text) } }];
  });
  const numbered = related.map((location, at) => ({ id: at + 1, ...location }));
  const fixes = finding.fixes.flatMap((fix) => {
    const edits = sketch.proved.get(fix);
    const made = edits === undefined ? null : fixOf(fix, edits, places);
    return made === null ? [] : [made];
  });
  return {
    ...ruleReference(finding.id),
    level: finding.severity,
    message: withLinks(clean(finding.message), numbered),
    locations: here === null ? [] : [here],
    ...(numbered.length === 0 ? {} : { relatedLocations: numbered }),
    partialFingerprints: fingerprints(finding),
    ...(fixes.length === 0 ? {} : { fixes: unique(fixes) }),
  };
}

/** The message with a link to each related place, in the form that SARIF gives links: `[words](id)`. */
function withLinks(finding: string, related: readonly SarifLocation[]): SarifMessage {
  const links = related.map(
    ({ id, message: words }) => `[${escapedLink(words?.text.replace(/\.$/, "") ?? "")}](${id})`,
  );
  const see = links.length === 0 ? "" : ` See ${links.join(", ")}.`;
  const whole = sentence(finding);
  const { text, markdown } = textOf(whole);
  const plain = `${guarded(text)}${see}`;
  return markdown === undefined ? { text: plain } : { text: plain, markdown: `${marked(whole)}${see}` };
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}

/** Text of the sketch that would be read as a placeholder or a link is set apart, as the standard says. */
function guarded(text: string): string {
  return text
    .replace(/\{(?=\d+\})/g, "{{")
    .replace(/(?<=\{\{\d+)\}/g, "}}")
    .replace(/\[(?=[^\]]*\]\()/g, "\\[");
}

function escapedLink(words: string): string {
  return words.replace(/[\\[\]]/g, "\\$&");
}

function fixOf(fix: Fix, edits: readonly TextEdit[], places: SarifPlaces): SarifFix | null {
  const paths = [...new Set(edits.map((edit) => edit.span.path))].sort();
  const changes = paths.flatMap((path) => {
    const artifactLocation = places.artifact(path);
    if (artifactLocation === null) return [];
    const replacements = edits
      .filter((edit) => edit.span.path === path)
      .sort((left, right) => left.span.start - right.span.start || left.span.end - right.span.end)
      .map((edit) => ({
        deletedRegion: places.region(edit.span),
        ...(edit.text === "" ? {} : { insertedContent: { text: edit.text } }),
      }));
    return [{ artifactLocation, replacements }];
  });
  // Half a fix is none.
  if (changes.length === 0 || changes.length < paths.length) return null;
  return {
    description: { text: sentence(textOf(fix.title).text) },
    artifactChanges: changes,
    properties: {
      safety: fix.safety.kind === "safe" ? "safe" : `changes behaviour because ${fix.safety.because}`,
    },
  };
}

function unique(fixes: readonly SarifFix[]): SarifFix[] {
  return [...new Map(fixes.map((fix) => [JSON.stringify(fix), fix])).values()];
}

function suppression(finding: Finding, { comments }: Analysis, excuses: readonly Allowance[]) {
  const reason = comments.flatMap(({ comment, span }) =>
    comment.kind !== "settings" || span.path !== finding.span.path
      ? []
      : (comment.allow ?? []).filter(
          (allow) =>
            allow.id === finding.id &&
            excuses.some((excuse) => excuse.id === allow.id && isAllowed([excuse], finding.id, finding.span)),
        ),
  )[0]?.because;
  return { kind: "inSource", status: "accepted", ...(reason == null ? {} : { justification: reason }) } as const;
}

/**
 * What a finding is told again by: timer, register or pin concerned, and the statement as it reads without blanks and
 * remarks; equal ones are counted in the order of the text. And the hash of its first line.
 */
function fingerprintsOf(analysis: Analysis): (finding: Finding) => Readonly<Record<string, string>> {
  const hashes = new Map<string, ReadonlyMap<number, string>>();
  const counts = new Map<string, number>();
  return (finding) => {
    const text = analysis.files.find(({ path }) => path === finding.span.path)?.text ?? "";
    let lines = hashes.get(finding.span.path);
    if (lines === undefined) {
      lines = lineHashes(text.replace(/^\ufeff/, ""));
      hashes.set(finding.span.path, lines);
    }
    const key = [finding.id, ...subject(analysis, finding.span), normalised(statementAt(text, finding.span))].join("|");
    const count = (counts.get(`${finding.span.path}|${key}`) ?? 0) + 1;
    counts.set(`${finding.span.path}|${key}`, count);
    const line = text.slice(0, finding.span.start).split(/\r\n|\n|\r/).length;
    const lineHash = lines.get(line);
    return {
      "pulsewright/timerState/v1": hashOf(`${key.slice(finding.id.length + 1)}|${count}`),
      ...(lineHash === undefined ? {} : { primaryLocationLineHash: lineHash }),
    };
  };
}

/** Timer, register and pins that the place is about: of the write that it lies in, or of the want. */
function subject(analysis: Analysis, span: Span): string[] {
  const write = analysis.writes.find(
    (candidate) =>
      candidate.span.path === span.path && candidate.span.start < span.end + 1 && candidate.span.end >= span.start,
  );
  const comment = analysis.comments.find(
    (candidate) =>
      candidate.span.path === span.path && candidate.span.start <= span.start && candidate.span.end >= span.end,
  );
  const pins = analysis.pins.filter((pin) => write !== undefined && pin.timer !== null && pin.timer === write.timer);
  return [
    write?.timer == null ? "" : `timer ${write.timer}`,
    write?.register ?? "",
    comment?.pin ?? pins.map(({ pin }) => pin).join(","),
  ];
}

/** From the end of the statement before to the end of this one. */
function statementAt(text: string, span: Span): string {
  const start =
    Math.max(...[";", "{", "}", "\n"].map((mark) => text.lastIndexOf(mark, Math.max(0, span.start - 1)))) + 1;
  const ends = [";", "\n"].map((mark) => text.indexOf(mark, span.end)).filter((at) => at >= 0);
  return text.slice(Math.min(start, span.start), ends.length === 0 ? span.end : Math.min(...ends));
}

function uriOf({ locations }: SarifResult): string {
  return locations[0]?.physicalLocation?.artifactLocation.uri ?? "";
}

function offsetOf({ locations }: SarifResult): number {
  return locations[0]?.physicalLocation?.region?.charOffset ?? -1;
}

/** By code units: the same on every machine, whatever its language. */
function compare(left: string, right: string): number {
  return left < right ? -1 : left > right ? 1 : 0;
}
