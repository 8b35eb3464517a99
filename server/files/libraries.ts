/**
 * Libraries beside a sketch: folders that were named, and those that the build layout implies. A library takes part only
 * where one of its headers is included. Reads folder lists and `library.properties`, nothing else.
 */
import type { FileAccess } from "./file-access.js";
import { folderName, folderOf, inside } from "./path-names.js";
import { isHeader, unitsBelow } from "./sketch-place.js";

export interface Library {
  readonly name: string;
  /** Where its headers are found: `NAME/src`, or `NAME` itself in the flat layout. */
  readonly root: string;
  /** True for `src/`: every unit below it is built; in the flat layout only those in the folder and in `utility/`. */
  readonly recursive: boolean;
}

/**
 * The folders that hold libraries for a sketch, in order of precedence: those named by the caller; `libraries` in the
 * sketch's folder, beside it (a sketchbook) and in its workspace; those of a project around it; and the library in whose `examples` it stands.
 */
export function librariesFor(
  sketchFolder: string,
  named: readonly string[],
  workspace: readonly string[],
  files: FileAccess,
): Library[] {
  const folders = [
    ...named,
    inside(sketchFolder, "libraries"),
    inside(parentOf(sketchFolder), "libraries"),
    ...workspace.map((folder) => inside(folder, "libraries")),
    ...projectFolders(parentOf(sketchFolder), files),
  ];
  const found: Library[] = [];
  const seen = new Set<string>();
  const add = (library: Library | undefined): void => {
    if (library === undefined || seen.has(library.root)) return;
    seen.add(library.root);
    found.push(library);
  };
  for (const folder of folders) {
    if (files.kindOf(folder) !== "folder") continue;
    // The caller may name one library, or a folder of them, in which a stray header changes nothing.
    const entries = files.list(folder);
    const one = entries.some((entry) => entry.name === "library.properties");
    if (one || entries.some((entry) => !entry.folder && isHeader(entry.name))) add(libraryAt(folder, files));
    if (one) continue;
    for (const entry of entries) if (entry.folder) add(libraryAt(inside(folder, entry.name), files));
  }
  add(libraryAround(sketchFolder, files));
  return found;
}

/** The other common layout: `platformio.ini` beside `src`, with headers in `include` and libraries in `lib`. */
function projectFolders(project: string, files: FileAccess): string[] {
  if (files.kindOf(inside(project, "platformio.ini")) !== "file") return [];
  return [inside(project, "include"), inside(project, "lib")];
}

/** The folder above, for a relative path too. */
export function parentOf(folder: string): string {
  if (folder === "") return "..";
  const above = folderOf(folder);
  const name = folderName(folder);
  return folder === "." || folder === ".." || !folder.endsWith(name)
    ? inside(folder, "..")
    : above === ""
      ? "."
      : above;
}

function libraryAt(folder: string, files: FileAccess): Library | undefined {
  const properties = files.read(inside(folder, "library.properties"));
  if (properties.kind === "text" && (!isForAvr(properties.text) || isKeptBuiltIn(properties.text))) return undefined;
  const source = inside(folder, "src");
  // A `src` folder counts only together with library.properties; older libraries use the name for other things.
  const recursive = properties.kind === "text" && files.kindOf(source) === "folder";
  return { name: folderName(folder), root: recursive ? source : folder, recursive };
}

/** `NAME/examples/fan/fan.ino` uses the library NAME. */
function libraryAround(sketchFolder: string, files: FileAccess): Library | undefined {
  let at = sketchFolder;
  for (let depth = 0; depth < 4; depth++) {
    const above = parentOf(at);
    if (folderName(at) === "examples" && files.kindOf(inside(above, "library.properties")) === "file")
      return libraryAt(above, files);
    at = above;
  }
  return undefined;
}

/**
 * Libraries of the packaged core whose built-in model says more than executing them: a state machine in an interrupt routine
 * that the bus drives, and bits that are timed by counted cycles.
 */
const KEPT_BUILT_IN = new Set(["Wire", "SoftwareSerial", "HID"]);

function isKeptBuiltIn(properties: string): boolean {
  return KEPT_BUILT_IN.has(/^name\s*=\s*(.*?)\s*$/m.exec(properties)?.[1] ?? "");
}

/** `architectures=avr`, `architectures=*`, or no such line. */
function isForAvr(properties: string): boolean {
  const line = /^architectures\s*=(.*)$/m.exec(properties)?.[1];
  if (line === undefined) return true;
  const names = line.split(",").map((name) => name.trim());
  return names.some((name) => name === "avr" || name === "*" || name === "");
}

/** The library that offers a header: one of the header's own name first, then the first that has it. */
export function libraryWith(header: string, libraries: readonly Library[], files: FileAccess): Library | undefined {
  const having = libraries.filter((library) => files.kindOf(inside(library.root, header)) === "file");
  const stem = header.replace(/\.[^.]*$/, "");
  return having.find((library) => library.name === stem) ?? having[0];
}

/** What the build compiles of a library that is in use. */
export function unitsOf(library: Library, files: FileAccess): string[] {
  if (library.recursive) return unitsBelow(library.root, files);
  const utility = inside(library.root, "utility");
  const here = files.list(library.root).filter((entry) => !entry.folder && /\.(?:cpp|c|cc|cxx)$/i.test(entry.name));
  return [...here.map((entry) => inside(library.root, entry.name)), ...unitsBelow(utility, files)];
}
