/** `npm run docs`: writes the printed documents. */
import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const outfile = join(here, "..", ".cache", "docs", "print.cjs");
buildSync({
  entryPoints: [join(here, "print.ts")],
  outfile,
  bundle: true,
  platform: "node",
  format: "cjs",
  logLevel: "warning",
});
for (const { path, text } of createRequire(import.meta.url)(outfile).printed) {
  writeFileSync(join(here, "..", "..", path), text);
  console.log(path);
}
