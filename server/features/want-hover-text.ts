/** The hover on a want: verdict and what the pin gives first, then why, then what the specification says. */
import { showSpread } from "../../shared-model/clock-spread.js";
import { showVolts } from "../../shared-model/meter-voltage.js";
import { showHz, showSeconds, showShare } from "../../shared-model/show-numbers.js";
import type { Bounds } from "../../shared-model/signal.js";
import { showBoundsHz } from "../look/show.js";
import type { WantedPin, WantFacts } from "./want-facts.js";

/** A want's hover may be longer than others: a specification brings its source and its caution. */
export const WANT_HOVER_LINES = 8;

const VERDICT: Readonly<Record<WantedPin["judged"]["met"], string>> = {
  yes: "met",
  marginal: "met only if the clock is right",
  no: "not met",
  unknown: "not known whether met",
};

export function wantLines(facts: WantFacts): readonly string[] {
  const { specification, pins } = facts;
  const source =
    specification === null ? [] : [plain(`${specification.id}: ${specification.name} (${specification.source})`)];
  const caution = specification?.caution === undefined ? [] : [`⚠ ${plain(specification.caution)}`];
  const [only] = pins;
  const about =
    pins.length === 1 && only !== undefined ? linesOfOne(only, facts) : pins.map((pin) => lineAmongMany(pin, facts));
  const room = WANT_HOVER_LINES - source.length - caution.length;
  return [...about.slice(0, room), ...source, ...caution];
}

/** A specification may be anybody's own: its words are words, no markup. */
function plain(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .slice(0, 300)
    .replace(/[\\`*_[\]<>!#|~]/g, "\\$&");
}

function linesOfOne(pin: WantedPin, facts: WantFacts): string[] {
  const { judged, nearest } = pin;
  const gives = givenWords(pin, facts);
  const beside = judged.beside ?? [];
  // What is met has been said with its numbers in the first lines.
  const why = judged.met === "yes" ? [] : judged.reasons.slice(0, judged.reasons.length - beside.length).slice(0, 3);
  return [
    `**${pin.label}: ${VERDICT[judged.met]}**${gives.frequency === null ? "" : `: ${gives.frequency}`}`,
    ...(gives.rest === "" ? [] : [gives.rest]),
    ...why,
    ...(nearest === null
      ? []
      : [`\`${nearest.register} = ${nearest.top}\` gives ${nearest.exact ? "exactly " : ""}${showHz(nearest.hz)}`]),
    ...beside,
    ...(pin.move === null ? [] : [`${pin.move.label} would do better: ${pin.move.because}`]),
  ];
}

function lineAmongMany(pin: WantedPin, facts: WantFacts): string {
  const { judged } = pin;
  const { frequency, rest } = givenWords(pin, facts);
  const why = judged.met === "yes" ? [] : [judged.reasons[0] ?? ""];
  const words = [...(frequency === null ? [] : [frequency]), ...(rest === "" ? [] : [rest]), ...why].join("; ");
  return `**${pin.label}: ${VERDICT[judged.met]}**${words === "" ? "" : `: ${words}`}`;
}

/** `25 kHz (24.875..25.125 kHz over ±0.5 %)` and `duty 20..100 %, 1..5 V on a DC meter, 640 steps`. */
function givenWords(
  { given, judged }: WantedPin,
  { clock, supplyVolts }: WantFacts,
): { readonly frequency: string | null; readonly rest: string } {
  const { frequencyHz, worstHz, duty, widthSeconds, steps, rests } = given;
  const worst = worstHz === null ? "" : ` (${showBoundsHz(worstHz)} over the clock's ${showSpread(clock)})`;
  const rest: string[] = [];
  if (duty !== null) {
    rest.push(`duty ${range(duty, showShare)}`);
    if (supplyVolts !== null)
      rest.push(`${showVolts({ min: duty.min * supplyVolts, max: duty.max * supplyVolts })} on a DC meter`);
  }
  if (judged.want.pulse !== undefined && widthSeconds !== null)
    rest.push(`pulses of ${range(widthSeconds, showSeconds)}`);
  if (steps !== null && steps.max > 1) rest.push(`${range(steps, String)} steps`);
  if (judged.want.idle !== undefined && frequencyHz !== null && rests.length > 0)
    rest.push(`rests ${rests.map((level) => level ?? "high or low").join(" and ")}`);
  return { frequency: frequencyHz === null ? null : `${showBoundsHz(frequencyHz)}${worst}`, rest: rest.join(", ") };
}

/** The unit once where both ends have it. */
function range({ min, max }: Bounds<number>, show: (value: number) => string): string {
  const [low, high] = [show(min), show(max)];
  if (low === high) return low;
  const unit = high.includes(" ") ? high.slice(high.lastIndexOf(" ")) : "";
  return unit !== "" && low.endsWith(unit) ? `${low.slice(0, -unit.length)}..${high}` : `${low}..${high}`;
}
