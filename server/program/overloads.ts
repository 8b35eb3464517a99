/** Which of several functions of a name is meant (C++11 13.3, as costs). */

import type { SyntaxNode } from "../parse/syntax.js";
import type { Expression, RecordType } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { namedPlace } from "./places.js";
import { scopeOfType } from "./qualified-names.js";
import type { FunctionSymbol } from "./scope.js";
import { signatureOf } from "./signatures.js";
import { anything } from "./stand-ins.js";
import { instantiateFunction } from "./templates.js";
import { NO_SUCH_MEMBER } from "./type-syntax.js";
import { decayed, promoted, referred, sameType, type Type } from "./types.js";

/** The overload that needs the cheapest conversions; null where none fits. Templates are instantiated last. */
export function chooseOverload(
  run: Lowering,
  set: readonly FunctionSymbol[],
  args: readonly Expression[],
  explicit: SyntaxNode | null | undefined,
  body?: Body,
): FunctionSymbol | null {
  let best: FunctionSymbol | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const symbol of set) {
    let candidate = symbol;
    if (symbol.template !== null) {
      const instance = instantiateFunction(run, symbol, args, explicit ?? undefined, body?.scope ?? symbol.scope);
      if (instance === null || isRuledOut(run, instance)) continue;
      candidate = instance;
    } else if (explicit !== null && explicit !== undefined) continue;
    const cost = costOf(run, candidate, args) + (symbol.template !== null ? 0.5 : 0);
    if (cost < bestCost) {
      best = candidate;
      bestCost = cost;
    }
  }
  return best;
}

/** Whether a type of the signature does not exist for these arguments (C++11 14.8.2). */
function isRuledOut(run: Lowering, instance: FunctionSymbol): boolean {
  const { returns, parameters } = signatureOf(run, instance);
  const lacking = (type: Type | null): boolean =>
    type !== null &&
    (type.kind === "pointer" || type.kind === "reference" ? lacking(type.to) : type === NO_SUCH_MEMBER);
  return lacking(returns) || parameters.some(({ type }) => lacking(type));
}

function costOf(run: Lowering, symbol: FunctionSymbol, args: readonly Expression[]): number {
  const { parameters, variadic } = signatureOf(run, symbol);
  if (args.length > parameters.length && !variadic) return Number.POSITIVE_INFINITY;
  for (let index = args.length; index < parameters.length; index++) {
    if (parameters[index]!.fallback === null) return Number.POSITIVE_INFINITY;
  }
  let cost = 0;
  for (const [index, argument] of args.entries()) {
    const parameter = parameters[index];
    cost += parameter === undefined ? 5 : conversionCost(run, argument, parameter.type);
  }
  return cost;
}

function conversionCost(run: Lowering, argument: Expression, to: Type): number {
  const from = decayed(argument.type);
  const target = referred(to);
  const enumerations = enumerationCost(from, target);
  if (enumerations !== null) return enumerations;
  if (sameType(from, target) || sameType(argument.type, target)) return 0;
  if (from.kind === "opaque" || target.kind === "opaque") return from.kind === target.kind ? 2 : 6;
  if (from.kind === "integer" && target.kind === "integer") {
    if (to.kind === "reference" && namedPlace(argument) !== null) return 4;
    return sameType(promoted(from), target) ? 1 : 2;
  }
  if (from.kind === "float" && target.kind === "float") return 0;
  if ((from.kind === "integer" && target.kind === "float") || (from.kind === "float" && target.kind === "integer"))
    return 2.5;
  if (from.kind === "pointer" && target.kind === "pointer")
    return target.to.kind === "void" || from.to.kind === "void" ? 2 : 3;
  if (from.kind === "pointer" && target.kind === "integer") return target.bool ? 4 : 50;
  if (from.kind === "integer" && target.kind === "pointer")
    return argument.op === "integer" && argument.value === 0 ? 3 : 50;
  if (from.kind === "record" && target.kind === "record")
    return derives(from.record, target.record) ? 1.5 : Number.POSITIVE_INFINITY;
  if (target.kind === "record") {
    const info = run.records.get(target.record);
    return info?.constructors.some((candidate) => {
      const only = signatureOf(run, candidate).parameters;
      return only.length === 1 && referred(only[0]!.type).kind !== "record";
    })
      ? 8
      : Number.POSITIVE_INFINITY;
  }
  if (from.kind === "record")
    return scopeOfType(run, from)?.own("(conversion)") === undefined ? Number.POSITIVE_INFINITY : 8;
  return 20;
}

/** A number becomes no enumeration by itself, and a scoped enumeration no number: the compiler takes it for want of better. */
function enumerationCost(from: Type, to: Type): number | null {
  const given = from.kind === "integer" ? from.enumeration : undefined;
  const wanted = to.kind === "integer" ? to.enumeration : undefined;
  if (given === wanted) return given === undefined ? null : 0;
  if (wanted !== undefined) return 30;
  return given?.scoped === true && (to.kind === "integer" || to.kind === "float") ? 30 : null;
}

/** The conversion operator whose result is nearest to the type that is wanted. */
export function chooseConversion(run: Lowering, set: readonly FunctionSymbol[], wanted: Type): FunctionSymbol | null {
  let best: FunctionSymbol | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const symbol of set) {
    const type = referred(signatureOf(run, symbol).returns ?? wanted);
    const cost = symbol.template !== null ? 100 : conversionCost(run, anything({ start: 0, end: 0 }, type), wanted);
    if (cost < bestCost) {
      best = symbol;
      bestCost = cost;
    }
  }
  return best;
}

function derives(record: RecordType, base: RecordType): boolean {
  return record === base || record.bases.some((entry) => derives(entry.record, base));
}
