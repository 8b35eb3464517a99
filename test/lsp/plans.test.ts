/** Plans in the editor: quick fixes on a want and on findings about it, lenses, and what is said where there is no plan. */
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type { CodeAction, CodeLens } from "vscode-languageserver/node";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor, type EditorOptions, until } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const FAN = `// wants D9: 25 kHz within 24..26 kHz

void setup() {
  TCCR1A = _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}

void loop() {
  analogWrite(9, analogRead(A0) / 4);
  delay(20);
}
`;

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("plans");
});
afterEach(async () => {
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

async function open(text: string, options: EditorOptions = {}): Promise<string> {
  const folder = folderOf({ "fan/fan.ino": text });
  editor = await Editor.start(bundle, { folders: [folder], ...options });
  return editor.open(join(folder, "fan/fan.ino"));
}

const plansAmong = (actions: readonly CodeAction[]) => actions.filter(({ title }) => /^Set (?:a )?timer/.test(title));

describe("quick fixes", () => {
  it("stand on the want's line, change nothing by themselves, and are applied as proved", async () => {
    const uri = await open(FAN);
    const plans = plansAmong(await editor.actions(uri, "within"));
    expect(plans.length).toBeGreaterThan(1);
    expect(plans[0]).toMatchObject({ kind: "quickfix" });
    expect(plans[0]?.title).toMatch(/^Set timer 1 for 25 kHz on D9: .*TOP \d+ \(exact, \d+ steps/);
    expect(plans.every((plan) => plan.isPreferred !== true)).toBe(true);
    expect(plans.every((plan) => plan.edit === undefined)).toBe(true);
    const resolved = await editor.resolve(plans[0]!);
    const after = editor.applied(uri, resolved);
    expect(after).toContain("ICR1 = 639;");
    expect(after).toContain("OCR1A = map(analogRead(A0) / 4, 0, 255, 0, 639);");
    expect(after).not.toContain("WGM10");
    await editor.edit(uri, FAN, after);
    expect((await editor.diagnostics(uri)).map(({ code }) => code)).not.toContain("off-frequency");
  });

  it("stand on findings about the want, with the finding", async () => {
    const uri = await open(FAN);
    const found = (await editor.diagnostics(uri)).find(({ code }) => code === "off-frequency");
    const word = found!.range.start.line === 0 ? "wants" : "TCCR1B = ";
    const [plan] = plansAmong(await editor.actions(uri, word));
    expect(plan?.diagnostics?.map(({ code }) => code)).toEqual(["off-frequency"]);
  });

  it("come with their edits for clients that cannot ask later", async () => {
    const uri = await open(FAN, { resolveActions: false });
    const [plan] = plansAmong(await editor.actions(uri, "within"));
    expect(editor.applied(uri, plan!)).toContain("ICR1 = 639;");
  });

  it("say why there is none, and which pins would do", async () => {
    const uri = await open("// wants D7: 1 kHz\nvoid setup() {}\nvoid loop() {}\n");
    const [none, ...more] = plansAmong(await editor.actions(uri, "1 kHz"));
    expect(more).toEqual([]);
    expect(none?.disabled?.reason).toMatch(/no timer drives D7; .*D9/);
  });

  it("are not forced on a want that is met", async () => {
    const uri = await open("// wants D9: 490 Hz +-1 %\nvoid setup() {}\nvoid loop() { analogWrite(9, 60); }\n");
    const automatic = await editor.connection.sendRequest<readonly CodeAction[]>("textDocument/codeAction", {
      textDocument: { uri },
      range: editor.rangeOf(uri, "490"),
      context: { diagnostics: [], triggerKind: 2 },
    });
    expect(plansAmong(automatic ?? [])).toEqual([]);
  });

  it("are withdrawn where the text has changed since", async () => {
    const uri = await open(FAN);
    const [plan] = plansAmong(await editor.actions(uri, "within"));
    await editor.edit(uri, "delay(20)", "delay(30)");
    await expect(editor.resolve(plan!)).rejects.toThrow(/changed/);
  });
});

describe("lenses", () => {
  const lenses = (uri: string) =>
    editor.connection.sendRequest<CodeLens[]>("textDocument/codeLens", { textDocument: { uri } });

  it("are off unless asked for", async () => {
    expect(await lenses(await open(FAN))).toEqual([]);
  });

  it("say the verdict and the best plan, and apply it", async () => {
    const uri = await open(FAN, { settings: { lens: { enable: true } } });
    const [verdict, best] = await lenses(uri);
    expect(verdict?.command?.title).toMatch(/^not met: .*Hz is outside/);
    expect(best?.command).toBeUndefined();
    const resolved = await editor.connection.sendRequest<CodeLens>("codeLens/resolve", best);
    expect(resolved.command?.title).toMatch(/^Set timer 1 for 25 kHz on D9/);
    const edits: unknown[] = [];
    editor.connection.onRequest("workspace/applyEdit", (params) => {
      edits.push(params);
      return { applied: true };
    });
    await editor.connection.sendRequest("workspace/executeCommand", {
      command: resolved.command?.command,
      arguments: resolved.command?.arguments,
    });
    await until(
      () => edits.length,
      (count) => count === 1,
    );
    expect(JSON.stringify(edits[0])).toContain("ICR1 = 639;");
  });

  it("do not go while somebody types", async () => {
    const uri = await open(FAN, { settings: { lens: { enable: true } } });
    const before = (await lenses(uri)).length;
    expect(before).toBe(2);
    for (const letter of "if (x") {
      await editor.edit(uri, "  delay(20);", `  ${letter}delay(20);`.replace(/^ {2}(.)delay/, "  $1 delay"));
      expect((await lenses(uri)).length).toBe(before);
      await editor.edit(uri, `  ${letter} delay(20);`, "  delay(20);");
    }
    const asked = [lenses(uri), editor.edit(uri, "delay(20)", "delay(2"), lenses(uri)] as const;
    expect((await asked[0]).length).toBe(before);
    expect((await asked[2]).length).toBe(before);
  });
});
