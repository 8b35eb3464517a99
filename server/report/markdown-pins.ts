/** The pins of a sheet for paper: what each puts out, how the numbers come about, what was wanted, what the bench says. */
import { showClockError } from "../../shared-model/clock-spread.js";
import { showVolts } from "../../shared-model/meter-voltage.js";
import type { ReportedPin, ReportedReading, ReportedSignal, ReportedWant } from "../../shared-model/report.js";
import { findSpecification } from "../../shared-model/specifications.js";
import { arithmetic } from "../../shared-model/waveforms/arithmetic.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { dutyCurves } from "../features/duty-curve.js";
import { curveLine, curvePlot, curveRows, usedSteps } from "../features/duty-curve-text.js";
import { clockSpread } from "../look/bench-clock.js";
import { pinLabel } from "../look/look.js";
import { digits, listed, showBoundsHz, showHz, showSeconds, showShare } from "../look/show.js";
import { fromResetOf } from "./from-reset.js";
import type { SheetParts } from "./markdown.js";
import { cell, code, lines, message, plain, table } from "./markdown-words.js";
import { pinName, type SignalRow, showBounds, signalRows } from "./signal-rows.js";

/** A pin that the sketch drives, with everything that is said of it. */
interface DrivenPin {
  readonly pin: ReportedPin;
  readonly history: PinHistory;
  readonly label: string;
  readonly rows: readonly SignalRow[];
  readonly wants: readonly ReportedWant[];
  readonly readings: readonly ReportedReading[];
}

export function pinSections(parts: SheetParts): string[][] {
  const { reported, analysis, heading } = parts;
  const driven: DrivenPin[] = [];
  const idle: string[] = [];
  reported.pins.forEach((pin, at) => {
    const history = analysis.pins[at]!;
    const label = pinLabel(analysis, history);
    if (pin.signals.every(({ kind }) => kind === "not driven")) {
      idle.push(label);
      return;
    }
    driven.push({
      pin,
      history,
      label,
      rows: signalRows(pin.signals, history, reported, analysis.target.supply?.volts ?? null),
      wants: reported.wants.filter((want) => want.pin === pin.pin),
      readings: reported.readings.filter((reading) => reading.pin === pin.pin),
    });
  });
  const told = new Set(driven.map(({ pin }) => pin.pin));
  return [
    [heading(1, "Pins")],
    ...(driven.length === 0
      ? [lines("The sketch drives no pin that a timer reaches, and no other.")]
      : [glance(driven, parts)]),
    ...(idle.length === 0 ? [] : [lines(`Not driven: ${idle.map(plain).join(", ")}.`)]),
    ...(reported.wants.length === 0 ? [noWants(driven[0]?.label ?? idle[0] ?? "D9")] : []),
    ...sections(driven, parts),
    ...elsewhere(parts, told),
  ];
}

function noWants(label: string): string[] {
  const example = `// wants ${label}: 25 kHz within 21..28 kHz, duty 20..100 %`;
  return lines(
    `No wants: nothing here says what is needed. Write it into the sketch as a comment, for example ${code(example)}, and this sheet judges it.`,
  );
}

/**
 * Plain port pins of which the very same is told share a line and a section: an unseen call may have touched all of them. A
 * pin with a unit, a want or a reading stands alone.
 */
function alike(driven: readonly DrivenPin[], tell: (pin: DrivenPin) => unknown): (readonly DrivenPin[])[] {
  const groups = new Map<string, DrivenPin[]>();
  for (const one of driven) {
    const own = one.pin.units.length > 0 || one.wants.length > 0 || one.readings.length > 0;
    const key = own ? one.pin.port : JSON.stringify(tell(one));
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups.values()];
}

function labels(group: readonly DrivenPin[]): string {
  return group.map(({ label }) => label).join(", ");
}

/** One line for each pin: what lasts, and whether it is what was wanted. */
function glance(driven: readonly DrivenPin[], parts: SheetParts): string[] {
  const rows = alike(driven, (pin) => pinBody(pin, parts)).map((group) => {
    const { pin, rows: signals, wants } = group[0]!;
    const lasting = signals.filter((row) => row.regime !== "setup");
    const facts = (lasting.length > 0 ? lasting : signals).map(({ fact, signal }) =>
      cell(signal.duty === null ? fact : `${fact}, ${showBounds(signal.duty, showShare)}`),
    );
    const shown = facts.length > 3 ? [...facts.slice(0, 2), `${facts.length - 2} more`] : facts;
    const verdicts = [...new Set(wants.map((want) => VERDICT[want.met]))];
    return [
      `**${cell(labels(group))}**`,
      cell(pin.units.join(", ")),
      shown.join(" or "),
      verdicts.length === 0 ? "none" : verdicts.join(", "),
    ];
  });
  return table(["Pin", "Unit", "Puts out", "Wanted"], rows);
}

const VERDICT: Readonly<Record<ReportedWant["met"], string>> = {
  yes: "met",
  marginal: "**marginal**",
  no: "**NOT MET**",
  unknown: "not known",
};

function sections(driven: readonly DrivenPin[], parts: SheetParts): string[][] {
  return alike(driven, (pin) => pinBody(pin, parts)).flatMap((group) => {
    const { pin, label } = group[0]!;
    const unit = [...pin.units, pin.port === label ? "" : pin.port].filter((part) => part !== "");
    const title = group.length > 1 || unit.length === 0 ? labels(group) : `${label} (${unit.join(", ")})`;
    return [[parts.heading(2, plain(title))], ...pinBody(group[0]!, parts)];
  });
}

function pinBody(driven: DrivenPin, parts: SheetParts): string[][] {
  const { rows, wants, readings } = driven;
  return [
    ...(wants.length === 0
      ? []
      : [wants.flatMap((want) => lines(wanted(want, parts), wants.length === 1 ? "" : "- "))]),
    signalTable(driven, parts),
    [...rows.flatMap((row) => derivation(row, driven, parts)), ...resetLine(driven, parts)],
    ...readingBlocks(readings, parts),
    ...curveBlocks(driven, parts),
    ...benchTable(driven, parts),
  ];
}

function signalTable(driven: DrivenPin, { analysis }: SheetParts): string[] {
  const rows = driven.rows.map((row) => {
    const { signal } = row;
    const pulse = signal.kind === "pulse";
    return [
      row.regime,
      cell(row.fact),
      signal.duty === null ? "" : showBounds(signal.duty, showShare),
      highFor(driven, row, analysis),
      pulse && signal.steps !== null ? String(signal.steps) : "",
    ];
  });
  return table(["When", "Signal", "Duty", "High for", { head: "Steps", align: "right" }], rows);
}

/** The pulse's width in seconds; empty where it is not known. */
function highFor({ pin, history }: DrivenPin, { signal }: SignalRow, analysis: Analysis): string {
  if (signal.highTicks === null) return "";
  const seconds = divisorOf(analysis, history, pin.signals.indexOf(signal));
  if (seconds === null) return "";
  const { min, max } = signal.highTicks;
  const scale = seconds / analysis.target.clockHz;
  return showBounds({ min: min * scale, max: max * scale }, showSeconds);
}

/** What CLKPR divides the oscillator by while the signal stands; null where that is not known. */
function divisorOf(analysis: Analysis, history: PinHistory, at: number): number | null {
  const state = history.signals[at]?.state ?? null;
  if (state === null) return 1;
  const timer = analysis.timers.find(({ timer: number }) => number === history.timer);
  return timer?.states[state]?.snapshot.clockDivisor ?? null;
}

/** How the numbers of one row come about, and which lines made it so. */
function derivation(row: SignalRow, { pin, history }: DrivenPin, { analysis, paths }: SheetParts): string[] {
  const { signal } = row;
  const at = pin.signals.indexOf(signal);
  const parts: string[] = [];
  if (signal.kind === "pulse" && signal.frequencyHz !== null) {
    const divisor = divisorOf(analysis, history, at) ?? 1;
    const formula = arithmetic(history.signals[at]!, analysis.target.clockHz, divisor);
    const state = history.signals[at]?.state ?? null;
    const mode = analysis.timers.find(({ timer }) => timer === history.timer)?.states[state ?? -1]?.mode;
    const equation = formula === null ? "" : ` = ${code(formula)}`;
    parts.push(`${plain(row.fact)}${equation}${mode === undefined ? "" : `, ${plain(mode)}`}`);
    if (signal.highTicks !== null && signal.periodTicks !== null) {
      const high = showBounds(signal.highTicks, digits).replace("..", " to ");
      const period = showBounds(signal.periodTicks, digits).replace("..", " to ");
      parts.push(`high for ${high} of ${period} clock cycles`);
    }
  } else {
    parts.push(plain(row.fact));
  }
  parts.push(...row.reasons.map((reason) => message(paths.clean(reason))));
  if (row.places.length > 0) parts.push(`set by ${plain(listed(row.places))}`);
  return parts.length === 1 && signal.kind !== "unknown" ? [] : lines(`${parts.join("; ")}.`, "- ");
}

function resetLine({ history }: DrivenPin, { analysis, places }: SheetParts): string[] {
  const words = fromResetOf(analysis, places, history);
  return words === null ? [] : lines(`From reset: ${plain(words)}.`, "- ");
}

/** `Wanted: 25 kHz (fan.ino:2) – met: because` */
function wanted(want: ReportedWant, { analysis, paths }: SheetParts): string {
  const place = plain(`${paths.show(want.path)}:${want.line}`);
  const reasons = want.reasons.map((reason) => message(paths.clean(reason))).join("; ");
  const verdict = `${VERDICT[want.met]}${reasons === "" ? "" : `: ${reasons}`}.`;
  return `Wanted: ${code(want.text)} (${place}) – ${verdict}${specificationWords(want, analysis)}`;
}

/** What the specification is that a want names, and where its numbers come from. */
function specificationWords(want: ReportedWant, { comments, specifications }: Analysis): string {
  const named = comments.flatMap(({ comment }) =>
    comment.kind === "want" && comment.text === want.text ? (comment.specification ?? []) : [],
  )[0];
  const found = named === undefined ? undefined : findSpecification(named, specifications);
  return found === undefined ? "" : ` ${code(found.id)}: ${plain(found.name)} (${plain(found.source)}).`;
}

/** The readings in a table, and below it what would explain those that do not fit. */
function readingBlocks(readings: readonly ReportedReading[], { paths }: SheetParts): string[][] {
  if (readings.length === 0) return [];
  const fits = { yes: "yes", no: "**NO**", unknown: "not known" } as const;
  const rows = readings.map((reading) => [
    cell(reading.text),
    String(reading.line),
    fits[reading.fits],
    reading.clockError === null ? "" : showClockError(reading.clockError),
  ]);
  const explained = readings.flatMap(({ text, explanations }) =>
    explanations.flatMap((words) => lines(`${plain(text)}: ${message(paths.clean(words))}`, "- ")),
  );
  return [
    table(["Bench reading", { head: "Line", align: "right" }, "Fits", "Clock error"], rows),
    ...(explained.length === 0 ? [] : [lines("What would explain a reading:"), explained]),
  ];
}

/** What instruments should show, with room for what they show. Only for pulses that last. */
function benchTable({ rows }: DrivenPin, { analysis }: SheetParts): string[][] {
  const pulses = rows.filter(
    ({ regime, signal }) => regime !== "setup" && signal.kind === "pulse" && signal.frequencyHz !== null,
  );
  if (pulses.length === 0) return [];
  const spread = clockSpread(analysis);
  const volts = analysis.target.supply?.volts ?? null;
  const cells = pulses.slice(0, MOST_BENCH_PULSES).flatMap(({ signal, fact }) => {
    const { min, max } = signal.frequencyHz!;
    const around = { min: min * (1 + spread.min), max: max * (1 + spread.max) };
    const mean = volts === null ? null : shownVolts(signal, volts);
    const of = pulses.length === 1 ? "" : `, at ${cell(fact)}`;
    return [
      [`Counter${of}`, around.min === around.max ? showHz(min) : showBoundsHz(around), BLANK],
      ...(signal.duty === null ? [] : [[`Duty${of}`, showBounds(signal.duty, showShare), BLANK]]),
      ...(mean === null ? [] : [[`DC meter${of}`, mean, BLANK]]),
    ];
  });
  return [table(["On the bench", "Should show", "Shows"], cells)];
}

function shownVolts({ duty }: ReportedSignal, supply: number): string | null {
  return duty === null ? null : showVolts({ min: duty.min * supply, max: duty.max * supply });
}

const BLANK = "______________";
const MOST_BENCH_PULSES = 4;

/** From the input to the duty, for each write that has a curve: in words, as a table, and as a plot. */
function curveBlocks({ label }: DrivenPin, { analysis, places, paths }: SheetParts): string[][] {
  return dutyCurves(analysis)
    .filter((curve) => curve.label === label)
    .slice(0, MOST_CURVES)
    .flatMap((curve) => {
      const { path, line } = places.place(curve.span);
      const told = curveLine(curve) ?? "even from end to end";
      return [
        lines(
          `From ${curve.input} to duty, ${plain(`${paths.show(path)}:${line}`)}: ${plain(told)}. ${usedSteps(curve)}.`,
        ),
        table(
          [curve.input === "reading" ? "Reading" : "Value", "Written", "Duty"].map((head) => ({
            head,
            align: "right",
          })),
          curveRows(curve).map(({ input, value, duty }) => [input, value, cell(duty)]),
        ),
        ["```text", ...curvePlot(curve), "```"],
      ];
    });
}

/** Curves of one pin that are printed. */
const MOST_CURVES = 2;

/** Wants and readings of pins that are not told above: names that are no pin, pins that nothing drives. */
function elsewhere(parts: SheetParts, told: ReadonlySet<string>): string[][] {
  const { reported, heading } = parts;
  const wants = reported.wants.filter(({ pin }) => !told.has(pin));
  const readings = reported.readings.filter(({ pin }) => !told.has(pin));
  if (wants.length === 0 && readings.length === 0) return [];
  return [
    [heading(2, "Wanted or measured on pins that are not driven")],
    [
      ...wants.flatMap((want) => lines(`${plain(pinName(want.pin))}. ${wanted(want, parts)}`, "- ")),
      ...readings.flatMap((reading) =>
        lines(`${plain(pinName(reading.pin))}: reading ${code(reading.text)}, line ${reading.line}.`, "- "),
      ),
    ],
  ];
}
