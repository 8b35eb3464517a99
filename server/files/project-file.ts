/** `sketch.yaml`, the ecosystem's project file: which board it asks for. Nothing else of it is used. */
import { parse } from "yaml";
import type { FileAccess } from "./file-access.js";
import { inside } from "./path-names.js";

export type ProjectBoard =
  | { readonly kind: "none" }
  | { readonly kind: "board"; readonly boardId: string; readonly path: string }
  | { readonly kind: "unreadable"; readonly reason: string; readonly path: string };

/**
 * The board of `default_fqbn`, or of the profile that `default_profile` names (of the only one where there is one).
 * `arduino:avr:nano:cpu=atmega168` gives `nano:cpu=atmega168`.
 */
export function projectBoard(sketchFolder: string, files: FileAccess): ProjectBoard {
  for (const name of ["sketch.yaml", "sketch.yml"]) {
    const path = inside(sketchFolder, name);
    const reading = files.read(path);
    if (reading.kind === "missing") continue;
    if (reading.kind === "refused") return { kind: "unreadable", reason: reading.reason, path };
    return boardIn(reading.text, path);
  }
  return { kind: "none" };
}

function boardIn(text: string, path: string): ProjectBoard {
  let content: unknown;
  try {
    content = parse(text, { maxAliasCount: 20 });
  } catch (error) {
    const first = error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);
    return { kind: "unreadable", reason: `it is not YAML: ${first}`, path };
  }
  const qualified = nameIn(content);
  if (qualified === undefined) return { kind: "none" };
  const [, architecture, board, options] = qualified.split(":");
  if (board === undefined || board === "") {
    return {
      kind: "unreadable",
      reason: `"${qualified}" is no board name of the form package:architecture:board`,
      path,
    };
  }
  if (architecture !== "avr") {
    return {
      kind: "unreadable",
      reason: `"${qualified}" is a board of the ${architecture} family; only avr boards are known`,
      path,
    };
  }
  const processor = options?.split(",").find((option) => option.startsWith("cpu="));
  return { kind: "board", boardId: processor === undefined ? board : `${board}:${processor}`, path };
}

function nameIn(content: unknown): string | undefined {
  if (!isRecord(content)) return undefined;
  const direct = content["default_fqbn"];
  if (typeof direct === "string") return direct;
  const profiles = content["profiles"];
  if (!isRecord(profiles)) return undefined;
  const names = Object.keys(profiles);
  const chosen = content["default_profile"];
  const name = typeof chosen === "string" ? chosen : names.length === 1 ? names[0] : undefined;
  const profile = name === undefined ? undefined : profiles[name];
  const qualified = isRecord(profile) ? profile["fqbn"] : undefined;
  return typeof qualified === "string" ? qualified : undefined;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
