/** Random statements: writes, declarations, assignments, branches, loops, switches and calls. */
import { type Draft, indent, type Variable } from "./draft.js";
import type { Names } from "./expressions.js";
import type { Lines } from "./registers.js";
import { ALL_TYPES, U8 } from "./types.js";

/** What a block of statements may see and do. */
export interface Scope {
  readonly variables: Variable[];
  readonly inputs: boolean;
  /** Nesting left for blocks. */
  depth: number;
  /** Loops around: at most two, so that programs end their turns. */
  loops: number;
}

export class Statements {
  private budget = 60;

  constructor(private readonly draft: Draft) {}

  scope(variables: readonly Variable[] = []): Scope {
    return { variables: [...variables], inputs: this.draft.inputs, depth: 3, loops: 0 };
  }

  block(scope: Scope, statements: number, withScheme: boolean): Lines {
    const lines: Lines = [];
    const at = withScheme ? this.draft.dice.int(0, statements - 1) : -1;
    for (let index = 0; index < statements; index++) {
      if (index === at) lines.push(...this.draft.registers.scheme(this.names(scope)));
      lines.push(...this.statement(scope));
    }
    return lines;
  }

  names(scope: Scope): Names {
    const { dice, globals, tables, functions, registers } = this.draft;
    const readable = registers.readable();
    const values = [...scope.variables, ...scope.variables, ...globals, ...globals];
    for (let index = 0; index < 2; index++) values.push({ ...dice.pick(readable), mutable: false });
    return { values, tables, functions, inputs: scope.inputs };
  }

  private statement(scope: Scope): Lines {
    const { dice, registers, statements } = this.draft;
    this.budget--;
    if (this.budget < 0) return registers.write(this.names(scope));
    if (statements.length > 0 && dice.chance(30)) return dice.pick(statements)(this.names(scope), scope.loops > 0);
    const kind = dice.int(0, 99);
    if (kind < 34 || scope.depth === 0) return registers.write(this.names(scope));
    if (kind < 44) return this.declare(scope);
    if (kind < 56) return this.assign(scope);
    if (kind < 67) return this.branch(scope);
    if (kind < 76) return scope.loops < 2 ? this.repeat(scope) : this.assign(scope);
    if (kind < 82) return this.choose(scope);
    if (kind < 93) return this.call(scope) ?? this.assign(scope);
    return scope.loops === 0 ? [`delay(${dice.int(1, 12)});`] : [`delayMicroseconds(${dice.int(5, 300)});`];
  }

  private declare(scope: Scope): Lines {
    const { draft } = this;
    const type = draft.dice.pick(ALL_TYPES);
    const name = draft.fresh("v");
    const value = draft.expressions.value(this.names(scope), 3);
    scope.variables.push(draft.variable(name, type, true));
    return [`${draft.spell(type)} ${name} = ${value.text};`];
  }

  /** Assignments; the arithmetic ones stay in unsigned types or in a range that int can hold. */
  private assign(scope: Scope): Lines {
    const { dice, expressions, globals } = this.draft;
    const targets = [...scope.variables, ...globals].filter((one) => one.mutable);
    if (targets.length === 0) return this.declare(scope);
    const target = dice.pick(targets);
    const names = this.names(scope);
    const form = dice.int(0, 9);
    if (form < 5) return [`${target.text} = ${expressions.value(names, 3).text};`];
    if (form === 5) return [`${target.text} ${dice.pick(["&=", "|=", "^="])} ${expressions.value(names, 2).text};`];
    if (form === 6 && !target.type.signed)
      return [`${target.text} ${dice.pick(["+=", "-="])} ${expressions.bounded(names, 2, 0, 255).text};`];
    if (form === 7 && !target.type.signed) return [`${target.text}${dice.pick(["++", "--"])};`];
    if (form === 8) return [`${target.text} >>= ${dice.int(1, 3)};`];
    if (form === 9 && target.type.bits === 8) return [`${target.text} ${dice.pick(["+=", "-="])} ${dice.int(1, 40)};`];
    return [`${target.text} = ${expressions.bounded(names, 3, 0, 255).text};`];
  }

  private branch(scope: Scope): Lines {
    const { dice, expressions } = this.draft;
    const test = expressions.condition(this.names(scope), 3).text;
    const lines = [`if (${test}) {`, ...indent(this.inner(scope, dice.int(1, 3))), "}"];
    if (dice.chance(55)) {
      lines[lines.length - 1] = "} else {";
      lines.push(...indent(this.inner(scope, dice.int(1, 2))), "}");
    }
    return lines;
  }

  private repeat(scope: Scope): Lines {
    const { draft } = this;
    const { dice, expressions } = draft;
    const names = this.names(scope);
    const index = draft.fresh("i");
    const most = scope.loops === 0 ? 12 : 4;
    const limit = dice.chance(70)
      ? String(dice.int(1, most))
      : expressions.bounded({ ...names, inputs: false }, 2, 1, most).text;
    const inside = (): Lines => {
      const inner = this.enter(scope);
      inner.loops = scope.loops + 1;
      inner.variables.push({ text: index, type: U8, min: 0, max: most * 3, level: 16, mutable: false });
      const body = this.block(inner, dice.int(1, 2), false);
      if (dice.chance(12))
        body.push(`if (${expressions.condition(this.names(inner), 2).text}) ${dice.pick(["break", "continue"])};`);
      return indent(body);
    };
    const form = dice.int(0, 3);
    if (form === 0) {
      const bound = draft.fresh("bound");
      return [
        `uint8_t ${bound} = ${limit};`,
        `for (uint8_t ${index} = 0; ${index} < ${bound}; ${index}++) {`,
        ...inside(),
        "}",
      ];
    }
    if (form === 1) {
      const step = dice.int(1, 3);
      return [
        `for (uint8_t ${index} = 0; ${index} <= ${Number(dice.int(1, most)) * step}; ${index} += ${step}) {`,
        ...inside(),
        "}",
      ];
    }
    if (form === 2) {
      return [`uint8_t ${index} = ${limit};`, `while (${index} > 0) {`, `  ${index}--;`, ...inside(), "}"];
    }
    return [
      `uint8_t ${index} = 0;`,
      "do {",
      `  ${index}++;`,
      ...inside(),
      `} while (${index} < ${dice.int(1, most)});`,
    ];
  }

  private choose(scope: Scope): Lines {
    const { dice, expressions } = this.draft;
    const cases = dice.int(2, 4);
    const subject = expressions.bounded(this.names(scope), 3, 0, cases);
    const lines = [`switch (${subject.text}) {`];
    for (let index = 0; index < cases; index++) {
      lines.push(
        `  case ${index}: {`,
        ...indent(indent(this.inner(scope, dice.int(1, 2)))),
        "  }",
        ...(dice.chance(88) ? ["  break;"] : []),
      );
    }
    if (dice.chance(60)) lines.push("  default: {", ...indent(indent(this.inner(scope, 1))), "  }");
    lines.push("}");
    return lines;
  }

  private call(scope: Scope): Lines | null {
    const { dice, actions, expressions } = this.draft;
    if (actions.length === 0) return null;
    const { name, parameters } = dice.pick(actions);
    return [`${name}(${parameters.map(() => expressions.value(this.names(scope), 2).text).join(", ")});`];
  }

  private inner(scope: Scope, statements: number): Lines {
    return this.block(this.enter(scope), statements, this.draft.dice.chance(12));
  }

  private enter(scope: Scope): Scope {
    return { ...scope, variables: [...scope.variables], depth: scope.depth - 1 };
  }
}
