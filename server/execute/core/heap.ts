/**
 * `$new`, as lowered from new, malloc and calloc: its argument says how many objects that place in the text has made
 * before. Law: no two pointers that it gives name the same object.
 */
import * as number from "../domain/number.js";
import { forget } from "../places.js";
import { objectOf } from "../state.js";
import { OFFSET, type Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";

/** As many objects of one place in the text are told apart; pointers to further ones may point anywhere. */
const MAX_OBJECTS = 200;

function make(call: CoreCall): Value | null {
  const { run, state, values, expression } = call;
  const count = values[0];
  const place = expression.self;
  if (place?.op !== "variable" || count === undefined || !("zeros" in count)) return null;
  if (!number.isSingle(count) || count.min >= MAX_OBJECTS) return null;
  const { variable } = place;
  run.variables.set(variable.id, variable);
  const object = objectOf(variable, count.min);
  forget(state, object, variable.type);
  return { targets: [{ kind: "memory", object, variable, offset: number.constant(0, OFFSET) }], mayBeNull: false };
}

export const heapModels: Readonly<Record<string, Model>> = { $new: make };
