/** Functions of the sketch: how they are declared, and how their code is made when somebody needs it. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { makeVirtual } from "./classes.js";
import { lowerConstruction } from "./construction.js";
import { keepsModel } from "./core-functions.js";
import type { FunctionCode, RecordType, Variable } from "./ir.js";
import { isWeak, mergeFallbacks, twinOf, viewFrom } from "./linkage.js";
import type { Body, Lowering } from "./lowering.js";
import { type FunctionSymbol, type Meaning, Scope, type Signature } from "./scope.js";
import { conversionOperator, functionDeclarator, operatorName, packName, signatureOf } from "./signatures.js";
import { lowerBlock } from "./statements.js";
import { specialiseFunction } from "./templates.js";
import { type Type, VOID } from "./types.js";

/** Declares a function or one more overload; a definition completes an earlier declaration with the same parameters. */
export function addFunction(
  run: Lowering,
  scope: Scope,
  node: SyntaxNode,
  template: SyntaxNode | null,
): FunctionSymbol | null {
  const declarator = functionDeclarator(child(node, "declarator"));
  if (declarator === undefined) return null;
  const nameNode = conversionOperator(child(node, "declarator"))?.declarator ?? child(declarator, "declarator");
  if (nameNode === undefined) return null;
  let home = scope;
  /** Where names in the body are looked for: beside the class that another unit may have declared, this unit's own. */
  let view = scope;
  let last = nameNode;
  while (last.kind === "qualified_identifier") {
    const scopeNode = child(last, "scope");
    const next = child(last, "name");
    if (next === undefined) return null;
    if (scopeNode !== undefined) {
      const meaning = scopeNode.kind === "template_type" ? undefined : home.find(run.textOf(scopeNode));
      if (meaning?.kind === "type" && meaning.type.kind === "record") {
        home = run.records.get(meaning.type.record)!.scope;
        view = home.file === scope.file ? home : viewFrom(view, home);
      } else if (meaning?.kind === "namespace") view = home = meaning.scope;
      else return null;
    }
    last = next;
  }
  const special = last.kind === "template_function" ? last : null;
  if (special !== null) last = child(special, "name") ?? special;
  let name = run.textOf(last);
  const record = home.kind === "record" ? home.record : null;
  if (last.kind === "destructor_name") name = "~";
  if (last.kind === "operator_name" || last.kind === "operator_cast") name = operatorName(run, last);
  const isConstructor = record !== null && name === record.name && last.kind !== "destructor_name";
  let body = child(node, "body") ?? null;
  if (run.unit?.kind === "core" && keepsModel(name)) body = null;
  const words = node.children;
  const specifiers = readSpecifiersLoosely(run, node);
  const isPrivate = specifiers.isStatic || template !== null;
  const symbol: FunctionSymbol = {
    name: isConstructor ? "(constructor)" : name,
    node,
    body,
    scope: view,
    home: home.shared !== null && !isPrivate ? home.shared : home,
    weak: isWeak(run, node, body),
    ofCore: run.unit?.kind === "core",
    record,
    isStatic: specifiers.isStatic && record !== null,
    virtual: specifiers.virtual || declarator.children.some((part) => part.kind === "virtual_specifier"),
    pure:
      words.some((part) => part.kind === "pure_virtual_clause") ||
      (body === null && words.some((part) => part.field === "default_value")),
    constructorOf: isConstructor ? record : null,
    signature: null,
    code: null,
    template,
    instances: new Map(),
  };
  if (words.some((part) => part.kind === "delete_method_clause")) return null;
  if (special !== null && template === null && specialiseFunction(run, symbol, child(special, "arguments")))
    return symbol;
  const info = record === null ? undefined : run.records.get(record);
  if (symbol.virtual && record !== null && home === info?.scope && name !== "~" && !isConstructor) {
    if (inheritedVirtual(run, record, symbol.name) || specifiers.virtual) makeVirtual(record);
  }
  const twin = template !== null ? undefined : twinOf(run, home, symbol, info?.constructors);
  if (twin !== undefined) {
    const wasWeak = twin.body !== null;
    if (symbol.body !== null && (twin.body === null || (twin.weak && !symbol.weak))) {
      twin.node = mergeFallbacks(twin, symbol);
      twin.body = symbol.body;
      twin.scope = symbol.scope;
      twin.ofCore = symbol.ofCore;
      twin.weak = symbol.weak || (twin.weak && !wasWeak);
    } else if (twin.body === null) twin.weak ||= symbol.weak;
    if (record === null) home.overload(twin);
    return twin;
  }
  if (info !== undefined) {
    if (isConstructor) info.constructors.push(symbol);
    else if (name === "~") info.destructor = symbol;
    else {
      info.methods.push(symbol);
      home.overload(symbol);
    }
  } else {
    home.overload(symbol);
    if (symbol.home !== home) symbol.home.overload(symbol);
  }
  return symbol;
}

function inheritedVirtual(
  run: Lowering,
  record: { readonly bases: readonly { record: RecordType }[] },
  name: string,
): boolean {
  return record.bases.some((base) => {
    const info = run.records.get(base.record);
    return (
      info?.methods.some((method) => method.name === name && method.virtual) || inheritedVirtual(run, base.record, name)
    );
  });
}

function readSpecifiersLoosely(run: Lowering, node: SyntaxNode): { isStatic: boolean; virtual: boolean } {
  let isStatic = false;
  let virtual = false;
  for (const part of node.children) {
    if (part.kind === "storage_class_specifier" && run.textOf(part) === "static") isStatic = true;
    if (part.kind === "virtual" || part.kind === "virtual_function_specifier") virtual = true;
  }
  return { isStatic, virtual };
}

/** The code of a function, made on first use; its body is lowered later, so that recursion is harmless. */
export function codeOf(run: Lowering, symbol: FunctionSymbol): FunctionCode {
  if (symbol.code !== null) return symbol.code;
  const signature = signatureOf(run, symbol);
  const self =
    symbol.record !== null && !symbol.isStatic
      ? run.variable(
          "this",
          { kind: "pointer", to: { kind: "record", record: symbol.record } },
          "local",
          symbol.node.start,
        )
      : null;
  const parameters: Variable[] = signature.parameters.map((parameter) =>
    run.variable(parameter.name, parameter.type, "local", parameter.node.start),
  );
  const name = symbol.constructorOf !== null ? symbol.constructorOf.name : symbol.name;
  const interrupt = /^__isr_(\w+)$/.exec(name)?.[1] ?? null;
  const code: FunctionCode & { returns: Type } = {
    id: run.id(),
    name: interrupt === null ? name : `ISR(${interrupt}_vect)`,
    returns: signature.returns ?? VOID,
    parameters,
    variadic: signature.variadic,
    self,
    body: null,
    locals: [],
    start: symbol.node.start,
    end: symbol.node.end,
    interrupt,
    core: symbol.ofCore,
    result: null,
  };
  symbol.code = code;
  run.functions.push(code);
  if (signature.returns === null) {
    // The type comes from the body's return statements.
    lowerFunctionBody(run, symbol, code);
  } else {
    if (code.returns.kind !== "void") code.result = resultVariable(run, code);
    run.waiting.push({ symbol, code });
  }
  return code;
}

function declarePacks(
  symbol: FunctionSymbol,
  signature: Signature,
  code: FunctionCode,
  scope: Scope,
  run: Lowering,
): void {
  const declarator = functionDeclarator(child(symbol.node, "declarator"));
  const list = declarator === undefined ? undefined : child(declarator, "parameters");
  const part = list?.children.find((each) => each.kind === "variadic_parameter_declaration");
  const named = part === undefined ? undefined : child(part, "declarator");
  const name = named === undefined ? null : packName(named);
  if (part === undefined || name === null) return;
  const items = code.parameters
    .filter((_, index) => signature.parameters[index]?.node === part)
    .map((variable): Meaning => ({ kind: "variable", variable }));
  scope.declare(run.textOf(name), { kind: "pack", items });
}

/** Where a function leaves what it returns. */
export function resultVariable(run: Lowering, code: FunctionCode): Variable {
  const result = run.variable(
    "",
    code.returns.kind === "reference" ? { kind: "pointer", to: code.returns.to } : code.returns,
    "local",
    code.start,
  );
  return result;
}

/** Lowers the bodies that were asked for, until none is left. */
export function lowerWaiting(run: Lowering): void {
  for (let next = run.waiting.pop(); next !== undefined; next = run.waiting.pop()) {
    lowerFunctionBody(run, next.symbol, next.code);
  }
}

function lowerFunctionBody(run: Lowering, symbol: FunctionSymbol, code: FunctionCode & { returns?: Type }): void {
  const scope = new Scope(symbol.scope, "block");
  const signature = signatureOf(run, symbol);
  for (const [index, parameter] of code.parameters.entries()) {
    // The definition's names, whatever an earlier declaration called them.
    const name = signature.parameters[index]?.name ?? parameter.name;
    if (name !== "") scope.declare(name, { kind: "variable", variable: parameter });
  }
  declarePacks(symbol, signature, code, scope, run);
  const body: Body = {
    code,
    scope,
    out: [],
    returns: signature.returns,
    labels: new Set(),
    self: code.self,
    record: symbol.record,
    cleanups: [],
  };
  if (symbol.constructorOf !== null) lowerConstruction(run, body, symbol);
  if (symbol.body === null) {
    const defaulted = symbol.node.children.some((part) => part.kind === "default_method_clause");
    code.body = defaulted ? { op: "block", body: body.out } : null;
    return;
  }
  code.core = symbol.ofCore;
  lowerBlock(run, body, symbol.body);
  if (signature.returns === null) {
    (code as { returns: Type }).returns = body.returns ?? VOID;
    if (body.returns !== null && body.returns.kind !== "void" && code.result === null)
      code.result = resultVariable(run, code);
  }
  code.body = { op: "block", body: body.out };
}

/** A result variable for a function whose return type is only now known. */
export function settleReturn(run: Lowering, body: Body, type: Type): void {
  body.returns = type;
  (body.code as { returns: Type }).returns = type;
  if (type.kind !== "void" && body.code.result === null) body.code.result = resultVariable(run, body.code);
}
