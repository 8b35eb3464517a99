/** The folder from which a SARIF log counts its paths, and the paths as it writes them. */
import { realpathSync } from "node:fs";
import { dirname, isAbsolute, relative, resolve, sep } from "node:path";

export interface SourceRoot {
  /** What the folder is, in a sentence: where it lies is the machine's business. */
  readonly words: string;
  /** From the root, `/` between the parts, percent-encoded; null for what lies outside. */
  uriOf(path: string): string | null;
}

/** The current folder where every sketch lies in it, else the deepest folder that holds them all. */
export function sourceRoot(sketches: readonly string[], current = process.cwd()): SourceRoot {
  const here = real(current);
  const folders = sketches.map((path) => dirname(real(path)));
  if (folders.every((folder) => within(here, folder))) {
    return { words: "The folder from which the command was run.", uriOf: (path) => uri(here, path) };
  }
  const shared = folders.reduce(deepestShared);
  return { words: "The deepest folder that holds every sketch.", uriOf: (path) => uri(shared, path) };
}

/** Symbolic links followed; a path that is not there as it is. */
function real(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return resolve(path);
  }
}

function within(root: string, path: string): boolean {
  const way = relative(root, path);
  return way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

function deepestShared(left: string, right: string): string {
  let shared = left;
  while (!within(shared, right) && dirname(shared) !== shared) shared = dirname(shared);
  return shared;
}

function uri(root: string, path: string): string | null {
  const whole = real(path);
  if (!within(root, whole)) return null;
  return relative(root, whole)
    .split(sep)
    .map((part) => encodeURIComponent(part.replace(/\p{Cs}/gu, "\ufffd")))
    .join("/");
}
