/** Calls: which function is meant, how its arguments are passed, and what stands in for what cannot be seen. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { addressOf, initialise } from "./construction.js";
import { CORE_CLASSES, CORE_FUNCTIONS, CORE_OBJECTS, METHOD_RETURNS } from "./core-functions.js";
import { overridesOf } from "./dispatch.js";
import {
  baseWithin,
  cast,
  convertTo,
  lowerExpression,
  mayBeTemplate,
  objectOf,
  rvalue,
  thisPlace,
  unknown,
} from "./expressions.js";
import { codeOf, signatureOf } from "./functions.js";
import { lowerAllocation } from "./heap.js";
import type { Expression, FunctionCode, Place, Statement } from "./ir.js";
import { type Body, isPlace, type Lowering, markAddressTaken, placeOf } from "./lowering.js";
import { argumentsReadAsTemplate } from "./misread-templates.js";
import { operatorCall } from "./operators.js";
import { chooseOverload } from "./overloads.js";
import { expandPacks } from "./packs.js";
import type { FunctionSymbol, Meaning } from "./scope.js";
import { untraced } from "./tracing.js";
import { findQualified, namesType, readType, readTypeDescriptor, scopeOfType } from "./type-syntax.js";
import { INT16, promoted, type Type, VOID } from "./types.js";

export function lowerCall(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const callee = child(node, "function");
  const list = child(node, "arguments");
  if (callee === undefined) return unknown(run, node, "half a call");
  const argumentNodes = expandPacks(
    run,
    body.scope,
    argumentsReadAsTemplate(
      (list?.children ?? []).filter((part) => part.named),
      (name) => mayBeTemplate(run, body, name),
    ),
  );
  const target = unwrap(callee);
  // A type's name in front of parentheses makes a value of that type.
  if (target.kind === "primitive_type" || target.kind === "sized_type_specifier" || isTypeName(run, body, target)) {
    return makeValue(run, body, target, argumentNodes, node);
  }
  if (target.kind === "template_function") {
    const special = namedCast(run, body, target, argumentNodes, node);
    if (special !== null) return special;
  }
  if (target.kind === "field_expression") return lowerMethodCall(run, body, target, argumentNodes, node);
  const meaning =
    target.kind === "identifier"
      ? body.scope.find(run.textOf(target))
      : target.kind === "qualified_identifier"
        ? findQualified(run, body.scope, target)
        : target.kind === "template_function"
          ? body.scope.find(run.textOf(child(target, "name") ?? target))
          : undefined;
  if (meaning?.kind === "functions") return callByName(run, body, meaning, target, argumentNodes, node);
  if (
    meaning === undefined &&
    (target.kind === "identifier" || target.kind === "qualified_identifier" || target.kind === "template_function")
  ) {
    const last = target.kind === "identifier" ? target : (child(target, "name") ?? target);
    return callCore(run, body, run.textOf(last), argumentNodes, node);
  }
  const value = untraced(run, () => lowerExpression(run, body, target));
  const args = argumentNodes.map((argument) => lowerExpression(run, body, argument));
  if (value.type.kind === "record") {
    const own = operatorCall(run, body, "operator()", value, args, node);
    if (own !== null) return own;
  }
  return callThrough(run, body, value, args, node);
}

function unwrap(node: SyntaxNode): SyntaxNode {
  if (node.kind !== "parenthesized_expression") return node;
  const inner = node.children.find((part) => part.named);
  return inner === undefined ? node : unwrap(inner);
}

function isTypeName(run: Lowering, body: Body, node: SyntaxNode): boolean {
  if (
    node.kind !== "identifier" &&
    node.kind !== "qualified_identifier" &&
    node.kind !== "template_function" &&
    node.kind !== "type_identifier"
  )
    return false;
  if (
    node.kind === "identifier" &&
    CORE_FUNCTIONS.has(run.textOf(node)) &&
    body.scope.find(run.textOf(node)) === undefined
  )
    return false;
  return (
    namesType(run, body.scope, node) ||
    (node.kind === "identifier" &&
      body.scope.find(run.textOf(node)) === undefined &&
      CORE_CLASSES.has(run.textOf(node)))
  );
}

function makeValue(
  run: Lowering,
  body: Body,
  target: SyntaxNode,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const typeNode: SyntaxNode = target.kind === "template_function" ? { ...target, kind: "template_type" } : target;
  const type = readType(run, body.scope, typeNode) ?? INT16;
  if (type.kind === "record") {
    const temporary = run.temporary(body, type, node.start);
    const place = placeOf(temporary, node.start, node.end);
    body.out.push({ op: "declare", variable: temporary, zero: false, start: node.start });
    initialise(run, body, place, { kind: "arguments", nodes: argumentNodes }, argumentNodes.length === 0);
    return place;
  }
  if (type.kind === "opaque") {
    const args = argumentNodes.map((argument) => rvalue(run, body, lowerExpression(run, body, argument)));
    return {
      op: "unknown",
      why: "",
      operands: args,
      harmless: CORE_CLASSES.has(type.name),
      type,
      start: node.start,
      end: node.end,
    };
  }
  const first = argumentNodes[0];
  if (first === undefined) return { op: "integer", value: 0, type, start: node.start, end: node.end };
  return cast(run, body, lowerExpression(run, body, first), type, node);
}

const NAMED_CASTS = new Set(["static_cast", "reinterpret_cast", "const_cast", "dynamic_cast"]);

function namedCast(
  run: Lowering,
  body: Body,
  target: SyntaxNode,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression | null {
  const name = child(target, "name");
  if (name === undefined || !NAMED_CASTS.has(run.textOf(name))) return null;
  const typeNode = child(target, "arguments")?.children.find((part) => part.named);
  const first = argumentNodes[0];
  if (typeNode === undefined || first === undefined) return unknown(run, node, "half a cast");
  const type = readTypeDescriptor(run, body.scope, typeNode) ?? INT16;
  return cast(run, body, lowerExpression(run, body, first), type, node);
}

function callByName(
  run: Lowering,
  body: Body,
  meaning: Extract<Meaning, { kind: "functions" }>,
  target: SyntaxNode,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const args = argumentNodes.map((argument) => lowerExpression(run, body, argument));
  const explicit =
    target.kind === "template_function"
      ? target
      : target.kind === "qualified_identifier"
        ? child(target, "name")
        : undefined;
  const chosen = chooseOverload(
    run,
    meaning.set,
    args,
    explicit?.kind === "template_function" ? child(explicit, "arguments") : undefined,
    body,
  );
  if (chosen === null)
    return unknown(run, node, `no ${run.textOf(target)} fits these arguments`, values(run, body, args));
  if (chosen.body === null && chosen.record === null) {
    // A prototype only: a function of the core keeps its model, anything else was not seen.
    const name = chosen.name;
    if (CORE_FUNCTIONS.has(name)) return callCore(run, body, name, argumentNodes, node);
  }
  let self: Expression | null = null;
  if (chosen.record !== null && !chosen.isStatic) {
    const place = thisPlace(body, node);
    if (place === null || place.type.kind !== "record")
      return unknown(run, node, `${chosen.name} needs an object`, values(run, body, args));
    self = addressOf(baseWithin(place, place.type.record, chosen.record) ?? place);
  }
  return callFunction(run, body, chosen, args, self, node, target.kind !== "qualified_identifier");
}

function values(run: Lowering, body: Body, args: readonly Expression[]): Expression[] {
  return args.map((argument) => rvalue(run, body, argument));
}

/** A function that nobody defined: the core's, or one that was not seen. */
function callCore(
  run: Lowering,
  body: Body,
  name: string,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const { start, end } = node;
  const known = CORE_FUNCTIONS.get(name);
  if (ALLOCATIONS.has(name)) {
    const sizes = values(
      run,
      body,
      argumentNodes.map((argument) => lowerExpression(run, body, argument)),
    );
    return lowerAllocation(run, body, name, sizes);
  }
  if (known === undefined) {
    const args = argumentNodes.map((argument) => lowerExpression(run, body, argument));
    for (const argument of args) if (isPlace(argument)) markAddressTaken(argument);
    return {
      op: "unknown",
      why: `${name}() was not seen`,
      operands: values(run, body, args),
      harmless: false,
      type: { kind: "opaque", name: `result of ${name}()` },
      start,
      end,
    };
  }
  const traceArguments = known.effect === "model" && TRACED.has(name);
  const args: Expression[] = [];
  const written: number[] = [];
  for (const [index, argument] of argumentNodes.entries()) {
    const outer = run.tracing;
    if (traceArguments && outer === null) run.tracing = [];
    const raw = lowerExpression(run, body, argument);
    if (traceArguments && outer === null) {
      written.push(run.written.length);
      run.written.push(run.tracing?.pop() ?? null);
      run.tracing = outer;
    }
    const parameter = known.parameters[index];
    args.push(passCore(run, body, raw, parameter, argument));
  }
  run.callNames.push({ name, start, end });
  return {
    op: "core",
    name,
    self: null,
    arguments: args,
    written,
    type: coreResult(name, known.returns, args),
    start,
    end,
  };
}

const ALLOCATIONS = new Set(["malloc", "calloc"]);

/** Calls that the analysis lists with their arguments as written. */
const TRACED = new Set([
  "analogWrite",
  "pinMode",
  "digitalWrite",
  "tone",
  "noTone",
  "delay",
  "delayMicroseconds",
  "millis",
  "micros",
  "pulseIn",
  "Servo.attach",
  "Servo.write",
  "Servo.writeMicroseconds",
  "Servo.detach",
]);

function coreResult(name: string, declared: Type, args: readonly Expression[]): Type {
  // portOutputRegister and its like give volatile uint8_t *; abs is a macro in the core and keeps its argument's type.
  if (name === "abs" && args[0] !== undefined && args[0].type.kind === "float") return args[0].type;
  if (name.startsWith("pgm_read_ptr") && args[0]?.type.kind === "pointer" && args[0].type.to.kind === "pointer")
    return args[0].type.to;
  return declared;
}

function passCore(
  run: Lowering,
  body: Body,
  raw: Expression,
  parameter: Type | undefined,
  node: SyntaxNode,
): Expression {
  if (raw.type.kind === "record" || raw.type.kind === "opaque") return raw;
  const value = rvalue(run, body, raw);
  if (parameter === undefined) {
    return value.type.kind === "integer" ? convertTo(run, body, value, promoted(value.type), node) : value;
  }
  if (parameter.kind === "pointer") return value;
  return convertTo(run, body, value, parameter, node);
}

function lowerMethodCall(
  run: Lowering,
  body: Body,
  target: SyntaxNode,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const { start, end } = node;
  const objectNode = child(target, "argument");
  const fieldNode = child(target, "field");
  const arrow = child(target, "operator")?.kind === "->";
  if (objectNode === undefined || fieldNode === undefined) return unknown(run, node, "half a call");
  const coreClass = coreObject(run, body, objectNode);
  const nameNode =
    fieldNode.kind === "template_method" || fieldNode.kind === "template_function"
      ? (child(fieldNode, "name") ?? fieldNode)
      : fieldNode;
  const name = run.textOf(nameNode);
  if (coreClass !== null) return callCoreMethod(run, body, coreClass, null, name, argumentNodes, node);
  const object = untraced(run, () => objectOf(run, body, lowerExpression(run, body, objectNode), arrow, node));
  if (object.type.kind === "opaque") {
    return callCoreMethod(run, body, object.type.name, isPlace(object) ? object : null, name, argumentNodes, node);
  }
  const args = argumentNodes.map((argument) => lowerExpression(run, body, argument));
  if (object.type.kind !== "record" || !isPlace(object))
    return unknown(run, node, "call on what is no object", [object, ...values(run, body, args)]);
  const scope = scopeOfType(run, object.type);
  const meaning =
    fieldNode.kind === "qualified_identifier"
      ? findQualified(run, body.scope, fieldNode)
      : scope?.own(name === object.type.record.name ? name : destructorName(name));
  if (meaning?.kind === "functions") {
    const explicit = fieldNode.kind === "template_method" ? child(fieldNode, "arguments") : undefined;
    const chosen = chooseOverload(run, meaning.set, args, explicit, body);
    if (chosen === null) return unknown(run, node, `no ${name} fits these arguments`, values(run, body, args));
    const home = chosen.record ?? object.type.record;
    const self = chosen.isStatic ? null : addressOf(baseWithin(object, object.type.record, home) ?? object);
    const direct = object.op === "variable" || fieldNode.kind === "qualified_identifier";
    return callFunction(run, body, chosen, args, self, node, !direct);
  }
  if (meaning?.kind === "field" || meaning?.kind === "variable") {
    const member = untraced(run, () => lowerExpression(run, body, target));
    if (member.type.kind === "record") {
      const own = operatorCall(run, body, "operator()", member, args, node);
      if (own !== null) return own;
    }
    return callThrough(run, body, member, args, node);
  }
  return {
    op: "unknown",
    why: `${object.type.record.name}::${name}() was not seen`,
    operands: values(run, body, args),
    harmless: false,
    type: { kind: "opaque", name },
    start,
    end,
  };
}

function destructorName(name: string): string {
  return name.startsWith("~") ? "~" : name;
}

/** `object.name()`, where the object's class has such a method; null else. */
export function callMethod(
  run: Lowering,
  body: Body,
  object: Place,
  name: string,
  node: { start: number; end: number },
): Expression | null {
  if (object.type.kind !== "record") return null;
  const meaning = scopeOfType(run, object.type)?.own(name);
  const chosen = meaning?.kind === "functions" ? chooseOverload(run, meaning.set, [], null, body) : null;
  if (chosen === null) return null;
  const home = chosen.record ?? object.type.record;
  return callFunction(run, body, chosen, [], addressOf(baseWithin(object, object.type.record, home) ?? object), node);
}

/** The class of an object that the core declares (`Serial`); null where the name is the sketch's own. */
function coreObject(run: Lowering, body: Body, node: SyntaxNode): string | null {
  if (node.kind !== "identifier") return null;
  const name = run.textOf(node);
  if (body.scope.find(name) !== undefined) return null;
  return CORE_OBJECTS.get(name) ?? null;
}

/** A method of a class that was not executed: quiet ones give an unknown answer, Servo has its model, others may do anything. */
function callCoreMethod(
  run: Lowering,
  body: Body,
  className: string,
  self: Place | null,
  method: string,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const { start, end } = node;
  const kind = CORE_CLASSES.get(className);
  const full = `${className}.${method}`;
  const args: Expression[] = [];
  const written: number[] = [];
  for (const argument of argumentNodes) {
    const outer = run.tracing;
    const keep = TRACED.has(full) && outer === null;
    if (keep) run.tracing = [];
    const raw = lowerExpression(run, body, argument);
    if (FILLING_METHODS.has(method) && isPlace(raw)) fillUnknown(body, raw);
    if (keep) {
      written.push(run.written.length);
      run.written.push(run.tracing?.pop() ?? null);
      run.tracing = outer;
    }
    // Objects, and what EEPROM.get fills, go by reference.
    const filled = isPlace(raw) && (raw.type.kind === "record" || method === "get") && raw.type.kind !== "array";
    args.push(filled ? addressOf(raw) : passCore(run, body, raw, undefined, argument));
  }
  const result: Type = METHOD_RETURNS[method] ?? { kind: "opaque", name: `result of ${full}()` };
  if (kind === "servo") {
    run.callNames.push({ name: full, start, end });
    return {
      op: "core",
      name: full,
      self,
      arguments: args,
      written,
      type: method === "read" ? INT16 : result,
      start,
      end,
    };
  }
  const known = kind === "quiet" || className.startsWith("result of ") || className === "?" || className === "auto";
  if (known && CORE_CLASSES.get(className) === "quiet") {
    const takesTime = !QUICK_METHODS.has(method) && !QUICK_CLASSES.has(className);
    return {
      op: "unknown",
      why: "",
      operands: args,
      harmless: true,
      takesTime,
      fills: FILLING_METHODS.has(method),
      type: quietResult(className, method, result),
      start,
      end,
    };
  }
  if (className.startsWith("result of ") && quietOrigin(className)) {
    return { op: "unknown", why: "", operands: args, harmless: true, type: result, start, end };
  }
  return { op: "unknown", why: `${full}() was not seen`, operands: args, harmless: false, type: result, start, end };
}

/** Methods of quiet classes that leave something in what they are given, by pointer or by reference. */
const FILLING_METHODS = new Set([
  "readBytes",
  "readBytesUntil",
  "toCharArray",
  "getBytes",
  "get",
  "read",
  "transfer",
  "receive",
]);

/** A variable that a method fills by reference holds anything afterwards. */
function fillUnknown(body: Body, place: Place): void {
  const { start, end, type } = place;
  if (type.kind !== "integer" && type.kind !== "float") return;
  const unknownValue: Expression = {
    op: "unknown",
    why: "",
    operands: [],
    harmless: true,
    type: { kind: "opaque", name: "?" },
    start,
    end,
  };
  body.out.push({
    op: "initialise",
    target: place,
    value: { op: "convert", operand: unknownValue, type, start, end },
    start,
    end,
  });
}

/** Over within microseconds: they touch their own unit's registers or a buffer. */
const QUICK_METHODS = new Set([
  "begin",
  "end",
  "available",
  "availableForWrite",
  "read",
  "peek",
  "setTimeout",
  "beginTransmission",
  "attached",
  "get",
]);
const QUICK_CLASSES = new Set([
  "String",
  "StringSumHelper",
  "IPAddress",
  "SPISettings",
  "__FlashStringHelper",
  "DateTime",
]);

function quietOrigin(className: string): boolean {
  const match = /^result of (\w+)\./.exec(className);
  return match !== null && CORE_CLASSES.get(match[1]!) === "quiet";
}

function quietResult(className: string, method: string, result: Type): Type {
  if (result.kind !== "opaque")
    return className === "String" && method === "begin" ? { kind: "pointer", to: INT16 } : result;
  return className === "String" ? { kind: "opaque", name: "String" } : result;
}

/** A call through a pointer to a function. */
function callThrough(
  run: Lowering,
  body: Body,
  value: Expression,
  args: readonly Expression[],
  node: SyntaxNode,
): Expression {
  const pointer = rvalue(run, body, value);
  if (pointer.op === "function") {
    return emitCall(
      run,
      body,
      pointer.code,
      null,
      null,
      null,
      passArguments(run, body, pointer.code, args, node),
      node,
    );
  }
  const shape = pointer.type.kind === "pointer" ? pointer.type.to : pointer.type;
  if (shape.kind !== "function") {
    return unknown(run, node, "call of something that is no function", [pointer, ...values(run, body, args)]);
  }
  const passed = args.map((argument, index) => {
    const parameter = shape.parameters[index];
    return parameter === undefined ? rvalue(run, body, argument) : convertTo(run, body, argument, parameter, node);
  });
  return emitCall(run, body, null, pointer, null, null, passed, node, shape.returns);
}

/** Passes the arguments, lifts the call into a statement and answers with where its result is left. */
export function callFunction(
  run: Lowering,
  body: Body,
  symbol: FunctionSymbol,
  args: readonly Expression[],
  self: Expression | null,
  node: { start: number; end: number },
  mayDispatch = false,
): Expression {
  const code = codeOf(run, symbol);
  const signature = signatureOf(run, symbol);
  const complete = [...args];
  for (let index = args.length; index < signature.parameters.length; index++) {
    const fallback = signature.parameters[index]!.fallback;
    if (fallback === null) break;
    const outer = body.scope;
    body.scope = symbol.scope;
    complete.push(untraced(run, () => lowerExpression(run, body, fallback)));
    body.scope = outer;
  }
  const passed = passArguments(run, body, code, complete, node);
  const dispatch =
    mayDispatch && symbol.virtual && symbol.record !== null
      ? { record: symbol.record, candidates: overridesOf(run, symbol) }
      : null;
  return emitCall(run, body, code, null, dispatch, self, passed, node);
}

function passArguments(
  run: Lowering,
  body: Body,
  code: FunctionCode,
  args: readonly Expression[],
  node: { start: number; end: number },
): Expression[] {
  return args.map((argument, index) => {
    const parameter = code.parameters[index];
    if (parameter === undefined) return rvalue(run, body, argument);
    return convertTo(run, body, argument, parameter.type, node);
  });
}

function emitCall(
  run: Lowering,
  body: Body,
  code: FunctionCode | null,
  pointer: Expression | null,
  dispatch: Extract<Statement, { op: "call" }>["dispatch"],
  self: Expression | null,
  args: readonly Expression[],
  node: { start: number; end: number },
  returnsFrom?: Type,
): Expression {
  const { start, end } = node;
  const returns = code?.returns ?? returnsFrom ?? VOID;
  const isReference = returns.kind === "reference";
  const held: Type = isReference ? { kind: "pointer", to: returns.to } : returns;
  const result = returns.kind === "void" ? null : run.temporary(body, held, start);
  body.out.push({ op: "call", code, pointer, dispatch, self, arguments: args, result, start, end });
  if (result === null) return { op: "unknown", why: "", operands: [], harmless: true, type: VOID, start, end };
  const place: Place = { op: "variable", variable: result, type: held, start, end };
  if (isReference && held.kind === "pointer") {
    return { op: "dereference", pointer: { op: "load", place, type: held, start, end }, type: held.to, start, end };
  }
  if (returns.kind === "record" || returns.kind === "opaque") return place;
  return { op: "load", place, type: returns, start, end };
}
