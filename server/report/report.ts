/**
 * An analysis and its findings → the JSON of the contract (design section 6). Exact fractions become numbers here and
 * nowhere else; nothing is worked out anew.
 */
import { type Fraction, toNumber } from "../../shared-model/fraction.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type {
  Report,
  ReportedFinding,
  ReportedGap,
  ReportedPin,
  ReportedRegister,
  ReportedSignal,
  ReportedSketch,
  ReportedTimer,
  ReportedWant,
} from "../../shared-model/report.js";
import type { Bounds } from "../../shared-model/signal.js";
import type { Analysis, PinSignal } from "../analysis.js";
import type { Finding } from "../findings/finding.js";
import type { Gap } from "../preprocess/source.js";
import { type Places, placesOf } from "./places.js";
import { reportedReadings } from "./readings.js";
import { reportedWants } from "./wants.js";

/** One sketch as the doors have it: what was asked for, and what came out. */
export interface SketchResult {
  /** As the caller named it. */
  readonly path: string;
  readonly analysis: Analysis;
  readonly findings: readonly Finding[];
  /** What the door itself could not do: files not read, analysis stopped. */
  readonly gaps: readonly Gap[];
}

export function report(sketches: readonly ReportedSketch[], version: string): Report {
  return { schema: 1, tool: "pulsewright", version, sketches };
}

export function reportSketch(result: SketchResult): ReportedSketch {
  const { analysis } = result;
  const places = placesOf(analysis);
  const gaps = [...result.gaps, ...analysis.gaps];
  return {
    path: result.path,
    board: analysis.target.boardId,
    chip: analysis.target.chip.id,
    clockHz: analysis.target.clockHz,
    fCpu: analysis.target.fCpu,
    clockTolerance: analysis.target.clockTolerance,
    complete: analysis.complete && result.gaps.length === 0,
    gaps: gaps.map((gap) => reportedGap(gap, places)),
    timers: analysis.timers.map(
      (history): ReportedTimer => ({
        timer: history.timer,
        states: history.states.map((state) => ({
          regime: state.regime,
          mode: state.mode,
          when: state.when,
          registers: registersOf(analysis, history.timer, state.snapshot.registers),
        })),
      }),
    ),
    pins: analysis.pins.map(
      (pin): ReportedPin => ({
        pin: pin.pin,
        port: pin.port,
        units: pin.units,
        timer: pin.timer,
        signals: pin.signals.map((signal) => reportedSignal(signal, places)),
      }),
    ),
    interrupts: analysis.interrupts.map(({ vector, rateHz }) => ({ vector, rateHz })),
    wants: reportedWants(analysis, places) satisfies readonly ReportedWant[],
    readings: reportedReadings(analysis, places),
    findings: result.findings.map((finding) => reportedFinding(finding, places)),
  };
}

function reportedGap(gap: Gap, places: Places): ReportedGap {
  return { reason: gap.reason, ...(gap.span === null ? places.main : places.place(gap.span)), affects: gap.affects };
}

function reportedSignal(signal: PinSignal, places: Places): ReportedSignal {
  return {
    regime: signal.regime,
    kind: signal.kind,
    level: signal.level,
    driver: signal.driver,
    frequencyHz: numbers(signal.frequencyHz),
    duty: numbers(signal.duty),
    highTicks: signal.highTicks,
    periodTicks: signal.periodTicks,
    steps: signal.steps,
    top: signal.top,
    prescaler: signal.prescaler,
    when: signal.when,
    from: signal.from.map((span) => places.place(span)),
  };
}

function reportedFinding(finding: Finding, places: Places): ReportedFinding {
  return {
    id: finding.id,
    severity: finding.severity,
    message: finding.message,
    path: finding.span.path,
    range: places.range(finding.span),
    related: finding.related.map(({ span, message }) => ({ ...places.place(span), message })),
    fixes: finding.fixes.map((fix) => fix.title),
  };
}

function numbers(bounds: Bounds<Fraction> | null): Bounds<number> | null {
  return bounds === null ? null : { min: toNumber(bounds.min), max: toNumber(bounds.max) };
}

function registersOf(
  analysis: Analysis,
  timer: number,
  registers: Readonly<Record<string, RegisterValue>>,
): Record<string, ReportedRegister> {
  const wide = new Set(analysis.target.chip.wide.map((register) => register.name));
  const fact = analysis.target.chip.timers.find((candidate) => candidate.number === timer);
  const order =
    fact === undefined ? [] : [...fact.control, ...fact.channels.map((channel) => channel.compare), fact.capture ?? ""];
  const names = Object.keys(registers).sort((a, b) => order.indexOf(a) - order.indexOf(b));
  return Object.fromEntries(names.map((name) => [name, reportedRegister(registers[name]!, wide.has(name) ? 16 : 8)]));
}

/** At most this many values are listed one by one (the contract). */
const LISTED_VALUES = 16;

/** `width` in bits. A bound set that is narrow enough is listed even where the engine kept only bounds and bits. */
export function reportedRegister(value: RegisterValue, width: number): ReportedRegister {
  const values = value.values ?? fewIn(value, width);
  if (values !== null && values.length <= LISTED_VALUES) return { values };
  let bits = "0b";
  for (let position = width - 1; position >= 0; position--) {
    const mask = 2 ** position;
    bits += (value.ones & mask) !== 0 ? "1" : (value.zeros & mask) !== 0 ? "0" : "_";
  }
  return { min: value.min, max: value.max, bits };
}

/** Every value between the bounds that agrees with the known bits, where those are at most `LISTED_VALUES`; else null. */
function fewIn(value: RegisterValue, width: number): readonly number[] | null {
  const free = ~(value.zeros | value.ones) & (2 ** width - 1);
  const found: number[] = [];
  // Each choice of the free bits in ascending order; the walk ends as soon as there are too many.
  for (let chosen = 0; ; chosen = (chosen - free) & free) {
    const candidate = value.ones | chosen;
    if (candidate > value.max) break;
    if (candidate >= value.min) found.push(candidate);
    if (found.length > LISTED_VALUES) return null;
    if (chosen === free) break;
  }
  return found.length > 0 ? found : null;
}
