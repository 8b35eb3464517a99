/**
 * An installed core's own sources: the functions that start and drive timers, pins and tones, with the board's variant.
 * Its classes (Serial, String and their like) stay built in: what they do to pins and timers is nothing, and to follow
 * them is long. Reads `boards.txt`, folder lists and the files that take part.
 */
import { basename } from "node:path";
import type { Target } from "../../shared-model/chip.js";
import type { CoreSources, SourceFile } from "../preprocess/source.js";
import type { FileAccess } from "./file-access.js";
import { inside } from "./path-names.js";
import type { LoadedSketch } from "./sketch-sources.js";

/** Headers taken from the core; all others of its headers stay built in. */
const OF_CORE = ["Arduino.h", "wiring_private.h"];
const OF_VARIANT = ["pins_arduino.h"];

/** Units of the classes that stay built in, of the start-up that the engine makes itself, and of operator new. */
const BUILT_IN = /^(?:CDC|HardwareSerial\d?|IPAddress|PluggableUSB|Print|Stream|USBCore|WString|abi|new|main)\.cpp$/;

/** What stands in the core's folder for this target, or why nothing of it can be used. */
export function coreSources(
  folder: string,
  target: Target,
  loaded: LoadedSketch,
  files: FileAccess,
): CoreSources | string {
  const home = inside(folder, "cores/arduino");
  const variant = inside(inside(folder, "variants"), variantOf(folder, target, files));
  const headers = new Map<string, SourceFile>();
  for (const [place, names] of [
    [home, OF_CORE],
    [variant, OF_VARIANT],
  ] as const) {
    for (const name of names) {
      const file = loaded.fileAt(inside(place, name), "core");
      if (file === undefined) return `there is no ${inside(place, name)}`;
      headers.set(name, file);
    }
  }
  const candidates = files
    .list(home)
    .filter((entry) => !entry.folder && /\.(?:c|cpp)$/.test(entry.name) && !BUILT_IN.test(entry.name))
    .flatMap((entry) => loaded.fileAt(inside(home, entry.name), "core") ?? []);
  return { headers, units: unitsNamed(candidates, loaded.met) };
}

/** As out of an archive: units that define a function which the program, or a unit in use, names. The core's start needs init. */
function unitsNamed(candidates: readonly SourceFile[], program: readonly SourceFile[]): SourceFile[] {
  const named = new Set(["init", ...program.flatMap(({ text }) => text.match(/\b[A-Za-z_]\w*\b/g) ?? [])]);
  const used: SourceFile[] = [];
  for (let found = true; found; ) {
    found = false;
    for (const unit of candidates) {
      if (used.includes(unit) || !functionsIn(unit.text).some((name) => named.has(name))) continue;
      used.push(unit);
      for (const name of unit.text.match(/\b[A-Za-z_]\w*\b/g) ?? []) named.add(name);
      found = true;
    }
  }
  return candidates.filter((unit) => used.includes(unit));
}

/** Names in front of `(…) {` at the start of a line: more than the functions is harmless. */
function functionsIn(text: string): string[] {
  return [...text.matchAll(/^[A-Za-z_][\w \t*]*?\b(\w+)\s*\([^;{}()]*\)\s*\{/gm)].map((match) => match[1]!);
}

/** `uno.build.variant=standard`; a bare chip has the pins of the boards that carry it. */
function variantOf(folder: string, target: Target, files: FileAccess): string {
  const reading = files.read(inside(folder, "boards.txt"));
  const id = target.board?.id;
  if (reading.kind === "text" && id !== undefined) {
    for (const line of reading.text.split("\n")) {
      const [key, value] = line.split("=");
      if (key === `${id}.build.variant` && value !== undefined) return basename(value.trim());
    }
  }
  return /2560|1280/.test(target.chip.id) ? "mega" : "standard";
}
