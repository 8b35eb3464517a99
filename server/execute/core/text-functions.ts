/**
 * The C library's functions on texts: lengths and comparisons where the texts are known, pointers into the text that was
 * searched, copies. Source: avr-libc string.h, stdlib.h.
 */
import { sizeOf, type Type } from "../../program/types.js";
import * as number from "../domain/number.js";
import { readTargets, writeTargets } from "../places.js";
import { coreContext } from "../register-writes.js";
import { isPointer, type MemoryTarget, OFFSET, type Target, type Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";
import { forgetTargets } from "./memory-functions.js";

const CHAR: Type = { kind: "integer", integer: { bits: 8, signed: true }, name: "char", bool: false };
const INT: number.IntegerType = { bits: 16, signed: true };
const SIZE: number.IntegerType = { bits: 16, signed: false };
const LONG: number.IntegerType = { bits: 32, signed: true };
/** As many characters of a text are read one by one. */
const MAX_TEXT = 256;

/** The characters before the terminator, as far as `most`; null where one of them is not known. */
function textAt(call: CoreCall, value: Value | undefined, most = MAX_TEXT): number[] | null {
  if (value === undefined || !isPointer(value) || value.targets?.length !== 1 || value.mayBeNull) return null;
  const [target] = value.targets;
  if (target?.kind !== "memory" || !number.isSingle(target.offset)) return null;
  const found: number[] = [];
  while (found.length < most) {
    const read = readTargets(call.run, call.state, [behind(target, found.length)], CHAR);
    if (!("zeros" in read) || !number.isSingle(read)) return null;
    if (read.min === 0) return found;
    found.push(read.min & 0xff);
  }
  return most < MAX_TEXT ? found : null;
}

function behind(target: MemoryTarget, by: number): MemoryTarget {
  return { ...target, offset: number.add(target.offset, number.constant(by, OFFSET), OFFSET) };
}

function strlen(call: CoreCall): Value | null {
  const text = textAt(call, call.values[0]);
  return text === null ? null : number.constant(text.length, SIZE);
}

/** 0 where both are the same, else the difference of the first characters that differ. */
function compare(fold: (code: number) => number): Model {
  return (call) => {
    const limit = call.values[2];
    if (limit !== undefined && (!("zeros" in limit) || !number.isSingle(limit))) return null;
    const most = limit === undefined ? MAX_TEXT : Math.min(limit.min, MAX_TEXT - 1);
    const a = textAt(call, call.values[0], most);
    const b = textAt(call, call.values[1], most);
    if (a === null || b === null) return null;
    for (let at = 0; at < most; at++) {
      const difference = fold(a[at] ?? 0) - fold(b[at] ?? 0);
      if (difference !== 0 || a[at] === undefined) return number.constant(difference, INT);
    }
    return number.constant(0, INT);
  };
}

const plain = (code: number): number => code;
const lower = (code: number): number => (code >= 0x41 && code <= 0x5a ? code + 0x20 : code);

function number10(call: CoreCall): Value | null {
  const text = textAt(call, call.values[0]);
  if (text === null) return null;
  const digits = /^\s*([+-]?\d+)/.exec(String.fromCharCode(...text));
  const value = digits === null ? 0 : Number(digits[1]);
  if (Math.abs(value) > 0x7fffffff) return null;
  const wide = number.constant(value, LONG);
  return call.name === "atoi" ? number.convert(wide, LONG, INT) : wide;
}

/** A pointer into the text that was searched, or none. */
function search(call: CoreCall): Value | null {
  const text = call.values[0];
  if (text === undefined || !isPointer(text)) return null;
  const known = call.name === "strchr" || call.name === "strrchr" ? textAt(call, text) : null;
  const wanted = call.values[1];
  if (known !== null && wanted !== undefined && "zeros" in wanted && number.isSingle(wanted)) {
    const code = wanted.min & 0xff;
    const at = code === 0 ? known.length : call.name === "strchr" ? known.indexOf(code) : known.lastIndexOf(code);
    if (at < 0) return { targets: [], mayBeNull: true };
    return { targets: (text.targets as readonly MemoryTarget[]).map((each) => behind(each, at)), mayBeNull: false };
  }
  return { targets: somewhereIn(text.targets), mayBeNull: true };
}

function somewhereIn(targets: readonly Target[] | null): Target[] | null {
  if (targets === null) return null;
  return targets.map((target) => {
    if (target.kind !== "memory") return target;
    const last = Math.max(target.offset.max, sizeOf(target.variable.type) - 1);
    return { ...target, offset: number.range(Math.max(0, target.offset.min), Math.max(0, last), OFFSET) };
  });
}

/** Cuts the text into words: writes terminators into it, answers with a place in it. Without a text it goes on with the last one. */
function strtok(call: CoreCall): Value | null {
  const text = call.values[0];
  if (text === undefined || !isPointer(text)) return null;
  const isNew = text.targets === null || text.targets.length > 0;
  const targets = isNew ? text.targets : call.state.core.tokens;
  forgetTargets(call.run, call.state, targets, call.expression.start);
  call.state.core = { ...call.state.core, tokens: targets };
  return { targets: somewhereIn(targets), mayBeNull: true };
}

function strcpy(call: CoreCall): Value | null {
  const { run, state, values, expression } = call;
  const target = values[0];
  if (target === undefined || !isPointer(target)) return null;
  const text = textAt(call, values[1]);
  const only = target.targets?.length === 1 ? target.targets[0] : undefined;
  const from = call.name.startsWith("strcat") ? (textAt(call, target)?.length ?? null) : 0;
  if (text === null || from === null || only?.kind !== "memory" || !number.isSingle(only.offset)) {
    forgetTargets(run, state, target.targets, expression.start);
    return target;
  }
  for (const [index, code] of [...text, 0].entries()) {
    const value = number.constant((code << 24) >> 24, { bits: 8, signed: true });
    writeTargets(run, state, [behind(only, from + index)], CHAR, value, coreContext(expression.start, expression.end));
  }
  return target;
}

export const textModels: Readonly<Record<string, Model>> = {
  strlen,
  strlen_P: strlen,
  strcmp: compare(plain),
  strcmp_P: compare(plain),
  strncmp: compare(plain),
  strcasecmp: compare(lower),
  atoi: number10,
  atol: number10,
  strchr: search,
  strrchr: search,
  strstr: search,
  strpbrk: search,
  memchr: search,
  strtok,
  strcpy,
  strcpy_P: strcpy,
  strcat: strcpy,
  strcat_P: strcpy,
};
