/** Names of pins as comments write them, and when a line that opens as ours is nothing but prose. */

/** Surely a pin's name, on whatever board: `D3`, `3`, `A0`, `PD3`. */
export const boardPin = /^(?:D?\d{1,3}|A\d{1,2}|P[A-L][0-7])$/;

const opensWithDemand =
  /^\s*(?:\d[\d.]*\s*(?:[kKM]?[hH][zZ]\b|\.\.|steps?\b)|(?:duty|reach|within)\s+\d|(?:pulse|every)\s+\d[\d.]*\s*(?:[uµμm]?s\b|\.\.)|idle\s+(?:low|high)\b)/i;

/**
 * `wants more: light`: names that are no pins, and several words without a number. With several such names (`wants bread
 * and butter: 2 slices`) only what opens as a demand, or names a specification, is a want.
 */
export function isProse(pins: readonly string[], rest: string, specificationIds: readonly string[] = []): boolean {
  if (pins.some((pin) => boardPin.test(pin)) || opensWithDemand.test(rest)) {
    return false;
  }
  const firstWord = /^\s*([A-Za-z][A-Za-z0-9-]*)/.exec(rest)?.[1];
  if (firstWord !== undefined && specificationIds.includes(firstWord)) {
    return false;
  }
  return pins.length > 1 || (!/\d/.test(rest) && rest.trim().split(/\s+/).length > 1);
}
