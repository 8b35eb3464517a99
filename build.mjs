/**
 * Makes everything under dist/: the command line, the language server, the VS Code client, the `npm start` demonstration
 * and the bench. Nothing here needs a compiler; the parser's native build stays outside the bundles (see server/parse).
 *
 *   node build.mjs [--production] [--watch] [--outdir DIR] [--only NAME]
 */
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import esbuild from "esbuild";

const root = dirname(fileURLToPath(import.meta.url));
const require = createRequire(import.meta.url);
const production = process.argv.includes("--production");
const watch = process.argv.includes("--watch");
const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const after = (flag) => (process.argv.includes(flag) ? process.argv[process.argv.indexOf(flag) + 1] : undefined);
const dist = resolve(root, after("--outdir") ?? "dist");
const only = after("--only");

const shared = {
  absWorkingDir: root,
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  sourcemap: production ? false : "linked",
  minify: production,
  legalComments: "none",
  logLevel: "warning",
  define: { "process.env.PULSEWRIGHT_VERSION": JSON.stringify(version) },
  alias: { "web-tree-sitter": require.resolve("web-tree-sitter") },
  external: ["vscode", "tree-sitter", "tree-sitter-cpp"],
};

let bundles = [
  {
    entryPoints: ["server/cli/pulsewright.ts"],
    outfile: join(dist, "pulsewright.js"),
    banner: { js: "#!/usr/bin/env node" },
  },
  { entryPoints: ["server/lsp/server.ts"], outfile: join(dist, "server.js") },
  { entryPoints: ["client/extension.ts"], outfile: join(dist, "extension.js") },
  { entryPoints: ["server/cli/start.ts"], outfile: join(dist, "start.js") },
];
if (existsSync(join(root, "test/bench/bench.ts")) && !production) {
  bundles.push({ entryPoints: ["test/bench/bench.ts"], outfile: join(dist, "bench.js") });
}

if (only !== undefined) bundles = bundles.filter((bundle) => bundle.outfile === join(dist, only));

if (production) rmSync(dist, { recursive: true, force: true });
mkdirSync(dist, { recursive: true });
// The WebAssembly build of the parser: used wherever the native one does not load.
copyFileSync(
  join(dirname(require.resolve("web-tree-sitter")), "web-tree-sitter.wasm"),
  join(dist, "web-tree-sitter.wasm"),
);
copyFileSync(
  join(dirname(require.resolve("tree-sitter-cpp/package.json")), "tree-sitter-cpp.wasm"),
  join(dist, "tree-sitter-cpp.wasm"),
);

if (watch) {
  for (const bundle of bundles) await (await esbuild.context({ ...shared, ...bundle })).watch();
} else {
  const results = await Promise.all(bundles.map((bundle) => esbuild.build({ ...shared, ...bundle, metafile: true })));
  writeFileSync(join(dist, "third-party-licences.txt"), licencesOf(results));
  console.error(
    `built ${readdirSync(dist)
      .filter((name) => name.endsWith(".js"))
      .join(", ")}`,
  );
}

/** The licence texts of every package that went into a bundle. */
function licencesOf(results) {
  const packages = new Set(["tree-sitter-cpp"]);
  for (const { metafile } of results) {
    for (const input of Object.keys(metafile.inputs)) {
      const name = /(?:^|\/)node_modules\/((?:@[^/]+\/)?[^/]+)\/(?!.*node_modules)/.exec(input)?.[1];
      if (name !== undefined) packages.add(name);
    }
  }
  return [...packages]
    .sort()
    .map((name) => {
      const folder = join(root, "node_modules", name);
      const file = existsSync(folder) ? readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry)) : undefined;
      return `${name}\n\n${file === undefined ? "see the package" : readFileSync(join(folder, file), "utf8").trim()}\n`;
    })
    .join(`\n${"-".repeat(80)}\n\n`);
}
