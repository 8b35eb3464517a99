/** The words of `pulsewright explain`: pure, no files. Every fault is one sentence. */
import { parseArgs } from "node:util";
import { readClock } from "../../shared-model/clock-text.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import { readComment } from "../../shared-model/wants/read-comment.js";

export interface ExplainWords {
  readonly board: string | undefined;
  readonly clockHz: number | undefined;
  /** As given: `D3`, `3`, `PD3`, a constant of the sketch. */
  readonly pin: string;
  readonly reading: ReadingComment;
  /** As given. */
  readonly text: string;
  readonly sketch: string | undefined;
  readonly libraries: readonly string[];
  readonly core: string | undefined;
  readonly format: "text" | "json";
}

export type Problem = { readonly problem: string };

export function readExplainWords(words: readonly string[]): ExplainWords | Problem {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(words);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { problem: message.split(/\.\s|\n/)[0]!.replace(/\.$/, "") };
  }
  const { values, positionals } = parsed;
  const [pin, ...morePins] = values.pin ?? [];
  if (pin === undefined || morePins.length > 0 || pin.trim() === "")
    return { problem: "explain needs one pin: --pin 3" };
  if (!/^\w+$/.test(pin.trim()))
    return { problem: `"${pin}" is no pin: give one as the board prints it, as in --pin 3` };
  const [text, sketch, ...more] = positionals;
  if (text === undefined) return { problem: 'explain needs what was read, in quotes: "985 Hz, duty 50 %"' };
  if (more.length > 0)
    return { problem: `explain takes one reading (in quotes) and one sketch: "${more[0]}" is too much` };
  const format = values.format ?? "text";
  if (format !== "text" && format !== "json")
    return { problem: `unknown format "${format}": an explanation is printed as text or json` };
  const clockHz = values.clock === undefined ? undefined : readClock(values.clock);
  if (clockHz === null) return { problem: `"${values.clock}" is no clock: give it in Hz, as in 16000000, 8e6 or 8MHz` };
  const reading = readReading(pin.trim(), text);
  if ("problem" in reading) return reading;
  const { board, libraries = [], core } = values;
  return { board, clockHz, pin: pin.trim(), reading, text: text.trim(), sketch, libraries, core, format };
}

function parse(words: readonly string[]) {
  return parseArgs({
    args: [...words],
    allowPositionals: true,
    strict: true,
    options: {
      board: { type: "string" },
      clock: { type: "string" },
      pin: { type: "string", multiple: true },
      format: { type: "string" },
      libraries: { type: "string", multiple: true },
      core: { type: "string" },
    },
  });
}

/** The text as it stands in a sketch behind `bench reads PIN:`; `with REGISTER = VALUE:` may stand in front, or the whole comment. */
function readReading(pin: string, text: string): ReadingComment | Problem {
  const bare = text.replace(/^\s*(?:\/\/+\s*)?bench\s+reads\s+\w+\s*:?/, "");
  const cut = text.length - bare.trimStart().length;
  const held = /^with\b/i.test(bare.trim());
  const opening = held ? `// bench reads ${pin} ` : `// bench reads ${pin}: `;
  const lines = /[\r\n]/.test(bare.trim());
  const comment = lines || bare.trim() === "" ? undefined : readComment(`${opening}${bare.trim()}`)[0];
  if (comment?.kind === "reading") return comment;
  const column = comment?.kind === "unread" ? Math.max(0, comment.column - opening.length) + cut : cut;
  const expected =
    comment?.kind === "unread" ? comment.expected : "a reading such as 985 Hz, duty 50 % or pulse 1500 us, on one line";
  return { problem: `the reading ${quoted(text)} cannot be read at column ${column + 1}: expected ${expected}` };
}

function quoted(text: string): string {
  const line = text.replace(/\s+/g, " ");
  return `"${line.length > 70 ? `${line.slice(0, 70)}…` : line}"`;
}
