/** The signal sheet for people: what each pin puts out, what was wanted, what is wrong, what was not followed. */
import type { ReportedSignal, ReportedSketch } from "../../shared-model/report.js";
import { type Bounds, withoutHalves } from "../../shared-model/signal.js";
import { specifications } from "../../shared-model/specifications.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { pinLabel } from "../look/look.js";
import { digits, showClock, showHz, showShare } from "../look/show.js";
import { divisionOf } from "./arithmetic.js";
import { aligned, wrapped } from "./columns.js";

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
    interruptLines(sketch),
    wantLines(sketch, analysis),
    readingLines(sketch),
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
    signalRows(pin.signals, history, sketch).forEach(({ cells, notes: why }, row) => {
      rows.push([row === 0 ? label : "", row === 0 ? pin.units.join(" ") : "", ...cells]);
      notes.push(why);
    });
  });
  const lines = aligned(rows, INDENT).flatMap((line, row) => withNotes(line, notes[row] ?? "", 10));
  return [...lines, ...(idle.length === 0 ? [] : [`${INDENT}not driven: ${idle.join(", ")}`])];
}

interface Row {
  regime: "running" | "setup" | "always";
  readonly fact: string;
  readonly duty: string;
  readonly division: string;
  readonly reasons: Set<string>;
  readonly places: Set<string>;
}

const ORDER: Readonly<Record<ReportedSignal["kind"], number>> = { unknown: 0, pulse: 1, level: 2, "not driven": 3 };

/** One row for each fact, pulses first; what setup and running share is said once, causes of one fact side by side. */
function signalRows(
  signals: readonly ReportedSignal[],
  history: PinHistory | undefined,
  sketch: ReportedSketch,
): { readonly cells: string[]; readonly notes: string }[] {
  const rows: Row[] = [];
  const counting = new Set<ReportedSignal>(withoutHalves(signals.filter(({ regime }) => regime === "running")));
  const inOrder = signals
    .map((signal, index) => ({ signal, because: history?.signals[index]?.because ?? null }))
    .filter(({ signal }) => signal.regime !== "running" || counting.has(signal))
    // What lasts is what people look for.
    .sort((a, b) => a.signal.regime.localeCompare(b.signal.regime) || ORDER[a.signal.kind] - ORDER[b.signal.kind]);
  for (const { signal, because } of inOrder) {
    const [fact, duty, division] = [factText(signal), dutyText(signal), divisionOf(signal, sketch.clockHz) ?? ""];
    const same = (row: Row): boolean => row.fact === fact && row.duty === duty && row.division === division;
    const alike = rows.filter(same);
    let row =
      alike.find((earlier) => earlier.regime === signal.regime) ?? alike.find((earlier) => earlier.regime !== "setup");
    if (row === undefined) {
      row = { regime: signal.regime, fact, duty, division, reasons: new Set(), places: new Set() };
      rows.push(row);
    }
    if (row.regime !== signal.regime) row.regime = "always";
    if (signal.when !== null) row.reasons.add(`when ${signal.when}`);
    if (because !== null) row.reasons.add(because);
    const from = signal.from[0];
    if (from !== undefined) row.places.add(`${baseName(from.path)}:${from.line}`);
  }
  return rows.map(({ regime, fact, duty, division, reasons, places }) => ({
    cells: [regime, fact, duty, division],
    notes: [[...reasons].join("; "), [...places].join(", ")].filter((part) => part !== "").join("; "),
  }));
}

/** Behind the line where there is room, below it else. */
function withNotes(line: string, notes: string, depth: number): string[] {
  if (notes === "") return [line];
  if (line.length + 3 + notes.length <= WIDTH) return [`${line}   ${notes}`];
  return [line, ...wrapped(notes, WIDTH, INDENT.repeat(depth))];
}

function factText(signal: ReportedSignal): string {
  switch (signal.kind) {
    case "pulse": {
      const driver = signal.driver === "timer" || signal.driver === null ? "" : `, by ${signal.driver}`;
      return signal.frequencyHz === null ? `pulse${driver}` : `${bounds(signal.frequencyHz, showHz)}${driver}`;
    }
    case "level":
      return signal.level === null ? "constant, level not known" : `constant ${signal.level}`;
    case "not driven":
      return "not driven";
    case "unknown":
      return "unknown";
  }
}

function dutyText(signal: ReportedSignal): string {
  const duty = signal.duty === null ? [] : [`duty ${bounds(signal.duty, showShare)}`];
  const steps = signal.steps === null || signal.kind !== "pulse" ? [] : [`${signal.steps} steps`];
  return [...duty, ...steps].join(", ");
}

/** `D3` for the board's number 3; a port or a name stays. */
function pinName(pin: string): string {
  return /^\d+$/.test(pin) ? `D${pin}` : pin;
}

function baseName(path: string): string {
  return path.replace(/^.*[\\/]/, "");
}

/** `490.196 Hz`, `250 Hz .. 1 kHz`; the unit once where both ends have it. */
function bounds(value: Bounds<number>, show: (value: number) => string): string {
  const low = show(value.min);
  const high = show(value.max);
  if (low === high) return low;
  const unit = high.slice(high.lastIndexOf(" "));
  return `${low.endsWith(unit) ? low.slice(0, -unit.length) : low}..${high}`;
}

function interruptLines(sketch: ReportedSketch): string[] {
  if (sketch.interrupts.length === 0) return [];
  const rows = sketch.interrupts.map(({ vector, rateHz }) => [
    vector,
    rateHz === null ? "rate not known" : `${bounds(rateHz, (hz) => `${digits(hz)} /s`)}`,
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
  return ["Wants", ...lines, ...cautions(analysis)];
}

/** What a named specification says beside its numbers, once each (design section 9). */
function cautions({ comments }: Analysis): string[] {
  const named = new Set(
    comments.flatMap(({ comment }) => (comment.kind === "want" ? (comment.specification ?? []) : [])),
  );
  return specifications
    .filter((specification) => named.has(specification.id) && specification.caution !== undefined)
    .flatMap((specification) => wrapped(`${specification.id}: ${specification.caution}`, WIDTH, INDENT));
}

function readingLines(sketch: ReportedSketch): string[] {
  if (sketch.readings.length === 0) return [];
  const verdicts = { yes: "fits", no: "DOES NOT FIT", unknown: "unknown" } as const;
  const rows = sketch.readings.map((reading) => [
    verdicts[reading.fits],
    pinName(reading.pin),
    reading.text,
    reading.explanations.join("; "),
  ]);
  return ["Bench readings", ...aligned(rows, INDENT)];
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
