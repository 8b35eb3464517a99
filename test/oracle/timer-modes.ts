/**
 * Mode and output tables of the oracle's timers, written from the ATmega328P data sheet (DS40002061B): 8-bit timers
 * tables 15-2 … 15-8 (timer 0) and 18-2 … 18-8 (timer 2), 16-bit timers tables 16-1 … 16-4. The ATmega2560's
 * (DS40002211A, tables 16-x, 17-x, 20-x) are the same apart from the third channel.
 */

export type Top = "max" | "0xff" | "0x1ff" | "0x3ff" | "ocra" | "icr";
export type Counting = "up" | "fast" | "dual";

export interface Mode {
  /** "up": normal and CTC, compare registers unbuffered; "fast": single slope PWM; "dual": both dual-slope families. */
  readonly counting: Counting;
  readonly top: Top;
  /** Dual slope only: buffers are taken over at BOTTOM (phase and frequency correct) instead of TOP. */
  readonly updatesAtBottom: boolean;
  readonly reserved: boolean;
  /** Whether COMnA = 1 toggles OCnA in this PWM mode. */
  readonly toggleA: boolean;
}

const up = (top: Top, reserved = false): Mode => ({
  counting: "up",
  top,
  updatesAtBottom: false,
  reserved,
  toggleA: true,
});
const fast = (top: Top, toggleA: boolean): Mode => ({
  counting: "fast",
  top,
  updatesAtBottom: true,
  reserved: false,
  toggleA,
});
const dual = (top: Top, updatesAtBottom: boolean, toggleA: boolean): Mode => ({
  counting: "dual",
  top,
  updatesAtBottom,
  reserved: false,
  toggleA,
});

/** By WGMn2:0. */
export const MODES_8: readonly Mode[] = [
  up("max"),
  dual("0xff", false, false),
  up("ocra"),
  fast("0xff", false),
  up("max", true),
  dual("ocra", false, true),
  up("max", true),
  fast("ocra", true),
];

/**
 * By WGMn3:0. Toggling OCnA: fast PWM in modes 14 and 15 (table 16-3), dual slope in modes 9 and 11 (table 16-4 of the
 * revisions from 8161D on; older prints add 8 and 10).
 */
export const MODES_16: readonly Mode[] = [
  up("max"),
  dual("0xff", false, false),
  dual("0x1ff", false, false),
  dual("0x3ff", false, false),
  up("ocra"),
  fast("0xff", false),
  fast("0x1ff", false),
  fast("0x3ff", false),
  dual("icr", true, false),
  dual("ocra", true, true),
  dual("icr", false, false),
  dual("ocra", false, true),
  up("icr"),
  up("max", true),
  fast("icr", true),
  fast("ocra", true),
];

export type Action = "none" | "toggle" | "clear" | "set";

/** What one channel's output does in one mode with one COM setting. */
export interface OutputRule {
  readonly connected: boolean;
  /** The data sheet calls the combination reserved: nothing may be concluded from what the machine does. */
  readonly reserved: boolean;
  readonly matchUp: Action;
  readonly matchDown: Action;
  /** Fast PWM: when the counter returns to BOTTOM. */
  readonly atBottom: Action;
}

const rule = (matchUp: Action, matchDown: Action, atBottom: Action): OutputRule => ({
  connected: true,
  reserved: false,
  matchUp,
  matchDown,
  atBottom,
});
const DISCONNECTED: OutputRule = {
  connected: false,
  reserved: false,
  matchUp: "none",
  matchDown: "none",
  atBottom: "none",
};
const RESERVED: OutputRule = { ...DISCONNECTED, reserved: true };

export function outputRule(mode: Mode, letter: string, com: number, bits: 8 | 16): OutputRule {
  if (com === 0) return DISCONNECTED;
  if (mode.reserved) return RESERVED;
  if (mode.counting === "up") {
    const action = (["none", "toggle", "clear", "set"] as const)[com]!;
    return rule(action, action, "none");
  }
  if (com === 1) {
    if (letter === "A") return mode.toggleA ? rule("toggle", "toggle", "none") : DISCONNECTED;
    return bits === 8 ? RESERVED : DISCONNECTED;
  }
  if (mode.counting === "fast") return com === 2 ? rule("clear", "none", "set") : rule("set", "none", "clear");
  return com === 2 ? rule("clear", "set", "none") : rule("set", "clear", "none");
}

/** TOP as a number, given the working compare A and capture registers. */
export function topValue(top: Top, compareA: number, capture: number, max: number): number {
  switch (top) {
    case "max":
      return max;
    case "0xff":
      return 0xff;
    case "0x1ff":
      return 0x1ff;
    case "0x3ff":
      return 0x3ff;
    case "ocra":
      return compareA;
    case "icr":
      return capture;
  }
}
