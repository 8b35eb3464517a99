/** Settings are written to a timer that nothing uses. */
import type { TimerFact } from "../../shared-model/chip.js";
import type { Analysis } from "../analysis.js";
import { historyOf, mentions, sketchWrites, unitOfPin } from "../look/look.js";
import type { FindingRule, Fix } from "./finding.js";
import { allOf, changingFix, pinsOfTimer, removal } from "./fix.js";

export const idleTimer: FindingRule = {
  id: "idle-timer",
  severity: "note",
  says: "Settings are written to a timer none of whose pins, interrupts, flags, counter or triggers are used.",
  why: "Often the wrong timer's registers were copied: the pin in use hangs on another timer and does not change.",
  source: "common practice, no source",
  fires: `void setup() {
  TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS10);
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS10);
}

void loop() { analogWrite(9, 60); }
`,
  whenFine: "A timer that is stopped or reset to leave it in a known state is left alone.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      if (analysis.core && timer.number === 0) continue;
      const writes = sketchWrites(analysis).filter(
        (write) => timer.control.includes(write.register) && write.after.max > 0,
      );
      const first = writes[0];
      if (first === undefined || isUsed(analysis, timer)) continue;
      report({
        message: `Timer ${timer.number} is set up here, but none of its pins, interrupts or flags is used. Is it the timer of the pin that was meant?`,
        span: first.span,
        related: [],
        fixes: removing(analysis, timer),
      });
    }
  },
};

/** Every line of the sketch that sets the timer, taken out: nothing hangs on it. */
function removing(analysis: Analysis, timer: TimerFact): readonly Fix[] {
  const edits = sketchWrites(analysis)
    .filter((write) => write.timer === timer.number)
    .map((write) => removal(analysis, write.span));
  if (edits.some((edit) => edit === null)) return [];
  const many = edits.length === 1 ? "this setting" : "these settings";
  return [
    changingFix(
      `Take out ${many} of timer ${timer.number}`,
      "nothing of the sketch uses the timer",
      pinsOfTimer(analysis, timer.number),
      () => allOf(edits),
    ),
  ];
}

function isUsed(analysis: Analysis, timer: TimerFact): boolean {
  const values = [timer.capture, ...timer.channels.map((channel) => channel.compare)];
  if (sketchWrites(analysis).some((write) => values.includes(write.register))) return true;
  const names = [timer.counter, timer.flags, timer.interruptMask, "ADCSRB"];
  if (mentions(analysis, ...names) || analysis.gaps.length > 0) return true;
  const vectors = [timer.overflow.vector, ...timer.channels.map((channel) => channel.interrupt.vector)];
  if (timer.captureInterrupt !== undefined) vectors.push(timer.captureInterrupt.vector);
  if (analysis.interrupts.some((rate) => vectors.includes(rate.vector.replace(/_vect$/, "")))) return true;
  for (const call of analysis.calls) {
    if (call.name === "tone" || call.name === "Servo.attach") {
      if (call.timers.includes(timer.number)) return true;
    }
    if (
      call.name === "analogWrite" &&
      (call.pins.length !== 1 || call.pins.some((pin) => unitOfPin(analysis, pin)?.timer === timer))
    )
      return true;
  }
  return (historyOf(analysis, timer.number)?.states ?? []).some((state) =>
    state.snapshot.channels.some((channel) => channel.alternatives.some((way) => way.com.max > 0)),
  );
}
