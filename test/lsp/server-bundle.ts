/** The language server's bundle for tests, made fresh, beside the parser's files; with the faults of `engine-with-faults.ts` where asked. */
import { copyFileSync, mkdirSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { build } from "esbuild";

const root = resolve(__dirname, "..", "..");
const require = createRequire(__filename);

export interface BundleOptions {
  readonly faults?: boolean;
}

/** Path of the bundle. Each caller names its own folder, since test files run side by side. */
export async function serverBundle(name: string, options: BundleOptions = {}): Promise<string> {
  const folder = join(root, "test", ".cache", "lsp", name);
  mkdirSync(folder, { recursive: true });
  const engine = join(root, "server", "analyse.ts");
  const faulty = join(root, "test", "lsp", "engine-with-faults.ts");
  const outfile = join(folder, "server.js");
  await build({
    entryPoints: [join(root, "server", "lsp", "server.ts")],
    outfile,
    bundle: true,
    platform: "node",
    format: "cjs",
    target: "node20",
    logLevel: "error",
    define: { "process.env.PULSEWRIGHT_VERSION": '"test"' },
    alias: { "web-tree-sitter": require.resolve("web-tree-sitter") },
    external: ["tree-sitter", "tree-sitter-cpp"],
    plugins: options.faults
      ? [
          {
            name: "faults",
            setup(building) {
              // A tenth of the patience: these tests wait for every limit.
              building.onLoad({ filter: /server\/limits\.ts$/ }, async ({ path }) => {
                const text = await readFile(path, "utf8");
                const quick = text
                  .replace("editorMilliseconds: 10_000", "editorMilliseconds: 1_000")
                  .replace("deafMilliseconds: 3_000", "deafMilliseconds: 500");
                if (quick === text) throw new Error("the limits have other names now");
                return { contents: quick, loader: "ts" };
              });
              building.onResolve({ filter: /\/analyse\.js$/ }, (asked) =>
                asked.importer === faulty ? { path: engine } : { path: faulty },
              );
            },
          },
        ]
      : [],
  });
  copyFileSync(
    join(dirname(require.resolve("web-tree-sitter")), "web-tree-sitter.wasm"),
    join(folder, "web-tree-sitter.wasm"),
  );
  copyFileSync(
    join(dirname(require.resolve("tree-sitter-cpp/package.json")), "tree-sitter-cpp.wasm"),
    join(folder, "tree-sitter-cpp.wasm"),
  );
  return outfile;
}
