/** Launcher of the oracle: bundles run.ts and runs it. `node test/oracle/run.mjs --help` says what it takes. */
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const outfile = join(here, "../.cache/oracle/run.cjs");
buildSync({
  entryPoints: [join(here, "run.ts")],
  outfile,
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  sourcemap: "inline",
  logLevel: "warning",
});
const { status } = spawnSync(process.execPath, [outfile, ...process.argv.slice(2)], {
  stdio: "inherit",
  cwd: join(here, "../.."),
});
process.exit(status ?? 1);
