/** Random globals, tables, functions, a class and an interrupt routine. */
import { type Draft, indent, type Variable } from "./draft.js";
import type { Lines } from "./registers.js";
import type { Statements } from "./statements.js";
import { ALL_TYPES, I16, U8, U16, U32 } from "./types.js";

export function writeGlobals(draft: Draft): void {
  const { dice, head } = draft;
  for (let index = dice.int(1, 5); index > 0; index--) global(draft);
  for (let index = dice.int(0, 2); index > 0; index--) {
    const element = dice.pick([U8, U8, U16, I16]);
    const size = dice.pick([2, 4, 8]);
    const values = Array.from({ length: size }, () =>
      dice.int(element.signed ? -300 : 0, element.bits === 8 ? 255 : 1200),
    );
    const name = draft.fresh("table");
    head.push(
      `${dice.chance(80) ? "const " : ""}${draft.spell(element)} ${name}[${dice.chance(50) ? size : ""}] = { ${values.join(", ")} };`,
    );
    draft.tables.push({ name, size, element });
  }
  if (dice.chance(20)) {
    const members = ["low", "high", "gain"].map((name) => ({ name, type: dice.pick([U8, U16, I16]) }));
    const type = draft.fresh("Settings");
    const name = draft.fresh("settings");
    const values = members.map((member) => dice.int(0, member.type.bits === 8 ? 255 : 2000));
    head.push(
      `struct ${type} { ${members.map((member) => `${draft.spell(member.type)} ${member.name};`).join(" ")} };`,
    );
    head.push(`${type} ${name} = { ${values.join(", ")} };`);
    for (const member of members) draft.globals.push(draft.variable(`${name}.${member.name}`, member.type, true));
  }
}

function global(draft: Draft): void {
  const { dice, head, globals } = draft;
  const type = dice.pick(ALL_TYPES);
  const range = { min: type.signed ? -100 : 0, max: type.bits === 8 ? 100 : 2000 };
  const value = dice.int(range.min, range.max);
  const form = dice.int(0, 5);
  if (form === 0) {
    const name = draft.fresh("LEVEL");
    const literal = draft.expressions.literal(value);
    head.push(`#define ${name} ${value < 0 ? `(${literal.text})` : literal.text}`);
    globals.push({ ...literal, text: name, level: 16, mutable: false });
  } else if (form === 1) {
    const name = draft.fresh("limit");
    head.push(`${dice.pick(["const", "static const", "constexpr"])} ${draft.spell(type)} ${name} = ${value};`);
    globals.push({ text: name, type, min: value, max: value, level: 16, mutable: false });
  } else if (form === 2) {
    const names = [draft.fresh("STEP"), draft.fresh("STEP"), draft.fresh("STEP")];
    const start = dice.int(0, 40);
    head.push(`enum { ${names[0]} = ${start}, ${names[1]}, ${names[2]} = ${start + 17} };`);
    names.forEach((name, index) => {
      const value = [start, start + 1, start + 17][index]!;
      globals.push({ text: name, type: I16, min: value, max: value, level: 16, mutable: false });
    });
  } else {
    const name = draft.fresh("g");
    head.push(
      `${dice.chance(15) ? "static " : ""}${draft.spell(type)} ${name}${dice.chance(75) ? ` = ${value}` : ""};`,
    );
    globals.push(draft.variable(name, type, true));
  }
}

export function pureFunction(draft: Draft): Lines {
  const { dice, expressions } = draft;
  const result = dice.pick(ALL_TYPES);
  const parameters = Array.from({ length: dice.int(1, 3) }, () => dice.pick(ALL_TYPES));
  const name = draft.fresh("compute");
  const names = draft.fixedNames(parameters.map((type, index) => draft.variable(`p${index}`, type, false)));
  const lines: Lines = [];
  if (dice.chance(40))
    lines.push(`if (${expressions.condition(names, 2).text}) return ${expressions.value(names, 2).text};`);
  if (dice.chance(25)) {
    const total = dice.chance(50) ? U16 : U32;
    lines.push(`${draft.spell(total)} total = 0;`);
    lines.push(
      `for (${dice.pick(["uint8_t", "int", "byte"])} i = 0; i < ${dice.int(2, 9)}; i++) total += ${expressions.value(names, 2).text};`,
    );
    lines.push("return total;");
  } else {
    lines.push(`return ${expressions.value(names, 3).text};`);
  }
  draft.functions.push({ name, parameters, result });
  const list = parameters.map((type, index) => `${draft.spell(type)} p${index}`).join(", ");
  return [`${draft.spell(result)} ${name}(${list}) {`, ...indent(lines), "}"];
}

export function action(draft: Draft, statements: Statements): Lines {
  const { dice } = draft;
  const parameters = Array.from({ length: dice.int(0, 2) }, () => dice.pick([U8, U8, I16, U16]));
  const name = draft.fresh("apply");
  const scope = statements.scope(parameters.map((type, index) => draft.variable(`a${index}`, type, true)));
  const lines = statements.block(scope, dice.int(1, 4), dice.chance(40));
  draft.actions.push({ name, parameters });
  const list = parameters.map((type, index) => `${draft.spell(type)} a${index}`).join(", ");
  return [`void ${name}(${list}) {`, ...indent(lines), "}"];
}

export function classWithMethod(draft: Draft): Lines {
  const { dice } = draft;
  const timer = dice.pick(draft.timers);
  const channel = dice.pick(timer.channels);
  const type = draft.fresh("Output");
  const object = draft.fresh("output");
  const start = dice.int(0, 200);
  draft.actions.push({ name: `${object}.set`, parameters: [I16] });
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

export function routine(draft: Draft): Lines {
  const { dice } = draft;
  const { number: n } = dice.pick(draft.timers.filter((timer) => timer.number !== 0));
  const name = draft.fresh("turns");
  draft.head.push(`volatile uint8_t ${name} = 0;`);
  const counter: Variable = { text: name, type: U8, min: 0, max: 255, level: 16, mutable: false };
  const fixed = draft.globals.filter((one) => !one.mutable);
  const names = { values: [counter, ...fixed], tables: draft.tables, functions: [], inputs: false };
  const lines = [`${name}++;`, ...draft.registers.routineWrite(names)];
  draft.start.push(`TIMSK${n} |= _BV(TOIE${n});`);
  return [`ISR(TIMER${n}_OVF_vect) {`, ...indent(lines), "}"];
}
