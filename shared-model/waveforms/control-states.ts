/** Which modes and clock settings a timer's control registers allow, and how a mode is called. */
import type { ClockSource, FieldFact, ModeFact, TimerFact } from "../chip.js";
import type { TimerSnapshot } from "../timer-snapshot.js";
import { anyValue, maskedMembers } from "./register-members.js";

/** One mode with one clock setting. */
export interface ControlState {
  readonly mode: ModeFact;
  readonly clock: ClockSource;
}

/** More combinations than this are answered as one unknown. */
export const mostControlStates = 64;

/**
 * Every mode and clock setting that the control registers allow; null above `mostControlStates`. Bits of one register
 * are taken together, so that a register with two possible values gives two states, not four.
 */
export function controlStates(timer: TimerFact, snapshot: TimerSnapshot): readonly ControlState[] | null {
  const fields = [timer.modeField, timer.clockField];
  const registers = [...new Set(fields.flatMap((field) => field.parts.map((part) => part.register)))];
  let partial: { readonly mode: number; readonly clock: number }[] = [{ mode: 0, clock: 0 }];
  for (const register of registers) {
    const mask = fields.reduce((all, field) => all | registerMask(field, register), 0);
    const members = maskedMembers(snapshot.registers[register] ?? anyValue(8), mask);
    if (partial.length * members.length > mostControlStates) {
      return null;
    }
    partial = partial.flatMap((state) =>
      members.map((member) => ({
        mode: state.mode | fieldBits(timer.modeField, register, member),
        clock: state.clock | fieldBits(timer.clockField, register, member),
      })),
    );
  }
  return partial.map((state) => ({ mode: timer.modes[state.mode]!, clock: timer.clocks[state.clock]! }));
}

function registerMask(field: FieldFact, register: string): number {
  return field.parts
    .filter((part) => part.register === register)
    .reduce((mask, part) => mask | ((2 ** part.width - 1) << part.shift), 0);
}

/** The bits of `field` that a value of `register` carries. */
function fieldBits(field: FieldFact, register: string, value: number): number {
  return field.parts
    .filter((part) => part.register === register)
    .reduce((bits, part) => bits | (((value >> part.shift) & (2 ** part.width - 1)) << part.at), 0);
}

/** `phase correct, TOP OCR2A`; `fast PWM, TOP 0xFF`; `CTC, TOP ICR1`; `reserved (WGM2 = 4)`. */
export function modeName(timer: TimerFact, mode: ModeFact): string {
  const family = {
    normal: "normal",
    ctc: "CTC",
    fast: "fast PWM",
    "phase correct": "phase correct",
    "phase and frequency correct": "phase and frequency correct",
    reserved: "reserved",
  }[mode.family];
  return mode.family === "reserved"
    ? `reserved (${timer.modeField.name} = ${mode.select})`
    : `${family}, TOP ${topName(timer, mode)}`;
}

/** What holds TOP: `0xFF`, `OCR2A`, `ICR1`. */
export function topName(timer: TimerFact, mode: ModeFact): string {
  switch (mode.top.kind) {
    case "fixed":
      return `0x${mode.top.value.toString(16).toUpperCase()}`;
    case "compareA":
      return timer.channels[0]!.compare;
    case "capture":
      return timer.capture ?? "ICR";
  }
}

/** The names of all modes that the control registers allow, joined by " or "; `any mode` where they are too many. */
export function modeNames(timer: TimerFact, snapshot: TimerSnapshot): string {
  const states = controlStates(timer, snapshot);
  if (states === null) {
    return "any mode";
  }
  const modes = [...new Set(states.map((state) => state.mode))].sort((a, b) => a.select - b.select);
  return modes.length > 4 ? "any of several modes" : modes.map((mode) => modeName(timer, mode)).join(" or ");
}
