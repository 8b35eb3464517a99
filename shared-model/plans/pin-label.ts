/** A pin as the board prints it. */
import type { Target } from "../chip.js";

/** `D9`, `A0` for the analog ones; the port's name on a bare chip, and where the board has no number for it. */
export function pinLabel({ board, pins }: Pick<Target, "board" | "pins">, port: string): string {
  const pin = board === null ? undefined : pins.find((candidate) => candidate.port === port);
  if (pin === undefined) return port;
  return pin.analog ?? `D${pin.number}`;
}
