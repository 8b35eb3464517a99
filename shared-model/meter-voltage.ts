/**
 * What a meter for direct voltage shows at a pin: the mean over the period, duty × supply. Common practice, no source; it
 * leaves out the few tens of millivolts that a loaded output loses, and holds where the meter is slow beside the pulses.
 */
import { toNumber } from "./fraction.js";
import type { Bounds, Waveform } from "./signal.js";

/** Volts; null where the pin is not driven, not known, or its duty is not. */
export function meterVolts(
  signal: Pick<Waveform, "kind" | "level" | "duty">,
  supplyVolts: number,
): Bounds<number> | null {
  switch (signal.kind) {
    case "pulse":
      return signal.duty === null
        ? null
        : { min: toNumber(signal.duty.min) * supplyVolts, max: toNumber(signal.duty.max) * supplyVolts };
    case "level":
      return signal.level === null
        ? null
        : signal.level === "low"
          ? { min: 0, max: 0 }
          : { min: supplyVolts, max: supplyVolts };
    default:
      return null;
  }
}

/** `2.5 V`, `19.6 mV`, `0..4.98 V`: three digits are as much as duty × supply is good for. */
export function showVolts({ min, max }: Bounds<number>): string {
  const unit = max > 0 && max < 0.1 ? "mV" : "V";
  const show = (volts: number) => `${Number((volts * (unit === "mV" ? 1e3 : 1)).toPrecision(3))}`;
  const [low, high] = [show(min), show(max)];
  return low === high ? `${low} ${unit}` : `${low}..${high} ${unit}`;
}
