/** A file that breaks the engine costs that file's answer, never the session. */
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor, until } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const GOOD = `// wants D3: 490 Hz +-2 %
void setup() { pinMode(3, OUTPUT); TCCR2B = 3; }
void loop() { analogWrite(3, 90); delay(5); }
`;

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("faults", { faults: true });
});
afterEach(async () => {
  // A server that survived ends when asked to, and with success.
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

async function withBad(fault: string) {
  const folder = folderOf({ "good/good.ino": GOOD, "bad/bad.ino": `// ${fault}\n${GOOD}` });
  editor = await Editor.start(bundle);
  const bad = await editor.open(join(folder, "bad/bad.ino"));
  const good = await editor.open(join(folder, "good/good.ino"));
  return { bad, good };
}

const codes = async (uri: string) => (await editor.diagnostics(uri)).map((diagnostic) => diagnostic.code);

describe.each(["fault: throw", "fault: slow", "fault: deaf", "fault: memory"])("a sketch with %s", (fault) => {
  it("gets no answer, and says why; another sketch gets its own", { timeout: 90_000 }, async () => {
    const { bad, good } = await withBad(fault);
    expect(await codes(bad)).toEqual([]);
    expect(await codes(good)).toContain("off-frequency");
    expect(await editor.hover(bad, "TCCR2B")).toBeNull();
    const target = await editor.connection.sendRequest<{ trouble: string | null }>("pulsewright/target", { uri: bad });
    expect(target.trouble).toMatch(/failed|longer|no answer/);
    expect(editor.shown).toEqual([]);
  });
});

describe("a sketch that failed twice", () => {
  it("is left alone until it changes, then gets its answer", async () => {
    const { bad } = await withBad("fault: throw");
    await codes(bad);
    await codes(bad);
    const faults = () => editor.logged.filter((line) => line.includes("a fault on demand")).length;
    const before = await until(faults, (count) => count >= 2);
    await editor.hover(bad, "TCCR2B");
    await editor.hover(bad, "TCCR2B");
    expect(faults()).toBe(before);
    await editor.edit(bad, "fault: throw", "all is well");
    expect(await codes(bad)).toContain("off-frequency");
  });
  it("is logged without a word of its text", async () => {
    const { bad } = await withBad("fault: throw");
    await codes(bad);
    const line = await until(
      () => editor.logged.find((each) => each.includes("a fault on demand")),
      (found) => found !== undefined,
    );
    expect(line).toContain("TypeError");
    expect(line).not.toContain("analogWrite");
  });
});
