/**
 * Makes the .vsix (one for every platform) after looking at what would go into it: the native prebuilds and the WebAssembly
 * builds must be aboard, the C sources they were generated from must not. Run by `npm run package`, after the build.
 */
import { execFileSync } from "node:child_process";
import { readFileSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const { name, version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const vsce = join(root, "node_modules", "@vscode", "vsce", "vsce");
const file = join(root, `${name}-${version}.vsix`);

const listed = execFileSync(process.execPath, [vsce, "ls"], { cwd: root, encoding: "utf8" })
  .split("\n")
  .filter(Boolean);
const platforms = ["linux-x64", "linux-arm64", "darwin-x64", "darwin-arm64", "win32-x64", "win32-arm64"];
const needed = [
  "dist/extension.js",
  "dist/server.js",
  "dist/pulsewright.js",
  "dist/web-tree-sitter.wasm",
  "dist/tree-sitter-cpp.wasm",
  "dist/third-party-licences.txt",
  "client/media/icon.png",
  "node_modules/node-gyp-build/index.js",
  ...platforms.map((platform) => `node_modules/tree-sitter/prebuilds/${platform}/tree-sitter.node`),
  ...platforms.map((platform) => `node_modules/tree-sitter-cpp/prebuilds/${platform}/tree-sitter-cpp.node`),
];
const wrong = [
  ...needed.filter((path) => !listed.includes(path)).map((path) => `missing: ${path}`),
  ...listed.filter((path) => /\.(?:ts|map|c|cc|h|gyp)$|^test\//.test(path)).map((path) => `does not belong: ${path}`),
];
if (wrong.length > 0) {
  console.error(wrong.join("\n"));
  process.exit(1);
}

execFileSync(
  process.execPath,
  [vsce, "package", "--out", file, "--allow-missing-repository", "--no-rewrite-relative-links"],
  {
    cwd: root,
    stdio: ["ignore", "ignore", "inherit"],
  },
);
console.log(`${name}-${version}.vsix: ${listed.length} files, ${(statSync(file).size / 1e6).toFixed(1)} MB`);
