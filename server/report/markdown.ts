/**
 * The signal sheet for the build log: Markdown that is made to be printed, with room for what the bench says. The same
 * sketch gives the same bytes: no date, no machine, no path of one.
 */
import { showClockError } from "../../shared-model/clock-spread.js";
import type { ReportedFinding, ReportedSketch } from "../../shared-model/report.js";
import type { Analysis } from "../analysis.js";
import { clockSpread } from "../look/bench-clock.js";
import { listed, showClock, showHz, showSeconds, showShare } from "../look/show.js";
import { sheetCautions } from "./cautions.js";
import { pinSections } from "./markdown-pins.js";
import { timerSections } from "./markdown-timers.js";
import { cell, code, codeCell, lines, message, plain, table } from "./markdown-words.js";
import { type Places, placesOf } from "./places.js";
import { type ShownPaths, shownPaths } from "./shown-paths.js";
import { baseName, showBounds } from "./signal-rows.js";

/** One sketch with what the JSON has no field for. */
export interface SheetSource {
  readonly reported: ReportedSketch;
  readonly analysis: Analysis;
}

/** What the parts of one sheet share. */
export interface SheetParts extends SheetSource {
  readonly places: Places;
  readonly paths: ShownPaths;
  /** A heading `below` the sketch's own. */
  heading(below: number, text: string): string;
}

export function sheetsMarkdown(sketches: readonly SheetSource[], version: string): string {
  const several = sketches.length > 1;
  const blocks = several ? [overview(sketches), ...sketches.map((one) => sheet(one, version, 2))] : [];
  const whole = several ? blocks : sketches.map((one) => sheet(one, version, 1));
  return `${whole.map((block) => joined(block)).join("\n\n---\n\n")}\n`;
}

/** Blocks with an empty line between them; an empty block leaves none. */
function joined(blocks: readonly (readonly string[])[]): string {
  return blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join("\n"))
    .join("\n\n");
}

function overview(sketches: readonly SheetSource[]): string[][] {
  const rows = sketches.map(({ reported }) => [
    cell(longName(reported.path)),
    codeCell(reported.board),
    reported.wants.length === 0 ? "none" : wantsInShort(reported),
    findingsInShort(reported.findings),
  ]);
  return [["# Signal sheets"], table(["Sketch", "Board", "Wants", "Findings"], rows)];
}

function wantsInShort({ wants }: ReportedSketch): string {
  const met = wants.filter((want) => want.met === "yes").length;
  return met === wants.length ? `all ${met} met` : `**${met} of ${wants.length} met**`;
}

function findingsInShort(findings: readonly ReportedFinding[]): string {
  const counts = (["error", "warning", "note"] as const).flatMap((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [`${count} ${severity}${count === 1 ? "" : "s"}`];
  });
  return counts.length === 0 ? "none" : listed(counts);
}

function sheet(source: SheetSource, version: string, level: number): string[][] {
  const parts: SheetParts = {
    ...source,
    places: placesOf(source.analysis),
    paths: shownPaths(source.analysis),
    heading: (below, text) => `${"#".repeat(Math.min(6, level + below))} ${text}`,
  };
  return [
    [
      parts.heading(
        0,
        `Signal sheet: ${plain(level === 1 ? baseName(source.reported.path) : longName(source.reported.path))}`,
      ),
    ],
    targetTable(parts, version),
    ...pinSections(parts),
    ...timerSections(parts),
    ...interruptSection(parts),
    ...findingSection(parts),
    ...gapSection(parts),
    ...cautionSection(parts),
    lines(
      `Predicted by Pulsewright ${plain(version)} from the text of the sketch; nothing here was measured but the readings that say so.`,
    ),
    ["Checked on the bench by ______________________ on ______________"],
  ];
}

/** The file with the folder it lies in, unless that says the same: tells several sketches apart. */
function longName(path: string): string {
  const folder = baseName(path.slice(0, -baseName(path).length - 1));
  const name = baseName(path);
  const stem = name.replace(/\.[^.]*$/, "");
  return folder === "" || folder === "." || folder === ".." || folder === stem ? name : `${folder}/${name}`;
}

function targetTable({ reported, analysis }: SheetParts, version: string): string[] {
  const { target } = analysis;
  const board =
    target.board === null ? "none, a bare chip" : `${cell(target.board.name)} (${codeCell(reported.board)})`;
  const clock = target.clockDecidedBy === "board" ? "the board's own" : decided(target.clockDecidedBy);
  const built =
    reported.fCpu === reported.clockHz ? "the same clock" : `**${showClock(reported.fCpu)}**, another clock`;
  return table(
    ["About", "What counts here", "Decided by"],
    [
      ["Board", board, decided(target.decidedBy)],
      ["Chip", codeCell(reported.chip), "the board"],
      [
        "Clock",
        `${showClock(reported.clockHz)} ±${showShare(reported.clockTolerance)}`,
        `${clock}; ${cell(target.toleranceSource)}`,
      ],
      ...measuredClock(analysis),
      ["Built for (`F_CPU`)", built, reported.fCpu === reported.clockHz ? "" : "the build's settings"],
      ["Analysis", reported.complete ? "complete" : "**not complete**, see “Not followed”", ""],
      ["Tool", `Pulsewright ${cell(version)}`, ""],
    ],
  );
}

/** The clock error that bench readings agree on, which verdicts use in place of the tolerance. */
function measuredClock(analysis: Analysis): string[][] {
  const spread = clockSpread(analysis);
  return spread.readings === null
    ? []
    : [
        [
          "Clock error, measured",
          showClockError(spread),
          `${spread.readings} bench readings; verdicts use it in place of the tolerance`,
        ],
      ];
}

function decided(by: Analysis["target"]["decidedBy"]): string {
  const words: Readonly<Record<typeof by, string>> = {
    "command line": "the command line",
    comment: "a comment in the sketch",
    settings: "the workspace's settings",
    "project file": "the project file",
    default: "nobody: the default",
  };
  return words[by];
}

function interruptSection({ reported, heading }: SheetParts): string[][] {
  if (reported.interrupts.length === 0) return [];
  const rows = reported.interrupts.map(({ vector, rateHz }) => [
    codeCell(vector.replace(/_vect$/, "")),
    rateHz === null ? "not known" : showBounds(rateHz, showHz),
    rateHz === null || rateHz.min <= 0
      ? ""
      : showBounds({ min: 1 / rateHz.max, max: 1 / rateHz.min }, (seconds) => showSeconds(seconds)),
  ]);
  return [[heading(1, "Interrupts")], table(["Interrupt", "How often", "Every"], rows)];
}

function findingSection({ reported, paths, heading }: SheetParts): string[][] {
  const title = [heading(1, "Findings")];
  if (reported.findings.length === 0) return [title, ["None."]];
  const entries = reported.findings.flatMap((finding, at) => {
    const { line, character } = finding.range.start;
    const mark = `${at + 1}. `;
    const inner = `${" ".repeat(mark.length)}- `;
    const place = plain(`${paths.show(finding.path)}:${line + 1}:${character + 1}`);
    return [
      ...lines(
        `**${finding.severity}** ${code(finding.id)} at ${place}: ${message(paths.clean(finding.message))}`,
        mark,
      ),
      ...finding.related.flatMap((related) =>
        lines(message(`${paths.show(related.path)}:${related.line}: ${paths.clean(related.message)}`), inner),
      ),
      ...finding.fixes.flatMap((fix) => lines(`Fix: ${message(paths.clean(fix))}`, inner)),
    ];
  });
  return [title, entries];
}

function gapSection({ reported, paths, heading }: SheetParts): string[][] {
  if (reported.gaps.length === 0) return [];
  const entries = reported.gaps.map((gap) => {
    const affects = gap.affects.length === 0 ? "" : ` It touches ${listed(gap.affects)}.`;
    return message(`${paths.show(gap.path)}:${gap.line}: ${paths.clean(gap.reason)}.${affects}`);
  });
  return [
    [heading(1, "Not followed")],
    lines("What stands here was not understood or not followed; what it touches may do something else."),
    [...new Set(entries)].flatMap((entry) => lines(entry, "- ")),
  ];
}

function cautionSection({ analysis, heading }: SheetParts): string[][] {
  return [[heading(1, "Care")], sheetCautions(analysis).flatMap((caution) => lines(plain(caution), "- "))];
}
