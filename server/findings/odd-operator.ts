/** The operator does something else than the line means. */
import type { Chip } from "../../shared-model/chip.js";
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";
import { bitNameOf, chain, knownValue, namedBit, partsOf, reads, withoutCasts } from "../look/expression.js";
import { ownPaths, sketchWrites } from "../look/look.js";
import { homesOfBit } from "../look/register-fields.js";
import { listed, showHex } from "../look/show.js";
import type { FindingRule } from "./finding.js";
import { changingFix, pinsOfTimer, textOf } from "./fix.js";

export const oddOperator: FindingRule = {
  id: "odd-operator",
  severity: "error",
  says: "`&= (1 << X)`, `|= ~M`, `&= !(…)`, `A || B`, `|= CS22`, `10 ^ 6`: the operator does something else than the line means.",
  why: "One sign too many or too few, and a line that should touch one bit touches the seven others.",
  source: "C standard, bitwise and logical operators",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B &= _BV(CS22);
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B &= ~_BV(CS22);
  TCCR2B |= _BV(CS21);
}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "A mask that keeps one bit on purpose reads better as R = R & mask.",
  check(analysis, report) {
    for (const write of sketchWrites(analysis)) {
      const found = write.expression === null ? null : slip(analysis, write, write.expression);
      if (found === null) continue;
      const pins = pinsOfTimer(analysis, write.timer);
      const fixes =
        found.fix === null
          ? []
          : [changingFix(found.fix.title, "the line then does what it reads like", pins, found.fix.edit)];
      report({ message: found.message, span: write.span, related: [], fixes });
    }
    powers(analysis, report);
  },
};

interface Slip {
  readonly message: string;
  readonly fix: { readonly title: string; readonly edit: () => readonly TextEdit[] } | null;
}

function slip(analysis: Analysis, write: RegisterWrite, expression: WrittenExpression): Slip | null {
  const { chip } = analysis.target;
  const inner = withoutCasts(expression);
  const bits = chain(inner, "|");
  const names = bits.map((bit) => namedBit(bit)?.name);
  if (write.operator === "&=" && names.every((name) => name !== undefined)) {
    const message = `&= with ${listed(names as string[])} clears every other bit of ${write.register}: ${change(write)}. To clear ${names.length === 1 ? "this bit" : "these bits"} write &= ~, to set ${names.length === 1 ? "it" : "them"} write |=.`;
    return { message, fix: { title: "Clear only these bits: &= ~", edit: () => complement(expression.span) } };
  }
  if (write.operator === "&=" && inner.kind === "unary" && inner.text === "!") {
    const message = `! makes the mask 0 or 1, so &= clears all bits of ${write.register} but perhaps the lowest: ${change(write)}. The complement of a mask is ~.`;
    return { message, fix: { title: "Write ~ in place of !", edit: () => bang(analysis, inner.span) } };
  }
  if (write.operator === "|=" && inner.kind === "unary" && inner.text === "~" && namesOneBit(inner)) {
    const message = `|= with ~ sets every other bit of ${write.register}: ${change(write)}. To clear the bit write &= ~, to set it write |= without ~.`;
    return { message, fix: { title: "Clear the bit: &= ~", edit: () => andAssign(analysis, write) } };
  }
  if (write.operator === "|=" || write.operator === "=" || write.operator === "&=")
    return logical(analysis, write, inner) ?? numberAsMask(chip, write, bits);
  return null;
}

/** `TCCR2B && 0xF8`, `_BV(A) || _BV(B)`: true or false, 1 or 0, where bits are meant. Conditions are no such place. */
function logical(analysis: Analysis, write: RegisterWrite, expression: WrittenExpression): Slip | null {
  const inner = withoutCasts(expression);
  if (inner.kind === "conditional" || inner.kind === "call") return null;
  const [left, right] = inner.operands;
  const isLogical = inner.kind === "binary" && (inner.text === "&&" || inner.text === "||");
  if (!isLogical || left === undefined || right === undefined) {
    for (const operand of inner.operands) {
      const found = logical(analysis, write, operand);
      if (found !== null) return found;
    }
    return null;
  }
  const bits = [left, right].some(
    (operand) =>
      chain(operand, "|").some((bit) => namedBit(bit) !== undefined) ||
      chain(operand, "&").some((part) => withoutCasts(part).kind === "register" && reads(part, write.register)),
  );
  if (!bits) return null;
  const one = inner.text.charAt(0);
  const between = { path: inner.span.path, start: left.span.end, end: right.span.start };
  const at = textOf(analysis, between).indexOf(inner.text);
  const span = { path: between.path, start: between.start + at, end: between.start + at + 2 };
  return {
    message: `${inner.text} makes 1 or 0 of its two sides: ${change(write)}. The operator for bits is ${one}.`,
    fix: at < 0 ? null : { title: `Write ${one} in place of ${inner.text}`, edit: () => [{ span, text: one }] },
  };
}

function namesOneBit(complement: WrittenExpression): boolean {
  return complement.operands.every((operand) => chain(operand, "|").every((bit) => namedBit(bit) !== undefined));
}

/** `|= CS22` ORs the bit's number, 2, in place of its mask, 4. */
function numberAsMask(chip: Chip, write: RegisterWrite, parts: readonly WrittenExpression[]): Slip | null {
  for (const part of parts) {
    const name = bitNameOf(part);
    const home = name === undefined ? undefined : homesOfBit(chip, name)[0];
    if (name === undefined || home === undefined || knownValue(part) !== home.position) continue;
    const span = part.span;
    return {
      message: `${name} is the number of a bit, ${home.position}, not its mask ${showHex(1 << home.position)}: ${change(write)}. Write _BV(${name}).`,
      fix: { title: `Write _BV(${name})`, edit: () => [{ span, text: `_BV(${name})` }] },
    };
  }
  return null;
}

function change(write: RegisterWrite): string {
  const { before, after } = write;
  if (after.min !== after.max) return `it becomes ${after.min}..${after.max}`;
  if (before.min !== before.max) return `it becomes ${showHex(after.min)}`;
  return before.min === after.min
    ? `here it stays ${showHex(after.min)}`
    : `${showHex(before.min)} → ${showHex(after.min)}`;
}

/** `!(…)` → `~(…)`. */
function bang(analysis: Analysis, span: WrittenExpression["span"]): readonly TextEdit[] {
  if (!textOf(analysis, span).startsWith("!")) return [];
  return [{ span: { path: span.path, start: span.start, end: span.start + 1 }, text: "~" }];
}

/** `|=` → `&=`, where the line itself writes it. */
function andAssign(analysis: Analysis, write: RegisterWrite): readonly TextEdit[] {
  const between = { path: write.span.path, start: write.target.end, end: write.expression?.span.start ?? 0 };
  const at = textOf(analysis, between).indexOf("|=");
  if (at < 0) return [];
  const start = between.start + at;
  return [{ span: { path: between.path, start, end: start + 1 }, text: "&" }];
}

/** `10 ^ 6` between two decimal numbers is an exclusive or, not a power. */
function powers(analysis: Analysis, report: Parameters<FindingRule["check"]>[1]): void {
  const own = ownPaths(analysis);
  const roots = [
    ...sketchWrites(analysis).flatMap((write) => (write.expression === null ? [] : [write.expression])),
    ...analysis.calls
      .filter((call) => own.has(call.span.path))
      .flatMap((call) => call.arguments.map((argument) => argument.expression)),
  ];
  for (const root of roots) {
    for (const part of partsOf(root)) {
      if (part.kind !== "binary" || part.text !== "^") continue;
      // `16 * 10 ^ 6 / 25` reads like a power in the middle, and is the exclusive or of two products.
      const base = part.operands[0] === undefined ? undefined : edge(part.operands[0], "right");
      const exponent = part.operands[1] === undefined ? undefined : edge(part.operands[1], "left");
      if (base === undefined || exponent === undefined || !isDecimal(base) || !isDecimal(exponent)) continue;
      const b = knownValue(base);
      const e = knownValue(exponent);
      if ((b !== 2 && b !== 10) || e === undefined || e > 9) continue;
      const alone = part.operands.every((operand) => withoutCasts(operand).kind === "literal");
      const all = knownValue(part);
      const is = alone
        ? `the exclusive or of the two numbers, ${b ^ e}`
        : `the exclusive or of what stands on its two sides${all === undefined ? "" : `, ${all}`}`;
      const power = b === 10 ? `${10 ** e}${e > 4 ? "L" : ""}` : `(1UL << ${e})`;
      const span = { path: base.span.path, start: base.span.start, end: exponent.span.end };
      report({
        message: `${b} ^ ${e} is ${is}, not a power. Write ${power}.`,
        span: part.span,
        related: [],
        fixes: [
          changingFix(
            `Write ${power}`,
            "the line then counts with the power that it reads like",
            analysis.pins.map((pin) => pin.pin),
            () => [{ span, text: power }],
          ),
        ],
      });
    }
  }
}

/** The outermost operand of a product or quotient on one side; the expression itself where it is none. */
function edge(expression: WrittenExpression, side: "left" | "right"): WrittenExpression {
  let at = withoutCasts(expression);
  while (at.kind === "binary" && ["*", "/"].includes(at.text) && !at.parenthesised && at.operands.length === 2)
    at = withoutCasts(at.operands[side === "left" ? 0 : 1]!);
  return at;
}

function isDecimal(expression: WrittenExpression): boolean {
  return expression.kind === "literal" && expression.macro === null && /^[1-9]\d*[uUlL]*$/.test(expression.text);
}

function complement(span: WrittenExpression["span"]): readonly TextEdit[] {
  return [
    { span: { path: span.path, start: span.start, end: span.start }, text: "~(" },
    { span: { path: span.path, start: span.end, end: span.end }, text: ")" },
  ];
}
