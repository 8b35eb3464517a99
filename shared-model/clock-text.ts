/** A clock's frequency as people write it: on the command line, in settings, in a comment. */

/** `16000000`, `8e6`, `8 MHz`, `32.768kHz` → whole Hz; null for anything else and for less than 1 Hz. */
export function readClock(text: string): number | null {
  const match = /^\s*(\d+(?:\.\d+)?(?:e\d+)?)\s*(hz|khz|mhz)?\s*$/i.exec(text);
  if (match === null) return null;
  const scale = { hz: 1, khz: 1_000, mhz: 1_000_000 }[(match[2] ?? "hz").toLowerCase()] ?? 1;
  const hz = Math.round(Number(match[1]) * scale);
  return hz >= 1 && Number.isSafeInteger(hz) ? hz : null;
}

/** Without loss: `16 MHz`, `32.768 kHz`, `7372800` as `7.3728 MHz`. */
export function writeClock(hz: number): string {
  if (hz >= 1_000_000) return `${hz / 1_000_000} MHz`;
  return hz >= 10_000 ? `${hz / 1_000} kHz` : `${hz} Hz`;
}
