/** Calls as written: which function is meant, by name, by its object or through a pointer. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { callFunction, emitCall, passArguments, values } from "./call-statement.js";
import { isTypeName, makeValue, namedCast } from "./casts.js";
import { constantCall } from "./constant-calls.js";
import { convertTo, rvalue } from "./conversions.js";
import { argumentsInReverse, callCore, isListed } from "./core-calls.js";
import { CORE_FUNCTIONS } from "./core-functions.js";
import { lowerArguments } from "./evaluation-order.js";
import { lowerExpression, namesHere } from "./expressions.js";
import type { Expression } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { callChosenMethod, memberPointerAccess } from "./member-pointers.js";
import { lowerMethodCall } from "./method-calls.js";
import { argumentsReadAsTemplate } from "./misread-templates.js";
import { thisPlace } from "./names.js";
import { operatorCall } from "./operators.js";
import { chooseOverload } from "./overloads.js";
import { expandPacks } from "./packs.js";
import { selfFor } from "./places.js";
import { findQualified } from "./qualified-names.js";
import type { Meaning } from "./scope.js";
import { unknown } from "./stand-ins.js";
import { untraced } from "./tracing.js";

export function lowerCall(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const callee = child(node, "function");
  const list = child(node, "arguments");
  if (callee === undefined) return unknown(node, "half a call");
  const argumentNodes = expandPacks(
    run,
    body.scope,
    argumentsReadAsTemplate(
      (list?.children ?? []).filter((part) => part.named),
      namesHere(run, body),
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
  const chosen = memberPointerAccess(run, target);
  if (chosen !== null) return callChosenMethod(run, body, chosen, argumentNodes, node);
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
  const args = lowerArguments(run, body, argumentNodes);
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

function callByName(
  run: Lowering,
  body: Body,
  meaning: Extract<Meaning, { kind: "functions" }>,
  target: SyntaxNode,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const called = run.textOf(target);
  if (CORE_FUNCTIONS.has(called) && meaning.set.every((symbol) => symbol.body === null && symbol.record === null)) {
    // Prototypes only: a function of the core keeps its model.
    return callCore(run, body, called, argumentNodes, node);
  }
  const written: number[] | null = isListed(called) && !body.code.core ? [] : null;
  const args = argumentsInReverse(run, body, argumentNodes, written);
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
  if (chosen === null || (chosen.body === null && chosen.record === null)) {
    if (CORE_FUNCTIONS.has(called)) return callCore(run, body, called, argumentNodes, node);
    if (chosen === null) return unknown(node, `no ${called} fits these arguments`, values(args));
  }
  const known = constantCall(run, body, chosen, args, node);
  if (known !== null) return known;
  let self: Expression | null = null;
  if (chosen.record !== null && !chosen.isStatic) {
    const place = thisPlace(body, node);
    if (place === null || place.type.kind !== "record")
      return unknown(node, `${chosen.name} needs an object`, values(args));
    self = selfFor(place, chosen.record);
  }
  const listed = written !== null && chosen.ofCore ? { name: called, written } : undefined;
  if (listed !== undefined) run.callNames.push({ name: called, start: node.start, end: node.end });
  return callFunction(run, body, chosen, args, self, node, target.kind !== "qualified_identifier", listed);
}

/** A call through a pointer to a function. */
export function callThrough(
  run: Lowering,
  body: Body,
  value: Expression,
  args: readonly Expression[],
  node: SyntaxNode,
  self: Expression | null = null,
): Expression {
  const pointer = rvalue(value);
  if (pointer.op === "function") {
    const passed = passArguments(run, body, pointer.code, args, node);
    return emitCall(run, body, pointer.code, null, null, self, passed, node);
  }
  const shape = pointer.type.kind === "pointer" ? pointer.type.to : pointer.type;
  if (shape.kind !== "function") {
    return unknown(node, "call of something that is no function", [pointer, ...values(args)]);
  }
  const passed = args.map((argument, index) => {
    const parameter = shape.parameters[index];
    return parameter === undefined ? rvalue(argument) : convertTo(run, body, argument, parameter, node);
  });
  return emitCall(run, body, null, pointer, null, self, passed, node, shape.returns);
}
