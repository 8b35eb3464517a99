/** `&&`, `||` and `?:`. Law: a side that does something becomes a statement that runs only where it is asked for. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { decidedArm } from "./constant-calls.js";
import { condition, convertTo, rvalue, toBool } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import { heldValue } from "./extensions.js";
import type { Expression, Place, Statement, Stretch } from "./ir.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { addressOf, isPlace, namedPlace, placeOf, rememberPlace } from "./places.js";
import { noValue, unknown } from "./stand-ins.js";
import { BOOL, commonArithmetic, decayed, isNumber, sameType, type Type, VOID } from "./types.js";

export function lowerLogical(
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

export function lowerConditional(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const conditionNode = child(node, "condition");
  const thenNode = child(node, "consequence");
  const elseNode = child(node, "alternative");
  if (conditionNode === undefined || elseNode === undefined) return unknown(node, "half a conditional expression");
  let asked = lowerExpression(run, body, conditionNode);
  // gcc's `a ?: b`: what is asked is the value too, worked out once.
  if (thenNode === undefined) asked = heldValue(run, body, rvalue(asked));
  const test = condition(run, body, asked, conditionNode);
  const decided = decidedArm(test, thenNode, elseNode);
  if (decided !== undefined) return lowerExpression(run, body, decided);
  const yes = aside(body, () => (thenNode === undefined ? asked : lowerExpression(run, body, thenNode)));
  const no = aside(body, () => lowerExpression(run, body, elseNode));
  const places = placesOf(yes[0], no[0]);
  const plain = yes[1].length === 0 && no[1].length === 0 && yes[0].type.kind !== "void" && no[0].type.kind !== "void";
  if (places !== null && yes[0].type.kind === "record") {
    // Pointers to the two: the object that is chosen is no copy.
    const addresses = [[addressOf(places[0]), yes[1]] as const, [addressOf(places[1]), no[1]] as const] as const;
    return { op: "dereference", pointer: chosenByIf(run, body, test, ...addresses, node), ...at(yes[0].type, node) };
  }
  if (!plain || yes[0].type.kind === "record") return chosenByIf(run, body, test, yes, no, node);
  const a = rvalue(yes[0]);
  const b = rvalue(no[0]);
  const type = conditionalType(a.type, b.type);
  if (places !== null && (a.type.kind === "opaque" || b.type.kind === "opaque")) return unknown(node, "", [a, b]);
  const arms = { yes: convertTo(run, body, a, type, node), no: convertTo(run, body, b, type, node) };
  const chosen: Expression = { op: "choose", condition: test, ...arms, ...at(type, node) };
  if (places?.every((place) => place.op !== "member" || place.field.bits === undefined)) {
    const pointer: Type = { kind: "pointer", to: type };
    rememberPlace(chosen, () => {
      const both = { yes: addressOf(places[0]), no: addressOf(places[1]) };
      const address: Expression = { op: "choose", condition: test, ...both, ...at(pointer, node) };
      return { op: "dereference", pointer: address, ...at(type, node) };
    });
  }
  return chosen;
}

/** Both sides as places of one type; null where one of them is a plain value. */
function placesOf(left: Expression, right: Expression): readonly [Place, Place] | null {
  const [a, b] = [namedPlace(left), namedPlace(right)];
  return a !== null && b !== null && sameType(left.type, right.type) ? [a, b] : null;
}

function at(
  type: Type,
  { start, end }: Stretch,
): { readonly type: Type; readonly start: number; readonly end: number } {
  return { type, start, end };
}

type Arm = readonly [value: Expression, before: readonly Statement[]];

/** The chosen value in a temporary that an `if` fills; of two void sides nothing. */
function chosenByIf(run: Lowering, body: Body, test: Expression, yes: Arm, no: Arm, node: SyntaxNode): Expression {
  const { start, end } = node;
  const isVoid = yes[0].type.kind === "void" || no[0].type.kind === "void";
  const type: Type = isVoid ? VOID : conditionalType(decayed(yes[0].type), decayed(no[0].type));
  const temporary = isVoid ? null : run.temporary(body, type, start);
  if (temporary !== null) body.out.push({ op: "declare", variable: temporary, zero: false, start });
  const arm = ([value, before]: Arm): Statement => {
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
  body.out.push({ op: "if", condition: test, yes: arm(yes), no: arm(no), start, end });
  if (temporary === null) return noValue(node);
  const place = placeOf(temporary, start, end);
  return type.kind === "pointer" ? rvalue(place) : place;
}

function conditionalType(left: Type, right: Type): Type {
  if (sameType(left, right)) return left;
  const numbers = isNumber(left) && isNumber(right);
  if (numbers) return commonArithmetic(left, right);
  return left.kind === "pointer" ? left : right.kind === "pointer" ? right : left;
}
