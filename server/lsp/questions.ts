/**
 * What the protocol side asks of the engine's thread, and what comes back. All plain data, since it crosses threads; the
 * answers are in the protocol's own shapes, so that places are converted once, where the texts are.
 */
import type {
  CodeAction,
  CodeLens,
  CompletionItem,
  Diagnostic,
  Hover,
  InlayHint,
  Position,
  Range,
  TextEdit,
} from "vscode-languageserver/node";
import type {
  BoardChoice,
  DutyCurveAnswer,
  FileEdit,
  PinChoice,
  PlanChoices,
  PlannedEdit,
  TargetAnswer,
  UnreadWant,
} from "../../shared-model/protocol.js";
import type { EditorSettings } from "./settings.js";

/** An open document whose text the engine does not have yet; `text` null: closed. */
export interface BufferChange {
  readonly path: string;
  readonly uri: string;
  readonly version: number;
  readonly text: string | null;
}

/** Everything that decides an answer, whole and explicit. */
export interface Circumstances {
  readonly settings: EditorSettings;
  /** Paths of the workspace's folders. */
  readonly workspace: readonly string[];
}

interface AtPath {
  readonly path: string;
}

/** A want that is not in the sketch: pin as in a comment, and what follows the colon. */
interface NewWant {
  readonly pin: string;
  readonly want: string;
}

/** Question → parameters and answer. */
export interface Exchange {
  hover: { asks: AtPath & { readonly position: Position }; answer: Hover | null };
  dutyCurve: { asks: AtPath & { readonly position: Position }; answer: DutyCurveAnswer | null };
  hints: { asks: AtPath & { readonly range: Range }; answer: readonly InlayHint[] };
  diagnostics: { asks: AtPath; answer: SketchDiagnostics };
  actions: { asks: AtPath & ActionRequest; answer: readonly CodeAction[] };
  lenses: { asks: AtPath & { readonly version: number }; answer: readonly CodeLens[] };
  lensTitle: LensTitle;
  resolve: { asks: AtPath & { readonly wanted: ActionData }; answer: ResolvedAction };
  completion: { asks: AtPath & { readonly position: Position }; answer: readonly CompletionItem[] };
  target: { asks: AtPath; answer: TargetAnswer | null };
  targetEdit: { asks: AtPath & { readonly boardId?: string; readonly clockHz?: number }; answer: FileEdit | null };
  boards: { asks: AtPath; answer: readonly BoardChoice[] };
  findingPage: { asks: AtPath & { readonly id: string }; answer: string | null };
  sheet: { asks: AtPath & { readonly format: "text" | "markdown" }; answer: string | null };
  pins: { asks: AtPath; answer: readonly PinChoice[] | null };
  readWant: { asks: AtPath & NewWant; answer: UnreadWant | null };
  plans: { asks: AtPath & NewWant; answer: PlanChoices | null };
  planEdit: {
    asks: AtPath & NewWant & { readonly title: string; readonly writesWant: boolean };
    answer: PlannedEdit | null;
  };
}

export type QuestionKind = keyof Exchange;

export interface SketchDiagnostics {
  /** By URI: every file of the sketch's own, also those without a finding. */
  readonly byUri: Readonly<Record<string, readonly Diagnostic[]>>;
  /** How many places do not parse: more than before means half-typed code. */
  readonly broken: number;
}

export interface ActionRequest {
  readonly range: Range;
  /** Kinds asked for; undefined: all. */
  readonly only: readonly string[] | undefined;
  /** True where the client cannot resolve edits later. */
  readonly eager: boolean;
  readonly diagnostics: readonly Diagnostic[];
  /** True where the client has the command that shows a finding's page. */
  readonly explains: boolean;
  /** True where nobody asked: the caret has only come here. */
  readonly automatic: boolean;
}

/** The lens of a want's best plan: found by where the want begins and which of its pins is meant. */
export interface LensTitle {
  readonly asks: AtPath & { readonly version: number; readonly start: number; readonly pin: string };
  readonly answer: { readonly title: string; readonly command: string; readonly arguments: readonly ActionData[] };
}

/** Enough to find the same fix again when its edit is asked for. */
export interface ActionData {
  readonly path: string;
  /** Version of the document for which the action was offered. */
  readonly version: number;
  readonly scope: "one" | "rule" | "all safe" | "plan";
  /** The finding's id; of a plan the file in which the want stands. */
  readonly id: string;
  /** Which finding, or which want: where it starts and ends in its file. */
  readonly start: number;
  readonly end: number;
  readonly title: string;
}

export type ResolvedAction =
  | { readonly kind: "edits"; readonly byUri: Readonly<Record<string, readonly TextEdit[]>> }
  | { readonly kind: "refused"; readonly reason: string };

export interface QuestionMessage {
  readonly id: number;
  readonly kind: QuestionKind;
  readonly asks: Exchange[QuestionKind]["asks"];
  readonly circumstances: Circumstances;
  readonly buffers: readonly BufferChange[];
}

/** `stopped`: retired by an edit. `late`: longer than the limit. `fault`: the engine failed, with what helps to find out why (no source text). */
export type AnswerMessage =
  | { readonly id: number; readonly outcome: "answer"; readonly answer: unknown }
  | { readonly id: number; readonly outcome: "stopped" }
  | { readonly id: number; readonly outcome: "late" }
  | { readonly id: number; readonly outcome: "fault"; readonly reason: string };

/** The shared flag: the id of the question whose answer nobody wants any more. */
export const STOP_SLOT = 0;
