/** Libraries on a shelf: what is read of them, whose header is meant, and what unsaved text does. */
import { join, relative } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { type Buffer, disk, type FileAccess, withBuffers } from "../../server/files/file-access.js";
import { sketchFrom } from "../../server/files/sketch-place.js";
import { type LoadedSketch, loadSketch } from "../../server/files/sketch-sources.js";
import { folderOf, removeFolders } from "./folder-of.js";

afterEach(removeFolders);

function load(folder: string, files: FileAccess = disk): LoadedSketch {
  const loaded = loadSketch(sketchFrom(join(folder, "fan/fan.ino"), files), { libraries: [], workspace: [] }, files);
  if ("unreadable" in loaded) throw new Error(loaded.unreadable);
  return loaded;
}

/** The disk, with the paths on record whose text was read. */
function recording(read: string[], below: FileAccess = disk): FileAccess {
  return {
    ...below,
    read: (path) => {
      read.push(path);
      return below.read(path);
    },
  };
}

const shelf = (count: number): Record<string, string> =>
  Object.fromEntries(
    Array.from({ length: count }, (_, index) => [
      [`libraries/Spare${index}/library.properties`, `name=Spare${index}\n`],
      [`libraries/Spare${index}/src/Spare${index}.h`, `#include "part.h"\n`],
      [`libraries/Spare${index}/src/part.h`, ""],
      [`libraries/Spare${index}/src/Spare${index}.cpp`, `#include "Spare${index}.h"\n`],
    ]).flat(),
  );

describe("what is read", () => {
  const all = {
    ...shelf(40),
    "fan/fan.ino": '#include <Spare7.h>\n#include "pins.h"\n',
    "fan/pins.h": "",
  };
  it("of forty libraries is one, and the sketch", () => {
    const folder = folderOf(all);
    const read: string[] = [];
    load(folder, recording(read));
    expect(read.map((path) => relative(folder, path)).sort()).toEqual([
      "fan/fan.ino",
      "fan/pins.h",
      "libraries/Spare7/library.properties",
      "libraries/Spare7/src/Spare7.cpp",
      "libraries/Spare7/src/Spare7.h",
      "libraries/Spare7/src/part.h",
    ]);
  });
  it("when a header is nowhere is what each library says of itself, once", () => {
    const folder = folderOf({ ...all, "fan/fan.ino": "#include <nowhere.h>\n" });
    const read: string[] = [];
    const files = recording(read);
    load(folder, files);
    expect(read.filter((path) => path.endsWith("library.properties"))).toHaveLength(40);
    expect(read.filter((path) => /\.(?:h|cpp)$/.test(path))).toEqual([]);
    read.length = 0;
    load(folder, files);
    expect(read.map((path) => relative(folder, path))).toEqual(["fan/fan.ino"]);
  });
});

describe("one header name in two libraries", () => {
  const two = {
    "libraries/Alpha/curve.h": "// alpha\n",
    "libraries/curve/library.properties": "name=curve\n",
    "libraries/curve/src/curve.h": "// curve\n",
    "libraries/Alpha/level.h": "// alpha\n",
    "libraries/Beta/level.h": "// beta\n",
    "libraries/Beta/inner.h": '#include "level.h"\n',
    "fan/fan.ino": "#include <curve.h>\n#include <inner.h>\n",
  };
  const text = (loaded: LoadedSketch, name: string, from: string, angled = true) =>
    loaded.sources.include(name, from, angled)?.text;
  it("means the library of that name, else the first", () => {
    const folder = folderOf(two);
    const loaded = load(folder);
    const main = join(folder, "fan/fan.ino");
    expect(text(loaded, "curve.h", main)).toBe("// curve\n");
    expect(text(loaded, "level.h", main)).toBe("// alpha\n");
  });
  it("means its own where a library includes it in quotes, and the sketch's where the sketch has one", () => {
    const folder = folderOf({ ...two, "fan/level.h": "// fan\n" });
    const loaded = load(folder);
    expect(text(loaded, "level.h", join(folder, "libraries/Beta/inner.h"), false)).toBe("// beta\n");
    expect(text(loaded, "level.h", join(folder, "fan/fan.ino"), false)).toBe("// fan\n");
    expect(text(loaded, "level.h", join(folder, "fan/fan.ino"))).toBe("// alpha\n");
  });
});

describe("text that is not saved", () => {
  const files = (folder: string, texts: Readonly<Record<string, string>>): FileAccess =>
    withBuffers(
      disk,
      new Map(
        Object.entries(texts).map(([name, text]): [string, Buffer] => [join(folder, name), { version: 2, text }]),
      ),
    );
  it("counts in headers and units of libraries too, and decides what is pulled in", () => {
    const folder = folderOf({ ...shelf(2), "fan/fan.ino": "#include <Spare0.h>\n" });
    const edited = files(folder, {
      "libraries/Spare0/src/Spare0.h": "#include <Spare1.h>\n// edited header\n",
      "libraries/Spare0/src/Spare0.cpp": "// edited unit\n",
    });
    const { units } = load(folder, edited).sources;
    expect(units.map((unit) => relative(folder, unit.path))).toEqual([
      "libraries/Spare0/src/Spare0.cpp",
      "libraries/Spare1/src/Spare1.cpp",
    ]);
    expect(units[0]?.text).toBe("// edited unit\n");
  });
  it("is watched by its version, so that the next letter is seen", () => {
    const folder = folderOf({ ...shelf(1), "fan/fan.ino": "#include <Spare0.h>\n" });
    const edited = files(folder, { "libraries/Spare0/src/Spare0.h": "// edited\n" });
    const { seen } = load(folder, edited);
    expect(seen.get(join(folder, "libraries/Spare0/src/Spare0.h"))).toBe("buffer 2");
  });
});

describe("a library that changes on disk", () => {
  it("is looked into again", async () => {
    const { writeFileSync, utimesSync } = await import("node:fs");
    const folder = folderOf({ "libraries/Old/Old.h": "", "fan/fan.ino": "#include <Newer.h>\n" });
    const main = join(folder, "fan/fan.ino");
    expect(load(folder).sources.include("Newer.h", main, true)).toBeUndefined();
    writeFileSync(join(folder, "libraries/Old/Newer.h"), "// new\n");
    // File systems count time coarsely.
    utimesSync(join(folder, "libraries/Old"), 2_000_000_000, 2_000_000_000);
    expect(load(folder).sources.include("Newer.h", main, true)?.text).toBe("// new\n");
  });
});
