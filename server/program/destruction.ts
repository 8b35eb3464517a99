/** The end of objects: destructors of locals run where their block is left, whichever way. */
import { callFunction } from "./call-statement.js";
import type { Place, RecordType } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { addressOf, baseField, elementOf, memberOf } from "./places.js";

/** What a block, loop or switch of the function has to clear away. */
export interface Cleanup {
  /** What a break or a continue leaves by. */
  readonly kind: "block" | "loop" | "switch";
  readonly objects: Place[];
}

/** Lowers the inside of a block, loop or switch; objects declared there end with it. */
export function withCleanup(run: Lowering, body: Body, kind: Cleanup["kind"], work: () => void): void {
  const cleanup: Cleanup = { kind, objects: [] };
  body.cleanups.push(cleanup);
  work();
  destroyAll(run, body, cleanup);
  body.cleanups.pop();
}

/** A local that has come to life. */
export function remember(run: Lowering, body: Body, place: Place): void {
  if (needsDestruction(run, place.type)) body.cleanups[body.cleanups.length - 1]?.objects.push(place);
}

/** Destructors on the way out: of everything up to the nearest loop, loop or switch, or of the whole function. */
export function leave(run: Lowering, body: Body, by: "return" | "break" | "continue"): void {
  for (const cleanup of [...body.cleanups].reverse()) {
    destroyAll(run, body, cleanup);
    if (by !== "return" && (cleanup.kind === "loop" || (by === "break" && cleanup.kind === "switch"))) return;
  }
}

/** Whether leaving the function by a return runs anything. */
export function leavesObjects(body: Body): boolean {
  return body.cleanups.some(({ objects }) => objects.length > 0);
}

function destroyAll(run: Lowering, body: Body, cleanup: Cleanup): void {
  for (const place of [...cleanup.objects].reverse()) destroy(run, body, place);
}

/** The class's own destructor, then its members in reverse, then its bases. */
export function destroy(run: Lowering, body: Body, place: Place): void {
  const { type } = place;
  if (!needsDestruction(run, type)) return;
  if (type.kind === "array") {
    for (let index = (type.length ?? 0) - 1; index >= 0; index--) destroy(run, body, elementOf(place, index));
    return;
  }
  if (type.kind !== "record") return;
  const symbol = run.records.get(type.record)?.destructor;
  if (symbol?.body != null) callFunction(run, body, symbol, [], addressOf(place), place);
  for (const field of [...type.record.fields].reverse()) {
    if (field.bits === undefined) destroy(run, body, memberOf(place, field));
  }
  for (const base of [...type.record.bases].reverse()) {
    destroy(run, body, memberOf(place, baseField(base)));
  }
}

function needsDestruction(run: Lowering, type: Place["type"]): boolean {
  if (type.kind === "array") return needsDestruction(run, type.of);
  return type.kind === "record" && recordNeedsDestruction(run, type.record);
}

function recordNeedsDestruction(run: Lowering, record: RecordType): boolean {
  return (
    (run.records.get(record)?.destructor?.body?.children.some((part) => part.named) ?? false) ||
    record.bases.some((base) => recordNeedsDestruction(run, base.record)) ||
    record.fields.some((field) => needsDestruction(run, field.type))
  );
}
