/**
 * Which files make one sketch, by the build's layout rules (design section 6). Reads folder lists, and a file's text only
 * to tell a program's main unit from its other units.
 */
import { basename, extname } from "node:path";
import type { FileAccess } from "./file-access.js";
import { folderName, folderOf, inside } from "./path-names.js";

/** A sketch on disk, before its text is read. All paths are as the caller named them, joined with what was found below. */
export interface SketchPlace {
  /** What the caller asked for, or the main file where a folder was walked. */
  readonly path: string;
  readonly folder: string;
  /** .ino/.pde files in the order in which the build joins them: the main one first, then by name. */
  readonly tabs: readonly string[];
  /** .cpp and .c files that belong to the program whatever is included. */
  readonly units: readonly string[];
  /** .cpp and .c files that belong to it only where their header is included (`motor.cpp` where `motor.h` is). */
  readonly unitsByHeader: readonly string[];
}

const TAB = new Set([".ino", ".pde"]);
const UNIT = new Set([".cpp", ".c", ".cc", ".cxx"]);
const HEADER = new Set([".h", ".hpp", ".hh", ".hxx", ".inc"]);
/** Folders that never hold a user's sketches. */
const SKIPPED = new Set(["node_modules", "dist", "build"]);
const DEEPEST_WALK = 12;
/** Folders above a header in which its sketch is looked for: no further up than a sketch reaches down. */
const HIGHEST_HEADER = 3;
const MOST_UNITS = 400;

export function isSketchFile(path: string): boolean {
  const extension = extname(path).toLowerCase();
  return TAB.has(extension) || UNIT.has(extension);
}

export function isTab(path: string): boolean {
  return TAB.has(extname(path).toLowerCase());
}

export function isHeader(path: string): boolean {
  return HEADER.has(extname(path).toLowerCase());
}

/** Every sketch in a folder and below it, in alphabetical order of folders. */
export function sketchesUnder(folder: string, files: FileAccess): SketchPlace[] {
  const found: SketchPlace[] = [];
  walk(folder, files, 0, found);
  return found;
}

function walk(folder: string, files: FileAccess, depth: number, found: SketchPlace[]): void {
  const here = sketchesIn(folder, files);
  found.push(...here);
  if (depth >= DEEPEST_WALK) return;
  for (const entry of files.list(folder)) {
    if (!entry.folder || entry.link || entry.name.startsWith(".") || SKIPPED.has(entry.name)) continue;
    // The build compiles src/ with the sketch beside it; it is no sketch of its own.
    if (entry.name === "src" && here.length > 0) continue;
    walk(inside(folder, entry.name), files, depth + 1, found);
  }
}

/** The sketches whose main file stands directly in this folder. */
function sketchesIn(folder: string, files: FileAccess): SketchPlace[] {
  const names = files.list(folder).filter((entry) => !entry.folder);
  const tabs = names.filter((entry) => isTab(entry.name)).map((entry) => inside(folder, entry.name));
  if (tabs.length > 0) {
    const main = tabs.find((tab) => bearsFolderName(tab, folder));
    if (main !== undefined) return [joined(main, main, folder, tabs, files)];
    return tabs.map((tab) => alone(tab, tab, folder, tabs.length > 1, files));
  }
  const programs = names
    .map((entry) => inside(folder, entry.name))
    .filter((path) => isUnit(path) && isProgram(path, files));
  return programs.map((path) => alone(path, path, folder, programs.length > 1, files));
}

/**
 * The sketch that a file belongs to. A tab, unit or header of a folder with a main sketch (`fan/fan.ino`), also from its
 * `src` folder, belongs to that sketch; a lone .ino and a .cpp with its own main() or setup() is a sketch by itself.
 * Undefined for a file that belongs to none (a header or unit without a sketch in sight).
 */
export function sketchOf(path: string, files: FileAccess): SketchPlace | undefined {
  const folder = folderOf(path);
  const home = isTab(path) ? folder : sketchFolderAbove(folder, files, isHeader(path));
  if (home !== undefined) {
    const tabs = tabsIn(home, files);
    const main = tabs.find((tab) => bearsFolderName(tab, home));
    if (main !== undefined && (isTab(path) || !isProgram(path, files))) {
      return joined(path, main, home, tabs.includes(path) || !isTab(path) ? tabs : [...tabs, path], files);
    }
    if (isTab(path)) return alone(path, path, folder, tabs.length > 1, files);
    const only = tabs.length === 1 ? tabs[0] : undefined;
    if (only !== undefined && !isProgram(path, files)) return alone(path, only, home, false, files);
  }
  if (isUnit(path) && isProgram(path, files)) return alone(path, path, folder, true, files);
  const programs = files
    .list(folder)
    .map((entry) => inside(folder, entry.name))
    .filter((other) => isUnit(other) && isProgram(other, files));
  const only = programs.length === 1 ? programs[0] : undefined;
  return only === undefined ? undefined : alone(path, only, folder, false, files);
}

/** A single file as a sketch, whatever stands around it: what a caller gets who names a .cpp or .c explicitly. */
export function sketchFrom(path: string, files: FileAccess): SketchPlace {
  return sketchOf(path, files) ?? alone(path, path, folderOf(path), true, files);
}

function tabsIn(folder: string, files: FileAccess): string[] {
  return files
    .list(folder)
    .filter((entry) => !entry.folder && isTab(entry.name))
    .map((entry) => inside(folder, entry.name));
}

/**
 * The folder itself where it holds tabs, or the folder above its `src` part that does. A header may stand in any folder below
 * its sketch (`headers`), since it takes part by being included.
 */
function sketchFolderAbove(folder: string, files: FileAccess, headers: boolean): string | undefined {
  if (tabsIn(folder, files).length > 0) return folder;
  for (let at = folder, depth = 0; depth < (headers ? HIGHEST_HEADER : DEEPEST_WALK); depth++) {
    const above = folderOf(at);
    if (above === at) return undefined;
    if (headers || folderName(at) === "src") {
      if (tabsIn(above, files).length > 0) return above;
      if (!headers) return undefined;
    }
    at = above;
  }
  return undefined;
}

/** `fan/fan.ino` */
function bearsFolderName(tab: string, folder: string): boolean {
  return basename(tab, extname(tab)) === folderName(folder);
}

function joined(path: string, main: string, folder: string, tabs: readonly string[], files: FileAccess): SketchPlace {
  const others = tabs.filter((tab) => tab !== main).sort();
  return { path, folder, tabs: [main, ...others], units: unitsAround(folder, files), unitsByHeader: [] };
}

/** `crowded`: other sketches stand in the same folder, so that a unit is taken only where its header is included. */
function alone(path: string, main: string, folder: string, crowded: boolean, files: FileAccess): SketchPlace {
  const around = unitsAround(folder, files).filter((unit) => unit !== main && !isProgram(unit, files));
  const tab = isTab(main);
  return {
    path,
    folder,
    tabs: tab ? [main] : [],
    units: [...(tab ? [] : [main]), ...(crowded ? [] : around)],
    unitsByHeader: crowded ? around : [],
  };
}

/** The units beside a sketch and under its `src` folder. */
function unitsAround(folder: string, files: FileAccess): string[] {
  const beside = files
    .list(folder)
    .filter((entry) => !entry.folder && isUnit(entry.name))
    .map((entry) => inside(folder, entry.name));
  return [...beside, ...unitsBelow(inside(folder, "src"), files)].slice(0, MOST_UNITS);
}

/** All units in a folder and below it. */
export function unitsBelow(folder: string, files: FileAccess, depth = 0): string[] {
  if (depth > DEEPEST_WALK) return [];
  const found: string[] = [];
  for (const entry of files.list(folder)) {
    const path = inside(folder, entry.name);
    if (entry.folder) {
      if (!entry.link) found.push(...unitsBelow(path, files, depth + 1));
    } else if (isUnit(path)) {
      found.push(path);
    }
  }
  return found.slice(0, MOST_UNITS);
}

function isUnit(path: string): boolean {
  return UNIT.has(extname(path).toLowerCase());
}

/** Whether a .cpp or .c file holds a program's entry: judged by its text alone, before anything is parsed. */
function isProgram(path: string, files: FileAccess): boolean {
  if (isTab(path) || isHeader(path)) return false;
  const reading = files.read(path);
  return reading.kind === "text" && ENTRY.test(reading.text);
}

/** `int main(`, also behind attributes or with them between, and the `main(` of old C, which has no type. */
const ENTRY =
  /^(?:main|[^\S\n]*(?:__attribute__\s*\(\([^)]*\)\)\s*)?(?:int|void)\s+(?:__attribute__\s*\(\([^)]*\)\)\s*)?(?:main|setup))\s*\(/m;
