/**
 * What the board packages' build compiles and links besides the tabs of a sketch's folder: units beside it and under
 * `src`, and the libraries of the sketchbook (`libraries` beside the folder) and of the packaged core that are included.
 * Written from the build's rules, without a look at the product's own.
 */
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, dirname, extname, join } from "node:path";

const UNITS = new Set([".c", ".cpp"]);

export interface Layout {
  /** Folders for `-I`. */
  readonly includes: readonly string[];
  /** Units in the order in which they are linked; `null` stands for the tabs. */
  readonly units: readonly (string | null)[];
}

export function layoutOf(sketch: string, core: string): Layout {
  if (!existsSync(sketch)) return { includes: [], units: [null] };
  const packaged = join(core, "libraries");
  if (!statSync(sketch).isDirectory()) {
    const used = librariesUsed([sketch], [packaged]);
    return { includes: used.map(({ root }) => root), units: [null, ...used.flatMap(({ units }) => units)] };
  }
  const tabs = `${join(sketch, basename(sketch))}.ino.cpp`;
  const own = [...unitsIn(sketch, false), ...unitsIn(join(sketch, "src"), true), tabs].sort();
  const libraries = librariesUsed(filesIn(sketch), [join(dirname(sketch), "libraries"), packaged]);
  return {
    includes: [sketch, ...libraries.map(({ root }) => root)],
    units: [...own, ...libraries.flatMap(({ units }) => units)].map((unit) => (unit === tabs ? null : unit)),
  };
}

interface Library {
  readonly root: string;
  readonly units: readonly string[];
  readonly headers: ReadonlySet<string>;
}

/** Those whose headers are included by the sketch's files, or by a library that is in use. */
function librariesUsed(files: readonly string[], books: readonly string[]): Library[] {
  const all = books
    .filter((book) => existsSync(book))
    .flatMap((book) =>
      readdirSync(book)
        .sort()
        .map((name) => libraryAt(join(book, name))),
    );
  const used: Library[] = [];
  const waiting = [...files];
  for (let file = waiting.shift(); file !== undefined; file = waiting.shift()) {
    for (const [, name] of readFileSync(file, "utf8").matchAll(/^[ \t]*#[ \t]*include[ \t]*[<"]([^">]+)[>"]/gm)) {
      const library = all.find((candidate) => candidate.headers.has(name!));
      if (library === undefined || used.includes(library)) continue;
      used.push(library);
      waiting.push(...filesIn(library.root));
    }
  }
  return used;
}

function libraryAt(folder: string): Library {
  const source = join(folder, "src");
  const recursive = existsSync(join(folder, "library.properties")) && existsSync(source);
  const root = recursive ? source : folder;
  const units = recursive ? unitsIn(root, true) : [...unitsIn(root, false), ...unitsIn(join(root, "utility"), true)];
  return { root, units, headers: new Set(readdirSync(root).filter((name) => extname(name) === ".h")) };
}

function unitsIn(folder: string, deep: boolean): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return deep ? unitsIn(path, true) : [];
      return UNITS.has(extname(entry.name)) ? [path] : [];
    });
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === "examples" ? [] : filesIn(path);
    return /\.(?:ino|h|c|cpp)$/.test(entry.name) ? [path] : [];
  });
}
