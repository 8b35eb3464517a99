/** What holds for every sheet in Markdown, whatever the sketch and whatever it is called. */
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { findingsOf } from "../../server/findings/findings.js";
import { sheetsMarkdown } from "../../server/report/markdown.js";
import { cell, code, codeCell, lines, message, oneLine, plain, table } from "../../server/report/markdown-words.js";
import { reportSketch } from "../../server/report/report.js";
import { run } from "../cli/run-main.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { analysedText } from "../runner/analysed-sketch.js";

afterAll(removeFolders);

interface Token {
  readonly type: string;
  readonly content: string;
  readonly children: readonly Token[] | null;
}
interface Reader {
  parse(text: string, environment: object): readonly Token[];
}
const Reader = createRequire(__filename)("markdown-it") as new (preset: string) => Reader;
// GFM's tables and strike-through, with raw HTML allowed so that an unescaped tag is seen.
const reader = new Reader("default");
(reader as unknown as { set(options: object): void }).set({ html: true, linkify: false });

/** The words that a reader sees, and which kinds of marks it found on the way. */
function read(markdown: string): { readonly text: string; readonly kinds: ReadonlySet<string> } {
  const kinds = new Set<string>();
  let text = "";
  for (const block of reader.parse(markdown, {})) {
    if (block.type !== "inline") {
      kinds.add(block.type);
      if (block.type === "html_block" || block.type === "fence" || block.type === "code_block") text += block.content;
    }
    for (const child of block.children ?? []) {
      kinds.add(child.type);
      if (child.type === "text" || child.type === "code_inline" || child.type === "html_inline") text += child.content;
      if (child.type === "softbreak" || child.type === "hardbreak") text += " ";
    }
  }
  return { text, kinds };
}

/** Text as sketches, paths and comments hold it, thick with what Markdown reads as marks. */
const nasty = fc.oneof(
  fc.string({ unit: "grapheme" }),
  fc
    .array(
      fc.constantFrom(
        ..."`*_[]<>()|\\&#!~-+=:;\"'/ \t\n\r0123456789abÄµ名",
        "&amp;",
        "<b>",
        "--",
        "1. ",
        "\u0007",
        "\u202e",
        "\ud800",
      ),
      { maxLength: 24 },
    )
    .map((parts) => parts.join("")),
);

describe("text of others, as Markdown", () => {
  it("in a paragraph says just that text, whatever it is", () => {
    fc.assert(
      fc.property(nasty, (text) => {
        const { text: seen, kinds } = read(`see ${plain(text)} end`);
        expect(seen).toBe(`see ${oneLine(text)} end`);
        expect(
          [...kinds].filter((kind) => !["paragraph_open", "paragraph_close", "text", "text_special"].includes(kind)),
        ).toEqual([]);
      }),
      { numRuns: 2000 },
    );
  });
  it("at the start of a paragraph, list entry or heading", () => {
    fc.assert(
      fc.property(nasty, (text) => {
        const wanted = oneLine(text);
        fc.pre(wanted !== "");
        expect(read(plain(text)).text).toBe(wanted);
        expect(read(`- ${plain(text)}`).text).toBe(wanted);
        expect(read(`# ${plain(text)}x`).text).toBe(`${wanted}x`);
      }),
      { numRuns: 2000 },
    );
  });
  it("as code", () => {
    fc.assert(
      fc.property(nasty, (text) => {
        const wanted = oneLine(text);
        fc.pre(wanted !== "");
        const { text: seen, kinds } = read(`so ${code(text)}.`);
        expect(seen).toBe(`so ${wanted}.`);
        expect(kinds.has("code_inline")).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
  it("in a cell of a table, plain and as code: as many cells as the head has", () => {
    fc.assert(
      fc.property(nasty, nasty, (left, right) => {
        fc.pre(oneLine(left) !== "" && oneLine(right) !== "");
        const made = table(["A", "B", "C"], [[cell(left), codeCell(right), "."]]).join("\n");
        expect(cellsOf(made).map((row) => row.length)).toEqual([3, 3, 3]);
        expect(read(made).text).toBe(`ABC${oneLine(left)}${oneLine(right)}.`);
      }),
      { numRuns: 2000 },
    );
  });
  it("broken over lines, it stays one paragraph with the same words", () => {
    fc.assert(
      fc.property(fc.array(nasty, { minLength: 1, maxLength: 40 }), (parts) => {
        const wanted = oneLine(parts.map(oneLine).join(" "));
        fc.pre(wanted !== "");
        const { text, kinds } = read(lines(plain(parts.map(oneLine).join(" ")), "- ").join("\n"));
        expect(text).toBe(wanted);
        expect([...kinds].filter((kind) => /heading|hr|fence|html|table|blockquote|ordered/.test(kind))).toEqual([]);
      }),
      { numRuns: 1000 },
    );
  });
  it("a message keeps its code, and a lone backtick is a backtick", () => {
    expect(message("C works out `&` before `|`: a_b *c*")).toBe("C works out `&` before `|`: a_b \\*c\\*");
    expect(message("one ` alone")).toBe("one \\` alone");
    expect(read(message("`a` b `c`")).text).toBe("a b c");
  });
});

/** Cells of every table row in the raw text, split as GFM does: at every pipe without a backslash before it. */
function cellsOf(markdown: string): string[][] {
  return markdown
    .split("\n")
    .filter((line) => line.startsWith("|"))
    .map((line) => line.split(/(?<!\\)\|/).slice(1, -1));
}

/** What is wrong with a sheet as Markdown for paper; empty where nothing is. */
function faults(markdown: string): string[] {
  const found: string[] = [];
  let width = 0;
  markdown.split("\n").forEach((line, at, all) => {
    if (!line.startsWith("|")) {
      if (line.length > 140) found.push(`line ${at + 1} has ${line.length} characters`);
      return;
    }
    const cells = cellsOf(line)[0]!.length;
    if (!all[at - 1]?.startsWith("|")) width = cells;
    if (cells !== width) found.push(`line ${at + 1} has ${cells} cells, its head ${width}`);
    if (width > 6) found.push(`line ${at + 1} is a table of ${width} columns`);
  });
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
  const control = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/.exec(markdown);
  if (control !== null) found.push(`a control character at ${control.index}`);
  if (/\b(?:undefined|NaN|Infinity)\b|\[object /.test(markdown)) found.push("a value that is none");
  for (const block of reader.parse(markdown, {})) {
    if (/html_block|code_block/.test(block.type)) found.push(`${block.type}: ${block.content.slice(0, 60)}`);
    for (const child of block.children ?? [])
      if (/html_inline|link_open|image|_s$|s_open/.test(child.type))
        found.push(`${child.type}: ${block.content.slice(0, 80)}`);
  }
  return found;
}

const SKETCHES = join(__dirname, "../oracle/sketches");

describe("a sheet", () => {
  it("of every sketch of the oracle is sound Markdown, and the same twice", async () => {
    const names = readdirSync(SKETCHES).filter((name) => name.endsWith(".ino"));
    expect(names.length).toBeGreaterThan(100);
    const bad: string[] = [];
    for (const name of names) {
      const { analysis } = await analysedText(readFileSync(join(SKETCHES, name), "utf8"), `/srv/someone/${name}`);
      const findings = findingsOf(analysis);
      const made = (): string =>
        sheetsMarkdown(
          [{ reported: reportSketch({ path: `/srv/someone/${name}`, analysis, findings, gaps: [] }), analysis }],
          "1.2.3",
        );
      const sheet = made();
      bad.push(...faults(sheet).map((fault) => `${name}: ${fault}`));
      if (sheet.includes("/srv/") || sheet !== made()) bad.push(`${name}: a path of a machine, or not the same twice`);
    }
    expect(bad).toEqual([]);
  }, 120_000);

  it.each([
    "a|b.ino",
    "`tick`.ino",
    "<b>bold<.ino",
    "[x](y).ino",
    "# 1. - +.ino",
    "new\nline.ino",
    "bell\u0007.ino",
    "\u202egnp.ino",
    "größe µ 名.ino",
    "*_~&amp;!.ino",
    "-.ino",
    " lead and trail .ino",
  ])("of a sketch called %j", async (name) => {
    const folder = folderOf({
      [`odd folder/${name}`]:
        "// wants D3: 490 Hz +-2 %\nvoid setup() { foo(); }\nvoid loop() { analogWrite(3, 90); }\n",
    });
    const { out, complaints, status } = await run("report", "--format", "markdown", join(folder, "odd folder", name));
    expect(complaints).toEqual([]);
    expect(status).toBe(0);
    expect(faults(out)).toEqual([]);
    expect(out).not.toContain(folder);
    expect(read(out.split("\n")[0]!).text).toBe(`Signal sheet: ${oneLine(name)}`);
  });

  it("answers with the same exit status as the others", async () => {
    const wrong = folderOf({
      "f.ino": "// wants D3: 1 kHz +-2 %\nvoid setup() {}\nvoid loop() { analogWrite(3, 90); }\n",
    });
    const status = async (...words: string[]): Promise<number> =>
      (await run("report", "--format", "markdown", ...words)).status;
    expect(await status(join(wrong, "f.ino"))).toBe(1);
    expect(await status(join(wrong, "missing.ino"))).toBe(2);
  });
});
