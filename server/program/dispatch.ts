/** Virtual calls: which function stands behind each class, and where in the object its own part begins. */
import { codeOf, resultVariable } from "./functions.js";
import type { Expression, FunctionCode, Place, RecordType, Statement, Variable } from "./ir.js";
import type { Lowering } from "./lowering.js";
import type { FunctionSymbol } from "./scope.js";
import { sameParameters } from "./signatures.js";
import { INT16, type Type, UINT8 } from "./types.js";

/** The function that each class derived from the symbol's own gives for it. */
export function overridesOf(run: Lowering, symbol: FunctionSymbol): ReadonlyMap<RecordType, FunctionCode> {
  const table = new Map<RecordType, FunctionCode>();
  for (const record of run.records.keys()) {
    const seen = offsetWithin(record, symbol.record!);
    if (seen === null) continue;
    const found = finalOverrider(run, record, symbol);
    if (found === null || found.body === null) continue;
    const own = offsetWithin(record, found.record!) ?? seen;
    const code = codeOf(run, found);
    table.set(record, own === seen ? code : forwarder(run, code, symbol.record!, own - seen, null));
  }
  return table;
}

/** Offsets of all hidden cells that say which class an object is: one for each line of virtual bases. */
export function tagOffsets(record: RecordType): number[] {
  const inherited = record.bases
    .filter((base) => base.record.virtual)
    .flatMap((base) => tagOffsets(base.record).map((offset) => offset + base.offset));
  return inherited.length > 0 ? inherited : record.virtual ? [record.tagOffset] : [];
}

/** Where the part of class `base` begins in an object of class `record`; null where it has none. */
export function offsetWithin(record: RecordType, base: RecordType): number | null {
  if (record === base) return 0;
  for (const entry of record.bases) {
    const inner = offsetWithin(entry.record, base);
    if (inner !== null) return entry.offset + inner;
  }
  return null;
}

/** A pointer to one class as a pointer to a class it derives from, or to one derived from it (C++11 5.2.9). */
export function asRelative(pointer: Expression, to: Type): Expression {
  const from = pointer.type;
  if (from.kind !== "pointer" || to.kind !== "pointer") return pointer;
  if (from.to.kind !== "record" || to.to.kind !== "record" || from.to.record === to.to.record) return pointer;
  const up = offsetWithin(from.to.record, to.to.record);
  const by = up ?? -(offsetWithin(to.to.record, from.to.record) ?? 0);
  if (by === 0) return pointer;
  const { start, end } = pointer;
  const count: Expression = { op: "integer", value: Math.abs(by), type: INT16, start, end };
  return { op: "offset", pointer, count, size: 1, negative: by < 0, type: from, start, end };
}

/** The method as a function that may be pointed to: a virtual one finds out when it is called which it is. */
export function codeToPointTo(run: Lowering, symbol: FunctionSymbol): FunctionCode {
  const code = codeOf(run, symbol);
  if (!symbol.virtual || symbol.record === null) return code;
  return forwarder(run, code, symbol.record, 0, { record: symbol.record, candidates: overridesOf(run, symbol) });
}

/** A function that calls `code`, or what `dispatch` says, on an object that begins `by` bytes behind the one it is given. */
function forwarder(
  run: Lowering,
  code: FunctionCode,
  seenAs: RecordType,
  by: number,
  dispatch: Extract<Statement, { op: "call" }>["dispatch"],
): FunctionCode {
  const { start, end } = code;
  const pointer: Type = { kind: "pointer", to: { kind: "record", record: seenAs } };
  const self = run.variable("this", pointer, "local", start);
  const parameters = code.parameters.map((each) => run.variable(each.name, each.type, "local", start));
  const made: FunctionCode = { ...code, id: run.id(), parameters, self, locals: [], result: null, body: null };
  if (code.returns.kind !== "void") made.result = resultVariable(run, made);
  const bytes: Type = { kind: "pointer", to: UINT8 };
  const count: Expression = { op: "integer", value: Math.abs(by), type: INT16, start, end };
  const from: Expression = { op: "convert", operand: contentOf(self, pointer, start, end), type: bytes, start, end };
  const moved: Expression = { op: "offset", pointer: from, count, size: 1, negative: by < 0, type: bytes, start, end };
  const held = made.result?.type;
  const answer = held === undefined ? null : run.variable("", held, "local", start);
  if (answer !== null) made.locals.push(answer);
  const call: Statement = {
    op: "call",
    code,
    pointer: null,
    dispatch,
    self: { op: "convert", operand: moved, type: code.self?.type ?? bytes, start, end },
    arguments: parameters.map((each) => contentOf(each, passedAs(each.type), start, end)),
    result: answer,
    start,
    end,
  };
  const value = answer === null || held === undefined ? null : contentOf(answer, held, start, end);
  made.body = { op: "block", body: [call, { op: "return", value, start }] };
  run.functions.push(made);
  return made;
}

function passedAs(type: Type): Type {
  return type.kind === "reference" ? { kind: "pointer", to: type.to } : type;
}

function contentOf(variable: Variable, type: Type, start: number, end: number): Expression {
  const place: Place = { op: "variable", variable, type, start, end };
  return type.kind === "record" || type.kind === "opaque" ? place : { op: "load", place, type, start, end };
}

function finalOverrider(run: Lowering, record: RecordType, symbol: FunctionSymbol): FunctionSymbol | null {
  const info = run.records.get(record);
  const own = info?.methods.find((method) => method.name === symbol.name && sameParameters(run, method, symbol));
  if (own !== undefined) return own;
  for (const base of record.bases) {
    const inherited = finalOverrider(run, base.record, symbol);
    if (inherited !== null) return inherited;
  }
  return null;
}
