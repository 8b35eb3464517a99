/**
 * The packaging suite: makes the .vsix, takes it apart in an empty place, and works with what is inside, with the native
 * parser and, where that is taken away, with its WebAssembly build. Ends with `N passed, N failed`.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { unzip } from "./unzip.mjs";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const place = mkdtempSync(join(tmpdir(), "pulsewright-package-"));
let passed = 0;
let failed = 0;

function check(name, work) {
  try {
    work();
    passed++;
    console.log(`ok      ${name}`);
  } catch (error) {
    failed++;
    console.log(`FAILED  ${name}\n        ${error instanceof Error ? error.message : error}`);
  }
}

function expect(fact, message) {
  if (!fact) throw new Error(message);
}

function report() {
  const command = join(place, "extension", "dist", "pulsewright.js");
  const demo = join(place, "extension", "client", "demo", "lamp", "lamp.ino");
  const run = spawnSync(process.execPath, [command, "report", demo, "--format", "json"], {
    cwd: place,
    encoding: "utf8",
  });
  expect(run.status === 1, `exit status ${run.status}: ${run.stderr}`);
  return JSON.parse(run.stdout);
}

try {
  check("npm run package makes a .vsix", () => {
    execFileSync("npm", ["run", "package"], {
      cwd: root,
      stdio: ["ignore", "inherit", "inherit"],
      shell: process.platform === "win32",
    });
  });
  const file = readdirSync(root).find((name) => name.endsWith(".vsix"));
  let names = [];
  check("the .vsix can be taken apart", () => {
    names = unzip(join(root, file), place);
    expect(names.includes("extension/package.json"), "no extension/package.json");
  });
  check("no source, test or machine path is inside", () => {
    expect(!names.some((name) => /\.(?:ts|map|c|h)$/.test(name)), "sources are inside");
    for (const name of names.filter((each) => /dist\/\w+\.js$/.test(each))) {
      expect(!readFileSync(join(place, name), "utf8").includes(root), `${name} holds a path of this machine`);
    }
  });
  let native;
  check("the packaged command reports a demo sketch", () => {
    native = report();
    expect(
      native.sketches[0].findings.some((finding) => finding.id === "and-before-or"),
      "the demo's slip is not found",
    );
  });
  check("without the native parser the WebAssembly build gives the same report", () => {
    rmSync(join(place, "extension", "node_modules"), { recursive: true });
    expect(JSON.stringify(report()) === JSON.stringify(native), "the reports differ");
  });
} finally {
  rmSync(place, { recursive: true, force: true });
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
