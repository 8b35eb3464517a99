/**
 * Paths kept as the caller wrote them: `./fan/fan.ino` stays so in every message, where node's join would shorten it.
 * A folder of "" is the current one.
 */
import { basename, resolve } from "node:path";

/** `fan` for `fan/fan.ino`, "" for `fan.ino`, `/` for `/fan.ino`. */
export function folderOf(path: string): string {
  const at = lastSeparator(path);
  if (at < 0) return "";
  return at === 0 ? path.slice(0, 1) : path.slice(0, at);
}

/** A name inside a folder. */
export function inside(folder: string, name: string): string {
  if (folder === "") return name;
  return lastSeparator(folder) === folder.length - 1 ? `${folder}${name}` : `${folder}/${name}`;
}

/** The folder's own name, also where it was given as `.` or with a trailing separator. */
export function folderName(folder: string): string {
  return basename(resolve(folder));
}

function lastSeparator(path: string): number {
  return Math.max(path.lastIndexOf("/"), process.platform === "win32" ? path.lastIndexOf("\\") : -1);
}
