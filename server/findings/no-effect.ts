/** `|= (0 << X)` and the like: the write changes nothing though it means to. */
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import { maskedBits } from "../look/core-bits.js";
import { bitNameOf, chain, isBinary, knownValue, shapeOf, withoutCasts } from "../look/expression.js";
import { sketchWrites } from "../look/look.js";
import { namingStyle } from "../look/naming.js";
import { homesOfBit } from "../look/register-fields.js";
import { listed } from "../look/show.js";
import type { FindingRule, Fix, Report } from "./finding.js";
import { changingFix, pinsOfTimer, textOf } from "./fix.js";

export const noEffect: FindingRule = {
  id: "no-effect",
  severity: "warning",
  says: "`|= (0 << X)`, `&= ~(0 << X)`: the write changes nothing, though it means to clear a bit.",
  why: "ORing zeros clears nothing: the old prescaler or mode bit stays.",
  source: "C standard, bitwise or",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B |= (0 << CS22);
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = (0 << CS22) | (1 << CS21) | (0 << CS20);
}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "Zeros beside ones, written to show the whole field, are left alone.",
  check(analysis, report) {
    for (const write of sketchWrites(analysis)) {
      if (write.expression === null) continue;
      const shape = shapeOf(write.register, write.operator, write.expression);
      if (shape.kind === "clear bits") {
        clearsNothing(analysis, write, shape.mask, report);
        continue;
      }
      if (shape.kind !== "set bits") continue;
      if (shape.sets.every(isPlainZero)) {
        report({
          message: `ORing 0 changes nothing: ${write.register} stays as before. To clear bits write &= ~, to clear all write = 0.`,
          span: write.span,
          related: [],
        });
        continue;
      }
      const names = shape.sets.map(shiftedZero);
      if (names.length === 0 || !names.every((name) => name !== undefined)) continue;
      if (areZero(analysis, write, names as string[])) continue;
      report({
        message: `ORing 0 changes nothing: ${listed(names as string[])} of ${write.register} ${names.length === 1 ? "stays" : "stay"} as before. To clear a bit write &= ~.`,
        span: write.span,
        related: [],
        fixes: [clearFix(analysis, write, names as string[])],
      });
    }
  },
};

/** Whether the bits are 0 as it is: then nothing is missed. */
function areZero(analysis: Analysis, write: RegisterWrite, names: readonly string[]): boolean {
  const bits = names.flatMap((name) => homesOfBit(analysis.target.chip, name)[0]?.position ?? []);
  const mask = bits.reduce((all, position) => all | (1 << position), 0);
  return mask !== 0 && maskedBits(write.before, mask) === 0;
}

/** A 0 written as such, and not by a name that says what it stands for. */
function isPlainZero(part: WrittenExpression): boolean {
  const inner = withoutCasts(part);
  return inner.kind === "literal" && inner.macro === null && knownValue(inner) === 0;
}

/** `&= ~(0 << CS22)`: the complement of nothing keeps everything. */
function clearsNothing(analysis: Analysis, write: RegisterWrite, mask: WrittenExpression | null, report: Report): void {
  const inner = mask === null ? null : withoutCasts(mask);
  if (inner === null || inner.kind !== "unary" || inner.text !== "~") return;
  const parts = inner.operands.flatMap((operand) => chain(operand, "|"));
  const names = parts.map(shiftedZero);
  if (names.length === 0 || !names.every((name) => name !== undefined)) return;
  if (areZero(analysis, write, names as string[])) return;
  report({
    message: `The complement of 0 is all ones, so this clears nothing: ${listed(names as string[])} of ${write.register} ${names.length === 1 ? "stays" : "stay"} as before. Write 1 in place of 0 in the mask.`,
    span: write.span,
    related: [],
    fixes: [clearFix(analysis, write, names as string[])],
  });
}

/** The bit's name in `0 << CS22`. */
function shiftedZero(part: WrittenExpression): string | undefined {
  const inner = withoutCasts(part);
  const [base, count] = inner.operands;
  if (!isBinary(inner, "<<") || base === undefined || count === undefined || knownValue(base) !== 0) return undefined;
  return bitNameOf(count);
}

function clearFix(analysis: Analysis, write: RegisterWrite, names: readonly string[]): Fix {
  return changingFix("Clear the bits: &= ~", "the bits named here become 0", pinsOfTimer(analysis, write.timer), () => {
    const style = namingStyle(analysis);
    const bits = names.map(style.bit).join(" | ");
    return [{ span: write.span, text: `${textOf(analysis, write.target)} &= ~(${bits})` }];
  });
}
