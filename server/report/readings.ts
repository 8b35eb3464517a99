/** Bench readings of a sketch → the report's rows. */
import type { ReportedReading } from "../../shared-model/report.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import type { Analysis } from "../analysis.js";
import { showHex } from "../look/show.js";
import { explanationWords } from "../readings/explanation.js";
import { fittedReadings } from "../readings/fitted-reading.js";
import type { Places } from "./places.js";
import { reportedPin } from "./wants.js";

export function reportedReadings(analysis: Analysis, places: Places): ReportedReading[] {
  return fittedReadings(analysis).map((fitted) => {
    const { reading, placed } = fitted;
    const { span } = placed;
    return {
      pin: reportedPin(analysis, fitted.pin ?? undefined, reading.pin),
      text: textOf(reading),
      line: places.place({ ...span, start: span.start + reading.at.start }).line,
      fits: fitted.fits,
      clockError: fitted.clockError,
      explanations: fitted.explanations.map(explanationWords),
    };
  });
}

/** What was read, with the registers that it was taken with in front: `with OCR2A = 0xFE: 985 Hz`. */
function textOf({ registers, text }: ReadingComment): string {
  if (registers.length === 0) return text;
  const held = registers.map(({ name, value }) => `${name.toUpperCase()} = ${showHex(value)}`);
  return `with ${held.join(", ")}: ${text}`;
}
