/** The signal sheet for people: what each pin puts out, what was wanted, what is wrong, what was not followed. */
import type { ReportedPlace, ReportedSignal, ReportedSketch } from "../../shared-model/report.js";
import type { Bounds } from "../../shared-model/signal.js";
import { specifications } from "../../shared-model/specifications.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { pinLabel } from "../findings/look.js";
import { digits, showClock, showHz, showShare } from "../findings/show.js";
import { divisionOf } from "./arithmetic.js";
import { aligned, wrapped } from "./columns.js";

const WIDTH = 110;
const INDENT = "  ";

/** `analysis` adds what the JSON has no field for: why a signal is unknown or constant, and who decided the board. */
export function sheetText(sketch: ReportedSketch, analysis: Analysis): string {
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
  if (sketch.pins.length === 0) return [`${INDENT}no pin is driven`];
  const rows: string[][] = [];
  sketch.pins.forEach((pin, index) => {
    const history = analysis.pins[index];
    const label = history === undefined ? pin.pin : pinLabel(analysis, history);
    signalRows(pin.signals, history, sketch).forEach((cells, row) => {
      rows.push([row === 0 ? label : "", row === 0 ? pin.units.join(" ") : "", ...cells]);
    });
  });
  return aligned(rows, INDENT);
}

/** One row a signal; what setup and running share is said once. */
function signalRows(
  signals: readonly ReportedSignal[],
  history: PinHistory | undefined,
  sketch: ReportedSketch,
): string[][] {
  const rows = signals.map((signal, index) => ({
    regime: signal.regime as string,
    cells: signalCells(signal, history?.signals[index]?.because ?? null, sketch),
  }));
  const said = new Map<string, { regime: string; cells: string[] }>();
  // What lasts is what people look for: running first.
  for (const row of [
    ...rows.filter((row) => row.regime === "running"),
    ...rows.filter((row) => row.regime === "setup"),
  ]) {
    const key = row.cells.join("\0");
    const earlier = said.get(key);
    if (earlier === undefined) said.set(key, { ...row });
    else if (earlier.regime !== row.regime) earlier.regime = "always";
  }
  return [...said.values()].map(({ regime, cells }) => [regime, ...cells]);
}

/** Main fact, arithmetic and width of the duty, condition and cause. */
function signalCells(signal: ReportedSignal, because: string | null, sketch: ReportedSketch): string[] {
  const notes = [signal.when === null ? "" : `when ${signal.when}`, because ?? "", fromText(signal.from)].filter(
    (note) => note !== "",
  );
  return [factText(signal), dutyText(signal), divisionOf(signal, sketch.clockHz) ?? "", notes.join("; ")];
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
  const steps = signal.steps === null ? [] : [`${signal.steps} steps`];
  return [...duty, ...steps].join(", ");
}

function fromText(from: readonly ReportedPlace[]): string {
  const first = from[0];
  return first === undefined ? "" : `${baseName(first.path)}:${first.line}`;
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
    want.pin,
    want.text,
    `${baseName(want.path)}:${want.line}`,
    want.reasons.join("; "),
  ]);
  return ["Wants", ...aligned(rows, INDENT), ...cautions(analysis)];
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
    reading.pin,
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
