/** The cells of one object in memory: scalars at byte offsets, with AVR's sizes and no padding. Little-endian. Law: reading gives back what was written last, or something that holds it. */
import { FLOAT, sizeOf, type Type } from "../program/types.js";
import * as number from "./domain/number.js";
import { anything, equal, join, type Value, zeroOf } from "./value.js";

export interface Cell {
  readonly value: Value;
  readonly type: Type;
}

/** Whoever holds this token may change the object in place. */
export type Token = object;

const BYTE: number.IntegerType = { bits: 8, signed: false };

/**
 * An array or record. Law: every byte of a real object is described by the cell over it, joined with `smear` where an
 * unknown index may have written, or by `rest` where no cell is.
 */
export class Aggregate {
  constructor(
    readonly cells: Map<number, Cell>,
    /** What bytes without a cell hold. */
    public rest: "zero" | "unknown",
    /** A value written at a place that is only known as a range of offsets. */
    public smear: { readonly min: number; readonly max: number; readonly cell: Cell } | null,
    public token: Token,
    /** A cell may depend on a reading (domain/dependence.ts). */
    public depends = false,
  ) {}

  copy(token: Token): Aggregate {
    return new Aggregate(new Map(this.cells), this.rest, this.smear, token, this.depends);
  }

  read(offset: number, type: Type): Value {
    const own = this.readExact(offset, type);
    const { smear } = this;
    if (smear === null) return own;
    const size = sizeOf(type);
    if (offset + size <= smear.min || offset >= smear.max) return own;
    return fits(smear.cell.type, type) ? join(own, view(smear.cell, type)) : anything(type);
  }

  /**
   * Of the places `first`, `first + stride` … up to `last`: all that a cell lies over, and of those without a cell one
   * within the smear and one outside of it, since they all read the same.
   */
  differing(first: number, last: number, stride: number): number[] {
    const over = new Set<number>();
    for (const [start, { type }] of this.cells) {
      const from = Math.max(first, first + Math.ceil((start - stride + 1 - first) / stride) * stride);
      for (let at = from; at < start + sizeOf(type) && at <= last; at += stride) over.add(at);
    }
    const found = [...over];
    const { min, max } = this.smear ?? { min: 0, max: 0 };
    let [within, outside] = [false, false];
    for (let at = first; at <= last && !(within && outside); at += stride) {
      if (over.has(at)) continue;
      const smeared = at + stride > min && at < max;
      if (smeared ? within : outside) {
        // The rest of a stretch in which nothing changes is passed over.
        if (this.smear === null) break;
        continue;
      }
      if (smeared) within = true;
      else outside = true;
      found.push(at);
    }
    return found;
  }

  private readExact(offset: number, type: Type): Value {
    const cell = this.cells.get(offset);
    if (cell !== undefined && fits(cell.type, type)) return view(cell, type);
    const size = sizeOf(type);
    if (cell === undefined && !this.overlapped(offset, size))
      return this.rest === "zero" ? zeroOf(type) : anything(type);
    return type.kind === "integer" ? this.assemble(offset, type) : anything(type);
  }

  private overlapped(offset: number, size: number): boolean {
    for (let at = offset - 7; at < offset + size; at++) {
      const cell = this.cells.get(at);
      if (cell !== undefined && at + sizeOf(cell.type) > offset) return true;
    }
    return false;
  }

  /** An integer out of the bytes of other cells. */
  private assemble(offset: number, type: Extract<Type, { kind: "integer" }>): Value {
    const size = sizeOf(type);
    if (size > 4) return anything(type);
    const wide: number.IntegerType = { bits: 32, signed: false };
    let value = number.constant(0, wide);
    for (let index = size - 1; index >= 0; index--) {
      const byte = number.convert(this.byteAt(offset + index), BYTE, wide);
      value = number.or(number.shl(value, number.constant(8, BYTE), wide), byte, wide);
    }
    return number.convert(value, wide, type.integer);
  }

  private byteAt(offset: number): number.AbstractInteger {
    for (let at = offset; at > offset - 8; at--) {
      const cell = this.cells.get(at);
      if (cell === undefined) continue;
      if (at + sizeOf(cell.type) <= offset) continue;
      if (cell.type.kind !== "integer" || !("zeros" in cell.value)) return number.top(BYTE);
      const shifted = number.shr(
        number.convert(cell.value, cell.type.integer, unsignedOf(cell.type.integer)),
        number.constant((offset - at) * 8, BYTE),
        unsignedOf(cell.type.integer),
      );
      return number.convert(shifted, unsignedOf(cell.type.integer), BYTE);
    }
    return this.rest === "zero" ? number.constant(0, BYTE) : number.top(BYTE);
  }

  write(offset: number, type: Type, value: Value): void {
    const size = sizeOf(type);
    const present = this.cells.get(offset);
    if (present === undefined || sizeOf(present.type) !== size) this.clear(offset, size);
    this.cells.set(offset, { value, type });
    if ("targets" in value || value.by !== undefined) this.depends = true;
  }

  /** Makes room: what cells there keep outside of the stretch is kept byte by byte. */
  private clear(offset: number, size: number): void {
    for (let at = offset - 7; at < offset + size; at++) {
      const cell = this.cells.get(at);
      if (cell === undefined) continue;
      const end = at + sizeOf(cell.type);
      if (end <= offset) continue;
      const kept: [number, number.AbstractInteger][] = [];
      for (let byte = at; byte < end; byte++) {
        if (byte < offset || byte >= offset + size) kept.push([byte, this.byteAt(byte)]);
      }
      this.cells.delete(at);
      for (const [byte, value] of kept)
        this.cells.set(byte, { value, type: { kind: "integer", integer: BYTE, name: "uint8_t", bool: false } });
    }
  }

  /** One of several places was written. */
  writeWeakly(min: number, max: number, type: Type, value: Value): void {
    const size = sizeOf(type);
    if (this.smear === null) this.smear = { min, max: max + size, cell: { value, type } };
    else {
      const { smear } = this;
      const joined: Cell = fits(smear.cell.type, type)
        ? { type: smear.cell.type, value: join(smear.cell.value, view({ value, type }, smear.cell.type)) }
        : { type: FLOAT, value: anything(FLOAT) };
      this.smear = { min: Math.min(smear.min, min), max: Math.max(smear.max, max + size), cell: joined };
    }
  }
}

function unsignedOf(type: number.IntegerType): number.IntegerType {
  return type.signed ? { bits: type.bits, signed: false } : type;
}

function fits(from: Type, to: Type): boolean {
  if (from.kind === "integer" && to.kind === "integer") return from.integer.bits === to.integer.bits;
  if (from.kind === "reference" || to.kind === "reference" || from.kind === "pointer" || to.kind === "pointer") {
    return (from.kind === "reference" || from.kind === "pointer") && (to.kind === "reference" || to.kind === "pointer");
  }
  return from.kind === to.kind;
}

/** A cell's content seen as another type of the same size. */
function view(cell: Cell, type: Type): Value {
  const { value } = cell;
  if (cell.type.kind === "integer" && type.kind === "integer") {
    if (!("zeros" in value)) return anything(type);
    if (cell.type.integer.signed === type.integer.signed) return value;
    return number.convert(value, cell.type.integer, type.integer);
  }
  return value;
}

/** Everything either may hold; null where the two do not fit together at all. */
export function joinAggregates(
  a: Aggregate,
  b: Aggregate,
  token: Token,
  combine: (before: Value, after: Value, type: Type) => Value,
): Aggregate {
  const cells = new Map<number, Cell>();
  for (const [offset, cell] of a.cells) {
    const other = b.read(offset, cell.type);
    cells.set(offset, cell.value === other ? cell : { type: cell.type, value: combine(cell.value, other, cell.type) });
  }
  for (const [offset, cell] of b.cells) {
    if (cells.has(offset)) continue;
    let covered = false;
    for (let at = offset - 7; at < offset + sizeOf(cell.type); at++) {
      const present = cells.get(at);
      if (present !== undefined && at + sizeOf(present.type) > offset) covered = true;
    }
    if (covered) continue;
    const other = a.read(offset, cell.type);
    cells.set(offset, { type: cell.type, value: combine(other, cell.value, cell.type) });
  }
  const rest = a.rest === "zero" && b.rest === "zero" ? "zero" : "unknown";
  const joined = new Aggregate(cells, rest, a.smear, token, a.depends || b.depends);
  if (b.smear !== null && b.smear !== a.smear) {
    joined.writeWeakly(b.smear.min, b.smear.max - sizeOf(b.smear.cell.type), b.smear.cell.type, b.smear.cell.value);
    if (a.smear !== null && joined.smear !== null) {
      joined.smear = {
        ...joined.smear,
        cell: {
          type: joined.smear.cell.type,
          value: combine(a.smear.cell.value, joined.smear.cell.value, joined.smear.cell.type),
        },
      };
    }
  }
  return joined;
}

export function equalAggregates(a: Aggregate, b: Aggregate): boolean {
  if (a === b) return true;
  if (a.rest !== b.rest || a.cells.size !== b.cells.size) return false;
  if (a.smear !== b.smear) {
    if (a.smear === null || b.smear === null) return false;
    if (a.smear.min !== b.smear.min || a.smear.max !== b.smear.max || !equal(a.smear.cell.value, b.smear.cell.value))
      return false;
  }
  for (const [offset, cell] of a.cells) {
    const other = b.cells.get(offset);
    if (other === undefined || !fits(cell.type, other.type) || !equal(cell.value, other.value)) return false;
  }
  return true;
}
