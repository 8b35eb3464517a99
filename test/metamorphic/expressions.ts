/** Rewritings of single expressions: other spellings of operators, numbers, registers and conditions. */
import { child, type SyntaxNode } from "../../server/parse/syntax.js";
import { freshName, type Rewriting } from "./rewriting.js";
import { conditionOf, type Placed, type Reading, wordsIn } from "./sketch.js";

const REGISTER = /^(TCCR\d[ABC]|OCR\d[ABC]|ICR\d|DDR[B-L]|PORT[B-L]|TIMSK\d)$/;
const BYTE_REGISTER = /^(TCCR\d[ABC]|OCR[02][AB]|DDR[B-L]|PORT[B-L]|TIMSK\d)$/;

/** Assignments that are statements of their own: nobody asks for their value. */
function assignments(reading: Reading, operators: readonly string[]): readonly Placed[] {
  return reading.statements("assignment_expression").filter(({ node, above }) => {
    const operator = child(node, "operator");
    return (
      above[0]?.kind === "expression_statement" && operator !== undefined && operators.includes(reading.of(operator))
    );
  });
}

const COMPOUND = ["|=", "&=", "^=", "+=", "-=", "*=", "/=", "<<=", ">>="];

/** `a |= b` → `a = a | (b)`; on names alone, which have no effects. */
const spelledOut: Rewriting = {
  name: "a |= b as a = a | (b)",
  rewrite(reading, choice) {
    const found = choice.of(
      assignments(reading, COMPOUND).filter(
        // A class may have one operator and not the other; and whether a call comes before the reading of `a` is open.
        ({ node }) =>
          !reading.has(node, "call_expression") &&
          child(node, "left")?.kind === "identifier" &&
          !/\boperator\b/.test(reading.text),
      ),
    );
    if (found === undefined) return null;
    const { node } = found;
    const left = reading.of(child(node, "left")!);
    const operator = reading.of(child(node, "operator")!).slice(0, -1);
    return reading.edit({
      start: node.start,
      end: node.end,
      text: `${left} = ${left} ${operator} (${reading.of(child(node, "right")!)})`,
    });
  },
};

/** `a = a | b` → `a |= b`. */
const contracted: Rewriting = {
  name: "a = a | b as a |= b",
  rewrite(reading, choice) {
    const found = choice.of(
      assignments(reading, ["="]).filter(({ node }) => {
        const right = child(node, "right");
        return (
          right?.kind === "binary_expression" &&
          // Which of the two comes first is not laid down.
          !reading.has(right, "call_expression", "assignment_expression", "update_expression") &&
          ["|", "&", "^", "+"].includes(reading.of(child(right, "operator")!)) &&
          child(node, "left")?.kind === "identifier" &&
          reading.of(child(right, "left")!) === reading.of(child(node, "left")!)
        );
      }),
    );
    if (found === undefined) return null;
    const right = child(found.node, "right")!;
    const text = `${reading.of(child(found.node, "left")!)} ${reading.of(child(right, "operator")!)}= ${reading.of(child(right, "right")!)}`;
    return reading.edit({ start: found.node.start, end: found.node.end, text });
  },
};

/** `1 << X` where X is a bit's name: below 15, so that width and sign do not matter. */
function shiftedBits(reading: Reading): readonly Placed[] {
  return reading.statements("binary_expression").filter(({ node }) => {
    const right = child(node, "right");
    return (
      reading.of(child(node, "operator")!) === "<<" &&
      reading.of(child(node, "left")!) === "1" &&
      right !== undefined &&
      /^[A-Z]+\d*[A-Z]*\d*$/.test(reading.of(right)) &&
      !reading.text.includes(`#define ${reading.of(right)}`)
    );
  });
}

function shiftAs(name: string, text: (bit: string) => string): Rewriting {
  return {
    name: `1 << N as ${name}`,
    rewrite(reading, choice) {
      const found = choice.of(shiftedBits(reading));
      if (found === undefined) return null;
      const { node } = found;
      return reading.edit({ start: node.start, end: node.end, text: text(reading.of(child(node, "right")!)) });
    },
  };
}

const bitAsShift: Rewriting = {
  name: "_BV(N) as (1 << N)",
  rewrite(reading, choice) {
    const found = choice.of(
      reading.statements("call_expression").filter(({ node }) => reading.of(child(node, "function")!) === "_BV"),
    );
    if (found === undefined) return null;
    return reading.edit({
      start: found.node.start,
      end: found.node.end,
      text: `(1 << ${reading.of(child(found.node, "arguments")!)})`,
    });
  },
};

function registerUses(reading: Reading, pattern = REGISTER): readonly Placed[] {
  return reading.statements("identifier").filter(({ node, above }) => {
    const name = reading.of(node);
    return (
      pattern.test(name) &&
      !/#define[^\n]*(_SFR|##)|\basm\b|__asm__/.test(reading.text) &&
      !above.some((each) => each.kind === "unary_expression") &&
      !reading.text.includes(`#define ${name}`)
    );
  });
}

/** `TCCR1A` → `*(&TCCR1A)`. */
const throughAddress: Rewriting = {
  name: "a register through its address",
  rewrite(reading, choice) {
    const found = choice.of(registerUses(reading));
    if (found === undefined) return null;
    return reading.edit({ start: found.node.start, end: found.node.end, text: `(*(&${reading.of(found.node)}))` });
  },
};

function throughAlias(
  name: string,
  declare: (alias: string, register: string) => string,
  use: (alias: string) => string,
): Rewriting {
  return {
    name: `a register through ${name}`,
    rewrite(reading, choice) {
      const found = choice.of(registerUses(reading, name.includes("struct") ? BYTE_REGISTER : REGISTER));
      if (found === undefined) return null;
      const register = reading.of(found.node);
      const alias = freshName("alias");
      const wide = !BYTE_REGISTER.test(register);
      const declaration = declare(alias, register).replaceAll("TYPE", wide ? "uint16_t" : "uint8_t");
      return reading.edit(
        { start: reading.head, end: reading.head, text: `\n${declaration}\n` },
        { start: found.node.start, end: found.node.end, text: use(alias) },
      );
    },
  };
}

/** A literal in a statement: decimal, no suffix, and an int whatever the base. */
function literals(reading: Reading): readonly Placed[] {
  return (
    reading
      .statements("number_literal")
      .filter(({ node }) => /^(0|[1-9]\d*)$/.test(reading.of(node)) && Number(reading.of(node)) <= 32767)
      // A number may be half a name there.
      .filter(() => !reading.text.includes("##"))
  );
}

function literalAs(
  name: string,
  text: (value: number) => string,
  declare: (value: number, made: string) => string = () => "",
): Rewriting {
  return {
    name: `a number as ${name}`,
    rewrite(reading, choice) {
      const found = choice.of(literals(reading));
      if (found === undefined) return null;
      const value = Number(reading.of(found.node));
      const made = freshName("number");
      const declaration = declare(value, made);
      const edits = [{ start: found.node.start, end: found.node.end, text: text(value).replace("NAME", made) }];
      if (declaration !== "") edits.push({ start: reading.head, end: reading.head, text: `\n${declaration}\n` });
      return reading.edit(...edits);
    },
  };
}

/** The right side of an assignment, rewritten. */
function rightSide(
  name: string,
  text: (right: string) => string,
  fits: (reading: Reading, left: SyntaxNode) => boolean = () => true,
): Rewriting {
  return {
    name,
    slower: name.endsWith("function"),
    rewrite(reading, choice) {
      const found = choice.of(
        assignments(reading, ["=", "|="]).filter(
          ({ node }) =>
            child(node, "right")?.kind !== "initializer_list" &&
            child(node, "right")?.kind !== "assignment_expression" &&
            // Inside an argument a choice is no `if`.
            !(name.endsWith("function") && reading.has(child(node, "right")!, "conditional_expression")) &&
            fits(reading, child(node, "left")!),
        ),
      );
      if (found === undefined) return null;
      const right = child(found.node, "right")!;
      return reading.edit({ start: right.start, end: right.end, text: text(reading.of(right)) });
    },
  };
}

const intoByte = (reading: Reading, left: SyntaxNode): boolean => BYTE_REGISTER.test(reading.of(left));

function conditionAs(name: string, text: (condition: string) => string): Rewriting {
  return {
    name: `a condition as ${name}`,
    rewrite(reading, choice) {
      const found = choice.of(
        reading.statements("if_statement", "while_statement").flatMap(({ node }) => conditionOf(node) ?? []),
      );
      if (found === undefined) return null;
      return reading.edit({ start: found.start, end: found.end, text: text(reading.of(found)) });
    },
  };
}

/** What is no plain operation on numbers: comparisons taken for a template among them. */
function misread(reading: Reading, node: SyntaxNode, above: readonly SyntaxNode[]): boolean {
  // Operators of a class's own need not commute.
  if (/\boperator\b/.test(reading.text)) return true;
  return reading.has(node, "template_function") || above.some((each) => each.kind === "template_argument_list");
}

const MIRROR: Readonly<Record<string, string>> = { "<": ">", ">": "<", "<=": ">=", ">=": "<=", "==": "==", "!=": "!=" };

/** `a < b` → `b > a`; where neither side does anything. */
const mirrored: Rewriting = {
  name: "a < b as b > a",
  rewrite(reading, choice) {
    const found = choice.of(
      reading
        .statements("binary_expression")
        .filter(
          ({ node, above }) =>
            reading.of(child(node, "operator")!) in MIRROR &&
            !misread(reading, node, above) &&
            !reading.has(node, "call_expression", "assignment_expression", "update_expression"),
        ),
    );
    if (found === undefined) return null;
    const { node } = found;
    const [left, operator, right] = ["left", "operator", "right"].map((field) => reading.of(child(node, field)!));
    return reading.edit({ start: node.start, end: node.end, text: `(${right}) ${MIRROR[operator!]} (${left})` });
  },
};

/** `a | b` → `b | a`. */
const commuted: Rewriting = {
  name: "a | b as b | a",
  rewrite(reading, choice) {
    const found = choice.of(
      reading
        .statements("binary_expression")
        .filter(
          ({ node, above }) =>
            !misread(reading, node, above) &&
            ["|", "&", "+", "*", "^"].includes(reading.of(child(node, "operator")!)) &&
            !reading.has(node, "call_expression", "assignment_expression", "update_expression", "string_literal"),
        ),
    );
    if (found === undefined) return null;
    const { node } = found;
    const [left, operator, right] = ["left", "operator", "right"].map((field) => reading.of(child(node, field)!));
    // In its own parentheses: `b + a` in `x - a + b` would not be the same otherwise.
    return reading.edit({ start: node.start, end: node.end, text: `((${right}) ${operator} (${left}))` });
  },
};

/** `n++;` → `n += 1;`. */
const stepped: Rewriting = {
  name: "n++ as n += 1",
  rewrite(reading, choice) {
    // A sketch's own ++ may be something else than adding one.
    if (/operator\s*(?:\+\+|--)/.test(reading.text)) return null;
    const found = choice.of(
      reading
        .statements("update_expression")
        .filter(
          ({ node, above }) =>
            above[0]?.kind === "expression_statement" && child(node, "argument")?.kind === "identifier",
        ),
    );
    if (found === undefined) return null;
    const { node } = found;
    const sign = reading.of(node).includes("++") ? "+" : "-";
    return reading.edit({
      start: node.start,
      end: node.end,
      text: `${reading.of(child(node, "argument")!)} ${sign}= 1`,
    });
  },
};

/** A `#define` of one number, its name put in place. */
function defines(
  reading: Reading,
): readonly { readonly node: SyntaxNode; readonly name: string; readonly value: string }[] {
  return reading.kind("preproc_def").flatMap(({ node, above }) => {
    if (above.length !== 1) return [];
    const name = child(node, "name");
    const value = child(node, "value");
    if (name === undefined || value === undefined) return [];
    const text = reading
      .of(value)
      .replace(/\/\/.*|\/\*.*?\*\//g, "")
      .trim();
    if (!/^(0|[1-9]\d{0,4})$/.test(text) || Number(text) > 32767) return [];
    const directives = reading.text
      .split("\n")
      .filter((line) => line.trim().startsWith("#") && wordsIn(line, reading.of(name)).length > 0);
    return directives.length === 1 && !reading.text.includes("##")
      ? [{ node, name: reading.of(name), value: text }]
      : [];
  });
}

function defineAs(
  name: string,
  text: (name: string, value: string) => string,
  put: (name: string, value: string) => string = (each) => each,
): Rewriting {
  return {
    name: `#define as ${name}`,
    rewrite(reading, choice) {
      const found = choice.of(defines(reading));
      if (found === undefined) return null;
      const line = reading.text.indexOf("\n", found.node.start);
      const uses = wordsIn(reading.text, found.name).filter(({ start }) => start > line);
      if (uses.length === 0) return null;
      return reading.edit(
        { start: found.node.start, end: line, text: text(found.name, found.value) },
        ...uses.map((use) => ({ ...use, text: put(found.name, found.value) })),
      );
    },
  };
}

export const expressionRewritings: readonly Rewriting[] = [
  spelledOut,
  contracted,
  shiftAs("_BV(N)", (bit) => `_BV(${bit})`),
  shiftAs("bit(N)", (bit) => `bit(${bit})`),
  bitAsShift,
  throughAddress,
  throughAlias(
    "a reference",
    (alias, register) => `static volatile TYPE &${alias} = ${register};`,
    (alias) => alias,
  ),
  throughAlias(
    "a pointer",
    (alias, register) => `static volatile TYPE *const ${alias} = &${register};`,
    (alias) => `(*${alias})`,
  ),
  throughAlias(
    "a macro",
    (alias, register) => `#define ${alias} ${register}`,
    (alias) => alias,
  ),
  throughAlias(
    "a struct of pointers",
    (alias, register) =>
      `struct ${alias}Type { volatile uint8_t *place; };\nstatic const ${alias}Type ${alias} = {&${register}};`,
    (alias) => `*${alias}.place`.replace(/^/, "(").concat(")"),
  ),
  literalAs("hexadecimal", (value) => `0x${value.toString(16).toUpperCase()}`),
  literalAs("binary", (value) => `0b${value.toString(2)}`),
  literalAs(
    "a const",
    () => "NAME",
    (value, made) => `static const int ${made} = ${value};`,
  ),
  literalAs(
    "a constexpr function",
    () => "NAME()",
    (value, made) => `constexpr int ${made}() { return ${value}; }`,
  ),
  literalAs(
    "a template's value",
    (value) => `NAME<${value}>::value`,
    (_, made) => `template <int N> struct ${made} { static const int value = N; };`,
  ),
  literalAs(
    "an enumerator",
    () => "NAME",
    (value, made) => `enum { ${made} = ${value} };`,
  ),
  literalAs(
    "a macro",
    () => "NAME",
    (value, made) => `#define ${made} (${value})`,
  ),
  rightSide("a right side in parentheses", (right) => `((${right}))`),
  rightSide("a right side cast to its byte", (right) => `(uint8_t)(${right})`, intoByte),
  rightSide("a right side with static_cast", (right) => `static_cast<uint8_t>(${right})`, intoByte),
  rightSide("a right side plus 0", (right) => `(${right}) + 0`, intoByte),
  rightSide("a right side through a function", (right) => `[](uint8_t x) { return x; }(${right})`, intoByte),
  conditionAs("a double negation", (condition) => `!(!(${condition}))`),
  conditionAs("itself and true", (condition) => `(${condition}) && true`),
  conditionAs("itself or false", (condition) => `false || (${condition})`),
  mirrored,
  commuted,
  stepped,
  defineAs(
    "its number",
    () => "",
    (_, value) => value,
  ),
  defineAs("const int", (name, value) => `const int ${name} = ${value};`),
  defineAs("constexpr", (name, value) => `constexpr int ${name} = ${value};`),
  defineAs("enum", (name, value) => `enum { ${name} = ${value} };`),
];
