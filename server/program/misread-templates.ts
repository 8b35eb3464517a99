/**
 * `a < b && c > (d)` is to the parser, which knows no names, a call of the template `a<b && c>`, and `i < Size<5>::value`
 * a member of the template `i`. Where the name is no template the whole chain of operators is put together again by
 * precedence (C++11 clause 5). So is `(Size<5>::value) + 1`, read as a conversion of `+1`.
 */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { castOfValue } from "./misread-casts.js";
import { typeReadAsExpression } from "./misread-types.js";

const PRECEDENCE: Readonly<Record<string, number>> = {
  "*": 10,
  "/": 10,
  "%": 10,
  "+": 9,
  "-": 9,
  "<<": 8,
  ">>": 8,
  "<": 7,
  ">": 7,
  "<=": 7,
  ">=": 7,
  "==": 6,
  "!=": 6,
  "&": 5,
  "^": 4,
  "|": 3,
  "&&": 2,
  "||": 1,
};

/** Operators that may also stand before an operand. */
const SIGNED: Readonly<Record<string, string>> = {
  "-": "unary_expression",
  "+": "unary_expression",
  "*": "pointer_expression",
  "&": "pointer_expression",
};

type Piece =
  | { readonly operand: SyntaxNode }
  | { readonly operator: SyntaxNode }
  /** `? consequence :`, which binds less than all others. */
  | { readonly consequence: SyntaxNode; readonly at: SyntaxNode }
  /** Between two arguments of the call around. */
  | { readonly comma: true };

/** What is known of names where the expression stands. */
export interface Names {
  /** Whether `name <` can open a template's arguments. */
  isTemplate(name: SyntaxNode): boolean;
  /** Whether a name, qualified or not, is surely that of a value. */
  isValue(name: SyntaxNode): boolean;
}

/** The chain as C++ means it; null where no operator in it was misread. */
export function comparisonReadAsTemplate(node: SyntaxNode, names: Names): SyntaxNode | null {
  if (!holdsMisread(node, names)) return null;
  const pieces: Piece[] = [];
  if (!flatten(node, pieces, names) || pieces.some((piece) => "comma" in piece)) return null;
  const built = climb(pieces, { at: 0 }, 0);
  return built === null ? null : { ...built, field: node.field };
}

/** `f(a < b, c > (d))` has two arguments, not one: the arguments as C++ means them. */
export function argumentsReadAsTemplate(nodes: readonly SyntaxNode[], names: Names): readonly SyntaxNode[] {
  return nodes.flatMap((node) => {
    if (!holdsMisread(node, names)) return [node];
    const pieces: Piece[] = [];
    if (!flatten(node, pieces, names)) return [node];
    const built: (SyntaxNode | null)[] = [];
    let from = 0;
    for (let at = 0; at <= pieces.length; at++) {
      const piece = pieces[at];
      if (piece !== undefined && !("comma" in piece)) continue;
      built.push(climb(pieces.slice(from, at), { at: 0 }, 0));
      from = at + 1;
    }
    return built.every((part) => part !== null) ? built : [node];
  });
}

function misreadName(node: SyntaxNode, names: Names): SyntaxNode | null {
  if (node.kind !== "template_function") return null;
  const name = child(node, "name");
  return name === undefined || names.isTemplate(name) ? null : name;
}

/** `i<Size<5>::value`: the name before the first mark and what stands between the marks, where `i` is no template. */
function misreadScope(node: SyntaxNode, names: Names): { readonly name: SyntaxNode; readonly list: SyntaxNode } | null {
  const scope = child(node, "scope");
  if (scope?.kind !== "template_type") return null;
  const name = child(scope, "name");
  const list = child(scope, "arguments");
  return name === undefined || list === undefined || names.isTemplate(name) ? null : { name, list };
}

const seen = new WeakMap<SyntaxNode, boolean>();

function holdsMisread(node: SyntaxNode, names: Names): boolean {
  const known = seen.get(node);
  if (known !== undefined) return known;
  let found = false;
  if (node.kind === "binary_expression" || node.kind === "assignment_expression") {
    const left = child(node, "left");
    const right = child(node, "right");
    found = (left !== undefined && holdsMisread(left, names)) || (right !== undefined && holdsMisread(right, names));
  } else if (node.kind === "conditional_expression") {
    const parts = [child(node, "condition"), child(node, "alternative")];
    found = parts.some((part) => part !== undefined && holdsMisread(part, names));
  } else if (node.kind === "call_expression") {
    const callee = child(node, "function");
    found = callee !== undefined && misreadName(callee, names) !== null;
  } else if (node.kind === "qualified_identifier") found = misreadScope(node, names) !== null;
  else if (node.kind === "cast_expression") found = castOfValue(node, names) !== null;
  else found = misreadName(node, names) !== null;
  seen.set(node, found);
  return found;
}

/** Whether the node's text ends with the closing mark of a list that is none. */
function endsMisread(node: SyntaxNode, names: Names): boolean {
  if (misreadName(node, names) !== null) return true;
  const right = node.kind === "binary_expression" ? child(node, "right") : undefined;
  return right !== undefined && endsMisread(right, names);
}

/** Operands and operators in the order of the text; false where the pieces are not those of comparisons. */
function flatten(node: SyntaxNode, pieces: Piece[], names: Names): boolean {
  if (node.kind === "binary_expression" || node.kind === "assignment_expression") {
    const left = child(node, "left");
    const operator = child(node, "operator");
    const right = child(node, "right");
    if (left === undefined || operator === undefined || right === undefined) return false;
    // The closing mark of the list that was none and what stands behind it are one operator: `>>` or `>=`.
    const joined = operator.start === left.end && endsMisread(left, names);
    if (node.kind === "assignment_expression" && !(joined && operator.kind === "=")) return false;
    if (!flatten(left, pieces, names)) return false;
    const whole = joined && (operator.kind === ">" || operator.kind === "=");
    // `a < b > -c`: the mark is an operator by itself, and the sign belongs to what follows.
    const sign = whole || !endsMisread(left, names) ? undefined : SIGNED[operator.kind];
    if (sign !== undefined) {
      pieces.push({ operator: token(">", left.end - 1, left.end) });
      const at = pieces.length;
      if (!flatten(right, pieces, names)) return false;
      const first = pieces[at];
      if (first === undefined || !("operand" in first)) return false;
      const children = [operator, { ...first.operand, field: "argument" }];
      const { end } = first.operand;
      pieces[at] = { operand: { kind: sign, start: operator.start, end, field: null, named: true, children } };
      return true;
    }
    pieces.push({ operator: whole ? token(`>${operator.kind}`, left.end - 1, operator.end) : operator });
    return flatten(right, pieces, names);
  }
  if (node.kind === "conditional_expression") {
    const condition = child(node, "condition");
    const consequence = child(node, "consequence");
    const alternative = child(node, "alternative");
    if (condition === undefined || consequence === undefined || alternative === undefined) return false;
    if (!flatten(condition, pieces, names)) return false;
    pieces.push({ consequence, at: node });
    return flatten(alternative, pieces, names);
  }
  const scoped = node.kind === "qualified_identifier" ? misreadScope(node, names) : null;
  if (scoped !== null) return flattenScope(node, scoped.name, scoped.list, pieces, names);
  const converted = node.kind === "cast_expression" ? castOfValue(node, names) : null;
  if (converted !== null) {
    pieces.push({ operand: converted.value }, { operator: converted.operator });
    return flatten(converted.operand, pieces, names);
  }
  const callee = node.kind === "call_expression" ? child(node, "function") : node;
  const name = callee === undefined ? null : misreadName(callee, names);
  if (callee === undefined || name === null) {
    pieces.push({ operand: node });
    return true;
  }
  const list = child(callee, "arguments");
  const inside = (list?.children ?? []).filter((part) => part.named);
  if (list === undefined || inside.length === 0) return false;
  pieces.push({ operand: { ...name, field: null } }, { operator: token("<", list.start, list.start + 1) });
  for (const [index, part] of inside.entries()) {
    if (index > 0) pieces.push({ comma: true });
    const meant = part.kind === "type_descriptor" ? typeReadAsExpression(part) : { ...part, field: null };
    if (meant === null || !flatten(meant, pieces, names)) return false;
  }
  if (node.kind !== "call_expression") return true;
  const args = child(node, "arguments");
  const parts = (args?.children ?? []).filter((part) => part.named);
  if (args === undefined || parts.length !== 1) return false;
  pieces.push(
    { operator: token(">", list.end - 1, list.end) },
    {
      operand: {
        kind: "parenthesized_expression",
        start: args.start,
        end: args.end,
        field: null,
        named: true,
        children: parts,
      },
    },
  );
  return true;
}

/** `i < a + Size<5>::value`: what follows the last mark behind a template's name are that template's arguments. */
function flattenScope(node: SyntaxNode, name: SyntaxNode, list: SyntaxNode, pieces: Piece[], names: Names): boolean {
  const last = child(node, "name");
  const inside: Piece[] = [];
  for (const part of list.children.filter((each) => each.named)) {
    if (inside.length > 0) inside.push({ comma: true });
    const meant = part.kind === "type_descriptor" ? typeReadAsExpression(part) : { ...part, field: null };
    if (meant === null || !flatten(meant, inside, names)) return false;
  }
  const open = inside.findLastIndex((piece, at) => {
    const before = inside[at - 1];
    return (
      "operator" in piece &&
      piece.operator.kind === "<" &&
      before !== undefined &&
      "operand" in before &&
      before.operand.kind === "identifier" &&
      names.isTemplate(before.operand)
    );
  });
  const template = inside[open - 1];
  if (last === undefined || open < 1 || template === undefined || !("operand" in template)) return false;
  const built: (SyntaxNode | null)[] = [];
  for (let from = open + 1, at = from; at <= inside.length; at++) {
    const piece = inside[at];
    if (piece !== undefined && !("comma" in piece)) continue;
    built.push(climb(inside.slice(from, at), { at: 0 }, 0));
    from = at + 1;
  }
  const given = built.filter((part) => part !== null);
  if (given.length < built.length) return false;
  const { start } = template.operand;
  const at = { start, end: list.end, named: true };
  const word: SyntaxNode = { ...template.operand, kind: "type_identifier", field: "name" };
  const filled: SyntaxNode = { ...at, kind: "template_argument_list", field: "arguments", children: given };
  const scope: SyntaxNode = { ...at, kind: "template_type", field: "scope", children: [word, filled] };
  const whole = {
    kind: "qualified_identifier",
    start,
    end: node.end,
    field: null,
    named: true,
    children: [scope, last],
  };
  pieces.push(
    { operand: { ...name, kind: "identifier", field: null } },
    { operator: token("<", list.start, list.start + 1) },
  );
  pieces.push(...inside.slice(0, open - 1), { operand: whole });
  return true;
}

function token(kind: string, start: number, end: number): SyntaxNode {
  return { kind, start, end, field: "operator", named: false, children: [] };
}

function climb(pieces: readonly Piece[], cursor: { at: number }, least: number): SyntaxNode | null {
  const first = pieces[cursor.at++];
  if (first === undefined || !("operand" in first)) return null;
  let left = first.operand;
  for (;;) {
    const next = pieces[cursor.at];
    if (next === undefined) return left;
    if ("comma" in next) return null;
    if ("consequence" in next) {
      if (least > 0) return left;
      cursor.at++;
      const alternative = climb(pieces, cursor, 0);
      if (alternative === null) return null;
      return {
        kind: "conditional_expression",
        start: left.start,
        end: alternative.end,
        field: null,
        named: true,
        children: [
          { ...left, field: "condition" },
          { ...next.consequence, field: "consequence" },
          { ...alternative, field: "alternative" },
        ],
      };
    }
    if (!("operator" in next)) return null;
    const rank = PRECEDENCE[next.operator.kind];
    if (rank === undefined) return null;
    if (rank <= least) return left;
    cursor.at++;
    const right = climb(pieces, cursor, rank);
    if (right === null) return null;
    left = {
      kind: "binary_expression",
      start: left.start,
      end: right.end,
      field: null,
      named: true,
      children: [
        { ...left, field: "left" },
        { ...next.operator, field: "operator" },
        { ...right, field: "right" },
      ],
    };
  }
}
