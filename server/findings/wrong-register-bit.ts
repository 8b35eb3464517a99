/** A bit name of another register, written where its position means something else. */
import type { Chip } from "../../shared-model/chip.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import { plainStatement } from "../edits/statements.js";
import type { TextEdit } from "../edits/text-edit.js";
import { namedBit, reads, readsAnyRegister, withoutCasts } from "../look/expression.js";
import { isForeignBit } from "../look/foreign-bit.js";
import { sketchWrites } from "../look/look.js";
import { bitName, homesOfBit } from "../look/register-fields.js";
import { clockIn, clockWords } from "../look/setting-words.js";
import { either } from "../look/show.js";
import { setBits, takenOut } from "./bit-edits.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, fileText, pinsOfTimer } from "./fix.js";

export const wrongRegisterBit: FindingRule = {
  id: "wrong-register-bit",
  severity: "warning",
  says: "A bit name of another register is written here, where its position means something else.",
  why: "The compiler knows bit names only as numbers: WGM12 written to TCCR1A lands on a bit that does nothing, WGM21 written to TCCR2B changes the prescaler.",
  source: "the chip's data sheet, register descriptions of the timers",
  fires: `void setup() {
  pinMode(11, OUTPUT);
  TCCR2B = _BV(CS22) | _BV(WGM21);
}

void loop() { analogWrite(11, 40); }
`,
  quiet: `void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS12);
}

void loop() { analogWrite(11, 40); }
`,
  whenFine: "Another timer's name at the same position with the same meaning (CS12 in TCCR2B) is no finding.",
  check(analysis, report) {
    const { chip } = analysis.target;
    for (const write of sketchWrites(analysis)) {
      if (write.expression === null || !hasSettings(chip, write.register)) continue;
      for (const bit of bitsWritten(write.expression, write.register)) {
        const message = strange(chip, write, bit.name);
        if (message === null) continue;
        report({ message, span: bit.at.span, related: [], fixes: fixes(analysis, write, bit) });
      }
    }
  },
};

/** Registers whose bits are settings of timers. */
function hasSettings(chip: Chip, register: string): boolean {
  return (
    register === "GTCCR" ||
    register === "ASSR" ||
    register.startsWith("PRR") ||
    chip.timers.some((timer) => timer.control.includes(register) || timer.interruptMask === register)
  );
}

interface WrittenBit {
  readonly name: string;
  readonly at: WrittenExpression;
}

/** Bits named for this write; conditions, comparisons and bits picked out of other registers are left out. */
function* bitsWritten(expression: WrittenExpression, register: string): Generator<WrittenBit> {
  const inner = withoutCasts(expression);
  const bit = namedBit(inner);
  if (bit !== undefined) {
    yield bit;
    return;
  }
  if (inner.kind === "conditional") {
    for (const operand of inner.operands.slice(1)) yield* bitsWritten(operand, register);
    return;
  }
  if (inner.kind === "unary" && inner.text === "~") {
    for (const operand of inner.operands) yield* bitsWritten(operand, register);
    return;
  }
  if (inner.kind !== "binary" || !["|", "&", "^", "+"].includes(inner.text)) return;
  const foreign = inner.operands.some((operand) => readsAnyRegister(operand) && !reads(operand, register));
  if (inner.text === "&" && foreign) return;
  for (const operand of inner.operands) yield* bitsWritten(operand, register);
}

function strange(chip: Chip, write: RegisterWrite, name: string): string | null {
  if (!isForeignBit(chip, write.register, name)) return null;
  const homes = homesOfBit(chip, name);
  const position = homes[0]!.position;
  const home = either([...new Set(homes.map((candidate) => candidate.register))].slice(0, 2));
  const there = bitName(chip, write.register, position);
  const effect =
    there === undefined
      ? `bit ${position} is reserved and does nothing`
      : `bit ${position} is ${there}${clockEffect(chip, write, there)}`;
  return `${name} is a bit of ${home}; in ${write.register} ${effect}. Write it to ${home}.`;
}

function clockEffect(chip: Chip, write: RegisterWrite, there: string): string {
  const timer = chip.timers.find((candidate) => candidate.number === write.timer);
  const after = single(write.after);
  if (timer === undefined || after === undefined || !there.startsWith(timer.clockField.name)) return "";
  const clock = clockIn(timer, write.register, after);
  return clock === null ? "" : ` (now ${clockWords(clock)})`;
}

function fixes(analysis: Analysis, write: RegisterWrite, bit: WrittenBit): readonly Fix[] {
  const { chip } = analysis.target;
  const home = homesOfBit(chip, bit.name)[0];
  const real = home === undefined ? undefined : bitName(chip, write.register, home.position);
  const named = bit.at.span.end - bit.at.span.start === bit.name.length;
  return [
    ...(home === undefined ? [] : moved(analysis, write, bit, home.register)),
    ...(real === undefined || !named
      ? []
      : [
          // Not for Auto Fix: it says what the line does, which is hardly what was meant.
          changingFix(`Name the bit that is really written: ${real}`, "the registers stay as they are", [], () => [
            { span: bit.at.span, text: real },
          ]),
        ]),
  ];
}

/** The bit taken out here and set in its own register, in the nearest line of the function that writes that. */
function moved(analysis: Analysis, write: RegisterWrite, bit: WrittenBit, register: string): readonly Fix[] {
  const timer = analysis.target.chip.timers.find(
    (candidate) => candidate.control.includes(register) || candidate.interruptMask === register,
  );
  if (timer === undefined || timer.number !== write.timer || write.expression === null) return [];
  const alone = namedBit(write.expression)?.name === bit.name && write.operator === "|=";
  const gone = takenOut(analysis, write, [bit.name]);
  const home = sketchWrites(analysis)
    .filter((other) => other.register === register && other.inFunction === write.inFunction)
    .at(-1);
  if (plainStatement(fileText(analysis, write.span.path), write.span) === null || (!alone && gone === null)) return [];
  const edits = (): readonly TextEdit[] =>
    alone
      ? [{ span: write.target, text: register }]
      : [...(gone ?? []), ...setBits(analysis, register, [bit.name], home, write.span)];
  return [
    changingFix(
      `Write ${bit.name} to ${register}`,
      `${register} gets the bit, and ${write.register} keeps only its own`,
      pinsOfTimer(analysis, write.timer),
      edits,
    ),
  ];
}
