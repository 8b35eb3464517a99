/** The editor and the command line say the same, and what is said does not depend on how the text came about. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type { Diagnostic } from "vscode-languageserver/node";
import type { Report } from "../../shared-model/report.js";
import { run } from "../cli/run-main.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const DEMOS = ["beacon", "greenhouse-fan", "lamp", "pump"];
const demo = (name: string) => readFileSync(join(__dirname, "../../client/demo", name, `${name}.ino`), "utf8");

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("agreement");
});
afterEach(async () => {
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

/** What both doors can be asked for: id, place, words. */
function fromEditor(found: readonly Diagnostic[]): string[] {
  return found.map(({ code, range, message }) => JSON.stringify([code, range.start, range.end, message]));
}

async function fromCommandLine(path: string): Promise<string[]> {
  const [sketch] = (JSON.parse((await run("report", path, "--format", "json")).out) as Report).sketches;
  return sketch!.findings.map(({ id, range, message }) => JSON.stringify([id, range.start, range.end, message]));
}

describe.each(DEMOS)("%s", (name) => {
  it("gets the same findings from both doors, with every line end", async () => {
    for (const lineEnd of ["\n", "\r\n"]) {
      const folder = folderOf({ [`${name}/${name}.ino`]: demo(name).replaceAll("\n", lineEnd) });
      const path = join(folder, name, `${name}.ino`);
      editor = await Editor.start(bundle, { folders: [folder] });
      const found = fromEditor(await editor.diagnostics(await editor.open(path)));
      expect(found.length).toBeGreaterThan(0);
      expect(found.sort()).toEqual((await fromCommandLine(path)).sort());
      await editor.stop();
    }
  });

  it("typed letter by letter ends where it would have begun", { timeout: 60_000 }, async () => {
    const text = demo(name);
    const folder = folderOf({ [`${name}/${name}.ino`]: text, "typed/typed.ino": "" });
    editor = await Editor.start(bundle, { folders: [folder] });
    const whole = await editor.open(join(folder, name, `${name}.ino`));
    const typed = await editor.open(join(folder, "typed/typed.ino"), "//");
    await editor.edit(typed, "//", "");
    const asked: Promise<unknown>[] = [];
    let place = { line: 0, character: 0 };
    for (const [at, letter] of [...text].entries()) {
      await editor.type(typed, place, letter);
      place =
        letter === "\n" ? { line: place.line + 1, character: 0 } : { line: place.line, character: place.character + 1 };
      // Now and then what an editor asks while someone types; nobody waits for the answer before the next letter.
      if (at % 23 === 0) asked.push(editor.diagnostics(typed), editor.hints(typed));
    }
    expect(editor.text(typed)).toBe(text);
    await Promise.all(asked);
    expect(fromEditor(await editor.diagnostics(typed))).toEqual(fromEditor(await editor.diagnostics(whole)));
    expect(await editor.hints(typed)).toEqual(await editor.hints(whole));
  });
});
