/** Expressions: names resolved, conversions spelled out, calls of the sketch's own functions lifted into statements before. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { lowerAssembly } from "./assembly.js";
import { callFunction, lowerCall } from "./calls.js";
import { addressOf, memberOf } from "./construction.js";
import { CORE_CLASSES, CORE_OBJECTS } from "./core-functions.js";
import { asRelative } from "./dispatch.js";
import { lowerOwnLiteral, lowerStatementExpression } from "./extensions.js";
import { codeOf } from "./functions.js";
import { lowerNew } from "./heap.js";
import type { BinaryOperator, Comparison, Expression, Field, Place, RecordType, Statement, Variable } from "./ir.js";
import { lowerLambda } from "./lambda.js";
import { listAsRecord, listWithoutType, lowerCompoundLiteral, untypedList } from "./lists.js";
import { readCharacter, readNumber } from "./literals.js";
import { type Body, isPlace, type Lowering, markAddressTaken, placeOf } from "./lowering.js";
import { comparisonReadAsTemplate } from "./misread-templates.js";
import { convertObject, operatorCall } from "./operators.js";
import { chooseOverload } from "./overloads.js";
import { packElement } from "./packs.js";
import type { Capture, Meaning } from "./scope.js";
import { textBytes } from "./texts.js";
import { traced, untraced } from "./tracing.js";
import { findQualified, namesType, readType, readTypeDescriptor, scopeOfType } from "./type-syntax.js";
import {
  BOOL,
  CHAR,
  commonArithmetic,
  decayed,
  FLOAT,
  INT16,
  promoted,
  sameType,
  sizeOf,
  type Type,
  UINT8,
  UINT16,
} from "./types.js";

const MAX_DEPTH = 400;

/** Lowers one expression; a place stays a place. Statements it needs first go to `body.out`. */
export function lowerExpression(run: Lowering, body: Body, node: SyntaxNode): Expression {
  if (run.depth > MAX_DEPTH) return unknown(run, node, "expression nested too deeply");
  run.depth++;
  const mark = run.tracing?.length ?? 0;
  const lowered = lower(run, body, node);
  run.depth--;
  return run.tracing === null ? lowered : traced(run, node, lowered, mark);
}

function lower(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  switch (node.kind) {
    case "number_literal": {
      const read = readNumber(run.textOf(node));
      if (read === null) return unknown(run, node, "number not understood");
      if (run.map.origin(start).constant !== null) run.literalNames.push({ start, end });
      return read.type.kind === "float"
        ? { op: "real", value: read.value, type: FLOAT, start, end }
        : { op: "integer", value: read.value, type: read.type, start, end };
    }
    case "char_literal": {
      const read = readCharacter(run.textOf(node));
      return { op: "integer", value: read.value, type: read.type, start, end };
    }
    case "true":
    case "false":
      return { op: "integer", value: node.kind === "true" ? 1 : 0, type: BOOL, start, end };
    case "null":
    case "nullptr":
      return { op: "null", type: { kind: "pointer", to: { kind: "void" } }, start, end };
    case "string_literal":
    case "concatenated_string":
    case "raw_string_literal":
      return lowerText(run, node);
    case "identifier":
    case "field_identifier":
      return lowerName(run, body, node);
    case "qualified_identifier":
    case "template_function": {
      const meaning =
        node.kind === "qualified_identifier"
          ? findQualified(run, body.scope, node)
          : body.scope.find(run.textOf(child(node, "name") ?? node));
      if (meaning !== undefined) return fromMeaning(run, body, node, meaning);
      const last = child(node, "name");
      if (node.kind === "qualified_identifier" && last !== undefined && last.kind === "identifier") {
        const text = run.textOf(node);
        if (text.startsWith("::") || text.startsWith("std::")) return lowerName(run, body, last);
      }
      return unknown(run, node, `${run.textOf(node)} was not seen`);
    }
    case "this":
      return lowerThis(run, body, node);
    case "parenthesized_expression": {
      const inner = node.children.find((part) => part.named);
      if (inner?.kind === "compound_statement") return lowerStatementExpression(run, body, inner);
      return inner === undefined ? unknown(run, node, "empty parentheses") : lowerExpression(run, body, inner);
    }
    case "unary_expression":
    case "pointer_expression":
      return lowerUnary(run, body, node);
    case "binary_expression": {
      const meant = withoutMisreadTemplates(run, body, node);
      return meant === null ? lowerBinary(run, body, node) : lowerExpression(run, body, meant);
    }
    case "update_expression":
      return lowerUpdate(run, body, node);
    case "assignment_expression":
      return lowerAssignment(run, body, node);
    case "conditional_expression": {
      const meant = withoutMisreadTemplates(run, body, node);
      return meant === null ? lowerConditional(run, body, node) : lowerExpression(run, body, meant);
    }
    case "comma_expression": {
      const left = child(node, "left");
      const right = child(node, "right");
      if (left === undefined || right === undefined) return unknown(run, node, "half a comma expression");
      const first = lowerExpression(run, body, left);
      body.out.push({ op: "expression", expression: first, start: left.start, end: left.end });
      return lowerExpression(run, body, right);
    }
    case "cast_expression": {
      const typeNode = child(node, "type");
      const value = child(node, "value");
      if (typeNode === undefined || value === undefined) return unknown(run, node, "half a cast");
      const type = readTypeDescriptor(run, body.scope, typeNode);
      return cast(run, body, lowerExpression(run, body, value), type ?? INT16, node);
    }
    case "call_expression": {
      const meant = withoutMisreadTemplates(run, body, node);
      return meant === null ? lowerCall(run, body, node) : lowerExpression(run, body, meant);
    }
    case "subscript_expression":
      return lowerSubscript(run, body, node);
    case "field_expression":
      return lowerField(run, body, node);
    case "sizeof_expression":
    case "alignof_expression":
      return lowerSizeof(run, body, node);
    case "lambda_expression":
      return lowerLambda(run, body, node);
    case "new_expression":
      return lowerNew(run, body, node);
    case "delete_expression":
      return { op: "unknown", why: "", operands: [], harmless: true, type: { kind: "void" }, start, end };
    case "compound_literal_expression":
      return lowerCompoundLiteral(run, body, node);
    case "pack_element": {
      const element = packElement(node);
      if (element === undefined) return unknown(run, node, "parameter pack not followed");
      const outer = body.scope;
      body.scope = element.scope;
      const value = lowerExpression(run, body, element.pattern);
      body.scope = outer;
      return value;
    }
    case "initializer_list": {
      const first = node.children.filter((part) => part.named);
      if (first.length === 1) return lowerExpression(run, body, first[0]!);
      if (first.length === 0) return listWithoutType(run, node, true);
      return listWithoutType(run, node);
    }
    case "user_defined_literal":
      return lowerOwnLiteral(run, body, node);
    case "extension_expression": {
      const inner = node.children.find((part) => part.named);
      return inner === undefined ? unknown(run, node, "extension") : lowerExpression(run, body, inner);
    }
    case "gnu_asm_expression":
      return lowerAssembly(run, body, node);
    default:
      return unknown(
        run,
        node,
        node.kind === "ERROR" ? "not understood" : `${node.kind.replaceAll("_", " ")} not followed`,
      );
  }
}

const NAMED_CASTS = new Set(["static_cast", "reinterpret_cast", "const_cast", "dynamic_cast"]);

function withoutMisreadTemplates(run: Lowering, body: Body, node: SyntaxNode): SyntaxNode | null {
  return comparisonReadAsTemplate(node, (name) => mayBeTemplate(run, body, name));
}

/** Whether `name <` can open a template's arguments here. */
export function mayBeTemplate(run: Lowering, body: Body, name: SyntaxNode): boolean {
  const text = run.textOf(name);
  if (NAMED_CASTS.has(text)) return true;
  const meaning = body.scope.find(text);
  return (
    meaning?.kind === "class template" ||
    meaning?.kind === "functions" ||
    (meaning === undefined && !run.registers.has(text))
  );
}

export function unknown(
  run: Lowering,
  node: { start: number; end: number },
  why: string,
  operands: readonly Expression[] = [],
): Expression {
  void run;
  return {
    op: "unknown",
    why,
    operands,
    harmless: false,
    type: { kind: "opaque", name: "?" },
    start: node.start,
    end: node.end,
  };
}

function lowerText(run: Lowering, node: SyntaxNode): Expression {
  const text = run.textOf(node);
  const bytes = textBytes(run, node);
  const object = run.globalVariable("", { kind: "array", of: CHAR, length: bytes.length + 1 }, node.start);
  object.constant = true;
  object.addressTaken = true;
  for (const [index, byte] of bytes.entries()) {
    if (index >= 256) break;
    const target: Place = {
      op: "index",
      base: { op: "variable", variable: object, type: object.type, start: node.start, end: node.end },
      index: { op: "integer", value: index, type: INT16, start: node.start, end: node.end },
      type: CHAR,
      start: node.start,
      end: node.end,
    };
    const value: Expression = {
      op: "integer",
      value: (byte << 24) >> 24,
      type: CHAR,
      start: node.start,
      end: node.end,
    };
    run.startup.push({ op: "initialise", target, value, start: node.start, end: node.end });
  }
  return { op: "text", text, object, type: { kind: "pointer", to: CHAR }, start: node.start, end: node.end };
}

function lowerName(run: Lowering, body: Body, node: SyntaxNode): Expression {
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
  return unknown(run, node, `${name} was not seen`);
}

/** `Serial` and its like where they are passed on: one variable for each, of a type that is not looked into. */
function coreObject(run: Lowering, name: string, className: string): Variable {
  const known = run.coreObjects.get(name);
  if (known !== undefined) return known;
  const made = run.globalVariable(name, { kind: "opaque", name: className }, 0);
  run.coreObjects.set(name, made);
  return made;
}

function fromMeaning(run: Lowering, body: Body, node: SyntaxNode, meaning: Meaning): Expression {
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
      if (symbol.template !== null) return unknown(run, node, `template ${symbol.name} used without a call`);
      const code = codeOf(run, symbol);
      return {
        op: "function",
        code,
        type: {
          kind: "pointer",
          to: functionShape(
            code.returns,
            code.parameters.map((parameter) => parameter.type),
          ),
        },
        start,
        end,
      };
    }
    default:
      return unknown(run, node, `${run.textOf(node)} is no value`);
  }
}

function functionShape(returns: Type, parameters: readonly Type[]): Type {
  return { kind: "function", returns, parameters, variadic: false };
}

/** `*this`, as a place; null outside of methods. */
export function thisPlace(body: Body, node: { start: number; end: number }): Place | null {
  const { start, end } = node;
  const capture = body.scope.find("this");
  if (capture?.kind === "capture" && body.self !== null) {
    const closure = dereferenceSelf(body, node);
    const pointer = memberOf(closure!, capture.capture.field);
    const to = capture.capture.type;
    return {
      op: "dereference",
      pointer: { op: "load", place: pointer, type: { kind: "pointer", to }, start, end },
      type: to,
      start,
      end,
    };
  }
  return dereferenceSelf(body, node);
}

function dereferenceSelf(body: Body, node: { start: number; end: number }): Place | null {
  const { start, end } = node;
  if (body.self === null || body.self.type.kind !== "pointer") return null;
  const place: Place = { op: "variable", variable: body.self, type: body.self.type, start, end };
  return {
    op: "dereference",
    pointer: { op: "load", place, type: body.self.type, start, end },
    type: body.self.type.to,
    start,
    end,
  };
}

function lowerThis(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const place = thisPlace(body, node);
  return place === null ? unknown(run, node, "this outside of a class") : addressOf(place);
}

function fieldOfThis(run: Lowering, body: Body, node: SyntaxNode, field: Field, record: RecordType): Expression {
  const self = thisPlace(body, node);
  if (self === null || self.type.kind !== "record") return unknown(run, node, `${field.name} outside of its class`);
  return throughReference(
    fieldThroughBases(self, self.type.record, record, field, node) ?? memberOf(self, field),
    node,
  );
}

/** The member of `place` that a base class at some depth declares. */
function fieldThroughBases(
  place: Place,
  from: RecordType,
  home: RecordType,
  field: Field,
  node: { start: number; end: number },
): Place | null {
  if (from === home) return { op: "member", base: place, field, type: field.type, start: node.start, end: node.end };
  for (const base of from.bases) {
    const inner: Place = {
      op: "member",
      base: place,
      field: { name: base.record.name, type: { kind: "record", record: base.record }, offset: base.offset },
      type: { kind: "record", record: base.record },
      start: node.start,
      end: node.end,
    };
    const found = fieldThroughBases(inner, base.record, home, field, node);
    if (found !== null) return found;
  }
  return null;
}

/** A member that is a reference stands for what it refers to. */
function throughReference(place: Place, node: { start: number; end: number }): Place {
  if (place.type.kind !== "reference") return place;
  const to = place.type.to;
  const pointer: Type = { kind: "pointer", to };
  return {
    op: "dereference",
    pointer: { op: "load", place: { ...place, type: pointer }, type: pointer, start: node.start, end: node.end },
    type: to,
    start: node.start,
    end: node.end,
  };
}

function captured(run: Lowering, body: Body, node: SyntaxNode, capture: Capture): Expression {
  const closure = dereferenceSelf(body, node);
  if (closure === null) return unknown(run, node, "captured name outside of its lambda");
  const member = memberOf(closure, capture.field);
  if (!capture.byReference) return { ...member, start: node.start, end: node.end } as Place;
  const pointer: Type = { kind: "pointer", to: capture.type };
  return {
    op: "dereference",
    pointer: { op: "load", place: { ...member, type: pointer }, type: pointer, start: node.start, end: node.end },
    type: capture.type,
    start: node.start,
    end: node.end,
  };
}

/** The value of an expression: places are read, arrays and functions become pointers. */
export function rvalue(run: Lowering, body: Body, expression: Expression): Expression {
  void run;
  void body;
  if (!isPlace(expression)) return expression;
  const { start, end } = expression;
  if (expression.type.kind === "array") {
    const first: Place = {
      op: "index",
      base: expression,
      index: { op: "integer", value: 0, type: INT16, start, end },
      type: expression.type.of,
      start,
      end,
    };
    markAddressTaken(expression);
    return { op: "address", place: first, type: { kind: "pointer", to: expression.type.of }, start, end };
  }
  if (expression.type.kind === "record" || expression.type.kind === "opaque") return expression;
  if (expression.type.kind === "function") return addressOf(expression);
  return { op: "load", place: expression, type: expression.type, start, end };
}

export function lowerValue(run: Lowering, body: Body, node: SyntaxNode): Expression {
  return rvalue(run, body, lowerExpression(run, body, node));
}

/** Implicit conversion to `type`. */
export function convertTo(
  run: Lowering,
  body: Body,
  expression: Expression,
  type: Type,
  node: { start: number; end: number },
): Expression {
  if (type.kind === "reference") return referenceTo(run, body, expression, type.to, node);
  const list = type.kind === "record" ? untypedList(expression) : undefined;
  if (list !== undefined) return listAsRecord(run, body, type, list);
  if (type.kind === "record") {
    if (expression.type.kind === "record" && expression.type.record === type.record) return expression;
    const temporary = run.temporary(body, type, node.start);
    const place = placeOf(temporary, node.start, node.end);
    body.out.push({ op: "declare", variable: temporary, zero: false, start: node.start });
    convertIntoRecord(run, body, place, expression, node);
    return place;
  }
  if (expression.type.kind === "record" && type.kind !== "opaque") {
    const converted = convertObject(run, body, expression, type, node);
    if (converted !== null) return convertTo(run, body, converted, type, node);
    if (expression.type.record.fields.length === 0 && type.kind === "pointer")
      return unknown(run, node, "object used as a pointer");
  }
  const value = rvalue(run, body, expression);
  if (sameType(value.type, type)) return value;
  return { op: "convert", operand: asRelative(value, type), type, start: value.start, end: value.end };
}

function convertIntoRecord(
  run: Lowering,
  body: Body,
  place: Place,
  expression: Expression,
  node: { start: number; end: number },
): void {
  const derived = expression.type.kind === "record" ? expression.type.record : null;
  if (derived !== null && isPlace(expression) && place.type.kind === "record") {
    const path = baseWithin(expression, derived, place.type.record);
    if (path !== null) {
      body.out.push({ op: "copy", target: place, source: path, start: node.start });
      return;
    }
  }
  constructFrom(run, body, place, [expression], node);
}

/** The part of `place` that is its base class `wanted`. */
export function baseWithin(place: Place, from: RecordType, wanted: RecordType): Place | null {
  if (from === wanted) return place;
  for (const base of from.bases) {
    const inner = memberOf(place, {
      name: base.record.name,
      type: { kind: "record", record: base.record },
      offset: base.offset,
    });
    const found = baseWithin(inner, base.record, wanted);
    if (found !== null) return found;
  }
  return null;
}

function constructFrom(
  run: Lowering,
  body: Body,
  place: Place,
  args: readonly Expression[],
  node: { start: number; end: number },
): void {
  if (place.type.kind !== "record") return;
  const info = run.records.get(place.type.record);
  const chosen = info === undefined ? null : chooseOverload(run, info.constructors, args, null);
  if (chosen === null) {
    run.gap(node, `no way to make a ${place.type.record.name} of this`);
    return;
  }
  callFunction(run, body, chosen, args, addressOf(place), node);
}

/** A pointer to where the expression's value lives; a temporary is made for a plain value. */
export function referenceTo(
  run: Lowering,
  body: Body,
  expression: Expression,
  to: Type,
  node: { start: number; end: number },
): Expression {
  const pointer: Type = { kind: "pointer", to };
  const { start, end } = node;
  const list = to.kind === "record" ? untypedList(expression) : undefined;
  if (list !== undefined) return { ...addressOf(listAsRecord(run, body, to, list)), type: pointer } as Expression;
  if (isPlace(expression)) {
    if (expression.type.kind === "record" && to.kind === "record" && expression.type.record !== to.record) {
      const base = baseWithin(expression, expression.type.record, to.record);
      if (base !== null) return { ...(addressOf(base) as Extract<Expression, { op: "address" }>), type: pointer };
    }
    if (sameType(expression.type, to) || expression.type.kind !== "integer" || to.kind !== "integer") {
      markAddressTaken(expression);
      return { op: "address", place: expression, type: pointer, start, end };
    }
  }
  if (to.kind === "function" && expression.op === "function") return { ...expression, type: pointer };
  const temporary = run.temporary(body, to, start);
  temporary.addressTaken = true;
  const value = to.kind === "record" ? expression : convertTo(run, body, expression, to, node);
  if (to.kind === "record") {
    const place = placeOf(temporary, start, end);
    body.out.push({ op: "declare", variable: temporary, zero: false, start });
    convertIntoRecord(run, body, place, value, node);
    return { op: "address", place, type: pointer, start, end };
  }
  const place: Place = { op: "temporary", variable: temporary, value, type: to, start, end };
  return { op: "address", place, type: pointer, start, end };
}

function lowerUnary(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const operator = child(node, "operator")?.kind ?? "";
  const argument = child(node, "argument");
  const { start, end } = node;
  if (argument === undefined) return unknown(run, node, "half an expression");
  const operand =
    operator === "&" ? untraced(run, () => lowerExpression(run, body, argument)) : lowerExpression(run, body, argument);
  if (operand.type.kind === "record") {
    const own = operatorCall(run, body, `operator${operator}`, operand, [], node);
    if (own !== null) return own;
  }
  switch (operator) {
    case "&": {
      if (operand.op === "function") return operand;
      const place = operand.op === "traced" ? undefined : operand;
      if (place === undefined || !isPlace(place)) return unknown(run, node, "address of a value");
      return { ...(addressOf(place) as Extract<Expression, { op: "address" }>), start, end };
    }
    case "*": {
      const pointer = rvalue(run, body, operand);
      if (pointer.op === "function") return pointer;
      if (pointer.type.kind !== "pointer") return unknown(run, node, "dereference of what is no pointer", [pointer]);
      if (pointer.type.to.kind === "function") return { ...pointer, start, end } as Expression;
      return { op: "dereference", pointer, type: pointer.type.to, start, end };
    }
    case "!":
    case "not":
      return { op: "not", operand: condition(run, body, operand, node), type: BOOL, start, end };
    case "-":
    case "~":
    case "compl":
    case "+": {
      const value = rvalue(run, body, operand);
      if (value.type.kind !== "integer" && value.type.kind !== "float")
        return unknown(run, node, value.op === "unknown" ? "" : "arithmetic on what is no number", [value]);
      const type = promoted(value.type);
      const widened = convertTo(run, body, value, type, node);
      if (operator === "+") return widened;
      return { op: operator === "-" ? "negate" : "complement", operand: widened, type, start, end };
    }
    default:
      return unknown(run, node, `operator ${operator} not followed`, [rvalue(run, body, operand)]);
  }
}

/** The expression as something true or false. */
export function condition(
  run: Lowering,
  body: Body,
  expression: Expression,
  node: { start: number; end: number },
): Expression {
  if (expression.type.kind === "record") {
    const converted = convertObject(run, body, expression, BOOL, node);
    if (converted !== null) return rvalue(run, body, converted);
  }
  return rvalue(run, body, expression);
}

const ARITHMETIC = new Set(["+", "-", "*", "/", "%", "&", "|", "^", "<<", ">>"]);
const COMPARISONS = new Set(["<", "<=", ">", ">=", "==", "!="]);
const SPELLED: Readonly<Record<string, string>> = {
  and: "&&",
  or: "||",
  bitand: "&",
  bitor: "|",
  xor: "^",
  not_eq: "!=",
};

function lowerBinary(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const leftNode = child(node, "left");
  const rightNode = child(node, "right");
  const written = child(node, "operator")?.kind ?? "";
  const operator = SPELLED[written] ?? written;
  if (leftNode === undefined || rightNode === undefined) return unknown(run, node, "half an expression");
  const disguised = castInDisguise(run, body, node, leftNode, rightNode, operator);
  if (disguised !== null) return lowerExpression(run, body, disguised);
  if (operator === "&&" || operator === "||") return lowerLogical(run, body, node, operator, leftNode, rightNode);
  const left = lowerExpression(run, body, leftNode);
  const right = lowerExpression(run, body, rightNode);
  if (hasOperators(left.type) || hasOperators(right.type)) {
    const own = operatorCall(run, body, `operator${operator}`, left, [right], node);
    if (own !== null) return own;
  }
  return arithmetic(run, body, operator, asNumber(run, body, left, node), asNumber(run, body, right, node), node);
}

/** An object as what its conversion operator makes of it; anything else as it is. */
function asNumber(run: Lowering, body: Body, expression: Expression, node: { start: number; end: number }): Expression {
  if (expression.type.kind !== "record") return expression;
  return convertObject(run, body, expression, INT16, node) ?? expression;
}

const PREFIXES: Readonly<Record<string, string>> = {
  "-": "unary_expression",
  "+": "unary_expression",
  "*": "pointer_expression",
  "&": "pointer_expression",
};

/**
 * `(word)-x % y` is to the parser a subtraction from `(word)`. Where the parentheses hold a type it is a cast of `-x`,
 * which binds tighter than anything that follows. Null where it is what it looks like.
 */
function castInDisguise(
  run: Lowering,
  body: Body,
  node: SyntaxNode,
  left: SyntaxNode,
  right: SyntaxNode,
  operator: string,
): SyntaxNode | null {
  const prefix = PREFIXES[operator];
  const inner = left.kind === "parenthesized_expression" ? left.children.find((part) => part.named) : undefined;
  if (prefix === undefined || inner === undefined) return null;
  if (inner.kind !== "identifier" && inner.kind !== "qualified_identifier") return null;
  if (!namesType(run, body.scope, inner)) return null;
  const token = child(node, "operator")!;
  const castOf = (operand: SyntaxNode): SyntaxNode => {
    const argument: SyntaxNode = { ...operand, field: "argument" };
    const unary: SyntaxNode = {
      kind: prefix,
      start: token.start,
      end: operand.end,
      field: "value",
      named: true,
      children: [token, argument],
    };
    const type: SyntaxNode = { ...inner, kind: "type_identifier", field: "type" };
    const descriptor: SyntaxNode = { ...inner, kind: "type_descriptor", field: "type", children: [type] };
    return {
      kind: "cast_expression",
      start: left.start,
      end: operand.end,
      field: operand.field,
      named: true,
      children: [descriptor, unary],
    };
  };
  const replaceFirst = (tree: SyntaxNode): SyntaxNode => {
    const first = tree.kind === "binary_expression" ? child(tree, "left") : undefined;
    if (first === undefined) return castOf(tree);
    return {
      ...tree,
      start: left.start,
      children: tree.children.map((part) => (part === first ? replaceFirst(first) : part)),
    };
  };
  return { ...replaceFirst(right), field: node.field };
}

/** Types for which the sketch or a library may define operators. */
function hasOperators(type: Type): boolean {
  return type.kind === "record" || type.kind === "opaque";
}

/** An operator between texts of the core or objects of its quiet classes: an unknown result, nothing else. */
function quietOperation(
  operator: string,
  left: Expression,
  right: Expression,
  node: { start: number; end: number },
): Expression | null {
  const object = [left, right].find(({ type }) => type.kind === "opaque" && CORE_CLASSES.get(type.name) === "quiet");
  if (object === undefined) return null;
  const type = COMPARISONS.has(operator) ? BOOL : object.type;
  return { op: "unknown", why: "", operands: [left, right], harmless: true, type, start: node.start, end: node.end };
}

/** `left op right` for numbers and pointers. */
export function arithmetic(
  run: Lowering,
  body: Body,
  operator: string,
  leftSide: Expression,
  rightSide: Expression,
  node: { start: number; end: number },
): Expression {
  const { start, end } = node;
  const left = rvalue(run, body, leftSide);
  const right = rvalue(run, body, rightSide);
  const quiet = quietOperation(operator, left, right, node);
  if (quiet !== null) return quiet;
  if (COMPARISONS.has(operator)) return comparison(run, body, operator as Comparison, left, right, node);
  if (!ARITHMETIC.has(operator)) return unknown(run, node, `operator ${operator} not followed`, [left, right]);
  if (left.type.kind === "pointer" || right.type.kind === "pointer") {
    return pointerArithmetic(run, operator, left, right, node);
  }
  const bothNumbers =
    (left.type.kind === "integer" || left.type.kind === "float") &&
    (right.type.kind === "integer" || right.type.kind === "float");
  if (!bothNumbers) return unknown(run, node, "", [left, right]);
  if (operator === "<<" || operator === ">>") {
    const type = promoted(left.type);
    return {
      op: "binary",
      operator,
      left: convertTo(run, body, left, type, node),
      right: convertTo(run, body, right, promoted(right.type), node),
      type,
      start,
      end,
    };
  }
  const type = commonArithmetic(left.type, right.type);
  return {
    op: "binary",
    operator: operator as BinaryOperator,
    left: convertTo(run, body, left, type, node),
    right: convertTo(run, body, right, type, node),
    type,
    start,
    end,
  };
}

function comparison(
  run: Lowering,
  body: Body,
  operator: Comparison,
  left: Expression,
  right: Expression,
  node: { start: number; end: number },
): Expression {
  const { start, end } = node;
  const numbers =
    (left.type.kind === "integer" || left.type.kind === "float") &&
    (right.type.kind === "integer" || right.type.kind === "float");
  if (numbers) {
    const type = commonArithmetic(left.type, right.type);
    return {
      op: "compare",
      operator,
      left: convertTo(run, body, left, type, node),
      right: convertTo(run, body, right, type, node),
      type: BOOL,
      start,
      end,
    };
  }
  if (left.type.kind === "pointer" || right.type.kind === "pointer") {
    return { op: "compare", operator, left, right, type: BOOL, start, end };
  }
  return { ...unknown(run, node, "", [left, right]), type: BOOL } as Expression;
}

function pointerArithmetic(
  run: Lowering,
  operator: string,
  left: Expression,
  right: Expression,
  node: { start: number; end: number },
): Expression {
  const { start, end } = node;
  if (left.type.kind === "pointer" && right.type.kind === "pointer") {
    if (operator !== "-") return unknown(run, node, "arithmetic on two pointers", [left, right]);
    return { op: "distance", left, right, size: Math.max(1, sizeOf(left.type.to)), type: INT16, start, end };
  }
  const pointer = left.type.kind === "pointer" ? left : right;
  const count = pointer === left ? right : left;
  if (pointer.type.kind !== "pointer" || count.type.kind !== "integer" || (operator !== "+" && operator !== "-")) {
    return unknown(run, node, "arithmetic on a pointer", [left, right]);
  }
  return {
    op: "offset",
    pointer,
    count,
    size: Math.max(1, sizeOf(pointer.type.to)),
    negative: operator === "-",
    type: pointer.type,
    start,
    end,
  };
}

function lowerLogical(
  run: Lowering,
  body: Body,
  node: SyntaxNode,
  operator: "&&" | "||",
  leftNode: SyntaxNode,
  rightNode: SyntaxNode,
): Expression {
  const { start, end } = node;
  const left = condition(run, body, lowerExpression(run, body, leftNode), leftNode);
  const [right, before] = aside(body, () => condition(run, body, lowerExpression(run, body, rightNode), rightNode));
  const op = operator === "&&" ? "and" : "or";
  if (before.length === 0) return { op, left, right, type: BOOL, start, end };
  // The right side calls a function: it may only run where the left side lets it.
  const temporary = run.temporary(body, BOOL, start);
  const place = placeOf(temporary, start, end);
  const load: Expression = { op: "load", place, type: BOOL, start, end };
  body.out.push({ op: "declare", variable: temporary, zero: false, start });
  body.out.push({ op: "initialise", target: place, value: toBool(left), start, end });
  body.out.push({
    op: "if",
    condition: operator === "&&" ? load : { op: "not", operand: load, type: BOOL, start, end },
    yes: { op: "block", body: [...before, { op: "initialise", target: place, value: toBool(right), start, end }] },
    no: null,
    start,
    end,
    quiet: true,
  });
  return load;
}

export function toBool(expression: Expression): Expression {
  return sameType(expression.type, BOOL)
    ? expression
    : { op: "convert", operand: expression, type: BOOL, start: expression.start, end: expression.end };
}

/** Lowers something with its own list of statements before it. */
export function aside<T>(body: Body, work: () => T): readonly [T, Statement[]] {
  const outer = body.out;
  const own: Statement[] = [];
  body.out = own;
  const result = work();
  body.out = outer;
  return [result, own];
}

function lowerConditional(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const conditionNode = child(node, "condition");
  const thenNode = child(node, "consequence");
  const elseNode = child(node, "alternative");
  if (conditionNode === undefined || elseNode === undefined) return unknown(run, node, "half a conditional expression");
  const test = condition(run, body, lowerExpression(run, body, conditionNode), conditionNode);
  const [then, beforeThen] = aside(body, () => lowerExpression(run, body, thenNode ?? conditionNode));
  const [otherwise, beforeElse] = aside(body, () => lowerExpression(run, body, elseNode));
  const bothPlaces = isPlace(then) && isPlace(otherwise) && sameType(then.type, otherwise.type);
  const isVoid = then.type.kind === "void" || otherwise.type.kind === "void";
  const asStatements = beforeThen.length > 0 || beforeElse.length > 0 || isVoid || then.type.kind === "record";
  if (!asStatements) {
    const a = rvalue(run, body, then);
    const b = rvalue(run, body, otherwise);
    const type = conditionalType(a.type, b.type);
    if (bothPlaces && (a.type.kind === "opaque" || b.type.kind === "opaque")) return unknown(run, node, "", [a, b]);
    return {
      op: "choose",
      condition: test,
      yes: convertTo(run, body, a, type, node),
      no: convertTo(run, body, b, type, node),
      type,
      start,
      end,
    };
  }
  const type = isVoid ? ({ kind: "void" } as const) : conditionalType(decayed(then.type), decayed(otherwise.type));
  const temporary = isVoid ? null : run.temporary(body, type, start);
  if (temporary !== null) body.out.push({ op: "declare", variable: temporary, zero: false, start });
  const arm = (value: Expression, before: readonly Statement[]): Statement => {
    const [, after] = aside(body, () => {
      if (temporary === null) {
        body.out.push({ op: "expression", expression: value, start, end });
        return;
      }
      const place = placeOf(temporary, start, end);
      if (type.kind === "record" && isPlace(value)) body.out.push({ op: "copy", target: place, source: value, start });
      else
        body.out.push({ op: "initialise", target: place, value: convertTo(run, body, value, type, node), start, end });
    });
    return { op: "block", body: [...before, ...after] };
  };
  body.out.push({
    op: "if",
    condition: test,
    yes: arm(then, beforeThen),
    no: arm(otherwise, beforeElse),
    start,
    end,
  });
  if (temporary === null) return { op: "unknown", why: "", operands: [], harmless: true, type, start, end };
  return placeOf(temporary, start, end);
}

function conditionalType(left: Type, right: Type): Type {
  if (sameType(left, right)) return left;
  const numbers =
    (left.kind === "integer" || left.kind === "float") && (right.kind === "integer" || right.kind === "float");
  if (numbers) return commonArithmetic(left, right);
  return left.kind === "pointer" ? left : right.kind === "pointer" ? right : left;
}

/** True where the place may be a register, so that the write is worth keeping as written. */
function mayBeRegister(place: Expression): boolean {
  switch (place.op) {
    case "register":
    case "dereference":
      return true;
    case "index":
    case "member":
      return mayBeRegister(place.base);
    default:
      return false;
  }
}

function lowerAssignment(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const leftNode = child(node, "left");
  const rightNode = child(node, "right");
  const token = child(node, "operator")?.kind ?? "=";
  if (leftNode === undefined || rightNode === undefined) return unknown(run, node, "half an assignment");
  const operator = token === "=" ? null : (token.slice(0, -1) as BinaryOperator);
  // The right side first: calls in it may change what the left side names.
  const outerTrace = run.tracing;
  run.tracing = null;
  const target = lowerExpression(run, body, leftNode);
  const tracing = isPlace(target) && mayBeRegister(target);
  run.tracing = tracing ? [] : null;
  const value =
    rightNode.kind === "initializer_list" && target.type.kind === "record"
      ? listAsRecord(run, body, target.type, rightNode)
      : lowerExpression(run, body, rightNode);
  const root = run.tracing?.pop() ?? null;
  run.tracing = outerTrace;
  let written = -1;
  if (tracing) {
    written = run.written.length;
    run.written.push(root);
  }
  if (target.type.kind === "record" && operator !== null) {
    const own = operatorCall(run, body, `operator${token}`, target, [value], node);
    if (own !== null) return own;
  }
  return assign(run, body, target, operator, value, node, written);
}

function assign(
  run: Lowering,
  body: Body,
  target: Expression,
  operator: BinaryOperator | null,
  given: Expression,
  node: SyntaxNode,
  written: number,
): Expression {
  const isObject = given.type.kind === "record" && target.type.kind !== "record";
  const value = isObject ? (convertObject(run, body, given, target.type, node) ?? given) : given;
  const { start, end } = node;
  if (!isPlace(target)) {
    const why = target.op === "unknown" ? "" : "assignment to what is no place";
    return unknown(run, node, why, [target, rvalue(run, body, value)]);
  }
  if (target.type.kind === "record") {
    const own = operatorCall(run, body, "operator=", target, [value], node);
    if (own !== null) return own;
    const source = convertTo(run, body, value, target.type, node);
    if (isPlace(source) && source.type.kind === "record") {
      body.out.push({ op: "copy", target, source, start });
      return target;
    }
    return unknown(run, node, "object set from something not followed", [source]);
  }
  if (target.type.kind === "opaque") {
    return unknown(run, node, target.op === "nowhere" ? target.why : "", [target, rvalue(run, body, value)]);
  }
  const right = rvalue(run, body, value);
  if (operator === null) {
    return {
      op: "assign",
      target,
      operator,
      working: right.type,
      value: convertTo(run, body, value, target.type, node),
      asked: written >= 0 ? right : null,
      written,
      increment: null,
      old: false,
      type: target.type,
      start,
      end,
    };
  }
  if (target.type.kind === "pointer") {
    const moved = pointerArithmetic(
      run,
      operator,
      { op: "load", place: target, type: target.type, start, end },
      right,
      node,
    );
    return {
      op: "assign",
      target,
      operator: null,
      working: target.type,
      value: moved,
      asked: null,
      written: -1,
      increment: null,
      old: false,
      type: target.type,
      start,
      end,
    };
  }
  const shift = operator === "<<" || operator === ">>";
  const numbers =
    (target.type.kind === "integer" || target.type.kind === "float") &&
    (right.type.kind === "integer" || right.type.kind === "float");
  if (!numbers) {
    return {
      op: "assign",
      target,
      operator: null,
      working: target.type,
      value: { op: "convert", operand: unknown(run, node, "", [right]), type: target.type, start, end },
      asked: null,
      written: -1,
      increment: null,
      old: false,
      type: target.type,
      start,
      end,
    };
  }
  const working = shift ? promoted(target.type) : commonArithmetic(target.type, right.type);
  return {
    op: "assign",
    target,
    operator,
    working,
    value: shift ? convertTo(run, body, right, promoted(right.type), node) : convertTo(run, body, right, working, node),
    asked: null,
    written,
    increment: null,
    old: false,
    type: target.type,
    start,
    end,
  };
}

function lowerUpdate(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const argument = child(node, "argument");
  const operatorNode = child(node, "operator");
  if (argument === undefined || operatorNode === undefined) return unknown(run, node, "half an expression");
  const target = untraced(run, () => lowerExpression(run, body, argument));
  const increment = operatorNode.kind === "++" ? "++" : "--";
  const postfix = operatorNode.start > argument.start;
  if (target.type.kind === "record") {
    const own = operatorCall(
      run,
      body,
      `operator${increment}`,
      target,
      postfix ? [{ op: "integer", value: 0, type: INT16, start, end }] : [],
      node,
    );
    if (own !== null) return own;
  }
  if (!isPlace(target)) return unknown(run, node, "counting what is no place", [target]);
  const one: Expression = { op: "integer", value: 1, type: INT16, start, end };
  if (target.type.kind === "pointer") {
    const moved: Expression = {
      op: "offset",
      pointer: { op: "load", place: target, type: target.type, start, end },
      count: one,
      size: Math.max(1, sizeOf(target.type.to)),
      negative: increment === "--",
      type: target.type,
      start,
      end,
    };
    return {
      op: "assign",
      target,
      operator: null,
      working: target.type,
      value: moved,
      asked: null,
      written: -1,
      increment,
      old: postfix,
      type: target.type,
      start,
      end,
    };
  }
  if (target.type.kind !== "integer" && target.type.kind !== "float") return unknown(run, node, "", [target]);
  const working = commonArithmetic(target.type, INT16);
  return {
    op: "assign",
    target,
    operator: increment === "++" ? "+" : "-",
    working,
    value: convertTo(run, body, one, working, node),
    asked: null,
    written: -1,
    increment,
    old: postfix,
    type: target.type,
    start,
    end,
  };
}

/** A cast, by whatever spelling. */
export function cast(
  run: Lowering,
  body: Body,
  expression: Expression,
  type: Type,
  node: { start: number; end: number },
): Expression {
  const { start, end } = node;
  if (type.kind === "void") {
    body.out.push({ op: "expression", expression, start, end });
    return { op: "unknown", why: "", operands: [], harmless: true, type, start, end };
  }
  if (type.kind === "reference" && isPlace(expression)) {
    // A reinterpreting cast: the same place seen as another type.
    const pointer: Type = { kind: "pointer", to: type.to };
    const address = addressOf(expression);
    return {
      op: "dereference",
      pointer: { op: "convert", operand: address, type: pointer, start, end },
      type: type.to,
      start,
      end,
    };
  }
  const converted = convertTo(run, body, expression, type, node);
  return isPlace(converted) ? converted : { ...converted, start, end };
}

function lowerSubscript(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const argument = child(node, "argument");
  const indices = child(node, "indices") ?? child(node, "index");
  const indexNode = indices?.kind === "subscript_argument_list" ? indices.children.find((part) => part.named) : indices;
  if (argument === undefined || indexNode === undefined) return unknown(run, node, "half an index");
  const base = untraced(run, () => lowerExpression(run, body, argument));
  const index = lowerExpression(run, body, indexNode);
  if (base.type.kind === "record") {
    const own = operatorCall(run, body, "operator[]", base, [index], node);
    if (own !== null) return own;
  }
  const position = rvalue(run, body, index);
  if (isPlace(base) && base.type.kind === "array") {
    return { op: "index", base, index: position, type: base.type.of, start, end };
  }
  const pointer = rvalue(run, body, base);
  if (pointer.type.kind !== "pointer") return unknown(run, node, "", [pointer, position]);
  const size = Math.max(1, sizeOf(pointer.type.to));
  const moved: Expression = {
    op: "offset",
    pointer,
    count: position,
    size,
    negative: false,
    type: pointer.type,
    start,
    end,
  };
  return { op: "dereference", pointer: moved, type: pointer.type.to, start, end };
}

function lowerField(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const argument = child(node, "argument");
  const fieldNode = child(node, "field");
  const arrow = child(node, "operator")?.kind === "->";
  if (argument === undefined || fieldNode === undefined) return unknown(run, node, "half a member access");
  const object = untraced(run, () => objectOf(run, body, lowerExpression(run, body, argument), arrow, node));
  if (object.type.kind !== "record" || !isPlace(object)) return unknown(run, node, "", [object]);
  const scope = scopeOfType(run, object.type);
  const meaning = scope?.own(run.textOf(fieldNode));
  if (meaning?.kind === "field") {
    const place =
      fieldThroughBases(object, object.type.record, meaning.record, meaning.field, node) ??
      memberOf(object, meaning.field);
    return throughReference({ ...place, start, end } as Place, node);
  }
  if (meaning?.kind === "variable") return placeOf(meaning.variable, start, end);
  if (meaning?.kind === "constant") return { op: "integer", value: meaning.value, type: meaning.type, start, end };
  return unknown(run, node, `${run.textOf(fieldNode)} is no member of ${object.type.record.name}`);
}

/** What stands before `.` or `->`, as a place. */
export function objectOf(
  run: Lowering,
  body: Body,
  expression: Expression,
  arrow: boolean,
  node: { start: number; end: number },
): Expression {
  const { start, end } = node;
  if (!arrow) return expression;
  if (expression.type.kind === "record") {
    const own = operatorCall(run, body, "operator->", expression, [], node);
    if (own !== null) return objectOf(run, body, own, true, node);
  }
  const pointer = rvalue(run, body, expression);
  if (pointer.type.kind !== "pointer") return unknown(run, node, "", [pointer]);
  return { op: "dereference", pointer, type: pointer.type.to, start, end };
}

function lowerSizeof(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const typeNode = child(node, "type");
  const valueNode = child(node, "value");
  let type: Type | null = null;
  const pack = valueNode === undefined ? undefined : body.scope.find(run.textOf(valueNode));
  if (pack?.kind === "pack") return { op: "integer", value: pack.items.length, type: UINT16, start, end };
  if (typeNode !== undefined) type = readTypeDescriptor(run, body.scope, typeNode);
  else if (valueNode !== undefined) {
    const inner =
      valueNode.kind === "parenthesized_expression"
        ? (valueNode.children.find((part) => part.named) ?? valueNode)
        : valueNode;
    if (inner.kind === "identifier" && namesType(run, body.scope, inner)) type = readType(run, body.scope, inner);
    else [type] = aside(body, () => lowerExpression(run, body, valueNode).type);
    if (inner.kind === "string_literal") type = { kind: "array", of: CHAR, length: textBytes(run, inner).length + 1 };
  }
  const size = type === null ? 0 : node.kind === "alignof_expression" ? 1 : sizeOf(type);
  if (size === 0) return { ...unknown(run, node, "size of something that was not seen"), type: UINT16 } as Expression;
  return { op: "integer", value: size, type: UINT16, start, end };
}
