/** What may stand next in a want, as far as it is typed: pins, demands, specifications, units, tolerances, the filter's parts. */

export type Choice = readonly [insert: string, detail: string];

export interface WantChoices {
  /** Pins as they are written, without what follows them. */
  readonly pins: readonly Choice[];
  readonly specifications: readonly { readonly id: string; readonly says: string }[];
}

const HZ: readonly Choice[] = [
  ["kHz", "frequency"],
  ["Hz", "frequency"],
  ["MHz", "frequency"],
];
const TIME: readonly Choice[] = [
  ["us", "microseconds"],
  ["ms", "milliseconds"],
  ["s", "seconds"],
];
const PERCENT: readonly Choice[] = [["%", "share of the period"]];
const OHM: readonly Choice[] = [
  ["kOhm", "resistance"],
  ["Ohm", "resistance"],
  ["MOhm", "resistance"],
];
const FARAD: readonly Choice[] = [
  ["uF", "capacitance"],
  ["nF", "capacitance"],
  ["pF", "capacitance"],
];
const RELATIVE: readonly Choice[] = [
  ["%", "of the value"],
  ["ppm", "millionths of the value"],
];

/** Each demand with what shows that it is there already. */
const DEMANDS: readonly { readonly choice: Choice; readonly present: RegExp }[] = [
  { choice: ["1 kHz +-2 %", "frequency with tolerance"], present: /\dHz|\d\s*[kM]?Hz|\bevery\b|\bwithin\b/i },
  { choice: ["1 kHz within 980..1020 Hz", "frequency between bounds"], present: /\d\s*[kM]?Hz|\bevery\b|\bwithin\b/i },
  { choice: ["20 kHz or more", "frequency with a lower bound alone"], present: /\d\s*[kM]?Hz|\bevery\b|\bwithin\b/i },
  { choice: ["every 20 ms", "period"], present: /\d\s*[kM]?Hz|\bevery\b|\bwithin\b/i },
  { choice: ["duty 0..100 %", "never outside; constant levels count as 0 and 100 %"], present: /\bduty\b/i },
  { choice: ["reach 10..90 %", "both ends must be attainable"], present: /\breach\b/i },
  { choice: ["100 steps", "at least so many duties"], present: /\bsteps?\b/i },
  { choice: ["pulse 1000..2000 us every 20 ms", "pulse width and period"], present: /\bpulse\b/i },
  { choice: ["idle low", "the level wherever the pin is constant"], present: /\bidle\b/i },
  { choice: ["idle high", "the level wherever the pin is constant"], present: /\bidle\b/i },
];

/** `typed`: from behind `wants ` to the word that is being typed. */
export function wantChoices(typed: string, { pins, specifications }: WantChoices): readonly Choice[] {
  const colon = typed.search(/(?<!:):(?!:)/);
  if (colon < 0) return pinChoices(typed, pins);
  const demands = typed.slice(colon + 1);
  const filter = /[A-Za-z][\w-]*\s+with\s+(.*)$/is.exec(demands)?.[1];
  if (filter !== undefined) {
    const inFilter = filterChoices(filter);
    if (inFilter !== null) return inFilter;
  }
  const item = demands.slice(demands.lastIndexOf(",") + 1);
  if (item.trim() === "") {
    const named = specifications.some(({ id }) => new RegExp(`(?:^|[\\s,])${id}(?![\\w-])`).test(demands));
    return [
      ...DEMANDS.filter(({ present }) => !present.test(demands)).map(({ choice }) => choice),
      ...(named ? [] : specifications.map(({ id, says }): Choice => [id, says])),
    ];
  }
  return itemChoices(item, specifications);
}

function pinChoices(typed: string, pins: readonly Choice[]): readonly Choice[] {
  // `wants D9 |`
  if (/[\w]\s+$/.test(typed) && !/(?:^|[\s,])and\s+$/.test(typed)) return [["and ", "one want for several pins"]];
  const taken = new Set(typed.split(/[\s,]+/));
  return pins.filter(([pin]) => !taken.has(pin)).map(([pin, detail]): Choice => [`${pin}: `, detail]);
}

function itemChoices(item: string, specifications: WantChoices["specifications"]): readonly Choice[] {
  const bareNumber = /\d\s*$/.test(item) && /(?:^|[\s.=-])\d[\d.]*\s*$/.test(item);
  const tolerance = /(?:\+-|\+\/-|±)\s*[\d.]+\s*$/.test(item);
  const dimension = dimensionOf(item);
  if (tolerance) return dimension === "percent" ? PERCENT : [...RELATIVE, ...(dimension === "time" ? TIME : HZ)];
  if (bareNumber) {
    if (dimension === "percent") return PERCENT;
    if (dimension === "time") return TIME;
    return /within|\.\./.test(item) ? HZ : [...HZ, ["steps", "duties, at least so many"]];
  }
  if (/\bidle\s+$/i.test(item))
    return [
      ["low", "0 V"],
      ["high", "the supply"],
    ];
  if (/\bor\s+$/i.test(item)) return [["more", "no upper bound"]];
  if (/^\s*[\d.]+\s*[kM]?Hz\s+$/i.test(item))
    return [
      ["+-2 %", "tolerance"],
      [`within ${around(item)}`, "bounds"],
      ["or more", "no upper bound"],
    ];
  if (/\bevery\s+[\d.]+\s*[uµμm]?s\s+$/i.test(item)) return [["+-2 %", "tolerance"]];
  if (/\bpulse\s.*s\s+$/i.test(item) && !/\bevery\b/i.test(item)) return [["every 20 ms", "period"]];
  if (/\bduty\s+[\d.]+\s*%\s+$/i.test(item)) return [["+-1 %", "tolerance, in points"]];
  const named = /^\s*([A-Za-z][\w-]*)\s+$/.exec(item)?.[1];
  if (named !== undefined && specifications.some(({ id }) => id === named) && named.includes("rc"))
    return [["with R = 10 kOhm, C = 10 uF", "the filter behind the pin: ripple and settling are told"]];
  return [];
}

function dimensionOf(item: string): "frequency" | "percent" | "time" {
  if (/\b(?:duty|reach)\b/i.test(item)) return "percent";
  return /\b(?:pulse|every)\b/i.test(item) ? "time" : "frequency";
}

/** Two percent to both sides of the frequency that is written: `24.5..25.5 kHz`. */
function around(item: string): string {
  const [, value = "1", unit = "kHz"] = /([\d.]+)\s*([kM]?Hz)/i.exec(item) ?? [];
  const side = (factor: number) => Number((Number(value) * factor).toPrecision(4));
  return `${side(0.98)}..${side(1.02)} ${unit}`;
}

/** Behind `with`; null once both parts stand. */
function filterChoices(typed: string): readonly Choice[] | null {
  const hasR = /\bR\s*=\s*[\d.]+\s*[kM]?(?:Ohm|Ω|\u2126)/i.test(typed);
  const hasC = /\bC\s*=\s*[\d.]+\s*[pnuµμm]?F\b/i.test(typed);
  if (hasR && hasC) return null;
  if (/\bR\s*=\s*[\d.]+\s*$/i.test(typed)) return OHM;
  if (/\bC\s*=\s*[\d.]+\s*$/i.test(typed)) return FARAD;
  if (/\bR\s*=\s*$/i.test(typed)) return [["10 kOhm", "resistance"]];
  if (/\bC\s*=\s*$/i.test(typed)) return [["10 uF", "capacitance"]];
  if (typed.trim() !== "" && !/(?:,|\band)\s*$/.test(typed)) return [["and ", "the other part"]];
  return [
    ...(hasR ? [] : [["R = 10 kOhm", "resistor between pin and capacitor"] as const]),
    ...(hasC ? [] : [["C = 10 uF", "capacitor to ground"] as const]),
  ];
}
