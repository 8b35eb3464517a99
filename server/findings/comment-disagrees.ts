/** A comment beside a write claims a prescaler, a mode or a frequency that the registers do not give. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import { toNumber } from "../../shared-model/fraction.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite, Remark, TimerState } from "../analysis.js";
import { type Claim, familyClaim, frequencyClaim, prescalerClaim } from "../look/claims.js";
import { historyOf, makerOf, sameSpan, sketchWrites, within } from "../look/look.js";
import { pulseRate } from "../look/pulse-rate.js";
import { clockWords } from "../look/setting-words.js";
import { showHz } from "../look/show.js";
import { clockOf, isPwm, modeOf, prescalerOf, topBounds, topRegister } from "../look/timer-view.js";
import { modeWords } from "../look/top-name.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, fileText } from "./fix.js";
import { prescalerFix, topFix } from "./setting-fixes.js";

export const commentDisagrees: FindingRule = {
  id: "comment-disagrees",
  severity: "warning",
  says: "A comment beside the write claims a prescaler, a mode or a PWM frequency that the registers do not give.",
  why: "A line copied from elsewhere keeps its comment when its numbers change, and the next reader believes the comment.",
  source: "the sketch's own comment; the chip's data sheet, clock select and waveform generation tables",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = _BV(CS21) | _BV(CS20);  // prescaler 64
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = _BV(CS21) | _BV(CS20);  // prescaler 32
}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "A comment that tells of another state, such as what was there before, is better placed elsewhere.",
  check(analysis, report) {
    for (const remark of analysis.remarks) {
      const write = settingWrite(analysis, remark);
      const timer = analysis.target.chip.timers.find((candidate) => candidate.number === write?.timer);
      if (write === undefined || timer === undefined) continue;
      const found = disagreement(analysis, timer, write, remark);
      if (found === null) continue;
      report({
        message: found.message,
        span: remark.span,
        related: [{ span: write.span, message: "the write it stands beside" }],
        fixes: found.fixes,
      });
    }
  },
};

interface Disagreement {
  readonly message: string;
  readonly fixes: readonly Fix[];
}

/** The one write of a control register, or of one that holds TOP, that the comment belongs to. */
function settingWrite(analysis: Analysis, remark: Remark): RegisterWrite | undefined {
  const { beside } = remark;
  if (beside === null) return undefined;
  const writes = sketchWrites(analysis).filter(
    (write) =>
      within(write.span, beside) &&
      analysis.target.chip.timers.some(
        (timer) =>
          timer.control.includes(write.register) ||
          timer.capture === write.register ||
          timer.channels[0]?.compare === write.register,
      ),
  );
  return writes.length === 1 ? writes[0] : undefined;
}

/** A comment above several lines that set one register bit by bit speaks of what they give together: the last of them. */
function lastInRow(analysis: Analysis, remark: Remark, write: RegisterWrite): RegisterWrite {
  if (remark.span.end > write.span.start) return write;
  const text = fileText(analysis, write.span.path);
  let last = write;
  const others = sketchWrites(analysis).filter(
    (other) => other.register === write.register && other.span.path === write.span.path,
  );
  for (const next of others.sort((left, right) => left.span.start - right.span.start)) {
    if (next.span.start > last.span.end && /^;[^\n]*\n[ \t]*$/.test(text.slice(last.span.end, next.span.start)))
      last = next;
  }
  return last;
}

function disagreement(analysis: Analysis, timer: TimerFact, write: RegisterWrite, remark: Remark): Disagreement | null {
  const { text } = remark;
  const after = lastInRow(analysis, remark, write).effects.map((effect) => effect.after);
  const holdsClock = timer.clockField.parts.some((part) => part.register === write.register);
  const claimed = prescalerClaim(text);
  if (holdsClock && claimed !== null && after.length > 0) {
    const clocks = after.map((snapshot) => clockOf(timer, snapshot));
    if (clocks.every((clock) => clock !== undefined && prescalerOf(clock) !== claimed.value)) {
      const real = prescalerOf(clocks[0]);
      return {
        message: `The comment says prescaler ${claimed.value}, but this gives ${clockWords(clocks[0]!)}. Correct the one or the other.`,
        fixes: [
          ...prescalerFix(analysis, timer, write, claimed.value, null),
          ...(real === null ? [] : [rewording(remark, claimed, String(real))]),
        ],
      };
    }
  }
  const state = settledBy(analysis, timer, write);
  const mode = state === undefined ? undefined : modeOf(timer, state.snapshot);
  if (state === undefined || mode === undefined) return null;
  const family = timer.control.includes(write.register) ? familyClaim(text) : null;
  if (family !== null && !family.includes(mode.family)) {
    return {
      message: `The comment says ${family[0] === "ctc" ? "CTC" : `${family[0]} PWM`}, but timer ${timer.number} runs in ${modeWords(timer, mode)}. Correct the one or the other.`,
      fixes: [],
    };
  }
  return frequencyDisagrees(analysis, timer, write, state, mode, remark);
}

/** The comment's number replaced. Never made without being asked for: it may be the register that is wrong. */
function rewording(remark: Remark, claim: Claim, now: string): Fix {
  const { path, start } = remark.span;
  return changingFix(`Write ${now} in the comment`, "the registers stay as they are", [], () => [
    { span: { path, start: start + claim.start, end: start + claim.end }, text: now },
  ]);
}

/** The one settled state to which this write belongs as the newest of its register; undefined where it is not one. */
function settledBy(analysis: Analysis, timer: TimerFact, write: RegisterWrite): TimerState | undefined {
  const made = (historyOf(analysis, timer.number)?.states ?? []).filter((state) => {
    const newest = makerOf(analysis, state.from, (candidate) => candidate.register === write.register);
    return newest !== undefined && sameSpan(newest.span, write.span);
  });
  const settings = new Set(made.map((state) => JSON.stringify(settingOf(timer, state))));
  return settings.size === 1 ? made.at(-1) : undefined;
}

/** Mode, clock and TOP of a state: what a comment's claim is compared with. */
function settingOf(timer: TimerFact, { snapshot }: TimerState): readonly unknown[] {
  const mode = modeOf(timer, snapshot);
  return [mode?.select, clockOf(timer, snapshot), mode === undefined ? null : topBounds(timer, mode, snapshot)];
}

/** One frequency named in the comment, far from the timer's PWM frequency, its half and its double. */
function frequencyDisagrees(
  analysis: Analysis,
  timer: TimerFact,
  write: RegisterWrite,
  state: TimerState,
  mode: ModeFact,
  remark: Remark,
): Disagreement | null {
  const claim = isPwm(mode) ? frequencyClaim(remark.text) : null;
  const prescaler = prescalerOf(clockOf(timer, state.snapshot));
  const top = topBounds(timer, mode, state.snapshot);
  if (claim === null || prescaler === null || top === null || top.min !== top.max) return null;
  // A compare value beside a fixed TOP, or beside TOP elsewhere, has its own frequency in nothing.
  if (!timer.control.includes(write.register) && topRegister(timer, mode) !== write.register) return null;
  const clockHz = analysis.target.clockHz / (state.snapshot.clockDivisor ?? 1);
  const rate = pulseRate(clockHz, prescaler, mode, top.min);
  if (rate === null || claim.value === analysis.target.clockHz) return null;
  const hz = toNumber(rate);
  // A comment rounds, and may tell the rate of a toggled pin: only a clear contradiction is told.
  if ([hz, hz / 2, hz * 2].some((each) => Math.abs(each - claim.value) <= 0.15 * each)) return null;
  return {
    message: `The comment says ${showHz(claim.value)}, but timer ${timer.number} gives ${showHz(rate)} here. Correct the one or the other.`,
    fixes: [
      ...registerFixes(analysis, timer, state, mode, prescaler, clockHz, claim.value),
      rewording(remark, claim, showHz(rate)),
    ],
  };
}

/** The register brought to the claimed frequency: its prescaler where that gives it, else its TOP. */
function registerFixes(
  analysis: Analysis,
  timer: TimerFact,
  state: TimerState,
  mode: ModeFact,
  prescaler: number,
  clockHz: number,
  wanted: number,
): readonly Fix[] {
  const near = (hz: number) => Math.abs(hz - wanted) <= 0.02 * wanted;
  const top = topBounds(timer, mode, state.snapshot)!.min;
  const clockRegister = timer.clockField.parts[0]?.register;
  const clockWrite = makerOf(analysis, state.from, (candidate) => candidate.register === clockRegister);
  for (const clock of timer.clocks) {
    const rate = clock.kind === "divided" ? pulseRate(clockHz, clock.by, mode, top) : null;
    if (clock.kind === "divided" && rate !== null && clockWrite !== undefined && near(toNumber(rate)))
      return prescalerFix(analysis, timer, clockWrite, clock.by, toNumber(rate));
  }
  const register = topRegister(timer, mode);
  const topWrite = makerOf(analysis, state.from, (candidate) => candidate.register === register);
  const counts = clockHz / (prescaler * wanted);
  const better = Math.round(mode.family === "fast" ? counts - 1 : counts / 2);
  const rate = better >= 2 && better < 2 ** timer.bits ? pulseRate(clockHz, prescaler, mode, better) : null;
  if (rate === null || topWrite === undefined || !near(toNumber(rate))) return [];
  return single(topWrite.after) === undefined ? [] : topFix(analysis, timer, topWrite, better, toNumber(rate));
}
