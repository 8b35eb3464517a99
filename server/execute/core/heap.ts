/**
 * `$new`, as lowered from new, malloc and calloc: its argument says how many objects that place in the text has made
 * before. Law: no two pointers that it gives name the same object, but for two objects of which nothing is ever known.
 */
import * as number from "../domain/number.js";
import { forget } from "../places.js";
import { objectOf } from "../state.js";
import { OFFSET, type Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";

/** As many objects of one place in the text are told apart; all further ones are one of two that nothing is known of. */
const MAX_OBJECTS = 200;

function make(call: CoreCall): Value | null {
  const { run, state, values, expression } = call;
  const count = values[0];
  const place = expression.self;
  if (place?.op !== "variable" || count === undefined || !("zeros" in count)) return null;
  const { variable } = place;
  run.variables.set(variable.id, variable);
  const known = number.isSingle(count) && count.min < MAX_OBJECTS;
  // Writing through a pointer to either of two leaves both as unknown as they are.
  const objects = (known ? [count.min] : [MAX_OBJECTS, MAX_OBJECTS + 1]).map((nth) => objectOf(variable, nth));
  for (const object of objects) forget(state, object, variable.type);
  return {
    targets: objects.map((object) => ({ kind: "memory", object, variable, offset: number.constant(0, OFFSET) })),
    mayBeNull: false,
  };
}

export const heapModels: Readonly<Record<string, Model>> = { $new: make };
