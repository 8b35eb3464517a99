/** How far a board's clock may be off, until a comment or a measured clock says better (design section 8). */

export interface ClockTolerance {
  /** Relative, one-sided: 0.005 is ±0.5 %. */
  readonly tolerance: number;
  /** What the number is and where it comes from: shown beside every verdict that uses it. */
  readonly source: string;
}

export const clockTolerances = {
  resonator: { tolerance: 0.005, source: "ceramic resonator, ±0.5 % (common practice, no source)" },
  crystal: { tolerance: 0.0001, source: "quartz crystal, ±100 ppm (common practice, no source)" },
  /** DS40002061 section 29.4, table 29-9 "Calibration Accuracy of Internal RC Oscillator", factory calibration. */
  internalFactory: { tolerance: 0.1, source: "internal RC oscillator, factory calibration, ±10 % (data sheet)" },
  /** The same table, user calibration. */
  internalUser: { tolerance: 0.01, source: "internal RC oscillator, user calibration, ±1 % (data sheet)" },
} as const satisfies Record<string, ClockTolerance>;
