/** What may have been measured in place of what is predicted. */
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Waveform } from "../../shared-model/signal.js";

export interface Candidate {
  readonly waveform: Waveform;
  /** The registers that differ from the prediction. */
  readonly registers: Readonly<Record<string, RegisterValue>>;
  /** One clause. */
  readonly words: string;
  /** How small a slip leads there (`shared-model/readings/slip.ts`). */
  readonly size: number;
  /** Two candidates of one key are one: the smaller slip is kept. */
  readonly key: string;
}
