/**
 * What of a report must survive every rewriting: signals by pin and regime, the registers of every timer state, the rates
 * of interrupts, the verdicts on wants, and whether it is complete. Places, the wording of conditions and the words of a
 * gap speak of the text itself, so they may change with it; so do the times of pulses that software makes: they count what
 * the code as it is written may cost, and are not told where that is too much to follow.
 */
import type { Analysis } from "../../server/analysis.js";
import { wantVerdicts } from "../../server/look/judged-wants.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import { showSignal } from "../runner/signal-claim.js";

export function fingerprint(analysis: Analysis): readonly string[] {
  const lines = new Set<string>();
  for (const pin of analysis.pins) {
    for (const signal of pin.signals) {
      const { because: _, ...rest } = signal;
      const bySoftware = signal.kind === "pulse" && (signal.driver === "software" || signal.driver === "interrupt");
      const what = bySoftware ? "pulse" : showSignal({ ...rest, because: null });
      lines.add(`pin ${pin.pin} ${signal.regime} ${signal.driver ?? "-"}: ${what}`);
    }
  }
  for (const timer of analysis.timers)
    for (const state of timer.states)
      lines.add(
        `timer ${timer.timer} ${state.regime}: ${Object.entries(state.snapshot.registers)
          .map(([name, value]) => `${name} ${shown(value)}`)
          .join(", ")}`,
      );
  for (const { vector, rateHz } of analysis.interrupts)
    lines.add(`interrupt ${vector}: ${rateHz === null ? "unknown" : `${rateHz.min}..${rateHz.max}`}`);
  for (const { want, met } of wantVerdicts(analysis)) lines.add(`want ${want.pin}: ${met}`);
  lines.add(`complete: ${analysis.complete}`);
  return [...lines].sort();
}

function shown(value: RegisterValue): string {
  return value.values !== null
    ? value.values.join("/")
    : `${value.min}..${value.max} bits ${value.zeros}/${value.ones}`;
}

/**
 * What one has and the other has not, a line each; empty where nothing changed. `slower` (see Rewriting): setup is not
 * compared, nor are pins that the program itself switches, whose pulses are as long as its code takes.
 */
export function differences(before: readonly string[], after: readonly string[], slower = false): readonly string[] {
  const switched = [...before, ...after].flatMap((line) => /^(pin \S+) \S+ software:/.exec(line)?.[1] ?? []);
  return [
    ...before.filter((line) => !after.includes(line)).map((line) => `- ${line}`),
    ...after.filter((line) => !before.includes(line)).map((line) => `+ ${line}`),
  ].filter((line) => !slower || !(/ setup[ :]/.test(line) || switched.some((pin) => line.startsWith(`${pin} `, 2))));
}
