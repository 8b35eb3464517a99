/** Templates as they are declared: classes, aliases, functions, and members defined outside of their class. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { instantiateClass, outsideDefinitions, specialiseClass } from "./classes.js";
import { initialiserOf } from "./construction.js";
import { declareVariables } from "./declarations.js";
import { addFunction } from "./functions.js";
import { type Lowering, type RecordInfo, scratchBody } from "./lowering.js";
import type { Meaning, Scope } from "./scope.js";
import { functionDeclarator } from "./signatures.js";
import { setStaticMember } from "./static-members.js";

export function declareTemplate(run: Lowering, scope: Scope, node: SyntaxNode): void {
  const parameters = child(node, "parameters") ?? null;
  const inner = node.children.find((part) => part.named && part !== parameters && part.kind !== "requires_clause");
  if (inner === undefined) return;
  switch (inner.kind) {
    case "struct_specifier":
    case "class_specifier": {
      const name = child(inner, "name");
      if (name === undefined) return;
      if (name.kind === "template_type") {
        specialise(run, scope, inner, parameters);
        return;
      }
      const elsewhere = scope.shared?.define(run.textOf(name), run.textOf(node), null);
      if (elsewhere !== undefined) {
        scope.declare(run.textOf(name), elsewhere);
        return;
      }
      const present = scope.here(run.textOf(name));
      const earlier = present?.kind === "class template" ? present : null;
      if (present !== undefined && (earlier === null || child(earlier.body, "body") !== undefined)) return;
      outsideDefinitions.set(inner, []);
      const meaning: Meaning = {
        kind: "class template",
        node,
        body: inner,
        scope,
        instances: earlier?.instances ?? new Map(),
        partial: earlier?.partial ?? [],
      };
      scope.declare(run.textOf(name), meaning);
      if (child(inner, "body") !== undefined) scope.shared?.define(run.textOf(name), run.textOf(node), meaning);
      return;
    }
    case "alias_declaration": {
      const name = child(inner, "name");
      const type = child(inner, "type");
      if (name !== undefined && type !== undefined) {
        scope.declare(run.textOf(name), { kind: "alias template", node, body: type, scope });
      }
      return;
    }
    case "function_definition":
    case "declaration":
      if (isOutsideTemplateMember(run, scope, inner, parameters)) return;
      if (functionDeclarator(child(inner, "declarator")) !== undefined) {
        const empty = (parameters?.children ?? []).every((part) => !part.named);
        addFunction(run, scope, inner, empty ? null : parameters);
      } else if (inner.kind === "declaration" && !isOutsideTemplateStatic(run, scope, inner)) {
        declareVariables(run, scope, inner, scratchBody(run, scope));
      }
      return;
    default:
      run.gap(inner, "template not understood");
  }
}

/** `template <> struct Foo<3>` is an instance; `template <class T> struct Foo<T *>` waits for arguments that fit. */
function specialise(run: Lowering, scope: Scope, inner: SyntaxNode, parameters: SyntaxNode | null): void {
  const named = child(child(inner, "name")!, "name");
  const found = named === undefined ? undefined : scope.findTemplate(run.textOf(named));
  if (found?.kind !== "class template" || child(inner, "body") === undefined) return;
  const whole = (parameters?.children ?? []).every((part) => !part.named);
  if (whole) specialiseClass(run, scope, found, inner);
  else found.partial.push({ parameters: parameters ?? undefined, body: inner, scope });
}

/** `template<…> void Foo<T>::bar() {…}`: kept until Foo is instantiated. */
export function isOutsideTemplateMember(
  run: Lowering,
  scope: Scope,
  node: SyntaxNode,
  parameters: SyntaxNode | null,
): boolean {
  const declarator = functionDeclarator(child(node, "declarator"));
  const name = declarator === undefined ? undefined : child(declarator, "declarator");
  if (name?.kind !== "qualified_identifier") return false;
  const owner = child(name, "scope");
  if (owner?.kind !== "template_type") return false;
  const ownerName = child(owner, "name");
  const found = ownerName === undefined ? undefined : scope.findTemplate(run.textOf(ownerName));
  if (found?.kind !== "class template") return false;
  const only =
    (parameters?.children ?? []).some((part) => part.named) || parameters === null
      ? null
      : instantiateClass(run, scope, found, child(owner, "arguments"));
  const define = (_: Scope, info: RecordInfo): void => {
    if (only !== null && (only.kind !== "record" || only.record !== info.record)) return;
    const last = child(name, "name");
    const method = info.methods
      .concat(info.constructors)
      .find(
        (candidate) =>
          last !== undefined &&
          (candidate.name === run.textOf(last) ||
            (candidate.constructorOf !== null && run.textOf(last) === info.record.name)),
      );
    if (method !== undefined && method.body === null) {
      method.body = child(node, "body") ?? null;
      method.node = node;
      method.signature = null;
    } else if (method !== undefined && only !== null) {
      method.body = child(node, "body") ?? null;
      method.node = node;
    }
  };
  outsideDefinitions.get(found.body)?.push(define);
  for (const type of found.instances.values()) {
    if (type.kind === "record") define(scope, run.records.get(type.record)!);
  }
  return true;
}

/** `template<…> int Foo<T>::count = 5;`: set for each instance. */
function isOutsideTemplateStatic(run: Lowering, scope: Scope, node: SyntaxNode): boolean {
  const declarator = child(node, "declarator");
  const name = declarator?.kind === "init_declarator" ? child(declarator, "declarator") : declarator;
  const owner = name?.kind === "qualified_identifier" ? child(name, "scope") : undefined;
  const last = name === undefined ? undefined : child(name, "name");
  const ownerName = owner?.kind === "template_type" ? child(owner, "name") : undefined;
  const found = ownerName === undefined ? undefined : scope.findTemplate(run.textOf(ownerName));
  if (found?.kind !== "class template" || last === undefined || declarator === undefined) return false;
  const initialiser = initialiserOf(declarator.kind === "init_declarator" ? child(declarator, "value") : undefined);
  const define = (_: Scope, info: RecordInfo): void => {
    const body = scratchBody(run, info.scope);
    setStaticMember(run, info.scope, last, initialiser, body);
    run.startup.push(...body.out);
  };
  outsideDefinitions.get(found.body)?.push(define);
  for (const type of found.instances.values()) {
    if (type.kind === "record") define(scope, run.records.get(type.record)!);
  }
  return true;
}
