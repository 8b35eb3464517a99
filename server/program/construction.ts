/** How objects come to life: constructors, member initialisers, lists, arrays; statics and locals alike. */

import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import { callFunction } from "./call-statement.js";
import { constantOf } from "./constant.js";
import { convertTo } from "./conversions.js";
import { tagOffsets } from "./dispatch.js";
import { withBraces } from "./elided-braces.js";
import { lowerArguments } from "./evaluation-order.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Place, RecordType } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { chooseOverload } from "./overloads.js";
import { expandPacks } from "./packs.js";
import { madeWith } from "./pins-of-libraries.js";
import { addressOf, baseField, behind, elementOf, isPlace, markAddressTaken, memberOf } from "./places.js";
import type { FunctionSymbol } from "./scope.js";
import { signatureOf } from "./signatures.js";
import { textBytes } from "./texts.js";
import { INT16, UINT16 } from "./types.js";

/** What stands behind a declarator: nothing, `= value`, `(a, b)` or `{a, b}`. */
export type Initialiser =
  | { readonly kind: "none" }
  | { readonly kind: "value"; readonly node: SyntaxNode }
  | { readonly kind: "arguments"; readonly nodes: readonly SyntaxNode[] }
  | { readonly kind: "list"; readonly node: SyntaxNode };

export function initialiserOf(node: SyntaxNode | undefined): Initialiser {
  if (node === undefined) return { kind: "none" };
  if (node.kind === "argument_list") return { kind: "arguments", nodes: node.children.filter((part) => part.named) };
  if (node.kind === "initializer_list") return { kind: "list", node };
  return { kind: "value", node };
}

/** Statements (into `body.out`) that give a fresh object its first value. `zero`: statics start from 0. */
export function initialise(run: Lowering, body: Body, target: Place, initialiser: Initialiser, zero: boolean): void {
  const type = target.type;
  switch (initialiser.kind) {
    case "none":
      if (zero) body.out.push({ op: "zero", target, start: target.start });
      constructDefault(run, body, target);
      return;
    case "value": {
      const node = initialiser.node;
      if (type.kind === "array" && (node.kind === "string_literal" || node.kind === "concatenated_string")) {
        initialiseText(run, body, target, node);
        return;
      }
      const value = lowerExpression(run, body, node);
      assignFresh(run, body, target, value, node);
      return;
    }
    case "arguments":
      if (type.kind === "record") {
        constructRecord(run, body, target, lowerArguments(run, body, initialiser.nodes));
        return;
      }
      if (type.kind === "opaque" && initialiser.nodes.length > 1) {
        madeWith(run, body, type.name, lowerArguments(run, body, initialiser.nodes), target, target);
        return;
      }
      if (initialiser.nodes.length === 0) body.out.push({ op: "zero", target, start: target.start });
      for (const node of initialiser.nodes.slice(0, 1))
        assignFresh(run, body, target, lowerExpression(run, body, node), node);
      return;
    case "list":
      if (type.kind === "opaque") {
        const nodes = initialiser.node.children.filter((part) => part.named);
        madeWith(run, body, type.name, lowerArguments(run, body, nodes), target, target);
        return;
      }
      initialiseList(run, body, target, initialiser.node);
  }
}

/** A fresh object or scalar gets the value. */
export function assignFresh(run: Lowering, body: Body, target: Place, value: Expression, node: SyntaxNode): void {
  const type = target.type;
  if (type.kind === "record") {
    if (isPlace(value) && value.type.kind === "record" && value.type.record === type.record) {
      const info = run.records.get(type.record);
      const copying = info?.constructors.find((candidate) => takesOwnKind(run, candidate, type.record));
      if (copying?.body != null) callFunction(run, body, copying, [value], addressOf(target), node);
      else body.out.push({ op: "copy", target, source: value, start: node.start });
      return;
    }
    constructRecord(run, body, target, [value]);
    return;
  }
  if (type.kind === "array") {
    run.gap(node, "array initialised by something that is no list");
    return;
  }
  body.out.push({
    op: "initialise",
    target,
    value: convertTo(run, body, value, type, node),
    start: node.start,
    end: node.end,
  });
}

function takesOwnKind(run: Lowering, candidate: FunctionSymbol, record: RecordType): boolean {
  const parameters = signatureOf(run, candidate).parameters;
  const first = parameters[0]?.type;
  return (
    parameters.length === 1 && first?.kind === "reference" && first.to.kind === "record" && first.to.record === record
  );
}

/** Constructors of members and elements that nobody initialised by name. */
export function constructDefault(run: Lowering, body: Body, target: Place): void {
  const type = target.type;
  if (type.kind === "record") {
    constructRecord(run, body, target, []);
  } else if (
    type.kind === "array" &&
    type.of.kind === "record" &&
    type.length !== null &&
    needsConstruction(run, type.of.record)
  ) {
    for (let index = 0; index < Math.min(type.length, 64); index++)
      constructDefault(run, body, elementOf(target, index));
    if (type.length > 64) run.gap(target, "array of more than 64 objects: constructors of the rest not followed");
  }
}

function needsConstruction(run: Lowering, record: RecordType): boolean {
  const info = run.records.get(record);
  if (info === undefined) return false;
  return (
    info.constructors.length > 0 ||
    info.defaults.size > 0 ||
    record.virtual ||
    record.bases.some((base) => needsConstruction(run, base.record)) ||
    record.fields.some((field) => {
      const inner = field.type.kind === "array" ? field.type.of : field.type;
      return inner.kind === "record" && needsConstruction(run, inner.record);
    })
  );
}

function constructRecord(run: Lowering, body: Body, target: Place, args: readonly Expression[]): void {
  if (target.type.kind !== "record") return;
  const record = target.type.record;
  const info = run.records.get(record);
  if (info === undefined) return;
  const inherited = info.inheritsConstructors && args.length > 0 ? inheritedConstructor(run, record, args) : null;
  if (inherited !== null) {
    markAddressTaken(target);
    constructParts(run, body, target, record, new Map(), { base: inherited, args });
    return;
  }
  if (info.constructors.length > 0) {
    markAddressTaken(target);
    const candidate = chooseOverload(run, info.constructors, args, null);
    if (candidate !== null) {
      callFunction(run, body, candidate, args, addressOf(target), target);
      return;
    }
    const twin =
      args.length === 1 && args[0]!.type.kind === "record" && args[0]!.type.record === record ? args[0]! : null;
    if (twin !== null && isPlace(twin)) {
      body.out.push({ op: "copy", target, source: twin, start: target.start });
      return;
    }
    run.gap(target, `no constructor of ${record.name} fits`);
    return;
  }
  if (args.length === 1 && isPlace(args[0]!) && args[0].type.kind === "record" && args[0].type.record === record) {
    body.out.push({ op: "copy", target, source: args[0], start: target.start });
    return;
  }
  if (!needsConstruction(run, record)) return;
  constructParts(run, body, target, record, new Map());
}

/** The base whose constructor takes these arguments; null where none does. */
function inheritedConstructor(run: Lowering, record: RecordType, args: readonly Expression[]): RecordType | null {
  for (const { record: base } of record.bases) {
    const info = run.records.get(base);
    if (info === undefined) continue;
    if (chooseOverload(run, info.constructors, args, null) !== null) return base;
    if (info.inheritsConstructors && inheritedConstructor(run, base, args) !== null) return base;
  }
  return null;
}

/** Bases, then members in their order: by the constructor's list, else by their default, else by themselves. */
function constructParts(
  run: Lowering,
  body: Body,
  target: Place,
  record: RecordType,
  listed: ReadonlyMap<string, Initialiser>,
  passedOn: { readonly base: RecordType; readonly args: readonly Expression[] } | null = null,
): void {
  const info = run.records.get(record);
  for (const base of record.bases) {
    const place = memberOf(target, baseField(base));
    const initialiser = listed.get(base.record.name);
    if (passedOn?.base === base.record) constructRecord(run, body, place, passedOn.args);
    else if (initialiser !== undefined) initialise(run, body, place, initialiser, false);
    else constructDefault(run, body, place);
  }
  for (const offset of tagOffsets(record)) {
    const tag = memberOf(target, { name: "(class)", type: UINT16, offset });
    body.out.push({
      op: "initialise",
      target: tag,
      value: { op: "integer", value: record.id & 0xffff, type: UINT16, start: target.start, end: target.end },
      start: target.start,
      end: target.end,
    });
  }
  for (const field of record.fields) {
    if (field.name === "") continue;
    const place = memberOf(target, field);
    const initialiser = listed.get(field.name);
    const fallback = info?.defaults.get(field.name);
    if (initialiser !== undefined) initialise(run, body, place, initialiser, false);
    else if (fallback !== undefined) {
      const outer = body.scope;
      body.scope = info!.scope;
      initialise(run, body, place, initialiserOf(fallback), false);
      body.scope = outer;
    } else constructDefault(run, body, place);
  }
}

/** What a constructor does before its own body. */
export function lowerConstruction(run: Lowering, body: Body, symbol: FunctionSymbol): void {
  const record = symbol.constructorOf!;
  const self = body.self!;
  const at = { start: symbol.node.start, end: symbol.node.start };
  const object = behind({ op: "variable", variable: self, type: self.type, ...at }, { kind: "record", record }, at);
  const listed = new Map<string, Initialiser>();
  const list = ofKind(symbol.node, "field_initializer_list");
  for (const part of list?.children ?? []) {
    if (part.kind !== "field_initializer") continue;
    const nameNode = part.children.find((inner) => inner.named);
    const valueNode = part.children.find(
      (inner) => inner.kind === "argument_list" || inner.kind === "initializer_list",
    );
    if (nameNode === undefined) continue;
    const name =
      nameNode.kind === "template_method" || nameNode.kind === "template_type"
        ? run.textOf(child(nameNode, "name") ?? nameNode)
        : run.textOf(nameNode);
    if (name === record.name) {
      // Delegation: the other constructor does it all.
      initialise(run, body, object, initialiserOf(valueNode), false);
      return;
    }
    listed.set(name, initialiserOf(valueNode));
  }
  constructParts(run, body, object, record, listed);
}

/** The elements that `[2] =` or gcc's `[2 ... 5] =` names; null where it names none that is known. */
export function designated(
  run: Lowering,
  body: Body,
  pair: SyntaxNode,
): { readonly first: number; readonly last: number } | null {
  const designator = pair.children.find((part) => part.kind.startsWith("subscript_"));
  const known = (part: SyntaxNode | undefined): number | undefined =>
    part === undefined ? undefined : constantOf(lowerExpression(run, body, part));
  if (designator?.kind === "subscript_range_designator") {
    const [first, last] = [known(child(designator, "start")), known(child(designator, "end"))];
    return first === undefined || last === undefined ? null : { first, last };
  }
  const only = known(designator?.children.find((part) => part.named));
  return only === undefined ? null : { first: only, last: only };
}

function initialiseList(run: Lowering, body: Body, target: Place, list: SyntaxNode): void {
  const type = target.type;
  const given = list.children.filter((part) => part.named);
  const items = withBraces(run, body, type, expandPacks(run, body.scope, given));
  if (type.kind === "array") {
    body.out.push({ op: "zero", target, start: target.start });
    let index = 0;
    for (const item of items) {
      if (item.kind === "initializer_pair") {
        const value = child(item, "value");
        const { first, last } = designated(run, body, item) ?? { first: index, last: index };
        for (index = first; index <= last && value !== undefined; index++)
          initialise(run, body, elementOf(target, index), initialiserOf(value), false);
        index = last;
      } else initialise(run, body, elementOf(target, index), initialiserOf(item), false);
      index++;
    }
    return;
  }
  if (type.kind === "record") {
    const info = run.records.get(type.record);
    if (info !== undefined && info.constructors.length > 0) {
      constructRecord(
        run,
        body,
        target,
        items.map((item) => lowerExpression(run, body, item)),
      );
      return;
    }
    body.out.push({ op: "zero", target, start: target.start });
    constructDefault(run, body, target);
    const fields = allFields(type.record);
    let index = 0;
    for (const item of items) {
      if (item.kind === "initializer_pair") {
        const designator = item.children.find((part) => part.kind === "field_designator");
        const name = designator?.children.find((part) => part.named);
        const value = child(item, "value");
        const at = name === undefined ? -1 : fields.findIndex((field) => field.name === run.textOf(name));
        if (at >= 0) index = at;
        if (value !== undefined && fields[index] !== undefined) {
          initialise(run, body, memberOf(target, fields[index]!), initialiserOf(value), false);
        }
      } else if (fields[index] !== undefined) {
        initialise(run, body, memberOf(target, fields[index]!), initialiserOf(item), false);
      }
      index++;
    }
    return;
  }
  if (items.length === 0) body.out.push({ op: "zero", target, start: target.start });
  else initialise(run, body, target, initialiserOf(items[0]), false);
}

function allFields(record: RecordType): RecordType["fields"] {
  const inherited = record.bases.flatMap((base) =>
    allFields(base.record).map((field) => ({ ...field, offset: field.offset + base.offset })),
  );
  return [...inherited, ...record.fields.filter((field) => field.name !== "")];
}

function initialiseText(run: Lowering, body: Body, target: Place, node: SyntaxNode): void {
  if (target.type.kind !== "array") return;
  body.out.push({ op: "zero", target, start: target.start });
  const bytes = textBytes(run, node);
  for (const [index, byte] of bytes.entries()) {
    if (byte === 0) continue;
    const value: Expression = { op: "integer", value: byte, type: INT16, start: node.start, end: node.end };
    const element = elementOf(target, index);
    body.out.push({
      op: "initialise",
      target: element,
      value: convertTo(run, body, value, element.type, node),
      start: node.start,
      end: node.end,
    });
  }
}
