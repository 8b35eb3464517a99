/** Every bare number of a file made named bits at one stroke; findings switched off and turned up by the settings. */
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const SKETCH = `void setup() {
  pinMode(3, OUTPUT);
  pinMode(9, OUTPUT);
  TCCR2B = (TCCR2B & 0xF8) | 0x03;
  TCCR1A = 0x82;
  TCCR1B = 0x19;
  ICR1 = 639;
  OCR1A = 100;
}
void loop() { analogWrite(3, 40); }
`;

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("fix-all");
});
afterEach(async () => {
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

async function open(settings: object = {}): Promise<string> {
  const folder = folderOf({ "vent/vent.ino": SKETCH });
  editor = await Editor.start(bundle, { folders: [folder], settings });
  return editor.open(join(folder, "vent/vent.ino"));
}

const codes = async (uri: string) => (await editor.diagnostics(uri)).map(({ code, severity }) => `${code} ${severity}`);

it("bare numbers are named all together, and the registers stay as they were", async () => {
  const uri = await open();
  expect(await codes(uri)).toEqual(["bare-number 3", "bare-number 3", "bare-number 3"]);
  const all = (await editor.actions(uri, "TCCR1A = 0x82")).find(
    (action) => action.title === 'Fix all 3 "bare-number" in this file',
  );
  const fixed = editor.applied(uri, await editor.resolve(all!));
  expect(fixed).toContain("TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);");
  expect(fixed).not.toMatch(/TCCR\w+ = .*0x/);
  await editor.edit(uri, editor.text(uri), fixed);
  expect(await codes(uri)).toEqual([]);
});

it("the file's fix-all does the same", async () => {
  const uri = await open();
  await codes(uri);
  const [all] = await editor.actions(uri, "void setup", ["source.fixAll"]);
  expect(editor.applied(uri, await editor.resolve(all!))).not.toMatch(/TCCR\w+ = .*0x/);
});

it("a finding is off, or graver, by its setting", async () => {
  const uri = await open({ findings: { severity: { "bare-number": "error" } } });
  expect(await codes(uri)).toEqual(["bare-number 1", "bare-number 1", "bare-number 1"]);
  editor.settings = { findings: { severity: { "bare-number": "off" } } };
  await editor.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
  expect(await codes(uri)).toEqual([]);
});
