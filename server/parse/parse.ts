/**
 * Expanded text to syntax tree. The only place that knows tree-sitter: its native build where that loads, its
 * WebAssembly build else. Both give the same tree of a text without errors; how they recover from an error may differ in
 * detail, since they carry different versions of tree-sitter's core.
 */
import { dirname } from "node:path";
import { listMarks } from "./assignment-lists.js";
import { switchMarks } from "./bare-switches.js";
import { refusal } from "./guard.js";
import { loadNative } from "./native.js";
import { withMarks, withoutMarks } from "./put-in-marks.js";
import { respelled } from "./respell.js";
import type { SyntaxNode, SyntaxTree } from "./syntax.js";
import { type Found, MAX_TREE_DEPTH } from "./walk.js";
import { loadWasm } from "./wasm.js";

export interface Parser {
  readonly kind: "native" | "wasm";
  /** Total: text that cannot be parsed gives a tree with `errors`, text that is not parsed one with `refused`. */
  parse(text: string): SyntaxTree;
}

export interface ParserOptions {
  /**
   * Directories in which the parser's files are looked for, in order, each directly and under `node_modules`, and
   * in the directories above. Default: that of this file (the bundle's), then the working directory.
   */
  readonly directories?: readonly string[];
  /** Longest time for one parse; beyond it the text is refused. Default 5,000. */
  readonly milliseconds?: number;
}

/** `auto` takes the native build where it loads. Rejects where the build asked for is not to be had. */
export async function createParser(
  choice: "native" | "wasm" | "auto" = "auto",
  options: ParserOptions = {},
): Promise<Parser> {
  const milliseconds = options.milliseconds ?? 5000;
  const directories = withParents(options.directories ?? ownDirectories());
  if (choice !== "wasm") {
    for (const directory of directories) {
      const native = loadNative(directory, milliseconds);
      if (native !== undefined) return parserOver("native", native, milliseconds);
    }
    if (choice === "native") throw new Error("the native parser does not load on this machine");
  }
  return parserOver("wasm", await loadWasm(directories, milliseconds), milliseconds);
}

function parserOver(kind: Parser["kind"], parse: (text: string) => Found | null, milliseconds: number): Parser {
  return {
    kind,
    parse(written) {
      const text = respelled(written);
      const reason = refusal(text);
      if (reason !== null) return refused(text, reason);
      const marked = withMarks(text, [...listMarks(text), ...switchMarks(text)]);
      const found = parse(marked.text);
      if (found === null) return refused(text, `parsing took longer than ${milliseconds} ms`);
      if (found.tooDeep) return refused(text, `expressions or statements are nested more than ${MAX_TREE_DEPTH} deep`);
      const { root, errors } = withoutMarks(found, marked.inserted);
      return { root, text, errors, refused: null };
    },
  };
}

function refused(text: string, reason: string): SyntaxTree {
  const root: SyntaxNode = { kind: "translation_unit", start: 0, end: 0, field: null, named: true, children: [] };
  return { root, text, errors: [], refused: reason };
}

function ownDirectories(): string[] {
  return [typeof __dirname === "string" ? __dirname : process.cwd(), process.cwd()];
}

function withParents(directories: readonly string[]): string[] {
  const all = new Set<string>();
  for (const start of directories) {
    for (let directory = start; !all.has(directory); directory = dirname(directory)) all.add(directory);
  }
  return [...all];
}
