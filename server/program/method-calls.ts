/** Calls on an object: of its class, of one of its bases, or of a class that the core brings. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { callFunction, values } from "./call-statement.js";
import { callThrough } from "./calls.js";
import { callCoreMethod } from "./core-calls.js";
import { CORE_OBJECTS } from "./core-functions.js";
import { lowerArguments, lowerAside } from "./evaluation-order.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Place, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { objectOf } from "./member-access.js";
import { operatorCall } from "./operators.js";
import { chooseOverload } from "./overloads.js";
import { isPlace, selfFor } from "./places.js";
import { findQualified, scopeOfType } from "./qualified-names.js";
import { unknown } from "./stand-ins.js";
import { untraced } from "./tracing.js";

export function lowerMethodCall(
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
  if (objectNode === undefined || fieldNode === undefined) return unknown(node, "half a call");
  const coreClass = coreObject(run, body, objectNode);
  const nameNode =
    fieldNode.kind === "template_method" || fieldNode.kind === "template_function"
      ? (child(fieldNode, "name") ?? fieldNode)
      : fieldNode;
  const name = run.textOf(nameNode);
  if (coreClass !== null) return callCoreMethod(run, body, coreClass, null, name, argumentNodes, node);
  const found = lowerAside(body, () =>
    untraced(run, () => objectOf(run, body, lowerExpression(run, body, objectNode), arrow, node)),
  );
  const [object, beforeObject] = found;
  if (object.type.kind === "opaque") {
    body.out.push(...beforeObject);
    return callCoreMethod(run, body, object.type.name, isPlace(object) ? object : null, name, argumentNodes, node);
  }
  const args = lowerArguments(run, body, argumentNodes, found);
  if (object.type.kind !== "record" || !isPlace(object))
    return unknown(node, "call on what is no object", [object, ...values(args)]);
  const scope = scopeOfType(run, object.type);
  const meaning =
    fieldNode.kind === "qualified_identifier"
      ? findQualified(run, body.scope, fieldNode)
      : scope?.own(name === object.type.record.name ? name : destructorName(name));
  if (meaning?.kind === "functions") {
    const explicit = fieldNode.kind === "template_method" ? child(fieldNode, "arguments") : undefined;
    const chosen = chooseOverload(run, meaning.set, args, explicit, body);
    if (chosen === null) return unknown(node, `no ${name} fits these arguments`, values(args));
    const self = chosen.isStatic ? null : selfFor(object, chosen.record);
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
    operands: values(args),
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
export function callMethod(run: Lowering, body: Body, object: Place, name: string, node: Stretch): Expression | null {
  if (object.type.kind !== "record") return null;
  const meaning = scopeOfType(run, object.type)?.own(name);
  const chosen = meaning?.kind === "functions" ? chooseOverload(run, meaning.set, [], null, body) : null;
  return chosen === null ? null : callFunction(run, body, chosen, [], selfFor(object, chosen.record), node);
}

/** The class of an object that the core declares (`Serial`); null where the name is the sketch's own. */
function coreObject(run: Lowering, body: Body, node: SyntaxNode): string | null {
  if (node.kind !== "identifier") return null;
  const name = run.textOf(node);
  if (body.scope.find(name) !== undefined) return null;
  return CORE_OBJECTS.get(name) ?? null;
}
