/** Records of writes and calls, as the readers of an analysis see them. */
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { CallArgument, CoreCall, LostReason, RegisterWrite, WriteEffect, WrittenExpression } from "../analysis.js";
import type { CallRecord, EffectRecord, WriteRecord } from "../execute/collect.js";
import type { Loss } from "../execute/hardware/access.js";
import type { Layout } from "../execute/hardware/layout.js";
import type { Value } from "../execute/value.js";
import type { WrittenNode } from "../program/lowering.js";
import type { LoweredProgram } from "../program/program.js";
import type { Words } from "./words.js";

/** What the parts of an expression were worth, as the sketch wrote it. */
export function writtenExpression(
  node: WrittenNode,
  traced: readonly (Value | undefined)[],
  words: Words,
  constantOf: (offset: number) => string | null,
): WrittenExpression {
  const value = traced[node.trace];
  return {
    kind: node.kind,
    span: words.span(node.start, node.end),
    text: node.text,
    macro: node.kind === "literal" ? constantOf(node.start) : null,
    parenthesised: node.parenthesised,
    operands: node.operands.map((operand) => writtenExpression(operand, traced, words, constantOf)),
    value: value !== undefined && "zeros" in value ? value : null,
    type: node.type.kind === "integer" ? { bits: node.type.integer.bits, signed: node.type.integer.signed } : null,
    nature: node.nature,
  };
}

export interface Conclusions {
  readonly program: LoweredProgram;
  readonly layout: Layout;
  readonly traced: readonly (Value | undefined)[];
  readonly words: Words;
  readonly constantOf: (offset: number) => string | null;
}

export function concludeWrites(records: Iterable<WriteRecord>, context: Conclusions): RegisterWrite[] {
  return [...records].map((record) => concludeWrite(record, context));
}

function concludeWrite(record: WriteRecord, context: Conclusions): RegisterWrite {
  const { layout, words } = context;
  const { context: stands } = record;
  const node = stands.written >= 0 ? context.program.written[stands.written] : null;
  const span = words.span(stands.start, stands.end);
  return {
    span,
    target: words.span(stands.targetStart, stands.targetEnd),
    register: record.word ? nameOf(layout, record.address) : byteName(layout, record.address),
    timer: record.timer?.fact.number ?? null,
    operator: stands.operator,
    expression: node == null ? null : writtenExpression(node, context.traced, words, context.constantOf),
    before: record.before,
    after: record.after,
    asked: record.asked,
    reach: record.reach,
    inFunction: record.where.functionName,
    inInterrupt: record.where.interrupt,
    beforeInit: record.beforeInit,
    effects: record.effects.map((effect) => concludeEffect(effect, words)),
    lost: record.losses.map((loss) => concludeLoss(loss, record, span)),
    times: record.times,
  };
}

export function nameOf(layout: Layout, address: number): string {
  return layout.wideNames.get(address) ?? layout.registers[address]?.name ?? `0x${address.toString(16)}`;
}

/** The name of one byte: `OCR1AL` for a half that was written alone. */
function byteName(layout: Layout, address: number): string {
  return layout.registers[address]?.name ?? nameOf(layout, address);
}

function concludeEffect(effect: EffectRecord, words: Words): WriteEffect {
  return {
    regime: effect.regime,
    before: effect.before,
    after: effect.after,
    when: words.conditions(effect.conditions),
  };
}

function concludeLoss(loss: Loss, record: WriteRecord, span: RegisterWrite["span"]): LostReason {
  switch (loss.kind) {
    case "masked":
      return { kind: "masked by fixed TOP", asked: loss.asked, stored: loss.stored, top: loss.top };
    case "capture":
      return { kind: "capture outside its modes" };
    case "wiped":
      return { kind: "wiped by the core's init", after: loss.after };
    case "parted":
      return { kind: "parted by a routine", high: loss.high };
    case "dropped":
      return { kind: "buffer dropped", at: span, stored: record.after };
  }
}

/** A dropped buffer is told at the write that was lost, not at the one that changed the mode. */
export function moveDroppedBuffers(
  writes: readonly RegisterWrite[],
  records: readonly WriteRecord[],
  layout: Layout,
  words: Words,
): RegisterWrite[] {
  const extra = new Map<number, LostReason[]>();
  for (const record of records) {
    for (const loss of record.losses) {
      if (loss.kind !== "dropped") continue;
      const at = words.span(record.context.start, record.context.end);
      for (const [index, write] of records.entries()) {
        if (write.address !== loss.channel.compare || !loss.writers.includes(write.context.start)) continue;
        const list = extra.get(index) ?? [];
        list.push({ kind: "buffer dropped", at, stored: loss.buffered });
        extra.set(index, list);
      }
    }
  }
  void layout;
  return writes.map((write, index) => ({
    ...write,
    lost: [...write.lost.filter((reason) => reason.kind !== "buffer dropped"), ...(extra.get(index) ?? [])],
  }));
}

export function concludeCalls(records: Iterable<CallRecord>, context: Conclusions): CoreCall[] {
  return [...records].map((record) => ({
    name: record.name,
    span: context.words.span(record.start, record.end),
    arguments: record.written.map((index, position) => concludeArgument(index, record.values[position], context)),
    pins: [...record.pins].sort((a, b) => a - b),
    timers: [...record.timers].sort((a, b) => a - b),
    inFunction: record.where.functionName,
    inInterrupt: record.where.interrupt,
    effects: record.effects.map((effect) => concludeEffect(effect, context.words)),
    regimes: [...record.regimes],
  }));
}

function concludeArgument(index: number, value: Value | undefined, context: Conclusions): CallArgument {
  const node = context.program.written[index] ?? null;
  const known: RegisterValue | null = value !== undefined && "zeros" in value ? value : null;
  if (node === null) {
    const span = context.words.span(0, 0);
    return { span, value: known, expression: emptyExpression(span) };
  }
  const expression = writtenExpression(node, context.traced, context.words, context.constantOf);
  return { span: expression.span, expression, value: known };
}

function emptyExpression(span: RegisterWrite["span"]): WrittenExpression {
  return {
    kind: "other",
    span,
    text: "",
    macro: null,
    parenthesised: false,
    operands: [],
    value: null,
    type: null,
    nature: "computed",
  };
}
