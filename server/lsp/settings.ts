/** Settings of the editor, with their defaults: the one table (package.json's `contributes.configuration` is tested against it). */

/** A finding's severity as the user wants it; `off` means not run. */
export type WantedSeverity = "error" | "warning" | "note" | "off";

export interface EditorSettings {
  /** Board id, `id:cpu=option` or bare chip; "" where the sketch, sketch.yaml or the default decides. */
  readonly board: string;
  /** Oscillator, as `16 MHz` or Hz; "" where the board decides. */
  readonly clock: string;
  readonly libraries: readonly string[];
  /** Folder of an installed core, executed in place of the built-in model; "" for the model. */
  readonly core: string;
  /** Named specifications of the user's own, as sent: read by shared-model/wants/own-specifications.ts. */
  readonly specifications: Readonly<Record<string, unknown>>;
  readonly hover: { readonly enable: boolean };
  readonly hints: {
    readonly enable: boolean;
    readonly frequency: boolean;
    readonly duty: boolean;
    readonly verdict: boolean;
  };
  readonly lens: { readonly enable: boolean };
  readonly findings: { readonly severity: Readonly<Record<string, WantedSeverity>> };
}

export const DEFAULT_SETTINGS: EditorSettings = {
  board: "",
  clock: "",
  libraries: [],
  core: "",
  specifications: {},
  hover: { enable: true },
  hints: { enable: true, frequency: true, duty: true, verdict: true },
  lens: { enable: false },
  findings: { severity: {} },
};

/** Whatever a client sends, made whole: unknown keys are left out, wrong types replaced by the default. */
export function settingsFrom(sent: unknown): EditorSettings {
  const own = (sent as { specifications?: unknown } | null | undefined)?.specifications;
  const isTable = typeof own === "object" && own !== null && !Array.isArray(own);
  return { ...merged(DEFAULT_SETTINGS, sent), specifications: isTable ? { ...own } : {} };
}

function merged<T>(fallback: T, sent: unknown): T {
  if (Array.isArray(fallback)) {
    return (Array.isArray(sent) ? sent.filter((entry) => typeof entry === "string") : fallback) as T;
  }
  if (typeof fallback === "object" && fallback !== null) {
    if (typeof sent !== "object" || sent === null || Array.isArray(sent)) return fallback;
    const from = sent as Record<string, unknown>;
    const keys = Object.keys(fallback);
    // A table by name (severities): any name, values checked where they are used.
    if (keys.length === 0)
      return Object.fromEntries(Object.entries(from).filter(([, value]) => isSeverity(value))) as T;
    return Object.fromEntries(
      keys.map((key) => [key, merged((fallback as Record<string, unknown>)[key], from[key])]),
    ) as T;
  }
  return typeof sent === typeof fallback ? (sent as T) : fallback;
}

function isSeverity(value: unknown): value is WantedSeverity {
  return value === "error" || value === "warning" || value === "note" || value === "off";
}
