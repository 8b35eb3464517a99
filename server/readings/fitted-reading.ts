/** One bench reading beside the prediction: whether it fits, what clock error it tells of, and what would explain a misfit. */
import { evenSpread, showClockError } from "../../shared-model/clock-spread.js";
import { meet } from "../../shared-model/readings/compare.js";
import type { Bounds } from "../../shared-model/signal.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import type { Analysis, PinHistory, PlacedComment } from "../analysis.js";
import { benchClock, type ComparedReading, compareAnother, type Prediction } from "../look/bench-clock.js";
import { either, showHz, showHzBounds, showShareBounds } from "../look/show.js";
import { explain } from "./explain.js";
import type { Explanation } from "./explanation.js";

export interface JudgedReading {
  readonly reading: ReadingComment;
  /** Null where the name is no pin of this board, or nothing is known of it. */
  readonly pin: PinHistory | null;
  readonly fits: "yes" | "no" | "unknown";
  /** Relative clock error that this reading alone allows: 0.001 is a clock 0.1 % fast; null where it tells nothing. */
  readonly clockError: Bounds<number> | null;
  /** What is predicted: `980.392 Hz`; several states joined by "or". Empty where nothing is. */
  readonly predicted: string;
  /** For a misfit: it is inside the board's tolerance, and only the other readings' word on the clock speaks against it. */
  readonly withinTolerance: boolean;
  /** For a misfit: nearest slips first. */
  readonly explanations: readonly Explanation[];
  /** Why it is unknown, or what was compared: one clause. */
  readonly because: string;
}

export interface FittedReading extends JudgedReading {
  readonly placed: PlacedComment;
}

const made = new WeakMap<Analysis, readonly FittedReading[]>();

/** Every bench reading of the sketch, in order. */
export function fittedReadings(analysis: Analysis): readonly FittedReading[] {
  const present = made.get(analysis);
  if (present !== undefined) return present;
  const found = benchClock(analysis).readings.map((compared) => ({
    ...judgedReading(analysis, compared),
    placed: compared.placed,
  }));
  made.set(analysis, found);
  return found;
}

/** A reading that does not stand in the sketch. */
export function fitReading(analysis: Analysis, reading: ReadingComment, pin: PinHistory | null): JudgedReading {
  return judgedReading(analysis, compareAnother(analysis, reading, pin));
}

function judgedReading(analysis: Analysis, compared: ComparedReading): JudgedReading {
  const { reading, pin, fits, clockError } = compared;
  const explanations = fits === "no" && pin !== null ? explain(analysis, reading, pin) : [];
  const { clockTolerance } = analysis.target;
  const withinTolerance = compared.predictions.some(
    ({ match }) =>
      match.kind === "gives" && match.clock !== null && meet(match.clock, evenSpread(clockTolerance)) !== null,
  );
  return {
    reading,
    withinTolerance,
    pin,
    fits,
    clockError,
    predicted: predictedWords(compared.predictions, reading),
    explanations,
    because: because(compared, clockTolerance),
  };
}

function because(compared: ComparedReading, tolerance: number): string {
  if (compared.open !== null) return compared.open;
  const { fits, giving, predictions, reading, clockError } = compared;
  if (fits === "no") return `${predictedWords(predictions, reading)} is predicted`;
  const which =
    giving.length < predictions.length ? predictedWords(giving, reading) : predictedWords(predictions, reading);
  const when = giving.length === 1 && predictions.length > 1 ? giving[0]!.when : null;
  const telling = clockError !== null && (clockError.min > -tolerance || clockError.max < tolerance);
  const clock = !telling ? "" : `: a clock error of ${showClockError(clockError)}`;
  return `${which} is predicted${when === null ? "" : ` when ${when}`}${clock}`;
}

/** Different predictions named one by one, as many as a line takes. */
const NAMED = 3;

/** What the pin would give, in as many words as the reading has: duty only where duty was read. */
export function predictedWords(predictions: readonly Prediction[], reading: ReadingComment): string {
  const all = predictions.map(({ waveform }) => waveform);
  const pulses = all.filter(({ kind }) => kind === "pulse");
  const shown = (pulses.length > 0 ? pulses : all).map((waveform) => {
    if (waveform.kind === "level") return `constantly ${waveform.level ?? "high or low"}`;
    if (waveform.kind !== "pulse") return waveform.kind === "unknown" ? "an unknown signal" : "no signal";
    const hz = waveform.frequencyHz === null ? "a pulse" : showHzBounds(waveform.frequencyHz);
    const duty = reading.duty === undefined || waveform.duty === null ? "" : `, duty ${showShareBounds(waveform.duty)}`;
    const width = reading.pulse === undefined || waveform.highTicks === null ? "" : widthWords(waveform);
    return `${hz}${duty}${width}`;
  });
  const unique = [...new Set(shown)];
  if (unique.length <= NAMED) return either(unique);
  return `${unique.slice(0, NAMED).join(", ")} or one of ${unique.length - NAMED} more`;
}

function widthWords({ highTicks, periodTicks, frequencyHz }: Prediction["waveform"]): string {
  if (highTicks === null || periodTicks === null || frequencyHz === null) return "";
  const tick = frequencyHz.max.den / frequencyHz.max.num / periodTicks.min;
  const micros = (ticks: number) => Number((ticks * tick * 1e6).toPrecision(6));
  const [low, high] = [micros(highTicks.min), micros(highTicks.max)];
  return `, pulse ${low === high ? low : `${low}..${high}`} µs`;
}

/** `985 Hz`, `duty 50 %`: what was read, in our spelling. */
export function readWords(reading: ReadingComment): string {
  const { frequency } = reading;
  return frequency === undefined || reading.duty !== undefined || reading.pulse !== undefined
    ? reading.text
    : showHz(frequency.value);
}
