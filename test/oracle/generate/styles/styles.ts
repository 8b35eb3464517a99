/** All the styles that a random program may mix, with how often. */
import type { Draft } from "../draft.js";

export interface Style {
  readonly percent: number;
  readonly write: (draft: Draft) => void;
}

export const STYLES: readonly Style[] = [];
