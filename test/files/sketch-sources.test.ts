import { join, normalize, relative } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { disk, type FileAccess, withBuffers } from "../../server/files/file-access.js";
import { sketchFrom } from "../../server/files/sketch-place.js";
import { type LoadedSketch, loadSketch, type SourceOptions } from "../../server/files/sketch-sources.js";
import { folderOf, removeFolders } from "./folder-of.js";

afterEach(removeFolders);

const LIBRARY = {
  "libs/Dimmer/library.properties": "name=Dimmer\narchitectures=avr\n",
  "libs/Dimmer/src/Dimmer.h": "#pragma once\n",
  "libs/Dimmer/src/Dimmer.cpp": '#include "Dimmer.h"\n',
  "libs/Dimmer/src/parts/curve.cpp": "",
  "libs/Dimmer/examples/shop/shop.ino": "#include <Dimmer.h>\n",
};

function load(path: string, options: Partial<SourceOptions> = {}, files: FileAccess = disk): LoadedSketch {
  const loaded = loadSketch(sketchFrom(path, files), { libraries: [], workspace: [], ...options }, files);
  if ("unreadable" in loaded) throw new Error(loaded.unreadable);
  return loaded;
}

const unitsIn = (folder: string, loaded: LoadedSketch) =>
  loaded.sources.units.map((unit) => `${relative(folder, unit.path)} ${unit.kind}`);

describe("libraries", () => {
  it("take part only where a header of theirs is included, then with every unit of their src", () => {
    const folder = folderOf({
      ...LIBRARY,
      "fan/fan.ino": "#include <Dimmer.h>\n",
      "lamp/lamp.ino": "// #include nothing\n",
    });
    const libraries = [join(folder, "libs")];
    expect(unitsIn(folder, load(join(folder, "fan/fan.ino"), { libraries }))).toEqual([
      "libs/Dimmer/src/Dimmer.cpp library",
      "libs/Dimmer/src/parts/curve.cpp library",
    ]);
    expect(unitsIn(folder, load(join(folder, "lamp/lamp.ino"), { libraries }))).toEqual([]);
  });
  it("of the flat layout give the units in their folder and in utility", () => {
    const folder = folderOf({
      "libs/Old/Old.h": "",
      "libs/Old/Old.cpp": "",
      "libs/Old/utility/low.c": "",
      "libs/Old/extras/no.cpp": "",
      "fan/fan.ino": '#include "Old.h"\n',
    });
    expect(unitsIn(folder, load(join(folder, "fan/fan.ino"), { libraries: [join(folder, "libs")] }))).toEqual([
      "libs/Old/Old.cpp library",
      "libs/Old/utility/low.c library",
    ]);
  });
  it("beside the sketch (a sketchbook) and around an example are found without being named", () => {
    const folder = folderOf({ ...LIBRARY, "libraries/Dimmer/Dimmer.h": "", "fan/fan.ino": "#include <Dimmer.h>\n" });
    const fan = load(join(folder, "fan/fan.ino"));
    expect(fan.sources.include("Dimmer.h", join(folder, "fan/fan.ino"), true)?.path).toBe(
      join(folder, "libraries/Dimmer/Dimmer.h"),
    );
    expect(unitsIn(folder, load(join(folder, "libs/Dimmer/examples/shop/shop.ino")))).toContain(
      "libs/Dimmer/src/Dimmer.cpp library",
    );
  });
  it("of a project with src, include and lib are found", () => {
    const folder = folderOf({
      "box/platformio.ini": "",
      "box/src/main.cpp": '#include "pins.h"\n#include <Dim.h>\nvoid setup() {}\n',
      "box/include/pins.h": "",
      "box/lib/Dim/Dim.h": "",
      "box/lib/Dim/Dim.cpp": "",
    });
    const main = join(folder, "box/src/main.cpp");
    const loaded = load(main);
    expect(loaded.sources.include("pins.h", main, false)?.path).toBe(join(folder, "box/include/pins.h"));
    expect(unitsIn(folder, loaded)).toEqual(["box/src/main.cpp sketch", "box/lib/Dim/Dim.cpp library"]);
  });
  it("for another family of chips are left out", () => {
    const folder = folderOf({
      "libs/Wide/library.properties": "architectures=esp32\n",
      "libs/Wide/src/Wide.h": "",
      "fan/fan.ino": "#include <Wide.h>\n",
    });
    const loaded = load(join(folder, "fan/fan.ino"), { libraries: [join(folder, "libs")] });
    expect(loaded.sources.include("Wide.h", join(folder, "fan/fan.ino"), true)).toBeUndefined();
  });
});

describe("headers", () => {
  it("are the same value however they are named", () => {
    const folder = folderOf({ "fan/fan.ino": "", "fan/pins.h": "", "fan/src/deep.h": "" });
    const from = join(folder, "fan/fan.ino");
    const { include } = load(from).sources;
    const first = include("pins.h", from, false);
    expect(first?.path).toBe(join(folder, "fan/pins.h"));
    expect(include("../pins.h", join(folder, "fan/src/deep.h"), false)).toBe(first);
  });
  it("outside the sketch's surroundings are not read", () => {
    const folder = folderOf({ "deep/down/fan/fan.ino": "", "secret.h": "", "deep/down/shared.h": "" });
    const from = join(folder, "deep/down/fan/fan.ino");
    const { include } = load(from).sources;
    expect(normalize(include("../shared.h", from, false)?.path ?? "")).toBe(join(folder, "deep/down/shared.h"));
    expect(include("../../../secret.h", from, false)).toBeUndefined();
    const wider = load(from, { workspace: [folder] }).sources;
    expect(normalize(wider.include("../../../secret.h", from, false)?.path ?? "")).toBe(join(folder, "secret.h"));
  });
  it("that cannot be read become a gap", () => {
    const folder = folderOf({ "fan/fan.ino": '#include "blob.h"\n', "fan/blob.h": Uint8Array.from([1, 0, 2]) });
    expect(load(join(folder, "fan/fan.ino")).gaps[0]?.reason).toMatch(/blob\.h was not read: it is a binary file/);
  });
});

describe("unsaved buffers", () => {
  it("lie over the disk, also where there is no file yet", () => {
    const folder = folderOf({ "fan/fan.ino": "old", "fan/pins.h": "old" });
    const main = join(folder, "fan/fan.ino");
    const files = withBuffers(disk, new Map([[join(folder, "fan/pins.h"), { version: 3, text: "new" }]]));
    const loaded = load(main, {}, files);
    expect(loaded.sources.tabs[0]?.text).toBe("old");
    expect(loaded.sources.include("pins.h", main, false)?.text).toBe("new");
    expect(loaded.seen.get(join(folder, "fan/pins.h"))).toBe("buffer 3");
  });
});
