/** The signals of a pin as rows of a sheet: each fact once, with the regimes, conditions and lines that it belongs to. */
import { showVolts } from "../../shared-model/meter-voltage.js";
import type { ReportedSignal, ReportedSketch } from "../../shared-model/report.js";
import { type Bounds, withoutHalves } from "../../shared-model/signal.js";
import type { PinHistory } from "../analysis.js";
import { showHz, showShare } from "../look/show.js";
import { divisionOf } from "./arithmetic.js";

export interface SignalRow {
  readonly regime: "running" | "setup" | "always";
  /** The first signal that the row stands for; those that share its words differ only in cause. */
  readonly signal: ReportedSignal;
  readonly fact: string;
  readonly duty: string;
  readonly division: string;
  readonly reasons: readonly string[];
  /** `lamp.ino:14` */
  readonly places: readonly string[];
}

interface Row {
  regime: SignalRow["regime"];
  readonly signal: ReportedSignal;
  readonly fact: string;
  readonly duty: string;
  readonly division: string;
  readonly reasons: Set<string>;
  readonly places: Set<string>;
}

const ORDER: Readonly<Record<ReportedSignal["kind"], number>> = { unknown: 0, pulse: 1, level: 2, "not driven": 3 };

/** One row for each fact, pulses first; what setup and running share is said once, causes of one fact side by side. */
export function signalRows(
  signals: readonly ReportedSignal[],
  history: PinHistory | undefined,
  sketch: ReportedSketch,
  supplyVolts: number | null,
): SignalRow[] {
  const rows: Row[] = [];
  const counting = new Set<ReportedSignal>(withoutHalves(signals.filter(({ regime }) => regime === "running")));
  const inOrder = signals
    .map((signal, index) => ({ signal, because: history?.signals[index]?.because ?? null }))
    .filter(({ signal }) => signal.regime !== "running" || counting.has(signal))
    // What lasts is what people look for.
    .sort((a, b) => a.signal.regime.localeCompare(b.signal.regime) || ORDER[a.signal.kind] - ORDER[b.signal.kind]);
  for (const { signal, because } of inOrder) {
    const [fact, duty, division] = [
      factText(signal),
      dutyText(signal, supplyVolts),
      divisionOf(signal, sketch.clockHz) ?? "",
    ];
    const same = (row: Row): boolean => row.fact === fact && row.duty === duty && row.division === division;
    const alike = rows.filter(same);
    let row =
      alike.find((earlier) => earlier.regime === signal.regime) ?? alike.find((earlier) => earlier.regime !== "setup");
    if (row === undefined) {
      row = { regime: signal.regime, signal, fact, duty, division, reasons: new Set(), places: new Set() };
      rows.push(row);
    }
    if (row.regime !== signal.regime) row.regime = "always";
    if (signal.when !== null) row.reasons.add(`when ${signal.when}`);
    if (because !== null) row.reasons.add(because);
    const from = signal.from[0];
    if (from !== undefined) row.places.add(`${baseName(from.path)}:${from.line}`);
  }
  return rows.map((row) => ({ ...row, reasons: [...row.reasons], places: [...row.places] }));
}

function factText(signal: ReportedSignal): string {
  switch (signal.kind) {
    case "pulse": {
      const driver = signal.driver === "timer" || signal.driver === null ? "" : `, by ${signal.driver}`;
      return signal.frequencyHz === null ? `pulse${driver}` : `${showBounds(signal.frequencyHz, showHz)}${driver}`;
    }
    case "level":
      return signal.level === null ? "constant, level not known" : `constant ${signal.level}`;
    case "not driven":
      return "not driven";
    case "unknown":
      return "unknown";
  }
}

/** With what a meter for direct voltage shows: `duty 47 % (2.35 V), 640 steps`. */
function dutyText(signal: ReportedSignal, supplyVolts: number | null): string {
  const { duty: share } = signal;
  const volts =
    share === null || supplyVolts === null
      ? ""
      : ` (${showVolts({ min: share.min * supplyVolts, max: share.max * supplyVolts })})`;
  const duty = share === null ? [] : [`duty ${showBounds(share, showShare)}${volts}`];
  const steps = signal.steps === null || signal.kind !== "pulse" ? [] : [`${signal.steps} steps`];
  return [...duty, ...steps].join(", ");
}

/** `D3` for the board's number 3; a port or a name stays. */
export function pinName(pin: string): string {
  return /^\d+$/.test(pin) ? `D${pin}` : pin;
}

export function baseName(path: string): string {
  return path.replace(/^.*[\\/]/, "");
}

/** `128..638`, `250..490 Hz`, `250 Hz..1 kHz`: the unit once where both ends have it. */
export function showBounds(value: Bounds<number>, show: (value: number) => string): string {
  const low = show(value.min);
  const high = show(value.max);
  if (low === high) return low;
  const space = high.lastIndexOf(" ");
  if (space < 0) return `${low}..${high}`;
  const unit = high.slice(space);
  return `${low.endsWith(unit) ? low.slice(0, -unit.length) : low}..${high}`;
}
