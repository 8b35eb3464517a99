/** Variables that interrupt routines and the main program share. Law: whatever one side leaves in them is known to the other. */
import type { Type } from "../program/types.js";
import type { Run } from "./run.js";
import type { Value } from "./value.js";

/** Cells of `type` that begin at offsets from `min` to `max` of a record or an array. */
interface Stretch {
  readonly min: number;
  readonly max: number;
  readonly type: Type;
}

/** What an interrupt routine leaves in a variable may be seen by everyone else. */
export function noteShared(run: Run, object: number, value: Value, part?: Stretch): void {
  // Locals of a routine die with it; what was made by new lives on.
  if (!run.inInterrupt && run.program.interrupts.length === 0) return;
  if (object % 256 !== 0 && run.variables.get(Math.floor(object / 256))?.storage !== "heap") return;
  if (run.inInterrupt) {
    run.interfere(object, value);
    if (part !== undefined) run.interfereInPart(object, part.min, part.max, part.type, value);
  } else run.mainLeaves(object, value);
}
