/** Operators and conversions that the sketch defines for its classes. */

import { callFunction } from "./call-statement.js";
import type { Expression, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { chooseConversion, chooseOverload } from "./overloads.js";
import { isPlace, selfFor } from "./places.js";
import { scopeOfType } from "./qualified-names.js";
import type { FunctionSymbol, Scope } from "./scope.js";
import { signatureOf } from "./signatures.js";
import type { Type } from "./types.js";

/** An operator that the sketch defines for its classes, as method or as free function; null where there is none. */
export function operatorCall(
  run: Lowering,
  body: Body,
  name: string,
  left: Expression,
  args: readonly Expression[],
  node: Stretch,
): Expression | null {
  if (left.type.kind === "record" && isPlace(left)) {
    const meaning = scopeOfType(run, left.type)?.own(name);
    if (meaning?.kind === "functions") {
      const chosen = chooseOverload(run, meaning.set, args, null, body);
      if (chosen !== null) {
        return callFunction(run, body, chosen, args, selfFor(left, chosen.record), node, left.op !== "variable");
      }
    }
  }
  if (name === "operator->" || name === "operator()" || name === "operator[]") return null;
  const chosen = chooseOverload(run, functionsBeside(run, body, name, [left, ...args]), [left, ...args], null, body);
  return chosen === null || !takesEnumerations(run, chosen, [left, ...args])
    ? null
    : callFunction(run, body, chosen, [left, ...args], null, node);
}

/** Types for which the sketch may define operators: classes and enumerations. */
export function mayOverload(type: Type): boolean {
  return type.kind === "record" || (type.kind === "integer" && type.enumeration !== undefined);
}

/** Between plain numbers the built-in operator is nearer than one that takes an enumeration. */
function takesEnumerations(run: Lowering, symbol: FunctionSymbol, args: readonly Expression[]): boolean {
  return signatureOf(run, symbol).parameters.every(({ type }, index) => {
    const wanted = type.kind === "reference" ? type.to : type;
    const given = args[index]?.type;
    if (wanted.kind !== "integer" || wanted.enumeration === undefined || given?.kind !== "integer") return true;
    return wanted.enumeration === given.enumeration;
  });
}

/** The object as what one of its conversion operators makes of it, nearest to `wanted`; null where it has none. */
export function convertObject(
  run: Lowering,
  body: Body,
  object: Expression,
  wanted: Type,
  node: Stretch,
): Expression | null {
  if (object.type.kind !== "record" || !isPlace(object)) return null;
  const meaning = scopeOfType(run, object.type)?.own("(conversion)");
  if (meaning?.kind !== "functions") return null;
  const chosen = chooseConversion(run, meaning.set, wanted);
  if (chosen === null) return null;
  return callFunction(run, body, chosen, [], selfFor(object, chosen.record), node, object.op !== "variable");
}

/** Functions outside of classes: those seen from here, and those beside the operands' types (C++11 3.4.2). */
export function functionsBeside(
  run: Lowering,
  body: Body,
  name: string,
  operands: readonly Expression[],
): FunctionSymbol[] {
  const found = new Set<FunctionSymbol>();
  const look = (scope: Scope | null | undefined): void => {
    const meaning = scope?.find(name);
    if (meaning?.kind !== "functions") return;
    for (const symbol of meaning.set) if (symbol.record === null) found.add(symbol);
  };
  look(body.scope);
  look(body.scope.file);
  for (const { type } of operands) if (mayOverload(type)) look(scopeOfType(run, type)?.parent);
  return [...found];
}
