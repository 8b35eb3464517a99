/** The signal sheet for people: what each pin puts out, what was wanted, what is wrong, what was not followed. */
import { showSpread } from "../../shared-model/clock-spread.js";
import type { ReportedSketch } from "../../shared-model/report.js";
import type { Analysis } from "../analysis.js";
import { clockSpread } from "../look/bench-clock.js";
import { pinLabel } from "../look/look.js";
import { digits, showClock, showShare } from "../look/show.js";
import { fittedReadings } from "../readings/fitted-reading.js";
import { namedCautions } from "./cautions.js";
import { aligned, wrapped } from "./columns.js";
import { fromReset } from "./from-reset.js";
import { placesOf } from "./places.js";
import { baseName, pinName, showBounds, signalRows } from "./signal-rows.js";

const WIDTH = 110;
const INDENT = "  ";

/**
 * `analysis` adds what the JSON has no field for: why a signal is unknown or constant, and who decided the board. `home`: a
 * folder that everybody who reads the sheet is in, left out of paths.
 */
export function sheetText(sketch: ReportedSketch, analysis: Analysis, home = ""): string {
  const text = wholeSheet(sketch, analysis);
  return home === "" ? text : text.replaceAll(`${home}/`, "").replaceAll(`${home}\\`, "");
}

function wholeSheet(sketch: ReportedSketch, analysis: Analysis): string {
  const parts = [
    heading(sketch, analysis),
    pinLines(sketch, analysis),
    resetLines(analysis),
    interruptLines(sketch),
    wantLines(sketch, analysis),
    readingLines(sketch, analysis),
    findingLines(sketch),
    gapLines(sketch),
  ];
  return `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join("\n"))
    .join("\n\n")}\n`;
}

function heading(sketch: ReportedSketch, analysis: Analysis): string[] {
  const { target } = analysis;
  const name = target.board === null ? `bare ${sketch.chip}` : `${target.board.name} (${sketch.board}), ${sketch.chip}`;
  const built = sketch.fCpu === sketch.clockHz ? "" : `, built for ${showClock(sketch.fCpu)}`;
  return [
    sketch.path,
    `${INDENT}${name} at ${showClock(sketch.clockHz)} ±${showShare(sketch.clockTolerance)}${built}; board from: ${target.decidedBy}`,
  ];
}

function pinLines(sketch: ReportedSketch, analysis: Analysis): string[] {
  const rows: string[][] = [];
  const notes: string[] = [];
  const idle: string[] = [];
  sketch.pins.forEach((pin, index) => {
    const history = analysis.pins[index];
    const label = history === undefined ? pin.pin : pinLabel(analysis, history);
    // A pin that the sketch leaves alone is worth a word, not a line.
    if (pin.signals.every((signal) => signal.kind === "not driven")) {
      idle.push(label);
      return;
    }
    signalRows(pin.signals, history, sketch, analysis.target.supply?.volts ?? null).forEach((row, at) => {
      const cells = [row.regime, row.fact, row.duty, row.division];
      rows.push([at === 0 ? label : "", at === 0 ? pin.units.join(" ") : "", ...cells]);
      notes.push([row.reasons.join("; "), row.places.join(", ")].filter((part) => part !== "").join("; "));
    });
  });
  const lines = aligned(rows, INDENT).flatMap((line, row) => withNotes(line, notes[row] ?? "", 10));
  return [...lines, ...(idle.length === 0 ? [] : [`${INDENT}not driven: ${idle.join(", ")}`])];
}

/** Behind the line where there is room, below it else. */
function withNotes(line: string, notes: string, depth: number): string[] {
  if (notes === "") return [line];
  if (line.length + 3 + notes.length <= WIDTH) return [`${line}   ${notes}`];
  return [line, ...wrapped(notes, WIDTH, INDENT.repeat(depth))];
}

/** Pins of which the same is said share a line. */
function resetLines(analysis: Analysis): string[] {
  const byWords = new Map<string, string[]>();
  for (const { label, words } of fromReset(analysis, placesOf(analysis)))
    byWords.set(words, [...(byWords.get(words) ?? []), label]);
  const rows = [...byWords].map(([words, labels]) => `${labels.join(", ")}: ${words}`);
  return rows.length === 0 ? [] : ["From reset", ...rows.flatMap((row) => wrapped(row, WIDTH, INDENT))];
}

function interruptLines(sketch: ReportedSketch): string[] {
  if (sketch.interrupts.length === 0) return [];
  const rows = sketch.interrupts.map(({ vector, rateHz }) => [
    vector,
    rateHz === null ? "rate not known" : `${showBounds(rateHz, (hz) => `${digits(hz)} /s`)}`,
  ]);
  return ["Interrupts", ...aligned(rows, INDENT)];
}

function wantLines(sketch: ReportedSketch, analysis: Analysis): string[] {
  if (sketch.wants.length === 0) return [];
  const verdicts = { yes: "met", marginal: "marginal", no: "NOT MET", unknown: "unknown" } as const;
  const rows = sketch.wants.map((want) => [
    verdicts[want.met],
    pinName(want.pin),
    want.text,
    `${baseName(want.path)}:${want.line}`,
  ]);
  const lines = aligned(rows, INDENT).flatMap((line, row) => withNotes(line, sketch.wants[row]!.reasons.join("; "), 5));
  return ["Wants", ...lines, ...namedCautions(analysis).flatMap((caution) => wrapped(caution, WIDTH, INDENT))];
}

function readingLines(sketch: ReportedSketch, analysis: Analysis): string[] {
  if (sketch.readings.length === 0) return [];
  const verdicts = { yes: "fits", no: "DOES NOT FIT", unknown: "unknown" } as const;
  const fitted = fittedReadings(analysis);
  const rows = sketch.readings.map((reading, index) => [
    verdicts[reading.fits],
    pinName(reading.pin),
    reading.text,
    fitted[index]?.because ?? "",
  ]);
  const lines = aligned(rows, INDENT).flatMap((line, row) => [
    line,
    ...sketch.readings[row]!.explanations.flatMap((words, index) =>
      wrapped(`${index + 1}. ${words}`, WIDTH, INDENT.repeat(5)),
    ),
  ]);
  const spread = clockSpread(analysis);
  const estimate =
    spread.readings === null
      ? []
      : [`${INDENT}clock ${showSpread(spread)}, in every verdict in place of ±${showShare(sketch.clockTolerance)}`];
  return ["Bench readings", ...lines, ...estimate];
}

function findingLines(sketch: ReportedSketch): string[] {
  if (sketch.findings.length === 0) return ["No findings."];
  const lines = sketch.findings.flatMap((finding) => {
    const { line, character } = finding.range.start;
    return [
      `${INDENT}${finding.path}:${line + 1}:${character + 1}  ${finding.severity}  ${finding.id}`,
      ...wrapped(finding.message, WIDTH, INDENT.repeat(3)),
      ...finding.fixes.map((title) => `${INDENT.repeat(3)}fix: ${title}`),
    ];
  });
  return ["Findings", ...lines];
}

function gapLines(sketch: ReportedSketch): string[] {
  if (sketch.gaps.length === 0) return [];
  const lines = sketch.gaps.map((gap) => {
    const affects = gap.affects.length === 0 ? "" : ` (touches ${gap.affects.join(", ")})`;
    return `${INDENT}${gap.path}:${gap.line}  ${gap.reason}${affects}`;
  });
  return ["Not followed", ...new Set(lines)];
}
