// Writes the printed documents: `npm run docs`. The same functions run read-only in test/docs/documents.test.ts.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const outfile = join(tmpdir(), `pulsewright-docs-${process.pid}.mjs`);
await build({
  entryPoints: [join(root, "test/docs/documents.ts")],
  bundle: true,
  platform: "node",
  format: "esm",
  outfile,
  logLevel: "warning",
});
const { documents } = await import(pathToFileURL(outfile).href);
for (const { path, print } of documents) {
  const file = join(root, path);
  const now = existsSync(file) ? readFileSync(file, "utf8") : "";
  const text = print(now);
  if (text === now) continue;
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
  process.stdout.write(`${path}\n`);
}
