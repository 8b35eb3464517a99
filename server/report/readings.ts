/** Bench readings of a sketch beside the prediction. Only compares; what might explain a misfit is found elsewhere. */
import { toNumber } from "../../shared-model/fraction.js";
import type { ReportedReading } from "../../shared-model/report.js";
import type { Bounds } from "../../shared-model/signal.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { pinOfComment } from "../look/wanted-pin.js";
import type { Places } from "./places.js";
import { reportedPin } from "./wants.js";

export function reportedReadings(analysis: Analysis, places: Places): ReportedReading[] {
  return analysis.comments.flatMap((placed) => {
    const { comment, span } = placed;
    if (comment.kind !== "reading") return [];
    const { line } = places.place({ ...span, start: span.start + comment.at.start });
    return [reported(comment, pinOfComment(analysis, placed) ?? undefined, line, analysis)];
  });
}

function reported(
  reading: ReadingComment,
  pin: PinHistory | undefined,
  line: number,
  analysis: Analysis,
): ReportedReading {
  const base = { pin: reportedPin(analysis, pin, reading.pin), text: reading.text, line };
  const predicted = pin === undefined ? [] : runningFrequencies(pin);
  // A reading taken while a register held another value is about a sketch that is not here.
  if (reading.frequency === undefined || predicted.length === 0 || reading.registers.length > 0) {
    return { ...base, fits: "unknown", clockError: null, explanations: [] };
  }
  const { value, uncertainty } = reading.frequency;
  const low = value - uncertainty;
  const high = value + uncertainty;
  const { clockTolerance } = analysis.target;
  const fitting = predicted.filter(
    ({ min, max }) => high >= min * (1 - clockTolerance) && low <= max * (1 + clockTolerance),
  );
  const only = fitting.length === 1 && fitting[0]!.min === fitting[0]!.max ? fitting[0] : undefined;
  return {
    ...base,
    fits: fitting.length > 0 ? "yes" : "no",
    clockError: only === undefined ? null : { min: low / only.min - 1, max: high / only.max - 1 },
    explanations: [],
  };
}

/** Of every running pulse; empty where the pin gives none or a signal is unknown. */
function runningFrequencies(pin: PinHistory): Bounds<number>[] {
  const running = pin.signals.filter((signal) => signal.regime === "running");
  if (running.some((signal) => signal.kind === "unknown")) return [];
  return running.flatMap(({ frequencyHz }) =>
    frequencyHz === null ? [] : [{ min: toNumber(frequencyHz.min), max: toNumber(frequencyHz.max) }],
  );
}
