/** The sketches that are rewritten: all single-file ones of the signal, quiet and oracle suites, marks blanked out. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { readMarks } from "../runner/marks.js";
import { plainSketch, type Sketch } from "./sketch.js";

const root = join(__dirname, "..");
const FOLDERS = ["signals", "quiet", "oracle/sketches"];

export function sourceSketches(): readonly { readonly name: string; readonly sketch: Sketch }[] {
  return FOLDERS.flatMap((folder) =>
    readdirSync(join(root, folder))
      .filter((name) => name.endsWith(".ino"))
      .sort()
      .map((name) => ({
        name: `${folder}/${name}`,
        sketch: plainSketch(readMarks(readFileSync(join(root, folder, name), "utf8")).text),
      })),
  );
}
