/** Files by the names that a sheet for paper gives them: never a path of the machine on which it was made. */
import type { Analysis } from "../analysis.js";
import { baseName } from "./signal-rows.js";

export interface ShownPaths {
  /** `lamp.ino`, `src/knob.h`; a file elsewhere with its folder: `Servo/Servo.h`. */
  show(path: string): string;
  /** A message with the paths inside it shown in the same way. */
  clean(text: string): string;
}

export function shownPaths(analysis: Analysis): ShownPaths {
  const main = analysis.files[0]?.path ?? "";
  const folder = main.slice(0, main.length - baseName(main).length);
  const show = (path: string): string =>
    folder !== "" && path.startsWith(folder) ? path.slice(folder.length) : lastTwo(path);
  const known = analysis.files
    .map(({ path }) => path)
    .filter((path) => path !== show(path))
    .sort((left, right) => right.length - left.length);
  return {
    show,
    clean: (text) => {
      let clean = text;
      for (const path of known) clean = clean.replaceAll(path, show(path));
      return clean.replace(ABSOLUTE, "$1");
    },
  };
}

/** A path from a file system's root, at the start of a word: what counts is its last part. */
const ABSOLUTE = /(?<![^\s"'`(])(?:[A-Za-z]:)?[\\/](?:[^\s:"'`\\/]+[\\/])+([^\s:"'`\\/]*)/g;

function lastTwo(path: string): string {
  return path
    .split(/[\\/]/)
    .filter((part) => part !== "" && part !== "." && part !== "..")
    .slice(-2)
    .join("/");
}
