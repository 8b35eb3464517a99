/** Written before the core's init runs, and changed by it. */
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite } from "../analysis.js";
import { maskedBits } from "../look/core-bits.js";
import { partsOf } from "../look/expression.js";
import { historyOf, sketchWrites } from "../look/look.js";
import { fieldsOf, timerOfControl } from "../look/register-fields.js";
import { showHex } from "../look/show.js";
import type { FindingRule, Fix } from "./finding.js";
import { allOf, changingFix, firstLineOf, pinsOfTimer, removal, textOf } from "./fix.js";

export const wipedByCore: FindingRule = {
  id: "wiped-by-core",
  severity: "error",
  says: "A register is written before the core's init runs, which then changes it.",
  why: "Global constructors run first, the core's init second, setup third: a timer set up in a constructor is set up again by the core.",
  source: "the core's main.cpp and wiring.c: constructors, then init, then setup",
  fires: `struct Fan {
  Fan() { TCCR1B = _BV(WGM12) | _BV(CS10); }
};
Fan fan;

void setup() {}

void loop() { analogWrite(9, 60); }
`,
  quiet: `struct Fan {
  void begin() { TCCR1B = _BV(WGM12) | _BV(CS10); }
};
Fan fan;

void setup() { fan.begin(); }

void loop() { analogWrite(9, 60); }
`,
  whenFine: "Never: move the write into setup, or into a begin method that setup calls.",
  check(analysis, report) {
    if (!analysis.core) return;
    for (const write of sketchWrites(analysis)) {
      const now = write.beforeInit ? afterInit(analysis, write) : null;
      const asked = maskedBits(write.after, 0xff);
      if (now === null || asked === undefined) continue;
      report({
        message: `${write.register} = ${showHex(asked)} is written before the core's init, which changes it to ${showHex(now)}. Write it in setup, or in a method that setup calls.`,
        span: write.span,
        related: [],
        fixes: fixes(analysis, write),
      });
    }
  },
};

/** The constructor's lines for this timer moved to the beginning of setup, in their order. */
function fixes(analysis: Analysis, wiped: RegisterWrite): readonly Fix[] {
  const { path } = wiped.span;
  const lines = sketchWrites(analysis).filter(
    (write) => write.beforeInit && write.timer === wiped.timer && write.inFunction === wiped.inFunction,
  );
  // What a line names must be known in setup too: registers and constants are, members and arguments are not.
  const moves = lines.every(
    (write) =>
      write.span.path === path &&
      write.expression !== null &&
      [...partsOf(write.expression)].every((part) => !["name", "call", "other"].includes(part.kind)),
  );
  const start = firstLineOf(
    analysis,
    path,
    "setup",
    lines.map((write) => `${textOf(analysis, write.span)};`),
  );
  const edits = [...lines.map((write) => removal(analysis, write.span)), start];
  if (!moves || edits.some((edit) => edit === null)) return [];
  return [
    changingFix(
      "Move it to the beginning of setup",
      "the core's init has then run, and what is written stays",
      pinsOfTimer(analysis, wiped.timer),
      () => allOf(edits),
    ),
  ];
}

/** The control register's value once init has run, where that differs in mode or clock and nothing else writes it. */
function afterInit(analysis: Analysis, write: RegisterWrite): number | null {
  const { chip } = analysis.target;
  const timer = timerOfControl(chip, write.register);
  if (timer === undefined || !isLast(analysis, write)) return null;
  const fields = fieldsOf(chip, write.register).filter((field) => field.kind === "mode" || field.kind === "clock");
  const mask = fields.reduce((all, field) => all | field.mask, 0);
  const values = (historyOf(analysis, timer.number)?.states ?? []).map(
    (state) => state.snapshot.registers[write.register],
  );
  const first = values[0];
  if (first === undefined || values.some((value) => value === undefined)) return null;
  const now = maskedBits(first, mask);
  if (now === undefined || now === maskedBits(write.after, mask)) return null;
  return (values as RegisterValue[]).every((value) => maskedBits(value, mask) === now) ? now : null;
}

/** Whether the sketch writes the register nowhere later. */
function isLast(analysis: Analysis, write: RegisterWrite): boolean {
  const same = sketchWrites(analysis).filter((other) => other.register === write.register);
  return same.at(-1) === write;
}
