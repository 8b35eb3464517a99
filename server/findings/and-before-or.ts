/** `R | B & C`: C works the `&` out first, which is not what the line reads like. `R & M | V` is right and never told. */

import type { Chip } from "../../shared-model/chip.js";
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import { isBinary, knownValue, partsOf, readsAnyRegister, withoutCasts } from "../look/expression.js";
import { sketchWrites, within } from "../look/look.js";
import { settingWords } from "../look/setting-words.js";
import { showHex } from "../look/show.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, pinsOfTimer, safeFix, textOf, wrap } from "./fix.js";

export const andBeforeOr: FindingRule = {
  id: "and-before-or",
  severity: "error",
  says: "`R | B & C`: C works out `&` before `|`, which gives other bits than reading from left to right.",
  why: "The mask that was to clear bits of the register touches only the constant; the old prescaler or mode bits stay, and the pin runs at another frequency.",
  source: "C standard, order of operators: & binds tighter than ^, ^ tighter than |",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = TCCR2B | _BV(CS21) & ~_BV(CS22);
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = TCCR2B & ~_BV(CS22) | _BV(CS21);
}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "Never needed: put the parentheses where C puts them and the line says what it does.",
  check(analysis, report) {
    for (const write of sketchWrites(analysis)) {
      if (write.expression === null) continue;
      for (const part of partsOf(write.expression)) {
        const slip = slipIn(part, write);
        if (slip === null) continue;
        const { chip } = analysis.target;
        report({
          message: message(chip, write, slip),
          span: part.span,
          related: [],
          fixes: fixes(analysis, write, part, slip),
        });
        break;
      }
    }
  },
};

interface Slip {
  readonly left: WrittenExpression;
  readonly both: WrittenExpression;
  readonly bits: WrittenExpression;
  readonly mask: WrittenExpression;
  readonly asC: number | null;
  readonly meant: number | null;
  /** The mask kills the constant: only clearing first can be meant. */
  readonly killed: boolean;
}

function slipIn(part: WrittenExpression, write: RegisterWrite): Slip | null {
  if (!isBinary(part, "|")) return null;
  const [left, right] = part.operands;
  if (left === undefined || right === undefined) return null;
  const both = withoutCasts(right);
  if (!isBinary(both, "&") || both.parenthesised || right.parenthesised) return null;
  if (!readsAnyRegister(left) || hasOpenAnd(left)) return null;
  const [bits, mask] = both.operands;
  if (bits === undefined || mask === undefined || hasOpenAnd(bits)) return null;
  if (bits.nature !== "constant" || mask.nature !== "constant") return null;
  const b = knownValue(bits);
  const c = knownValue(mask);
  if (b === undefined || c === undefined || b === 0) return null;
  const width = write.register.startsWith("OCR") || write.register.startsWith("ICR") ? 0xffff : 0xff;
  const full = write.after.max > 0xff ? width : 0xff;
  const masked = b & c & full;
  // A mask that leaves the constant alone, or kills it, was not meant for the constant.
  const pointless = masked === 0 || (masked === (b & full) && clears(c & full));
  if (!pointless || left.value === null) return null;
  const kept = left.value;
  const asC = (value: number) => (value | (b & c)) & full;
  // Clearing first and setting then; the same as reading from left to right where the mask leaves the constant alone.
  const meant = (value: number) => ((value & c) | b) & full;
  const killed = masked === 0;
  if (kept.values !== null) {
    const different = kept.values.find((value) => asC(value) !== meant(value));
    if (different === undefined) return null;
    const one = kept.values.length === 1;
    return { left, both, bits, mask, killed, asC: one ? asC(different) : null, meant: one ? meant(different) : null };
  }
  const cleared = ~c & full;
  if ((cleared & ~kept.zeros) === 0 && !killed) return null;
  return { left, both, bits, mask, killed, asC: null, meant: null };
}

/** A mask made to clear a few bits: most of its bits are 1. */
function clears(mask: number): boolean {
  let ones = 0;
  for (let rest = mask; rest > 0; rest = Math.floor(rest / 2)) ones += rest % 2;
  return ones >= 5;
}

/** Whether an `&` without parentheses of its own stands at the top of the expression. */
function hasOpenAnd(expression: WrittenExpression): boolean {
  const inner = withoutCasts(expression);
  if (expression.parenthesised || inner.parenthesised) return false;
  if (isBinary(inner, "&")) return true;
  return isBinary(inner, "|") && inner.operands.some(hasOpenAnd);
}

function message(chip: Chip, write: RegisterWrite, slip: Slip): string {
  const way = "Put parentheses around what is meant.";
  if (slip.asC === null || slip.meant === null) {
    return `C works out \`&\` before \`|\`: the mask touches only the constant and ${write.register} keeps the bits it was to clear. ${way}`;
  }
  const words = (value: number) => {
    const setting = settingWords(chip, write.register, value);
    return setting === null ? showHex(value) : `${showHex(value)} (${setting})`;
  };
  return `C works out \`&\` before \`|\`: ${write.register} becomes ${words(slip.asC)}, where ${slip.killed ? "clearing first and setting then" : "reading from left to right"} gives ${words(slip.meant)}. ${way}`;
}

function fixes(analysis: Analysis, write: RegisterWrite, whole: WrittenExpression, slip: Slip): readonly Fix[] {
  const parts = [slip.left, slip.bits, slip.mask];
  const apart = parts.every((part) => within(part.span, whole.span) && part.span.end > part.span.start);
  const ordered = slip.left.span.end <= slip.bits.span.start && slip.bits.span.end <= slip.mask.span.start;
  if (!apart || !ordered) return [];
  const pins = pinsOfTimer(analysis, write.timer);
  const text = (part: WrittenExpression) => textOf(analysis, part.span);
  return [
    changingFix(
      "Clear the masked bits first, then set: (R & mask) | bits",
      `${write.register} gets the bits that the line reads like`,
      pins,
      () => [
        { span: whole.span, text: `(${text(slip.left)} & ${operand(text(slip.mask))}) | ${operand(text(slip.bits))}` },
      ],
    ),
    ...(slip.killed
      ? []
      : [
          changingFix(
            "Work from left to right: (R | bits) & mask",
            `${write.register} gets the bits that the line reads like`,
            pins,
            () => wrap({ path: whole.span.path, start: slip.left.span.start, end: slip.bits.span.end }),
          ),
        ]),
    safeFix("Show C's order: R | (bits & mask)", () => wrap(slip.both.span)),
  ];
}

/** Operand text that keeps its meaning beside `&` and `|`. */
function operand(text: string): string {
  return /^[\w.]+$|^\w+\([^()]*\)$|^~\s*\w+(\([^()]*\))?$/.test(text) || /^~?\s*\(.*\)$/s.test(text)
    ? text
    : `(${text})`;
}
