/** Lambdas: a class of their own with a field per captured name and one call operator. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { parameterType, readDeclarator } from "./declarators.js";
import { codeOf } from "./functions.js";
import type { Expression, Field, Place, RecordType } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { functionValue, thisPlace } from "./names.js";
import { addressOf, markAddressTaken, memberOf, placeOf } from "./places.js";
import type { FunctionSymbol, Scope } from "./scope.js";
import { unknown } from "./stand-ins.js";
import { readType } from "./type-syntax.js";
import { sizeOf, type Type, UINT8, VOID } from "./types.js";

export function lowerLambda(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const code = child(node, "body");
  if (code === undefined) return unknown(node, "half a lambda");
  const { type, info } = run.openRecord(fileScope(body.scope), "(lambda)");
  const { record, scope } = info;
  record.size = 0;
  const object = run.freshTemporary(body, type, node);
  markAddressTaken(object);
  declareUncaptured(run, body, code, scope);
  capture(run, body, node, code, record, scope, object);
  if (record.size === 0) record.size = 1;
  const symbol = callOperator(run, node, code, scope, record);
  info.methods.push(symbol);
  scope.overload(symbol);
  if (record.fields.length === 0) {
    // Without captures it is as good as a function, and may be passed as one.
    const free: FunctionSymbol = { ...symbol, record: null, isStatic: true, code: null, name: "(lambda)" };
    return functionValue(codeOf(run, free), node);
  }
  return object;
}

/** The nearest scope that is no block: what is inside blocks has to be captured. */
function fileScope(scope: Scope): Scope {
  let current = scope;
  while (current.kind === "block" && current.parent !== null) current = current.parent;
  return current;
}

/** Names of the blocks around that need no capture: statics, constants, types, functions (C++11 5.1.2). */
function declareUncaptured(run: Lowering, body: Body, code: SyntaxNode, scope: Scope): void {
  const outside = fileScope(body.scope);
  for (const name of mentioned(run, code)) {
    const meaning = body.scope.find(name);
    if (meaning === undefined || meaning === outside.find(name) || meaning.kind === "capture") continue;
    if (meaning.kind !== "variable") scope.declare(name, meaning);
    else if (meaning.variable.storage === "global") scope.declare(name, meaning);
    else if (meaning.variable.known !== undefined)
      scope.declare(name, { kind: "constant", value: meaning.variable.known, type: meaning.variable.type });
  }
}

function capture(
  run: Lowering,
  body: Body,
  node: SyntaxNode,
  code: SyntaxNode,
  record: RecordType,
  scope: Scope,
  object: Place,
): void {
  const list = child(node, "captures");
  let fallback: "copy" | "reference" | null = null;
  const named = new Map<string, "copy" | "reference">();
  for (const part of list?.children ?? []) {
    const text = run.textOf(part);
    if (part.kind === "lambda_default_capture") fallback = text === "&" ? "reference" : "copy";
    else if (text === "&") continue;
    else if (text === "this" || text === "*this") named.set("this", "copy");
    else if (text.startsWith("&")) named.set(text.slice(1).trim(), "reference");
    else if (part.named) named.set(text, precededByAmpersand(run, part) ? "reference" : "copy");
  }
  for (const name of mentioned(run, code)) {
    const how = named.get(name) ?? fallback;
    if (how === null || how === undefined) continue;
    captureOne(body, node, record, scope, object, name, how);
  }
  if ((named.has("this") || fallback !== null) && body.self !== null) captureThis(body, node, record, scope, object);
}

function precededByAmpersand(run: Lowering, part: SyntaxNode): boolean {
  return /&\s*$/.test(run.text.slice(Math.max(0, part.start - 4), part.start));
}

function mentioned(run: Lowering, code: SyntaxNode): Set<string> {
  const names = new Set<string>();
  const walk = (node: SyntaxNode): void => {
    if (node.kind.endsWith("identifier")) names.add(run.textOf(node));
    for (const part of node.children) walk(part);
  };
  walk(code);
  return names;
}

function captureOne(
  body: Body,
  node: SyntaxNode,
  record: RecordType,
  scope: Scope,
  object: Place,
  name: string,
  how: "copy" | "reference",
): void {
  const meaning = body.scope.find(name);
  if (meaning?.kind !== "variable" || meaning.variable.storage !== "local") return;
  const source = placeOf(meaning.variable, node.start, node.end);
  const inner = source.type;
  const held: Type = how === "reference" ? { kind: "pointer", to: inner } : inner;
  const field = addField(record, name, held);
  scope.declare(name, { kind: "capture", capture: { field, byReference: how === "reference", type: inner } });
  const target = memberOf(object, field);
  if (how === "reference") {
    body.out.push({ op: "initialise", target, value: addressOf(source), start: node.start, end: node.end });
  } else if (inner.kind === "record" || inner.kind === "array") {
    body.out.push({ op: "copy", target, source, start: node.start });
  } else {
    body.out.push({
      op: "initialise",
      target,
      value: { op: "load", place: source, type: inner, start: node.start, end: node.end },
      start: node.start,
      end: node.end,
    });
  }
}

function captureThis(body: Body, node: SyntaxNode, record: RecordType, scope: Scope, object: Place): void {
  const place = thisPlace(body, node);
  if (place === null) return;
  const field = addField(record, "this", { kind: "pointer", to: place.type });
  scope.declare("this", { kind: "capture", capture: { field, byReference: true, type: place.type } });
  body.out.push({
    op: "initialise",
    target: memberOf(object, field),
    value: addressOf(place),
    start: node.start,
    end: node.end,
  });
}

function addField(record: RecordType, name: string, type: Type): Field {
  const field: Field = { name, type, offset: record.size };
  record.fields.push(field);
  record.size += Math.max(1, sizeOf(type));
  return field;
}

function callOperator(
  run: Lowering,
  node: SyntaxNode,
  code: SyntaxNode,
  scope: Scope,
  record: RecordType,
): FunctionSymbol {
  const declarator = child(node, "declarator");
  const list = declarator === undefined ? undefined : child(declarator, "parameters");
  const trailing = declarator?.children.find((part) => part.kind === "trailing_return_type");
  const returnNode = trailing?.children.find((part) => part.named);
  const parameters = (list?.children ?? [])
    .filter((part) => part.kind === "parameter_declaration" || part.kind === "optional_parameter_declaration")
    .map((part) => {
      const inner = child(part, "declarator");
      const nameNode = inner === undefined ? null : readDeclarator(run, scope, inner, VOID).name;
      let type = parameterType(run, scope, part);
      if (type.kind === "opaque" && type.name === "auto") type = UINT8;
      return {
        name: nameNode === null ? "" : run.textOf(nameNode),
        type,
        node: part,
        fallback: child(part, "default_value") ?? null,
      };
    })
    .filter((parameter) => parameter.type.kind !== "void");
  return {
    name: "operator()",
    node,
    body: code,
    scope,
    home: scope,
    ofCore: false,
    weak: false,
    record,
    isStatic: false,
    virtual: false,
    pure: false,
    constructorOf: null,
    signature: {
      returns: returnNode === undefined ? null : readType(run, scope, returnNode),
      parameters,
      variadic: false,
    },
    code: null,
    template: null,
    instances: new Map(),
  };
}
