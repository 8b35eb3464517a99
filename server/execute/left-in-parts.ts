/** What interrupt routines leave in members and elements. Law: whoever reads a stretch of an object is given everything that any routine may have left in it. */
import { sizeOf, type Type } from "../program/types.js";
import { reinterpret } from "./scalar-bytes.js";
import { anything, equal, join, type Value, widen } from "./value.js";

/** One kind of write: cells of `type` that begin at offsets from `min` to `max`. */
interface Part {
  readonly min: number;
  readonly max: number;
  readonly type: Type;
  value: Value;
  rounds: number;
}

/** Kinds of writes kept apart for one object; beyond it any of its bytes may hold anything. */
const MOST_PARTS = 64;
/** Values grow so often before they widen. */
const ROUNDS = 4;

export class LeftInParts {
  /** Null: anything anywhere. */
  private readonly objects = new Map<number, Part[] | null>();

  /** True where more is known to be left than before. */
  leave(object: number, min: number, max: number, type: Type, value: Value): boolean {
    const parts = this.objects.get(object);
    if (parts === null) return false;
    if (parts === undefined) {
      this.objects.set(object, [{ min, max, type, value, rounds: 0 }]);
      return true;
    }
    const present = parts.find((part) => part.min === min && part.max === max && part.type === type);
    if (present === undefined) {
      if (parts.length < MOST_PARTS) parts.push({ min, max, type, value, rounds: 0 });
      else this.objects.set(object, null);
      return true;
    }
    const joined = join(present.value, value);
    if (equal(joined, present.value)) return false;
    present.rounds++;
    present.value = present.rounds > ROUNDS ? widen(present.value, joined, present.rounds, type) : joined;
    return true;
  }

  /** `value` joined with what may have been left in a cell of `type` that begins at an offset from `min` to `max`. */
  joinedWith(value: Value, object: number, min: number, max: number, type: Type): Value {
    const parts = this.objects.get(object);
    if (parts === undefined) return value;
    if (parts === null) return anything(type);
    let result = value;
    for (const part of parts) {
      if (part.max + sizeOf(part.type) <= min || part.min >= max + sizeOf(type)) continue;
      // A cell that begins elsewhere is written in part.
      const whole = sizeOf(part.type) === sizeOf(type) && onOneGrid(part, min, max);
      const left = whole ? reinterpret(part.value, part.type, type) : anything(type);
      result = join(result, left);
    }
    return result;
  }

  carryOver(earlier: LeftInParts): void {
    for (const [object, parts] of earlier.objects)
      this.objects.set(object, parts === null ? null : parts.map((part) => ({ ...part })));
  }
}

/** Whether both lie on one grid of cells, so that they meet wholly or not at all. */
function onOneGrid(part: Part, min: number, max: number): boolean {
  const size = sizeOf(part.type);
  return [part.min, part.max, max].every((at) => (at - min) % size === 0);
}
