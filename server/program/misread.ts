/**
 * What the parser, which knows no types, takes for something else. Each function gives the tree as C++ means it, or null
 * where the text is what it looks like.
 */

import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import type { Stretch } from "./ir.js";

function made(kind: string, field: string | null, children: readonly SyntaxNode[], at: Stretch): SyntaxNode {
  return { kind, field, named: true, children, start: at.start, end: at.end };
}

/** `!n++` read as `(!n)++`: what stands behind binds tighter than what stands before. */
export function postfixReadAsOutermost(node: SyntaxNode): SyntaxNode | null {
  const operand = child(node, "argument");
  const operator = child(node, "operator");
  if (operand?.kind !== "unary_expression" || operator === undefined || operator.start < operand.start) return null;
  const inner = child(operand, "argument");
  if (inner === undefined) return null;
  const counted = made("update_expression", "argument", [inner, operator], { start: inner.start, end: node.end });
  const argument = postfixReadAsOutermost(counted) ?? counted;
  const children = operand.children.map((part) => (part === inner ? { ...argument, field: "argument" } : part));
  return { ...operand, field: node.field, end: node.end, children };
}

/** `table[i](x);` read as the declaration of a structured binding of type `table`. */
export function callReadAsDeclaration(node: SyntaxNode): SyntaxNode | null {
  const type = child(node, "type");
  const declarator = child(node, "declarator");
  const binding = declarator === undefined ? undefined : child(declarator, "declarator");
  if (
    type === undefined ||
    declarator?.kind !== "function_declarator" ||
    binding?.kind !== "structured_binding_declarator"
  )
    return null;
  const index = binding.children.filter((part) => part.named);
  const list = child(declarator, "parameters");
  if (index.length !== 1 || list === undefined) return null;
  const args: SyntaxNode[] = [];
  for (const parameter of list.children) {
    if (!parameter.named) continue;
    if (parameter.kind !== "parameter_declaration") {
      args.push(parameter);
      continue;
    }
    const name = child(parameter, "type");
    if (name === undefined || child(parameter, "declarator") !== undefined) return null;
    args.push({ ...name, kind: "identifier", field: null });
  }
  const argument: SyntaxNode = { ...type, kind: "identifier", field: "argument" };
  const indices = made("subscript_argument_list", "indices", [{ ...index[0]!, field: null }], binding);
  const callee = made("subscript_expression", "function", [argument, indices], { start: type.start, end: binding.end });
  return made("call_expression", null, [callee, made("argument_list", "arguments", args, list)], node);
}

/** `byte (*row)[3] = grid;` read as an assignment to an element of a converted value. */
function arrayPointerReadAsAssignment(node: SyntaxNode): SyntaxNode | null {
  const assignment = ofKind(node, "assignment_expression");
  const right = assignment === undefined ? undefined : child(assignment, "right");
  const sizes: SyntaxNode[] = [];
  let left = assignment === undefined ? undefined : child(assignment, "left");
  while (left?.kind === "subscript_expression") {
    const size = child(left, "indices")?.children.find((part) => part.named);
    if (size !== undefined) sizes.push(size);
    left = child(left, "argument");
  }
  const type = left?.kind === "call_expression" ? child(left, "function") : undefined;
  const pointer = left === undefined ? undefined : child(left, "arguments")?.children.find((part) => part.named);
  const name = pointer?.kind === "pointer_expression" ? child(pointer, "argument") : undefined;
  if (type?.kind !== "primitive_type" || name?.kind !== "identifier" || sizes.length === 0) return null;
  if (right === undefined || pointer === undefined) return null;
  let declarator = made("pointer_declarator", "declarator", [{ ...name, field: "declarator" }], pointer);
  declarator = made("parenthesized_declarator", "declarator", [declarator], pointer);
  for (const size of sizes.reverse())
    declarator = made("array_declarator", "declarator", [declarator, { ...size, field: "size" }], pointer);
  const init = made("init_declarator", "declarator", [declarator, { ...right, field: "value" }], assignment!);
  return made("declaration", null, [{ ...type, field: "type" }, init], node);
}

/** `int (*row)[3];` read as an element of a converted value. */
function arrayPointerReadAsElement(node: SyntaxNode): SyntaxNode | null {
  const element = node.children.find((part) => part.named);
  if (element?.kind !== "subscript_expression") return null;
  const converted = child(element, "argument");
  const type = converted?.kind === "call_expression" ? child(converted, "function") : undefined;
  const pointer =
    converted === undefined ? undefined : child(converted, "arguments")?.children.find((part) => part.named);
  const name = pointer?.kind === "pointer_expression" ? child(pointer, "argument") : undefined;
  const size = child(element, "indices")?.children.find((part) => part.named);
  if (type?.kind !== "primitive_type" || name?.kind !== "identifier" || pointer === undefined || size === undefined)
    return null;
  let declarator = made("pointer_declarator", "declarator", [{ ...name, field: "declarator" }], pointer);
  declarator = made("parenthesized_declarator", "declarator", [declarator], pointer);
  declarator = made("array_declarator", "declarator", [declarator, { ...size, field: "size" }], element);
  return made("declaration", null, [{ ...type, field: "type" }, declarator], node);
}

/** `void (*table[])(int) = { a, b };` read as an assignment to a call of a call. */
export function declarationReadAsAssignment(node: SyntaxNode): SyntaxNode | null {
  const arrayPointer = arrayPointerReadAsAssignment(node) ?? arrayPointerReadAsElement(node);
  if (arrayPointer !== null) return arrayPointer;
  const assignment = ofKind(node, "assignment_expression");
  const left = assignment === undefined ? undefined : child(assignment, "left");
  const right = assignment === undefined ? undefined : child(assignment, "right");
  const inner = left?.kind === "call_expression" ? child(left, "function") : undefined;
  const type = inner?.kind === "call_expression" ? child(inner, "function") : undefined;
  if (left === undefined || right === undefined || inner === undefined || type === undefined) return null;
  const pointer = child(inner, "arguments")?.children.find((part) => part.named);
  const subscript = pointer?.kind === "pointer_expression" ? child(pointer, "argument") : undefined;
  const name = subscript?.kind === "subscript_expression" ? child(subscript, "argument") : subscript;
  if (pointer === undefined || subscript === undefined || name?.kind !== "identifier") return null;
  const size = child(subscript, "indices")?.children.find((part) => part.named);
  let declarator: SyntaxNode = { ...name, field: "declarator" };
  if (subscript.kind === "subscript_expression") {
    const parts = size === undefined ? [declarator] : [declarator, { ...size, field: "size" }];
    declarator = made("array_declarator", "declarator", parts, subscript);
  }
  declarator = made("pointer_declarator", "declarator", [declarator], pointer);
  declarator = made("parenthesized_declarator", "declarator", [declarator], pointer);
  const parameters = (child(left, "arguments")?.children ?? [])
    .filter((part) => part.named)
    .map((part) =>
      made(
        "parameter_declaration",
        null,
        [{ ...part, kind: part.kind === "identifier" ? "type_identifier" : part.kind, field: "type" }],
        part,
      ),
    );
  const list = made("parameter_list", "parameters", parameters, left);
  const whole = made("function_declarator", "declarator", [declarator, list], left);
  const init = made("init_declarator", "declarator", [whole, { ...right, field: "value" }], assignment!);
  return made("declaration", null, [{ ...type, field: "type" }, init], node);
}

/** `void loop() { {} }`: empty blocks alone in a body are to the parser the lists of an initialiser. */
export function functionReadAsDeclaration(node: SyntaxNode): SyntaxNode | null {
  const init = child(node, "declarator");
  const declarator = init?.kind === "init_declarator" ? child(init, "declarator") : undefined;
  const list = init === undefined ? undefined : child(init, "value");
  if (init === undefined || declarator?.kind !== "function_declarator" || list?.kind !== "initializer_list")
    return null;
  if (init.children.some((part) => part.kind === "=") || !onlyLists(list)) return null;
  const body: SyntaxNode = { ...asBlock(list), field: "body" };
  return {
    ...node,
    kind: "function_definition",
    children: node.children.flatMap((part) => (part === init ? [declarator, body] : [part])),
  };
}

function onlyLists(list: SyntaxNode): boolean {
  return list.children.every((part) => part.kind === "initializer_list" && onlyLists(part));
}

function asBlock(list: SyntaxNode): SyntaxNode {
  return { ...list, kind: "compound_statement", field: null, children: list.children.map(asBlock) };
}

/** `void every(void (*task)());` read as an object made of a call: a prototype whose one parameter is a pointer to a function. */
export function prototypeReadAsObject(node: SyntaxNode, isType: (name: SyntaxNode) => boolean): SyntaxNode | null {
  const object = ofKind(node, "init_declarator");
  const name = object === undefined ? undefined : child(object, "declarator");
  const value = object === undefined ? undefined : child(object, "value");
  const [call, ...others] = value?.kind === "argument_list" ? value.children.filter((part) => part.named) : [];
  if (name?.kind !== "identifier" || call?.kind !== "call_expression" || others.length > 0) return null;
  const inner = child(call, "function");
  const type = inner?.kind === "call_expression" ? child(inner, "function") : undefined;
  const pointer = inner === undefined ? undefined : child(inner, "arguments")?.children.find((part) => part.named);
  const parameter = pointer?.kind === "pointer_expression" ? child(pointer, "argument") : undefined;
  const own = child(call, "arguments")?.children.filter((part) => part.named) ?? [];
  if (type === undefined || parameter?.kind !== "identifier" || own.length > 0 || !isType(type)) return null;
  const spelled = type.kind === "identifier" ? "type_identifier" : type.kind;
  let declarator = made("pointer_declarator", "declarator", [{ ...parameter, field: "declarator" }], parameter);
  declarator = made("parenthesized_declarator", "declarator", [declarator], parameter);
  const none = made("parameter_list", "parameters", [], call);
  declarator = made("function_declarator", "declarator", [declarator, none], call);
  const typed: SyntaxNode = { ...type, kind: spelled, field: "type" };
  const list = made(
    "parameter_list",
    "parameters",
    [made("parameter_declaration", null, [typed, declarator], call)],
    call,
  );
  const whole = made("function_declarator", "declarator", [{ ...name, field: "declarator" }, list], object!);
  return { ...node, children: node.children.map((part) => (part === object ? whole : part)) };
}
