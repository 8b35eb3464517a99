/** Small random programs for a preprocessor: definitions of every sort, nested invocations, conditions. */

/** A repeatable source of small numbers. */
export class Dice {
  constructor(private state: number) {}

  below(count: number): number {
    this.state = (Math.imul(this.state, 1664525) + 1013904223) | 0;
    return (this.state >>> 8) % count;
  }

  one<T>(...choices: readonly T[]): T {
    return choices[this.below(choices.length)] as T;
  }
}

const OBJECTS = ["A", "B", "C", "D"];
const FUNCTIONS = ["F", "G", "H", "V"];

export function randomProgram(dice: Dice): string {
  const lines: string[] = [];
  const count = 3 + dice.below(8);
  for (let index = 0; index < count; index++) {
    const sort = dice.below(10);
    if (sort < 5) lines.push(definition(dice));
    else if (sort < 8) lines.push(`${invocation(dice, 2)};`);
    else if (sort < 9) lines.push(conditional(dice));
    else lines.push(`#undef ${dice.one(...OBJECTS, ...FUNCTIONS)}`);
  }
  lines.push(invocation(dice, 2));
  return `${lines.join("\n")}\n`;
}

function definition(dice: Dice): string {
  if (dice.below(2) === 0) return `#define ${dice.one(...OBJECTS)} ${body(dice, [], 1 + dice.below(4))}`;
  const names = ["p", "q", "r"].slice(0, dice.below(3));
  const shown = [...names];
  if (dice.below(3) === 0) {
    names.push("__VA_ARGS__");
    shown.push("...");
  }
  const list = shown.join(dice.one(", ", ","));
  return `#define ${dice.one(...FUNCTIONS)}(${list}) ${body(dice, names, 1 + dice.below(5))}`;
}

function body(dice: Dice, parameters: readonly string[], count: number): string {
  let text = "";
  for (let index = 0; index < count; index++) {
    const part = bodyPart(dice, parameters);
    text += part;
    if (index === count - 1) break;
    if (parameters.length > 0 && dice.below(7) === 0) text += "##";
    else text += dice.below(3) > 0 || /[\w'"]$/.test(part) ? " " : "";
  }
  return text;
}

function bodyPart(dice: Dice, parameters: readonly string[]): string {
  const sort = dice.below(13);
  if (sort < 3 && parameters.length > 0) return dice.one(...parameters);
  if (sort < 5) return dice.one(...OBJECTS);
  if (sort < 7) return dice.one(...FUNCTIONS) + dice.one("", `(${body(dice, [], dice.below(3))})`);
  if (sort < 8) return dice.one("1", "x", "0x2U", "y");
  if (sort < 10) return dice.one("+", "-", ",", "<", "*", "()", "(", ")");
  if (sort < 11 && parameters.length > 0) return `#${dice.one(...parameters)}`;
  return dice.one("z", "w2", "3", '"s"', "'c'");
}

function invocation(dice: Dice, depth: number): string {
  const parts: string[] = [];
  const count = 1 + dice.below(4);
  for (let index = 0; index < count; index++) {
    const sort = dice.below(8);
    if (sort < 3) parts.push(dice.one(...OBJECTS));
    else if (sort < 6) {
      const first = depth > 0 ? invocation(dice, depth - 1) : "1";
      const second = depth > 0 ? invocation(dice, depth - 1) : "";
      const list = dice.below(2) === 0 ? first : `${first}${dice.one(",", ", ", " ,")}${second}`;
      parts.push(`${dice.one(...FUNCTIONS)}${dice.one("", " ", "\n", "/* */")}(${list})`);
    } else parts.push(dice.one("x", "1", "e", "(x)", "(x, 1)", ",", "+", "-", '"a \\" b"', "'\\''", "a\\\nb"));
  }
  return parts.join(dice.one(" ", "  ", "/**/"));
}

function conditional(dice: Dice): string {
  const first = `#if ${condition(dice, 3)}\nfirst;\n#elif ${condition(dice, 2)}\nsecond;\n#else\nthird;\n#endif`;
  return dice.one(first, `#ifdef ${dice.one(...OBJECTS)}\n${first}\n#else\nno\n#endif`);
}

function condition(dice: Dice, depth: number): string {
  if (depth === 0) {
    const operands = [
      "1",
      "0",
      "2",
      "3u",
      "0x10",
      "7L",
      "'a'",
      "'\\n'",
      "A",
      "B",
      "unknown",
      "defined A",
      "defined(B)",
    ];
    return dice.one(...operands, "0b101", "9223372036854775807", "0xFFFFFFFFFFFFFFFF", "017", "(-1)", "true");
  }
  const sort = dice.below(6);
  if (sort === 0) return `(${condition(dice, depth - 1)})`;
  if (sort === 1) return `${dice.one("! ", "- ", "~ ", "+ ")}${condition(dice, depth - 1)}`;
  if (sort === 2) return [" ? ", " : ", ""].reduce((text, mark) => text + condition(dice, depth - 1) + mark, "");
  const operators = ["+", "-", "*", "<", ">", "<=", ">=", "==", "!=", "&&", "||", "&", "|", "^", "<<", ">>", "/", "%"];
  return `${condition(dice, depth - 1)} ${dice.one(...operators)} ${condition(dice, depth - 1)}`;
}
