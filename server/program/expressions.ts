/** Expressions, each by its kind. Law: a place stays a place, and calls of the sketch's own functions become statements before. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { lowerBinary, lowerUnary } from "./arithmetic.js";
import { lowerAssembly } from "./assembly.js";
import { lowerAssignment, lowerUpdate } from "./assignments.js";
import { lowerCall } from "./calls.js";
import { cast, NAMED_CASTS } from "./casts.js";
import { lowerConditional } from "./choices.js";
import { readTypeDescriptor } from "./declarators.js";
import { lowerOwnLiteral, lowerStatementExpression } from "./extensions.js";
import { lowerNew } from "./heap.js";
import type { Expression } from "./ir.js";
import { lowerLambda } from "./lambda.js";
import { listWithoutType, lowerCompoundLiteral } from "./lists.js";
import { readCharacter, readNumber } from "./literals.js";
import type { Body, Lowering } from "./lowering.js";
import { lowerField, lowerSubscript } from "./member-access.js";
import { lowerChosenMember, memberPointerAccess } from "./member-pointers.js";
import { postfixReadAsOutermost } from "./misread.js";
import { comparisonReadAsTemplate, type Names } from "./misread-templates.js";
import { fromMeaning, lowerName, lowerThis } from "./names.js";
import { packElement } from "./packs.js";
import { findQualified } from "./qualified-names.js";
import { lowerOffsetof, lowerSizeof } from "./sizes.js";
import { noValue, unknown } from "./stand-ins.js";
import { lowerText } from "./texts.js";
import { traced } from "./tracing.js";
import { BOOL, FLOAT, INT16 } from "./types.js";

const MAX_DEPTH = 400;

/** Lowers one expression; a place stays a place. Statements it needs first go to `body.out`. */
export function lowerExpression(run: Lowering, body: Body, node: SyntaxNode): Expression {
  if (run.depth > MAX_DEPTH) return unknown(node, "expression nested too deeply");
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
      if (read === null) return unknown(node, "number not understood");
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
      const meant = withoutMisreadTemplates(run, body, node);
      if (meant !== null) return lowerExpression(run, body, meant);
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
      return unknown(node, `${run.textOf(node)} was not seen`);
    }
    case "this":
      return lowerThis(run, body, node);
    case "parenthesized_expression": {
      const inner = node.children.find((part) => part.named);
      if (inner?.kind === "compound_statement") return lowerStatementExpression(run, body, inner);
      return inner === undefined ? unknown(node, "empty parentheses") : lowerExpression(run, body, inner);
    }
    case "unary_expression":
    case "pointer_expression":
      return lowerUnary(run, body, node);
    case "binary_expression": {
      const meant = withoutMisreadTemplates(run, body, node);
      return meant === null ? lowerBinary(run, body, node) : lowerExpression(run, body, meant);
    }
    case "update_expression": {
      const meant = postfixReadAsOutermost(node);
      return meant === null ? lowerUpdate(run, body, node) : lowerExpression(run, body, meant);
    }
    case "assignment_expression": {
      const meant = withoutMisreadTemplates(run, body, node);
      return meant === null ? lowerAssignment(run, body, node) : lowerExpression(run, body, meant);
    }
    case "conditional_expression": {
      const meant = withoutMisreadTemplates(run, body, node);
      return meant === null ? lowerConditional(run, body, node) : lowerExpression(run, body, meant);
    }
    case "comma_expression": {
      const left = child(node, "left");
      const right = child(node, "right");
      if (left === undefined || right === undefined) return unknown(node, "half a comma expression");
      const first = lowerExpression(run, body, left);
      body.out.push({ op: "expression", expression: first, start: left.start, end: left.end });
      return lowerExpression(run, body, right);
    }
    case "cast_expression": {
      const meant = withoutMisreadTemplates(run, body, node);
      if (meant !== null) return lowerExpression(run, body, meant);
      const typeNode = child(node, "type");
      const value = child(node, "value");
      if (typeNode === undefined || value === undefined) return unknown(node, "half a cast");
      const type = readTypeDescriptor(run, body.scope, typeNode);
      return cast(run, body, lowerExpression(run, body, value), type ?? INT16, node);
    }
    case "call_expression": {
      const meant = withoutMisreadTemplates(run, body, node);
      return meant === null ? lowerCall(run, body, node) : lowerExpression(run, body, meant);
    }
    case "subscript_expression":
    case "field_expression": {
      const chosen = memberPointerAccess(run, node);
      if (chosen !== null) return lowerChosenMember(run, body, chosen, node);
      return node.kind === "field_expression" ? lowerField(run, body, node) : lowerSubscript(run, body, node);
    }
    case "sizeof_expression":
    case "alignof_expression":
      return lowerSizeof(run, body, node);
    case "offsetof_expression":
      return lowerOffsetof(run, body, node);
    case "lambda_expression":
      return lowerLambda(run, body, node);
    case "new_expression":
      return lowerNew(run, body, node);
    case "delete_expression":
      return noValue(node);
    case "compound_literal_expression":
      return lowerCompoundLiteral(run, body, node);
    case "pack_element": {
      const element = packElement(node);
      if (element === undefined) return unknown(node, "parameter pack not followed");
      const outer = body.scope;
      body.scope = element.scope;
      const value = lowerExpression(run, body, element.pattern);
      body.scope = outer;
      return value;
    }
    case "initializer_list": {
      const first = node.children.filter((part) => part.named);
      if (first.length === 1) return lowerExpression(run, body, first[0]!);
      if (first.length === 0) return listWithoutType(node, true);
      return listWithoutType(node);
    }
    case "user_defined_literal":
      return lowerOwnLiteral(run, body, node);
    case "extension_expression": {
      const inner = node.children.find((part) => part.named);
      return inner === undefined ? unknown(node, "extension") : lowerExpression(run, body, inner);
    }
    case "gnu_asm_expression":
      return lowerAssembly(run, body, node);
    default:
      return unknown(node, node.kind === "ERROR" ? "not understood" : `${node.kind.replaceAll("_", " ")} not followed`);
  }
}

function withoutMisreadTemplates(run: Lowering, body: Body, node: SyntaxNode): SyntaxNode | null {
  return comparisonReadAsTemplate(node, namesHere(run, body));
}

export function namesHere(run: Lowering, body: Body): Names {
  return {
    isTemplate: (name) => mayBeTemplate(run, body, name),
    isValue: (name) => {
      const text = run.textOf(name);
      const meaning =
        name.kind === "qualified_identifier" ? findQualified(run, body.scope, name) : body.scope.find(text);
      if (meaning === undefined) return name.kind !== "qualified_identifier" && run.registers.has(text);
      return meaning.kind !== "type" && !meaning.kind.endsWith("template");
    },
  };
}

function mayBeTemplate(run: Lowering, body: Body, name: SyntaxNode): boolean {
  const text = run.textOf(name);
  if (NAMED_CASTS.has(text)) return true;
  const meaning = body.scope.find(text);
  return (
    meaning?.kind === "class template" ||
    meaning?.kind === "functions" ||
    (meaning === undefined && !run.registers.has(text))
  );
}
