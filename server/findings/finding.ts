/** What one finding is: its page, its check, its fixes. One file per finding exports one such object. */
import type { Span } from "../../shared-model/span.js";
import type { Analysis } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";

export type Severity = "error" | "warning" | "note";

/**
 * A way out. `edit` is asked for only on demand; its result is applied in memory and analysed again before anything
 * is offered to the user as done: the finding must be gone, no graver one come, and pins it does not name keep their signals.
 */
export interface Fix {
  /** A verb phrase. */
  readonly title: string;
  /** `safe`: the register state stays the same; else what changes and why. */
  readonly safety: { readonly kind: "safe" } | { readonly kind: "changes behaviour"; readonly because: string };
  /** The pins whose signals it means to change (board numbers or ports). */
  readonly pins: readonly string[];
  edit(): readonly TextEdit[];
}

/** One thing the tool has to say about a place in the sketch. */
export interface Finding {
  readonly id: string;
  readonly severity: Severity;
  /** Fact with numbers, then the way out; at most two sentences. */
  readonly message: string;
  readonly span: Span;
  readonly related: readonly { readonly span: Span; readonly message: string }[];
  readonly fixes: readonly Fix[];
}

/** What a check reports; id and severity come from its rule. */
export type Report = (found: Omit<Finding, "id" | "severity" | "fixes"> & { readonly fixes?: readonly Fix[] }) => void;

export interface FindingRule {
  /** File name, stable, reads well after "allow". */
  readonly id: string;
  readonly severity: Severity;
  /** One line: what it says. */
  readonly says: string;
  /** The harm, in trade words. */
  readonly why: string;
  /** Data sheet, standard, or "common practice, no source". */
  readonly source: string;
  /** The two smallest whole sketches: one that shows it, one that does not. */
  readonly fires: string;
  readonly quiet: string;
  /** When to leave it be. */
  readonly whenFine: string;
  check(analysis: Analysis, report: Report): void;
}
