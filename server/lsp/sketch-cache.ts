/** Analyses of open sketches, kept as long as nothing they rest on has changed, the least used one dropped first. */

import { type AnalyseInput, analyse } from "../analyse.js";
import type { Analysis } from "../analysis.js";
import type { FileAccess } from "../files/file-access.js";
import { type OpenedSketch, type OpenOptions, openSketch } from "../files/open-sketch.js";
import type { SketchPlace } from "../files/sketch-place.js";
import { DEFAULT_LIMITS, type Stop } from "../limits.js";
import type { Parser } from "../parse/parse.js";

export interface AnalysedSketch {
  readonly place: SketchPlace;
  readonly opened: OpenedSketch;
  readonly analysis: Analysis;
  /** For analysing again with edits; `stop` is that of the present question. */
  readonly input: (stop: Stop) => AnalyseInput;
}

export type Looked =
  | { readonly kind: "sketch"; readonly sketch: AnalysedSketch }
  | { readonly kind: "trouble"; readonly reason: string };

interface Kept {
  readonly seen: ReadonlyMap<string, string>;
  readonly looked: Looked;
}

export class SketchCache {
  readonly #parser: Parser;
  readonly #most: number;
  readonly #kept = new Map<string, Kept>();

  constructor(parser: Parser, most: number) {
    this.#parser = parser;
    this.#most = most;
  }

  /** Throws `Stopped` where `stop` does; a stopped analysis is not kept. */
  look(place: SketchPlace, options: OpenOptions, files: FileAccess, stop: Stop): Looked {
    const key = JSON.stringify([place.tabs, place.units, place.unitsByHeader, options]);
    const known = this.#kept.get(key);
    if (known !== undefined && stillHolds(known.seen, files)) {
      this.#kept.delete(key);
      this.#kept.set(key, known);
      return known.looked;
    }
    const made = this.#make(place, options, files, stop);
    this.#kept.delete(key);
    this.#kept.set(key, made);
    for (const oldest of this.#kept.keys()) {
      if (this.#kept.size <= this.#most) break;
      this.#kept.delete(oldest);
    }
    return made.looked;
  }

  #make(place: SketchPlace, options: OpenOptions, files: FileAccess, stop: Stop): Kept {
    const opening = openSketch(place, options, files);
    if (opening.kind === "unreadable") {
      // Nothing to watch: asked again, it is tried again.
      return {
        seen: new Map([[place.path, `unreadable ${files.stamp(place.path)}`]]),
        looked: { kind: "trouble", reason: `${place.path}: ${opening.reason}` },
      };
    }
    if (opening.kind === "no target")
      return { seen: opening.loaded.seen, looked: { kind: "trouble", reason: opening.reason } };
    const input = (ofQuestion: Stop): AnalyseInput => ({
      sources: opening.loaded.sources,
      target: opening.target,
      specifications: opening.specifications,
      parser: this.#parser,
      limits: DEFAULT_LIMITS,
      stop: ofQuestion,
    });
    const analysis = analyse(input(stop));
    return {
      seen: opening.loaded.seen,
      looked: { kind: "sketch", sketch: { place, opened: opening, analysis, input } },
    };
  }
}

function stillHolds(seen: ReadonlyMap<string, string>, files: FileAccess): boolean {
  for (const [path, stamp] of seen) if (files.stamp(path) !== stamp) return false;
  return true;
}
