/** Static members of classes: declared with the class, set where they are defined. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { defaultOf } from "./classes.js";
import { knownFrom } from "./constant.js";
import { constructDefault, type Initialiser, initialise, initialiserOf } from "./construction.js";
import { lengthFrom } from "./lists.js";
import { type Body, type Lowering, type RecordInfo, scratchBody } from "./lowering.js";
import { placeOf } from "./places.js";
import type { Scope } from "./scope.js";
import type { Type } from "./types.js";

/** A class's static member: one variable for all objects. */
export function declareStaticMember(
  run: Lowering,
  info: RecordInfo,
  node: SyntaxNode,
  declarator: SyntaxNode,
  type: Type,
  name: string,
): void {
  const variable = run.globalVariable(`${info.record.name}::${name}`, type, declarator.start);
  info.scope.declare(name, { kind: "variable", variable });
  const fallback = defaultOf(node, declarator);
  if (fallback !== undefined) {
    const body = scratchBody(run, info.scope);
    variable.constant = true;
    initialise(run, body, placeOf(variable, declarator.start, declarator.end), initialiserOf(fallback), true);
    run.startup.push(...body.out);
    variable.known = knownFrom(body.out, variable);
  }
}

export function defineStaticMember(
  run: Lowering,
  scope: Scope,
  name: SyntaxNode,
  initialiser: Initialiser,
  body: Body,
): void {
  const owner = child(name, "scope");
  const last = child(name, "name");
  const meaning = owner === undefined ? undefined : scope.find(run.textOf(owner));
  const home =
    meaning?.kind === "type" && meaning.type.kind === "record"
      ? run.records.get(meaning.type.record)?.scope
      : meaning?.kind === "namespace"
        ? meaning.scope
        : undefined;
  if (home === undefined || last === undefined) run.gap(name, `${run.textOf(name)} was not declared`);
  else setStaticMember(run, home, last, initialiser, body);
}

export function setStaticMember(
  run: Lowering,
  home: Scope,
  name: SyntaxNode,
  initialiser: Initialiser,
  body: Body,
): void {
  const member = home.own(run.textOf(name));
  if (member?.kind !== "variable") {
    run.gap(name, `${run.textOf(name)} was not declared`);
    return;
  }
  body.scope = home;
  if (member.variable.type.kind === "array" && member.variable.type.length === null) {
    member.variable.type = {
      ...member.variable.type,
      length: lengthFrom(run, body, member.variable.type.of, initialiser),
    };
  }
  const place = placeOf(member.variable, name.start, name.end);
  if (initialiser.kind === "none") constructDefault(run, body, place);
  else initialise(run, body, place, initialiser, true);
}
