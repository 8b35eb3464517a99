/** Completion where C++ has none to offer: inside comments addressed to the tool, and the bits of the register being written. */
import type { Board, Chip } from "../../shared-model/chip.js";
import { lineOf } from "../edits/source-text.js";
import { allFindings } from "../findings/all.js";
import { bitsOf } from "../look/register-fields.js";
import { type Choice, wantChoices } from "./want-completion.js";

export interface CompletionItem {
  readonly label: string;
  /** Replaces `span`; offsets into the document. */
  readonly insert: string;
  readonly span: { readonly start: number; readonly end: number };
  readonly detail: string;
}

/** What a caller lets the comments be completed with, besides the board's own pins. */
export interface WantWords {
  readonly boards: readonly string[];
  readonly specifications: readonly { readonly id: string; readonly says: string }[];
}

/** Characters after which an editor should ask (quick suggestions are off in comments). */
export const TRIGGER_CHARACTERS: readonly string[] = [" ", ":", ",", "("];

/** Items inside a `wants`, `bench reads` or `for pulsewright:` comment; empty anywhere else. */
export function wantCompletions(
  text: string,
  offset: number,
  board: Board | null,
  words: WantWords = { boards: [], specifications: [] },
): readonly CompletionItem[] {
  const line = lineOf(text, offset);
  const before = text.slice(line.start, offset);
  const opening = /(?:\/\/\/?|\/\*+|^\s*\*)\s*([^/]*)$/.exec(before);
  if (opening === null) return [];
  const said = opening[1]!;
  // A unit may follow its number at once; `+-` and numbers are typed by hand.
  const start = offset - (/(?:[A-Za-zµμΩ_][\w-]*|(?<![\w.])\d*)$/.exec(said)?.[0].length ?? 0);
  const item = (insert: string, detail: string): CompletionItem => ({
    label: insert.trim(),
    insert,
    span: { start, end: offset },
    detail,
  });
  const typed = said.slice(0, said.length - (offset - start));
  return choices(typed, board, words)
    .map(([insert, detail]) => item(insert, detail))
    .filter((each) => each.insert.toLowerCase().startsWith(text.slice(start, offset).toLowerCase()));
}

function choices(typed: string, board: Board | null, words: WantWords): readonly Choice[] {
  if (/^$/.test(typed)) {
    return [
      ["wants ", "what a pin must put out"],
      ["bench reads ", "what was measured at a pin"],
      ["for pulsewright: ", "board, clock, allowed findings"],
    ];
  }
  const want = /^wants\s+(.*)$/s.exec(typed)?.[1];
  if (want !== undefined) return wantChoices(want, { pins: pins(board, ""), specifications: words.specifications });
  if (/^bench\s+reads\s+$/.test(typed)) return pins(board, ": ");
  if (/^for\s+pulsewright:\s*$/.test(typed) || /^for\s+pulsewright:.*,\s*$/.test(typed)) {
    return [
      ["board ", "the board that the sketch is built for"],
      ["clock ", "the oscillator, such as 16 MHz +-0.5 %"],
      ["built for ", "the clock that the build was told"],
      ["allow ", "leave a finding be at this place"],
    ];
  }
  if (/^for\s+pulsewright:.*\bboard\s+$/.test(typed)) return words.boards.map((id): Choice => [id, "board"]);
  if (/^for\s+pulsewright:.*\bclock\s+$/.test(typed))
    return [
      ["16 MHz +-0.5 %", "ceramic resonator"],
      ["16 MHz +-100 ppm", "quartz crystal"],
      ["8 MHz", "oscillator"],
    ];
  if (/^for\s+pulsewright:.*\ballow\s+$/.test(typed))
    return allFindings.map((rule): Choice => [`${rule.id} because `, rule.says]);
  if (/^for\s+pulsewright:.*\ballow\s+[\w-]+\s+$/.test(typed))
    return [["because ", "the reason, to the end of the line"]];
  if (/^for\s+pulsewright:.*\b(?:clock|built\s+for)\s+[\d.]+\s*$/.test(typed))
    return [
      ["MHz", "frequency"],
      ["kHz", "frequency"],
    ];
  const measured = /^bench\s+reads\s[^:]*:(?:.*,)?\s*(duty|pulse|)\s*[\d.]+\s*$/.exec(typed)?.[1];
  if (measured !== undefined)
    return (measured === "duty" ? ["%"] : measured === "pulse" ? ["us", "ms"] : ["Hz", "kHz", "MHz"]).map(
      (unit): Choice => [unit, "unit"],
    );
  if (/^bench\s+reads\s+\S+:?.*(?::|,)\s*$/.test(typed))
    return [
      ["1 kHz", "frequency"],
      ["duty 50 %", "high share of the period"],
      ["pulse 1500 us", "high time"],
    ];
  return [];
}

function pins(board: Board | null, after: string): readonly Choice[] {
  const known = board?.pins ?? [];
  const pwm = known
    .filter((pin) => pin.analogWriteUnit !== undefined)
    .map((pin): Choice => [`D${pin.number}${after}`, `${pin.port}, PWM by ${pin.analogWriteUnit}`]);
  const rest = known
    .filter((pin) => pin.analogWriteUnit === undefined)
    .map((pin): Choice => [`${pin.analog ?? `D${pin.number}`}${after}`, pin.port]);
  return [...pwm, ...rest];
}

/** Bits of the register that the line before the caret writes; empty where it writes none. */
export function fieldCompletions(text: string, offset: number, chip: Chip): readonly CompletionItem[] {
  const line = lineOf(text, offset);
  const before = text.slice(line.start, offset);
  if (/\/\/|\/\*/.test(before)) return [];
  const statement = before.slice(before.lastIndexOf(";") + 1);
  const register =
    /\b([A-Z][A-Z0-9]+)\s*(?:[|&^]?=)(?!=)/.exec(statement)?.[1] ??
    /\bbit(?:Set|Clear|Write)\s*\(\s*([A-Z][A-Z0-9]+)\s*,/.exec(statement)?.[1];
  if (register === undefined) return [];
  const word = /[A-Za-z_]\w*$/.exec(before)?.[0] ?? "";
  const start = offset - word.length;
  return bitsOf(chip, register)
    .filter((bit) => bit.name.toLowerCase().startsWith(word.toLowerCase()))
    .map((bit) => ({
      label: bit.name,
      insert: bit.name,
      span: { start, end: offset },
      detail: `bit ${bit.position} of ${register}`,
    }));
}
