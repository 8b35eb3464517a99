import { basename, join, relative } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { disk } from "../../server/files/file-access.js";
import { type SketchPlace, sketchesUnder, sketchFrom, sketchOf } from "../../server/files/sketch-place.js";
import { folderOf, removeFolders } from "./folder-of.js";

afterEach(removeFolders);

const LOOP = "void setup() {}\nvoid loop() {}\n";

function names(folder: string, place: SketchPlace | undefined) {
  const short = (paths: readonly string[]) => paths.map((path) => relative(folder, path));
  return place === undefined
    ? undefined
    : { tabs: short(place.tabs), units: short(place.units), byHeader: short(place.unitsByHeader) };
}

describe("several .ino files", () => {
  it("are one sketch where one bears the folder's name: main first, then by name", () => {
    const folder = folderOf({ "fan/zeta.ino": "", "fan/fan.ino": LOOP, "fan/alpha.ino": "" });
    const found = sketchesUnder(folder, disk);
    expect(found.map((place) => names(folder, place))).toEqual([
      { tabs: ["fan/fan.ino", "fan/alpha.ino", "fan/zeta.ino"], units: [], byHeader: [] },
    ]);
    expect(names(folder, sketchOf(join(folder, "fan/alpha.ino"), disk))?.tabs).toHaveLength(3);
  });
  it("are each their own where none does", () => {
    const folder = folderOf({ "trials/one.ino": LOOP, "trials/two.ino": LOOP });
    expect(sketchesUnder(folder, disk).map((place) => names(folder, place)?.tabs)).toEqual([
      ["trials/one.ino"],
      ["trials/two.ino"],
    ]);
  });
});

describe("other files of a sketch", () => {
  it(".cpp and .c beside it and under src belong to it, other folders do not", () => {
    const folder = folderOf({
      "fan/fan.ino": LOOP,
      "fan/motor.cpp": "",
      "fan/src/deep/table.c": "",
      "fan/data/other.cpp": "",
    });
    expect(names(folder, sketchesUnder(folder, disk)[0])?.units).toEqual(["fan/motor.cpp", "fan/src/deep/table.c"]);
  });
  it("beside several sketches belong to one only where their header is included", () => {
    const folder = folderOf({ "trials/one.ino": LOOP, "trials/two.ino": LOOP, "trials/motor.cpp": "" });
    expect(names(folder, sketchesUnder(folder, disk)[0])).toMatchObject({ units: [], byHeader: ["trials/motor.cpp"] });
  });
  it("a unit, a header and a file under src lead to the sketch they are part of", () => {
    const folder = folderOf({ "fan/fan.ino": LOOP, "fan/motor.cpp": "", "fan/motor.h": "", "fan/src/table.c": "" });
    for (const name of ["fan/motor.cpp", "fan/motor.h", "fan/src/table.c"]) {
      expect(names(folder, sketchOf(join(folder, name), disk))?.tabs).toEqual(["fan/fan.ino"]);
    }
  });
});

describe("programs without an .ino", () => {
  it("a .cpp with main or setup is a sketch; one without is part of the only one beside it", () => {
    const folder = folderOf({ "lamp/main.cpp": "int main() { for (;;) {} }\n", "lamp/motor.cpp": "void turn() {}\n" });
    const found = sketchesUnder(folder, disk);
    expect(found.map((place) => names(folder, place)?.units)).toEqual([["lamp/main.cpp", "lamp/motor.cpp"]]);
    expect(names(folder, sketchOf(join(folder, "lamp/motor.cpp"), disk))?.units[0]).toBe("lamp/main.cpp");
  });
  it.each([
    "main() { for (;;) ; }",
    "int\nmain (void)\n{ for (;;) ; }",
    "int __attribute__((OS_main)) main(void) { for (;;) ; }",
    "__attribute__((noreturn)) void main(void) { for (;;) ; }",
  ])("an entry spelled %j", (text) => {
    const folder = folderOf({
      "a.c": text,
      "b.c": "int main(void) { for (;;) ; }",
      "c.c": "void f(void) {\n  main();\n}",
    });
    expect(names(folder, sketchOf(join(folder, "a.c"), disk))?.units).toEqual(["a.c"]);
    expect(sketchesUnder(folder, disk)).toHaveLength(2);
  });
  it("a .c that is named is taken as it is", () => {
    const folder = folderOf({ "loose.c": "void turn(void) {}\n" });
    expect(names(folder, sketchFrom(join(folder, "loose.c"), disk))?.units).toEqual(["loose.c"]);
    expect(sketchOf(join(folder, "loose.c"), disk)).toBeUndefined();
  });
});

describe("a folder that is walked", () => {
  it("gives every sketch below it once, without hidden folders and node_modules", () => {
    const folder = folderOf({
      "a/a.ino": LOOP,
      "b/c/c.ino": LOOP,
      ".cache/x/x.ino": LOOP,
      "node_modules/y/y.ino": LOOP,
    });
    expect(sketchesUnder(folder, disk).map((place) => basename(place.path))).toEqual(["a.ino", "c.ino"]);
  });
  it("keeps paths as they were given", () => {
    const folder = folderOf({ "fan/fan.ino": LOOP });
    const here = relative(process.cwd(), folder);
    expect(sketchesUnder(here, disk)[0]?.path).toBe(`${here}/fan/fan.ino`);
    expect(sketchFrom(`${here}/fan/../fan/fan.ino`, disk).path).toBe(`${here}/fan/../fan/fan.ino`);
  });
});
