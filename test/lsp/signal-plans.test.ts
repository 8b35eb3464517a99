/** "Plan a Signal" over the protocol: pins, a want while it is typed, its plans, and the edit of one, applied and asked for again. */
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type { FileEdit, PinChoice, PlanChoices, PlannedEdit, UnreadWant } from "../../shared-model/protocol.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const VENT = `// for pulsewright: board nano
const byte vent = 3;

void setup() {
  pinMode(vent, OUTPUT);
}

void loop() {
  analogWrite(vent, analogRead(A0) / 4);
}
`;

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("signal-plans");
});
afterEach(async () => {
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

async function open(text = VENT): Promise<string> {
  const folder = folderOf({ "vent/vent.ino": text });
  editor = await Editor.start(bundle, { folders: [folder] });
  return editor.open(join(folder, "vent/vent.ino"));
}

const ask = <T>(method: string, params: object) => editor.connection.sendRequest<T>(`pulsewright/${method}`, params);

function applied(text: string, edits: readonly FileEdit[]): string {
  const lines = text.split("\n");
  const offset = ({ line, character }: { line: number; character: number }) =>
    lines.slice(0, line).reduce((sum, each) => sum + each.length + 1, 0) + character;
  return [...edits]
    .map((edit, index) => ({ edit, index, start: offset(edit.range.start), end: offset(edit.range.end) }))
    .sort((a, b) => b.start - a.start || b.index - a.index)
    .reduce((made, { edit, start, end }) => made.slice(0, start) + edit.newText + made.slice(end), text);
}

describe("a signal is planned", () => {
  it("on one of the pins that a timer drives, with what they do today", async () => {
    const uri = await open();
    const pins = await ask<PinChoice[]>("pins", { uri });
    expect(pins.map(({ pin }) => pin)).toEqual(["D3", "D5", "D6", "D9", "D10", "D11"]);
    expect(pins[0]).toEqual({
      pin: "D3",
      says: "OC2B, timer 2",
      today: "490.196 Hz or constant low or constant high",
    });
  });

  it("a want is read while it is typed", async () => {
    const uri = await open();
    const read = (want: string) => ask<UnreadWant | null>("readWant", { uri, pin: "D3", want });
    expect(await read("1 kHz within 980..1020 Hz")).toBeNull();
    expect(await read("fan-4wire")).toBeNull();
    expect(await read("1 kz")).toMatchObject({ column: 2, expected: "a unit such as Hz, kHz or MHz" });
    expect(await read("as fast as it can")).toMatchObject({ column: 0 });
  });

  it("the edit of the best plan brings the want into the sketch and meets it", async () => {
    const uri = await open();
    const asked = { uri, pin: "D3", want: "1 kHz within 980..1020 Hz" };
    const { plans, unread, why } = await ask<PlanChoices>("plans", asked);
    expect({ unread, why }).toEqual({ unread: null, why: null });
    expect(plans[0]?.title).toContain("TOP 250");
    expect(plans[0]?.costs).toContain("D11");
    const edit = await ask<PlannedEdit>("planEdit", { ...asked, title: plans[0]!.title, writesWant: true });
    if ("refused" in edit) throw new Error(edit.refused);
    const text = applied(VENT, edit.edits);
    expect(text.split("\n")[1]).toBe("// wants D3: 1 kHz within 980..1020 Hz");
    await editor.edit(uri, VENT, text);
    expect((await editor.diagnostics(uri)).filter((each) => each.severity === 1)).toEqual([]);
    expect(await ask<string>("sheet", { uri })).toMatch(/met\s+D3\s+1 kHz within 980\.\.1020 Hz/);
  });

  it("an unreadable want, one that nothing meets, and a plan that is gone say so", async () => {
    const uri = await open();
    expect((await ask<PlanChoices>("plans", { uri, pin: "D3", want: "1 kz" })).unread?.column).toBe(2);
    const none = await ask<PlanChoices>("plans", { uri, pin: "D3", want: "50 Hz +-0.1 %" });
    expect(none.plans).toEqual([]);
    expect(none.why).toMatch(/D9/);
    const gone = { uri, pin: "D3", want: "1 kHz", title: "Set timer 7", writesWant: true };
    expect(await ask("planEdit", gone)).toHaveProperty("refused");
  });

  it("there is nothing to plan where there is no sketch", async () => {
    const folder = folderOf({ "desk/main.cpp": "#include <vector>\nint main() {}\n" });
    editor = await Editor.start(bundle, { folders: [folder] });
    const uri = await editor.open(join(folder, "desk/main.cpp"));
    expect(await ask("pins", { uri })).toBeNull();
    expect(await ask("plans", { uri, pin: "D3", want: "1 kHz" })).toBeNull();
  });
});
