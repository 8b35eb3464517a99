/** tree-sitter's native build, where the machine has one that loads. */
import { createRequire } from "node:module";
import { join } from "node:path";
import type { Cursor } from "./cursor.js";
import { createTables } from "./grammar-tables.js";
import { plainTree } from "./plain-tree.js";
import type { Found } from "./walk.js";

interface NativeTree {
  readonly rootNode: { readonly hasError: boolean };
  walk(): Cursor;
}

interface NativeParser {
  setLanguage(language: unknown): void;
  setTimeoutMicros(micros: number): void;
  parse(text: string): NativeTree | null | undefined;
  reset(): void;
}

/** `beside`: the directory from which `node_modules` is searched. Undefined where the native build does not load. */
export function loadNative(beside: string, milliseconds: number): ((text: string) => Found | null) | undefined {
  try {
    // Made at run time, so that the bundler leaves the two native packages alone.
    const load = createRequire(join(beside, "from-here.js"));
    const NativeParser = load("tree-sitter") as new () => NativeParser;
    const parser = new NativeParser();
    parser.setLanguage(load("tree-sitter-cpp"));
    parser.setTimeoutMicros(milliseconds * 1000);
    const tables = createTables();
    const parse = (text: string) => {
      const tree = parser.parse(text);
      if (!tree) {
        parser.reset();
        return null;
      }
      return plainTree(tree.walk(), tables, text, tree.rootNode.hasError);
    };
    // A build that loads but cannot parse is as good as none.
    return parse("int a;")?.root.kind === "translation_unit" ? parse : undefined;
  } catch {
    return undefined;
  }
}
