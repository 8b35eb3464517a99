/** Offsets of the expanded text back to the sketch: spans, and conditions in the sketch's own words. */
import type { Span } from "../../shared-model/span.js";
import type { Condition } from "../execute/state.js";
import type { Preprocessed } from "../preprocess/preprocessed.js";

const MAX_CONDITIONS = 3;
const MAX_LENGTH = 60;

export class Words {
  private readonly texts = new Map<string, string>();

  constructor(private readonly source: Preprocessed) {
    for (const file of source.files) this.texts.set(file.path, file.text);
  }

  span(start: number, end: number): Span {
    return this.source.map.span(start, Math.max(start, end));
  }

  text(span: Span): string {
    return this.texts.get(span.path)?.slice(span.start, span.end) ?? "";
  }

  /** `mode == 2`, `not (digitalRead(4))`, `in ISR(TIMER1_COMPA_vect)`; the last few of a path. Null where there is none. */
  conditions(condition: Condition | null): string | null {
    const found: string[] = [];
    for (let at = condition; at !== null && found.length < MAX_CONDITIONS; at = at.parent) {
      const said = this.say(at);
      if (!found.includes(said)) found.unshift(said);
    }
    return found.length === 0 ? null : found.join(" and ");
  }

  private say(condition: Condition): string {
    if (condition.routine !== null) return `in ${condition.routine}`;
    const raw = this.text(this.span(condition.start, condition.end)).replace(/\s+/g, " ").trim();
    const inner = unwrapped(raw);
    const short = inner.length > MAX_LENGTH ? `${inner.slice(0, MAX_LENGTH - 1)}…` : inner;
    if (condition.label !== null) return `${short} == ${condition.label}`;
    return condition.holds ? short : `not (${short})`;
  }
}

/** Without the parentheses of an if or while around it. */
function unwrapped(text: string): string {
  if (!text.startsWith("(") || !text.endsWith(")")) return text;
  let depth = 0;
  for (let at = 0; at < text.length; at++) {
    if (text[at] === "(") depth++;
    else if (text[at] === ")" && --depth === 0 && at < text.length - 1) return text;
  }
  return text.slice(1, -1).trim();
}
