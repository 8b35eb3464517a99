/** Input that no one means to write: the session answers, stays alive, and does its work for the next file. */
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { badSketches } from "../files/bad-sketches.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const GOOD =
  "// wants D3: 1 kHz\nvoid setup() { pinMode(3, OUTPUT); }\nvoid loop() { analogWrite(3, 90); delay(5); }\n";

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("bad-input");
});
afterEach(async () => {
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

describe.each(badSketches)("$name", ({ files, main }) => {
  it("leaves the session alive", { timeout: 60_000 }, async () => {
    const folder = folderOf({ ...files, "good/good.ino": GOOD });
    editor = await Editor.start(bundle, { folders: [folder] });
    const text = files[main]!;
    // What an editor would show: the bytes as text, whatever they are.
    const shown = typeof text === "string" ? text : new TextDecoder().decode(text);
    const bad = await editor.open(join(folder, main), shown);
    await editor.diagnostics(bad);
    await editor.hints(bad);
    await editor.connection.sendRequest("textDocument/hover", {
      textDocument: { uri: bad },
      position: { line: 0, character: 3 },
    });
    await editor.connection.sendRequest("textDocument/codeAction", {
      textDocument: { uri: bad },
      range: { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } },
      context: { diagnostics: [] },
    });
    const good = await editor.open(join(folder, "good/good.ino"));
    expect((await editor.diagnostics(good)).map((each) => each.code)).toContain("off-frequency");
  });
});

describe("positions that are not in the document", () => {
  it("are answered", async () => {
    const folder = folderOf({ "good/good.ino": GOOD });
    editor = await Editor.start(bundle);
    const uri = await editor.open(join(folder, "good/good.ino"));
    for (const position of [
      { line: 99, character: 0 },
      { line: 0, character: 9999 },
    ]) {
      expect(await editor.connection.sendRequest("textDocument/hover", { textDocument: { uri }, position })).toBeNull();
      await editor.connection.sendRequest("textDocument/completion", { textDocument: { uri }, position });
    }
  });
  it("and documents that were never opened too", async () => {
    editor = await Editor.start(bundle);
    const uri = "file:///nowhere/at/all.ino";
    expect(await editor.diagnostics(uri)).toEqual([]);
    expect(
      await editor.connection.sendRequest("textDocument/hover", {
        textDocument: { uri },
        position: { line: 0, character: 0 },
      }),
    ).toBeNull();
  });
});
