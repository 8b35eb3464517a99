/** All the styles that a random program may mix, with how often each comes in 100 programs. */
import type { Draft } from "../draft.js";
import { CONTROL_STYLES } from "./control.js";
import { MACRO_STYLES } from "./macros.js";
import { NUMBER_STYLES } from "./numbers.js";
import { OBJECT_STYLES } from "./objects.js";
import { POINTER_STYLES } from "./pointers.js";
import { TIME_STYLES } from "./time.js";
import { UNIT_STYLES } from "./units.js";

export interface Style {
  readonly percent: number;
  /** Adds declarations and functions to the draft, and ways to make statements of them. */
  readonly write: (draft: Draft) => void;
}

export const STYLES: readonly Style[] = [
  ...NUMBER_STYLES,
  ...MACRO_STYLES,
  ...POINTER_STYLES,
  ...OBJECT_STYLES,
  ...CONTROL_STYLES,
  ...TIME_STYLES,
  ...UNIT_STYLES,
];
