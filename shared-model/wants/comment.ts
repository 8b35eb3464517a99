/**
 * What a comment addressed to the tool says, once read (design section 5). Plain data: how the text is read is
 * `read-comment.ts`, how a want is judged `judge.ts`. All offsets count UTF-16 units from the start of the comment's
 * text, its `//` or `/*` included.
 */

/** A stretch of the comment's text; `end` exclusive. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** Inclusive bounds of a quantity in its base unit (Hz, seconds, fraction 0..1). */
export interface Range {
  readonly min: number;
  readonly max: number;
}

/** A wanted frequency: what was written as its value, and the bounds that meet it. */
export interface WantedFrequency extends Range {
  /** The value itself; the middle of the bounds where only `within A..B` was given. */
  readonly hz: number;
  /** Where in the text it stands. */
  readonly at: Stretch;
}

export interface WantedRange extends Range {
  readonly at: Stretch;
}

export interface WantedSteps {
  readonly steps: number;
  readonly at: Stretch;
}

/** The level that the pin rests at wherever it is constant. */
export interface WantedIdle {
  readonly level: "low" | "high";
  readonly at: Stretch;
}

/** The resistor and the capacitor behind the pin that smooth its pulses (`analog-rc with R = 10 kOhm, C = 10 uF`). */
export interface WantedFilter {
  readonly ohms: number;
  readonly farads: number;
  readonly at: Stretch;
}

/** What a want asks of a pin. Only what was written is present. */
export interface WantedSignal {
  readonly frequency?: WantedFrequency;
  /** Never outside; constant levels count as 0 and 1. */
  readonly duty?: WantedRange;
  /** Both ends must be attainable. */
  readonly reach?: WantedRange;
  /** Pulse widths in seconds, never outside. */
  readonly pulse?: WantedRange;
  readonly steps?: WantedSteps;
  readonly idle?: WantedIdle;
  /** Demands nothing: how much ripple it leaves and how slowly it settles is told beside the verdict. */
  readonly filter?: WantedFilter;
}

/** One pin of a want. A want for several pins is as many of these, alike but for `pin` and `pinAt`. */
export interface WantComment extends WantedSignal {
  readonly kind: "want";
  /** As written: `D9`, `9`, `A0`, `PD3`, `vent`, `Pins::fan`. */
  readonly pin: string;
  readonly pinAt: Stretch;
  /** All the pins of the want as written, this one included: `D9 and D10`. */
  readonly together: readonly string[];
  /** The named specification it asks for, by id, whose demands are merged in above. */
  readonly specification?: string;
  /** A trailing `( … )`. */
  readonly remark?: string;
  /** What follows `PIN:`, trimmed: for showing. */
  readonly text: string;
  /** The whole want, from its opening to its end. */
  readonly at: Stretch;
}

/** A measured quantity with its uncertainty: `value ± uncertainty`, base unit. */
export interface ReadValue {
  readonly value: number;
  readonly uncertainty: number;
  /** False: half of the last digit; true: written with `+-`. */
  readonly stated: boolean;
  readonly at: Stretch;
}

export interface ReadingComment {
  readonly kind: "reading";
  readonly pin: string;
  readonly pinAt: Stretch;
  /** `with OCR2A = 0xFE`: the values that registers held when the reading was taken. */
  readonly registers: readonly { readonly name: string; readonly value: number; readonly at: Stretch }[];
  readonly frequency?: ReadValue;
  /** Fraction of the period. */
  readonly duty?: ReadValue;
  /** Seconds. */
  readonly pulse?: ReadValue;
  readonly remark?: string;
  readonly text: string;
  readonly at: Stretch;
}

export interface SettingsComment {
  readonly kind: "settings";
  readonly board?: string;
  readonly boardAt?: Stretch;
  /** The oscillator (`clock 16 MHz`), in Hz. */
  readonly clockHz?: number;
  readonly clockAt?: Stretch;
  /** Relative, one-sided: 0.005 for `+-0.5 %`. */
  readonly tolerance?: number;
  /** What the build was told (`built for 8 MHz`), in Hz. */
  readonly builtFor?: number;
  /** Findings to be left out at this place, each with its reason. */
  readonly allow?: readonly { readonly id: string; readonly because: string | null; readonly at: Stretch }[];
  readonly remark?: string;
  readonly at: Stretch;
}

export interface UnreadComment {
  readonly kind: "unread";
  /** Where reading stopped: offset into the comment's text. */
  readonly column: number;
  /** What would have been understood there, as a phrase: `a frequency such as 1 kHz`. */
  readonly expected: string;
  /** From its opening to the end of its line. */
  readonly at: Stretch;
}

export type Comment = WantComment | ReadingComment | SettingsComment | UnreadComment;
