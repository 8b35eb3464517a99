/**
 * Libraries beside a sketch: folders that were named, and those that the build layout implies. A library takes part only
 * where one of its headers is included; until a header is looked for in it, nothing of it is read. Reads folder lists and
 * `library.properties`, nothing else.
 */
import type { FileAccess } from "./file-access.js";
import { folderName, folderOf, inside } from "./path-names.js";
import { isHeader, unitsBelow } from "./sketch-place.js";

/** A folder that may hold a library. */
export interface LibraryFolder {
  readonly name: string;
  readonly folder: string;
}

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
): LibraryFolder[] {
  const folders = [
    ...named,
    inside(sketchFolder, "libraries"),
    inside(parentOf(sketchFolder), "libraries"),
    ...workspace.map((folder) => inside(folder, "libraries")),
    ...projectFolders(parentOf(sketchFolder), files),
  ];
  const found = new Map<string, LibraryFolder>();
  const add = (folder: string | undefined): void => {
    if (folder !== undefined && !found.has(folder)) found.set(folder, { name: folderName(folder), folder });
  };
  for (const folder of folders) {
    if (files.kindOf(folder) !== "folder") continue;
    // The caller may name one library, or a folder of them, in which a stray header changes nothing.
    const entries = files.list(folder);
    const one = entries.some((entry) => entry.name === "library.properties");
    if (one || entries.some((entry) => !entry.folder && isHeader(entry.name))) add(folder);
    if (one) continue;
    for (const entry of entries) if (entry.folder) add(inside(folder, entry.name));
  }
  add(libraryAround(sketchFolder, files));
  return [...found.values()];
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

/** A library and the headers that it offers. */
interface Offer {
  readonly stamp: string;
  readonly library: Library | undefined;
  readonly headers: ReadonlySet<string>;
}

/** What was found in each folder: it holds as long as neither the folder, its `src` nor its description changes. */
const known = new WeakMap<FileAccess, Map<string, Offer>>();

/** The libraries of one sketch, looked into when they are asked for, each once. */
export class Shelf {
  readonly #folders: readonly LibraryFolder[];
  readonly #files: FileAccess;
  readonly #offers = new Map<string, Offer>();

  constructor(folders: readonly LibraryFolder[], files: FileAccess) {
    this.#folders = folders;
    this.#files = files;
  }

  /** The library that offers a header: one of the header's own name first, then the first that has it. */
  with(header: string): Library | undefined {
    const stem = header.replace(/\.[^.]*$/, "");
    const namesake = this.#folders.filter(({ name }) => name === stem);
    return this.#first(namesake, header) ?? this.#first(this.#folders, header);
  }

  #first(folders: readonly LibraryFolder[], header: string): Library | undefined {
    for (const { folder } of folders) {
      const { library, headers } = this.#offer(folder);
      if (library === undefined) continue;
      // A header in a folder of its own, as in `lamp/dimmer.h`, is in no list.
      const has = header.includes("/")
        ? this.#files.kindOf(inside(library.root, header)) === "file"
        : headers.has(header);
      if (has) return library;
    }
    return undefined;
  }

  #offer(folder: string): Offer {
    const present = this.#offers.get(folder);
    if (present !== undefined) return present;
    const offer = offerOf(folder, this.#files);
    this.#offers.set(folder, offer);
    return offer;
  }
}

function offerOf(folder: string, files: FileAccess): Offer {
  const watched = [folder, inside(folder, "src"), inside(folder, "library.properties")];
  const stamp = watched.map((path) => files.stamp(path)).join(" ");
  let table = known.get(files);
  if (table === undefined) {
    table = new Map();
    known.set(files, table);
  }
  const present = table.get(folder);
  if (present?.stamp === stamp) return present;
  const library = libraryAt(folder, files);
  const entries = library === undefined ? [] : files.list(library.root);
  const headers = new Set(entries.filter((entry) => !entry.folder).map((entry) => entry.name));
  const offer = { stamp, library, headers };
  table.set(folder, offer);
  return offer;
}

/** The library in a folder; undefined where it is for other chips, or kept built in. */
function libraryAt(folder: string, files: FileAccess): Library | undefined {
  const properties = files.read(inside(folder, "library.properties"));
  if (properties.kind === "text" && (!isForAvr(properties.text) || isKeptBuiltIn(properties.text))) return undefined;
  const source = inside(folder, "src");
  // A `src` folder counts only together with library.properties; older libraries use the name for other things.
  const recursive = properties.kind === "text" && files.kindOf(source) === "folder";
  return { name: folderName(folder), root: recursive ? source : folder, recursive };
}

/** `NAME/examples/fan/fan.ino` uses the library NAME. */
function libraryAround(sketchFolder: string, files: FileAccess): string | undefined {
  let at = sketchFolder;
  for (let depth = 0; depth < 4; depth++) {
    const above = parentOf(at);
    if (folderName(at) === "examples" && files.kindOf(inside(above, "library.properties")) === "file") return above;
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

/** What the build compiles of a library that is in use. */
export function unitsOf(library: Library, files: FileAccess): string[] {
  if (library.recursive) return unitsBelow(library.root, files);
  const utility = inside(library.root, "utility");
  const here = files.list(library.root).filter((entry) => !entry.folder && /\.(?:cpp|c|cc|cxx)$/i.test(entry.name));
  return [...here.map((entry) => inside(library.root, entry.name)), ...unitsBelow(utility, files)];
}
