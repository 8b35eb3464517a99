/**
 * What an output compare pin must put out in a steady register state, by the formulas printed in the ATmega328P data
 * sheet (DS40002061B). Written from the text and formulas alone, without the machine in view; knows no counting.
 * Sections: 15.7 / 18.7 (modes of the 8-bit timers), 16.9 (modes of the 16-bit timer), 15.9 / 16.11 / 18.11 (registers).
 */

/** A steady state of one timer with the channel that is asked about. */
export interface SteadyState {
  readonly bits: 8 | 16;
  /** WGM bits as one number. */
  readonly wgm: number;
  /** CPU clocks per timer clock; 0 = stopped. */
  readonly prescaler: number;
  readonly channel: "A" | "B" | "C";
  readonly com: number;
  /** The asked channel's compare value. */
  readonly compare: number;
  readonly compareA: number;
  readonly capture: number;
}

export type Expected =
  | { readonly kind: "pulse"; readonly periodTicks: number; readonly highTicks: number }
  /** null: constant, but the sheet does not say which level. */
  | { readonly kind: "level"; readonly level: 0 | 1 | null }
  | { readonly kind: "disconnected" }
  /** The sheet calls the combination reserved, or its formula has no value (dual slope toggling with TOP = 0). */
  | { readonly kind: "reserved" };

const PULSE_OFF: Expected = { kind: "disconnected" };

export function expectedOutput(state: SteadyState): Expected {
  const { bits, wgm, com } = state;
  if (com === 0) return PULSE_OFF;
  if (bits === 8 ? wgm === 4 || wgm === 6 : wgm === 13) return { kind: "reserved" };
  const ctc = bits === 8 ? wgm === 2 : wgm === 4 || wgm === 12;
  if (wgm === 0 || ctc) return nonPwm(state, ctc);
  const fast = bits === 8 ? wgm === 3 || wgm === 7 : [5, 6, 7, 14, 15].includes(wgm);
  return fast ? fastPwm(state) : dualSlope(state);
}

function top({ bits, wgm, compareA, capture }: SteadyState): number {
  if (bits === 8) return wgm === 2 || wgm === 5 || wgm === 7 ? compareA : 255;
  // Table 16-4.
  if (wgm === 1 || wgm === 5) return 255;
  if (wgm === 2 || wgm === 6) return 511;
  if (wgm === 3 || wgm === 7) return 1023;
  if (wgm === 4 || wgm === 9 || wgm === 11 || wgm === 15) return compareA;
  if (wgm === 8 || wgm === 10 || wgm === 12 || wgm === 14) return capture;
  return 65535;
}

/** 15.7.2, 16.9.2: f = f_clk / (2 · N · (1 + OCRnx)) for toggling; the counter's period is TOP + 1 timer clocks. */
function nonPwm(state: SteadyState, ctc: boolean): Expected {
  const limit = ctc ? top(state) : state.bits === 8 ? 255 : 65535;
  if (state.prescaler === 0) return { kind: "level", level: null };
  if (state.compare > limit) return { kind: "level", level: null };
  if (state.com === 2) return { kind: "level", level: 0 };
  if (state.com === 3) return { kind: "level", level: 1 };
  const half = state.prescaler * (limit + 1);
  return { kind: "pulse", periodTicks: 2 * half, highTicks: half };
}

/** 15.7.3, 16.9.3: f = f_clk / (N · (1 + TOP)); OCR = BOTTOM a narrow spike, OCR = MAX (TOP) constantly high or low. */
function fastPwm(state: SteadyState): Expected {
  const limit = top(state);
  const { com, prescaler, compare } = state;
  if (com === 1) {
    // Tables 15-3, 18-3: WGMn2 = 1 toggles; table 16-2: modes 14 and 15. Channel A only.
    const toggles =
      state.channel === "A" && (state.bits === 8 ? state.wgm === 7 : state.wgm === 14 || state.wgm === 15);
    if (!toggles) return state.bits === 8 && state.channel !== "A" ? { kind: "reserved" } : PULSE_OFF;
    if (prescaler === 0 || compare > limit) return { kind: "level", level: null };
    return { kind: "pulse", periodTicks: 2 * prescaler * (limit + 1), highTicks: prescaler * (limit + 1) };
  }
  if (prescaler === 0) return { kind: "level", level: null };
  const inverting = com === 3;
  if (compare >= limit) return { kind: "level", level: inverting ? 0 : 1 };
  const period = prescaler * (limit + 1);
  const set = prescaler * (compare + 1);
  return { kind: "pulse", periodTicks: period, highTicks: inverting ? period - set : set };
}

/** 15.7.4, 16.9.4, 16.9.5: f = f_clk / (2 · N · TOP); OCR = BOTTOM constantly low, OCR = TOP constantly high. */
function dualSlope(state: SteadyState): Expected {
  const limit = top(state);
  const { com, prescaler, compare } = state;
  if (com === 1) {
    // Tables 15-4, 18-4: WGMn2 = 1 toggles; table 16-3: modes 9 and 11. Channel A only, whose OCR is TOP there.
    const toggles = state.channel === "A" && (state.bits === 8 ? state.wgm === 5 : state.wgm === 9 || state.wgm === 11);
    if (!toggles) return state.bits === 8 && state.channel !== "A" ? { kind: "reserved" } : PULSE_OFF;
    if (limit === 0) return { kind: "reserved" };
    if (prescaler === 0) return { kind: "level", level: null };
    return { kind: "pulse", periodTicks: 4 * prescaler * limit, highTicks: 2 * prescaler * limit };
  }
  if (prescaler === 0 || limit === 0 || compare > limit) return { kind: "level", level: null };
  const inverting = com === 3;
  if (compare === 0) return { kind: "level", level: inverting ? 1 : 0 };
  if (compare === limit) return { kind: "level", level: inverting ? 0 : 1 };
  const period = 2 * prescaler * limit;
  const high = 2 * prescaler * compare;
  return { kind: "pulse", periodTicks: period, highTicks: inverting ? period - high : high };
}
