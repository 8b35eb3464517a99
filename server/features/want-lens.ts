/** What a lens above a want says: whether it is met, and the first reason. */
import type { JudgedWant } from "../look/judged-wants.js";
import { listed } from "../look/show.js";

const VERDICT: Readonly<Record<JudgedWant["met"], string>> = {
  yes: "met",
  marginal: "marginal",
  no: "not met",
  unknown: "not known",
};

/** Of all pins of one want: `not met: 490.196 Hz is outside 990..1010 Hz`. */
export function wantLensText(wants: readonly JudgedWant[]): string {
  if (wants.length === 1) return textOf(wants[0]!);
  const alike = new Set(wants.map(textOf));
  if (alike.size === 1) return [...alike][0]!;
  return listed(wants.map((want) => `${want.want.pin} ${textOf(want)}`));
}

function textOf({ met, reasons }: JudgedWant): string {
  return reasons[0] === undefined ? VERDICT[met] : `${VERDICT[met]}: ${reasons[0]}`;
}
