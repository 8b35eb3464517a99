/** A plan written down in the first manner that is proved to keep its promise. */
import type { Plan } from "../../shared-model/plans/plan.js";
import type { AnalyseInput } from "../analyse.js";
import type { Analysis } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";
import { MANNERS, writePlan } from "./plan-edit.js";
import { provePlan } from "./prove-plan.js";

export interface ProvedPlan {
  readonly edits: readonly TextEdit[];
  readonly code: readonly string[];
  /** Units whose duty the sketch never writes. */
  readonly dutyOpen: readonly string[];
  readonly spread: boolean;
  readonly after: Analysis;
}

/** Up to one analysis of the sketch for each manner that gives another text; most plans are proved by the first. */
export function tryPlan(
  input: AnalyseInput,
  analysis: Analysis,
  plan: Plan,
  names: ReadonlyMap<string, string>,
): ProvedPlan | { readonly refused: string } {
  const tried = new Set<string>();
  let refused: string | null = null;
  for (const manner of MANNERS) {
    const written = writePlan(analysis, plan, names, manner);
    if (typeof written === "string") {
      refused ??= written;
      continue;
    }
    const key = JSON.stringify([written.edits, manner.duty]);
    if (tried.has(key)) continue;
    tried.add(key);
    input.stop();
    const proof = provePlan(input, analysis, plan, written, manner);
    if ("edits" in proof)
      return {
        edits: proof.edits,
        code: written.code,
        dutyOpen: written.dutyOpen,
        spread: written.spread,
        after: proof.after,
      };
    refused ??= proof.refused;
  }
  return { refused: refused ?? "there is no place for the code" };
}
