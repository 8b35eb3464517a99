/** Rewritings of statements: other shapes of the same flow, code that never runs, and harmless repetition. */
import { child, type SyntaxNode } from "../../server/parse/syntax.js";
import { freshName, type Rewriting } from "./rewriting.js";
import { alternativeOf, conditionOf, type Placed, type Reading } from "./sketch.js";

/** Statements directly in a block or a branch, that declare nothing and are no label. */
function wrappable(reading: Reading): readonly Placed[] {
  return reading
    .statements(
      "expression_statement",
      "if_statement",
      "for_statement",
      "while_statement",
      "switch_statement",
      "do_statement",
      "return_statement",
    )
    .filter(({ above }) =>
      ["compound_statement", "if_statement", "else_clause", "for_statement", "while_statement"].includes(
        above[0]!.kind,
      ),
    );
}

function inBlock(reading: Reading): readonly Placed[] {
  return wrappable(reading).filter(({ above }) => above[0]!.kind === "compound_statement");
}

function around(
  name: string,
  wrap: (statement: string, fresh: string) => string,
  not: readonly string[] = [],
): Rewriting {
  return {
    name,
    slower: !name.startsWith("braces"),
    rewrite(reading, choice) {
      const found = choice.of(wrappable(reading).filter(({ node }) => !reading.has(node, ...not)));
      if (found === undefined) return null;
      const { node } = found;
      return reading.edit({ start: node.start, end: node.end, text: wrap(reading.of(node), freshName("wrap")) });
    },
  };
}

/** Something put before a statement that changes nothing. */
function before(name: string, text: (fresh: string) => string): Rewriting {
  return {
    name,
    slower: true,
    rewrite(reading, choice) {
      const found = choice.of(inBlock(reading));
      if (found === undefined) return null;
      return reading.edit({ start: found.node.start, end: found.node.start, text: `${text(freshName("extra"))} ` });
    },
  };
}

const JUMPS = ["break_statement", "continue_statement", "goto_statement", "case_statement"];

const forAsWhile: Rewriting = {
  name: "for as while",
  slower: true,
  rewrite(reading, choice) {
    const found = choice.of(
      reading
        .statements("for_statement")
        .filter(({ node }) => !reading.has(child(node, "body")!, "continue_statement")),
    );
    if (found === undefined) return null;
    const { node } = found;
    const part = (field: string): string => {
      const each = child(node, field);
      return each === undefined ? "" : reading.of(each).replace(/;\s*$/, "");
    };
    const condition = part("condition");
    const text = `{ ${part("initializer")}; while (${condition === "" ? "true" : condition}) { ${part("body").replace(/([^;}\s])\s*$/, "$1;")} ${part("update")}; } }`;
    return reading.edit({ start: node.start, end: node.end, text });
  },
};

const whileAsFor: Rewriting = {
  name: "while as for",
  rewrite(reading, choice) {
    const found = choice.of(
      reading.statements("while_statement").filter(({ node }) => conditionOf(node) !== undefined),
    );
    if (found === undefined) return null;
    const { node } = found;
    const body = child(node, "body")!;
    return reading.edit({ start: node.start, end: body.start, text: `for (; ${reading.of(conditionOf(node)!)};) ` });
  },
};

/** Ifs with both branches. */
function decided(reading: Reading, alternative: boolean): readonly SyntaxNode[] {
  return reading
    .statements("if_statement")
    .map(({ node }) => node)
    .filter((node) => conditionOf(node) !== undefined && (alternativeOf(node) !== undefined) === alternative);
}

const turnedRound: Rewriting = {
  name: "if/else turned round",
  rewrite(reading, choice) {
    const node = choice.of(decided(reading, true));
    if (node === undefined) return null;
    const text = `if (!(${reading.of(conditionOf(node)!)})) { ${reading.of(alternativeOf(node)!)} } else { ${reading.of(child(node, "consequence")!)} }`;
    return reading.edit({ start: node.start, end: node.end, text });
  },
};

const asSwitch: Rewriting = {
  name: "if/else as switch",
  slower: true,
  rewrite(reading, choice) {
    const node = choice.of(
      decided(reading, true).filter((each) => !reading.has(each, "break_statement", "case_statement")),
    );
    if (node === undefined) return null;
    const text = `switch ((${reading.of(conditionOf(node)!)}) ? 1 : 0) { case 1: { ${reading.of(child(node, "consequence")!)} } break; default: { ${reading.of(alternativeOf(node)!)} } }`;
    return reading.edit({ start: node.start, end: node.end, text });
  },
};

/** `if (c) a = x; else a = y;` → `a = c ? x : y;` on names. */
const asChoice: Rewriting = {
  name: "if/else as ?:",
  rewrite(reading, choice) {
    const only = (node: SyntaxNode): SyntaxNode | undefined => {
      if (node.kind === "compound_statement") {
        const inner = node.children.filter((each) => each.named);
        return inner.length === 1 ? only(inner[0]!) : undefined;
      }
      const assignment = node.kind === "expression_statement" ? node.children[0] : undefined;
      if (assignment?.kind !== "assignment_expression" || reading.of(child(assignment, "operator")!) !== "=")
        return undefined;
      return child(assignment, "left")?.kind === "identifier" ? assignment : undefined;
    };
    const node = choice.of(
      decided(reading, true).filter((each) => {
        const yes = only(child(each, "consequence")!);
        const no = only(alternativeOf(each)!);
        return (
          yes !== undefined && no !== undefined && reading.of(child(yes, "left")!) === reading.of(child(no, "left")!)
        );
      }),
    );
    if (node === undefined) return null;
    const yes = only(child(node, "consequence")!)!;
    const no = only(alternativeOf(node)!)!;
    const text = `${reading.of(child(yes, "left")!)} = (${reading.of(conditionOf(node)!)}) ? (${reading.of(child(yes, "right")!)}) : (${reading.of(child(no, "right")!)});`;
    return reading.edit({ start: node.start, end: node.end, text });
  },
};

/** The last `if` of a void function → `if (!c) return; …`. */
const earlyReturn: Rewriting = {
  name: "if as early return",
  rewrite(reading, choice) {
    const found = choice.of(
      reading.functions().flatMap((code) => {
        const last = code.body.children.filter((each) => each.named).at(-1);
        if (last?.kind !== "if_statement" || conditionOf(last) === undefined || alternativeOf(last) !== undefined)
          return [];
        const type = child(code.node, "type");
        return type !== undefined && reading.of(type) === "void" ? [last] : [];
      }),
    );
    if (found === undefined) return null;
    const text = `if (!(${reading.of(conditionOf(found)!)})) return; ${reading.of(child(found, "consequence")!)}`;
    return reading.edit({ start: found.start, end: found.end, text });
  },
};

/** `if (a && b) S` → `if (a) { if (b) S }`. */
const nestedAnd: Rewriting = {
  name: "&& as nested ifs",
  rewrite(reading, choice) {
    const node = choice.of(
      decided(reading, false).filter((each) => {
        const condition = conditionOf(each)!;
        return condition.kind === "binary_expression" && reading.of(child(condition, "operator")!) === "&&";
      }),
    );
    if (node === undefined) return null;
    const condition = conditionOf(node)!;
    const text = `if (${reading.of(child(condition, "left")!)}) { if (${reading.of(child(condition, "right")!)}) ${reading.of(child(node, "consequence")!)} }`;
    return reading.edit({ start: node.start, end: node.end, text });
  },
};

/** `int x = e;` → `int x; x = e;`. */
const declaredFirst: Rewriting = {
  name: "declaration and initialisation apart",
  rewrite(reading, choice) {
    const found = choice.of(
      reading.statements("declaration").filter(({ node, above }) => {
        if (above[0]?.kind !== "compound_statement") return false;
        const declarators = node.children.filter((each) => each.field === "declarator");
        const only = declarators[0];
        return (
          declarators.length === 1 &&
          only?.kind === "init_declarator" &&
          child(only, "declarator")?.kind === "identifier" &&
          child(only, "value") !== undefined &&
          !["initializer_list", "argument_list"].includes(child(only, "value")!.kind) &&
          /^(volatile )?(unsigned |signed )?(int|long|byte|bool|boolean|char|float|word|uint8_t|uint16_t|uint32_t|int16_t) \w/.test(
            reading.of(node),
          )
        );
      }),
    );
    if (found === undefined) return null;
    const only = found.node.children.find((each) => each.field === "declarator")!;
    const name = reading.of(child(only, "declarator")!);
    return reading.edit({
      start: only.start,
      end: found.node.end,
      text: `${name}; ${name} = ${reading.of(child(only, "value")!)};`,
    });
  },
};

/** A plain assignment of a number, which may as well be made twice. Strobe bits aside, of which numbers here have none. */
const madeTwice: Rewriting = {
  name: "an assignment made twice",
  slower: true,
  rewrite(reading, choice) {
    const found = choice.of(plainWrites(reading).filter(({ group }) => group !== "pin"));
    if (found === undefined) return null;
    const { statement } = found;
    return reading.edit({ start: statement.end, end: statement.end, text: ` ${reading.of(statement)}` });
  },
};

interface PlainWrite {
  readonly statement: SyntaxNode;
  readonly parent: SyntaxNode;
  /** Writes of different groups do not touch each other. */
  readonly group: string;
}

/** `REGISTER = numbers and bit names;`, directly in a block. */
function plainWrites(reading: Reading): readonly PlainWrite[] {
  return reading.statements("expression_statement").flatMap(({ node, above }) => {
    const assignment = node.children[0];
    if (above[0]?.kind !== "compound_statement" || assignment?.kind !== "assignment_expression") return [];
    const left = reading.of(child(assignment, "left")!);
    const operator = reading.of(child(assignment, "operator")!);
    if (!["=", "|="].includes(operator) || /FOC/.test(reading.of(assignment))) return [];
    const right = child(assignment, "right")!;
    if (reading.has(right, "call_expression", "assignment_expression", "update_expression")) return [];
    if (
      [...reading.identifiers(right)].some((name) => !/^(CS|WGM|COM|OCIE|TOIE|PORT|P|DD)[A-Z]*\d+[A-Z]?\d*$/.test(name))
    )
      return [];
    const timer = /^(?:TCCR(\d)A|OCR(\d)[AB])$/.exec(left);
    if (timer !== null) return [{ statement: node, parent: above[0], group: `timer ${timer[1] ?? timer[2]}` }];
    const port = /^(DDR[B-D]|PORT[B-D])$/.exec(left);
    return port === null ? [] : [{ statement: node, parent: above[0], group: left }];
  });
}

const swapped: Rewriting = {
  name: "independent writes swapped",
  rewrite(reading, choice) {
    const writes = plainWrites(reading);
    const pairs = writes.flatMap((first) => {
      const siblings = first.parent.children.filter((each) => each.named);
      const next = siblings[siblings.indexOf(first.statement) + 1];
      const second = writes.find(({ statement }) => statement === next);
      return second !== undefined && second.group !== first.group ? [{ first, second }] : [];
    });
    const found = choice.of(pairs);
    if (found === undefined) return null;
    const { first, second } = found;
    return reading.edit(
      { start: first.statement.start, end: first.statement.end, text: reading.of(second.statement) },
      { start: second.statement.start, end: second.statement.end, text: reading.of(first.statement) },
    );
  },
};

/** A statement as the body of a macro. */
const asMacro: Rewriting = {
  name: "a statement as a macro",
  slower: true,
  rewrite(reading, choice) {
    const found = choice.of(
      reading.statements("expression_statement").filter(
        ({ node }) =>
          !reading.of(node).includes("\n") &&
          !reading.of(node).includes("//") &&
          !reading.has(node, "gnu_asm_expression") &&
          // A declaration of a pointer to rows looks like an assignment.
          !/^\w+ \(\*/.test(reading.of(node)) &&
          !/\bstatic\b|#/.test(reading.of(node)),
      ),
    );
    if (found === undefined) return null;
    const name = freshName("MACRO");
    const text = reading.of(found.node).replace(/;\s*$/, "");
    return reading.edit(
      { start: reading.head, end: reading.head, text: `\n#define ${name}() do { ${text}; } while (0)\n` },
      { start: found.node.start, end: found.node.end, text: `${name}();` },
    );
  },
};

const afterReturn: Rewriting = {
  name: "code after the last return",
  rewrite(reading, choice) {
    const found = choice.of(
      reading.functions().filter((code) => {
        const type = child(code.node, "type");
        return type !== undefined && reading.of(type) === "void" && !reading.has(code.body, "labeled_statement");
      }),
    );
    if (found === undefined) return null;
    return reading.edit({
      start: found.body.end - 1,
      end: found.body.end - 1,
      text: " return; TCCR2B = 7; OCR2A = 1; OCR1A = 2; ",
    });
  },
};

export const statementRewritings: readonly Rewriting[] = [
  around("braces around a statement", (statement) => `{ ${statement} }`),
  around("do { } while (0) around a statement", (statement) => `do { ${statement} } while (0);`, JUMPS),
  around("if (true) around a statement", (statement) => `{ if (true) { ${statement} } }`),
  around("a switch of one case around a statement", (statement) => `switch (0) { default: { ${statement} } }`, JUMPS),
  around(
    "a loop of one round around a statement",
    (statement, fresh) => `for (int ${fresh} = 0; ${fresh} < 1; ${fresh}++) { ${statement} }`,
    [...JUMPS, "call_expression", "gnu_asm_expression"],
  ),
  around("a lambda around a statement", (statement) => `[&]() { ${statement} }();`, [
    ...JUMPS,
    "return_statement",
    "parameter_pack_expansion",
  ]),
  before("if (0) before a statement", () => "if (0) { TCCR2B = 7; OCR2A = 3; TCCR1B = 1; DDRD = 0; }"),
  before("while (false) before a statement", () => "while (false) { OCR1A++; }"),
  before("an unused variable", (fresh) => `int ${fresh} = 5; ${fresh} += 2; (void) ${fresh};`),
  before("an empty statement", () => ";"),
  before("a skipped stretch", (fresh) => `{ goto ${fresh}; TCCR2A = 0xA3; ${fresh}: ; }`),
  forAsWhile,
  whileAsFor,
  turnedRound,
  asSwitch,
  asChoice,
  earlyReturn,
  nestedAnd,
  declaredFirst,
  madeTwice,
  swapped,
  asMacro,
  afterReturn,
];
