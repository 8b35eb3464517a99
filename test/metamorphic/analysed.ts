/** A rewritable sketch read and analysed: as the doors would, with the files that a rewriting made beside it. */
import { analyse } from "../../server/analyse.js";
import type { Analysis } from "../../server/analysis.js";
import { targetInComments } from "../../server/files/target-comment.js";
import { DEFAULT_LIMITS } from "../../server/limits.js";
import type { Parser } from "../../server/parse/parse.js";
import type { SourceFile } from "../../server/preprocess/source.js";
import { resolveTarget } from "../../shared-model/target.js";
import { Reading, type Sketch } from "./sketch.js";

export function analysed(sketch: Sketch, parser: Parser): Analysis {
  const file = (path: string, text: string): SourceFile => ({ path, text, kind: "sketch" });
  const main = file("sketch.ino", sketch.text);
  const units = sketch.units.map(({ name, text }) => file(name, text));
  const headers = new Map([...sketch.headers].map(([name, text]) => [name, file(name, text)]));
  const tabs = [main, ...sketch.tabs.map(({ name, text }) => file(name, text))];
  const answer = resolveTarget({ comment: targetInComments([...tabs, ...units, ...headers.values()]) });
  if ("problem" in answer) throw new Error(answer.problem);
  return analyse({
    sources: { tabs, units, include: (name) => headers.get(name) },
    target: answer.target,
    parser,
    limits: DEFAULT_LIMITS,
    stop: () => {},
  });
}

/** The text as written with its tree; null where the tree has stretches that the grammar cannot read before expansion. */
export function readingOf(sketch: Sketch, parser: Parser): Reading | null {
  const tree = parser.parse(sketch.text);
  return tree.errors.length > 0 || tree.refused !== null ? null : new Reading(sketch, tree.root);
}
