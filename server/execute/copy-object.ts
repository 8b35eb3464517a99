/** Copying stretches of memory: whole records and arrays, and what memcpy is given. Law: the target afterwards holds what any of the possible sources may have held. */
import type { Place } from "../program/ir.js";
import { sizeOf, type Type } from "../program/types.js";
import * as number from "./domain/number.js";
import { Aggregate, type Cell } from "./memory.js";
import { forget, locate } from "./places.js";
import type { Run } from "./run.js";
import { noteShared } from "./shared-values.js";
import type { State } from "./state.js";
import { anything, isScalar, join, type MemoryTarget, type Target, type Value } from "./value.js";

/** As many bytes of implied content are copied one by one. */
const MAX_BYTES = 1024;
/** As many places that the source may be are looked at. */
const MAX_SOURCES = 32;

const BYTE: Type = { kind: "integer", integer: { bits: 8, signed: false }, name: "uint8_t", bool: false };

/** `target = source` for aggregates of the same type. Where either is not one known place, the target is unknown. */
export function copyObject(run: Run, state: State, target: Place, source: Place): void {
  copyStretch(run, state, locate(run, state, target), locate(run, state, source), sizeOf(target.type));
}

/** One place of the source: cells from `offset` on. */
interface Source {
  readonly object: number;
  readonly stored: Value | Aggregate | undefined;
  readonly type: Type;
  readonly offset: number;
}

/** `size` bytes from one of the places `from` to the place `to`; what `to` may be is unknown where that is not one place. */
export function copyStretch(
  run: Run,
  state: State,
  to: readonly Target[] | null,
  from: readonly Target[] | null,
  size: number,
): void {
  const only = to?.length === 1 ? to[0] : undefined;
  const destination = only?.kind === "memory" && number.isSingle(only.offset) ? only : null;
  if (destination === null) {
    for (const place of to ?? []) if (place.kind === "memory") forget(state, place.object, place.variable.type);
    return;
  }
  const sources = sourcesOf(state, from);
  const { object, variable } = destination;
  if (sources === null) {
    forget(state, object, variable.type);
    return;
  }
  const whole = destination.offset.min === 0 && size >= sizeOf(variable.type);
  if (isScalar(variable.type) && !(state.memory.get(object) instanceof Aggregate)) {
    const value = whole ? joined(run, sources, 0, variable.type) : anything(variable.type);
    state.memory.set(object, value);
    noteShared(run, object, value);
    return;
  }
  const cells = layout(sources, size).map((cell) => ({ ...cell, value: joined(run, sources, cell.at, cell.type) }));
  const covered = new Set(
    cells.flatMap(({ at, type }) => Array.from({ length: sizeOf(type) }, (_, byte) => at + byte)),
  );
  const implied: { readonly at: number; readonly value: Value }[] = [];
  const blank = sources.every(
    ({ stored }) => stored instanceof Aggregate && stored.smear === null && stored.rest === "zero",
  );
  if (!whole || !blank) {
    for (let at = 0; at < Math.min(size, MAX_BYTES); at++) {
      if (!covered.has(at)) implied.push({ at, value: joined(run, sources, at, BYTE) });
    }
  }
  const into = state.ownAggregate(object);
  if (whole) {
    into.cells.clear();
    into.smear = null;
    into.rest = blank ? "zero" : "unknown";
  } else if (size > MAX_BYTES) into.rest = "unknown";
  const write = (at: number, type: Type, value: Value): void => {
    into.write(destination.offset.min + at, type, value);
    noteShared(run, object, value, { min: destination.offset.min + at, max: destination.offset.min + at, type });
  };
  for (const { at, value } of implied) write(at, BYTE, value);
  for (const { at, type, value } of cells) write(at, type, value);
}

/** Every place that the source may be; null where that is not known. */
function sourcesOf(state: State, from: readonly Target[] | null): Source[] | null {
  const found: Source[] = [];
  for (const place of from ?? []) {
    if (place.kind !== "memory" || place.offset.values === null) return null;
    for (const offset of place.offset.values) found.push(sourceAt(state, place, offset));
  }
  return found.length === 0 || found.length > MAX_SOURCES ? null : found;
}

function sourceAt(state: State, place: MemoryTarget, offset: number): Source {
  return { object: place.object, stored: state.memory.get(place.object), type: place.variable.type, offset };
}

/** Where cells lie in any of the sources, by offset from their start; where they overlap, the first one counts. */
function layout(sources: readonly Source[], size: number): { readonly at: number; readonly type: Type }[] {
  const found = new Map<number, Type>();
  const taken = new Set<number>();
  const take = (at: number, type: Type): void => {
    const bytes = Array.from({ length: sizeOf(type) }, (_, byte) => at + byte);
    if (at < 0 || at + sizeOf(type) > size || bytes.some((byte) => taken.has(byte))) return;
    for (const byte of bytes) taken.add(byte);
    found.set(at, type);
  };
  for (const { stored, type, offset } of sources) {
    if (stored instanceof Aggregate) for (const [at, cell] of stored.cells) take(at - offset, cell.type);
    else if (isScalar(type)) take(-offset, type);
  }
  return [...found].map(([at, type]) => ({ at, type }));
}

/** What lies `at` bytes behind the start of any source, read as `type`. */
function joined(run: Run, sources: readonly Source[], at: number, type: Type): Value {
  let value: Value | null = null;
  for (const source of sources) {
    const own = readSource(run, source, at, type);
    value = value === null ? own : join(value, own);
  }
  return value ?? anything(type);
}

function readSource(run: Run, { object, stored, type: own, offset }: Source, at: number, type: Type): Value {
  const alone = run.inInterrupt && !run.routinesNest;
  if (!alone) run.readVariables[Math.floor(object / 256)] = true;
  if (stored instanceof Aggregate) {
    const value = stored.read(offset + at, type);
    return alone ? value : run.leftInParts.joinedWith(value, object, offset + at, offset + at, type);
  }
  if (stored === undefined || !isScalar(own)) return anything(type);
  const left = alone ? undefined : run.interference.get(object);
  const cell: Cell = { value: left === undefined ? stored : join(stored, left), type: own };
  return new Aggregate(new Map([[0, cell]]), "unknown", null, {}).read(offset + at, type);
}
