/** Names standing alone: variables, registers, members of `this`, captures, functions as values. */
import type { SyntaxNode } from "../parse/syntax.js";
import { CORE_OBJECTS } from "./core-functions.js";
import { codeOf } from "./functions.js";
import type { Expression, Field, FunctionCode, Place, RecordType, Stretch, Variable } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { addressOf, behind, fieldOf, memberOf, placeOf } from "./places.js";
import type { Capture, Meaning } from "./scope.js";
import { unknown } from "./stand-ins.js";
import { type Type, UINT8, UINT16 } from "./types.js";

export function lowerName(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const name = run.textOf(node);
  const meaning = body.scope.find(name);
  if (meaning !== undefined) return fromMeaning(run, body, node, meaning);
  const register = run.registers.get(name);
  if (register !== undefined) {
    run.registerNames.push({ name, start: node.start, end: node.end });
    return {
      op: "register",
      address: register.address,
      name: register.name,
      type: register.bits === 16 ? UINT16 : UINT8,
      start: node.start,
      end: node.end,
    };
  }
  const coreClass = CORE_OBJECTS.get(name);
  if (coreClass !== undefined) return placeOf(coreObject(run, name, coreClass), node.start, node.end);
  return unknown(node, `${name} was not seen`);
}

/** `Serial` and its like where they are passed on: one variable for each, of a type that is not looked into. */
function coreObject(run: Lowering, name: string, className: string): Variable {
  const known = run.coreObjects.get(name);
  if (known !== undefined) return known;
  const made = run.globalVariable(name, { kind: "opaque", name: className }, 0);
  run.coreObjects.set(name, made);
  return made;
}

export function fromMeaning(run: Lowering, body: Body, node: SyntaxNode, meaning: Meaning): Expression {
  const { start, end } = node;
  switch (meaning.kind) {
    case "variable":
      return placeOf(meaning.variable, start, end);
    case "constant":
      return { op: "integer", value: meaning.value, type: meaning.type, start, end };
    case "field":
      return fieldOfThis(run, body, node, meaning.field, meaning.record);
    case "capture":
      return captured(run, body, node, meaning.capture);
    case "functions": {
      const symbol = meaning.set.find((candidate) => candidate.body !== null) ?? meaning.set[0]!;
      if (symbol.template !== null) return unknown(node, `template ${symbol.name} used without a call`);
      // A weak function that nobody defines is no function: its address is null.
      if (symbol.weak && meaning.set.every((each) => each.body === null))
        return { op: "null", type: { kind: "pointer", to: { kind: "void" } }, start, end };
      return functionValue(codeOf(run, symbol), node);
    }
    default:
      return unknown(node, `${run.textOf(node)} is no value`);
  }
}

/** A function as a value: a pointer to it. */
export function functionValue(code: FunctionCode, node: Stretch): Expression {
  const parameters = code.parameters.map(({ type }) => type);
  const shape: Type = { kind: "function", returns: code.returns, parameters, variadic: false };
  return { op: "function", code, type: { kind: "pointer", to: shape }, start: node.start, end: node.end };
}

/** `*this`, as a place; null outside of methods. */
export function thisPlace(body: Body, node: Stretch): Place | null {
  const capture = body.scope.find("this");
  if (capture?.kind === "capture" && body.self !== null) {
    const closure = dereferenceSelf(body, node);
    return behind(memberOf(closure!, capture.capture.field), capture.capture.type, node);
  }
  return dereferenceSelf(body, node);
}

function dereferenceSelf(body: Body, node: Stretch): Place | null {
  const { start, end } = node;
  if (body.self === null || body.self.type.kind !== "pointer") return null;
  const place: Place = { op: "variable", variable: body.self, type: body.self.type, start, end };
  return behind(place, body.self.type.to, node);
}

export function lowerThis(_run: Lowering, body: Body, node: SyntaxNode): Expression {
  const place = thisPlace(body, node);
  return place === null ? unknown(node, "this outside of a class") : addressOf(place);
}

function fieldOfThis(_run: Lowering, body: Body, node: SyntaxNode, field: Field, record: RecordType): Expression {
  const self = thisPlace(body, node);
  if (self === null || self.type.kind !== "record") return unknown(node, `${field.name} outside of its class`);
  return fieldOf(self, record, field, node);
}

function captured(_run: Lowering, body: Body, node: SyntaxNode, capture: Capture): Expression {
  const closure = dereferenceSelf(body, node);
  if (closure === null) return unknown(node, "captured name outside of its lambda");
  const member = memberOf(closure, capture.field);
  if (!capture.byReference) return { ...member, start: node.start, end: node.end } as Place;
  return behind(member, capture.type, node);
}
