/**
 * Text of others (names, comments, messages) as Markdown that says just that text: CommonMark with the tables of GFM. Knows
 * nothing of sketches.
 */

/** What may not stand in a printed sheet: control characters, halves of characters, and those that turn the direction of writing. */
const UNPRINTABLE = /[\p{Cc}\p{Cs}\u202a-\u202e\u2066-\u2069\ufeff]/gu;
const LINE_WIDTH = 100;

/** One line without control characters; what cannot be printed is a replacement character. */
export function oneLine(text: string): string {
  return text.replace(/\s+/g, " ").replace(UNPRINTABLE, "\ufffd").trim();
}

/** Plain text: nothing in it is read as emphasis, code, link, tag or entity. */
export function plain(text: string): string {
  return escaped(oneLine(text))
    .replace(/^([-+=#])/, "\\$1")
    .replace(/^(\d+)([.)])(?=\s|$)/, "$1\\$2");
}

/** The same for one cell of a table. */
export function cell(text: string): string {
  return plain(text).replaceAll("|", "\\|");
}

/** A message of ours: plain text in which backticks mark code. */
export function message(text: string): string {
  const parts = oneLine(text).split("`");
  // A single backtick marks nothing.
  if (parts.length % 2 === 0) return plain(text);
  return parts.map((part, at) => (at % 2 === 1 ? fenced(part) : at === 0 ? plainStart(part) : escaped(part))).join("");
}

/** Like `plain`, with the blank at its end that belongs between the words. */
function plainStart(text: string): string {
  return `${plain(text)}${text.endsWith(" ") ? " " : ""}`;
}

function escaped(text: string): string {
  return text
    .replace(/[\\`*[\]<>~]/g, "\\$&")
    .replace(/(?<![\p{L}\p{N}])_|_(?![\p{L}\p{N}])/gu, "\\_")
    .replace(/&(?=#?\w+;)/g, "\\&");
}

/** A code span, with a fence longer than any run of backticks inside. */
export function code(text: string): string {
  return fenced(oneLine(text));
}

/** The same for one cell of a table, where `|` has to be escaped even in code. */
export function codeCell(text: string): string {
  return fenced(oneLine(text).replaceAll("|", "\\|"));
}

function fenced(line: string): string {
  if (line === "") return "";
  const longest = Math.max(0, ...[...line.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = "`".repeat(longest + 1);
  const room = line.startsWith("`") || line.endsWith("`") ? " " : "";
  return `${fence}${room}${line}${room}${fence}`;
}

export interface Column {
  readonly head: string;
  readonly align?: "right";
}

/** A table whose cells are Markdown already; missing cells are empty, and no row has more cells than the head. */
export function table(columns: readonly (Column | string)[], rows: readonly (readonly string[])[]): string[] {
  const heads = columns.map((column) => (typeof column === "string" ? { head: column } : column));
  const line = (cells: readonly string[]): string =>
    `| ${heads.map((_, at) => cells[at] ?? "").join(" | ")} |`.replace(/ {2,}/g, " ");
  return [
    line(heads.map(({ head }) => head)),
    `| ${heads.map(({ align }) => (align === "right" ? "--:" : "---")).join(" | ")} |`,
    ...rows.map(line),
  ];
}

/** A paragraph or list entry, broken between words so that the file itself reads and prints well. */
export function lines(text: string, mark = ""): string[] {
  const indent = " ".repeat(mark.length);
  const made: string[] = [];
  let line = "";
  // A span of code stays whole: whoever copies it out of the file gets one line.
  for (const word of text.match(/(?:(`+)(?:(?!\1).)+\1|\S)+/g) ?? []) {
    // A line that began with one of these would open a list, a heading, a quotation, a table or a block of code.
    const opens = /^(?:[-+*#<>=|~_]|`{3}|\d+[.)])/.test(word);
    if (line !== "" && !opens && indent.length + line.length + 1 + word.length > LINE_WIDTH) {
      made.push(line);
      line = word;
    } else {
      line = line === "" ? word : `${line} ${word}`;
    }
  }
  if (line !== "") made.push(line);
  return made.map((each, at) => (at === 0 ? mark : indent) + each);
}
