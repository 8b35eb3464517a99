/**
 * How deeply light may be modulated at a frequency: IEEE Std 1789-2015, clause 8 (recommended practices 1 and 2), the figures
 * from memory. Modulation is (max − min) / (max + min) of the light; PWM that switches fully on and off is 100 %.
 */

export type FlickerLevel = "low risk" | "no observable effect";

interface Rule {
  /** Percent per hertz below the knee, and from there on. */
  readonly below: number;
  readonly above: number;
  readonly kneeHz: number;
  /** From here on (low risk) or above it (no effect) nothing is asked. */
  readonly exemptHz: number;
}

export const flickerRules = {
  "low risk": { below: 0.025, above: 0.08, kneeHz: 90, exemptHz: 1250 },
  "no observable effect": { below: 0.01, above: 0.0333, kneeHz: 90, exemptHz: 3000 },
} as const satisfies Record<FlickerLevel, Rule>;

/** Greatest modulation in percent, 100 where the rule asks nothing. */
export function allowedModulation(hz: number, level: FlickerLevel): number {
  const rule = flickerRules[level];
  if (hz > rule.exemptHz) return 100;
  return Math.min(100, hz * (hz < rule.kneeHz ? rule.below : rule.above));
}

/** From which frequency on light may be switched fully on and off. */
export function fullModulationFrom(level: FlickerLevel): number {
  const rule = flickerRules[level];
  return Math.min(rule.exemptHz, 100 / rule.above);
}
