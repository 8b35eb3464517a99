/** How a mode and its TOP are said in a message. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import { showMode } from "./show.js";
import { topRegister } from "./timer-view.js";

/** `255` for a fixed TOP, else the register's name. */
export function topName(timer: TimerFact, mode: ModeFact): string {
  return mode.top.kind === "fixed" ? String(mode.top.value) : (topRegister(timer, mode) ?? "TOP");
}

/** `fast PWM with TOP ICR1`. */
export function modeWords(timer: TimerFact, mode: ModeFact): string {
  return showMode(mode, topName(timer, mode));
}
