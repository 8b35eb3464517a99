/** The edit that writes a board or a clock into the sketch's own comment. */
import { writeClock } from "../../shared-model/clock-text.js";
import type { Span } from "../../shared-model/span.js";
import type { SettingsComment } from "../../shared-model/wants/comment.js";
import { readComment } from "../../shared-model/wants/read-comment.js";
import { lineBreak } from "../edits/source-text.js";
import { commentsIn } from "../files/target-comment.js";

export interface WantedTarget {
  readonly boardId?: string;
  readonly clockHz?: number;
}

/** Changes the first comment that names a board or clock, and only that part of it; where there is none, a new one goes above everything else. */
export function targetEdit(
  path: string,
  text: string,
  wanted: WantedTarget,
): { readonly span: Span; readonly text: string } {
  for (const comment of commentsIn(text)) {
    for (const read of readComment(comment.text)) {
      if (read.kind !== "settings") continue;
      const change = changed(comment.text, read, wanted);
      if (change === null) continue;
      const { start, end } = change;
      return { span: { path, start: comment.start + start, end: comment.start + end }, text: change.text };
    }
  }
  const parts = [boardText(wanted), clockText(wanted)].filter((part) => part !== "");
  return { span: { path, start: 0, end: 0 }, text: `// for pulsewright: ${parts.join(", ")}${lineBreak(text)}` };
}

type Change = { readonly start: number; readonly end: number; readonly text: string };

/** Null where the comment names neither board nor clock. */
function changed(text: string, { boardAt, clockAt }: SettingsComment, wanted: WantedTarget): Change | null {
  if (boardAt === undefined && clockAt === undefined) return null;
  // The word stands before the quantity, whether or not the stretch takes it in.
  const clockStart = clockAt === undefined ? 0 : text.lastIndexOf("clock", clockAt.start);
  if (wanted.boardId !== undefined) {
    if (boardAt === undefined) return { start: clockStart, end: clockStart, text: `${boardText(wanted)}, ` };
    // A clock that stands behind the old board was said of that board: it goes with it.
    const follows = clockAt !== undefined && /^\s*,\s*$/.test(text.slice(boardAt.end, clockStart));
    const clock = clockText(wanted);
    return {
      start: boardAt.start,
      end: follows ? clockAt.end : boardAt.end,
      text: wanted.boardId + (clock === "" ? "" : `, ${clock}`),
    };
  }
  if (wanted.clockHz === undefined) return null;
  if (clockAt !== undefined) return { start: clockStart, end: clockAt.end, text: clockText(wanted) };
  return { start: boardAt!.end, end: boardAt!.end, text: `, ${clockText(wanted)}` };
}

function boardText({ boardId }: WantedTarget): string {
  return boardId === undefined ? "" : `board ${boardId}`;
}

function clockText({ clockHz }: WantedTarget): string {
  return clockHz === undefined ? "" : `clock ${writeClock(clockHz)}`;
}
