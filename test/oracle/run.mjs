/** Launcher of the oracle: bundles run.ts, or for --plans run-plans.ts, and runs it. `node test/oracle/run.mjs --help` says what it takes. */
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
// Plans ask the product itself, which the oracle otherwise sees from outside only.
const plans = process.argv.includes("--plans");
const outfile = join(here, `../.cache/oracle/${plans ? "run-plans" : "run"}.cjs`);
buildSync({
  entryPoints: [join(here, plans ? "plans/run-plans.ts" : "run.ts")],
  outfile,
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  external: ["tree-sitter", "tree-sitter-cpp", "web-tree-sitter"],
  sourcemap: "inline",
  logLevel: "warning",
});
const { status } = spawnSync(process.execPath, [outfile, ...process.argv.slice(2)], {
  stdio: "inherit",
  cwd: join(here, "../.."),
});
process.exit(status ?? 1);
