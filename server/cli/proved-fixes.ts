/** Which fixes of a sketch's findings keep their promise: each is made in memory and the sketch analysed again. */
import type { Fix } from "../findings/finding.js";
import { proveFix } from "../findings/prove.js";
import { DOOR_LIMITS, Stopped } from "../limits.js";
import type { SketchSheet } from "./report-sketches.js";

type Edits = ReturnType<Fix["edit"]>;

export interface ProvedFixes {
  readonly edits: ReadonlyMap<Fix, Edits>;
  /** Fixes that were left alone, since there were too many or the time was up. */
  readonly untried: number;
}

export function provedFixes({ input, analysis, findings, allowed }: SketchSheet): ProvedFixes {
  const edits = new Map<Fix, Edits>();
  const candidates = [...findings, ...allowed].flatMap((finding) => finding.fixes.map((fix) => ({ finding, fix })));
  if (input === null) return { edits, untried: candidates.length };
  const deadline = performance.now() + DOOR_LIMITS.commandLineMilliseconds;
  const stop = (): void => {
    if (performance.now() > deadline) throw new Stopped();
  };
  let tried = 0;
  for (const { finding, fix } of candidates.slice(0, DOOR_LIMITS.fixesProved)) {
    try {
      const proof = proveFix({ ...input, stop }, analysis, finding, fix);
      if ("edits" in proof) edits.set(fix, proof.edits);
    } catch (error) {
      // Time is up for all that follow; a fix that fails is not offered, and loses only itself.
      if (error instanceof Stopped) break;
    }
    tried++;
  }
  return { edits, untried: candidates.length - tried };
}
