/** memcpy, memset and their like, and every other function that writes through a pointer it is given. Source: avr-libc string.h. */

import { CORE_FUNCTIONS } from "../../program/core-functions.js";
import type { Type } from "../../program/types.js";
import { copyStretch } from "../copy-object.js";
import * as number from "../domain/number.js";
import { BYTE } from "../hardware/machine.js";
import { forget, havocReachable, writeTargets } from "../places.js";
import { coreContext } from "../register-writes.js";
import type { Run } from "../run.js";
import type { State } from "../state.js";
import { isPointer, type MemoryTarget, OFFSET, type Target, type Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";

const BYTE_TYPE: Type = { kind: "integer", integer: BYTE, name: "uint8_t", bool: false };
/** As many bytes are copied one by one; beyond it the destination is unknown. */
const MAX_BYTES = 256;

/** Whatever the pointers may reach holds anything afterwards. */
export function forgetTargets(run: Run, state: State, targets: readonly Target[] | null, start: number): void {
  if (targets === null) {
    run.gap("a buffer that could be anywhere is written", start, start);
    havocReachable(run, state);
    return;
  }
  for (const target of targets) {
    if (target.kind === "memory" && !target.variable.constant) forget(state, target.object, target.variable.type);
  }
}

/** For functions without a model of their own: the buffers they are given are unknown afterwards. */
export function forgetBuffers(call: CoreCall): void {
  if (CORE_FUNCTIONS.get(call.name)?.effect !== "memory") return;
  const isWritten = WRITTEN_ARGUMENTS[call.name] ?? ((index: number) => index === 0);
  for (const [index, value] of call.values.entries()) {
    if (call.expression.arguments[index]?.type.kind !== "pointer" || !isWritten(index) || !isPointer(value)) continue;
    forgetTargets(call.run, call.state, value.targets, call.expression.start);
  }
}

/** Which arguments are written, where it is not the first alone. */
const WRITTEN_ARGUMENTS: Readonly<Record<string, (index: number) => boolean>> = {
  sscanf: (index) => index >= 2,
  strtok_r: (index) => index === 0 || index === 2,
  itoa: (index) => index === 1,
  utoa: (index) => index === 1,
  ltoa: (index) => index === 1,
  ultoa: (index) => index === 1,
  dtostrf: (index) => index === 3,
  dtostre: (index) => index === 1,
};

function only(value: Value | undefined): MemoryTarget | null {
  if (value === undefined || !isPointer(value) || value.targets?.length !== 1) return null;
  const [target] = value.targets;
  return target?.kind === "memory" && number.isSingle(target.offset) ? target : null;
}

function count(value: Value | undefined): number | null {
  return value !== undefined && "zeros" in value && number.isSingle(value) && value.min <= MAX_BYTES ? value.min : null;
}

function at(target: MemoryTarget, index: number): MemoryTarget {
  return { ...target, offset: number.add(target.offset, number.constant(index, OFFSET), OFFSET) };
}

function memset(call: CoreCall): Value | null {
  const { run, state, values, expression } = call;
  const target = only(values[0]);
  const length = count(values[2]);
  if (target === null || length === null) {
    forgetBuffers(call);
    return values[0] ?? null;
  }
  const given = values[1];
  const byte =
    given !== undefined && "zeros" in given
      ? number.convert(given, { bits: 16, signed: true }, BYTE)
      : number.top(BYTE);
  for (let index = 0; index < length; index++) {
    writeTargets(run, state, [at(target, index)], BYTE_TYPE, byte, coreContext(expression.start, expression.end));
  }
  return values[0] ?? null;
}

function memcpy(call: CoreCall): Value | null {
  const { run, state, values, expression } = call;
  const [target, source] = values;
  if (target === undefined || source === undefined || !isPointer(target) || !isPointer(source)) return null;
  const length = count(values[2]);
  if (length === null || target.targets === null || target.targets.some((each) => each.kind !== "memory")) {
    forgetTargets(run, state, target.targets, expression.start);
  } else copyStretch(run, state, target.targets, source.targets, length);
  return target;
}

export const memoryModels: Readonly<Record<string, Model>> = {
  memset,
  memcpy,
  memmove: memcpy,
  memcpy_P: memcpy,
};
