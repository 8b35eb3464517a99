/** Board and clock as the user says them: a setting's clock read, and the edit that writes both into the sketch's own comment. */
import type { Span } from "../../shared-model/span.js";
import { readComment } from "../../shared-model/wants/read-comment.js";
import { lineBreak } from "../edits/source-text.js";
import { commentsIn } from "../files/target-comment.js";

export interface WantedTarget {
  readonly boardId?: string;
  readonly clockHz?: number;
}

/** Changes the first comment that names a board or clock; where there is none, a new one goes above everything else. */
export function targetEdit(
  path: string,
  text: string,
  wanted: WantedTarget,
): { readonly span: Span; readonly text: string } {
  for (const comment of commentsIn(text)) {
    for (const read of readComment(comment.text)) {
      if (read.kind !== "settings" || (read.board === undefined && read.clockHz === undefined)) continue;
      const boardId = wanted.boardId ?? read.board;
      // A clock that was written for another board goes with it.
      const clockHz = wanted.clockHz ?? (wanted.boardId === undefined ? read.clockHz : undefined);
      const { start, end } = read.at;
      return {
        span: { path, start: comment.start + start, end: comment.start + end },
        text: settingsText({ boardId, clockHz }),
      };
    }
  }
  return { span: { path, start: 0, end: 0 }, text: `// ${settingsText(wanted)}${lineBreak(text)}` };
}

function settingsText({ boardId, clockHz }: WantedTarget): string {
  const parts = [
    boardId === undefined ? [] : [`board ${boardId}`],
    clockHz === undefined ? [] : [`clock ${showHz(clockHz)}`],
  ].flat();
  return `for pulsewright: ${parts.join(", ")}`;
}

function showHz(hz: number): string {
  if (hz >= 1e6 && hz % 1_000 === 0) return `${hz / 1e6} MHz`;
  return hz >= 1e3 && hz % 1 === 0 && hz % 10 === 0 ? `${hz / 1e3} kHz` : `${hz} Hz`;
}

/** `16 MHz`, `8000000`; undefined where it says nothing or cannot be read (the setting's description says how). */
export function clockIn(text: string): number | undefined {
  const match = /^\s*(\d+(?:\.\d+)?)\s*(hz|khz|mhz)?\s*$/i.exec(text);
  if (match === null) return undefined;
  const scale = { hz: 1, khz: 1e3, mhz: 1e6 }[(match[2] ?? "hz").toLowerCase()] ?? 1;
  const hz = Math.round(Number(match[1]) * scale);
  return hz >= 1 ? hz : undefined;
}
