/** Duty values moved onto another TOP: numbers scaled and rounded, expressions sent through map. */
import type { ModeFact } from "../../shared-model/chip.js";
import type { Bounds } from "../../shared-model/signal.js";
import type { Span } from "../../shared-model/span.js";
import type { Analysis, WrittenExpression } from "../analysis.js";
import { type DutyWrite, isPlainNumber } from "./today.js";

export type Counting = "single" | "dual";

/** How duties of a unit were written, and how they are to be. */
export interface Scale {
  /** The value that meant always on: the TOP of today, or the end of the values' own range. */
  readonly from: number;
  /** How the timer counts today; null where that is not one way. */
  readonly fromCounting: Counting | null;
  /** Whether a greater compare value makes the pulse shorter today. */
  readonly fromInverted: boolean;
  /** Compare values that 0 and `from` become. */
  readonly onto: Bounds<number>;
  readonly top: number;
  readonly counting: Counting;
  /** A greater compare value makes the pulse shorter. */
  readonly inverted: boolean;
  /** True where analogWrite goes on doing the work; false where the compare register is written in its place. */
  readonly keepsAnalogWrite: boolean;
  readonly compare: string;
}

export function countingOf(mode: ModeFact): Counting | null {
  if (mode.family === "fast") return "single";
  return mode.family === "phase correct" || mode.family === "phase and frequency correct" ? "dual" : null;
}

/** The compare value that comes nearest to what a value gave; held inside `onto`. */
export function scaledValue(value: number, by: DutyWrite["by"], scale: Scale): number {
  const whole = scale.onto.min === 0 && scale.onto.max === scale.top;
  const ideal = whole ? compareFor(dutyOf(value, by, scale), scale) : moved(value, scale);
  return Math.min(Math.max(ideal, scale.onto.min), scale.onto.max);
}

/** What 0 and `from` become: the far end first where the one scale is inverted and the other is not. */
function ends(scale: Scale): readonly [number, number] {
  const { onto } = scale;
  return turns(scale) ? [onto.max, onto.min] : [onto.min, onto.max];
}

function turns({ inverted, fromInverted }: Scale): boolean {
  return inverted !== fromInverted;
}

function dutyOf(value: number, by: DutyWrite["by"], { from, fromCounting, fromInverted }: Scale): number {
  if (fromInverted) return Math.max(0, from - value) / (fromCounting === "single" ? from + 1 : from);
  // The core makes a level of 0 and 255 (wiring_analog.c); of a compare value it is the counter that does.
  if (by === "analogWrite" && value <= 0) return 0;
  if (value >= from || (by === "analogWrite" && value === 255)) return 1;
  return fromCounting === "single" ? (value + 1) / (from + 1) : value / from;
}

function compareFor(duty: number, { top, counting, inverted }: Scale): number {
  // Inverted, the pulse is what the counter has left: TOP - value counts in both ways of counting.
  if (inverted) return top - Math.round(counting === "single" ? duty * (top + 1) : duty * top);
  if (duty <= 0) return 0;
  return Math.max(0, counting === "single" ? Math.round(duty * (top + 1)) - 1 : Math.round(duty * top));
}

function moved(value: number, scale: Scale): number {
  const [first, last] = ends(scale);
  return first + Math.round((Math.min(value, scale.from) * (last - first)) / scale.from);
}

/** Whether the writes can stay as they are. */
export function keepsValues(scale: Scale): boolean {
  return scale.onto.min === 0 && scale.onto.max === scale.from && !turns(scale);
}

/** The text that takes a duty write's place, with the stretch it replaces; null where it has to stay, undefined where it cannot be scaled. */
export function rescaled(
  analysis: Analysis,
  write: DutyWrite,
  scale: Scale,
): { readonly span: Span; readonly text: string } | null | undefined {
  const stays = keepsValues(scale) && (write.by === "register" || scale.keepsAnalogWrite);
  if (stays) return null;
  if (!write.own || write.value === null || write.inInterrupt !== null) return undefined;
  const text = analysis.files.find((file) => file.path === write.span.path)?.text;
  if (text === undefined) return undefined;
  const whole = text.slice(write.span.start, write.span.end);
  // The call or assignment itself must stand there, not a macro that makes it.
  if (write.by === "analogWrite" ? !/^analogWrite\s*\(/.test(whole) : !whole.startsWith(scale.compare))
    return undefined;
  const value = valueText(analysis, text, write, write.value, scale);
  if (value === undefined) return undefined;
  if (write.by === "register" || scale.keepsAnalogWrite) return { span: write.value.span, text: value };
  return { span: write.span, text: `${scale.compare} = ${value}` };
}

function valueText(
  analysis: Analysis,
  text: string,
  write: DutyWrite,
  value: WrittenExpression,
  scale: Scale,
): string | undefined {
  const { span } = value;
  if (span.path !== write.span.path || span.start < write.span.start || span.end > write.span.end) return undefined;
  if (isPlainNumber(value) && write.constant !== null) return String(scaledValue(write.constant, write.by, scale));
  const source = text.slice(span.start, span.end);
  const { from } = scale;
  const [first, last] = ends(scale);
  if (keepsValues(scale)) return source;
  if (analysis.core) return `map(${source}, 0, ${from}, ${first}, ${last})`;
  const wrapped = /^\w+$/.test(source) ? source : `(${source})`;
  const reach = `(uint32_t) ${wrapped} * ${Math.abs(last - first)} / ${from}`;
  if (last < first) return `${first} - ${reach}`;
  return first === 0 ? reach : `${first} + ${reach}`;
}
