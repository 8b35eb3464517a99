/** Judged wants → the report's rows. */
import type { ReportedWant } from "../../shared-model/report.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { wantVerdicts } from "../look/judged-wants.js";
import { portNamed } from "../look/wanted-pin.js";
import type { Places } from "./places.js";

export function reportedWants(analysis: Analysis, places: Places): ReportedWant[] {
  return wantVerdicts(analysis).map((judged) => ({
    pin: reportedPin(analysis, judged.pin ?? undefined, judged.placed.pin ?? judged.want.pin),
    text: judged.want.text,
    ...places.place(judged.span),
    met: judged.met,
    reasons: judged.reasons,
  }));
}

/** The pin as `pins` would list it, also where nothing drives it; what the comment says where it is no pin of the board. */
export function reportedPin(analysis: Analysis, history: PinHistory | undefined, said: string): string {
  if (history !== undefined) return history.pin;
  const port = portNamed(analysis, said);
  if (port === undefined) return said;
  const number = analysis.target.pins.find((pin) => pin.port === port)?.number;
  return analysis.target.board === null || number === undefined ? port : String(number);
}
