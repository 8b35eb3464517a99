/** Rewritings of functions, names and files: where code lies and what things are called. */
import { child, type SyntaxNode } from "../../server/parse/syntax.js";
import { freshName, type Rewriting } from "./rewriting.js";
import { codeOnly, edited, type Reading, type Sketch, type WrittenFunction, wordsIn } from "./sketch.js";

const LOCAL_NAMES = [
  "using_declaration",
  "alias_declaration",
  "namespace_alias_definition",
  "struct_specifier",
  "class_specifier",
  "union_specifier",
];

/** Runs of one to three statements that use nothing of the function around them. */
function runs(
  reading: Reading,
): readonly { readonly first: SyntaxNode; readonly last: SyntaxNode; readonly code: WrittenFunction }[] {
  const functions = reading.functions();
  const macros = reading.statementMacros;
  return functions.flatMap((code) => {
    const locals = reading.locals(code);
    const free = (node: SyntaxNode): boolean =>
      ["expression_statement", "if_statement", "for_statement", "while_statement"].includes(node.kind) &&
      ![...reading.identifiers(node)].some((name) => locals.has(name) || macros.has(name)) &&
      !reading.has(node, "return_statement", "goto_statement", "labeled_statement", "this") &&
      !reading.of(node).includes("#");
    // Names that the function alone can see by them would be lost.
    if (reading.has(code.body, ...LOCAL_NAMES)) return [];
    const body = code.body.children.filter((each) => each.named);
    return body.flatMap((first, at) =>
      [1, 2, 3].flatMap((length) => {
        const run = body.slice(at, at + length);
        return run.length === length && run.every(free) ? [{ first, last: run.at(-1)!, code }] : [];
      }),
    );
  });
}

function extracted(
  name: string,
  make: (fresh: string, text: string) => { readonly before: string; readonly call: string },
): Rewriting {
  return {
    name: `statements as ${name}`,
    slower: true,
    rewrite(reading, choice) {
      const found = choice.of(runs(reading));
      if (found === undefined) return null;
      const { first, last, code } = found;
      const made = make(freshName("part"), reading.text.slice(first.start, last.end));
      return reading.edit(
        { start: code.node.start, end: code.node.start, text: `${made.before}\n` },
        { start: first.start, end: last.end, text: made.call },
      );
    },
  };
}

/** The whole body of a void function without parameters, called from where it was. */
function bodyAs(
  name: string,
  make: (fresh: string, body: string) => { readonly before: string; readonly call: string },
): Rewriting {
  return {
    name: `a body as ${name}`,
    slower: true,
    rewrite(reading, choice) {
      const found = choice.of(
        reading.functions().filter((code) => {
          const type = child(code.node, "type");
          return (
            type !== undefined &&
            !reading.identifiers(code.body).has("run") &&
            reading.of(type) === "void" &&
            reading.of(code.parameters) === "()" &&
            !/#/.test(reading.of(code.body))
          );
        }),
      );
      if (found === undefined) return null;
      const made = make(freshName("body"), reading.of(found.body));
      return reading.edit(
        { start: found.node.start, end: found.node.start, text: `${made.before}\n` },
        { start: found.body.start, end: found.body.end, text: `{ ${made.call} }` },
      );
    },
  };
}

const KEPT = /^(setup|loop|main|serialEvent|ISR|SIGNAL|[A-Z0-9_]+)$/;

/** Names that the sketch gives to variables and functions at file level, in lower case (others may mean a register). */
function ownNames(reading: Reading): readonly string[] {
  const names = new Set(reading.functions().map((code) => code.name));
  for (const { node, above } of reading.kind("declaration")) {
    if (above.length !== 1) continue;
    for (const each of node.children.filter((candidate) => candidate.field === "declarator")) {
      let declarator: SyntaxNode | undefined = each;
      while (declarator !== undefined && declarator.kind !== "identifier") declarator = child(declarator, "declarator");
      if (declarator !== undefined) names.add(reading.of(declarator));
    }
  }
  return [...names].filter((name) => !KEPT.test(name) && name.length > 1);
}

const renamed: Rewriting = {
  name: "a name changed",
  rewrite(reading, choice) {
    if (reading.sketch.tabs.length > 0) return null;
    // A name that is also a field's, or part of a macro's making, means several things.
    const code = codeOnly(reading.text);
    const name = choice.of(
      ownNames(reading).filter((each) => !new RegExp(`(\\.|->|::)\\s*${each}\\b`).test(code) && !code.includes("##")),
    );
    if (name === undefined) return null;
    const fresh = freshName("named");
    const inComments = reading.text.match(new RegExp(`(wants|reads|board|clock)\\b[^\\n]*\\b${name}\\b`));
    if (inComments !== null) return null;
    const uses = wordsIn(reading.text, name);
    return reading.edit(...uses.map((use) => ({ ...use, text: fresh })));
  },
};

/** Function definitions that may be moved to another file: everything they use is known there by declarations. */
const unusedFunction: Rewriting = {
  name: "a function that nobody calls",
  rewrite(reading) {
    const name = freshName("unused");
    return reading.edit({
      start: reading.text.length,
      end: reading.text.length,
      text: `\nvoid ${name}(int n) {\n  TCCR1A = n;\n  TCCR2B = 7;\n  OCR2A = n * 2;\n  ${name}(n - 1);\n}\n`,
    });
  },
};

const unusedClass: Rewriting = {
  name: "a class that nobody uses",
  rewrite(reading) {
    const name = freshName("Unused");
    return reading.edit({
      start: reading.head,
      end: reading.head,
      text: `\nclass ${name} {\n public:\n  ${name}() : level(3) { TCCR2B = 7; }\n  virtual void run() { OCR2A = level; }\n  int level;\n};\n`,
    });
  },
};

/** The whole text as a header of the sketch's own. Prototypes, which the build would make, are written out. */
function moved(name: string, move: (sketch: Sketch, text: string) => Sketch): Rewriting {
  return {
    name,
    rewrite(reading) {
      if (reading.sketch.headers.size > 0 || reading.sketch.tabs.length > 0 || reading.sketch.units.length > 0)
        return null;
      return move(reading.sketch, prototypes(reading));
    },
  };
}

/** The text with a prototype for every function that is called before it is defined. */
function prototypes(reading: Reading): string {
  const edits = reading.functions().flatMap((code) => {
    const uses = wordsIn(reading.text, code.name);
    if (KEPT.test(code.name) || uses.length === 0 || uses[0]!.start > code.node.start) return [];
    const head = reading.text.slice(code.node.start, code.body.start).trim();
    if (/=/.test(head)) return [];
    const first = reading
      .functions()
      .find((each) => each.body.start < uses[0]!.start && uses[0]!.start < each.body.end);
    return first === undefined ? [] : [{ start: first.node.start, end: first.node.start, text: `${head};\n` }];
  });
  return edited(reading.text, edits);
}

function firstBut(reading: Reading, code: WrittenFunction): WrittenFunction | undefined {
  return reading.functions().find((each) => each.node !== code.node);
}

/** One function in a tab of its own, which the build joins behind the first. */
const secondTab: Rewriting = {
  name: "a function in a second tab",
  rewrite(reading, choice) {
    if (reading.sketch.units.length > 0 || reading.sketch.headers.size > 0) return null;
    const found = choice.of(
      reading.functions().filter(
        (code) =>
          child(code.node, "type") !== undefined &&
          !/^\s*(static|inline|template)/.test(reading.of(code.node)) &&
          !/#/.test(reading.of(code.node)) &&
          code.name !== "ISR" &&
          // The build's prototypes stand above the first function that is left.
          wordsIn(reading.text, code.name).every(({ start }) => start > (firstBut(reading, code)?.node.start ?? 0)) &&
          !/^[^(]*\bconstexpr\b/.test(reading.of(code.node)),
      ),
    );
    if (found === undefined) return null;
    return {
      ...reading.edit({ start: found.node.start, end: found.node.end, text: "" }),
      tabs: [...reading.sketch.tabs, { name: `${freshName("tab")}.ino`, text: `${reading.of(found.node)}\n` }],
    };
  },
};

/** A function in a namespace, brought out again. */
const inNamespace: Rewriting = {
  name: "a function in a namespace",
  rewrite(reading, choice) {
    const found = choice.of(
      reading
        .functions()
        .filter(
          (code) =>
            !KEPT.test(code.name) &&
            child(code.node, "type") !== undefined &&
            wordsIn(reading.text, code.name)[0]!.start > code.node.start &&
            !/#/.test(reading.of(code.node)),
        ),
    );
    if (found === undefined) return null;
    const name = freshName("space");
    return reading.edit({
      start: found.node.start,
      end: found.node.end,
      text: `namespace ${name} {\n${reading.of(found.node)}\n}\nusing namespace ${name};`,
    });
  },
};

export const functionRewritings: readonly Rewriting[] = [
  extracted("a function", (fresh, text) => ({ before: `static void ${fresh}() {\n${text}\n}`, call: `${fresh}();` })),
  extracted("an inline function of a namespace", (fresh, text) => ({
    before: `namespace ${fresh}Space { inline void ${fresh}() {\n${text}\n} }`,
    call: `${fresh}Space::${fresh}();`,
  })),
  extracted("a method", (fresh, text) => ({
    before: `struct ${fresh}Type { void ${fresh}Run() {\n${text}\n} };\nstatic ${fresh}Type ${fresh};`,
    call: `${fresh}.${fresh}Run();`,
  })),
  extracted("a template", (fresh, text) => ({
    before: `template <int N> void ${fresh}() {\n${text}\n}`,
    call: `${fresh}<3>();`,
  })),
  extracted("a lambda", (_, text) => ({
    before: "",
    call: `auto act = []() {\n${text}\n};\nact();`.replace(/\bact\b/g, freshName("act")),
  })),
  extracted("a function behind a pointer", (fresh, text) => ({
    before: `static void ${fresh}() {\n${text}\n}\nstatic void (*const ${fresh}Pointer)() = ${fresh};`,
    call: `${fresh}Pointer();`,
  })),
  bodyAs("a function", (fresh, body) => ({ before: `static void ${fresh}() ${body}`, call: `${fresh}();` })),
  bodyAs("a static method", (fresh, body) => ({
    before: `class ${fresh} {\n public:\n  static void run() ${body}\n};`,
    call: `${fresh}::run();`,
  })),
  bodyAs("a virtual method", (fresh, body) => ({
    before: `class ${fresh}Base {\n public:\n  virtual void run() = 0;\n};\nclass ${fresh} : public ${fresh}Base {\n public:\n  void run() override ${body}\n};\nstatic ${fresh} ${fresh}Object;\nstatic ${fresh}Base &${fresh}Any = ${fresh}Object;`,
    call: `${fresh}Any.run();`,
  })),
  bodyAs("a lambda", (_, body) => ({ before: "", call: `[&]() ${body}();` })),
  bodyAs("a function with an unused argument", (fresh, body) => ({
    before: `static void ${fresh}(int ${fresh}Number, bool = true) ${body}`,
    call: `${fresh}(7);`,
  })),
  bodyAs("a block", (_, body) => ({ before: "", call: body })),
  renamed,
  unusedFunction,
  unusedClass,
  inNamespace,
  secondTab,
  moved("everything in a header", (sketch, text) => ({
    ...sketch,
    text: '#include "everything.h"\n',
    headers: new Map([["everything.h", `#pragma once\n#include <Arduino.h>\n${text}`]]),
  })),
  moved("everything in a .cpp", (sketch, text) => ({
    ...sketch,
    text: "\n",
    units: [{ name: "everything.cpp", text: `#include <Arduino.h>\n${text}` }],
  })),
];
