/** A 16-bit register written by halves in the wrong order. */

import { nameWritten, sketchWrites } from "../look/look.js";
import type { FindingRule } from "./finding.js";

export const byteOrder: FindingRule = {
  id: "byte-order",
  severity: "warning",
  says: "A 16-bit register is written by halves in the wrong order: the low byte triggers the write of both.",
  why: "The high byte waits in a shared buffer until the low byte is written: the other way round, the register gets an old high byte.",
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
  whenFine: "Write the register as a whole and the compiler keeps the order.",
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
        });
      }
    }
  },
};
