/** Bench readings of a sketch beside the prediction. Only compares; what might explain a misfit is found elsewhere. */
import { toNumber } from "../../shared-model/fraction.js";
import type { ReportedReading } from "../../shared-model/report.js";
import type { Bounds } from "../../shared-model/signal.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import type { Analysis, PinHistory } from "../analysis.js";
import type { Places } from "./places.js";

export function reportedReadings(analysis: Analysis, places: Places): ReportedReading[] {
  return analysis.comments.flatMap(({ comment, span }) =>
    comment.kind === "reading" ? [reported(comment, places.place(span).line, analysis)] : [],
  );
}

function reported(reading: ReadingComment, line: number, analysis: Analysis): ReportedReading {
  const pin = pinNamed(reading.pin, analysis);
  const base = { pin: pin?.pin ?? reading.pin, text: reading.text, line };
  const predicted = pin === undefined ? null : runningFrequency(pin);
  if (reading.frequency === undefined || predicted === null || reading.registers.length > 0) {
    return { ...base, fits: "unknown", clockError: null, explanations: [] };
  }
  const { value, uncertainty } = reading.frequency;
  const low = value - uncertainty;
  const high = value + uncertainty;
  const { clockTolerance } = analysis.target;
  const fits = high >= predicted.min * (1 - clockTolerance) && low <= predicted.max * (1 + clockTolerance);
  const single = predicted.min === predicted.max;
  return {
    ...base,
    fits: fits ? "yes" : "no",
    clockError: fits && single ? { min: low / predicted.min - 1, max: high / predicted.max - 1 } : null,
    explanations: [],
  };
}

/** Bounds over all running pulses of the pin; null where it gives none or something is unknown. */
function runningFrequency(pin: PinHistory): Bounds<number> | null {
  const running = pin.signals.filter((signal) => signal.regime === "running");
  if (running.some((signal) => signal.kind === "unknown")) return null;
  const found = running.flatMap((signal) => (signal.frequencyHz === null ? [] : [signal.frequencyHz]));
  if (found.length === 0) return null;
  return {
    min: Math.min(...found.map((bounds) => toNumber(bounds.min))),
    max: Math.max(...found.map((bounds) => toNumber(bounds.max))),
  };
}

/** `D3`, `3`, `A0`, `PD3`. A name of the sketch is resolved where the engine does so, not here. */
function pinNamed(name: string, analysis: Analysis): PinHistory | undefined {
  const number = /^[dD]?(\d+)$/.exec(name)?.[1];
  const port = analysis.target.pins.find((pin) =>
    number === undefined ? pin.analog === name : String(pin.number) === number,
  )?.port;
  return analysis.pins.find((pin) => pin.port === (port ?? name.toUpperCase()));
}
