/** A raw literal written to a timer's control register. The fix writes named bits under a mask, and is proved. */
import type { Chip } from "../../shared-model/chip.js";
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";
import { chain, knownValue, shapeOf, type WriteShape, withoutCasts } from "../look/expression.js";
import { sketchWrites, within } from "../look/look.js";
import { bitsUnder, type NamingStyle, namingStyle } from "../look/naming.js";
import { fieldsOf, namesOfOnes, timerOfControl } from "../look/register-fields.js";
import { settingWords } from "../look/setting-words.js";
import { listed, showHex } from "../look/show.js";
import type { FindingRule, Fix } from "./finding.js";
import { safeFix, textOf } from "./fix.js";

export const bareNumber: FindingRule = {
  id: "bare-number",
  severity: "note",
  says: "A raw number is written to a timer's control register, where bit names would say what it sets.",
  why: "Nobody can see from 0x03 which prescaler it is, and on another timer the same number means another one.",
  source: "common practice, no source",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = 0x03;
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = _BV(CS21) | _BV(CS20);
}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "Zero, masks beside named bits, and numbers that have a name of their own in the sketch are left alone.",
  check(analysis, report) {
    const { chip } = analysis.target;
    for (const write of sketchWrites(analysis)) {
      if (write.expression === null || timerOfControl(chip, write.register) === undefined) continue;
      const shape = shapeOf(write.register, write.operator, write.expression);
      const bare = shape.sets.filter(isBare);
      if (bare.length === 0) continue;
      const value = bare.reduce((all, part) => all | (knownValue(part) ?? 0), 0);
      if (value === 0 || value > 0xff || value < 0) continue;
      const names = namesOfOnes(chip, write.register, value);
      const what = names === undefined ? "bits without a name" : listed(names);
      const setting = clockBits(chip, write.register, value) === 0 ? null : settingWords(chip, write.register, value);
      report({
        message: `${showHex(value)} sets ${what} of ${write.register}${setting === null ? "" : ` (${setting})`}. Write the bits by name.`,
        span: bare[0]!.span,
        related: [],
        fixes: fixes(analysis, write, shape, bare, value),
      });
    }
  },
};

function clockBits(chip: Chip, register: string, value: number): number {
  return fieldsOf(chip, register).reduce(
    (bits, field) => (field.kind === "clock" ? bits | (value & field.mask) : bits),
    0,
  );
}

/** A number with no name: a literal, or a 1 shifted by a literal. */
function isBare(part: WrittenExpression): boolean {
  const inner = withoutCasts(part);
  if (inner.kind === "literal") return inner.macro === null;
  if (inner.kind !== "binary" || inner.text !== "<<") return false;
  return inner.operands.every((operand) => {
    const each = withoutCasts(operand);
    return each.kind === "literal" && each.macro === null;
  });
}

function fixes(
  analysis: Analysis,
  write: RegisterWrite,
  shape: WriteShape,
  bare: readonly WrittenExpression[],
  value: number,
): readonly Fix[] {
  const { chip } = analysis.target;
  if (namesOfOnes(chip, write.register, value) === undefined || write.expression === null) return [];
  if (!bare.every((part) => within(part.span, write.expression!.span))) return [];
  if (shape.kind === "set all" && bare.length === chain(write.expression, "|").length)
    return whole(analysis, write, value);
  if (shape.kind !== "set bits" && shape.kind !== "replace" && shape.kind !== "set all") return [];
  return [safeFix("Write the bits by name", () => byName(analysis, write, shape, bare))];
}

/** `R = 0x03`: under a mask of the fields it sets where the rest is kept, or as a plain list of names. */
function whole(analysis: Analysis, write: RegisterWrite, value: number): readonly Fix[] {
  const { chip } = analysis.target;
  const set = fieldsOf(chip, write.register).filter((field) => (field.mask & value) !== 0);
  const touched = set.reduce((mask, field) => mask | field.mask, 0);
  // Only where nothing else is set before does a mask leave the same state as the plain =.
  const othersZero =
    (write.before.zeros & ~touched & 0xff & writable(chip, write.register)) ===
    (~touched & 0xff & writable(chip, write.register));
  const masked = safeFix("Write the bits by name, under a mask", () => {
    const style = namingStyle(analysis);
    const target = textOf(analysis, write.target);
    const mask = bitsUnder(chip, write.register, touched).map(style.bit).join(" | ");
    return [
      { span: write.expression!.span, text: `(${target} & ~(${mask})) | ${named(chip, write.register, value, style)}` },
    ];
  });
  const plain = safeFix("Write the bits by name", () => [
    { span: write.expression!.span, text: named(chip, write.register, value, namingStyle(analysis)) },
  ]);
  const all = (touched & writable(chip, write.register)) === writable(chip, write.register);
  return othersZero && !all ? [masked, plain] : [plain];
}

function writable(chip: Chip, register: string): number {
  return chip.registers.find((row) => row.name === register)?.writable ?? 0xff;
}

/** Each bare part by its names, and a bare mask by the names of what it clears. */
function byName(
  analysis: Analysis,
  write: RegisterWrite,
  shape: WriteShape,
  bare: readonly WrittenExpression[],
): readonly TextEdit[] {
  const { chip } = analysis.target;
  const style = namingStyle(analysis);
  const edits: TextEdit[] = bare.map((part) => {
    const names = named(chip, write.register, knownValue(part) ?? 0, style);
    return { span: part.span, text: names };
  });
  const mask = shape.mask === null ? null : withoutCasts(shape.mask);
  if (mask !== null && mask.kind === "literal" && mask.macro === null) {
    const cleared = ~(knownValue(mask) ?? 0xff) & 0xff;
    if (cleared !== 0 && namesOfOnes(chip, write.register, cleared) !== undefined) {
      const names = bitsUnder(chip, write.register, cleared).map(style.bit).join(" | ");
      edits.push({ span: mask.span, text: `~(${names})` });
    }
  }
  return edits;
}

function named(chip: Chip, register: string, value: number, style: NamingStyle): string {
  return bitsUnder(chip, register, value).map(style.bit).join(" | ");
}
