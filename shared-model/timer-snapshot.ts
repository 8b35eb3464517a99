/** One timer's registers and pins at one moment, as far as they are known: what waveforms are worked out from. */
import type { Known, RegisterValue } from "./register-value.js";

/**
 * One way in which a channel's output can be connected. A channel has several alternatives where, for example,
 * analogWrite leaves the unit attached for some values and detached for others: the true state is one of them.
 */
export interface ChannelAlternative {
  /** The two COM bits, 0..3. */
  readonly com: RegisterValue;
  /** The compare value that the unit works with (after double buffering). */
  readonly compare: RegisterValue;
  /** Data direction: true = output. */
  readonly output: Known;
  /** PORT bit: true = high (or pull-up while the pin is an input). */
  readonly high: Known;
}

export interface ChannelSnapshot {
  readonly unit: string;
  readonly alternatives: readonly ChannelAlternative[];
}

export interface TimerSnapshot {
  readonly timer: number;
  /** Every TCCRn, OCRn and ICRn of the timer by name, as the CPU reads it back (16-bit registers whole). */
  readonly registers: Readonly<Record<string, RegisterValue>>;
  /** The working value of the register that may hold TOP in each case, by register name (`OCR1A`, `ICR1`). */
  readonly working: Readonly<Record<string, RegisterValue>>;
  readonly channels: readonly ChannelSnapshot[];
  /** False where power reduction has switched the timer off. */
  readonly powered: Known;
  /** True where the prescaler is held in reset (GTCCR.TSM). */
  readonly held: Known;
  /** True where the timer runs from its own crystal (ASSR.AS2). */
  readonly asynchronous: Known;
  /** CPU clock divisor by CLKPR (1 unless the sketch changes it); null where unknown. */
  readonly clockDivisor: number | null;
}
