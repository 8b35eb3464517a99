/** tone, servo pulses or a library take the timer that also drives PWM pins of the sketch. */
import type { TimerFact } from "../../shared-model/chip.js";
import type { Span } from "../../shared-model/span.js";
import type { Analysis, CoreCall } from "../analysis.js";
import { ownPaths, sketchWrites, unitLabel, unitOfPin } from "../look/look.js";
import { listed } from "../look/show.js";
import type { FindingRule } from "./finding.js";

export const timerShared: FindingRule = {
  id: "timer-shared",
  severity: "warning",
  says: "tone, servo pulses or a library use the same timer as PWM pins or register writes of the sketch.",
  why: "The one takes the timer from the other: PWM on the timer's pins stops, or the servo twitches.",
  source: "the core's Tone.cpp and the Servo library's timer table: which timer each board gives them",
  fires: `#include <Servo.h>
Servo vent;

void setup() { vent.attach(4); }

void loop() { analogWrite(9, 60); }
`,
  quiet: `#include <Servo.h>
Servo vent;

void setup() { vent.attach(4); }

void loop() { analogWrite(3, 60); }
`,
  whenFine:
    "Where the two are never in use at the same time, and the timer is set up again in between. No edit is offered: the way out is another pin, which is a wire and not a line.",
  check(analysis, report) {
    const own = ownPaths(analysis);
    const told = new Set<string>();
    for (const call of analysis.calls) {
      if (!own.has(call.span.path) || !takesTimer(call)) continue;
      for (const number of call.timers) {
        const timer = analysis.target.chip.timers.find((candidate) => candidate.number === number);
        if (timer === undefined || told.has(`${call.name}${number}`)) continue;
        const users = usersOf(analysis, timer);
        if (users.length === 0) continue;
        told.add(`${call.name}${number}`);
        report({
          message: message(analysis, call, timer, users),
          span: call.span,
          related: users.slice(0, 3).map(({ span, what }) => ({ span, message: what })),
        });
      }
    }
  },
};

/** The calls that put a timer to work of their own. */
function takesTimer(call: CoreCall): boolean {
  return call.name === "tone" || call.name === "Servo.attach";
}

interface User {
  readonly span: Span;
  readonly what: string;
  readonly pin: string | null;
}

/** Places of the sketch that need the timer for something else. */
function usersOf(analysis: Analysis, timer: TimerFact): readonly User[] {
  const own = ownPaths(analysis);
  const users: User[] = [];
  for (const call of analysis.calls) {
    const duty = call.arguments[1]?.value ?? null;
    if (call.name !== "analogWrite" || !own.has(call.span.path)) continue;
    if (duty !== null && duty.min === duty.max && (duty.min === 0 || duty.min === 255)) continue;
    for (const number of call.pins) {
      const unit = unitOfPin(analysis, number);
      if (unit?.timer !== timer) continue;
      const pin = unitLabel(analysis, unit.channel);
      users.push({ span: call.span, what: `PWM on ${pin} needs timer ${timer.number}`, pin });
    }
  }
  for (const write of sketchWrites(analysis)) {
    const ours =
      timer.control.includes(write.register) ||
      timer.channels.some((channel) => channel.compare === write.register) ||
      write.register === timer.capture;
    if (ours) users.push({ span: write.span, what: `${write.register} is written here`, pin: null });
  }
  return users;
}

function message(analysis: Analysis, call: CoreCall, timer: TimerFact, users: readonly User[]): string {
  const pins = [...new Set(users.flatMap((user) => (user.pin === null ? [] : [user.pin])))].sort(byNumber);
  const free = freePins(analysis, timer);
  const takes = call.name === "tone" ? "tone takes" : "Servo.attach takes";
  const harm =
    pins.length > 0
      ? `PWM on ${listed(pins)} ${call.name === "tone" ? "stops while it plays" : "ends at this call"}`
      : `the sketch's own settings in ${listed([...new Set(users.map((user) => user.what.split(" ")[0]!))].slice(0, 3))} are lost`;
  const few = free.length <= 8 ? listed(free) : `${free.slice(0, 6).join(", ")} and ${free.length - 6} more`;
  const way = free.length > 0 ? `Free for PWM: ${few}.` : "Use another way for one of the two.";
  return `${takes} timer ${timer.number}: ${harm}. ${way}`;
}

/** PWM pins of the other timers that no such call takes either. */
function freePins(analysis: Analysis, timer: TimerFact): readonly string[] {
  const taken = new Set<number>([timer.number]);
  for (const call of analysis.calls) {
    if (takesTimer(call)) for (const number of call.timers) taken.add(number);
  }
  const labels: string[] = [];
  for (const pin of analysis.target.pins) {
    const unit = unitOfPin(analysis, pin.number);
    if (unit !== undefined && !taken.has(unit.timer.number)) labels.push(unitLabel(analysis, unit.channel));
  }
  return labels;
}

function byNumber(left: string, right: string): number {
  return Number(left.slice(1)) - Number(right.slice(1));
}
