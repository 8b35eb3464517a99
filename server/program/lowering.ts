/** What all lowering functions share: the run's state (names, ids, gaps, work still to do) and the function being lowered. */

import type { Chip } from "../../shared-model/chip.js";
import type { SyntaxNode } from "../parse/syntax.js";
import type { Preprocessed, SourceMap } from "../preprocess/preprocessed.js";
import type { Cleanup } from "./destruction.js";
import type { Expression, FunctionCode, Place, RecordType, Statement, Stretch, Variable } from "./ir.js";
import { placeOf } from "./places.js";
import { type FunctionSymbol, Scope } from "./scope.js";
import { type Type, VOID } from "./types.js";

export interface LoweringGap {
  readonly reason: string;
  readonly affects: readonly string[];
  readonly start: number;
  readonly end: number;
}

/** A register as a place: 16-bit ones are one place of two bytes. */
export interface RegisterPlace {
  readonly name: string;
  readonly address: number;
  readonly bits: 8 | 16;
}

/** A record under way: its scope, and the nodes its implicit constructor needs. */
export interface RecordInfo {
  readonly record: RecordType;
  readonly scope: Scope;
  readonly constructors: FunctionSymbol[];
  /** Default member initialisers by field name. */
  readonly defaults: Map<string, SyntaxNode>;
  readonly methods: FunctionSymbol[];
  destructor: FunctionSymbol | null;
  /** `using Base::Base`: its bases' constructors make objects of this class too. */
  inheritsConstructors: boolean;
}

/** The function whose body is being lowered. */
export interface Body {
  readonly code: FunctionCode;
  scope: Scope;
  /** Where statements go at the moment: expressions put the calls that they contain here first. */
  out: Statement[];
  returns: Type | null;
  readonly labels: Set<string>;
  /** `this`, where there is one. */
  readonly self: Variable | null;
  readonly record: RecordType | null;
  /** Blocks, loops and switches around the place being lowered, outermost first. */
  readonly cleanups: Cleanup[];
}

/** A leaf or node of an expression as written; `trace` numbers the recorder's cell for its value. */
export interface WrittenNode {
  readonly kind: "literal" | "name" | "register" | "unary" | "binary" | "conditional" | "call" | "cast" | "other";
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly parenthesised: boolean;
  readonly operands: readonly WrittenNode[];
  readonly trace: number;
  readonly type: Type;
  readonly nature: "constant" | "input" | "computed";
}

export class Lowering {
  /** What the linker sees: names that all units share. */
  readonly linker = new Scope(null, "global");
  /** The unit whose declarations are being read. */
  unit: Preprocessed["units"][number] | null = null;
  /** The scopes of the sketch's own units. */
  readonly unitScopes: Scope[] = [];
  /** Constants of the board's pins file. */
  pinNames: Readonly<Record<string, number>> = {};
  /** Pins through which objects of the library SoftwareSerial send. */
  readonly transmitPins: { readonly variable: Variable | null; readonly pin: Expression }[] = [];
  /** Pins that objects of other libraries drive. */
  readonly drivenPins: { readonly className: string; readonly variable: Variable | null; readonly pin: Expression }[] =
    [];
  readonly gaps: LoweringGap[] = [];
  readonly functions: FunctionCode[] = [];
  readonly globals: Variable[] = [];
  readonly records = new Map<RecordType, RecordInfo>();
  /** Functions whose code exists but whose bodies are still syntax. */
  readonly waiting: { readonly symbol: FunctionSymbol; readonly code: FunctionCode }[] = [];
  readonly coreObjects = new Map<string, Variable>();
  /** What variables hold before anything runs. */
  readonly startup: Statement[] = [];
  readonly registerNames: { name: string; start: number; end: number }[] = [];
  readonly literalNames: { start: number; end: number }[] = [];
  readonly callNames: { name: string; start: number; end: number }[] = [];
  readonly written: (WrittenNode | null)[] = [];
  /** Where values of traced expressions are asked for: the node under construction, or null. */
  tracing: WrittenNode[] | null = null;
  traces = 0;
  depth = 0;
  private nextId = 1;

  constructor(
    /** As the grammar got it: what it cannot read spelled otherwise, every offset the same. */
    readonly text: string,
    /** As it was written. */
    readonly source: string,
    readonly map: SourceMap,
    readonly chip: Chip,
    readonly registers: ReadonlyMap<string, RegisterPlace>,
    readonly builtinHeaders: ReadonlySet<string>,
    readonly core: boolean,
  ) {}

  /** A class whose members are still to come, with the scope they will stand in. */
  openRecord(outer: Scope, name: string, union = false): { readonly type: Type; readonly info: RecordInfo } {
    const record: RecordType = {
      name,
      size: -1,
      fields: [],
      bases: [],
      virtual: false,
      tagOffset: -1,
      id: this.id(),
      union,
    };
    const info: RecordInfo = {
      record,
      scope: new Scope(outer, "record", record),
      constructors: [],
      defaults: new Map(),
      methods: [],
      destructor: null,
      inheritsConstructors: false,
    };
    this.records.set(record, info);
    return { type: { kind: "record", record }, info };
  }

  id(): number {
    return this.nextId++;
  }

  textOf(node: SyntaxNode): string {
    return this.text.slice(node.start, node.end);
  }

  gap(node: Stretch, reason: string, affects: readonly string[] = []): void {
    this.gaps.push({ reason, affects, start: node.start, end: node.end });
  }

  variable(name: string, type: Type, storage: Variable["storage"], start: number): Variable {
    return {
      id: this.id(),
      name,
      type,
      storage,
      constant: false,
      volatile: false,
      addressTaken: false,
      start,
      relevant: false,
      steers: false,
    };
  }

  /** A local of the function being lowered. */
  local(body: Body, name: string, type: Type, start: number): Variable {
    const variable = this.variable(name, type, "local", start);
    body.code.locals.push(variable);
    return variable;
  }

  temporary(body: Body, type: Type, start: number): Variable {
    return this.local(body, "", type, start);
  }

  /** A temporary that has come to life, to be filled. */
  freshTemporary(body: Body, type: Type, node: Stretch): Place {
    const variable = this.temporary(body, type, node.start);
    body.out.push({ op: "declare", variable, zero: false, start: node.start });
    return placeOf(variable, node.start, node.end);
  }

  globalVariable(name: string, type: Type, start: number): Variable {
    const variable = this.variable(name, type, "global", start);
    this.globals.push(variable);
    return variable;
  }
}

/** Lowers something with its own list of statements before it. */
export function aside<T>(body: Body, work: () => T): readonly [T, Statement[]] {
  const outer = body.out;
  const own: Statement[] = [];
  body.out = own;
  const result = work();
  body.out = outer;
  return [result, own];
}

/** A body whose statements go nowhere: for types and constants. */
export function scratchBody(run: Lowering, scope: Scope): Body {
  return {
    code: {
      id: run.id(),
      name: "",
      returns: VOID,
      parameters: [],
      variadic: false,
      self: null,
      body: null,
      locals: [],
      start: 0,
      end: 0,
      interrupt: null,
      core: false,
      result: null,
    },
    scope,
    out: [],
    returns: null,
    labels: new Set(),
    self: null,
    record: null,
    cleanups: [],
  };
}
