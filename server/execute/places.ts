/** Places: where an expression points to, and reading and writing there. Law: a write to one of several places is weak. */
import type { Place, Variable } from "../program/ir.js";
import { sizeOf, type Type } from "../program/types.js";
import { dependent, through } from "./domain/dependence.js";
import * as number from "./domain/number.js";
import { evaluate } from "./evaluate.js";
import { readByte } from "./hardware/access.js";
import { havocHardware } from "./havoc.js";
import { Aggregate } from "./memory.js";
import { type RegisterWriteContext, readWholeWord, writeRegister } from "./register-writes.js";
import type { Run } from "./run.js";
import { partOf, reinterpret, withPart } from "./scalar-bytes.js";
import { noteShared } from "./shared-values.js";
import { absorbHardware, objectOf, type State } from "./state.js";
import {
  anything,
  isPointer,
  join,
  type MemoryTarget,
  OFFSET,
  type RegisterTarget,
  type Target,
  type Value,
} from "./value.js";

const ZERO = number.constant(0, OFFSET);
const MAX_PLACES = 64;

/** Every place the expression may name; null where it may be anywhere. */
export function locate(run: Run, state: State, place: Place): readonly Target[] | null {
  switch (place.op) {
    case "variable":
      return [
        { kind: "memory", object: objectOf(place.variable, state.depth), variable: place.variable, offset: ZERO },
      ];
    case "temporary": {
      const value = evaluate(run, state, place.value);
      const object = objectOf(place.variable, state.depth);
      state.memory.set(object, value);
      return [{ kind: "memory", object, variable: place.variable, offset: ZERO }];
    }
    case "register":
      return [{ kind: "register", address: number.constant(place.address, OFFSET) }];
    case "dereference": {
      const pointer = evaluate(run, state, place.pointer);
      return isPointer(pointer) ? pointer.targets : null;
    }
    case "index": {
      const base = locate(run, state, place.base);
      const index = evaluate(run, state, place.index);
      if (base === null || !("zeros" in index) || place.index.type.kind !== "integer") return null;
      const size = Math.max(1, sizeOf(place.type));
      let position = number.convert(index, place.index.type.integer, OFFSET);
      if (place.base.type.kind === "array" && place.base.type.length !== null) {
        // Beyond the array is undefined; a program that stays inside is described.
        const inside = number.range(0, Math.max(0, place.base.type.length - 1), OFFSET);
        position = dependent(number.meet(position, inside, OFFSET) ?? position, position.by);
      }
      const offset = number.mul(position, number.constant(size, OFFSET), OFFSET);
      return shifted(base, offset);
    }
    case "member": {
      const base = locate(run, state, place.base);
      return base === null
        ? null
        : place.field.offset === 0
          ? base
          : shifted(base, number.constant(place.field.offset, OFFSET));
    }
    case "nowhere":
      return null;
  }
}

export function shifted(targets: readonly Target[], by: number.AbstractInteger): Target[] {
  return targets.map((target): Target => {
    if (target.kind === "memory") return { ...target, offset: number.add(target.offset, by, OFFSET) };
    if (target.kind === "register") return { kind: "register", address: number.add(target.address, by, OFFSET) };
    return target;
  });
}

/** The value at a place. */
export function readPlace(run: Run, state: State, place: Place): Value {
  if (place.op === "variable")
    return isKept(place.variable)
      ? readVariable(run, state, objectOf(place.variable, state.depth), place.type)
      : anything(place.type);
  if (place.op === "register") {
    return place.type.kind === "integer" && place.type.integer.bits === 16
      ? readWholeWord(run, state, place.address)
      : readByte(state.machine, place.address);
  }
  if (place.op === "member" && place.field.bits !== undefined) return readBits(run, state, place);
  const targets = locate(run, state, place);
  return readTargets(run, state, targets, place.type);
}

/** Writes to a variable that is not kept are passed over (program/activity.ts): what memory holds of it may be stale. */
function isKept(variable: Variable): boolean {
  return variable.relevant || variable.volatile;
}

function readVariable(run: Run, state: State, object: number, type: Type): Value {
  const stored = state.memory.get(object);
  const value = stored === undefined ? anything(type) : stored instanceof Aggregate ? stored.read(0, type) : stored;
  // Nobody comes between what a routine does: its state is all there is.
  if (run.inInterrupt && !run.routinesNest) return value;
  run.readVariables[Math.floor(object / 256)] = true;
  const other = run.interference.get(object);
  return other === undefined ? value : join(value, other);
}

export function readTargets(run: Run, state: State, targets: readonly Target[] | null, type: Type): Value {
  if (targets === null || targets.length === 0) return anything(type);
  let result: Value | null = null;
  for (const target of targets) {
    const value = readTarget(run, state, target, type);
    result = result === null ? value : join(result, value);
  }
  return result ?? anything(type);
}

function readTarget(run: Run, state: State, target: Target, type: Type): Value {
  if (target.kind === "code") return anything(type);
  if (target.kind === "register") return readRegisters(run, state, target, type);
  if (!isKept(target.variable)) return anything(type);
  const stored = state.memory.get(target.object);
  if (stored === undefined) return anything(type);
  if (!(stored instanceof Aggregate)) {
    if (number.holdsOnly(target.offset, 0) && sizeOf(target.variable.type) === sizeOf(type)) {
      return reinterpret(readVariable(run, state, target.object, target.variable.type), target.variable.type, type);
    }
    const { type: whole } = target.variable;
    return partOf(readVariable(run, state, target.object, whole), whole, target.offset, type) ?? anything(type);
  }
  const offsets = positions(target.offset, Math.max(1, sizeOf(type)));
  run.readVariables[target.variable.id] = true;
  const shared = run.interference.get(target.object);
  if (shared !== undefined) {
    if (isPointer(shared) && offsets !== null) return anything(type);
    const { min, max } = target.offset;
    const own = readAll(stored, target.offset, type);
    return run.inInterrupt && !run.routinesNest ? own : run.leftInParts.joinedWith(own, target.object, min, max, type);
  }
  if (offsets === null) return byOffset(stored, target.offset, type, readAll(stored, target.offset, type));
  let result: Value | null = null;
  for (const offset of offsets) {
    const value = stored.read(offset, type);
    result = result === null ? value : join(result, value);
  }
  return byOffset(stored, target.offset, type, result ?? anything(type));
}

/** An element by a place that depends on a reading depends on it too, where every element is one number. */
function byOffset(stored: Aggregate, offset: number.AbstractInteger, type: Type, joined: Value): Value {
  if (offset.by === undefined || isPointer(joined)) return joined;
  const elements = new Map<number, number>();
  for (const place of new Set(offset.by.table() ?? [])) {
    const element = stored.read(place, type);
    if (isPointer(element) || element.min !== element.max || ("nan" in element && element.nan)) return joined;
    elements.set(place, element.min);
  }
  return elements.size === 0 ? joined : through(joined, offset, (place) => elements.get(place) ?? Number.NaN);
}

/** Offsets too many to list: every cell in the stretch, and what lies between. */
function readAll(stored: Aggregate, offset: number.AbstractInteger, type: Type): Value {
  let result: Value | null = null;
  const first = Math.max(0, offset.min);
  const last = Math.min(offset.max, 32767);
  for (const at of stored.differing(first, last, Math.max(1, sizeOf(type)))) {
    const value = stored.read(at, type);
    result = result === null || result === value ? value : join(result, value);
  }
  return result ?? anything(type);
}

/** The listed members of an offset, multiples of the stride they share; null where there are too many. */
function positions(offset: number.AbstractInteger, stride: number): readonly number[] | null {
  if (offset.values !== null) return offset.values;
  if ((offset.max - offset.min) / stride > MAX_PLACES) return null;
  const found: number[] = [];
  const free = trailingZeros(offset.zeros);
  const step = Math.max(1, 2 ** free);
  for (let at = offset.min; at <= offset.max; at += step) found.push(at);
  return found.length > MAX_PLACES * 4 ? null : found;
}

function trailingZeros(zeros: number): number {
  let count = 0;
  while (count < 8 && (zeros & (1 << count)) !== 0) count++;
  return count;
}

function readRegisters(run: Run, state: State, target: RegisterTarget, type: Type): Value {
  const addresses = positions(target.address, 1);
  if (addresses === null || type.kind !== "integer" || type.integer.bits > 16) return anything(type);
  let result: number.AbstractInteger | null = null;
  for (const address of addresses) {
    if (address < 0x20 || address >= state.machine.layout.size) return anything(type);
    const read = type.integer.bits === 16 ? readWholeWord(run, state, address) : readByte(state.machine, address);
    const seen = type.integer.signed
      ? number.convert(read, { bits: type.integer.bits, signed: false }, type.integer)
      : read;
    result = result === null ? seen : number.join(result, seen);
  }
  return result ?? anything(type);
}

/** Stores at a place; `context` says how, for writes that turn out to hit registers. */
export function writePlace(run: Run, state: State, place: Place, value: Value, context: RegisterWriteContext): void {
  if (place.op === "variable") {
    const object = objectOf(place.variable, state.depth);
    const present = state.memory.get(object);
    if (present instanceof Aggregate) state.ownAggregate(object).write(0, place.type, value);
    else state.memory.set(object, value);
    noteShared(run, object, value);
    return;
  }
  if (place.op === "register") {
    writeRegister(
      run,
      state,
      place.address,
      place.type.kind === "integer" && place.type.integer.bits === 16,
      value,
      context,
    );
    return;
  }
  if (place.op === "member" && place.field.bits !== undefined) {
    writeBits(run, state, place, value, context);
    return;
  }
  const targets = locate(run, state, place);
  writeTargets(run, state, targets, place.type, value, context);
}

export function writeTargets(
  run: Run,
  state: State,
  targets: readonly Target[] | null,
  type: Type,
  value: Value,
  context: RegisterWriteContext,
): void {
  if (targets === null) {
    run.gap("a write through a pointer that could point anywhere", context.start, context.end);
    havocHardware(run, state, context.start);
    havocReachable(run, state);
    return;
  }
  const strong = targets.length === 1;
  for (const target of targets) {
    if (target.kind === "memory") writeMemory(run, state, target, type, value, strong);
    else if (target.kind === "register") writeThroughPointer(run, state, target, type, value, strong, context);
  }
}

function writeMemory(run: Run, state: State, target: MemoryTarget, type: Type, value: Value, strong: boolean): void {
  const { object, variable } = target;
  const stored = state.memory.get(object);
  const scalar = variable.type.kind !== "array" && variable.type.kind !== "record";
  if (scalar && !(stored instanceof Aggregate)) {
    const fitting = number.holdsOnly(target.offset, 0) && sizeOf(variable.type) === sizeOf(type);
    const part = fitting || stored === undefined ? null : withPart(stored, variable.type, target.offset, type, value);
    const written = fitting ? reinterpret(value, type, variable.type) : (part ?? anything(variable.type));
    const kept =
      strong && (fitting || part !== null)
        ? written
        : stored === undefined
          ? anything(variable.type)
          : join(stored, written);
    state.memory.set(object, kept);
    noteShared(run, object, kept);
    return;
  }
  const aggregate = state.ownAggregate(object);
  const offsets = positions(target.offset, Math.max(1, sizeOf(type)));
  if (strong && offsets !== null && offsets.length === 1) aggregate.write(offsets[0]!, type, value);
  else if (offsets !== null && offsets.length <= 8) {
    for (const offset of offsets) aggregate.write(offset, type, join(aggregate.read(offset, type), value));
  } else aggregate.writeWeakly(target.offset.min, target.offset.max, type, value);
  noteShared(run, object, value, { min: target.offset.min, max: target.offset.max, type });
}

function writeThroughPointer(
  run: Run,
  state: State,
  target: RegisterTarget,
  type: Type,
  value: Value,
  strong: boolean,
  context: RegisterWriteContext,
): void {
  const addresses = positions(target.address, 1);
  const word = type.kind === "integer" && type.integer.bits === 16;
  if (addresses === null || (type.kind === "integer" && type.integer.bits > 16)) {
    run.gap("a write through a pointer to a register that is not known", context.start, context.end);
    havocHardware(run, state, context.start);
    return;
  }
  const unsigned =
    type.kind === "integer" && "zeros" in value
      ? number.convert(value, type.integer, { bits: type.integer.bits, signed: false })
      : value;
  if (strong && addresses.length === 1) {
    writeRegister(run, state, addresses[0]!, word, unsigned, context);
    return;
  }
  // One of several registers: on each path of the real program exactly one is written.
  const outcomes = addresses
    .filter((address) => address >= 0x20 && address < state.machine.layout.size)
    .map((address) => {
      const copy = state.fork();
      writeRegister(run, copy, address, word, unsigned, context);
      return copy;
    });
  for (const outcome of outcomes) absorbHardware(state, outcome);
}

/** Variables whose address was taken may have been changed. */
export function havocReachable(run: Run, state: State): void {
  for (const variable of run.program.globals) {
    if (variable.addressTaken && !variable.constant) forget(state, objectOf(variable, 0), variable.type);
  }
  for (const [object] of state.memory) {
    const variable = run.variables.get(Math.floor(object / 256));
    if (variable?.storage !== "global" && variable?.addressTaken === true) forget(state, object, variable.type);
  }
}

export function forget(state: State, object: number, type: Type): void {
  if (type.kind === "array" || type.kind === "record" || type.kind === "opaque") {
    state.memory.set(object, new Aggregate(new Map(), "unknown", null, state.token));
  } else state.memory.set(object, anything(type));
}

function readBits(run: Run, state: State, place: Extract<Place, { op: "member" }>): Value {
  const { shift, width } = place.field.bits!;
  const unit: number.IntegerType = { bits: shift + width <= 8 ? 8 : shift + width <= 16 ? 16 : 32, signed: false };
  const whole = readUnit(run, state, place, unit);
  const mask = width >= 32 ? 0xffffffff : 2 ** width - 1;
  const bits = number.and(number.shr(whole, number.constant(shift, unit), unit), number.constant(mask, unit), unit);
  if (place.type.kind !== "integer") return anything(place.type);
  if (!place.type.integer.signed || place.type.bool) return number.convert(bits, unit, place.type.integer);
  const wide: number.IntegerType = { bits: 32, signed: true };
  const up = number.constant(32 - width, wide);
  const extended = number.shr(number.shl(number.convert(bits, unit, wide), up, wide), up, wide);
  return number.convert(extended, wide, place.type.integer);
}

function readUnit(
  run: Run,
  state: State,
  place: Extract<Place, { op: "member" }>,
  unit: number.IntegerType,
): number.AbstractInteger {
  const value = readTargets(run, state, locate(run, state, place), {
    kind: "integer",
    integer: unit,
    name: "",
    bool: false,
  });
  return "zeros" in value ? value : number.top(unit);
}

function writeBits(
  run: Run,
  state: State,
  place: Extract<Place, { op: "member" }>,
  value: Value,
  context: RegisterWriteContext,
): void {
  const { shift, width } = place.field.bits!;
  const unit: number.IntegerType = { bits: shift + width <= 8 ? 8 : shift + width <= 16 ? 16 : 32, signed: false };
  const mask = ((width >= 32 ? 0xffffffff : 2 ** width - 1) * 2 ** shift) >>> 0;
  const full = unit.bits === 32 ? 0xffffffff : 2 ** unit.bits - 1;
  const targets = locate(run, state, place);
  const before = readUnit(run, state, place, unit);
  const given =
    "zeros" in value && place.type.kind === "integer"
      ? number.convert(value, place.type.integer, unit)
      : number.top(unit);
  const placed = number.and(number.shl(given, number.constant(shift, unit), unit), number.constant(mask, unit), unit);
  const after = number.or(number.and(before, number.constant((~mask & full) >>> 0, unit), unit), placed, unit);
  writeTargets(run, state, targets, { kind: "integer", integer: unit, name: "", bool: false }, after, context);
}
