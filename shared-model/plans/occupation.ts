/** What of the chip a sketch already uses, as far as a plan must know. Plain data: read off a sketch by `server/plans`. */

export interface UsedPin {
  /** One clause: `PWM by analogWrite`, `read by digitalRead`. */
  readonly what: string;
  /** Its present frequency by a timer, in Hz; null where no timer makes it. */
  readonly hz: number | null;
}

/** How a timer counts today. */
export interface PresentSetting {
  /** Value of the WGM field. */
  readonly mode: number;
  readonly prescaler: number;
  readonly top: number;
}

export interface Occupation {
  /** Ports (`PB3`) whose signals must stay as they are: `--keep`, and pins with a want of their own. */
  readonly kept: ReadonlySet<string>;
  /** Ports in use, kept or not. */
  readonly used: ReadonlyMap<string, UsedPin>;
  /** Timers that something else has put to work, by number: `tone on pin 8`, `the servo library`, `an interrupt routine`. */
  readonly taken: ReadonlyMap<number, string>;
  /** How each timer counts today, by number, where that is one setting that is known: what stays as it is hurts nobody. */
  readonly present?: ReadonlyMap<number, PresentSetting>;
  /** The timer that counts the core's milliseconds, and whether the sketch asks for time; null without the core. */
  readonly timeBase: { readonly timer: number; readonly used: boolean } | null;
  /** Ports that are lines of a bus: `data line of the SPI bus (MOSI)`; `inUse` where the sketch uses that bus. */
  readonly buses: ReadonlyMap<string, { readonly line: string; readonly inUse: boolean }>;
}
