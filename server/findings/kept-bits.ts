/** `|=` onto a field that already holds bits, or `=` that wipes what the line above has set. */
import type { Chip, ClockSource, TimerFact } from "../../shared-model/chip.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite } from "../analysis.js";
import { maskedBits, untouchedBefore } from "../look/core-bits.js";
import {
  bitNameOf,
  isBinary,
  knownValue,
  namedBit,
  shapeOf,
  type WriteShape,
  withoutCasts,
} from "../look/expression.js";
import { isForeignBit } from "../look/foreign-bit.js";
import { historyOf, sketchWrites } from "../look/look.js";
import { modeWith, sketchMeans } from "../look/mode-evidence.js";
import { bitsUnder, namingStyle } from "../look/naming.js";
import { fieldsOf, homesOfBit, type RegisterField, timerOfControl } from "../look/register-fields.js";
import { clockWords } from "../look/setting-words.js";
import { listed } from "../look/show.js";
import { fieldValues } from "../look/timer-view.js";
import { modeWords } from "../look/top-name.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, pinsOfTimer, textOf } from "./fix.js";

export const keptBits: FindingRule = {
  id: "kept-bits",
  severity: "warning",
  says: "`|=` adds bits to a field that the core's init or an earlier line has filled, or `=` wipes a field that is still needed.",
  why: "Two prescalers ORed together give a third one: the frequency is wrong, and where the bits add up to 7 the timer waits for pulses on its clock pin.",
  source: "the chip's data sheet, clock select and waveform generation tables; the core's init in wiring.c",
  fires: `void setup() {
  pinMode(9, OUTPUT);
  TCCR1B |= _BV(CS10);
}

void loop() { analogWrite(9, 100); }
`,
  quiet: `void setup() {
  pinMode(9, OUTPUT);
  TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS10);
}

void loop() { analogWrite(9, 100); }
`,
  whenFine:
    "A field that is put together by several |= lines in one burst, or that is known to be zero, is no finding.",
  check(analysis, report) {
    for (const write of sketchWrites(analysis)) {
      const timer = timerOfControl(analysis.target.chip, write.register);
      if (timer === undefined || write.expression === null || write.beforeInit) continue;
      const shape = shapeOf(write.register, write.operator, write.expression);
      const slip =
        keptClock(analysis, timer, write, shape) ??
        keptMode(analysis, timer, write, shape) ??
        wiped(analysis, timer, write, shape);
      if (slip !== null)
        report({ message: slip.message, span: write.span, related: slip.related ?? [], fixes: slip.fixes });
    }
  },
};

interface Slip {
  readonly message: string;
  readonly fixes: readonly Fix[];
  readonly related?: readonly { readonly span: RegisterWrite["span"]; readonly message: string }[];
}

/** The value ORed in, where every part of it is known. */
function setValue(chip: Chip, register: string, shape: WriteShape): number | undefined {
  let all = 0;
  for (const part of shape.sets) {
    const value = knownValue(part);
    const name = namedBit(part)?.name;
    // A slip of operator order is another finding's matter too.
    if (isBinary(withoutCasts(part), "&")) return undefined;
    // A bit's number in place of its mask is one more.
    const number = bitNameOf(part);
    if (number !== undefined && homesOfBit(chip, number).length > 0) return undefined;
    // A bit of another register is another finding's matter: what was meant here is not known.
    if (value === undefined || (name !== undefined && isForeignBit(chip, register, name))) return undefined;
    all |= value;
  }
  return all;
}

function keptClock(analysis: Analysis, timer: TimerFact, write: RegisterWrite, shape: WriteShape): Slip | null {
  if (shape.kind !== "set bits") return null;
  const field = fieldsOf(analysis.target.chip, write.register).find((candidate) => candidate.kind === "clock");
  const value = setValue(analysis.target.chip, write.register, shape);
  if (field === undefined || value === undefined || (value & field.mask) === 0) return null;
  for (const before of possibleBits(write.before, field.mask)) {
    const kept = before & ~value & field.mask;
    if (kept === 0) continue;
    const fromCore = untouchedBefore(analysis, write, write.register, field.mask);
    if (!fromCore && !fromEarlierTime(analysis, timer, write, before, field, kept)) continue;
    const got = timer.clocks[(before | (value & field.mask)) >> field.shift];
    const meant = timer.clocks[(value & field.mask) >> field.shift];
    if (got === undefined || meant === undefined) continue;
    const names = listed(bitsUnder(analysis.target.chip, write.register, kept));
    const from = fromCore ? "left by the core's init" : "left by an earlier line";
    return {
      message: `${write.register} still holds ${names}, ${from}, so ${outcome(got, meant)}. Clear the ${field.name} bits first, or write them with a mask.`,
      fixes: [maskedFix(analysis, write, field, value)],
    };
  }
  return null;
}

function outcome(got: ClockSource, meant: ClockSource): string {
  if (got.kind !== "external") return `this gives ${clockWords(got)} and not ${clockWords(meant)}`;
  return `the timer counts pulses at pin ${got.pin} and stands still without them, where ${clockWords(meant)} was meant`;
}

/** Every value that the bits under `mask` may have, where they are few. */
function possibleBits(value: RegisterValue, mask: number): readonly number[] {
  if (value.values !== null) return [...new Set(value.values.map((each) => each & mask))];
  const known = maskedBits(value, mask);
  return known === undefined ? [] : [known];
}

/** Kept bits of a state in which time passed, that this function's own lines do not put together. */
function fromEarlierTime(
  analysis: Analysis,
  timer: TimerFact,
  write: RegisterWrite,
  before: number,
  field: RegisterField,
  kept: number,
): boolean {
  const settled = (historyOf(analysis, timer.number)?.states ?? []).some((state) => {
    const value = state.snapshot.registers[write.register];
    return value !== undefined && maskedBits(value, field.mask) === before;
  });
  if (!settled) return false;
  let together = 0;
  for (const other of sketchWrites(analysis)) {
    if (other === write || other.register !== write.register || other.inFunction !== write.inFunction) continue;
    if (other.expression === null) return false;
    const shape = shapeOf(other.register, other.operator, other.expression);
    const value = setValue(analysis.target.chip, write.register, shape);
    if (value === undefined) return false;
    together |= value;
  }
  return (kept & ~together) !== 0;
}

/** A mode bit of the core's init left in this register, where the sketch works for the mode without it. */
function keptMode(analysis: Analysis, timer: TimerFact, write: RegisterWrite, shape: WriteShape): Slip | null {
  if (shape.kind !== "set bits") return null;
  const part = timer.modeField.parts.find((candidate) => candidate.register === write.register);
  const value = setValue(analysis.target.chip, write.register, shape);
  if (part === undefined || value === undefined) return null;
  const mask = ((1 << part.width) - 1) << part.shift;
  if ((value & mask) === 0 || !untouchedBefore(analysis, write, write.register, mask)) return null;
  const before = maskedBits(write.before, mask);
  const kept = before === undefined ? 0 : before & ~value & mask;
  if (kept === 0) return null;
  const states = historyOf(analysis, timer.number)?.states ?? [];
  for (const state of states) {
    const selects = fieldValues(timer.modeField, state.snapshot.registers);
    const select = selects.length === 1 ? selects[0]! : undefined;
    if (select === undefined || (((select >> part.at) << part.shift) & kept) !== kept) continue;
    const got = modeWith(timer, select);
    const meant = modeWith(timer, select & ~((kept >> part.shift) << part.at));
    if (
      got === undefined ||
      meant === undefined ||
      meant.family === "reserved" ||
      !sketchMeans(analysis, timer, meant, got)
    )
      continue;
    const names = listed(bitsUnder(analysis.target.chip, write.register, kept));
    const field = fieldsOf(analysis.target.chip, write.register).find((candidate) => candidate.kind === "mode");
    return {
      message: `${write.register} still holds ${names}, left by the core's init, so timer ${timer.number} runs in ${modeWords(timer, got)} and not in ${modeWords(timer, meant)}. Clear the ${timer.modeField.name} bits first, or use = here.`,
      fixes: field === undefined ? [] : [maskedFix(analysis, write, field, value)],
    };
  }
  return null;
}

/** `=` that clears a field which an earlier line of the same burst has set. */
function wiped(analysis: Analysis, timer: TimerFact, write: RegisterWrite, shape: WriteShape): Slip | null {
  const value = setValue(analysis.target.chip, write.register, shape);
  if (shape.kind !== "set all" || write.operator !== "=" || value === undefined || value === 0) return null;
  for (const field of fieldsOf(analysis.target.chip, write.register)) {
    if (field.kind === "bit" || (value & field.mask) !== 0) continue;
    const before = maskedBits(write.before, field.mask);
    if (before === undefined || before === 0) continue;
    const earlier = lastSetter(analysis, write, field);
    if (earlier === undefined || settledBefore(analysis, timer, write)) continue;
    const names = listed(bitsUnder(analysis.target.chip, write.register, before));
    return {
      message: `This = clears ${names}, which an earlier line has just set in ${write.register}. Use |= here, or write all bits in one line.`,
      related: [{ span: earlier.span, message: `${names} set here` }],
      fixes: orFix(analysis, write),
    };
  }
  return null;
}

function lastSetter(analysis: Analysis, write: RegisterWrite, field: RegisterField): RegisterWrite | undefined {
  let setter: RegisterWrite | undefined;
  for (const other of sketchWrites(analysis)) {
    if (other === write) return setter;
    if (other.register !== write.register || other.inFunction !== write.inFunction || other.expression === null)
      continue;
    const value = setValue(
      analysis.target.chip,
      other.register,
      shapeOf(other.register, other.operator, other.expression),
    );
    setter = value !== undefined && (value & field.mask) !== 0 ? other : undefined;
  }
  return undefined;
}

/** Whether time passed in the state just before the write. */
function settledBefore(analysis: Analysis, timer: TimerFact, write: RegisterWrite): boolean {
  const states = historyOf(analysis, timer.number)?.states ?? [];
  const before = maskedBits(write.before, 0xff);
  return states.some((state) => {
    const value = state.snapshot.registers[write.register];
    return value === undefined || before === undefined || maskedBits(value, 0xff) === before;
  });
}

function maskedFix(analysis: Analysis, write: RegisterWrite, field: RegisterField, value: number): Fix {
  return changingFix(
    `Clear ${field.name} before setting it`,
    `${field.name} gets only the bits named here`,
    pinsOfTimer(analysis, write.timer),
    () => {
      const style = namingStyle(analysis);
      const target = textOf(analysis, write.target);
      const bits = bitsUnder(analysis.target.chip, write.register, field.mask).map(style.bit).join(" | ");
      // A macro that writes has no text of its own for the value.
      const between = { ...write.target, start: write.target.end, end: write.expression?.span.start ?? 0 };
      const own = write.operator === "|=" && textOf(analysis, between).includes("|=");
      const sets = write.expression === null || !own ? null : textOf(analysis, write.expression.span);
      const set = sets ?? bitsUnder(analysis.target.chip, write.register, value).map(style.bit).join(" | ");
      return [
        { span: write.span, text: `${target} = (${target} & ~(${bits})) | ${needsBrackets(set) ? `(${set})` : set}` },
      ];
    },
  );
}

/** Whether a text holds an operator that binds less tightly than `|`, or a shift, which reads better in brackets. */
function needsBrackets(text: string): boolean {
  return /[?^]|&&|\|\|/.test(text) || /^[^(]*<</.test(text);
}

function orFix(analysis: Analysis, write: RegisterWrite): readonly Fix[] {
  return [
    changingFix(
      "Use |= instead of =",
      "the bits set by the earlier line stay",
      pinsOfTimer(analysis, write.timer),
      () => {
        const between = {
          path: write.span.path,
          start: write.target.end,
          end: write.expression?.span.start ?? write.target.end,
        };
        const text = textOf(analysis, between);
        const at = text.indexOf("=");
        if (at < 0) return [];
        return [{ span: { path: between.path, start: between.start + at, end: between.start + at }, text: "|" }];
      },
    ),
  ];
}
