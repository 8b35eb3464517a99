/** A 16-bit register written by halves in the wrong order, or with a routine that may come between the halves. */

import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite } from "../analysis.js";
import { indentAt, lineBreak } from "../edits/source-text.js";
import { inOneBlock, plainStatement } from "../edits/statements.js";
import { nameWritten, sketchWrites } from "../look/look.js";
import { showValue } from "../look/show.js";
import type { FindingRule, Fix, Report } from "./finding.js";
import { changingFix, fileText, pinsOfTimer, textOf } from "./fix.js";

export const byteOrder: FindingRule = {
  id: "byte-order",
  severity: "warning",
  says: "A 16-bit register is written by halves in the wrong order, or an interrupt routine may come between the halves.",
  why: "The high byte waits in a buffer that all 16-bit registers of the timer share until the low byte is written: the other way round, or when a routine writes such a register in between, the register gets another high byte.",
  source: "the chip's data sheet, accessing 16-bit registers: write the high byte first",
  fires: `void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1L = 0x80;
  ICR1H = 0x02;
  OCR1A = 100;
}

void loop() {}
`,
  quiet: `void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1H = 0x02;
  ICR1L = 0x80;
  OCR1A = 100;
}

void loop() {}
`,
  whenFine:
    "Write the register as a whole and the compiler keeps the order. Where the routine's high byte is always the same as the one written here, nothing is said.",
  check(analysis, report) {
    const writes = sketchWrites(analysis);
    for (const pair of analysis.target.chip.wide) {
      if (
        !analysis.target.chip.timers.some((timer) =>
          [timer.counter, timer.capture, ...timer.channels.map((channel) => channel.compare)].includes(pair.name),
        )
      )
        continue;
      for (const [index, low] of writes.entries()) {
        const next = writes[index + 1];
        const previous = writes[index - 1];
        if (next === undefined || nameWritten(analysis, low) !== pair.low || nameWritten(analysis, next) !== pair.high)
          continue;
        if (next.inFunction !== low.inFunction) continue;
        const highFirst = previous !== undefined && nameWritten(analysis, previous) === pair.high;
        if (highFirst && previous.inFunction === low.inFunction) continue;
        report({
          message: `${pair.low} is written before ${pair.high}: ${pair.name} takes the high byte that was left in the buffer. Write ${pair.high} first, or ${pair.name} as a whole.`,
          span: low.span,
          related: [{ span: next.span, message: "the high byte comes too late" }],
          fixes: swapFix(analysis, low, next),
        });
      }
    }
    parted(analysis, report);
  },
};

function swapFix(analysis: Analysis, low: RegisterWrite, high: RegisterWrite): readonly Fix[] {
  const text = fileText(analysis, low.span.path);
  const plain = [low, high].every((write) => plainStatement(text, write.span) !== null);
  if (!plain || low.span.path !== high.span.path || !inOneBlock(text, low.span.end, high.span.start)) return [];
  return [
    changingFix(
      "Write the high byte first",
      "the register gets both bytes that are written here",
      pinsOfTimer(analysis, low.timer),
      () => [
        { span: low.span, text: textOf(analysis, high.span) },
        { span: high.span, text: textOf(analysis, low.span) },
      ],
    ),
  ];
}

/** Whole writes between whose two bytes a routine may come and leave a high byte of its own. */
function parted(analysis: Analysis, report: Report): void {
  for (const write of sketchWrites(analysis)) {
    const lost = write.lost.find((reason) => reason.kind === "parted by a routine");
    // In setup it is a matter of a few cycles in the whole run, before the timer has come round once.
    if (lost === undefined || lost.kind !== "parted by a routine" || write.inFunction === "setup") continue;
    const routine = sketchWrites(analysis).find(
      (other) => other.inInterrupt !== null && other.timer === write.timer && isWide(analysis, other.register),
    );
    const who = routine === undefined ? "An interrupt routine" : `The routine ${routine.inInterrupt}`;
    const byte = single(lost.high) === undefined ? "a high byte" : `the high byte ${showValue(lost.high)}`;
    const high = routine === undefined ? byte : `${byte} of its ${routine.register}`;
    report({
      message: `${who} may come between the two bytes of ${write.register} and leave ${high} in the buffer that both share, so ${write.register} gets a value that nobody wrote. Hold interrupts off around this write.`,
      span: write.span,
      related: routine === undefined ? [] : [{ span: routine.span, message: "the routine writes here" }],
      fixes: guardFix(analysis, write),
    });
  }
}

function isWide(analysis: Analysis, register: string): boolean {
  return analysis.target.chip.wide.some((pair) => pair.name === register || pair.high === register);
}

/** The statement between `cli()` and the flag as it was: interrupts that were off before stay off. */
function guardFix(analysis: Analysis, write: RegisterWrite): readonly Fix[] {
  const text = fileText(analysis, write.span.path);
  const statement = plainStatement(text, write.span);
  if (statement === null) return [];
  const name = ["oldSREG", "savedSREG", "flagsBefore"].find((each) => !new RegExp(`\\b${each}\\b`).test(text));
  if (name === undefined) return [];
  const between = `${lineBreak(text)}${indentAt(text, statement.start)}`;
  const { path } = write.span;
  return [
    changingFix(
      "Hold interrupts off around this write",
      "no routine comes between the two bytes",
      pinsOfTimer(analysis, write.timer),
      () => [
        {
          span: { path, start: statement.start, end: statement.start },
          text: `const uint8_t ${name} = SREG;${between}cli();${between}`,
        },
        { span: { path, start: statement.end, end: statement.end }, text: `${between}SREG = ${name};` },
      ],
    ),
  ];
}
