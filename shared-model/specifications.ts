/**
 * Named specifications: what a want may ask for by name (`wants D5: fan-4wire`). Each row says where its numbers come
 * from: a published standard, or "common practice, no source", or "from memory".
 */

import { fullModulationFrom } from "./flicker.js";

/** Inclusive bounds in base units: Hz, seconds, fraction of the period. A missing upper end is Infinity. */
export interface SpecifiedRange {
  readonly min: number;
  readonly max: number;
}

export interface Specification {
  /** As written in a want. */
  readonly id: string;
  readonly name: string;
  readonly frequency?: SpecifiedRange & { readonly hz: number };
  readonly duty?: SpecifiedRange;
  readonly reach?: SpecifiedRange;
  readonly pulse?: SpecifiedRange;
  readonly steps?: number;
  /** The level at which the pin rests where it is constant. */
  readonly idle?: "low" | "high";
  /** Whether a want may say which R and C follow the pin (`with R = 10 kOhm, C = 10 uF`). */
  readonly takesFilter?: boolean;
  /** The filter, where the specification itself says it (a user's own one). */
  readonly filter?: { readonly ohms: number; readonly farads: number };
  readonly source: string;
  /** What the sheet and the hover say beside it. */
  readonly caution?: string;
  /** Somebody's own that cannot be read: why, to be told to whoever asks for it. */
  readonly broken?: string;
}

const fullModulationHz = fullModulationFrom("low risk");
const commonPractice = "common practice, no source";
const infrared = (khz: number): Specification => ({
  id: `ir-${khz}khz`,
  name: `infrared carrier, ${khz} kHz`,
  frequency: { hz: khz * 1000, min: khz * 980, max: khz * 1020 },
  duty: { min: 1 / 3 - 0.01, max: 1 / 2 + 0.01 },
  // Between the marks of a message the carrier rests, and so does the diode.
  idle: "low",
  source: `${commonPractice}: a third to a half of the carrier's period, ±2 % of the receiver's centre, off between the marks`,
});

export const specifications: readonly Specification[] = [
  {
    id: "fan-4wire",
    name: "4-wire fan control",
    frequency: { hz: 25_000, min: 21_000, max: 28_000 },
    source:
      "4-Wire Pulse Width Modulation (PWM) Controlled Fans specification, revision 1.3, section 2.1.4 (section from memory)",
  },
  {
    id: "hobby-servo",
    name: "hobby servo",
    frequency: { hz: 50, min: 45, max: 55 },
    pulse: { min: 0.001, max: 0.002 },
    source: commonPractice,
  },
  infrared(36),
  infrared(38),
  infrared(40),
  infrared(56),
  {
    id: "led-no-flicker",
    name: "LED dimming free of visible flicker",
    frequency: { hz: fullModulationHz, min: fullModulationHz, max: Number.POSITIVE_INFINITY },
    source:
      "IEEE Std 1789-2015, recommended practice 1 (low risk): modulation in percent at most 0.08 · f up to 1250 Hz; switching fully on and off is 100 %. No observable effect (recommended practice 2) from 3 kHz on",
  },
  {
    id: "motor-silent",
    name: "motor drive above hearing",
    frequency: { hz: 25_000, min: 20_000, max: 50_000 },
    source: commonPractice,
    caution: "Check that the driver can switch this fast; try it with the load disconnected.",
  },
  {
    id: "charging-pilot",
    name: "vehicle-charging pilot",
    frequency: { hz: 1000, min: 980, max: 1020 },
    reach: { min: 0.1, max: 0.96 },
    source: "the trade's figures, common practice, no source",
    caution:
      "A prediction is no proof of safety: check on the bench with the load disconnected, follow local codes, have licensed people do licensed work.",
  },
  {
    id: "ultrasonic-40khz",
    name: "ultrasonic transducer, 40 kHz",
    frequency: { hz: 40_000, min: 39_000, max: 41_000 },
    source: commonPractice,
  },
  {
    id: "heater-slow",
    name: "heater, slow PWM",
    frequency: { hz: 1, min: 0.5, max: 2 },
    source: commonPractice,
    caution: "Mains switching is licensed work in most places; check with the load disconnected.",
  },
  {
    id: "audio-carrier",
    name: "audio carrier",
    frequency: { hz: 62_500, min: 61_875, max: 63_125 },
    source: `${commonPractice}: 16 MHz through 256 counts, ±1 %`,
  },
  {
    id: "analog-rc",
    name: "0-10 V or 4-20 mA through an RC filter",
    frequency: { hz: 1000, min: 1000, max: Number.POSITIVE_INFINITY },
    steps: 200,
    takesFilter: true,
    source:
      "common practice, no source: from 1 kHz on, half a percent of full scale; ripple and settling depend on R and C, as in: with R = 10 kOhm, C = 10 uF",
  },
];

/** The specification of that id, exactly as written. */
export function findSpecification(
  id: string,
  known: readonly Specification[] = specifications,
): Specification | undefined {
  return known.find((candidate) => candidate.id === id);
}
