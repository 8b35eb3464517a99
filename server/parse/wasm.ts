/** tree-sitter's WebAssembly build: runs everywhere, loads a little slower. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { createTables } from "./grammar-tables.js";
import { plainTree } from "./plain-tree.js";
import type { Found } from "./walk.js";

/**
 * `directories` are searched in order for the two .wasm files, each directly (beside a bundle) and under
 * `node_modules`. Throws where they are not found.
 */
export async function loadWasm(
  directories: readonly string[],
  milliseconds: number,
): Promise<(text: string) => Found | null> {
  const { Parser, Language } = await import("web-tree-sitter");
  await Parser.init({ locateFile: () => find(directories, "web-tree-sitter") });
  const parser = new Parser();
  parser.setLanguage(await Language.load(find(directories, "tree-sitter-cpp")));
  const tables = createTables();
  return (text) => {
    const started = performance.now();
    const tree = parser.parse(text, null, { progressCallback: () => performance.now() - started > milliseconds });
    if (!tree) {
      parser.reset();
      return null;
    }
    const cursor = tree.walk();
    try {
      return plainTree(cursor, tables, text, tree.rootNode.hasError);
    } finally {
      cursor.delete();
      tree.delete();
    }
  };
}

function find(directories: readonly string[], name: string): string {
  for (const directory of directories) {
    for (const path of [join(directory, `${name}.wasm`), join(directory, "node_modules", name, `${name}.wasm`)]) {
      if (existsSync(path)) return path;
    }
  }
  throw new Error(`${name}.wasm was not found beside the program or under node_modules`);
}
