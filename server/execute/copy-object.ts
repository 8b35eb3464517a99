/** Copying whole records and arrays, cell by cell. */
import type { Place } from "../program/ir.js";
import { sizeOf, type Type } from "../program/types.js";
import * as number from "./domain/number.js";
import { Aggregate } from "./memory.js";
import { forget, locate } from "./places.js";
import type { Run } from "./run.js";
import type { State } from "./state.js";
import { anything, join, type MemoryTarget, type Value, zeroOf } from "./value.js";

/** As many bytes of implied content are copied one by one. */
const MAX_BYTES = 1024;

/** `target = source` for aggregates of the same type. Where either is not one known place, the target is unknown. */
export function copyObject(run: Run, state: State, target: Place, source: Place): void {
  const to = locate(run, state, target);
  const from = locate(run, state, source);
  const only = to?.length === 1 ? to[0] : undefined;
  const destination = only?.kind === "memory" ? only : null;
  if (destination === null || !number.isSingle(destination.offset)) {
    for (const place of to ?? []) if (place.kind === "memory") forget(state, place.object, place.variable.type);
    return;
  }
  const sources = (from ?? []).filter((place): place is MemoryTarget => place.kind === "memory");
  const size = sizeOf(target.type);
  const list = sources.flatMap((place) => offsetsOf(place).map((offset) => ({ object: place.object, offset })));
  const into = state.ownAggregate(destination.object);
  if (from === null || list.length === 0 || list.length > 32) {
    into.cells.clear();
    into.rest = "unknown";
    return;
  }
  const at = destination.offset.min;
  const [first, ...others] = list;
  const cells = cellsOf(state, first!.object, first!.offset, size);
  if (cells === null) {
    forget(state, destination.object, destination.variable.type);
    return;
  }
  if (into.cells.size === 0 || size >= sizeOf(destination.variable.type)) {
    into.rest = restOf(state, first!.object);
    into.smear = null;
    if (size >= sizeOf(destination.variable.type)) into.cells.clear();
  }
  // What the source holds without a cell of its own comes along too.
  const blank = restOf(state, first!.object);
  if (into.cells.size > 0) {
    const byte: Type = { kind: "integer", integer: { bits: 8, signed: false }, name: "uint8_t", bool: false };
    const filler = blank === "zero" && others.length === 0 ? zeroOf(byte) : anything(byte);
    for (let index = 0; index < size && index < MAX_BYTES; index++) into.write(at + index, byte, filler);
    if (size > MAX_BYTES) into.rest = "unknown";
  }
  for (const [offset, cell] of cells) {
    let value = cell.value;
    for (const other of others) {
      const stored = state.memory.get(other.object);
      if (stored instanceof Aggregate) value = join(value, stored.read(other.offset + offset, cell.type));
    }
    into.write(at + offset, cell.type, value);
  }
}

function restOf(state: State, object: number): "zero" | "unknown" {
  const stored = state.memory.get(object);
  return stored instanceof Aggregate ? stored.rest : "unknown";
}

function offsetsOf(place: MemoryTarget): readonly number[] {
  return place.offset.values ?? [];
}

/** The cells of a stretch of an object, by offset from its start; null where the object is not cells. */
function cellsOf(
  state: State,
  object: number,
  offset: number,
  size: number,
): [number, { value: Value; type: Type }][] | null {
  const stored = state.memory.get(object);
  if (!(stored instanceof Aggregate) || stored.smear !== null) return null;
  const found: [number, { value: Value; type: Type }][] = [];
  for (const [at, cell] of stored.cells) {
    if (at >= offset && at < offset + size) found.push([at - offset, cell]);
  }
  return found;
}
