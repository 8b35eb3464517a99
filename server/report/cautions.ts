/** What a sheet has to say beside its numbers (design section 9): the cautions of named uses, and those that always stand. */
import { findSpecification } from "../../shared-model/specifications.js";
import type { Analysis } from "../analysis.js";

const ALWAYS = [
  "A prediction is no proof of safety: check on the bench with the load disconnected, follow local codes, and have licensed people do licensed work.",
  "Pins float from reset until setup has run, the boot loader's time included: fit a pull resistor wherever a floating input could switch something on.",
];

/** Of each specification that a want of the sketch names, once each, in the order of the wants. */
export function namedCautions({ comments, specifications }: Analysis): string[] {
  const ids = comments.flatMap(({ comment }) => (comment.kind === "want" ? (comment.specification ?? []) : []));
  return [...new Set(ids)].flatMap((id) => {
    const caution = findSpecification(id, specifications)?.caution;
    return caution === undefined ? [] : [`${id}: ${caution}`];
  });
}

export function sheetCautions(analysis: Analysis): string[] {
  return [...namedCautions(analysis), ...ALWAYS];
}
