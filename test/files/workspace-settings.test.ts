/** The editor's settings as the command line finds them. */
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { disk } from "../../server/files/file-access.js";
import { openSketch } from "../../server/files/open-sketch.js";
import { sketchFrom } from "../../server/files/sketch-place.js";
import { plainJson, workspaceSettings } from "../../server/files/workspace-settings.js";
import { folderOf, removeFolders } from "./folder-of.js";

afterAll(removeFolders);

const VENT = '{ "pulsewright.specifications": { "vent": "1 kHz" } }';
const FAN = "void setup() {}\nvoid loop() {}\n";
const found = (folder: string) => {
  const settings = workspaceSettings(folder, disk);
  return settings.kind === "settings" ? settings.specifications : settings.kind;
};

describe("where they are found", () => {
  it("beside the sketch, or in a folder above it; the nearest goes first", () => {
    const folder = folderOf({
      ".vscode/settings.json": VENT,
      "a/b/fan/fan.ino": FAN,
      "near/.vscode/settings.json": "{}",
      "near/fan/fan.ino": FAN,
    });
    expect(found(folder)).toEqual({ vent: "1 kHz" });
    expect(found(join(folder, "a/b/fan"))).toEqual({ vent: "1 kHz" });
    expect(found(join(folder, "near/fan"))).toBeUndefined();
  });

  it("never above the repository that the sketch lies in", () => {
    const folder = folderOf({ ".vscode/settings.json": VENT, "repo/.git/HEAD": "", "repo/fan/fan.ino": FAN });
    expect(found(join(folder, "repo/fan"))).toBe("none");
    expect(found(join(folder, "repo"))).toBe("none");
  });
});

describe("how they are read", () => {
  it.each([
    ["{}", {}],
    ['{ "a": 1, }', { a: 1 }],
    ['{ // why\n "a": [1, 2, /* x, */ ], }', { a: [1, 2] }],
    ['{ "a": "// no /* comment */", /* b */ "c": "x,}" }', { a: "// no /* comment */", c: "x,}" }],
    ['{ "a": "\\"//", "b": ",]" , }', { a: '"//', b: ",]" }],
  ])("%s", (text, value) => {
    expect(JSON.parse(plainJson(text))).toEqual(value);
    expect(plainJson(text)).toHaveLength(text.length);
  });

  it.each(['{ "a": 1,, }', "{ a: 1 }", "", "{", '{ "a": "x', "[1]", "3", "null"])("broken: %s", (text) => {
    const folder = folderOf({ ".vscode/settings.json": text });
    expect(workspaceSettings(folder, disk).kind).toBe("unreadable");
  });

  it("quickly where they are long", () => {
    const started = performance.now();
    plainJson(`{${'"a": [1, /* x */ 2, ],\n'.repeat(50_000)}}`);
    expect(performance.now() - started).toBeLessThan(3000);
  });
});

describe("a sketch that is opened", () => {
  const opened = (settings: string) => {
    const folder = folderOf({ ".vscode/settings.json": settings, "fan/fan.ino": FAN });
    const opening = openSketch(sketchFrom(join(folder, "fan/fan.ino"), disk), { libraries: [], workspace: [] }, disk);
    if (opening.kind !== "opened") throw new Error(opening.kind);
    return { ids: opening.specifications.map(({ id }) => id), gaps: opening.gaps.map(({ reason }) => reason) };
  };

  it("has the specifications", () => {
    expect(opened(VENT)).toEqual({ ids: ["vent"], gaps: [] });
  });

  it("says what is wrong with an entry, by name", () => {
    const { gaps } = opened('{ "pulsewright.specifications": { "vent": "1 kHzz" } }');
    expect(gaps).toHaveLength(1);
    expect(gaps[0]).toContain('settings.json: pulsewright.specifications: "vent" is not understood from column 3');
  });

  it("says that a file is broken, and goes on", () => {
    const { ids, gaps } = opened('{ "pulsewright.specifications": ');
    expect(ids).toEqual([]);
    expect(gaps[0]).toContain("no specifications taken from there: it is not JSON");
  });

  it("takes what the caller has in place of the file's", () => {
    const folder = folderOf({ ".vscode/settings.json": VENT, "fan/fan.ino": FAN });
    const opening = openSketch(
      sketchFrom(join(folder, "fan/fan.ino"), disk),
      { libraries: [], workspace: [], specifications: { lamp: "2 kHz" } },
      disk,
    );
    expect(opening.kind === "opened" && opening.specifications.map(({ id }) => id)).toEqual(["lamp"]);
  });
});
