/** Functions and classes that the sketch does not define: the core's have a model, the rest was not seen. */

import type { SyntaxNode } from "../parse/syntax.js";
import { callFunction, values } from "./call-statement.js";
import { convertTo, rvalue } from "./conversions.js";
import { CORE_CLASSES, CORE_FUNCTIONS, METHOD_RETURNS } from "./core-functions.js";
import { inReverse, lowerArguments, lowerAside } from "./evaluation-order.js";
import { lowerExpression } from "./expressions.js";
import { lowerAllocation } from "./heap.js";
import { delayWithYield } from "./hooks.js";
import type { Expression, Place } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { functionsBeside } from "./operators.js";
import { chooseOverload } from "./overloads.js";
import { calledOn } from "./pins-of-libraries.js";
import { addressOf, markAddressTaken, namedPlace } from "./places.js";
import { anything } from "./stand-ins.js";
import { INT16, isNumber, promoted, type Type } from "./types.js";

/** A function that nobody defined: the core's, or one that was not seen. */
export function callCore(
  run: Lowering,
  body: Body,
  name: string,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const { start, end } = node;
  const known = CORE_FUNCTIONS.get(name);
  if (ALLOCATIONS.has(name)) {
    const sizes = values(lowerArguments(run, body, argumentNodes));
    return lowerAllocation(run, body, name, sizes);
  }
  if (known === undefined) {
    const args = lowerArguments(run, body, argumentNodes);
    const beside = chooseOverload(run, functionsBeside(run, body, name, args), args, null, body);
    if (beside !== null) return callFunction(run, body, beside, args, null, node);
    for (const argument of args) {
      const place = namedPlace(argument);
      if (place !== null) markAddressTaken(place);
    }
    return {
      op: "unknown",
      why: `${name}() was not seen`,
      operands: values(args),
      harmless: false,
      type: { kind: "opaque", name: `result of ${name}()` },
      start,
      end,
    };
  }
  const traceArguments = known.effect === "model" && TRACED.has(name);
  const args: Expression[] = [];
  const written: number[] = [];
  const given = argumentsInReverse(run, body, argumentNodes, traceArguments ? written : null);
  for (const [index, raw] of given.entries())
    args.push(passCore(run, body, raw, known.parameters[index], argumentNodes[index]!));
  run.callNames.push({ name, start, end });
  const type = coreResult(name, known.returns, args);
  const call: Expression = { op: "core", name, self: null, arguments: args, written, type, start, end };
  return name === "delay" ? delayWithYield(run, body, call, node) : call;
}

/** Arguments; as written too where `written` is there to number them. */
export function argumentsInReverse(
  run: Lowering,
  body: Body,
  nodes: readonly SyntaxNode[],
  written: number[] | null,
): Expression[] {
  return inReverse(
    run,
    body,
    nodes.map((node) => lowerAside(body, () => lowerArgument(run, body, node, written))),
  );
}

/** An argument; as written too where `written` is there to number it, unless it is part of something kept already. */
function lowerArgument(run: Lowering, body: Body, node: SyntaxNode, written: number[] | null): Expression {
  if (written === null || run.tracing !== null) return lowerExpression(run, body, node);
  run.tracing = [];
  const value = lowerExpression(run, body, node);
  written.push(run.written.length);
  run.written.push(run.tracing.pop() ?? null);
  run.tracing = null;
  return value;
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

export function isListed(name: string): boolean {
  return TRACED.has(name);
}

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
  const value = rvalue(raw);
  if (parameter === undefined) {
    return value.type.kind === "integer" ? convertTo(run, body, value, promoted(value.type), node) : value;
  }
  if (parameter.kind === "pointer") return value;
  return convertTo(run, body, value, parameter, node);
}

/** A method of a class that was not executed: quiet ones give an unknown answer, Servo has its model, others may do anything. */
export function callCoreMethod(
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
  const full = `${className === "?" ? receiverText(run, node) : className}.${method}`;
  const args: Expression[] = [];
  const written: number[] = [];
  const given = argumentsInReverse(run, body, argumentNodes, TRACED.has(full) ? written : null);
  for (const [index, raw] of given.entries()) {
    const argument = argumentNodes[index]!;
    const place = namedPlace(raw);
    if (FILLING_METHODS.has(method) && place !== null) fillUnknown(body, place);
    // Objects, and what EEPROM.get fills, go by reference.
    const filled = (raw.type.kind === "record" || method === "get") && raw.type.kind !== "array";
    args.push(filled && place !== null ? addressOf(place) : passCore(run, body, raw, undefined, argument));
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
    calledOn(run, body, className, self, method, args, node);
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
    return { ...anything(node, result, args), takesTime: false } as Expression;
  }
  return { op: "unknown", why: `${full}() was not seen`, operands: args, harmless: false, type: result, start, end };
}

/** The object's name as the sketch wrote it, where its class is not known. */
function receiverText(run: Lowering, node: SyntaxNode): string {
  return /^(\w+)\s*(?:\.|->)/.exec(run.textOf(node))?.[1] ?? "?";
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
  if (!isNumber(type)) return;
  const value: Expression = {
    op: "convert",
    operand: anything(place, { kind: "opaque", name: "?" }),
    type,
    start,
    end,
  };
  body.out.push({ op: "initialise", target: place, value, start, end });
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
