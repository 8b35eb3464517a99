/** A session as an editor has it: every request of the contract, over stdio, on sketches of our own. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor, type EditorOptions, until } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const LAMP = readFileSync(join(__dirname, "../../client/demo/lamp/lamp.ino"), "utf8");

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("session");
});
afterEach(async () => {
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

async function openLamp(options: EditorOptions = {}, extra: Record<string, string> = {}) {
  const folder = folderOf({ "lamp/lamp.ino": LAMP, ...extra });
  editor = await Editor.start(bundle, { folders: [folder], ...options });
  return { folder, uri: await editor.open(join(folder, "lamp/lamp.ino")) };
}

const codesOf = async (uri: string) => (await editor.diagnostics(uri)).map((diagnostic) => diagnostic.code);

describe("diagnostics", () => {
  it("are pulled where the client declares it, and never pushed as well", async () => {
    const { uri } = await openLamp();
    const found = await editor.diagnostics(uri);
    const slip = found.find((diagnostic) => diagnostic.code === "and-before-or");
    expect(slip).toMatchObject({ source: "Pulsewright", severity: 1 });
    expect(slip?.range.start.line).toBe(editor.rangeOf(uri, "TCCR2B =").start.line);
    expect(editor.published).toEqual([]);
  });
  it("say unchanged when they are", async () => {
    const { uri } = await openLamp();
    const ask = (previousResultId?: string) =>
      editor.connection.sendRequest<{ kind: string; resultId: string }>("textDocument/diagnostic", {
        textDocument: { uri },
        previousResultId,
      });
    const first = await ask();
    expect(first.kind).toBe("full");
    expect(await ask(first.resultId)).toEqual({ kind: "unchanged", resultId: first.resultId });
  });
  it("are pushed to other clients, once per change, and cleared when the file is closed", async () => {
    const { uri } = await openLamp({ pull: false });
    const first = await until(
      () => editor.published.find((each) => each.uri === uri),
      (each) => each !== undefined,
    );
    expect(first?.diagnostics.some((diagnostic) => diagnostic.code === "and-before-or")).toBe(true);
    const count = editor.published.length;
    await editor.edit(uri, "// A reading lamp", "// A standing lamp");
    await new Promise((resolve) => setTimeout(resolve, 800));
    expect(editor.published.length).toBe(count);
    await editor.close(uri);
    await until(
      () => editor.published.at(-1),
      (last) => last?.uri === uri && last.diagnostics.length === 0,
    );
  });
  it("vanish at once, appear after a pause", async () => {
    const { uri } = await openLamp();
    expect(await codesOf(uri)).toContain("and-before-or");
    await editor.edit(uri, "980..1020", "20..2000");
    let began = performance.now();
    expect(await codesOf(uri)).not.toContain("off-frequency");
    const vanished = performance.now() - began;
    await editor.edit(uri, "20..2000", "980..1020");
    began = performance.now();
    expect(await codesOf(uri)).toContain("off-frequency");
    const appeared = performance.now() - began;
    expect(appeared).toBeGreaterThan(250);
    expect(vanished).toBeLessThan(appeared);
  });
  it("of half-typed code keep the session and come right again", async () => {
    const { uri } = await openLamp();
    await codesOf(uri);
    for (const half of ["OCR2B = (", "OCR2B = (1 <", "if (", "/* ", '"']) {
      await editor.edit(uri, "delay(20);", `${half}\n  delay(20);`);
      await codesOf(uri);
      await editor.edit(uri, `${half}\n  delay(20);`, "delay(20);");
    }
    expect(await codesOf(uri)).toContain("and-before-or");
  });
  it("obey the severity that the user sets, live", async () => {
    const { uri } = await openLamp();
    editor.settings = { findings: { severity: { "and-before-or": "off", "off-frequency": "note" } } };
    await editor.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
    await until(
      () => editor.heard.includes("workspace/diagnostic/refresh"),
      (heard) => heard,
    );
    const found = await editor.diagnostics(uri);
    expect(found.some((diagnostic) => diagnostic.code === "and-before-or")).toBe(false);
    expect(found.find((diagnostic) => diagnostic.code === "off-frequency")?.severity).toBe(3);
  });
});

describe("a sketch of several files", () => {
  const FAN = {
    "fan/fan.ino":
      "// wants D9: 31 kHz +-2 %\nvoid setup() { pinMode(9, OUTPUT); slow(); }\nvoid loop() { analogWrite(9, LEVEL); delay(9); }\n",
    "fan/speed.ino": "void slow() { TCCR1B = (TCCR1B & 0xF8) | 5; }\n",
    "fan/level.h": "#define LEVEL 80\n",
  };
  it("is analysed as one; an edit of one tab changes what is said in another", async () => {
    const folder = folderOf({ ...FAN, "fan/fan.ino": `#include "level.h"\n${FAN["fan/fan.ino"]}` });
    editor = await Editor.start(bundle, { folders: [folder] });
    const main = await editor.open(join(folder, "fan/fan.ino"));
    const tab = await editor.open(join(folder, "fan/speed.ino"));
    // Said where the prescaler is set, though the want stands in the other tab.
    expect(await codesOf(tab)).toContain("off-frequency");
    await editor.edit(main, "31 kHz", "30.6 Hz");
    expect(await codesOf(tab)).not.toContain("off-frequency");
    await until(
      () => editor.heard.includes("workspace/inlayHint/refresh"),
      (heard) => heard,
    );
  });
  it("sees a file that changes on disk", async () => {
    const folder = folderOf(FAN);
    editor = await Editor.start(bundle, { folders: [folder] });
    const tab = await editor.open(join(folder, "fan/speed.ino"));
    expect(await codesOf(tab)).toContain("off-frequency");
    const main = join(folder, "fan/fan.ino");
    writeFileSync(main, FAN["fan/fan.ino"].replace("31 kHz", "30.6 Hz"));
    await editor.connection.sendNotification("workspace/didChangeWatchedFiles", {
      changes: [{ uri: pathToFileURL(main).href, type: 2 }],
    });
    expect(await codesOf(tab)).not.toContain("off-frequency");
  });
  it("follows a library's header and unit as they are edited, saved or not", async () => {
    const folder = folderOf({
      "fan/fan.ino":
        "#include <Pace.h>\n// wants D9: 31 kHz +-2 %\nvoid setup() { pinMode(9, OUTPUT); pace(); }\nvoid loop() { analogWrite(9, 80); delay(9); }\n",
      "libraries/Pace/Pace.h": "#define PACE 1\nvoid pace();\n",
      "libraries/Pace/Pace.cpp":
        '#include <Arduino.h>\n#include "Pace.h"\nvoid pace() { TCCR1B = (TCCR1B & 0xF8) | PACE; }\n',
    });
    editor = await Editor.start(bundle, { folders: [folder] });
    const main = await editor.open(join(folder, "fan/fan.ino"));
    expect(await codesOf(main)).not.toContain("off-frequency");
    const header = await editor.open(join(folder, "libraries/Pace/Pace.h"));
    await editor.edit(header, "PACE 1", "PACE 5");
    const offFrequency = async () => (await codesOf(main)).includes("off-frequency");
    expect(await offFrequency()).toBe(true);
    const unit = await editor.open(join(folder, "libraries/Pace/Pace.cpp"));
    await editor.edit(unit, "| PACE", "| 1");
    expect(await offFrequency()).toBe(false);
  });
  it("executes the core that the settings name, to the same end", async () => {
    const folder = folderOf({
      "fan/fan.ino": "// wants D9: 490 Hz +-2 %\nvoid setup() {}\nvoid loop() { analogWrite(9, 80); delay(9); }\n",
      "core/cores/arduino/Arduino.h":
        '#pragma once\n#include <avr/io.h>\n#ifdef __cplusplus\nextern "C" {\n#endif\nvoid init(void);\nvoid analogWrite(uint8_t pin, int value);\nvoid delay(unsigned long ms);\n#ifdef __cplusplus\n}\n#endif\n',
      "core/cores/arduino/wiring_private.h": '#include "Arduino.h"\n',
      "core/cores/arduino/wiring.c":
        '#include "wiring_private.h"\nvoid init(void) { TCCR0B = 3; TCCR0A = 3; TIMSK0 = 1; TCCR1B = 3; TCCR1A = 1; }\n',
      "core/cores/arduino/wiring_analog.c":
        '#include "wiring_private.h"\nvoid analogWrite(uint8_t pin, int value) { DDRB |= 2; TCCR1A |= _BV(COM1A1); OCR1A = value; }\n',
      "core/variants/eightanaloginputs/pins_arduino.h": "",
      "core/boards.txt": "nano.build.variant=eightanaloginputs\n",
    });
    const settings = { core: join(folder, "core") };
    editor = await Editor.start(bundle, { folders: [folder], settings });
    const main = await editor.open(join(folder, "fan/fan.ino"));
    expect(await codesOf(main)).not.toContain("off-frequency");
    const unit = await editor.open(join(folder, "core/cores/arduino/wiring.c"));
    await editor.edit(unit, "TCCR1B = 3", "TCCR1B = 1");
    expect(await codesOf(main)).toContain("off-frequency");
  });
  it("gets an answer in a header too", async () => {
    const folder = folderOf({
      ...FAN,
      "fan/fan.ino": `#include "level.h"\n${FAN["fan/fan.ino"]}`,
      "fan/level.h": "// wants D9: what\n#define LEVEL 80\n",
    });
    editor = await Editor.start(bundle, { folders: [folder] });
    expect(await codesOf(await editor.open(join(folder, "fan/level.h")))).toEqual(["unread-comment"]);
  });
});

describe("places", () => {
  it("a hover says before and after, the pin and the arithmetic", async () => {
    const { uri } = await openLamp();
    const hover = await editor.hover(uri, "TCCR2B");
    const text = (hover!.contents as { value: string }).value;
    for (const part of ["30.6373 Hz", "16 MHz / (2 · 1024 · 255)"]) expect(text).toContain(part);
    expect(hover?.range).toEqual(expect.objectContaining({ start: expect.objectContaining({ line: 9 }) }));
  });
  it("a hover on a word of no interest is none, and the switch is obeyed", async () => {
    const { uri } = await openLamp();
    expect(await editor.hover(uri, "delay")).toBeNull();
    editor.settings = { hover: { enable: false } };
    await editor.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
    expect(await editor.hover(uri, "TCCR2B")).toBeNull();
  });
  it("hints stand at the ends of their lines; every switch switches", async () => {
    const { uri } = await openLamp();
    const hints = (await editor.hints(uri)) ?? [];
    const lines = editor.text(uri).split("\n");
    expect(hints.length).toBeGreaterThanOrEqual(2);
    for (const { position } of hints) expect(position.character).toBe(lines[position.line]!.length);
    const set = async (settings: unknown) => {
      editor.settings = { hints: settings };
      await editor.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
      return (await editor.hints(uri)) ?? [];
    };
    expect(await set({ enable: false })).toEqual([]);
    expect(await set({ frequency: false, duty: false, verdict: false })).toEqual([]);
    const verdicts = await set({ frequency: false, duty: false });
    expect(verdicts.map((hint) => hint.position.line)).toEqual([1]);
  });
  it("completion answers in comments of ours and after a register, nowhere else", async () => {
    const { uri } = await openLamp();
    const complete = async (before: string, after: string) => {
      await editor.edit(uri, before, after);
      const position = editor.rangeOf(uri, after).end;
      const items = await editor.connection.sendRequest<{ label: string }[] | null>("textDocument/completion", {
        textDocument: { uri },
        position,
      });
      return (items ?? []).map((item) => item.label);
    };
    expect(await complete("// A reading", "// wants ")).toEqual(expect.arrayContaining(["D3:", "D9:"]));
    expect(await complete("pinMode(lamp, OUTPUT);", "TCCR2A = W")).toEqual(expect.arrayContaining(["WGM20", "WGM21"]));
    expect(await complete("TCCR2A = W", "int something = W")).toEqual([]);
  });
});

describe("quick fixes", () => {
  it("are ordered from the narrowest to the explanation, and only safe ones are preferred", async () => {
    const { uri } = await openLamp();
    const titles = (await editor.actions(uri, "TCCR2B | 3")).map((action) => action.title);
    const first = (pattern: RegExp) => titles.findIndex((title) => pattern.test(title));
    expect(titles.length).toBeGreaterThanOrEqual(3);
    expect(first(/^Allow/)).toBeGreaterThan(0);
    expect(first(/means$/)).toBeGreaterThan(first(/^Allow/));
    // Showing C's order keeps the registers, but hides the slip: nobody is to take it blindly.
    const slip = (await editor.actions(uri, "TCCR2B | 3")).filter(
      (action) => action.diagnostics?.[0]?.code === "and-before-or",
    );
    expect(slip.filter((action) => action.isPreferred)).toEqual([]);
    await editor.edit(uri, "TCCR2B | 3 & 0xFB", "(TCCR2B & 0xF8) | 3");
    const raw = (await editor.actions(uri, "| 3;")).filter((action) => action.diagnostics?.[0]?.code === "bare-number");
    expect(raw.map((action) => action.isPreferred === true)).toEqual([true, ...raw.slice(1).map(() => false)]);
  });
  it("are proved when they are taken, and do what they say", async () => {
    const { uri } = await openLamp();
    const offered = (await editor.actions(uri, "TCCR2B | 3")).find(
      (action) => action.diagnostics?.[0]?.code === "and-before-or",
    );
    expect(offered?.edit).toBeUndefined();
    const action = await editor.resolve(offered!);
    const fixed = editor.applied(uri, action);
    expect(fixed).not.toBe(editor.text(uri));
    await editor.edit(uri, editor.text(uri), fixed);
    const codes = await codesOf(uri);
    expect(codes).not.toContain("and-before-or");
  });
  it("come with their edits for clients that cannot ask later", async () => {
    const { uri } = await openLamp({ resolveActions: false });
    const offered = (await editor.actions(uri, "TCCR2B | 3")).find(
      (action) => action.diagnostics?.[0]?.code === "and-before-or",
    );
    expect(editor.applied(uri, offered!)).not.toBe(editor.text(uri));
  });
  it("that were offered for an older text are not applied to a newer one", async () => {
    const { uri } = await openLamp();
    const [offered] = await editor.actions(uri, "TCCR2B | 3");
    await editor.edit(uri, "// A reading", "// Another\n// reading");
    await expect(editor.resolve(offered!)).rejects.toMatchObject({ code: -32801 });
  });
  it("allow a finding here with a comment", async () => {
    const { uri } = await openLamp();
    const allow = (await editor.actions(uri, "TCCR2B | 3")).find(
      (action) => action.title === 'Allow "and-before-or" here',
    );
    await editor.edit(uri, editor.text(uri), editor.applied(uri, allow!));
    expect(editor.text(uri)).toMatch(/\n {2}\/\/ for pulsewright: allow and-before-or because .*\n {2}TCCR2B/);
    expect(await codesOf(uri)).not.toContain("and-before-or");
  });
  it("fix-all holds only what keeps every register as it was", async () => {
    const { uri } = await openLamp({}, {});
    await editor.edit(uri, "TCCR2B | 3 & 0xFB", "(TCCR2B & 0xF8) | 3");
    await codesOf(uri);
    const [all] = await editor.actions(uri, "void setup", ["source.fixAll.pulsewright"]);
    expect(all?.kind).toBe("source.fixAll.pulsewright");
    const fixed = editor.applied(uri, await editor.resolve(all!));
    expect(fixed).toMatch(/CS21.*CS20|CS20.*CS21/);
    expect(await editor.actions(uri, "void setup", ["refactor"])).toEqual([]);
  });
});

describe("board and clock", () => {
  interface Target {
    readonly boardId: string;
    readonly clockHz: number;
    readonly decidedBy: string;
    readonly trouble: string | null;
  }
  const target = (uri: string) => editor.connection.sendRequest<Target>("pulsewright/target", { uri });

  it("come from settings, then from the comment, which goes first", async () => {
    const { uri } = await openLamp({ settings: { board: "uno", clock: "8 MHz" } });
    expect(await target(uri)).toMatchObject({ boardId: "uno", clockHz: 8_000_000, decidedBy: "settings" });
    await editor.edit(uri, "// A reading lamp", "// for pulsewright: board mega\n// A reading lamp");
    expect(await target(uri)).toMatchObject({ boardId: "mega", decidedBy: "comment" });
  });
  it("come from sketch.yaml, else nano", async () => {
    const folder = folderOf({
      "lamp/lamp.ino": LAMP,
      "lamp/sketch.yaml": "default_fqbn: arduino:avr:uno\n",
      "bare/bare.ino": LAMP,
    });
    editor = await Editor.start(bundle);
    expect(await target(await editor.open(join(folder, "lamp/lamp.ino")))).toMatchObject({
      boardId: "uno",
      decidedBy: "project file",
    });
    expect(await target(await editor.open(join(folder, "bare/bare.ino")))).toMatchObject({
      boardId: "nano",
      decidedBy: "default",
    });
  });
  it("that are unknown are said, not guessed", async () => {
    const { uri } = await openLamp({ settings: { board: "nanoo" } });
    expect(await target(uri)).toMatchObject({ trouble: expect.stringMatching(/unknown board.*nano/) });
    expect(await editor.diagnostics(uri)).toEqual([]);
  });
  it("can be chosen and written into the sketch", async () => {
    const { uri } = await openLamp();
    const boards = await editor.connection.sendRequest<{ id: string }[]>("pulsewright/boards", {});
    expect(boards.map((board) => board.id)).toEqual(expect.arrayContaining(["uno", "nano", "mega"]));
    const edit = await editor.connection.sendRequest<{ uri: string; newText: string }>("pulsewright/targetEdit", {
      uri,
      boardId: "uno",
    });
    expect(edit).toMatchObject({ uri, newText: "// for pulsewright: board uno\n" });
  });
});

describe("what is no sketch", () => {
  it("a C++ program for something else gets no answer", async () => {
    const folder = folderOf({ "desk/main.cpp": "#include <vector>\nint TCCR2B;\nint main() { TCCR2B = 3; }\n" });
    editor = await Editor.start(bundle, { folders: [folder] });
    const uri = await editor.open(join(folder, "desk/main.cpp"));
    expect(await editor.diagnostics(uri)).toEqual([]);
    expect(await editor.hover(uri, "TCCR2B")).toBeNull();
    expect(await editor.connection.sendRequest("pulsewright/target", { uri })).toBeNull();
  });
  it("a header without a sketch, and a file that is gone, neither", async () => {
    const folder = folderOf({ "x/pins.h": "#define A 1\n" });
    editor = await Editor.start(bundle);
    expect(await editor.diagnostics(await editor.open(join(folder, "x/pins.h")))).toEqual([]);
    expect(await editor.diagnostics(await editor.open(join(folder, "gone/gone.ino"), LAMP))).not.toEqual([]);
  });
  it("an untitled document named like a sketch does get one", async () => {
    editor = await Editor.start(bundle);
    const uri = "untitled:lamp.ino";
    await editor.connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri, languageId: "cpp", version: 1, text: LAMP },
    });
    expect((await editor.diagnostics(uri)).map((each) => each.code)).toContain("and-before-or");
  });
});

describe("requests of ours", () => {
  it("a finding's page is printed from the finding itself", async () => {
    await openLamp();
    const page = await editor.connection.sendRequest<string>("pulsewright/findingPage", { id: "and-before-or" });
    expect(page).toMatch(/^# and-before-or\n/);
    expect(await editor.connection.sendRequest("pulsewright/findingPage", { id: "no-such" })).toBeNull();
  });
  it("the signal sheet is the command line's", async () => {
    const { uri } = await openLamp();
    expect(await editor.connection.sendRequest("pulsewright/sheet", { uri })).toMatch(/30\.6373 Hz/);
  });
  it("the sheet for printing is the command line's Markdown", async () => {
    const { uri } = await openLamp();
    const sheet = await editor.connection.sendRequest<string>("pulsewright/sheet", { uri, format: "markdown" });
    expect(sheet).toMatch(/^# Signal sheet: lamp\.ino\n/);
    expect(sheet).toMatch(/\*\*NOT MET\*\*/);
  });
});
