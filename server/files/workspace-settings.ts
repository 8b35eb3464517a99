/**
 * The editor's settings as the command line finds them: `.vscode/settings.json` of the folder above the sketch, no further up
 * than the repository that it lies in. Only named specifications are taken from there.
 */
import { OWN_SPECIFICATIONS } from "../../shared-model/wants/own-specifications.js";
import type { FileAccess } from "./file-access.js";
import { folderOf, inside } from "./path-names.js";

export type WorkspaceSettings =
  | { readonly kind: "none" }
  | { readonly kind: "settings"; readonly path: string; readonly specifications: unknown }
  | { readonly kind: "unreadable"; readonly path: string; readonly reason: string };

const HIGHEST = 12;
const REPOSITORY = [".git", ".hg"];

/** `absolute`: the sketch's folder by its full name, so that folders above can be found. */
export function workspaceSettings(absolute: string, files: FileAccess): WorkspaceSettings {
  for (let folder = absolute, level = 0; level < HIGHEST; level++) {
    const path = inside(inside(folder, ".vscode"), "settings.json");
    const reading = files.read(path);
    if (reading.kind === "refused") return { kind: "unreadable", path, reason: reading.reason };
    if (reading.kind === "text") return settingsIn(reading.text, path);
    const above = folderOf(folder);
    if (above === folder || REPOSITORY.some((name) => files.kindOf(inside(folder, name)) !== undefined)) break;
    folder = above;
  }
  return { kind: "none" };
}

function settingsIn(text: string, path: string): WorkspaceSettings {
  let content: unknown;
  try {
    content = JSON.parse(plainJson(text));
  } catch (error) {
    const reason = error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);
    return { kind: "unreadable", path, reason: `it is not JSON: ${reason}` };
  }
  if (typeof content !== "object" || content === null || Array.isArray(content))
    return { kind: "unreadable", path, reason: "it is no table of settings" };
  return { kind: "settings", path, specifications: (content as Record<string, unknown>)[OWN_SPECIFICATIONS] };
}

/** Comments and commas before a closing bracket blanked out, as the editor allows them; every offset stays. */
export function plainJson(text: string): string {
  const piece = /"(?:[^"\\\n]|\\.)*"?|\/\/[^\n]*|\/\*[\s\S]*?(?:\*\/|$)|\s+|[\s\S]/y;
  const pieces: string[] = [];
  /** Index of a comma behind which nothing but blanks and comments came. */
  let comma = -1;
  for (let match = piece.exec(text); match !== null; match = piece.exec(text)) {
    const [found] = match;
    const isComment = found.startsWith("//") || found.startsWith("/*");
    if ((found === "}" || found === "]") && comma >= 0) pieces[comma] = " ";
    if (found === ",") comma = pieces.length;
    else if (!isComment && found.trim() !== "") comma = -1;
    pieces.push(isComment ? found.replace(/[^\n]/g, " ") : found);
  }
  return pieces.join("");
}
