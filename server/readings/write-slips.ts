/**
 * Slips in single lines of the sketch: a write that did not happen, `=` for `|=`, a mask left out, operators taken in another
 * order. Each line's variation is played through, so that what comes after it counts.
 */
import { type Replacement, replaceRegisters } from "../../shared-model/readings/replaced-registers.js";
import type { Slip, SlipGround } from "../../shared-model/readings/slip.js";
import { single } from "../../shared-model/register-value.js";
import { controlStates, modeName } from "../../shared-model/waveforms/control-states.js";
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import { reads, shapeOf, withoutCasts } from "../look/expression.js";
import { ownPaths } from "../look/look.js";
import { clockWords } from "../look/setting-words.js";
import { binary, combined, type Registers, replay, type Variation, worth, writesTo } from "./register-replay.js";

interface LineSlip {
  readonly variation: Variation;
  readonly words: string;
  readonly size: number;
}

export function writeSlips(analysis: Analysis, ground: SlipGround): readonly Slip[] {
  const writes = writesTo(analysis, ground.timer);
  const own = ownPaths(analysis);
  const lines = writes.filter((write) => write.operator !== "core" && own.has(write.span.path));
  if (lines.length === 0) return [];
  const usual = replay(writes, ground.timer);
  // A state that the writes in their order do not lead to is another path's: nothing can be said of it.
  if (!leadsTo(usual, ground)) return [];
  const found: Slip[] = [];
  const add = (registers: Registers, words: string, size: number): void => {
    const replacements = changes(usual, registers, ground);
    if (replacements === null || replacements.length === 0) return;
    found.push({ replacements, words: `${words}${settingChange(analysis, ground, replacements)}`, size });
  };
  for (const write of lines) {
    for (const { variation, words, size } of variationsOf(write))
      add(replay(writes, ground.timer, new Map([[write, variation]])), `${placeOf(analysis, write)} ${words}`, size);
  }
  const none = new Map<RegisterWrite, Variation>(lines.map((write) => [write, leftOut]));
  if (lines.length > 1) {
    const words = `timer ${ground.timer.number} as the core leaves it: none of its ${lines.length} lines at work`;
    add(replay(writes, ground.timer, none), words, 2.2);
  }
  return found;
}

/** `, prescaler 256 in place of 8`: what the slip makes of mode and clock, where both are known. */
function settingChange(
  analysis: Analysis,
  { timer, snapshot }: SlipGround,
  replacements: readonly Replacement[],
): string {
  const changed = replaceRegisters(analysis.target.chip, timer, snapshot, replacements);
  if ("problem" in changed) return "";
  const [before, ...more] = controlStates(timer, snapshot) ?? [];
  const [after, ...others] = controlStates(timer, changed.snapshot) ?? [];
  if (before === undefined || after === undefined || more.length + others.length > 0) return "";
  const clock =
    after.clock === before.clock
      ? []
      : [`${clockWords(after.clock)} in place of ${clockWords(before.clock).replace("prescaler ", "")}`];
  const mode =
    after.mode === before.mode ? [] : [`${modeName(timer, after.mode)} in place of ${modeName(timer, before.mode)}`];
  const parts = [...mode, ...clock];
  return parts.length === 0 ? "" : `, so ${parts.join(" and ")}`;
}

const leftOut: Variation = (write, registers) => registers.get(write.register) ?? null;

function variationsOf(write: RegisterWrite): readonly LineSlip[] {
  const slips: LineSlip[] = [{ variation: leftOut, words: "left out", size: 1.7 }];
  const { expression, operator } = write;
  if (expression === null) return slips;
  const right = (registers: Registers) => worth(expression, registers);
  const other = operator === "=" ? "|=" : operator === "|=" ? "=" : null;
  if (other !== null)
    slips.push({
      variation: (each, registers) =>
        onKnown(right(registers), (value) => combined(other, registers.get(each.register), value)),
      words: `with ${other} in place of ${operator}`,
      // Who writes `R = R …` does not think of `|=`.
      size: reads(expression, write.register) ? 1.9 : 1.4,
    });
  slips.push(...orderSlips(write, expression), ...maskSlips(write, expression));
  return slips;
}

/** `|`, `&` and `^` in another order than the line's: from left to right, or by C's order with the parentheses forgotten. */
function orderSlips(write: RegisterWrite, expression: WrittenExpression): readonly LineSlip[] {
  const tokens = flat(expression);
  const compound = write.operator === "|=" || write.operator === "^=";
  const operators = tokens.operators.length + (compound ? 1 : 0);
  if (operators < 2) return [];
  const series = (registers: Registers): readonly (number | null)[] => [
    ...(compound ? [registers.get(write.register) ?? null] : []),
    ...tokens.operands.map((operand) => worth(operand, registers)),
  ];
  const signs = [...(compound ? [write.operator.slice(0, -1)] : []), ...tokens.operators];
  const plain = write.operator === "=" || compound;
  if (!plain || !signs.includes("&")) return [];
  return [
    {
      variation: (_, registers) => fromLeft(series(registers), signs),
      words: "read from left to right, where C works out & before |",
      size: 1.3,
    },
    {
      variation: (_, registers) => byRank(series(registers), signs),
      words: "without its parentheses: C works out & before |",
      size: 1.3,
    },
  ];
}

/** Operands and operators of a chain of `|`, `&`, `^` as they stand in the line, parentheses looked through. */
function flat(expression: WrittenExpression): {
  readonly operands: readonly WrittenExpression[];
  readonly operators: readonly string[];
} {
  const inner = withoutCasts(expression);
  const [left, right] = inner.operands;
  if (inner.kind !== "binary" || !["|", "&", "^"].includes(inner.text) || left === undefined || right === undefined)
    return { operands: [expression], operators: [] };
  const [before, after] = [flat(left), flat(right)];
  return {
    operands: [...before.operands, ...after.operands],
    operators: [...before.operators, inner.text, ...after.operators],
  };
}

function fromLeft(values: readonly (number | null)[], operators: readonly string[]): number | null {
  return operators.reduce<number | null>(
    (value, operator, index) =>
      onKnown(value, (left) => onKnown(values[index + 1] ?? null, (right) => binary(operator, left, right))),
    values[0] ?? null,
  );
}

/** C's order: `&` first, then `^`, then `|`. */
function byRank(values: readonly (number | null)[], operators: readonly string[]): number | null {
  let [operands, signs] = [[...values], [...operators]];
  for (const rank of ["&", "^", "|"]) {
    const nextOperands = [operands[0] ?? null];
    const nextSigns: string[] = [];
    signs.forEach((sign, index) => {
      const right = operands[index + 1] ?? null;
      if (sign !== rank) {
        nextOperands.push(right);
        nextSigns.push(sign);
        return;
      }
      const left = nextOperands.pop() ?? null;
      nextOperands.push(onKnown(left, (one) => onKnown(right, (other) => binary(sign, one, other))));
    });
    [operands, signs] = [nextOperands, nextSigns];
  }
  return operands[0] ?? null;
}

/** `R = (R & M) | B` without its mask, or with the mask's complement forgotten; `R &= ~M` likewise. */
function maskSlips(write: RegisterWrite, expression: WrittenExpression): readonly LineSlip[] {
  const shape = shapeOf(write.register, write.operator, expression);
  const { mask } = shape;
  if (mask === null) return [];
  const bits = (registers: Registers): number | null =>
    shape.sets.reduce<number | null>(
      (all, part) => onKnown(all, (value) => onKnown(worth(part, registers), (each) => value | each)),
      0,
    );
  const kept = (registers: Registers, change: (value: number) => number): number | null =>
    onKnown(registers.get(write.register) ?? null, (before) =>
      onKnown(worth(mask, registers), (value) => onKnown(bits(registers), (set) => (before & change(value)) | set)),
    );
  const slips: LineSlip[] = [];
  if (shape.sets.length > 0)
    slips.push({ variation: (_, registers) => kept(registers, () => 0xffff), words: "without its mask", size: 1.4 });
  slips.push({
    variation: (_, registers) => kept(registers, (value) => ~value),
    words: "with ~ forgotten in its mask",
    size: 1.7,
  });
  return slips;
}

function onKnown(value: number | null, then: (value: number) => number | null): number | null {
  return value === null ? null : then(value);
}

/** Whether the played registers are those of the state; bits that connect outputs come and go with analogWrite. */
function leadsTo(registers: Registers, ground: SlipGround): boolean {
  return ground.timer.control.every((name) => {
    const value = ground.snapshot.registers[name];
    const is = value === undefined ? undefined : single(value);
    const played = registers.get(name);
    const mask = settingMask(ground, name);
    if (played === undefined || value === undefined) return mask === 0;
    return is === undefined
      ? (value.ones & mask & ~played) === 0 && (value.zeros & mask & played) === 0
      : (is & mask) === (played & mask);
  });
}

/** The bits of mode and clock in a control register. */
function settingMask({ timer }: SlipGround, register: string): number {
  return [timer.modeField, timer.clockField]
    .flatMap((field) => field.parts)
    .filter((part) => part.register === register)
    .reduce((mask, { shift, width }) => mask | ((2 ** width - 1) << shift), 0);
}

/** What differs between two ends of the play; null where something is not known. */
function changes(usual: Registers, varied: Registers, { timer }: SlipGround): readonly Replacement[] | null {
  const found: Replacement[] = [];
  for (const [name, was] of usual) {
    const is = varied.get(name);
    if (is === undefined) return null;
    if (is === was) continue;
    found.push(timer.control.includes(name) ? { name, value: is, mask: was ^ is } : { name, value: is });
  }
  return found;
}

const LONGEST_QUOTE = 48;

/** ``line 7 (`TCCR2B |= _BV(CS21);`)``: where a person looks. */
function placeOf(analysis: Analysis, write: RegisterWrite): string {
  const file = analysis.files.find(({ path }) => path === write.span.path);
  if (file === undefined) return write.register;
  const line = file.text.slice(0, write.span.start).split("\n").length;
  const text = file.text.slice(write.span.start, write.span.end).replace(/\s+/g, " ");
  const quoted = text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE - 2)} …` : text;
  const name = analysis.files[0]?.path === file.path ? "" : ` of ${file.path.replace(/^.*[\\/]/, "")}`;
  return `line ${line}${name} (${quoted})`;
}
