/** Classes, structs, unions, enumerations: members, layout (no padding on AVR), implicit members, instances of class templates. */
import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { declareAlias } from "./declarations.js";
import { readDeclarator } from "./declarators.js";
import { lowerExpression } from "./expressions.js";
import { addFunction } from "./functions.js";
import type { Field, RecordType } from "./ir.js";
import { type Lowering, type RecordInfo, scratchBody } from "./lowering.js";
import { rememberEnumScope } from "./qualified-names.js";
import { type Meaning, Scope } from "./scope.js";
import { declareStaticMember } from "./static-members.js";
import { bindTemplate, matchSpecialisation } from "./template-binding.js";
import { readSpecifiers, readType } from "./type-syntax.js";
import { INT16, INT32, sizeOf, type Type, UINT16, UINT32 } from "./types.js";
import { declareUsing } from "./using.js";

/** Declares the class a specifier names or defines, and gives its type. */
export function declareClass(run: Lowering, scope: Scope, node: SyntaxNode): Type {
  const nameNode = child(node, "name");
  const body = child(node, "body");
  const name = nameNode === undefined ? "" : run.textOf(nameNode);
  if (nameNode?.kind === "template_type") return { kind: "opaque", name };
  if (body === undefined) {
    const known = scope.findTag(name) ?? (name === "" ? undefined : scope.shared?.define(name, null, null));
    if (known?.kind === "type") {
      scope.declare(name, known);
      return known.type;
    }
    const { type } = reserve(run, scope, name, node);
    if (name !== "") scope.shared?.define(name, null, { kind: "type", type });
    return type;
  }
  const text = run.textOf(node);
  // The same words in another unit, as a rule out of the same header, define the same class.
  const elsewhere = scope.shared?.define(name, text, null);
  if (elsewhere?.kind === "type") {
    if (name !== "") scope.declare(name, elsewhere);
    return elsewhere.type;
  }
  const present = name === "" ? undefined : scope.tag(name);
  let info = present?.kind === "type" && present.type.kind === "record" ? run.records.get(present.type.record)! : null;
  if (info !== null && info.record.size >= 0) {
    // Twice in one unit is an error, which the first definition survives; another unit may have a class of this name.
    if (scope.shared === null || info.scope.file === scope.file) return (present as { type: Type }).type;
    info = null;
  }
  if (info === null) info = reserve(run, scope, name, node).info;
  else info.scope.parent = scope;
  const type: Type = { kind: "record", record: info.record };
  scope.shared?.define(name, text, { kind: "type", type });
  fillClass(run, info, node, body);
  return type;
}

function reserve(run: Lowering, scope: Scope, name: string, node: SyntaxNode): { type: Type; info: RecordInfo } {
  const { type, info } = run.openRecord(scope, name === "" ? "(unnamed)" : name, node.kind === "union_specifier");
  if (name !== "") {
    scope.declare(name, { kind: "type", type });
    info.scope.declare(name, { kind: "type", type });
  }
  return { type, info };
}

function fillClass(run: Lowering, info: RecordInfo, node: SyntaxNode, body: SyntaxNode): void {
  const { record, scope } = info;
  record.size = 0;
  const bases = ofKind(node, "base_class_clause");
  for (const base of bases?.children ?? []) {
    if (base.kind !== "type_identifier" && base.kind !== "qualified_identifier" && base.kind !== "template_type")
      continue;
    const type = readType(run, scope, base);
    if (type?.kind === "record") {
      record.bases.push({ record: type.record, offset: record.size });
      record.size += Math.max(0, type.record.size);
      const baseInfo = run.records.get(type.record);
      if (baseInfo !== undefined) scope.bases.push(baseInfo.scope);
      if (type.record.virtual) {
        record.virtual = true;
        record.tagOffset = record.bases[record.bases.length - 1]!.offset + type.record.tagOffset;
      }
    } else {
      run.gap(base, `class ${record.name} inherits from ${run.textOf(base)}, which was not seen`);
    }
  }
  for (const member of body.children) declareMember(run, info, member);
  if (record.size === 0) record.size = 1;
}

function declareMember(run: Lowering, info: RecordInfo, member: SyntaxNode): void {
  const { record, scope } = info;
  switch (member.kind) {
    case "field_declaration":
      declareFields(run, info, member);
      break;
    case "function_definition":
      addFunction(run, scope, member, null);
      break;
    case "declaration": {
      // A constructor's or destructor's declaration has no type.
      const declarator = child(member, "declarator");
      if (declarator?.kind === "function_declarator") addFunction(run, scope, member, null);
      else declareFields(run, info, member);
      break;
    }
    case "template_declaration": {
      const inner = member.children.find((part) => part.kind === "function_definition" || part.kind === "declaration");
      if (inner !== undefined) addFunction(run, scope, inner, child(member, "parameters") ?? null);
      break;
    }
    case "alias_declaration":
    case "type_definition":
      declareAlias(run, scope, member);
      break;
    case "using_declaration":
      if (inheritedConstructors(run, info, member)) info.inheritsConstructors = true;
      else declareUsing(run, scope, member);
      break;
    case "friend_declaration": {
      // A friend defined here is a function of the scope around the class.
      const inner = member.children.find((part) => part.kind === "function_definition");
      if (inner !== undefined && scope.parent !== null) addFunction(run, scope.parent, inner, null);
      break;
    }
    case "access_specifier":
    case "static_assert_declaration":
      break;
    case "preproc_call":
      break;
    default:
      if (member.named && member.kind !== "comment") {
        run.gap(member, `member of ${record.name} not understood`);
      }
  }
}

/** `using Base::Base;` */
function inheritedConstructors(run: Lowering, info: RecordInfo, node: SyntaxNode): boolean {
  const words = run.textOf(node).match(/[\w:]+/g) ?? [];
  const parts = (words[words.length - 1] ?? "").split("::");
  const last = parts[parts.length - 1];
  return (
    parts.length > 1 &&
    (last === parts[parts.length - 2] || info.record.bases.some((base) => base.record.name === last))
  );
}

function declareFields(run: Lowering, info: RecordInfo, node: SyntaxNode): void {
  const { record, scope } = info;
  const specifiers = readSpecifiers(run, scope, node);
  const declarators = node.children.filter((part) => part.field === "declarator");
  if (specifiers.isTypedef) {
    declareAlias(run, scope, node);
    return;
  }
  if (declarators.length === 0) {
    // An unnamed struct or union inside: its members belong to this one.
    if (specifiers.type?.kind === "record" && specifiers.type.record.name === "(unnamed)") {
      const offset = record.union ? 0 : record.size;
      for (const field of specifiers.type.record.fields) {
        addField(info, { ...field, offset: offset + field.offset });
      }
      grow(record, offset, specifiers.type.record.size);
    }
    return;
  }
  for (let index = 0; index < node.children.length; index++) {
    const part = node.children[index]!;
    if (part.field !== "declarator") continue;
    const read = readDeclarator(run, scope, part, specifiers.type ?? INT16);
    if (read.function !== null) {
      addFunction(run, scope, node, null);
      continue;
    }
    const name = read.name === null ? "" : run.textOf(read.name);
    if (specifiers.isStatic) {
      declareStaticMember(run, info, node, part, read.type, name);
      continue;
    }
    const next = node.children[index + 1];
    if (next?.kind === "bitfield_clause") {
      const widthNode = next.children.find((child) => child.named);
      const width =
        widthNode === undefined ? undefined : constantOf(lowerExpression(run, scratchBody(run, scope), widthNode));
      addBitField(info, name, read.type, width ?? 1);
      continue;
    }
    const offset = record.union ? 0 : record.size;
    addField(info, { name, type: read.type, offset });
    grow(record, offset, sizeOf(read.type));
    const fallback = defaultOf(node, part);
    if (fallback !== undefined) info.defaults.set(name, fallback);
  }
}

/** What stands behind `=` or in braces after one of the declarators of a member declaration. */
export function defaultOf(node: SyntaxNode, declarator: SyntaxNode): SyntaxNode | undefined {
  for (const part of node.children.slice(node.children.indexOf(declarator) + 1)) {
    if (part.field === "declarator") return undefined;
    if (part.field === "default_value") return part;
  }
  return undefined;
}

/** gcc packs bit fields from the lowest bit up and, on AVR, without a gap from byte to byte (measured: avr-gcc 5.4). */
function addBitField(info: RecordInfo, name: string, type: Type, width: number): void {
  const { record } = info;
  const last = record.fields[record.fields.length - 1];
  let offset = record.size;
  let shift = 0;
  if (last?.bits !== undefined && !record.union && width > 0) {
    const next = last.offset * 8 + last.bits.shift + last.bits.width;
    offset = Math.floor(next / 8);
    shift = next % 8;
  }
  if (record.union) offset = 0;
  const field: Field = { name, type, offset, bits: { shift, width } };
  if (name !== "") addField(info, field);
  else record.fields.push(field);
  const bytes = Math.ceil((shift + width) / 8);
  grow(record, offset, bytes);
}

function addField(info: RecordInfo, field: Field): void {
  info.record.fields.push(field);
  info.scope.declare(field.name, { kind: "field", field, record: info.record });
}

function grow(record: RecordType, offset: number, size: number): void {
  record.size = Math.max(record.size, offset + size);
}

/** Gives the class a hidden cell that says which class an object really is; once, before objects exist. */
export function makeVirtual(record: RecordType): void {
  if (record.virtual) return;
  record.virtual = true;
  record.tagOffset = record.size;
  record.size += 2;
}

export function instantiateClass(
  run: Lowering,
  scope: Scope,
  template: ClassTemplate,
  args: SyntaxNode | undefined,
): Type {
  const bound = bindTemplate(run, scope, template.scope, child(template.node, "parameters"), args);
  const known = template.instances.get(bound.key);
  if (known !== undefined) return known;
  if (!bound.complete || run.depth > 40) {
    run.gap(args ?? template.node, "template arguments not understood");
    return { kind: "opaque", name: run.textOf(template.body).slice(0, 30) };
  }
  for (const { parameters, body, scope: home } of template.partial) {
    const name = child(body, "name");
    const patterns = name === undefined ? undefined : child(name, "arguments");
    const fitting = matchSpecialisation(run, home, parameters, patterns, bound.meanings);
    if (fitting !== null) return makeInstance(run, template, bound.key, fitting, body);
  }
  return makeInstance(run, template, bound.key, bound.scope, template.body);
}

type ClassTemplate = Extract<Meaning, { kind: "class template" }>;

/** `template <> struct Foo<3> { … };` */
export function specialiseClass(run: Lowering, scope: Scope, template: ClassTemplate, node: SyntaxNode): void {
  const name = child(node, "name");
  const args = name === undefined ? undefined : child(name, "arguments");
  const bound = bindTemplate(run, scope, template.scope, child(template.node, "parameters"), args);
  if (bound.complete && !template.instances.has(bound.key)) makeInstance(run, template, bound.key, scope, node);
}

function makeInstance(run: Lowering, template: ClassTemplate, key: string, scope: Scope, node: SyntaxNode): Type {
  run.depth++;
  const named = child(node, "name");
  const name = named?.kind === "template_type" ? child(named, "name") : named;
  const home = new Scope(scope, "template");
  const { type, info } = reserve(run, home, name === undefined ? "" : run.textOf(name), node);
  template.instances.set(key, type);
  const body = child(node, "body");
  if (body !== undefined) fillClass(run, info, node, body);
  if (node === template.body) for (const outside of outsideDefinitions.get(node) ?? []) outside(scope, info);
  run.depth--;
  return type;
}

/** Member functions of class templates that are defined outside the class: applied to each instance. */
export const outsideDefinitions = new WeakMap<SyntaxNode, ((scope: Scope, info: RecordInfo) => void)[]>();

export function declareEnum(run: Lowering, scope: Scope, node: SyntaxNode): Type {
  const nameNode = child(node, "name");
  const body = child(node, "body");
  const name = nameNode === undefined ? "" : run.textOf(nameNode);
  if (body === undefined) {
    const known = name === "" ? undefined : scope.findTag(name);
    if (known !== undefined) return known.type;
  }
  const scoped = node.children.some((part) => part.kind === "class" || part.kind === "struct");
  const baseNode = child(node, "base");
  const base = baseNode === undefined ? null : readType(run, scope, baseNode);
  const inner = new Scope(scope, "namespace");
  const values: [string, number][] = [];
  let next = 0;
  for (const part of body?.children ?? []) {
    if (part.kind !== "enumerator") continue;
    const label = child(part, "name");
    const value = child(part, "value");
    if (value !== undefined) {
      const known = constantOf(lowerExpression(run, scratchBody(run, inner), value));
      if (known === undefined) run.gap(value, "value of an enumerator is not known when compiled");
      else next = known;
    }
    if (label !== undefined) {
      values.push([run.textOf(label), next]);
      inner.declare(run.textOf(label), { kind: "constant", value: next, type: INT16 });
    }
    next++;
  }
  const type = namedCopy(base ?? enumType(values.map(([, value]) => value)), name, scoped);
  rememberEnumScope(type, inner);
  for (const [label, value] of values) {
    const meaning: Meaning = { kind: "constant", value, type };
    inner.declare(label, meaning);
    if (!scoped) scope.declare(label, meaning);
  }
  if (name !== "") scope.declare(name, { kind: "type", type });
  return type;
}

/** Without -fshort-enums arithmetic on enumerators is done in int, or the next type that holds every value (C++11 4.5). */
function enumType(values: readonly number[]): Type {
  const min = Math.min(0, ...values);
  const max = Math.max(0, ...values);
  if (min >= -0x8000 && max <= 0x7fff) return INT16;
  if (min < 0) return INT32;
  return max <= 0xffff ? UINT16 : UINT32;
}

/** A type of its own identity, so that an enumeration can be told from its base. */
function namedCopy(type: Type, name: string, scoped: boolean): Type {
  if (type.kind !== "integer") return type;
  return { ...type, name: name === "" ? type.name : name, enumeration: { scoped } };
}
