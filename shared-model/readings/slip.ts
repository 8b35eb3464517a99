/**
 * A small slip that leads from one timer state to another: what was meant and what is on the board differ by it. How small it
 * is, is a number: about 1 for what happens to everybody, 2 for one wrong bit, 4 and more for another setting altogether.
 * The sizes are judgement from common practice, no source.
 */
import type { TimerFact } from "../chip.js";
import type { TimerSnapshot } from "../timer-snapshot.js";
import type { Replacement } from "./replaced-registers.js";

export interface Slip {
  readonly replacements: readonly Replacement[];
  /** One clause, with the registers' names: `OCR2A = 250 in place of 248 (bit 1)`. */
  readonly words: string;
  readonly size: number;
}

/** One timer in one state, as the slips are looked for around it. */
export interface SlipGround {
  readonly timer: TimerFact;
  readonly snapshot: TimerSnapshot;
  /** The other timers of the chip: their tables are taken for this one's. */
  readonly others: readonly TimerFact[];
  /** The unit whose pin was measured. */
  readonly unit: string;
}
