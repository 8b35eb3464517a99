/** Names and what they stand for. A scope knows its parent; lookup goes outward, through base classes where there are any. */
import type { SyntaxNode } from "../parse/syntax.js";
import type { Field, FunctionCode, RecordType, Variable } from "./ir.js";
import type { Type } from "./types.js";

/** A function as declared: its code is made when somebody calls it. */
export interface FunctionSymbol {
  readonly name: string;
  /** The function_definition, or a declaration without a body. */
  node: SyntaxNode;
  body: SyntaxNode | null;
  /** Where the names in its body are looked for: that of the definition, once there is one. */
  scope: Scope;
  /** Where it is declared: for all units to see where it has external linkage. */
  readonly home: Scope;
  /** Defined in one of the core's own sources. */
  ofCore: boolean;
  /** Gives way to another definition. */
  weak: boolean;
  readonly record: RecordType | null;
  isStatic: boolean;
  virtual: boolean;
  pure: boolean;
  readonly constructorOf: RecordType | null;
  signature: Signature | null;
  code: FunctionCode | null;
  /** Template parameters still to be bound; null for an ordinary function. */
  readonly template: SyntaxNode | null;
  readonly instances: Map<string, FunctionSymbol>;
}

export interface Signature {
  readonly returns: Type | null;
  readonly parameters: readonly {
    readonly name: string;
    readonly type: Type;
    readonly node: SyntaxNode;
    readonly fallback: SyntaxNode | null;
  }[];
  readonly variadic: boolean;
}

/** How a lambda reaches a variable of the function around it. */
export interface Capture {
  readonly field: Field;
  readonly byReference: boolean;
  readonly type: Type;
}

export type Meaning =
  | { readonly kind: "variable"; readonly variable: Variable }
  | { readonly kind: "field"; readonly field: Field; readonly record: RecordType }
  | { readonly kind: "functions"; readonly set: FunctionSymbol[] }
  | { readonly kind: "type"; readonly type: Type }
  | {
      readonly kind: "class template";
      readonly node: SyntaxNode;
      readonly body: SyntaxNode;
      readonly scope: Scope;
      readonly instances: Map<string, Type>;
      /** Partial specialisations: their own parameters, patterns and bodies. */
      readonly partial: {
        readonly parameters: SyntaxNode | undefined;
        readonly body: SyntaxNode;
        readonly scope: Scope;
      }[];
    }
  | { readonly kind: "alias template"; readonly node: SyntaxNode; readonly body: SyntaxNode; readonly scope: Scope }
  | { readonly kind: "namespace"; readonly scope: Scope }
  | { readonly kind: "constant"; readonly value: number; readonly type: Type }
  | { readonly kind: "capture"; readonly capture: Capture }
  /** A parameter pack. */
  | { readonly kind: "pack"; readonly items: readonly Meaning[] };

const HIDING: ReadonlySet<Meaning["kind"]> = new Set(["variable", "functions", "constant", "field"]);

export class Scope {
  private readonly names = new Map<string, Meaning>();
  /** Types that a variable or function of the same name hides (C++11 3.3.10): `struct lamp lamp;`. */
  private readonly hidden = new Map<string, Extract<Meaning, { kind: "type" }>>();
  /** The same scope as the linker sees it, for all units; null where names stay where they are declared. */
  shared: Scope | null = null;
  /** Of a shared scope: classes and class templates that the units have defined, by name. */
  private readonly definitions = new Map<string, { text: string | null; readonly meaning: Meaning }[]>();
  /** Namespaces opened by `using namespace`. */
  readonly opened: Scope[] = [];
  /** Scopes of base classes. */
  readonly bases: Scope[] = [];

  constructor(
    public parent: Scope | null,
    readonly kind: "global" | "namespace" | "record" | "block" | "template",
    readonly record: RecordType | null = null,
  ) {}

  declare(name: string, meaning: Meaning): void {
    const present = this.names.get(name);
    if (meaning.kind === "type" && present !== undefined && HIDING.has(present.kind)) {
      this.hidden.set(name, meaning);
      return;
    }
    if (present?.kind === "type" && HIDING.has(meaning.kind)) this.hidden.set(name, present);
    this.names.set(name, meaning);
  }

  /** The class or enumeration that `struct name` means here, whatever else bears the name. */
  tag(name: string): Extract<Meaning, { kind: "type" }> | undefined {
    const meaning = this.hidden.get(name) ?? this.names.get(name);
    return meaning?.kind === "type" ? meaning : undefined;
  }

  findTag(name: string): Extract<Meaning, { kind: "type" }> | undefined {
    for (let scope: Scope | null = this; scope !== null; scope = scope.parent) {
      const found = scope.tag(name) ?? scope.own(name);
      if (found?.kind === "type") return found;
    }
    return undefined;
  }

  /** The outermost scope of the unit. */
  get file(): Scope {
    let scope: Scope = this;
    while (scope.kind !== "global" && scope.parent !== null) scope = scope.parent;
    return scope;
  }

  /** Only what was declared here, by no other way. */
  here(name: string): Meaning | undefined {
    return this.names.get(name);
  }

  /**
   * What units have defined under this name with these words (null: with any). A meaning that is given is kept, in place
   * of its own mere declaration where there was one.
   */
  define(name: string, text: string | null, meaning: Meaning | null): Meaning | undefined {
    let list = this.definitions.get(name);
    const known = list?.find((entry) => text === null || entry.text === text);
    if (meaning === null || known !== undefined) return known?.meaning;
    if (list === undefined) {
      list = [];
      this.definitions.set(name, list);
    }
    const declared = list.find((entry) => entry.text === null && sameEntity(entry.meaning, meaning));
    if (declared === undefined) list.push({ text, meaning });
    else declared.text = text;
    return meaning;
  }

  /** Only this scope and its base classes. */
  own(name: string): Meaning | undefined {
    const found = this.names.get(name);
    if (found !== undefined)
      return found.kind === "functions" && this.opened.length > 0 ? this.withOpened(name, found) : found;
    for (const base of this.bases) {
      const inherited = base.own(name);
      if (inherited !== undefined) return inherited;
    }
    for (const opened of this.opened) {
      const inside = opened.own(name);
      if (inside !== undefined) return inside;
    }
    return undefined;
  }

  /** Functions further down: the build puts prototypes of a sketch's functions above all others. */
  later: Map<string, () => void> | null = null;

  private declaredLater(name: string): Meaning | undefined {
    const declare = this.later?.get(name);
    if (declare === undefined) return undefined;
    this.later!.delete(name);
    declare();
    return this.own(name);
  }

  /** Functions of this name from the opened namespaces are overloads of those here. */
  private withOpened(name: string, here: Extract<Meaning, { kind: "functions" }>): Meaning {
    const set = new Set(here.set);
    for (const opened of this.opened) {
      const inside = opened.own(name);
      if (inside?.kind === "functions") for (const symbol of inside.set) set.add(symbol);
    }
    return set.size === here.set.length ? here : { kind: "functions", set: [...set] };
  }

  find(name: string): Meaning | undefined {
    for (let scope: Scope | null = this; scope !== null; scope = scope.parent) {
      const found = scope.own(name) ?? scope.declaredLater(name);
      if (found !== undefined) return found;
    }
    return undefined;
  }

  /** The class template or alias template of that name: inside an instance its bare name stands for the instance. */
  findTemplate(name: string): Extract<Meaning, { kind: "class template" | "alias template" }> | undefined {
    for (let scope: Scope | null = this; scope !== null; scope = scope.parent) {
      const found = scope.own(name);
      if (found?.kind === "class template" || found?.kind === "alias template") return found;
    }
    return undefined;
  }

  /** Adds an overload beside those of the same scope. */
  overload(symbol: FunctionSymbol): void {
    const present = this.names.get(symbol.name);
    if (present?.kind === "functions") {
      if (!present.set.includes(symbol)) present.set.push(symbol);
    } else this.declare(symbol.name, { kind: "functions", set: [symbol] });
  }
}

function sameEntity(left: Meaning, right: Meaning): boolean {
  return (
    left.kind === "type" &&
    right.kind === "type" &&
    left.type.kind === "record" &&
    right.type.kind === "record" &&
    left.type.record === right.type.record
  );
}
