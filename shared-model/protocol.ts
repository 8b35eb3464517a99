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
/** The signal sheet of the sketch around a document, as text. `TargetParams` → string | null */
export const SHEET_REQUEST = "pulsewright/sheet";
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

export interface AnalysedParams {
  readonly uris: readonly string[];
}

/** What a client may say about itself in `initializationOptions`. */
export interface ClientOptions {
  /** True where the client registers `EXPLAIN_FINDING_COMMAND`. */
  readonly explainsFindings?: boolean;
}
