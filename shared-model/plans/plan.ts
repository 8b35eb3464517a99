/**
 * What a plan is: one way to set one timer so that one or more of its pins give what is wanted, with what it costs. Plain
 * data; how plans are found is `planner.ts`, what a sketch already uses `occupation.ts`. No code and no sketch in here.
 */
import type { Fraction } from "../fraction.js";
import type { Bounds } from "../signal.js";
import type { WantedSignal } from "../wants/comment.js";
import type { Judgement, Verdict } from "../wants/verdict.js";

/** Mode, clock and TOP of one timer. */
export interface TimerSetting {
  readonly timer: number;
  /** Value of the WGM field. */
  readonly mode: number;
  /** Value of the clock-select field. */
  readonly clock: number;
  /** What that clock divides the CPU clock by. */
  readonly prescaler: number;
  readonly top: number;
  /** The register that holds TOP (`OCR2A`, `ICR1`); null where the mode fixes it. */
  readonly topRegister: string | null;
}

/** What one pin puts out under a setting, and how it does with its want. */
export interface PlannedOutput {
  /** `PD3` */
  readonly port: string;
  /** `OC2B` */
  readonly unit: string;
  /** `OCR2B` */
  readonly compare: string;
  /** The COM field: 1 toggles, 2 clears on match (high while below), 3 sets on match (inverted). */
  readonly com: 1 | 2 | 3;
  /** At the nominal clock. */
  readonly frequencyHz: Fraction;
  /** Relative to the wanted frequency: 0.01 is 1 % too fast; 0 where no frequency is wanted. */
  readonly error: number;
  /** Different duties that the compare register gives (1 for a toggling output). */
  readonly steps: number;
  /** Least and greatest duty that can be had, constant levels (0 and 1) included where the mode reaches them. */
  readonly duty: Bounds<Fraction>;
  /** Compare values that keep within the wanted duty or width; 0..TOP where none is wanted. */
  readonly compareValues: Bounds<number>;
  readonly wanted: WantedSignal;
  readonly judgement: Judgement;
}

/** What a plan takes from the person or from the rest of the sketch. */
export type CostKind =
  /** The pin of the unit whose register holds TOP has no duty of its own any more. */
  | "pin lost"
  /** Another pin in use gets another frequency or another scale of duty. */
  | "pin changed"
  /** delay, millis and micros become something else. */
  | "time base"
  /** tone, servo pulses or a library use the timer. */
  | "timer shared"
  /** Fast PWM cannot give 0: one count remains. Only where 0 is not ruled out by the want. */
  | "spike at zero"
  /** Inverted fast PWM cannot give 100 %: one count is missing. Only where 100 % is not ruled out by the want. */
  | "gap at full"
  /** The pin is a line of a bus (serial, SPI, two-wire). A pin that only loses its compare unit stays what it is on a bus. */
  | "bus line"
  /** Only one duty (50 %), since the output toggles. */
  | "fixed duty"
  /** A greater compare value makes the pulse shorter. */
  | "inverted"
  /** Another timer has a compare unit on the same pin, and analogWrite would connect that one as well (modulator). */
  | "second unit";

export interface Cost {
  readonly kind: CostKind;
  /** Port concerned, where it is about one. */
  readonly port: string | null;
  /** One clause for people: `pin 11 can no longer have a duty of its own: OCR2A holds TOP`. */
  readonly text: string;
  /** True where something that is in use today suffers; false where it is only no longer possible. */
  readonly hurts: boolean;
}

export interface Plan {
  readonly setting: TimerSetting;
  /** One for each want that it serves, in the order of the request. */
  readonly outputs: readonly PlannedOutput[];
  readonly costs: readonly Cost[];
  /** The gravest of the outputs' verdicts. */
  readonly verdict: Verdict;
  /** On the Pareto front as `front.ts` defines it: no other plan is as good in everything and better in something. */
  readonly front: boolean;
  /** Why it stands where it stands: `exact, 251 steps`. */
  readonly because: string;
}

/** A pin that would do better, or at all. */
export interface Move {
  readonly port: string;
  /** As the board prints it: `D9`. */
  readonly label: string;
  readonly plan: Plan;
  /** `exact, and 16,000 steps in place of 251`. */
  readonly because: string;
}

/**
 * Part of the front: one way of counting with a run of TOPs, each with the verdict and at the costs told. Of plans that are
 * equal in verdict, error, steps and costs one stands for all.
 */
export interface FrontStretch {
  readonly setting: Omit<TimerSetting, "top">;
  readonly tops: Bounds<number>;
  /** The COM field of each output, in the order of the request. */
  readonly coms: readonly (1 | 2 | 3)[];
  readonly verdict: "yes" | "marginal";
  readonly costs: readonly Pick<Cost, "kind" | "port" | "hurts">[];
}

export interface PlanAnswer {
  /**
   * Those worth reading, all of which meet the want: the front first, then the best of what is dominated. Best first: `yes`
   * before `marginal`, nothing in use hurt before something hurt, then exactness, steps, and fewer costs.
   */
  readonly plans: readonly Plan[];
  /** The whole front, of which `plans` shows little. */
  readonly front: readonly FrontStretch[];
  /** Where nothing meets the want: what comes nearest to it (verdict `no`). Else empty. */
  readonly nearest: readonly Plan[];
  /** Why there is none, and which pins can; null where there is one. */
  readonly why: string | null;
  /** "Move the wire": also where the present pin can meet the want. Best first. */
  readonly moves: readonly Move[];
}
