/** The duty curve at a place, in the protocol's own shape. */
import type { Position } from "vscode-languageserver/node";
import { toNumber } from "../../shared-model/fraction.js";
import type { DutyCurveAnswer } from "../../shared-model/protocol.js";
import type { Analysis } from "../analysis.js";
import { dutyCurveAt } from "../features/duty-curve.js";
import { curvePicture } from "../features/duty-curve-picture.js";
import { curveLine } from "../features/duty-curve-text.js";
import type { DocumentPlaces } from "./to-lsp.js";

export function dutyCurveAnswer(
  analysis: Analysis,
  path: string,
  position: Position,
  places: DocumentPlaces,
): DutyCurveAnswer | null {
  const curve = dutyCurveAt(analysis, path, places.offset(path, position));
  if (curve === null) return null;
  const { label, input, top, used, steps, deadLow, deadHigh } = curve;
  return {
    label,
    line: curveLine(curve),
    input,
    top,
    used,
    steps,
    deadLow,
    deadHigh,
    points: curve.points.map((point) => ({
      input: point.input,
      value: point.value,
      duty: point.duty === null ? null : toNumber(point.duty),
    })),
    svg: curvePicture(curve),
  };
}
