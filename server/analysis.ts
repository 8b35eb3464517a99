/**
 * The analysis of one sketch: the inert value that every reader (findings, features, report) works from.
 * It knows nothing of LSP, files or time; every place in it is a span of a source file.
 */
import type { Chip, Target } from "../shared-model/chip.js";
import type { RegisterValue } from "../shared-model/register-value.js";
import type { Bounds, Regime, Waveform } from "../shared-model/signal.js";
import type { Span } from "../shared-model/span.js";
import type { Specification } from "../shared-model/specifications.js";
import type { TimerSnapshot } from "../shared-model/timer-snapshot.js";
import type { Comment } from "../shared-model/wants/comment.js";
import type { Gap, SourceFile } from "./preprocess/source.js";

export interface Analysis {
  readonly target: Target;
  /** Every source file that took part, the main one first. */
  readonly files: readonly SourceFile[];
  /** True where the program runs on the Arduino core (setup/loop), false for an own main(). */
  readonly core: boolean;
  /** Named specifications that a want may ask for: those of the house and the workspace's own. */
  readonly specifications: readonly Specification[];
  /** Wants, readings, settings and unreadable comments of the sketch's own files, in order. */
  readonly comments: readonly PlacedComment[];
  /** Every other comment of active text (for claims beside writes). */
  readonly remarks: readonly Remark[];
  /** Every write to a register of interest, one entry per place in the source, in order of first execution. */
  readonly writes: readonly RegisterWrite[];
  /** Calls of the core or of libraries that matter to pins and time, one entry per place in the source. */
  readonly calls: readonly CoreCall[];
  /** Every timer of the chip. */
  readonly timers: readonly TimerHistory[];
  /** Every pin that has a compare unit or is driven by the sketch, in board order. */
  readonly pins: readonly PinHistory[];
  readonly interrupts: readonly InterruptRate[];
  readonly gaps: readonly Gap[];
  /** False: a limit was hit or something was not seen. */
  readonly complete: boolean;
  /** Names in the source that stand for a register, a bit or a pin, ascending by file and offset: where hovers answer. */
  readonly names: readonly KnownName[];
}

export interface PlacedComment {
  readonly comment: Comment;
  /** The whole comment in the source; offsets inside `comment` count from `span.start`. */
  readonly span: Span;
  /** The function in whose body it stands; null at file level. */
  readonly inFunction: string | null;
  /** The pin a want or reading means (`PinHistory.pin`), by number, port or constant of the sketch; null where there is none such. */
  readonly pin: string | null;
  /** For a want inside a function: the signals that it is about, and a clause that says which these are. */
  readonly judgedOn?: { readonly signals: readonly PinSignal[]; readonly words: string };
}

export interface Remark {
  readonly span: Span;
  readonly text: string;
  /** The statement the comment belongs to: the one it ends, or the next one below; null where there is none. */
  readonly beside: Span | null;
}

/** An integer expression as the sketch wrote it, with what each part was worth, joined over all executions. */
export interface WrittenExpression {
  readonly kind: "literal" | "name" | "register" | "unary" | "binary" | "conditional" | "call" | "cast" | "other";
  /** Without the sketch's own parentheses around it. */
  readonly span: Span;
  /** `|`, `<<`, `~`, …; the callee's name for a call; the identifier for a name or register; the text for a literal. */
  readonly text: string;
  /** The object-like macro of which a literal is the body: `CS22` for the `2` of `1 << CS22`. */
  readonly macro: string | null;
  /** True where the sketch put its own parentheses around this expression. */
  readonly parenthesised: boolean;
  readonly operands: readonly WrittenExpression[];
  /** Null where the expression is no integer or was never reached. */
  readonly value: RegisterValue | null;
  /** Width and sign of the expression's type; null for floats and others. */
  readonly type: { readonly bits: number; readonly signed: boolean } | null;
  /** `constant`: known when compiled; `input`: depends on the outside (analogRead …). */
  readonly nature: "constant" | "input" | "computed";
}

/** `readings`: possible values of the input; `deadLow`, `deadHigh`: how many at its ends give one and the same. 0: not known. */
export interface WriteReach {
  readonly values: readonly number[];
  readonly readings: number;
  readonly deadLow: number;
  readonly deadHigh: number;
  /** What is asked to be written (before it is cut to the register) for each reading, from the reading `low` on; null: not known. */
  readonly course: { readonly low: number; readonly values: readonly number[] } | null;
}

/** One execution context of a write: the timer's state just before and just after it. */
export interface WriteEffect {
  readonly regime: Regime;
  readonly before: TimerSnapshot;
  readonly after: TimerSnapshot;
  readonly when: string | null;
}

/** Why a write, or part of it, did not last. */
export type LostReason =
  /** A fixed-TOP PWM mode keeps only the bits of its TOP in a 16-bit compare register. */
  | {
      readonly kind: "masked by fixed TOP";
      readonly asked: RegisterValue;
      readonly stored: RegisterValue;
      readonly top: number;
    }
  /** The compare value was still in its buffer when the mode changed (`at` is the line that changed it). */
  | { readonly kind: "buffer dropped"; readonly at: Span; readonly stored: RegisterValue }
  /** ICRn written while the mode does not take TOP from it. */
  | { readonly kind: "capture outside its modes" }
  /** A routine may come between the two bytes and leave its own high byte, `high`. */
  | { readonly kind: "parted by a routine"; readonly high: RegisterValue }
  /** Overwritten by the core's init, for constructors that run before it. */
  | { readonly kind: "wiped by the core's init"; readonly after: RegisterValue };

export interface RegisterWrite {
  /** The whole assignment (or call, where the core writes). */
  readonly span: Span;
  /** The left side. */
  readonly target: Span;
  /** `TCCR2B`, `OCR1A` (16-bit whole), `OCR1AH` (a half), `DDRD`, `PORTB`, `TIMSK1`, `PRR`, `GTCCR`, `CLKPR`, `ASSR` … */
  readonly register: string;
  /** The timer it belongs to, where it belongs to one. */
  readonly timer: number | null;
  /** `=`, `|=`, `&=`, `^=`, `+=` …, `++`, `--`; `core` where a core function wrote it. */
  readonly operator: string;
  /** The right side; null for `++`/`--` and core writes. */
  readonly expression: WrittenExpression | null;
  /** Joined over executions. `asked` is the mathematical value before it was cut to the register's width. */
  readonly before: RegisterValue;
  readonly after: RegisterValue;
  readonly asked: RegisterValue;
  /** What it can write at all, where it is worked out of one input: every value, and the input's dead travel. */
  readonly reach: WriteReach | null;
  /** Function in which it stands; `ISR` says that it runs in an interrupt routine. */
  readonly inFunction: string;
  readonly inInterrupt: string | null;
  /** True where the write runs before the core's init (a global constructor). */
  readonly beforeInit: boolean;
  /** Up to a few execution contexts; empty for a register of no timer. */
  readonly effects: readonly WriteEffect[];
  readonly lost: readonly LostReason[];
  /** For direction and port registers: nothing more. For reads of 16-bit halves: order is in `writes`. */
  readonly times: number;
}

export interface CallArgument {
  readonly span: Span;
  readonly expression: WrittenExpression;
  readonly value: RegisterValue | null;
}

/** `analogWrite`, `pinMode`, `digitalWrite`, `tone`, `noTone`, `delay`, `delayMicroseconds`, `millis`, `micros`, `pulseIn`, `Servo.attach`, `Servo.write` … */
export interface CoreCall {
  readonly name: string;
  readonly span: Span;
  readonly arguments: readonly CallArgument[];
  /** Board pins it may act on (numbers), where its first argument is a pin. */
  readonly pins: readonly number[];
  /** Timers whose registers it may write. */
  readonly timers: readonly number[];
  readonly inFunction: string;
  readonly inInterrupt: string | null;
  /** For analogWrite: the timer's states before and after, up to a few. For time calls: the time base's timer (0). */
  readonly effects: readonly WriteEffect[];
  readonly regimes: readonly Regime[];
}

/** One settled state of one timer. */
export interface TimerState {
  readonly regime: Regime;
  readonly snapshot: TimerSnapshot;
  /** `phase correct, TOP OCR2A`; joined by " or " where several are possible. */
  readonly mode: string;
  readonly when: string | null;
  /** Writes that made this state, latest first. */
  readonly from: readonly Span[];
  /** Spans of the places at which time passes in this state (first few). */
  readonly at: readonly Span[];
}

export interface TimerHistory {
  readonly timer: number;
  readonly states: readonly TimerState[];
}

export interface PinSignal extends Waveform {
  readonly regime: Regime;
  readonly when: string | null;
  readonly from: readonly Span[];
  /** Index into the timer's states, where a timer's unit drives or could drive the pin. */
  readonly state: number | null;
}

export interface PinHistory {
  /** Board number as text (`3`), or the port's name on a bare chip. */
  readonly pin: string;
  readonly port: string;
  readonly units: readonly string[];
  readonly timer: number | null;
  readonly signals: readonly PinSignal[];
}

export interface InterruptRate {
  readonly vector: string;
  readonly rateHz: Bounds<number> | null;
  readonly span: Span;
}

export interface KnownName {
  readonly span: Span;
  readonly kind: "register" | "bit" | "pin" | "call";
  /** `TCCR2B`, `CS22`, `3`, `analogWrite` */
  readonly name: string;
}

/** The chip's timer by number; throws RangeError for a timer that the chip does not have. */
export function timerOf(chip: Chip, number: number) {
  const timer = chip.timers.find((candidate) => candidate.number === number);
  if (timer === undefined) throw new RangeError(`${chip.id} has no timer ${number}`);
  return timer;
}
