/** Function templates: type parameters deduced from the arguments, one instance per set of types. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import type { Expression } from "./ir.js";
import type { Lowering } from "./lowering.js";
import type { FunctionSymbol, Meaning, Scope } from "./scope.js";
import { signatureOf } from "./signatures.js";
import { anything } from "./stand-ins.js";
import { bindTemplate, parameterName } from "./template-binding.js";
import { decayed, type Type, UINT16 } from "./types.js";

/** The instance for these arguments; null where the parameters cannot be deduced. */
export function instantiateFunction(
  run: Lowering,
  symbol: FunctionSymbol,
  args: readonly Expression[],
  explicit: SyntaxNode | undefined,
  useScope: Scope,
): FunctionSymbol | null {
  if (symbol.template === null) return symbol;
  const deduced = new Map<string, Meaning>();
  const parameters = parameterNodes(symbol);
  for (const [index, argument] of args.entries()) {
    const parameter = parameters[index];
    if (parameter === undefined) break;
    if (parameter.kind === "variadic_parameter_declaration") {
      const items = args.slice(index).map((each): Meaning => ({ kind: "type", type: decayed(each.type) }));
      const typeNode = child(parameter, "type");
      if (typeNode !== undefined) deduced.set(run.textOf(typeNode), { kind: "pack", items });
      break;
    }
    deduce(run, symbol, parameter, argument.type, deduced);
  }
  const last = parameters[parameters.length - 1];
  if (last?.kind === "variadic_parameter_declaration" && args.length < parameters.length) {
    const typeNode = child(last, "type");
    if (typeNode !== undefined) deduced.set(run.textOf(typeNode), { kind: "pack", items: [] });
  }
  const bound = bindTemplate(run, useScope, symbol.scope, symbol.template, explicit, deduced);
  if (!bound.complete) return null;
  const known = symbol.instances.get(bound.key);
  if (known !== undefined) return known;
  const instance: FunctionSymbol = {
    ...symbol,
    scope: bound.scope,
    template: null,
    signature: null,
    code: null,
    instances: new Map(),
  };
  symbol.instances.set(bound.key, instance);
  return instance;
}

function parameterNodes(symbol: FunctionSymbol): SyntaxNode[] {
  let node = child(symbol.node, "declarator");
  while (node !== undefined && node.kind !== "function_declarator") {
    node = child(node, "declarator") ?? node.children.find((part) => part.kind.includes("declarator"));
  }
  const list = node === undefined ? undefined : child(node, "parameters");
  return (list?.children ?? []).filter(
    (part) =>
      part.kind === "parameter_declaration" ||
      part.kind === "optional_parameter_declaration" ||
      part.kind === "variadic_parameter_declaration",
  );
}

/** `T`, `T &`, `const T &`, `T *`, `T (&)[N]` against the argument's type. */
function deduce(
  run: Lowering,
  symbol: FunctionSymbol,
  parameter: SyntaxNode,
  type: Type,
  deduced: Map<string, Meaning>,
): void {
  const typeNode = child(parameter, "type");
  if (typeNode === undefined) return;
  const name = run.textOf(typeNode);
  let declarator = child(parameter, "declarator");
  let matched: Type = type;
  let byReference = false;
  while (declarator !== undefined) {
    if (declarator.kind === "pointer_declarator" || declarator.kind === "abstract_pointer_declarator") {
      matched = decayed(matched);
      if (matched.kind !== "pointer") return;
      matched = matched.to;
    } else if (declarator.kind === "reference_declarator" || declarator.kind === "abstract_reference_declarator") {
      byReference = true;
    } else if (declarator.kind.endsWith("array_declarator") && matched.kind === "array") {
      const size = child(declarator, "size");
      if (size !== undefined && matched.length !== null && namesParameter(run, symbol, run.textOf(size))) {
        deduced.set(run.textOf(size), { kind: "constant", value: matched.length, type: UINT16 });
      }
      matched = matched.of;
    }
    declarator =
      child(declarator, "declarator") ?? declarator.children.find((part) => part.kind.includes("declarator"));
  }
  if (!namesParameter(run, symbol, name) || deduced.has(name)) return;
  if (!byReference) matched = decayed(matched);
  if (matched.kind === "opaque" && matched.name === "?") return;
  deduced.set(name, { kind: "type", type: matched });
}

function namesParameter(run: Lowering, symbol: FunctionSymbol, name: string): boolean {
  return (symbol.template?.children ?? []).some((part) => part.named && parameterName(run, part) === name);
}

/** `template <> void f<3>() {…}`: takes the place of one instance. False where no template fits. */
export function specialiseFunction(run: Lowering, symbol: FunctionSymbol, explicit: SyntaxNode | undefined): boolean {
  const present = symbol.scope.own(symbol.name);
  if (present?.kind !== "functions") return false;
  const args = signatureOf(run, symbol).parameters.map(({ type, node }) =>
    anything(node, type.kind === "reference" ? type.to : type),
  );
  for (const candidate of present.set) {
    if (candidate.template === null || parameterNodes(candidate).length !== args.length) continue;
    const instance = instantiateFunction(run, candidate, args, explicit, symbol.scope);
    if (instance === null) continue;
    for (const [key, known] of candidate.instances) if (known === instance) candidate.instances.set(key, symbol);
    return true;
  }
  return false;
}
