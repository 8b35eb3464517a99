/** An own main() uses the core without its init. */
import type { FindingRule } from "./finding.js";
import { ownPaths } from "./look.js";

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
    if (analysis.core || analysis.calls.some((call) => call.name === "init")) return;
    const own = ownPaths(analysis);
    const call = analysis.calls.find(
      (candidate) =>
        ["delay", "millis", "micros", "analogWrite", "analogRead", "tone"].includes(candidate.name) &&
        own.has(candidate.span.path),
    );
    if (call === undefined) return;
    const harm = HARM[call.name] ?? "is used";
    report({
      message: `${call.name} ${harm}, because this main() never calls init(). Call init() first, or write setup and loop.`,
      span: call.span,
      related: [],
    });
  },
};

const HARM: Readonly<Record<string, string>> = {
  delay: "never ends",
  millis: "stays 0",
  micros: "stays 0",
  analogWrite: "gives no pulse",
  analogRead: "never ends",
  tone: "may not sound",
};
