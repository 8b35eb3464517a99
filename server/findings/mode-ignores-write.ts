/** A write that has no lasting effect in the mode that the timer is in. */
import { single } from "../../shared-model/register-value.js";
import type { Analysis, LostReason, RegisterWrite } from "../analysis.js";
import { inOneBlock, plainStatement } from "../edits/statements.js";
import { historyOf, lastingStates, sameSpan, sketchWrites } from "../look/look.js";
import { showValue } from "../look/show.js";
import { modesOf } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, fileText, lineAfter, pinsOfTimer, removal, textOf } from "./fix.js";

export const modeIgnoresWrite: FindingRule = {
  id: "mode-ignores-write",
  severity: "warning",
  says: "The write, or part of it, has no lasting effect in the mode that the timer is in.",
  why: "The register reads back something else than was written, and the pin or the interrupt keeps a rhythm that stands nowhere in the sketch.",
  source:
    "the chip's data sheet, 16-bit timer: ICRn can only be written in modes with TOP = ICRn, compare registers are double buffered in PWM modes; the masking by a fixed TOP is reported from real boards",
  fires: `ISR(TIMER1_COMPA_vect) {}

void setup() {
  OCR1A = 15624;
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS12) | _BV(CS10);
  TIMSK1 = _BV(OCIE1A);
}

void loop() {}
`,
  quiet: `ISR(TIMER1_COMPA_vect) {}

void setup() {
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS12) | _BV(CS10);
  OCR1A = 15624;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {}
`,
  whenFine:
    "A value that is written again once the mode is set, or that ends up in the register all the same, is no finding.",
  check(analysis, report) {
    for (const write of sketchWrites(analysis)) {
      for (const lost of write.lost) {
        const message = messageFor(analysis, write, lost);
        if (message === null) continue;
        const related = lost.kind === "buffer dropped" ? [{ span: lost.at, message: "the mode changes here" }] : [];
        report({ message, span: write.span, related, fixes: fixes(analysis, write, lost) });
        break;
      }
    }
  },
};

/** The statement moved behind the last line of its function that sets the timer's mode. */
function fixes(analysis: Analysis, write: RegisterWrite, lost: LostReason): readonly Fix[] {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === write.timer);
  if (timer === undefined || lost.kind === "capture outside its modes") return [];
  const modeRegisters = timer.modeField.parts.map((part) => part.register);
  const last = sketchWrites(analysis)
    .filter((other) => modeRegisters.includes(other.register) && other.inFunction === write.inFunction)
    .filter((other) => other.span.path === write.span.path && other.span.start > write.span.end)
    .sort((left, right) => right.span.start - left.span.start)[0];
  const gone = removal(analysis, write.span);
  if (last === undefined || gone === null) return [];
  const text = fileText(analysis, write.span.path);
  if (!inOneBlock(text, write.span.end, last.span.start) || plainStatement(text, last.span) === null) return [];
  const line = lineAfter(analysis, last.span, `${textOf(analysis, write.span)};`);
  return [
    changingFix(
      `Move it behind the mode`,
      `${write.register} then keeps what is written`,
      pinsOfTimer(analysis, write.timer),
      () => [gone, line],
    ),
  ];
}

function messageFor(analysis: Analysis, write: RegisterWrite, lost: LostReason): string | null {
  switch (lost.kind) {
    case "masked by fixed TOP":
      if (lost.asked.max <= lost.top || arrives(analysis, write, lost.asked.min, lost.asked.max)) return null;
      return `${write.register} = ${showValue(lost.asked)} is stored as ${showValue(lost.stored)}: while a mode with fixed TOP ${lost.top} is on, only these bits are kept. Choose the mode first, then write ${write.register}.`;
    case "buffer dropped": {
      const asked = single(write.after);
      // Where the core or a library changes the mode, the order of the sketch's own lines is not the matter.
      if (!sketchWrites(analysis).some((other) => sameSpan(other.span, lost.at))) return null;
      if (asked === undefined || arrives(analysis, write, asked, asked)) return null;
      return `${write.register} = ${asked} is still in its buffer when the mode changes, and is lost${staysAt(analysis, write)}. Choose the mode first, then write ${write.register}.`;
    }
    case "capture outside its modes":
      if (write.asked.max === 0 || takesTop(analysis, write)) return null;
      return `${write.register} is written, but no mode of this sketch takes TOP from it, so it sets nothing. Choose a mode with TOP ${write.register}, or write the register that is TOP.`;
    default:
      return null;
  }
}

/** Whether the register holds the asked value in every lasting state all the same. */
function arrives(analysis: Analysis, write: RegisterWrite, min: number, max: number): boolean {
  if (write.timer === null) return false;
  const states = lastingStates(analysis, write.timer);
  return (
    states.length > 0 &&
    states.every((state) => {
      const value = state.snapshot.working[write.register] ?? state.snapshot.registers[write.register];
      return value !== undefined && value.min >= min && value.max <= max;
    })
  );
}

function takesTop(analysis: Analysis, write: RegisterWrite): boolean {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === write.timer);
  if (timer === undefined) return true;
  const states = historyOf(analysis, timer.number)?.states ?? [];
  return (
    states.length === 0 ||
    states.some((state) => modesOf(timer, state.snapshot).some((mode) => mode.top.kind === "capture"))
  );
}

/** `: OCR1A stays 0`, where every lasting state agrees. */
function staysAt(analysis: Analysis, write: RegisterWrite): string {
  const values =
    write.timer === null
      ? []
      : lastingStates(analysis, write.timer).map((state) => state.snapshot.registers[write.register]);
  const first = values[0];
  if (first === undefined || values.some((value) => value?.min !== first.min || value.max !== first.max)) return "";
  return `: ${write.register} stays ${showValue(first)}`;
}
