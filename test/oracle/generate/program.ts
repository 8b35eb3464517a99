/** Whole random programs: globals, tables, functions, classes, interrupt routines, setup and loop. */
import type { Dice } from "./dice.js";
import { Expressions, type Names } from "./expressions.js";
import { type Lines, Registers, type TimerFacts } from "./registers.js";
import {
  ALL_TYPES,
  converted,
  type Expr,
  highest,
  I16,
  type IntType,
  lowest,
  SPELLINGS,
  U8,
  U16,
  U32,
} from "./types.js";

interface Variable extends Expr {
  /** Whether statements may assign to it. */
  readonly mutable: boolean;
}

interface Action {
  readonly name: string;
  readonly parameters: readonly IntType[];
}

/** What a block of statements may see and do. */
interface Scope {
  readonly variables: Variable[];
  readonly inputs: boolean;
  /** Nesting left for blocks. */
  depth: number;
  /** Loops around: at most two, so that programs end their turns. */
  loops: number;
  readonly inRoutine: boolean;
}

export class ProgramWriter {
  private readonly expressions: Expressions;
  private readonly registers: Registers;
  private readonly globals: Variable[] = [];
  private readonly tables: { name: string; size: number; element: IntType }[] = [];
  private readonly functions: { name: string; parameters: readonly IntType[]; result: IntType }[] = [];
  private readonly actions: Action[] = [];
  private readonly head: Lines = [];
  private readonly inputs: boolean;
  private counter = 0;
  private budget = 60;

  constructor(
    private readonly dice: Dice,
    private readonly timers: readonly TimerFacts[],
  ) {
    this.expressions = new Expressions(dice);
    this.registers = new Registers(dice, this.expressions, timers);
    this.inputs = dice.chance(30);
  }

  write(): string {
    const { dice } = this;
    this.writeGlobals();
    const functions = dice.int(0, 3);
    const body: Lines = [];
    for (let index = 0; index < functions; index++) body.push(...this.pureFunction(), "");
    const actions = dice.int(0, 4);
    for (let index = 0; index < actions; index++) body.push(...this.action(), "");
    if (dice.chance(18)) body.push(...this.classWithMethod(), "");
    const routine = dice.chance(14) ? this.routine() : null;
    if (routine !== null) body.push(...routine.lines, "");
    const setup = [...this.block(this.scope(), dice.int(2, 6), true), ...(routine?.start ?? [])];
    const loop = this.loopBody();
    const ownMain = routine === null && dice.chance(8);
    // Without the core's init nothing counts milliseconds: delay() would never end.
    const started = dice.chance(50) || /\bdelay\(/.test([...body, ...setup].join("\n"));
    if (ownMain) {
      const turn = started ? loop : loop.filter((line) => !/\bdelay\(/.test(line));
      body.push("int main() {", ...indent([...(started ? ["init();"] : []), ...setup]));
      body.push("  while (1) {", ...indent(indent(turn)), "  }", "}");
    } else {
      body.push("void setup() {", ...indent(setup), "}", "", "void loop() {", ...indent(loop), "}");
    }
    return `${[...this.head, "", ...body].join("\n")}\n`;
  }

  // ---- declarations

  private writeGlobals(): void {
    const { dice } = this;
    for (let index = dice.int(1, 5); index > 0; index--) this.global();
    for (let index = dice.int(0, 2); index > 0; index--) {
      const element = dice.pick([U8, U8, U16, I16]);
      const size = dice.pick([2, 4, 8]);
      const values = Array.from({ length: size }, () =>
        dice.int(element.signed ? -300 : 0, element.bits === 8 ? 255 : 1200),
      );
      const name = this.fresh("table");
      this.head.push(
        `${dice.chance(80) ? "const " : ""}${this.spell(element)} ${name}[${dice.chance(50) ? size : ""}] = { ${values.join(", ")} };`,
      );
      this.tables.push({ name, size, element });
    }
    if (dice.chance(20)) {
      const members = ["low", "high", "gain"].map((name) => ({ name, type: dice.pick([U8, U16, I16]) }));
      const type = this.fresh("Settings");
      const name = this.fresh("settings");
      const values = members.map((member) => dice.int(0, member.type.bits === 8 ? 255 : 2000));
      this.head.push(
        `struct ${type} { ${members.map((member) => `${this.spell(member.type)} ${member.name};`).join(" ")} };`,
      );
      this.head.push(`${type} ${name} = { ${values.join(", ")} };`);
      for (const member of members) this.globals.push(this.variable(`${name}.${member.name}`, member.type, true));
    }
  }

  private global(): void {
    const { dice } = this;
    const type = dice.pick(ALL_TYPES);
    const range = { min: type.signed ? -100 : 0, max: type.bits === 8 ? 100 : 2000 };
    const value = dice.int(range.min, range.max);
    const form = dice.int(0, 5);
    if (form === 0) {
      const name = this.fresh("LEVEL");
      const literal = this.expressions.literal(value);
      this.head.push(`#define ${name} ${value < 0 ? `(${literal.text})` : literal.text}`);
      this.globals.push({ ...literal, text: name, level: 16, mutable: false });
    } else if (form === 1) {
      const name = this.fresh("limit");
      this.head.push(`${dice.pick(["const", "static const", "constexpr"])} ${this.spell(type)} ${name} = ${value};`);
      this.globals.push({ text: name, type, min: value, max: value, level: 16, mutable: false });
    } else if (form === 2) {
      const names = [this.fresh("STEP"), this.fresh("STEP"), this.fresh("STEP")];
      const start = dice.int(0, 40);
      this.head.push(`enum { ${names[0]} = ${start}, ${names[1]}, ${names[2]} = ${start + 17} };`);
      names.forEach((name, index) => {
        const value = [start, start + 1, start + 17][index]!;
        this.globals.push({ text: name, type: I16, min: value, max: value, level: 16, mutable: false });
      });
    } else {
      const name = this.fresh("g");
      this.head.push(
        `${dice.chance(15) ? "static " : ""}${this.spell(type)} ${name}${dice.chance(75) ? ` = ${value}` : ""};`,
      );
      this.globals.push(this.variable(name, type, true));
    }
  }

  private pureFunction(): Lines {
    const { dice } = this;
    const result = dice.pick(ALL_TYPES);
    const parameters = Array.from({ length: dice.int(1, 3) }, () => dice.pick(ALL_TYPES));
    const name = this.fresh("compute");
    const own = parameters.map((type, index) => this.variable(`p${index}`, type, false));
    const names: Names = {
      values: [...own, ...own, ...this.globals.filter((one) => !one.mutable)],
      tables: this.tables,
      functions: [...this.functions],
      inputs: false,
    };
    const lines: Lines = [];
    if (dice.chance(40))
      lines.push(`if (${this.expressions.condition(names, 2).text}) return ${this.expressions.value(names, 2).text};`);
    if (dice.chance(25)) {
      const total = dice.chance(50) ? U16 : U32;
      lines.push(`${this.spell(total)} total = 0;`);
      lines.push(
        `for (${dice.pick(["uint8_t", "int", "byte"])} i = 0; i < ${dice.int(2, 9)}; i++) total += ${this.expressions.value(names, 2).text};`,
      );
      lines.push(`return total;`);
    } else {
      lines.push(`return ${this.expressions.value(names, 3).text};`);
    }
    this.functions.push({ name, parameters, result });
    const list = parameters.map((type, index) => `${this.spell(type)} p${index}`).join(", ");
    return [`${this.spell(result)} ${name}(${list}) {`, ...indent(lines), "}"];
  }

  private action(): Lines {
    const { dice } = this;
    const parameters = Array.from({ length: dice.int(0, 2) }, () => dice.pick([U8, U8, I16, U16]));
    const name = this.fresh("apply");
    const scope = this.scope(parameters.map((type, index) => this.variable(`a${index}`, type, true)));
    const lines = this.block(scope, dice.int(1, 4), dice.chance(40));
    this.actions.push({ name, parameters });
    const list = parameters.map((type, index) => `${this.spell(type)} a${index}`).join(", ");
    return [`void ${name}(${list}) {`, ...indent(lines), "}"];
  }

  private classWithMethod(): Lines {
    const { dice } = this;
    const timer = dice.pick(this.timers);
    const channel = dice.pick(timer.channels);
    const type = this.fresh("Output");
    const object = this.fresh("output");
    const start = dice.int(0, 200);
    this.actions.push({ name: `${object}.set`, parameters: [I16] });
    return [
      `class ${type} {`,
      "  public:",
      `    ${type}(uint8_t pin, uint8_t start) : pin_(pin), value_(start) {}`,
      `    void set(int value) { value_ = value; ${dice.pick([`OCR${timer.number}${channel.letter} = value_;`, "analogWrite(pin_, value_);"])} }`,
      "  private:",
      "    uint8_t pin_;",
      "    uint8_t value_;",
      "};",
      `${type} ${object}(${channel.pin}, ${start});`,
    ];
  }

  private routine(): { lines: Lines; start: Lines } {
    const { dice } = this;
    const { number: n } = dice.pick(this.timers.filter((timer) => timer.number !== 0));
    const name = this.fresh("turns");
    this.head.push(`volatile uint8_t ${name} = 0;`);
    const counter: Variable = { text: name, type: U8, min: 0, max: 255, level: 16, mutable: false };
    const fixed = this.globals.filter((one) => !one.mutable);
    const names: Names = { values: [counter, ...fixed], tables: this.tables, functions: [], inputs: false };
    const lines = [`${name}++;`, ...this.registers.routineWrite(names)];
    const start = [`TIMSK${n} |= _BV(TOIE${n});`];
    return { lines: [`ISR(TIMER${n}_OVF_vect) {`, ...indent(lines), "}"], start };
  }

  // ---- statements

  private loopBody(): Lines {
    const { dice } = this;
    if (dice.chance(35)) return dice.chance(50) ? [] : [`delay(${dice.int(1, 20)});`];
    const lines = this.block(this.scope(), dice.int(1, 4), false);
    if (dice.chance(75)) lines.push(`delay(${dice.int(1, 20)});`);
    return lines;
  }

  private block(scope: Scope, statements: number, withScheme: boolean): Lines {
    const lines: Lines = [];
    const at = withScheme ? this.dice.int(0, statements - 1) : -1;
    for (let index = 0; index < statements; index++) {
      if (index === at) lines.push(...this.registers.scheme(this.names(scope)));
      lines.push(...this.statement(scope));
    }
    return lines;
  }

  private statement(scope: Scope): Lines {
    const { dice } = this;
    this.budget--;
    if (this.budget < 0) return this.registers.write(this.names(scope));
    const kind = dice.int(0, 99);
    if (kind < 34 || scope.depth === 0)
      return scope.inRoutine ? this.registers.routineWrite(this.names(scope)) : this.registers.write(this.names(scope));
    if (kind < 44) return this.declare(scope);
    if (kind < 56) return this.assign(scope);
    if (kind < 67) return this.branch(scope);
    if (kind < 76) return scope.loops < 2 ? this.repeat(scope) : this.assign(scope);
    if (kind < 82) return this.choose(scope);
    if (kind < 93) return this.call(scope) ?? this.assign(scope);
    return scope.loops === 0 ? [`delay(${dice.int(1, 12)});`] : [`delayMicroseconds(${dice.int(5, 300)});`];
  }

  private declare(scope: Scope): Lines {
    const { dice } = this;
    const type = dice.pick(ALL_TYPES);
    const name = this.fresh("v");
    const value = this.expressions.value(this.names(scope), 3);
    scope.variables.push(this.variable(name, type, true));
    return [`${this.spell(type)} ${name} = ${value.text};`];
  }

  /** Assignments; the arithmetic ones stay in unsigned types or in a range that int can hold. */
  private assign(scope: Scope): Lines {
    const { dice } = this;
    const targets = [...scope.variables, ...this.globals].filter((one) => one.mutable);
    if (targets.length === 0) return this.declare(scope);
    const target = dice.pick(targets);
    const names = this.names(scope);
    const form = dice.int(0, 9);
    if (form < 5) return [`${target.text} = ${this.expressions.value(names, 3).text};`];
    if (form === 5)
      return [`${target.text} ${dice.pick(["&=", "|=", "^="])} ${this.expressions.value(names, 2).text};`];
    if (form === 6 && !target.type.signed)
      return [`${target.text} ${dice.pick(["+=", "-="])} ${this.expressions.bounded(names, 2, 0, 255).text};`];
    if (form === 7 && !target.type.signed) return [`${target.text}${dice.pick(["++", "--"])};`];
    if (form === 8) return [`${target.text} >>= ${dice.int(1, 3)};`];
    if (form === 9 && target.type.bits === 8) return [`${target.text} ${dice.pick(["+=", "-="])} ${dice.int(1, 40)};`];
    return [`${target.text} = ${this.expressions.bounded(names, 3, 0, 255).text};`];
  }

  private branch(scope: Scope): Lines {
    const { dice } = this;
    const test = this.expressions.condition(this.names(scope), 3).text;
    const lines = [`if (${test}) {`, ...indent(this.inner(scope, dice.int(1, 3))), "}"];
    if (dice.chance(55)) {
      lines[lines.length - 1] = "} else {";
      lines.push(...indent(this.inner(scope, dice.int(1, 2))), "}");
    }
    return lines;
  }

  private repeat(scope: Scope): Lines {
    const { dice } = this;
    const names = this.names(scope);
    const index = this.fresh("i");
    const most = scope.loops === 0 ? 12 : 4;
    const limit = dice.chance(70)
      ? String(dice.int(1, most))
      : this.expressions.bounded({ ...names, inputs: false }, 2, 1, most).text;
    const inside = (): Lines => {
      const inner = this.enter(scope);
      inner.loops = scope.loops + 1;
      inner.variables.push({ text: index, type: U8, min: 0, max: most * 3, level: 16, mutable: false });
      const body = this.block(inner, dice.int(1, 2), false);
      if (dice.chance(12))
        body.push(`if (${this.expressions.condition(this.names(inner), 2).text}) ${dice.pick(["break", "continue"])};`);
      return indent(body);
    };
    const form = dice.int(0, 3);
    if (form === 0) {
      const bound = this.fresh("bound");
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
    const { dice } = this;
    const cases = dice.int(2, 4);
    const subject = this.expressions.bounded(this.names(scope), 3, 0, cases);
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
    if (this.actions.length === 0) return null;
    const { name, parameters } = this.dice.pick(this.actions);
    return [`${name}(${parameters.map(() => this.expressions.value(this.names(scope), 2).text).join(", ")});`];
  }

  // ---- small things

  private inner(scope: Scope, statements: number): Lines {
    return this.block(this.enter(scope), statements, this.dice.chance(12));
  }

  private enter(scope: Scope): Scope {
    return { ...scope, variables: [...scope.variables], depth: scope.depth - 1 };
  }

  private scope(variables: readonly Variable[] = []): Scope {
    return { variables: [...variables], inputs: this.inputs, depth: 3, loops: 0, inRoutine: false };
  }

  private names(scope: Scope): Names {
    const registers = this.registers.readable();
    const values = [...scope.variables, ...scope.variables, ...this.globals, ...this.globals];
    for (let index = 0; index < 2; index++) values.push({ ...this.dice.pick(registers), mutable: false });
    return { values, tables: this.tables, functions: this.functions, inputs: scope.inputs };
  }

  private variable(text: string, type: IntType, mutable: boolean): Variable {
    return { text, type, ...converted(lowest(type), highest(type), type), level: 16, mutable };
  }

  private spell(type: IntType): string {
    return this.dice.pick(SPELLINGS[type.name]!);
  }

  private fresh(stem: string): string {
    this.counter++;
    return `${stem}${this.counter}`;
  }
}

function indent(lines: readonly string[]): Lines {
  return lines.map((line) => `  ${line}`);
}
