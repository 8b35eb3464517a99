/**
 * What the language server and an editor's client say to each other beyond the standard protocol, and the settings that
 * both read. Plain data; positions are those of the Language Server Protocol (from 0, UTF-16).
 */

/** Section of the client's configuration. */
export const SECTION = "pulsewright";

/** Asks what the sketch around a document is analysed for. `TargetParams` → `TargetAnswer | null` (null: no sketch). */
export const TARGET_REQUEST = "pulsewright/target";
/** The boards and bare chips that can be chosen. → `readonly BoardChoice[]` */
export const BOARDS_REQUEST = "pulsewright/boards";
/** The edit that writes a board or clock into the sketch's own comment. `TargetEditParams` → `FileEdit | null` */
export const TARGET_EDIT_REQUEST = "pulsewright/targetEdit";
/** One finding's page. `{ id }` → Markdown, or null for an unknown id. */
export const FINDING_PAGE_REQUEST = "pulsewright/findingPage";
/** The signal sheet of the sketch around a document. `SheetParams` → string | null */
export const SHEET_REQUEST = "pulsewright/sheet";
/** The pins for which a signal can be planned. `TargetParams` → `readonly PinChoice[] | null` (null: no sketch). */
export const PINS_REQUEST = "pulsewright/pins";
/** Whether a want can be read, while it is typed. `PlansParams` → `UnreadWant | null` */
export const READ_WANT_REQUEST = "pulsewright/readWant";
/** Ways to meet a want that is not (yet) written in the sketch. `PlansParams` → `PlanChoices | null` */
export const PLANS_REQUEST = "pulsewright/plans";
/** The edit of one of them, proved by analysing the edited sketch. `PlanEditParams` → `PlannedEdit | null` */
export const PLAN_EDIT_REQUEST = "pulsewright/planEdit";
/** From the input to the duty, at a write or call that sets a duty. `DutyCurveParams` → `DutyCurveAnswer | null` (null: no curve) */
export const DUTY_CURVE_REQUEST = "pulsewright/dutyCurve";
/** Server → client: the answers for these documents may have changed (`AnalysedParams`). */
export const ANALYSED_NOTIFICATION = "pulsewright/analysed";

/** Commands that the client registers and that code actions refer to. */
export const EXPLAIN_FINDING_COMMAND = "pulsewright.explainFinding";

export interface TargetParams {
  readonly uri: string;
}

export interface TargetAnswer {
  /** `nano`, `nano:cpu=atmega168`, `atmega328p`. */
  readonly boardId: string;
  readonly boardName: string;
  readonly chip: string;
  readonly clockHz: number;
  readonly fCpu: number;
  /** Relative, one-sided: 0.005 is ±0.5 %. */
  readonly clockTolerance: number;
  readonly decidedBy: string;
  /** The sketch's main file. */
  readonly mainUri: string;
  /** False: something was not followed. */
  readonly complete: boolean;
  readonly gaps: number;
  /** Why there is no answer (unknown board, analysis stopped …), or null. */
  readonly trouble: string | null;
}

export interface BoardChoice {
  readonly id: string;
  readonly name: string;
  readonly chip: string;
  readonly clockHz: number;
}

export interface TargetEditParams {
  readonly uri: string;
  /** What the comment shall say; undefined leaves that part as it is. */
  readonly boardId?: string;
  readonly clockHz?: number;
}

/** One replacement in one file. */
export interface FileEdit {
  readonly uri: string;
  readonly range: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
  readonly newText: string;
}

export interface SheetParams extends TargetParams {
  /** Default: text. */
  readonly format?: "text" | "markdown";
}

export interface PinChoice {
  /** `D3` */
  readonly pin: string;
  /** `OC2B, timer 2` */
  readonly says: string;
  /** What it puts out today: `490.196 Hz`. */
  readonly today: string;
}

export interface PlansParams {
  readonly uri: string;
  /** As in a want: `D3`. */
  readonly pin: string;
  /** What follows the colon of a want: `1 kHz within 980..1020 Hz`. */
  readonly want: string;
}

export interface PlanChoice {
  /** Tells it from the others of the same want. */
  readonly title: string;
  /** Short: `1 kHz on D3: phase correct, prescaler 32, TOP 250`. */
  readonly label: string;
  /** What is met, how exactly, with how many steps. */
  readonly says: string;
  /** What it costs; empty where nothing. */
  readonly costs: string;
  readonly code: string;
}

/** Where reading stopped (columns of the want's text, from 0), and what would have been understood there. */
export interface UnreadWant {
  readonly column: number;
  readonly expected: string;
}

export interface PlanChoices {
  readonly unread: UnreadWant | null;
  /** Best first. */
  readonly plans: readonly PlanChoice[];
  /** Why there is none; null where there is one. */
  readonly why: string | null;
  /** Pins that would do better. */
  readonly moves: readonly string[];
}

export interface PlanEditParams extends PlansParams {
  readonly title: string;
  /** Whether the want is written into the sketch as well. */
  readonly writesWant: boolean;
}

export type PlannedEdit = { readonly edits: readonly FileEdit[] } | { readonly refused: string };

export interface AnalysedParams {
  readonly uris: readonly string[];
}

/** What a client may say about itself in `initializationOptions`. */
export interface ClientOptions {
  /** True where the client registers `EXPLAIN_FINDING_COMMAND`. */
  readonly explainsFindings?: boolean;
}

/** Applies the plan that a lens shows; its one argument is the plan's address. Run by the server. */
export const APPLY_PLAN_COMMAND = "pulsewright.applyPlan";

export interface DutyCurveParams {
  readonly uri: string;
  readonly position: { readonly line: number; readonly character: number };
}

export interface DutyCurveAnswer {
  /** `D9` */
  readonly label: string;
  /** What a person would not expect, in one line; null where the curve is even. */
  readonly line: string | null;
  /** A reading of the outside, or the written value itself. */
  readonly input: "reading" | "value";
  readonly top: number;
  /** Different duties that occur, and how many TOP allows. */
  readonly used: number;
  readonly steps: number;
  /** Inputs at either end that change nothing. */
  readonly deadLow: number;
  readonly deadHigh: number;
  /** Ascending by input; `duty` from 0 to 1, null: constant, but not known at which level. */
  readonly points: readonly { readonly input: number; readonly value: number; readonly duty: number | null }[];
  /** A picture that takes its colour from the text around it. */
  readonly svg: string;
}
