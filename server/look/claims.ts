/** What a comment in the sketch's own words claims of a timer: a prescaler, a kind of mode, a frequency. Common practice, no source. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import type { Analysis } from "../analysis.js";
import { sketchWrites, within } from "./look.js";

/** Words that tell of another state than the one that the line sets. */
const ELSEWHERE = /\b(not|was|instead|from|or|before)\b/i;

/** A number in a comment and where it stands in its text. */
export interface Claim {
  readonly value: number;
  readonly start: number;
  readonly end: number;
}

/** `prescaler 64`, `prescale = 64`, `prescaler: /64`, `clk/64`; null where the comment names none or several. */
export function prescalerClaim(text: string): Claim | null {
  const named = [
    ...text.matchAll(
      /\bprescal\w*\s*(?:of|to|is|=|:)?\s*\/?\s*([1-9]\d*)\b(?!\s*[kM]?Hz|[.,]\d)|\bclk(?:_?i\/?o)?\s*\/\s*([1-9]\d*)\b/dgi,
    ),
  ];
  const values = new Set(named.map((match) => Number(match[1] ?? match[2])));
  if (values.size !== 1 || ELSEWHERE.test(text) || /\b(no|without)\s+prescal/i.test(text)) return null;
  const at = named[0]!.indices![1] ?? named[0]!.indices![2]!;
  return { value: [...values][0]!, start: at[0], end: at[1] };
}

export function familyClaim(text: string): readonly ModeFact["family"][] | null {
  if (ELSEWHERE.test(text) || /\bdefault\b/i.test(text)) return null;
  const ctc = /\bCTC\b/.test(text);
  const fast = /\bfast[ -]?PWM\b/i.test(text);
  const phase = /\bphase[ -]correct\b/i.test(text);
  if (Number(ctc) + Number(fast) + Number(phase) !== 1) return null;
  if (ctc) return ["ctc"];
  return fast ? ["fast"] : ["phase correct", "phase and frequency correct"];
}

/** The one frequency that the comment names, in Hz; the stretch covers number and unit. */
export function frequencyClaim(text: string): Claim | null {
  if (ELSEWHERE.test(text) || /\b(default|interrupt|clock|timer clock)\b/i.test(text)) return null;
  const named = [...text.matchAll(/(\d+(?:\.\d+)?)\s*(k|M)?Hz\b/gi)];
  if (named.length !== 1) return null;
  const [whole, digits, prefix] = named[0]!;
  const factor = prefix?.toLowerCase() === "k" ? 1e3 : prefix === "M" ? 1e6 : 1;
  return { value: Number(digits) * factor, start: named[0]!.index, end: named[0]!.index + whole.length };
}

/** The frequency that the sketch asks of a timer: by a want on one of its pins, else by the one claim beside its writes; in Hz. */
export function frequencyAskedOf(analysis: Analysis, timer: TimerFact): number | null {
  const pins = analysis.pins.filter((pin) => pin.timer === timer.number).map((pin) => pin.pin);
  const asked = new Set<number>();
  for (const { comment, pin } of analysis.comments) {
    if (comment.kind === "want" && comment.frequency !== undefined && pin !== null && pins.includes(pin))
      asked.add(comment.frequency.hz);
  }
  if (asked.size > 0) return asked.size === 1 ? [...asked][0]! : null;
  for (const remark of analysis.remarks) {
    const { beside } = remark;
    const claim = beside === null ? null : frequencyClaim(remark.text);
    if (claim === null || claim.value === analysis.target.clockHz) continue;
    if (sketchWrites(analysis).some((write) => write.timer === timer.number && within(write.span, beside!)))
      asked.add(claim.value);
  }
  return asked.size === 1 ? [...asked][0]! : null;
}
