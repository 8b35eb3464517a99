/** How the preprocessor's tests make sources, run them, and compare what comes out: as tokens, blank space aside. */
import { PREPROCESS_LIMITS, type PreprocessOptions, preprocess } from "../../server/preprocess/preprocess.js";
import type { Preprocessed } from "../../server/preprocess/preprocessed.js";
import type { SourceFile } from "../../server/preprocess/source.js";
import { findBoard } from "../../shared-model/boards/boards.js";
import type { Board, Chip } from "../../shared-model/chip.js";
import { findChip } from "../../shared-model/chips/chips.js";

export const uno = findBoard("uno") as Board;
export const atmega328p = findChip("atmega328p") as Chip;
export const mega = findBoard("mega") as Board;
export const atmega2560 = findChip("atmega2560") as Chip;

export const ON_UNO: PreprocessOptions = {
  chip: atmega328p,
  board: uno,
  boardMacro: uno.macro,
  fCpu: 16_000_000,
  arduinoVersion: 10819,
  limits: PREPROCESS_LIMITS,
};

export const ON_MEGA: PreprocessOptions = {
  ...ON_UNO,
  chip: atmega2560,
  board: mega,
  boardMacro: mega.macro,
};

/** Files by path; `lib/…` stands for a library folder. Found by name alone, in the sketch first. */
export type Files = Readonly<Record<string, string>>;

function fileOf(path: string, text: string): SourceFile {
  return { path, text, kind: path.startsWith("lib/") ? "library" : "sketch" };
}

/** The whole text as one tab, with Arduino.h in force. */
export function sketch(text: string, headers: Files = {}, options: Partial<PreprocessOptions> = {}): Preprocessed {
  return project({ tabs: { "greenhouse.ino": text }, headers }, options);
}

/** The whole text as a C++ file of its own: nothing is included that it does not include. */
export function plain(text: string, headers: Files = {}, path = "plain.cpp"): Preprocessed {
  return project({ units: { [path]: text }, headers });
}

export function project(
  files: { tabs?: Files; units?: Files; headers?: Files },
  options: Partial<PreprocessOptions> = {},
): Preprocessed {
  const headers = files.headers ?? {};
  const sources = {
    tabs: Object.entries(files.tabs ?? {}).map(([path, text]) => fileOf(path, text)),
    units: Object.entries(files.units ?? {}).map(([path, text]) => fileOf(path, text)),
    include(name: string, _from: string, angled: boolean): SourceFile | undefined {
      const path = angled ? `lib/${name}` : name in headers ? name : `lib/${name}`;
      const text = headers[path];
      return text === undefined ? undefined : fileOf(path, text);
    },
  };
  return preprocess(sources, { ...ON_UNO, ...options });
}

const TOKEN =
  /"(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*'|\.?\d(?:[eEpP][+-]|[\w.])*|[A-Za-z_$][\w$]*|<<=|>>=|\.\.\.|->\*|##|<<|>>|<=|>=|==|!=|&&|\|\||\+\+|--|[-+*/%&|^]=|->|::|\S/g;

/** The text's tokens with one blank between each. */
export function tokens(text: string): string {
  return (text.match(TOKEN) ?? []).join(" ");
}

/** Tokens of the expanded text of a sketch that leaves no gap. */
export function expanded(text: string, headers: Files = {}): string {
  const result = sketch(text, headers);
  if (result.gaps.length > 0) throw new Error(result.gaps.map((gap) => gap.reason).join("; "));
  return tokens(result.text);
}

export function reasons(result: Preprocessed): string[] {
  return result.gaps.map((gap) => gap.reason);
}

/** The source text that an expanded piece stands for; the piece is the nth occurrence in the expanded text. */
export function sourceOf(result: Preprocessed, piece: string, nth = 0): string {
  const { start, end } = result.map.span(...rangeOf(result, piece, nth));
  return (result.files[0] as SourceFile).text.slice(start, end);
}

export function rangeOf(result: Preprocessed, piece: string, nth = 0): [number, number] {
  let start = -1;
  for (let found = 0; found <= nth; found++) start = result.text.indexOf(piece, start + 1);
  if (start < 0) throw new Error(`'${piece}' is not in the expanded text`);
  return [start, start + piece.length];
}
