/** What a resistor and a capacitor behind the pin make of its pulses: one clause beside a want's verdict. */
import { toNumber } from "../fraction.js";
import { showVolts } from "../meter-voltage.js";
import { settlingSeconds, worstRippleShare } from "../rc-filter.js";
import type { Waveform } from "../signal.js";
import type { WantedFilter } from "./comment.js";

/** Null where the pin gives no pulse whose frequency is known. The lowest frequency ripples most, the fewest steps settle first. */
export function filterWords(
  filter: WantedFilter,
  signals: readonly Waveform[],
  supplyVolts: number | null,
): string | null {
  const rates = signals.flatMap(({ kind, frequencyHz }) =>
    kind === "pulse" && frequencyHz !== null ? [toNumber(frequencyHz.min)] : [],
  );
  if (rates.length === 0) return null;
  const ripple = worstRippleShare(filter, 1 / Math.min(...rates));
  const volts = supplyVolts === null ? "" : `${showVolts({ min: ripple * supplyVolts, max: ripple * supplyVolts })} `;
  const steps = signals.flatMap((signal) => (signal.steps === null || signal.steps < 2 ? [] : [signal.steps]));
  const finest = Math.max(...steps);
  const [share, near] = steps.length === 0 ? [0.01, "1 %"] : [0.5 / (finest - 1), `half a step of ${finest}`];
  return `behind ${showPart(filter.ohms, "Ohm", ohmSizes)} and ${showPart(filter.farads, "F", faradSizes)}: ripple at most ${digits(ripple * 100)} % of the supply (${volts}peak to peak, at duty 50 %), settled to ${near} after ${showPart(settlingSeconds(filter, share), "s", secondSizes)}`;
}

const ohmSizes = [
  ["M", 1e6],
  ["k", 1e3],
  ["", 1],
] as const;
const faradSizes = [
  ["m", 1e-3],
  ["u", 1e-6],
  ["n", 1e-9],
  ["p", 1e-12],
] as const;
const secondSizes = [
  ["", 1],
  ["m", 1e-3],
  ["u", 1e-6],
] as const;

function showPart(value: number, unit: string, sizes: readonly (readonly [prefix: string, factor: number])[]): string {
  const [prefix, factor] = sizes.find(([, size]) => value >= size * 0.9999999) ?? sizes[sizes.length - 1]!;
  return `${digits(value / factor)} ${prefix}${unit}`;
}

function digits(value: number): string {
  return String(Number(value.toPrecision(3)));
}
