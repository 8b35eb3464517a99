/** Which pin a comment means: as the board prints it, as the port is called, or by a constant of the sketch. */
import type { Analysis, PinHistory, PlacedComment } from "../analysis.js";

/** The pin's history; null where the name is no pin of this board; undefined where the pin is known but nothing drives it. */
export function pinNamed(analysis: Analysis, name: string): PinHistory | null | undefined {
  const port = portNamed(analysis, name);
  return port === undefined ? null : analysis.pins.find((pin) => pin.port === port);
}

/** `D3`, `3`, `A0`, `PD3` → the port; undefined for anything else. */
export function portNamed(analysis: Analysis, name: string): string | undefined {
  const number = /^[dD]?(\d+)$/.exec(name)?.[1];
  const upper = name.toUpperCase();
  for (const pin of analysis.target.pins) {
    if (number === undefined ? pin.analog === upper || pin.port === upper : String(pin.number) === number)
      return pin.port;
  }
  return analysis.pins.find((pin) => pin.port === upper || pin.pin === upper)?.port;
}

/** The pin that a want or a reading means: null where there is none such, undefined where nothing is known of it. */
export function pinOfComment(analysis: Analysis, placed: PlacedComment): PinHistory | null | undefined {
  const { comment, pin } = placed;
  if (comment.kind !== "want" && comment.kind !== "reading") return null;
  if (pin === null) return null;
  return analysis.pins.find((candidate) => candidate.pin === pin || candidate.port === pin);
}
