/** Timer 0 is the core's clock: changing it changes delay, millis and micros, each in its own way. */

import { single } from "../../shared-model/register-value.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import type { Analysis, CoreCall, RegisterWrite } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";
import { maskedBits } from "../look/core-bits.js";
import { lastingStates, ownPaths, pinLabel, sketchWrites } from "../look/look.js";
import { bitsUnder, namingStyle } from "../look/naming.js";
import { fieldsOf } from "../look/register-fields.js";
import { isTrue, timeBaseOf, timeBaseWords } from "../look/time-base.js";
import { clockOf } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { allOf, changingFix, removal } from "./fix.js";

export const timeBaseMoved: FindingRule = {
  id: "time-base-moved",
  severity: "warning",
  says: "Timer 0, which counts the core's milliseconds, is changed: what delay, millis and micros become.",
  why: "Waits shorten or stretch, time stamps run off, and the fault shows far from the line that caused it.",
  source: "the core's wiring.c: overflow routine of timer 0, micros, delay",
  fires: `void setup() {
  TCCR0B = (TCCR0B & ~(_BV(CS02) | _BV(CS01) | _BV(CS00))) | _BV(CS00);
}

void loop() {
  analogWrite(6, 60);
  delay(1000);
}
`,
  quiet: `void setup() {
  TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS20);
}

void loop() {
  analogWrite(3, 60);
  delay(1000);
}
`,
  whenFine:
    "A sketch that uses none of the core's time functions may do with timer 0 what it likes, and nothing is said.",
  check(analysis, report) {
    const timer = analysis.target.chip.timers.find((candidate) => candidate.number === 0);
    if (!analysis.core || timer === undefined) return;
    const calls = timeCalls(analysis);
    if (calls.length === 0) return;
    const overflowOn = overflowStaysOn(analysis);
    const movers = sketchWrites(analysis).filter((write) => moves(analysis, write));
    const told = new Set<RegisterWrite>();
    for (const { snapshot, call } of momentsOf(analysis, calls)) {
      const base = timeBaseOf(timer, snapshot, overflowOn);
      const outside = outsideClock(analysis, snapshot);
      const unknown = base.millis.kind === "unknown" && base.delay.kind === "unknown";
      if (isTrue(base) || (unknown && outside === null)) continue;
      const mover = moverOf(analysis, movers, snapshot, call);
      if (mover === undefined || told.has(mover)) continue;
      told.add(mover);
      report({
        message: `Timer 0 is the core's clock, and this changes it: ${outside ?? timeBaseWords(base)}. Take a pin of timer 1 or 2 for this frequency, or leave timer 0 as it is.`,
        span: mover.span,
        related: [{ span: call.span, message: `${call.name} is used here` }],
        fixes: restoringFixes(analysis, movers),
      });
    }
  },
};

/** What becomes of time where the counter counts somebody else's pulses. */
function outsideClock(analysis: Analysis, snapshot: TimerSnapshot): string | null {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === snapshot.timer);
  const clock = timer === undefined ? undefined : clockOf(timer, snapshot);
  if (clock?.kind !== "external") return null;
  const pin = analysis.target.pins.find((candidate) => candidate.port === clock.pin);
  const label = pin === undefined ? clock.pin : pinLabel(analysis, { pin: String(pin.number), port: pin.port });
  return `it counts pulses at ${label}, and without them delay never ends, millis() and micros() stand still`;
}

const TIME_FUNCTIONS = ["delay", "millis", "micros"];

function timeCalls(analysis: Analysis): readonly CoreCall[] {
  return analysis.calls.filter((call) => TIME_FUNCTIONS.includes(call.name));
}

interface Moment {
  readonly snapshot: TimerSnapshot;
  readonly call: CoreCall;
}

/** The states of timer 0 in which time is asked for; the lasting states where the calls do not tell. */
function momentsOf(analysis: Analysis, calls: readonly CoreCall[]): readonly Moment[] {
  const moments: Moment[] = [];
  for (const call of calls) {
    for (const effect of call.effects) {
      if (effect.before.timer === 0) moments.push({ snapshot: effect.before, call });
    }
  }
  if (moments.length > 0) return moments;
  const running = calls.find((call) => call.regimes.includes("running"));
  const asked = running === undefined ? calls : [running];
  return asked.flatMap((call) => lastingStates(analysis, 0).map((state) => ({ snapshot: state.snapshot, call })));
}

/** Mode, clock and overflow interrupt of timer 0 as the core's init sets them: wiring.c of the packaged core. */
const CORE_SETTINGS: Readonly<Record<string, number>> = { TCCR0A: 0b11, TCCR0B: 0b011, TIMSK0: 0b1 };

/**
 * Timer 0 as the core set it: lines that do nothing but move it are taken out, lists of bits get the core's in place of their own.
 * All lines or none: one that stays moves the time base all the same.
 */
function restoringFixes(analysis: Analysis, movers: readonly RegisterWrite[]): readonly Fix[] {
  const edits = new Map<RegisterWrite, TextEdit | null>();
  for (const write of movers) {
    const core = CORE_SETTINGS[write.register];
    const mask =
      core === undefined ? 0 : settingBits(analysis, write.register) & (write.register === "TIMSK0" ? 1 : 0xff);
    if (core === undefined || maskedBits(write.after, mask) === (core & mask)) continue;
    edits.set(write, restored(analysis, write, mask, core & mask));
  }
  if (edits.size === 0) return [];
  return [
    changingFix(
      "Leave timer 0 as the core set it",
      "delay, millis and micros keep time again, and timer 0's own pins get the core's frequency back",
      analysis.pins.map((pin) => pin.pin),
      () => allOf([...edits.values()]),
    ),
  ].filter(() => [...edits.values()].every((edit) => edit !== null));
}

function restored(analysis: Analysis, write: RegisterWrite, mask: number, core: number): TextEdit | null {
  const { chip } = analysis.target;
  const before = maskedBits(write.before, ~mask & 0xff);
  const now = single(write.after);
  // Nothing besides the setting changes: the whole line goes.
  if (before !== undefined && before === maskedBits(write.after, ~mask & 0xff)) {
    const gone = removal(analysis, write.span);
    if (gone !== null) return gone;
  }
  if (write.operator !== "=" || write.expression === null || now === undefined) return null;
  const bits = bitsUnder(chip, write.register, (now & ~mask) | core).map(namingStyle(analysis).bit);
  return { span: write.expression.span, text: bits.join(" | ") };
}

/** Registers that change how timer 0 counts or whether its overflow is heard. */
function moves(analysis: Analysis, write: RegisterWrite): boolean {
  return write.timer === 0
    ? ["TCCR0A", "TCCR0B", "OCR0A", "TIMSK0"].includes(write.register)
    : isPowerReduction(analysis, write);
}

function isPowerReduction(analysis: Analysis, write: RegisterWrite): boolean {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === 0);
  return timer !== undefined && write.register === timer.powerReduction.register;
}

function overflowStaysOn(analysis: Analysis): boolean {
  const own = ownPaths(analysis);
  return !analysis.writes.some((write) => {
    if (write.register !== "TIMSK0" || !own.has(write.span.path) || write.operator === "core") return false;
    return maskedBits(write.after, 1) === 0;
  });
}

/** The newest write that put timer 0 into this state, the clock and mode registers first. */
function moverOf(
  analysis: Analysis,
  movers: readonly RegisterWrite[],
  snapshot: TimerSnapshot,
  call: CoreCall,
): RegisterWrite | undefined {
  const fitting = movers.filter((write) => {
    const mask = settingBits(analysis, write.register);
    const now = snapshot.registers[write.register];
    const after = maskedBits(write.after, mask);
    const changed = after === undefined || maskedBits(write.before, mask) !== after;
    return changed && (now === undefined || after === undefined || maskedBits(now, mask) === after);
  });
  const control = fitting.filter((write) => write.register.startsWith("TCCR0"));
  const pool = control.length > 0 ? control : fitting;
  if (call.regimes.includes("running")) return pool.at(-1);
  // Time asked for in setup alone: only what stands before it there can have changed it.
  return pool.filter((write) => write.inFunction === call.inFunction && write.span.start < call.span.start).at(-1);
}

/** The bits of a register that set how timer 0 counts; all of a register without such fields. */
function settingBits(analysis: Analysis, register: string): number {
  const fields = fieldsOf(analysis.target.chip, register).filter(
    (field) => field.kind === "mode" || field.kind === "clock",
  );
  return fields.length === 0 ? 0xff : fields.reduce((mask, field) => mask | field.mask, 0);
}
