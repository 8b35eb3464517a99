/** Places: how a member, an element or what a pointer refers to is named, and what their addresses are. */
import type { Expression, Field, Place, RecordType, Stretch, Variable } from "./ir.js";
import { INT16, type Type } from "./types.js";

export function memberOf(base: Place, field: RecordType["fields"][number]): Place {
  return { op: "member", base, field, type: field.type, start: base.start, end: base.end };
}

export function elementOf(base: Place, index: number): Place {
  const type: Type = base.type.kind === "array" ? base.type.of : base.type;
  return {
    op: "index",
    base,
    index: { op: "integer", value: index, type: INT16, start: base.start, end: base.end },
    type,
    start: base.start,
    end: base.end,
  };
}

export function addressOf(place: Place): Expression {
  markAddressTaken(place);
  return { op: "address", place, type: { kind: "pointer", to: place.type }, start: place.start, end: place.end };
}

/** The part of `place` that is its base class at some depth; null where it has none such. */
export function baseWithin(place: Place, wanted: RecordType): Place | null {
  if (place.type.kind !== "record") return null;
  if (place.type.record === wanted) return place;
  for (const base of place.type.record.bases) {
    const found = baseWithin(memberOf(place, baseField(base)), wanted);
    if (found !== null) return found;
  }
  return null;
}

/** A base class as if it were a member. */
export function baseField({ record, offset }: RecordType["bases"][number]): Field {
  return { name: record.name, type: { kind: "record", record }, offset };
}

/** The object as a method of the class `home` gets it. */
export function selfFor(object: Place, home: RecordType | null): Expression {
  return addressOf((home === null ? null : baseWithin(object, home)) ?? object);
}

/** What the pointer in `holder` refers to. */
export function behind(holder: Place, to: Type, node: Stretch): Place {
  const { start, end } = node;
  const type: Type = { kind: "pointer", to };
  const pointer: Expression = { op: "load", place: { ...holder, type }, type, start, end };
  return { op: "dereference", pointer, type: to, start, end };
}

/** The member `field` that the class `home` declares; one that is a reference stands for what it refers to. */
export function fieldOf(object: Place, home: RecordType, field: Field, node: Stretch): Place {
  const place: Place = { ...memberOf(baseWithin(object, home) ?? object, field), start: node.start, end: node.end };
  return place.type.kind === "reference" ? behind(place, place.type.to, node) : place;
}

/** The place of a variable; a reference's place is what it refers to. */
export function placeOf(variable: Variable, start: number, end: number): Place {
  const place: Place = { op: "variable", variable, type: variable.type, start, end };
  return variable.type.kind === "reference" ? behind(place, variable.type.to, place) : place;
}

export function isPlace(expression: Expression): expression is Place {
  return PLACES.has(expression.op);
}

/** Places behind values that were made of them: of what is kept as written, and of choices between two places. */
const placesBehind = new WeakMap<Expression, () => Place | null>();

/** `place` is asked only where the place is wanted: it marks what may be reached through pointers. */
export function rememberPlace(value: Expression, place: () => Place | null): void {
  placesBehind.set(value, place);
}

/** The place that the expression names, also where it has been read already; null for plain values. */
export function namedPlace(expression: Expression): Place | null {
  return isPlace(expression) ? expression : (placesBehind.get(expression)?.() ?? null);
}

const PLACES = new Set(["variable", "register", "dereference", "index", "member", "temporary", "nowhere"]);

/** Marks what a pointer to this place could reach. */
export function markAddressTaken(place: Place): void {
  switch (place.op) {
    case "variable":
      place.variable.addressTaken = true;
      break;
    case "index":
    case "member":
      markAddressTaken(place.base);
      break;
    default:
  }
}
