/**
 * The rules of the house that a machine can hold: who may import whom, how files are named and opened, how long they get, and
 * what stands in none of them. Each rule is tried on a made-up file as well, so that a rule that has stopped looking is found.
 */
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join, posix, relative } from "node:path";
import { describe, expect, it } from "vitest";

interface File {
  /** From the project's root, with `/`. */
  readonly path: string;
  readonly text: string;
}

interface Import {
  readonly from: string;
  /** A path of ours with `.ts`, or a package. */
  readonly to: string;
}

const root = join(__dirname, "..");
const PRODUCT = ["shared-model", "server", "client"];
const NOT_OURS = new Set(["node_modules", "dist", ".git", ".cache", "out"]);

/**
 * The parts in the order in which a sketch flows through them, each with the parts it may import. A part may only name parts
 * above it, so that no cycle can arise; within one part files may know each other as they like.
 */
const PARTS: readonly (readonly [part: string, mayImport: readonly string[]])[] = [
  ["shared-model", []],
  ["server/limits.ts", []],
  ["server/preprocess", ["shared-model"]],
  ["server/parse", []],
  // Numbers as the chip computes them: a floor of its own, so that constants are folded and executed by one arithmetic.
  ["server/execute/domain", []],
  ["server/program", ["shared-model", "server/preprocess", "server/parse", "server/execute/domain"]],
  ["server/execute", ["shared-model", "server/limits.ts", "server/execute/domain", "server/program"]],
  ["server/analysis.ts", ["shared-model", "server/preprocess"]],
  ["server/conclude", ["shared-model", "server/preprocess", "server/program", "server/execute", "server/analysis.ts"]],
  [
    "server/analyse.ts",
    [
      "shared-model",
      "server/limits.ts",
      "server/preprocess",
      "server/parse",
      "server/program",
      "server/execute",
      "server/analysis.ts",
      "server/conclude",
    ],
  ],
  ["server/edits", ["shared-model", "server/preprocess"]],
  // Questions that several readers ask of a finished analysis, and the words in which numbers are shown.
  ["server/look", ["shared-model", "server/analysis.ts"]],
  // Ways to meet a want, as edits that are proved by analysing again.
  [
    "server/plans",
    [
      "shared-model",
      "server/limits.ts",
      "server/preprocess",
      "server/analysis.ts",
      "server/analyse.ts",
      "server/edits",
      "server/look",
    ],
  ],
  // Bench readings against the prediction, and what register states would explain one that does not fit.
  ["server/readings", ["shared-model", "server/analysis.ts", "server/look"]],
  [
    "server/findings",
    [
      "shared-model",
      "server/limits.ts",
      "server/preprocess",
      "server/analysis.ts",
      "server/analyse.ts",
      "server/edits",
      "server/look",
      "server/plans",
      "server/readings",
    ],
  ],
  [
    "server/features",
    [
      "shared-model",
      "server/analysis.ts",
      "server/edits",
      "server/look",
      "server/plans",
      "server/readings",
      "server/findings",
    ],
  ],
  [
    "server/report",
    [
      "shared-model",
      "server/preprocess",
      "server/analysis.ts",
      "server/edits",
      "server/look",
      "server/readings",
      "server/findings",
      "server/features",
    ],
  ],
  ["server/files", ["shared-model", "server/preprocess"]],
  [
    "server/cli",
    [
      "shared-model",
      "server/limits.ts",
      "server/preprocess",
      "server/parse",
      "server/analysis.ts",
      "server/analyse.ts",
      "server/edits",
      "server/files",
      "server/look",
      "server/plans",
      "server/readings",
      "server/findings",
      "server/report",
    ],
  ],
  [
    "server/lsp",
    [
      "shared-model",
      "server/limits.ts",
      "server/preprocess",
      "server/parse",
      "server/analysis.ts",
      "server/analyse.ts",
      "server/edits",
      "server/files",
      "server/look",
      "server/plans",
      "server/readings",
      "server/findings",
      "server/features",
      "server/report",
    ],
  ],
  ["client", ["shared-model"]],
];

/** The packages that each part may use; `node:*` is every module of Node. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  // `web-tree-sitter` and the way to its files are found at run time: see server/parse/native.ts and wasm.ts.
  "server/parse": ["tree-sitter", "tree-sitter-cpp", "web-tree-sitter", "node:fs", "node:module", "node:path"],
  "server/files": ["node:*", "yaml"],
  "server/cli": ["node:*"],
  "server/lsp": ["node:*", "vscode-languageserver/node", "vscode-languageserver-textdocument"],
  client: ["node:*", "vscode", "vscode-languageclient/node"],
};

const MOST_LINES = 400;

const DULL_FOLDERS = /(^|\/)(utils?|helpers?|common|misc)(\/|$)/;
const KEBAB_FILE = /^[a-z0-9]+(-[a-z0-9]+)*(\.oracle)?(\.test)?\.ts$/;

describe("the house", () => {
  const product = PRODUCT.flatMap((folder) => filesUnder(folder)).filter((file) => file.path.endsWith(".ts"));
  const tests = filesUnder("test").filter((file) => file.path.endsWith(".ts"));
  const all = [...product, ...tests, ...filesUnder("docs"), ...filesUnder(".ci"), ...filesBeside()];

  it("has been found", () => {
    expect(product.length).toBeGreaterThan(200);
    expect(tests.length).toBeGreaterThan(50);
  });

  it("imports in one direction only", () => expect(product.flatMap(wrongImports)).toEqual([]));

  it("lists its parts in an order that allows no cycle", () => {
    const above = new Set<string>();
    for (const [part, mayImport] of PARTS) {
      expect(mayImport.filter((other) => !above.has(other))).toEqual([]);
      above.add(part);
      expect(existsSync(join(root, part))).toBe(true);
    }
  });

  it("opens every file with what it is for", () => expect(product.flatMap(unopened)).toEqual([]));

  it("keeps files short", () => expect(product.flatMap(tooLong)).toEqual([]));

  it("names files and folders well", () => expect([...product, ...tests].flatMap(badName)).toEqual([]));

  it("has no test that is switched off, alone, or cannot fail", () => expect(tests.flatMap(deafTests)).toEqual([]));

  it("names no machine, no registry and nothing that belongs to others", () =>
    expect(all.flatMap(foreignWords)).toEqual([]));
});

describe("each rule finds what it is for", () => {
  const made = (path: string, ...lines: string[]): File => ({ path, text: lines.join("\n") });
  const head = "/** What it is for. */";

  it.each([
    ["a stage that looks ahead", "server/program/a.ts", 'import { x } from "../execute/run.js";'],
    ["a type of a later stage", "server/preprocess/a.ts", 'import type { X } from "../program/ir.js";'],
    ["a type asked for in place", "server/preprocess/a.ts", 'type X = import("../program/ir.js").Program;'],
    ["a list over several lines", "shared-model/a.ts", 'import {\n  x,\n} from "../server/limits.js";'],
    ["handing on", "server/findings/a.ts", 'export * from "../lsp/guard.js";'],
    ["a file read by a stage", "server/execute/a.ts", 'import { readFileSync } from "node:fs";'],
    ["the protocol in a feature", "server/features/a.ts", 'import { Hover } from "vscode-languageserver/node";'],
    ["the parser outside its seam", "server/program/a.ts", 'import Parser from "tree-sitter";'],
    ["the server in the client", "client/a.ts", 'import { analyse } from "../server/analyse.js";'],
    ["the domains that know the executor", "server/execute/domain/a.ts", 'import { Run } from "../run.js";'],
    ["a folder that nobody has placed", "server/new-part/a.ts", 'import { x } from "../limits.js";'],
  ])("%s", (_, path, line) => expect(wrongImports(made(path, head, line))).toHaveLength(1));

  it("an import that is allowed", () =>
    expect(wrongImports(made("server/execute/core/a.ts", 'import { x } from "../../program/ir.js";'))).toEqual([]));

  it("no opening", () => expect(unopened(made("server/a.ts", "export const a = 1;"))).toHaveLength(1));

  it("a long file", () => {
    expect(tooLong(made("server/a.ts", "\n".repeat(MOST_LINES)))).toEqual([]);
    expect(tooLong(made("server/a.ts", "\n".repeat(MOST_LINES + 1)))).toHaveLength(1);
  });

  it.each(["server/utils/a.ts", "server/lsp/helpers.ts", "server/lsp/codeActions.ts", "client/Extension.ts"])(
    "the name %s",
    (path) => expect(badName(made(path, head))).toHaveLength(1),
  );

  it.each([`it.${"only"}("a", f);`, `describe.${"skip"}("a", f);`, `expect(${"true"}).toBe(true);`])("%s", (line) =>
    expect(deafTests(made("test/a.test.ts", line))).toHaveLength(1),
  );

  it.each([
    ["/ho", "me/someone/sketch"],
    ["C:\\Us", "ers\\someone"],
    ["https://registry.", "npmjs.org/x"],
    ["a tran", "script"],
    ["source ", "recording"],
  ])("%s%s", (one, other) => expect(foreignWords(made("docs/a.md", one + other))).toHaveLength(1));

  it("an address in a lock file", () =>
    expect(foreignWords(made("test/editor/package-lock.json", '"resolved": "https://a.example/x"'))).toHaveLength(1));
});

function filesUnder(folder: string): File[] {
  const found: File[] = [];
  for (const name of readdirSync(join(root, folder)).sort()) {
    if (NOT_OURS.has(name)) continue;
    const path = posix.join(folder, name);
    if (statSync(join(root, path)).isDirectory()) found.push(...filesUnder(path));
    else if (isText(name)) found.push({ path, text: readFileSync(join(root, path), "utf8") });
  }
  return found;
}

/** The files of the root itself. */
function filesBeside(): File[] {
  return readdirSync(root)
    .filter((name) => statSync(join(root, name)).isFile() && isText(name))
    .map((name) => ({ path: relative(root, join(root, name)), text: readFileSync(join(root, name), "utf8") }));
}

function isText(name: string): boolean {
  return !/\.(png|svg|vsix|wasm|bin|hex|elf)$/.test(name) && name !== ".DS_Store";
}

function partOf(path: string): string | undefined {
  let best: string | undefined;
  for (const [part] of PARTS) {
    if ((path === part || path.startsWith(`${part}/`)) && part.length > (best?.length ?? 0)) best = part;
  }
  return best;
}

const IMPORTS =
  /^(?:import|export)(?: type)?(?:[^;"]*? from)? ?"(?<named>[^"]+)"|\bimport\("(?<inPlace>[^"]+)"\)|\bload\("(?<loaded>[^"]+)"\)/gm;

function importsOf({ path, text }: File): Import[] {
  return [...text.matchAll(IMPORTS)].map(({ groups }) => {
    const spec = groups?.["named"] ?? groups?.["inPlace"] ?? groups?.["loaded"] ?? "";
    const to = spec.startsWith(".") ? posix.join(posix.dirname(path), spec).replace(/\.js$/, ".ts") : spec;
    return { from: path, to };
  });
}

function wrongImports(file: File): string[] {
  const part = partOf(file.path);
  const allowed = PARTS.find(([name]) => name === part)?.[1];
  if (part === undefined || allowed === undefined)
    return [`${file.path}: belongs to no part; say in PARTS where it stands`];
  return importsOf(file).flatMap(({ from, to }) => {
    const other = partOf(to);
    const line = `${from} -> ${to}`;
    if (other === undefined) return mayUse(part, to) ? [] : [line];
    if (other === part || allowed.includes(other)) return [];
    return [line];
  });
}

function mayUse(part: string, name: string): boolean {
  const packages = PACKAGES[part] ?? [];
  return packages.includes(name) || (name.startsWith("node:") && packages.includes("node:*"));
}

function unopened({ path, text }: File): string[] {
  return /^(#!.*\n)?\/(\*\*|\/)/.test(text) ? [] : [`${path}: does not say what it is for`];
}

function linesOf({ text }: File): number {
  return text.split("\n").length - (text.endsWith("\n") ? 1 : 0);
}

function tooLong(file: File): string[] {
  const lines = linesOf(file);
  return lines > MOST_LINES ? [`${file.path}: ${lines} lines, ${MOST_LINES} are the most; split it by reason`] : [];
}

function badName({ path }: File): string[] {
  const name = posix.basename(path);
  const good = KEBAB_FILE.test(name) && !DULL_FOLDERS.test(path.replace(/(\.oracle)?(\.test)?\.ts$/, ""));
  return good ? [] : [`${path}: this name`];
}

function deafTests({ path, text }: File): string[] {
  return found(path, text, [/\b(it|test|describe)\.(skip|only|todo)\b/, /expect\((true)\)/]);
}

/** Written in two halves, so that a search for them does not find this file. */
const FOREIGN = [
  `/ho${"me"}/[a-z]`,
  `/Us${"ers"}/[A-Za-z]`,
  `/ro${"ot"}/`,
  `[A-Z]:\\\\+Us${"ers"}\\\\`,
  `registry\\.(npm${"js"}|yarn${"pkg"})`,
  `\\btran${"script"}\\b`,
  `\\bseed doc${"ument"}\\b`,
  `\\bsource rec${"ording"}\\b`,
  `\\bEV${"SE"}\\b`,
].map((source) => new RegExp(source, "i"));

function foreignWords({ path, text }: File): string[] {
  const lock = path.endsWith("package-lock.json") ? [/"resolved": "http/] : [];
  return found(path, text, [...FOREIGN, ...lock]);
}

function found(path: string, text: string, patterns: readonly RegExp[]): string[] {
  return patterns.flatMap((pattern) => {
    const at = text.search(pattern);
    if (at < 0) return [];
    return [`${path}:${text.slice(0, at).split("\n").length}: ${pattern.exec(text)![0]}`];
  });
}
