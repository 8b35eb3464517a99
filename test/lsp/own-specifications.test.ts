/** Named specifications out of the editor's settings: seen by every answer, and live. */
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import type { CompletionItem } from "vscode-languageserver/node";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const SKETCH = "// wants D9: vent\n// wants D10: \nvoid setup() {}\nvoid loop() { analogWrite(9, 60); }\n";

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("own-specifications");
});
afterEach(async () => {
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

it("are followed while they change", async () => {
  const folder = folderOf({ "vent/vent.ino": SKETCH });
  const set = async (specifications: unknown) => {
    editor.settings = { specifications };
    await editor.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
  };
  const said = async () => (await editor.diagnostics(uri)).map(({ code, message }) => `${code}: ${message}`);
  editor = await Editor.start(bundle, { folders: [folder], settings: { specifications: { vent: "490 Hz +-2 %" } } });
  const uri = await editor.open(join(folder, "vent/vent.ino"));
  const atEmptyWant = (found: readonly string[]) => found.filter((each) => !each.includes("a frequency such as"));
  expect(atEmptyWant(await said())).toEqual([]);
  const hover = await editor.hover(uri, "vent");
  const text = JSON.stringify(hover);
  expect(text).toContain("**D9: met**: 490.196 Hz");
  expect(text).toContain("vent: vent (the workspace's own settings)");

  await set({ vent: "25 kHz" });
  expect(atEmptyWant(await said())[0]).toContain("off-frequency: D9");

  await set({ vent: "25 kHzz" });
  expect((await said())[0]).toContain("unread-comment");
  expect((await said())[0]).toContain("vent stands in the settings, but it is not understood from column 4");

  await set({ lamp: { wants: "1 kHz", name: "reading lamp" } });
  expect((await said())[0]).toContain("unread-comment");
  const items = await editor.connection.sendRequest<CompletionItem[]>("textDocument/completion", {
    textDocument: { uri },
    position: { line: 1, character: 14 },
  });
  const lamp = items.find(({ label }) => label === "lamp");
  expect(lamp?.detail).toBe("reading lamp");
});
