/** Signatures of functions: which declarator is the function's, its parameters, what it returns. Read once, when somebody asks. */
import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import { parameterType, readDeclarator } from "./declarators.js";
import type { Lowering } from "./lowering.js";
import { elementScopes } from "./packs.js";
import { type FunctionSymbol, Scope, type Signature } from "./scope.js";
import { readSpecifiers, readType } from "./type-syntax.js";
import { keyOf, type Type, VOID } from "./types.js";

/** The function declarator inside a definition or declaration. */
export function functionDeclarator(node: SyntaxNode | undefined): SyntaxNode | undefined {
  let current = node;
  const conversion = conversionOperator(node);
  while (current !== undefined) {
    if (conversion !== undefined && current.kind === "abstract_function_declarator") return current;
    if (current === conversion?.declarator) current = conversion.node;
    if (current.kind === "function_declarator") {
      const inner = child(current, "declarator");
      if (inner !== undefined && inner.kind === "parenthesized_declarator") {
        return functionDeclarator(inner.children.find((part) => part.named)) ?? current;
      }
      return current;
    }
    current =
      child(current, "declarator") ??
      (current.kind === "reference_declarator" ||
      current.kind === "parenthesized_declarator" ||
      current.kind === "attributed_declarator"
        ? current.children.find((part) => part.named && part.kind.includes("declarator"))
        : undefined);
  }
  return undefined;
}

/** `operator T`, perhaps behind a class's name. */
export function conversionOperator(
  node: SyntaxNode | undefined,
): { readonly declarator: SyntaxNode; readonly node: SyntaxNode } | undefined {
  let last = node;
  while (last?.kind === "qualified_identifier") last = child(last, "name");
  return node !== undefined && last?.kind === "operator_cast" ? { declarator: node, node: last } : undefined;
}

export function operatorName(run: Lowering, node: SyntaxNode): string {
  if (node.kind === "operator_cast") return "(conversion)";
  return run.textOf(node).replace(/\s+/g, "");
}

export function sameParameters(run: Lowering, left: FunctionSymbol, right: FunctionSymbol): boolean {
  const a = signatureOf(run, left);
  const b = signatureOf(run, right);
  if (a.parameters.length !== b.parameters.length) return false;
  if (left.name === "(conversion)" && keyOf(a.returns ?? VOID) !== keyOf(b.returns ?? VOID)) return false;
  return a.parameters.every((parameter, index) => keyOf(parameter.type) === keyOf(b.parameters[index]!.type));
}

/** Parameter and return types, read once. */
export function signatureOf(run: Lowering, symbol: FunctionSymbol): Signature {
  if (symbol.signature !== null) return symbol.signature;
  const declarator = functionDeclarator(child(symbol.node, "declarator"));
  const list = declarator === undefined ? undefined : child(declarator, "parameters");
  const parameters: Signature["parameters"][number][] = [];
  let variadic = false;
  for (const part of list?.children ?? []) {
    if (part.kind === "variadic_parameter" || part.kind === "...") variadic = true;
    if (part.kind === "variadic_parameter_declaration") parameters.push(...packParameters(run, symbol, part));
    if (part.kind !== "parameter_declaration" && part.kind !== "optional_parameter_declaration") continue;
    const type = parameterType(run, symbol.scope, part);
    const declared = child(part, "declarator");
    if (type.kind === "void" && declared === undefined) continue;
    const nameNode = declared === undefined ? null : readDeclarator(run, symbol.scope, declared, VOID).name;
    parameters.push({
      name: nameNode === null ? "" : run.textOf(nameNode),
      type,
      node: part,
      fallback: child(part, "default_value") ?? null,
    });
  }
  symbol.signature = { returns: returnType(run, symbol, declarator, parameters), parameters, variadic };
  return symbol.signature;
}

/** One parameter for each type that the pack stands for; all bear the pack's name. */
function packParameters(run: Lowering, symbol: FunctionSymbol, part: SyntaxNode): Signature["parameters"][number][] {
  const typeNode = child(part, "type");
  const declarator = child(part, "declarator");
  if (typeNode === undefined) return [];
  const name = declarator === undefined ? null : packName(declarator);
  return elementScopes(run, symbol.scope, typeNode).map((scope) => ({
    name: name === null ? "" : run.textOf(name),
    type: parameterType(run, scope, part),
    node: part,
    fallback: null,
  }));
}

export function packName(declarator: SyntaxNode): SyntaxNode | null {
  if (declarator.kind === "identifier") return declarator;
  for (const part of declarator.children) {
    const found = part.named ? packName(part) : null;
    if (found !== null) return found;
  }
  return null;
}

function returnType(
  run: Lowering,
  symbol: FunctionSymbol,
  declarator: SyntaxNode | undefined,
  parameters: Signature["parameters"],
): Type | null {
  if (symbol.constructorOf !== null || symbol.name === "~") return VOID;
  const trailing = declarator === undefined ? undefined : ofKind(declarator, "trailing_return_type");
  if (trailing !== undefined) {
    const inner = trailing.children.find((part) => part.named);
    if (inner !== undefined) return readType(run, withParameters(run, symbol, parameters), inner);
  }
  if (symbol.name === "(conversion)") {
    const cast = conversionOperator(child(symbol.node, "declarator"))?.node;
    const typeNode = cast === undefined ? undefined : child(cast, "type");
    let type = typeNode === undefined ? VOID : readType(run, symbol.scope, typeNode);
    for (let part = cast; type !== null && part !== undefined && part !== declarator; part = innerDeclarator(part)) {
      if (part.kind === "abstract_pointer_declarator") type = { kind: "pointer", to: type };
      if (part.kind === "abstract_reference_declarator") type = { kind: "reference", to: type };
    }
    return type;
  }
  const specifiers = readSpecifiers(run, symbol.scope, symbol.node);
  if (specifiers.type === null) return null;
  const outer = child(symbol.node, "declarator");
  if (outer === undefined) return specifiers.type;
  const whole = readDeclarator(run, symbol.scope, outer, specifiers.type).type;
  return whole.kind === "function"
    ? whole.returns
    : whole.kind === "reference" && whole.to.kind === "function"
      ? whole.to.returns
      : specifiers.type;
}

/** Where a type behind the parameters is read: it may speak of them. */
function withParameters(run: Lowering, symbol: FunctionSymbol, parameters: Signature["parameters"]): Scope {
  const scope = new Scope(symbol.scope, "block");
  for (const { name, type, node } of parameters)
    scope.declare(name, { kind: "variable", variable: run.variable(name, type, "local", node.start) });
  return scope;
}

function innerDeclarator(node: SyntaxNode): SyntaxNode | undefined {
  return child(node, "declarator") ?? node.children.find((part) => part.named && part.kind.endsWith("_declarator"));
}
