/**
 * The program: what the sketch says, with every name resolved, every conversion spelled out and every call of a
 * function of its own lifted out of expressions. Law: expressions never fork, statements do.
 * Places are offsets into the expanded text; the source map alone leads back to files.
 */
import type { Gap } from "../preprocess/source.js";
import type { Type } from "./types.js";

/** Where something stands in the expanded text. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** A variable, parameter or temporary. */
export interface Variable {
  readonly id: number;
  readonly name: string;
  type: Type;
  /** `global`: lives for ever (statics included); `local`: one per activation; `heap`: one per call that makes it. */
  readonly storage: "global" | "local" | "heap";
  /** Declared const with an initialiser: nobody changes it. */
  constant: boolean;
  volatile: boolean;
  addressTaken: boolean;
  readonly start: number;
  /** Set by the relevance pass: whether it can decide what the pins do. */
  relevant: boolean;
  /** Set by the relevance pass: whether it decides more than a duty value, such as which mode or which way is taken. */
  steers: boolean;
  /** Values at which it is likely to stop growing (landmarks.ts). */
  landmarks?: readonly number[];
  /** Compile-time value, where one was needed for array sizes, cases or templates. */
  known?: number;
}

export interface Field {
  readonly name: string;
  readonly type: Type;
  readonly offset: number;
  /** For bit fields: lowest bit and width within the storage unit at `offset`. */
  readonly bits?: { readonly shift: number; readonly width: number };
}

export interface RecordType {
  readonly name: string;
  size: number;
  readonly fields: Field[];
  readonly bases: { readonly record: RecordType; readonly offset: number }[];
  /** True where virtual functions exist: the dynamic type of an object is kept in the hidden cell at `tagOffset`. */
  virtual: boolean;
  tagOffset: number;
  readonly id: number;
  union: boolean;
}

/** A function of the sketch, lowered. */
export interface FunctionCode {
  readonly id: number;
  readonly name: string;
  readonly returns: Type;
  readonly parameters: readonly Variable[];
  readonly variadic: boolean;
  /** The object it is called on; null for free and static functions. */
  readonly self: Variable | null;
  body: Statement | null;
  /** One of the core's own sources has it: what it does it does on behalf of the call that the sketch makes. */
  core: boolean;
  readonly locals: Variable[];
  readonly start: number;
  readonly end: number;
  /** Vector name where it is an interrupt routine. */
  readonly interrupt: string | null;
  /** Where the returned value is left; null for void. */
  result: Variable | null;
}

export type BinaryOperator = "+" | "-" | "*" | "/" | "%" | "&" | "|" | "^" | "<<" | ">>";
export type Comparison = "<" | "<=" | ">" | ">=" | "==" | "!=";

interface Node extends Stretch {
  readonly type: Type;
}

/** Expressions that name a place. */
export type Place =
  | (Node & { readonly op: "variable"; readonly variable: Variable })
  /** `name` as the data sheet has it; 16-bit registers are one place of two bytes. */
  | (Node & { readonly op: "register"; readonly address: number; readonly name: string })
  | (Node & { readonly op: "dereference"; readonly pointer: Expression })
  | (Node & { readonly op: "index"; readonly base: Place; readonly index: Expression })
  | (Node & { readonly op: "member"; readonly base: Place; readonly field: Field })
  /** A value that needs a place: a temporary. */
  | (Node & { readonly op: "temporary"; readonly variable: Variable; readonly value: Expression })
  | (Node & { readonly op: "nowhere"; readonly why: string });

export type Expression =
  | Place
  | (Node & { readonly op: "integer"; readonly value: number })
  | (Node & { readonly op: "real"; readonly value: number })
  | (Node & { readonly op: "text"; readonly text: string; readonly object: Variable })
  | (Node & { readonly op: "null" })
  | (Node & { readonly op: "load"; readonly place: Place })
  | (Node & { readonly op: "address"; readonly place: Place })
  | (Node & { readonly op: "function"; readonly code: FunctionCode })
  | (Node & { readonly op: "convert"; readonly operand: Expression })
  | (Node & { readonly op: "negate" | "complement"; readonly operand: Expression })
  | (Node & { readonly op: "not"; readonly operand: Expression })
  | (Node & {
      readonly op: "binary";
      readonly operator: BinaryOperator;
      readonly left: Expression;
      readonly right: Expression;
    })
  /** Pointer plus or minus an integer, counted in elements of `size` bytes. */
  | (Node & {
      readonly op: "offset";
      readonly pointer: Expression;
      readonly count: Expression;
      readonly size: number;
      readonly negative: boolean;
    })
  | (Node & { readonly op: "distance"; readonly left: Expression; readonly right: Expression; readonly size: number })
  | (Node & {
      readonly op: "compare";
      readonly operator: Comparison;
      readonly left: Expression;
      readonly right: Expression;
    })
  | (Node & { readonly op: "and" | "or"; readonly left: Expression; readonly right: Expression })
  | (Node & {
      readonly op: "choose";
      readonly condition: Expression;
      readonly yes: Expression;
      readonly no: Expression;
    })
  | (Node & { readonly op: "comma"; readonly left: Expression; readonly right: Expression })
  /** `target = value` (operator null) or `target op= value`: `working` is the type in which `op` is done. */
  | (Node & {
      readonly op: "assign";
      readonly target: Place;
      readonly operator: BinaryOperator | null;
      readonly working: Type;
      /** For a plain assignment already converted to the target's type. */
      readonly value: Expression;
      /** For places that may be registers: the value before conversion, and the right side as written (index into the written nodes). */
      readonly asked: Expression | null;
      readonly written: number;
      readonly increment: "++" | "--" | null;
      /** The value of the expression is the old one (`x++`). */
      readonly old: boolean;
    })
  /** A function of the core or the C library: never forks. */
  | (Node & {
      readonly op: "core";
      readonly name: string;
      readonly self: Place | null;
      readonly arguments: readonly Expression[];
      /** Indices of the written nodes of the arguments, where the call is listed in the analysis. */
      readonly written: readonly number[];
    })
  /** The recorder keeps the joined value of the operand under number `trace`. */
  | (Node & { readonly op: "traced"; readonly trace: number; readonly operand: Expression })
  /** Nothing is known of it; evaluating it reaches `reach`. */
  | (Node & {
      readonly op: "unknown";
      readonly why: string;
      readonly operands: readonly Expression[];
      readonly harmless: boolean /** It may take long enough for a state to stand. */;
      readonly takesTime?: boolean;
      /** CPU cycles that it takes at most, where that is known. */
      readonly cycles?: number;
      /** It writes through the pointers it is given. */
      readonly fills?: boolean;
    });

export type Statement =
  | { readonly op: "block"; readonly body: readonly Statement[] }
  | { readonly op: "expression"; readonly expression: Expression; readonly start: number; readonly end: number }
  /** A variable comes to life: unset (local), zero (global). Initialisers follow as assignments. */
  | { readonly op: "declare"; readonly variable: Variable; readonly zero: boolean; readonly start: number }
  | {
      readonly op: "initialise";
      readonly target: Place;
      readonly value: Expression;
      readonly start: number;
      readonly end: number;
    }
  /** Copies a whole record or array. */
  | { readonly op: "copy"; readonly target: Place; readonly source: Place; readonly start: number }
  | { readonly op: "zero"; readonly target: Place; readonly start: number }
  | {
      readonly op: "call";
      readonly code: FunctionCode | null;
      /** For calls through a pointer or a virtual function: who it may be is decided when it runs. */
      readonly pointer: Expression | null;
      readonly dispatch: {
        readonly record: RecordType;
        readonly candidates: ReadonlyMap<RecordType, FunctionCode>;
      } | null;
      readonly self: Expression | null;
      readonly arguments: readonly Expression[];
      readonly result: Variable | null;
      /** A call of the core that the analysis lists: its name, and its arguments as written. */
      readonly listed?: { readonly name: string; readonly written: readonly number[] };
      readonly start: number;
      readonly end: number;
    }
  | {
      readonly op: "if";
      readonly condition: Expression;
      readonly yes: Statement;
      readonly no: Statement | null;
      readonly start: number;
      readonly end: number;
      readonly quiet?: boolean;
    }
  | {
      readonly op: "loop";
      /** Runs before the condition on every round. */
      readonly before: readonly Statement[];
      readonly condition: Expression | null;
      readonly body: Statement;
      readonly step: readonly Statement[];
      /** The condition is asked after the body. */
      readonly bodyFirst: boolean;
      readonly start: number;
      readonly end: number;
      /** Offset just behind the head, where messages point. */
      readonly head: number;
    }
  | {
      readonly op: "switch";
      readonly value: Expression;
      readonly cases: readonly {
        readonly values: readonly number[] | null;
        readonly last?: number;
        readonly body: readonly Statement[];
      }[];
      readonly start: number;
      readonly end: number;
    }
  | { readonly op: "return"; readonly value: Expression | null; readonly start: number }
  | { readonly op: "break" | "continue"; readonly start: number }
  | { readonly op: "label"; readonly name: string }
  | { readonly op: "goto"; readonly name: string; readonly start: number }
  /** Once-only initialisation of a function's static. */
  | { readonly op: "once"; readonly flag: Variable; readonly body: Statement }
  | { readonly op: "gap"; readonly why: string; readonly havoc: boolean; readonly start: number; readonly end: number };

/** Functions of the program's own that the core calls by itself. */
export interface Hooks {
  /** In place of the core's own; null where the core starts the timers itself. */
  readonly init: FunctionCode | null;
  readonly beforeSetup: readonly FunctionCode[];
  readonly afterTurn: readonly FunctionCode[];
  readonly perhapsAfterTurn: readonly FunctionCode[];
}

export interface Program {
  /** Initialisers of globals in the order in which they run, before the core's init. */
  readonly startup: Statement;
  readonly startupLocals: readonly Variable[];
  readonly setup: FunctionCode | null;
  readonly loop: FunctionCode | null;
  readonly main: FunctionCode | null;
  readonly hooks: Hooks;
  readonly interrupts: readonly FunctionCode[];
  readonly functions: readonly FunctionCode[];
  readonly globals: readonly Variable[];
  readonly gaps: readonly (Omit<Gap, "span"> & { readonly start: number; readonly end: number })[];
  /** Names of registers in the text, for hovers. */
  readonly registerNames: readonly { readonly name: string; readonly start: number; readonly end: number }[];
}
