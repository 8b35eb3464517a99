/** The hover at a place: answers only where something is known, and never repeats a finding. */
import type { Span } from "../../shared-model/span.js";
import type { Analysis } from "../analysis.js";
import { hoverFacts } from "./hover-facts.js";
import { hoverText } from "./hover-text.js";

export interface HoverOptions {
  readonly enable: boolean;
}

export interface Hover {
  readonly span: Span;
  readonly markdown: string;
}

export function hover(
  analysis: Analysis,
  path: string,
  offset: number,
  options: HoverOptions = { enable: true },
): Hover | null {
  if (!options.enable) return null;
  const facts = hoverFacts(analysis, path, offset);
  if (facts === null) return null;
  const markdown = hoverText(facts);
  return markdown === "" ? null : { span: facts.span, markdown };
}
