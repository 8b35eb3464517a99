/**
 * What a path knows of the readings its values depend on (domain/dependence.ts): which of a reading's values can have led
 * here. Law: the real reading is among them. Values keep their dependence for as long as the path goes straight on; where
 * paths come round or routines come between, it is forgotten, and what it told of single values is kept.
 */
import { Cells, type Content } from "./cells.js";
import { type Dependent, dependent, eitherOf, entries, plain, reading, type Source } from "./domain/dependence.js";
import * as number from "./domain/number.js";
import { Aggregate } from "./memory.js";
import type { Run } from "./run.js";
import type { State } from "./state.js";
import type { Value } from "./value.js";

/** For each reading that is restricted: 1 where its value may have led here. Never changed once made. */
export type Inputs = ReadonlyMap<Source, Uint8Array>;

/** A number that the outside gives, one of `size` from `low` on; every call makes another reading. */
export function readingOf(
  run: Run,
  state: State,
  low: number,
  size: number,
  type: number.IntegerType,
): number.AbstractInteger {
  state.depends = true;
  return dependent(number.range(low, low + size - 1, type), reading(low, size, run.tables));
}

/** Restrictions that are remembered; older ones are let go. */
const MOST_RESTRICTED = 12;

function dependenceOf(value: Value): Dependent["by"] {
  return "targets" in value ? undefined : value.by;
}

/** The value as exactly as this path knows it. */
export function exact(state: State, value: number.AbstractInteger, type: number.IntegerType): number.AbstractInteger {
  const { by } = value;
  if (by === undefined) return value;
  const allowed = state.inputs?.get(by.source);
  // Without an operation or a condition it is the reading as it is.
  if (by.steps === 0 && allowed === undefined) return value;
  const bits = type.signed ? -type.bits : type.bits;
  if (by.last === null || by.last.allowed !== allowed || by.last.bits !== bits) {
    const table = by.table();
    by.last = { allowed, bits, value: table === null ? null : number.occurringIn(table, allowed, type) };
  }
  const told = by.last.value as number.AbstractInteger | null;
  return told === null ? value : dependent(number.meet(value, told, type) ?? told, by);
}

/** Keeps the readings for which the test holds; false where there is none. */
export function assumeReading(
  state: State,
  left: Dependent,
  right: Dependent,
  holds: (left: number, right: number) => boolean,
): boolean {
  const source = left.by?.source ?? right.by?.source;
  if (source === undefined) return true;
  const a = sameSource(left, source) ? entries(left) : null;
  const b = sameSource(right, source) ? entries(right) : null;
  if (a === null || b === null) return true;
  const before = state.inputs?.get(source);
  const after = new Uint8Array(source.size);
  let any = false;
  let all = true;
  for (let at = 0; at < source.size; at++) {
    if (before !== undefined && before[at] === 0) continue;
    if (holds(a(at), b(at))) {
      after[at] = 1;
      any = true;
    } else all = false;
  }
  if (!all) {
    const inputs = new Map(state.inputs ?? []).set(source, after);
    if (inputs.size > MOST_RESTRICTED) inputs.delete(inputs.keys().next().value!);
    state.inputs = inputs;
  }
  return any;
}

function sameSource(value: Dependent, source: Source): boolean {
  return value.by === undefined || value.by.source === source;
}

/** What either path allows. */
export function eitherInputs(a: Inputs | null, b: Inputs | null): Inputs | null {
  if (a === b || a === null || b === null) return a === b ? a : null;
  const both = new Map<Source, Uint8Array>();
  let same = a.size === b.size;
  for (const [source, left] of a) {
    const right = b.get(source);
    if (right === undefined) same = false;
    else if (left === right) both.set(source, left);
    else {
      same = false;
      both.set(
        source,
        left.map((each, at) => each | right[at]!),
      );
    }
  }
  return same ? a : both.size === 0 ? null : both;
}

/** The joined value of two paths goes on to be a function of a reading, where that reading decided which path was taken. */
export function dependentJoin(joined: Value, left: Value, right: Value, a: Inputs | null, b: Inputs | null): Value {
  if ("targets" in joined || "targets" in left || "targets" in right) return joined;
  const source = decider(left, right, a, b);
  return source === undefined ? joined : eitherOf(joined, source, a!.get(source)!, left, right);
}

function decider(left: Value, right: Value, a: Inputs | null, b: Inputs | null): Source | undefined {
  if (a === null || b === null) return undefined;
  const known = dependenceOf(left)?.source ?? dependenceOf(right)?.source;
  for (const source of known === undefined ? a.keys() : [known]) {
    const one = a.get(source);
    const other = b.get(source);
    if (one !== undefined && other !== undefined && one.every((each, at) => each === 0 || other[at] === 0))
      return source;
  }
  return undefined;
}

/** The state with values of their own again, each as exactly as it was known. */
export function forgetReadings(run: Run, state: State): void {
  if (!state.depends) return;
  // What has not changed since readings were last forgotten depends on none.
  state.memory.differences(state.plainMemory ?? NOTHING, (object, content) => {
    if (content !== undefined) forgetIn(run, state, object, content);
    return true;
  });
  state.plainMemory = state.memory.copy();
  state.inputs = null;
  state.depends = false;
}

const NOTHING = Cells.empty();

function forgetIn(run: Run, state: State, object: number, content: Content): void {
  if (content instanceof Aggregate) {
    if (!content.depends) return;
    const own = state.ownAggregate(object);
    for (const [offset, cell] of own.cells)
      if (dependenceOf(cell.value) !== undefined || "targets" in cell.value)
        own.cells.set(offset, { ...cell, value: alone(state, cell.value, cell.type) });
    own.depends = false;
  } else if (dependenceOf(content) !== undefined || "targets" in content)
    state.memory.set(object, alone(state, content, run.variables.get(Math.floor(object / 256))?.type));
}

function alone(state: State, value: Value, type: { readonly kind: string } | undefined): Value {
  if ("targets" in value) {
    const depends = value.targets?.some((target) => target.kind === "memory" && target.offset.by !== undefined);
    if (depends !== true) return value;
    return {
      ...value,
      targets: value.targets!.map((target) =>
        target.kind === "memory" ? { ...target, offset: plain(target.offset) } : target,
      ),
    };
  }
  if ("zeros" in value && type !== undefined && "integer" in type)
    return plain(exact(state, value, (type as { readonly integer: number.IntegerType }).integer));
  return plain(value);
}
