/** Mode bits are spread over two registers: the half that was not written decides too. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import type { Analysis, RegisterWrite, TimerState } from "../analysis.js";
import { neverTouched } from "../look/core-bits.js";
import { lastingStates, makerOf } from "../look/look.js";
import { modeWith, sketchMeans } from "../look/mode-evidence.js";
import { bitName } from "../look/register-fields.js";
import { either, listed } from "../look/show.js";
import { clocksOf, fieldValues } from "../look/timer-view.js";
import { modeWords } from "../look/top-name.js";
import type { FindingRule } from "./finding.js";

export const halfAMode: FindingRule = {
  id: "half-a-mode",
  severity: "warning",
  says: "The mode bits in the timer's two control registers together select a reserved mode, or another mode than the sketch works for.",
  why: "WGM bits live in TCCRnA and TCCRnB. Writing one half leaves the other as the core's init set it, and the timer counts in a mode that nobody chose.",
  source: "the chip's data sheet, waveform generation mode tables; the core's init in wiring.c",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = 249;
  OCR2B = 100;
}

void loop() {}
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = 249;
  OCR2B = 100;
}

void loop() {}
`,
  whenFine: "A mode that is only passed through between two writes is no finding.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      for (const state of lastingStates(analysis, timer.number)) {
        const selects = fieldValues(timer.modeField, state.snapshot.registers);
        const select = selects.length === 1 ? selects[0]! : undefined;
        const got = select === undefined ? undefined : modeWith(timer, select);
        if (got === undefined || clocksOf(timer, state.snapshot).every((clock) => clock.kind === "stopped")) continue;
        const maker = modeMaker(analysis, timer, state);
        if (maker === undefined) continue;
        const message =
          got.family === "reserved" ? reserved(analysis, timer, got) : unlikely(analysis, timer, got, maker);
        if (message !== null) report({ message, span: maker.span, related: otherHalf(analysis, timer, state, maker) });
      }
    }
  },
};

/** The newest write that set mode bits of this state. */
function modeMaker(analysis: Analysis, timer: TimerFact, state: TimerState): RegisterWrite | undefined {
  return makerOf(analysis, state.from, (write) =>
    timer.modeField.parts.some((part) => part.register === write.register),
  );
}

function otherHalf(analysis: Analysis, timer: TimerFact, state: TimerState, maker: RegisterWrite) {
  const other = makerOf(
    analysis,
    state.from,
    (write) =>
      write.register !== maker.register && timer.modeField.parts.some((part) => part.register === write.register),
  );
  return other === undefined ? [] : [{ span: other.span, message: "the other half of the mode is set here" }];
}

function reserved(analysis: Analysis, timer: TimerFact, got: ModeFact): string {
  const bits = got.select.toString(2).padStart(timer.modeField.width, "0");
  const ways: string[] = [];
  for (const { name, at } of modeBits(analysis, timer)) {
    const bit = 1 << at;
    const mode = modeWith(timer, got.select ^ bit);
    if (mode === undefined || mode.family === "reserved" || mode.family === "normal") continue;
    ways.push(`${(got.select & bit) === 0 ? "set" : "clear"} ${name} for ${modeWords(timer, mode)}`);
  }
  const way = ways.length === 0 ? "Choose another mode." : `${capital(either(ways.slice(0, 2)))}.`;
  const top = timer.modeField.width - 1;
  return `Timer ${timer.number} is in a reserved mode: its bits ${timer.modeField.name}${top}..0 are ${bits}. ${way}`;
}

/** A write of one half that relies on the other as the core left it, where the sketch works for the mode without that. */
function unlikely(analysis: Analysis, timer: TimerFact, got: ModeFact, maker: RegisterWrite): string | null {
  for (const part of timer.modeField.parts) {
    const mask = ((1 << part.width) - 1) << part.shift;
    if (part.register === maker.register || !neverTouched(analysis, part.register, mask)) continue;
    const left = (got.select >> part.at) & ((1 << part.width) - 1);
    if (left === 0) continue;
    const meant = modeWith(timer, got.select & ~(left << part.at));
    if (meant === undefined || meant.family === "reserved" || !sketchMeans(analysis, timer, meant, got)) continue;
    const names = modeBits(analysis, timer)
      .filter((bit) => bit.register === part.register && (got.select & (1 << bit.at)) !== 0)
      .map((bit) => bit.name);
    return `Timer ${timer.number} runs in ${modeWords(timer, got)}, not in ${modeWords(timer, meant)}: the core's init left ${listed(names)} set in ${part.register}. Write ${part.register} = 0 as well.`;
  }
  return null;
}

function modeBits(
  analysis: Analysis,
  timer: TimerFact,
): readonly { readonly name: string; readonly register: string; readonly at: number }[] {
  return timer.modeField.parts.flatMap((part) =>
    Array.from({ length: part.width }, (_, index) => ({
      name: bitName(analysis.target.chip, part.register, part.shift + index) ?? `bit ${part.shift + index}`,
      register: part.register,
      at: part.at + index,
    })),
  );
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
