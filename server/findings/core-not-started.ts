/** An own main() uses the core without its init. */
import type { Analysis, CoreCall } from "../analysis.js";
import { lastingStates, ownPaths, unitOfPin } from "../look/look.js";
import { clocksOf } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, firstLineOf } from "./fix.js";

export const coreNotStarted: FindingRule = {
  id: "core-not-started",
  severity: "warning",
  says: "A main() of the sketch's own uses the core's functions without calling its init.",
  why: "Without init timer 0 does not run: delay never ends, and no timer is set up for analogWrite.",
  source: "the core's main.cpp and wiring.c",
  fires: `int main() {
  pinMode(13, OUTPUT);
  for (;;) {
    digitalWrite(13, HIGH);
    delay(500);
    digitalWrite(13, LOW);
    delay(500);
  }
}
`,
  quiet: `int main() {
  init();
  pinMode(13, OUTPUT);
  for (;;) {
    digitalWrite(13, HIGH);
    delay(500);
    digitalWrite(13, LOW);
    delay(500);
  }
}
`,
  whenFine: "pinMode, digitalWrite and digitalRead work without init.",
  check(analysis, report) {
    if (analysis.core) return;
    const own = ownPaths(analysis);
    for (const call of analysis.calls) {
      const harm = own.has(call.span.path) ? harmOf(analysis, call) : null;
      if (harm === null) continue;
      report({
        message: `${call.name} ${harm}, because this main() never calls init(). Call init() first, or write setup and loop.`,
        span: call.span,
        related: [],
        fixes: fixes(analysis, call),
      });
      return;
    }
  },
};

function fixes(analysis: Analysis, call: CoreCall): readonly Fix[] {
  const line = firstLineOf(analysis, call.span.path, "main", ["init();"]);
  if (line === null) return [];
  return [
    changingFix(
      "Call init() first",
      "the core's timers are set up, and interrupts are on",
      analysis.pins.map((pin) => pin.pin),
      () => [line],
    ),
  ];
}

function harmOf(analysis: Analysis, call: CoreCall): string | null {
  if (call.name === "analogWrite") {
    const timers = call.pins.flatMap((pin) => unitOfPin(analysis, pin)?.timer.number ?? []);
    return timers.length > 0 && timers.every((timer) => stands(analysis, timer)) ? "gives no pulse" : null;
  }
  if (call.name === "delay") return stands(analysis, 0) ? "never ends" : null;
  return (call.name === "millis" || call.name === "micros") && stands(analysis, 0) ? "stands still" : null;
}

/** Whether the timer has no clock in any state. */
function stands(analysis: Analysis, timer: number): boolean {
  const fact = analysis.target.chip.timers.find((candidate) => candidate.number === timer);
  if (fact === undefined) return false;
  return lastingStates(analysis, timer).every((state) =>
    clocksOf(fact, state.snapshot).every((clock) => clock.kind === "stopped"),
  );
}
