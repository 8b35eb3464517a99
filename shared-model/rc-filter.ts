/**
 * A resistor and a capacitor behind a pin that switches between 0 and the supply, the capacitor's voltage not loaded. In the
 * steady state it climbs for d·T towards the supply and falls for (1−d)·T towards 0; where both meet, the swing is
 * (1−e^(−dT/RC))·(1−e^(−(1−d)T/RC)) / (1−e^(−T/RC)) of the supply: the exact solution of the first-order equation.
 */

export interface RcFilter {
  readonly ohms: number;
  readonly farads: number;
}

/** Peak-to-peak ripple as a share of the supply at one duty. */
export function rippleShare({ ohms, farads }: RcFilter, periodSeconds: number, duty: number): number {
  const periods = periodSeconds / (ohms * farads);
  const rise = (share: number): number => -Math.expm1(-share * periods);
  return (rise(duty) * rise(1 - duty)) / rise(1);
}

/** The same at the duty where it is worst, 50 %. */
export function worstRippleShare(filter: RcFilter, periodSeconds: number): number {
  return rippleShare(filter, periodSeconds, 0.5);
}

/** Seconds until a jump over the whole scale has come within `share` of its end. */
export function settlingSeconds({ ohms, farads }: RcFilter, share: number): number {
  return ohms * farads * Math.log(1 / share);
}
