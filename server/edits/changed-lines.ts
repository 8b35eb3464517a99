/** Edits as a person reads them: the lines that go and the lines that come. */
import { lineIndex } from "../../shared-model/text-position.js";
import { applyEdits } from "./apply.js";
import { lineOf, type Stretch } from "./source-text.js";
import type { TextEdit } from "./text-edit.js";

/** The lines that go, with `-`, and those that come, with `+`. */
export function changedLines(text: string, edits: readonly TextEdit[]): string[] {
  const groups: { lines: { start: number; end: number }; edits: TextEdit[] }[] = [];
  for (const edit of [...edits].sort((left, right) => left.span.start - right.span.start)) {
    const lines: Stretch = { start: lineOf(text, edit.span.start).start, end: lineOf(text, edit.span.end).end };
    const last = groups[groups.length - 1];
    if (last !== undefined && last.lines.end >= lines.start) {
      last.lines.end = Math.max(last.lines.end, lines.end);
      last.edits.push(edit);
    } else groups.push({ lines: { ...lines }, edits: [edit] });
  }
  return groups.flatMap(({ lines, edits: here }) => {
    const old = text.slice(lines.start, lines.end);
    const moved = here.map((edit) => ({
      ...edit,
      span: { ...edit.span, start: edit.span.start - lines.start, end: edit.span.end - lines.start },
    }));
    return [
      `@ line ${lineIndex(text).positionAt(lines.start).line + 1}`,
      ...difference(rows(old), rows(applyEdits(old, moved))),
    ];
  });
}

function rows(text: string): string[] {
  return text === "" ? [] : text.split(/\r\n|\n|\r/);
}

/** Without what both begin and end with. */
function difference(old: readonly string[], now: readonly string[]): string[] {
  let head = 0;
  while (head < Math.min(old.length, now.length) && old[head] === now[head]) head += 1;
  let tail = 0;
  while (tail < Math.min(old.length, now.length) - head && old[old.length - 1 - tail] === now[now.length - 1 - tail])
    tail += 1;
  return [
    ...old.slice(head, old.length - tail).map((line) => `- ${line}`),
    ...now.slice(head, now.length - tail).map((line) => `+ ${line}`),
  ];
}
