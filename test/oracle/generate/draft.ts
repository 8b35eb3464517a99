/** What a random program has so far: its declarations, and the names that later parts of it may use. */
import type { Dice } from "./dice.js";
import { Expressions, type Names } from "./expressions.js";
import { type Lines, Registers, type TimerFacts } from "./registers.js";
import { converted, type Expr, highest, type IntType, lowest, SPELLINGS } from "./types.js";

export interface Variable extends Expr {
  /** Whether statements may assign to it. */
  readonly mutable: boolean;
}

/** Something that can be called for what it does; `name` is all that stands before the bracket. */
export interface Action {
  readonly name: string;
  readonly parameters: readonly IntType[];
}

/** Makes a statement out of the names in sight; `repeated`: it stands inside a loop. */
export type StatementMaker = (names: Names, repeated: boolean) => Lines;

export class Draft {
  readonly expressions: Expressions;
  readonly registers: Registers;
  /** Macros, types and globals. */
  readonly head: Lines = [];
  /** Functions and classes. */
  readonly body: Lines = [];
  /** What setup ends with. */
  readonly start: Lines = [];
  /** Statements that belong at the end of every turn. */
  readonly turn: Lines = [];
  /** Files beside the main one. */
  readonly beside: Record<string, string> = {};
  readonly globals: Variable[] = [];
  readonly tables: { name: string; size: number; element: IntType }[] = [];
  readonly functions: { name: string; parameters: readonly IntType[]; result: IntType }[] = [];
  readonly actions: Action[] = [];
  readonly statements: StatementMaker[] = [];
  readonly inputs: boolean;
  private counter = 0;

  constructor(
    readonly dice: Dice,
    readonly timers: readonly TimerFacts[],
  ) {
    this.expressions = new Expressions(dice);
    this.registers = new Registers(dice, this.expressions, timers);
    this.inputs = dice.chance(30);
  }

  fresh(stem: string): string {
    this.counter++;
    return `${stem}${this.counter}`;
  }

  spell(type: IntType): string {
    return this.dice.pick(SPELLINGS[type.name]!);
  }

  variable(text: string, type: IntType, mutable: boolean): Variable {
    return { text, type, ...converted(lowest(type), highest(type), type), level: 16, mutable };
  }

  /** Names of constants and of `own`: for functions that depend on what they are given alone. */
  fixedNames(own: readonly Variable[] = []): Names {
    const fixed = this.globals.filter((one) => !one.mutable);
    return { values: [...own, ...own, ...fixed], tables: this.tables, functions: [...this.functions], inputs: false };
  }

  /** An expression between two bounds, as text that can be an operand of anything. */
  between(names: Names, min: number, max: number, depth = 2): string {
    const { text, level } = this.expressions.bounded(names, depth, min, max);
    return level < 15 ? `(${text})` : text;
  }

  /** Several lines as one statement. */
  braced(lines: Lines): Lines {
    return ["{", ...indent(lines), "}"];
  }
}

export function indent(lines: readonly string[]): Lines {
  return lines.map((line) => `  ${line}`);
}
