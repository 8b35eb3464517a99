/**
 * The sketch's register writes to one timer, played again on plain numbers: what the registers would hold if one of the writes
 * were another. Only what the records say is used; a write that cannot be worked out sets and clears the bits that it did.
 */
import type { TimerFact } from "../../shared-model/chip.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import { withoutCasts } from "../look/expression.js";

/** The timer's registers that are known, by name. */
export type Registers = ReadonlyMap<string, number>;

/** What a write leaves in its register in place of what it did; null: nothing is known. */
export type Variation = (write: RegisterWrite, registers: Registers) => number | null;

/** Writes of the main program to this timer in the order in which they first ran, the core's and the sketch's. */
export function writesTo(analysis: Analysis, timer: TimerFact): readonly RegisterWrite[] {
  const names = new Set([...timer.control, ...timer.channels.map(({ compare }) => compare), timer.capture ?? ""]);
  return analysis.writes.filter(
    (write) =>
      write.timer === timer.number &&
      names.has(write.register) &&
      write.inInterrupt === null &&
      write.effects.length > 0,
  );
}

/** The registers after all the writes, with some of them varied. */
export function replay(
  writes: readonly RegisterWrite[],
  timer: TimerFact,
  variations: ReadonlyMap<RegisterWrite, Variation> = new Map(),
): Registers {
  const registers = new Map<string, number>();
  const [first] = writes;
  for (const [name, value] of Object.entries(first?.effects[0]?.before.registers ?? {})) {
    const known = single(value);
    if (known !== undefined) registers.set(name, known);
  }
  for (const write of writes) {
    const variation = variations.get(write);
    const after = (variation ?? asWritten)(write, registers);
    if (after === null) registers.delete(write.register);
    else registers.set(write.register, after & (timer.control.includes(write.register) ? 0xff : 2 ** timer.bits - 1));
  }
  return registers;
}

/** What the write does to these registers. */
export function asWritten(write: RegisterWrite, registers: Registers): number | null {
  const right = write.expression === null ? null : worth(write.expression, registers);
  const before = registers.get(write.register);
  const made = right === null ? null : combined(write.operator, before, right);
  return made ?? asRecorded(write, before);
}

/** `before OPERATOR right`; null where the operator needs a value that is not known, or is none of C's. */
export function combined(operator: string, before: number | undefined, right: number): number | null {
  if (operator === "=") return right;
  if (before === undefined) return null;
  return binary(operator.slice(0, -1), before, right);
}

function asRecorded(write: RegisterWrite, before: number | undefined): number | null {
  const effect = write.effects[0]!;
  const was = effect.before.registers[write.register];
  const is = effect.after.registers[write.register];
  const [from, to] = [was === undefined ? undefined : single(was), is === undefined ? undefined : single(is)];
  if (to === undefined) return null;
  if (from === undefined || before === undefined || write.operator !== "core") return to;
  return (before & ~(from & ~to)) | (to & ~from);
}

/** An expression's value where the registers hold these; null where it cannot be told. */
export function worth(expression: WrittenExpression, registers: Registers): number | null {
  const inner = withoutCasts(expression);
  if (inner.kind === "register") return registers.get(inner.text) ?? known(inner);
  if (!hasRegister(inner)) return known(inner);
  const parts = inner.operands.map((operand) => worth(operand, registers));
  const [left, right] = parts;
  if (inner.kind === "unary" && left !== null && left !== undefined) return unary(inner.text, left);
  if (inner.kind === "binary" && left !== null && left !== undefined && right !== null && right !== undefined)
    return binary(inner.text, left, right);
  return null;
}

function known(expression: WrittenExpression): number | null {
  return expression.value === null ? null : (single(expression.value) ?? null);
}

function hasRegister(expression: WrittenExpression): boolean {
  return expression.kind === "register" || expression.operands.some(hasRegister);
}

function unary(operator: string, value: number): number | null {
  if (operator === "~") return ~value;
  if (operator === "-") return -value;
  if (operator === "!") return value === 0 ? 1 : 0;
  return operator === "+" ? value : null;
}

export function binary(operator: string, left: number, right: number): number | null {
  switch (operator) {
    case "|":
      return left | right;
    case "&":
      return left & right;
    case "^":
      return left ^ right;
    case "+":
      return left + right;
    case "-":
      return left - right;
    case "<<":
      return left << right;
    case ">>":
      return left >> right;
    default:
      return null;
  }
}
