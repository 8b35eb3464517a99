/** Every want of the sketch with its pin, the signals that it judges, and the verdict. */
import type { Span } from "../../shared-model/span.js";
import type { WantComment, WantedSignal } from "../../shared-model/wants/comment.js";
import { type Judgement, judgeWant, type Verdict } from "../../shared-model/wants/judge.js";
import type { Analysis, PinHistory, PinSignal, PlacedComment } from "../analysis.js";
import { clockSpread } from "./bench-clock.js";
import { pinOfComment } from "./wanted-pin.js";

export interface JudgedWant extends Judgement {
  readonly want: WantComment;
  readonly placed: PlacedComment;
  /** Where the want stands in the source. */
  readonly span: Span;
  /** Null where the name is no pin of this board, or nothing is known of it. */
  readonly pin: PinHistory | null;
  readonly signals: readonly PinSignal[];
}

export function wantVerdicts(analysis: Analysis): readonly JudgedWant[] {
  const judged: JudgedWant[] = [];
  for (const placed of analysis.comments) {
    const { comment } = placed;
    if (comment.kind !== "want") continue;
    const span = {
      path: placed.span.path,
      start: placed.span.start + comment.at.start,
      end: placed.span.start + comment.at.end,
    };
    const pin = pinOfComment(analysis, placed);
    if (pin === null) {
      judged.push({
        want: comment,
        placed,
        span,
        pin: null,
        signals: [],
        met: "unknown",
        reasons: [`${comment.pin} is no pin that is known here`],
      });
      continue;
    }
    const signals = pin === undefined ? [] : signalsFor(placed, pin);
    judged.push({
      want: comment,
      placed,
      span,
      pin: pin ?? null,
      signals,
      ...withWords(
        judgeWant(comment, signals, clockSpread(analysis), { supplyVolts: analysis.target.supply?.volts ?? null }),
        placed,
      ),
    });
  }
  return judged;
}

/** One demand of a want judged alone, against some of its signals. */
export function judgePart(analysis: Analysis, part: WantedSignal, signals: readonly PinSignal[]): Judgement {
  return judgeWant(part, signals, clockSpread(analysis));
}

/** At file level the running regime; inside a function what was told apart for it. */
function signalsFor({ judgedOn }: PlacedComment, pin: PinHistory): readonly PinSignal[] {
  if (judgedOn !== undefined && judgedOn.signals.length > 0) return judgedOn.signals;
  const running = pin.signals.filter((signal) => signal.regime === "running");
  return running.length > 0 ? running : pin.signals;
}

/** With what it was judged on, for a want inside a function: last among what stands beside the verdict. */
function withWords(judgement: Judgement, { judgedOn }: PlacedComment): Judgement {
  if (judgedOn === undefined) return judgement;
  const { reasons, beside = [] } = judgement;
  return { ...judgement, reasons: [...reasons, judgedOn.words], beside: [...beside, judgedOn.words] };
}

const GRAVEST: readonly Verdict[] = ["no", "unknown", "marginal", "yes"];

/** One entry for each want as written: several pins together, the gravest verdict, each reason with its pin. */
export function verdictsByWant(
  analysis: Analysis,
): readonly { readonly span: Span; readonly met: Verdict; readonly reasons: readonly string[] }[] {
  const bySpan = new Map<string, JudgedWant[]>();
  for (const judged of wantVerdicts(analysis)) {
    const { path, start } = judged.span;
    const key = `${path}:${start}`;
    bySpan.set(key, [...(bySpan.get(key) ?? []), judged]);
  }
  return [...bySpan.values()].map((wants) => ({
    span: wants[0]!.span,
    met: GRAVEST.find((verdict) => wants.some(({ met }) => met === verdict))!,
    reasons:
      wants.length === 1
        ? wants[0]!.reasons
        : wants.map(({ want, met, reasons }) => `${want.pin} ${SAYS[met]}: ${reasons.join(", ")}`),
  }));
}

const SAYS: Readonly<Record<Verdict, string>> = {
  yes: "met",
  marginal: "marginal",
  no: "not met",
  unknown: "not known",
};
