/**
 * A sketch's place → the text that the stages get. Headers are read when they are asked for; units of a library are taken
 * where one of its headers is included. What cannot be read becomes a gap, never an exception.
 */
import { isAbsolute, normalize, relative, resolve } from "node:path";
import type { Gap, SketchSources, SourceFile } from "../preprocess/source.js";
import type { FileAccess } from "./file-access.js";
import { type Library, librariesFor, parentOf, Shelf, unitsOf } from "./libraries.js";
import { folderOf, inside } from "./path-names.js";
import type { SketchPlace } from "./sketch-place.js";

export interface SourceOptions {
  /** Folders of libraries (or single libraries) named by the user. */
  readonly libraries: readonly string[];
  /** Folders that may be read besides the sketch's own, the folder around it and the libraries. */
  readonly workspace: readonly string[];
  /** Other folders that may be read. */
  readonly also?: readonly string[];
}

export interface LoadedSketch {
  readonly place: SketchPlace;
  readonly sources: SketchSources;
  /** The sketch's own files: tabs, units, and headers as they are included. */
  readonly own: readonly SourceFile[];
  /** Every file that was met before headers are asked for. */
  readonly met: readonly SourceFile[];
  /** Another file of a folder that may be read; undefined where there is none. */
  readonly fileAt: (path: string, kind: SourceFile["kind"]) => SourceFile | undefined;
  /** Files that could not be read, limits of this stage. */
  readonly gaps: readonly Gap[];
  /** Every path that was looked at with its stamp: the answer holds as long as none of them changes. Grows while headers are asked for. */
  readonly seen: ReadonlyMap<string, string>;
}

/** More files than this in one program is a mistake in the layout rather than a sketch. */
const MOST_FILES = 1_500;

/** Undefined with the reason where the main file itself cannot be read. */
export function loadSketch(
  place: SketchPlace,
  options: SourceOptions,
  files: FileAccess,
): LoadedSketch | { readonly unreadable: string } {
  const reader = new SketchReader(place, options, files);
  return reader.load();
}

/** One loading of one sketch: what has been read, and from which library it came. */
class SketchReader {
  readonly #place: SketchPlace;
  readonly #files: FileAccess;
  readonly #shelf: Shelf;
  readonly #roots: readonly string[];
  readonly #read = new Map<string, SourceFile | undefined>();
  readonly #libraryOf = new Map<string, Library | undefined>();
  readonly #seen = new Map<string, string>();
  readonly #gaps: Gap[] = [];

  constructor(place: SketchPlace, options: SourceOptions, files: FileAccess) {
    this.#place = place;
    this.#files = files;
    const folders = librariesFor(place.folder, options.libraries, options.workspace, files);
    this.#shelf = new Shelf(folders, files);
    this.#roots = [
      place.folder,
      parentOf(place.folder),
      ...options.workspace,
      ...options.libraries,
      ...(options.also ?? []),
      ...folders.map((library) => library.folder),
    ].map((folder) => resolve(folder));
  }

  load(): LoadedSketch | { readonly unreadable: string } {
    const main = this.#place.tabs[0] ?? this.#place.units[0];
    if (main === undefined) return { unreadable: "there is no sketch in it" };
    if (this.#file(main, "sketch") === undefined) {
      const reading = this.#files.read(main);
      return { unreadable: reading.kind === "refused" ? reading.reason : "there is no such file" };
    }

    // A folder's stamp changes when a tab is added to it or taken away.
    for (const folder of [this.#place.folder, inside(this.#place.folder, "src")]) {
      this.#seen.set(folder, this.#files.stamp(folder));
    }
    const tabs = this.#place.tabs.flatMap((path) => this.#file(path, "sketch") ?? []);
    const units = this.#place.units.flatMap((path) => this.#file(path, "sketch") ?? []);
    const all = this.#followIncludes(tabs, units);
    return {
      place: this.#place,
      own: all.filter((file) => file.kind === "sketch"),
      met: all,
      fileAt: (path, kind) => this.#file(path, kind),
      sources: { tabs, units, include: (name, from, angled) => this.#include(name, from, angled) },
      gaps: this.#gaps,
      seen: this.#seen,
    };
  }

  /** Adds to `units` what included headers pull in: a library's units, and the unit that belongs to a header. Gives every file met. */
  #followIncludes(tabs: readonly SourceFile[], units: SourceFile[]): SourceFile[] {
    const inUse = new Set<string>();
    const visited = new Set<SourceFile>();
    const waiting: SourceFile[] = [...tabs, ...units];
    for (let at = waiting.shift(); at !== undefined; at = waiting.shift()) {
      if (visited.has(at)) continue;
      visited.add(at);
      if (visited.size > MOST_FILES) {
        this.#gaps.push({
          reason: `more than ${MOST_FILES} files belong to this sketch; the rest is not read`,
          span: null,
          affects: [],
        });
        break;
      }
      for (const { name, angled } of includesIn(at.text)) {
        const header = this.#include(name, at.path, angled);
        if (header === undefined) continue;
        waiting.push(header);
        for (const path of this.#unitsPulledBy(header.path, inUse)) {
          const unit = this.#file(path, this.#place.unitsByHeader.includes(path) ? "sketch" : "library");
          if (unit === undefined || units.includes(unit)) continue;
          units.push(unit);
          waiting.push(unit);
        }
      }
    }
    return [...visited];
  }

  #unitsPulledBy(header: string, inUse: Set<string>): string[] {
    const stem = header.replace(/\.[^./]*$/, "");
    const own = this.#place.unitsByHeader.filter((unit) => unit.replace(/\.[^./]*$/, "") === stem);
    const found = [...this.#libraryOf.values()];
    const library = found.find((candidate) => candidate && header.startsWith(inside(candidate.root, "")));
    if (library === undefined || inUse.has(library.root)) return own;
    inUse.add(library.root);
    return [...own, ...unitsOf(library, this.#files)];
  }

  #include(name: string, from: string, angled: boolean): SourceFile | undefined {
    const kindOf = this.#read.get(normalize(from))?.kind === "library" ? "library" : "sketch";
    const beside = angled ? undefined : this.#file(inside(folderOf(from), name), kindOf);
    if (beside !== undefined) return beside;
    const library = this.#libraryWith(name);
    const offered = library === undefined ? undefined : this.#file(inside(library.root, name), "library");
    if (offered !== undefined || (kindOf === "library" && angled)) return offered;
    // The build has no sketch folder on its search path; many sketches that compile elsewhere rely on one, so it comes last.
    const { folder } = this.#place;
    return this.#file(inside(folder, name), kindOf) ?? this.#file(inside(inside(folder, "src"), name), kindOf);
  }

  #libraryWith(header: string): Library | undefined {
    if (!this.#libraryOf.has(header)) this.#libraryOf.set(header, this.#shelf.with(header));
    return this.#libraryOf.get(header);
  }

  /** Each file is one value, however it was named. */
  #file(path: string, kind: SourceFile["kind"]): SourceFile | undefined {
    const key = normalize(path);
    if (this.#read.has(key)) return this.#read.get(key);
    const file = this.#fresh(path, kind);
    this.#read.set(key, file);
    return file;
  }

  #fresh(path: string, kind: SourceFile["kind"]): SourceFile | undefined {
    if (!this.#mayRead(path)) return undefined;
    this.#seen.set(path, this.#files.stamp(path));
    if (this.#files.kindOf(path) !== "file") return undefined;
    const reading = this.#files.read(path);
    if (reading.kind === "text") return { path, text: reading.text, kind };
    if (reading.kind === "refused") {
      this.#gaps.push({ reason: `${path} was not read: ${reading.reason}`, span: null, affects: [] });
    }
    return undefined;
  }

  /** Nothing outside the workspace, the sketch's surroundings and the libraries is ever read (design section 9). */
  #mayRead(path: string): boolean {
    const real = resolve(path);
    return this.#roots.some((root) => {
      const way = relative(root, real);
      return way === "" || (!way.startsWith("..") && !isAbsolute(way));
    });
  }
}

/** Names that a text includes, whether or not the line is active: only used to find units, never to judge text. */
function includesIn(text: string): { readonly name: string; readonly angled: boolean }[] {
  const found: { name: string; angled: boolean }[] = [];
  for (const match of text.matchAll(/^[^\S\n]*#[^\S\n]*include[^\S\n]*(?:"([^"\n]+)"|<([^>\n]+)>)/gm)) {
    const quoted = match[1];
    found.push(quoted === undefined ? { name: match[2] ?? "", angled: true } : { name: quoted, angled: false });
  }
  return found;
}
