/** A pin as the board prints it. */
import type { BoardPin } from "../chip.js";

/** `D9`, `A0` for the analog ones; the port's name where the board has no number for it. */
export function pinLabel(pins: readonly BoardPin[], port: string): string {
  const pin = pins.find((candidate) => candidate.port === port);
  if (pin === undefined) return port;
  return pin.analog ?? `D${pin.number}`;
}
