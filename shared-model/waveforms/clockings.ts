/** Whether and how fast a timer counts: clock select, power reduction, prescaler reset, timer 2's crystal, CLKPR. */
import type { Chip, ClockSource, TimerFact } from "../chip.js";
import type { TimerSnapshot } from "../timer-snapshot.js";

export type Clocking =
  | { readonly kind: "stopped"; readonly because: string }
  | { readonly kind: "rate unknown"; readonly because: string }
  | { readonly kind: "runs"; readonly by: number };

/** Every way in which the timer may be clocked, given what is known of power, prescaler reset and timer 2's crystal. */
export function clockings(chip: Chip, timer: TimerFact, snapshot: TimerSnapshot, clock: ClockSource): Clocking[] {
  const found: Clocking[] = [];
  if (snapshot.powered !== true) {
    found.push({ kind: "stopped", because: `timer ${timer.number} is switched off (${timer.powerReduction.bit})` });
  }
  if (snapshot.powered === false) {
    return found;
  }
  if (clock.kind === "stopped") {
    found.push({ kind: "stopped", because: `timer ${timer.number} has no clock selected` });
    return found;
  }
  if (clock.kind === "external") {
    const because = `timer ${timer.number} is clocked by the ${clock.edge} edges at pin ${clock.pin} (T${timer.number}), whose rate is not known`;
    found.push({ kind: "rate unknown", because });
    return found;
  }
  if (snapshot.held !== false) {
    // The sheet says that the timers are halted; its figure of the prescaler shows the undivided clock passing it by.
    found.push(
      clock.by === 1
        ? {
            kind: "rate unknown",
            because: "the prescaler is held in reset (TSM), which may not stop an undivided clock",
          }
        : { kind: "stopped", because: "the prescaler is held in reset (TSM)" },
    );
  }
  if (snapshot.held === true) {
    return found;
  }
  if (timer.asynchronous !== undefined && snapshot.asynchronous !== false) {
    const because = `timer ${timer.number} runs from its own crystal (${timer.asynchronous.bit}), whose rate is not known (32768 Hz is usual)`;
    found.push({ kind: "rate unknown", because });
    if (snapshot.asynchronous === true) {
      return found;
    }
  }
  if (snapshot.clockDivisor === null) {
    found.push({ kind: "rate unknown", because: `the CPU clock's divisor (${clockRegister(chip)}) is not known` });
  } else {
    found.push({ kind: "runs", by: clock.by });
  }
  return found;
}

function clockRegister(chip: Chip): string {
  return chip.registers.some((register) => register.name === "CLKPR") ? "CLKPR" : "clock prescaler";
}
