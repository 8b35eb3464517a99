/** From a keystroke to the diagnostics that answer it, through the built server and the protocol. */
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Editor } from "../lsp/editor.js";

export interface Change {
  /** From opening to the first diagnostics, the start of the server not included. Milliseconds. */
  readonly opened: number;
  readonly changes: readonly number[];
}

/** `bundle`: path of the server. Types so many digits into the sketch's last table or remark, one by one. */
export async function changeToDiagnostics(bundle: string, text: string, count: number): Promise<Change> {
  const editor = await Editor.start(bundle);
  try {
    const path = join(tmpdir(), "pulsewright-bench", "bench", "bench.ino");
    const start = performance.now();
    const uri = await editor.open(path, text);
    await editor.diagnostics(uri);
    const opened = performance.now() - start;
    const changes: number[] = [];
    // Each a letter in a comment near the top: all that follows it moves, nothing that is said changes.
    for (let n = 0; n < count; n++) {
      const began = performance.now();
      await editor.type(uri, { line: 0, character: 3 }, "x");
      await editor.diagnostics(uri);
      changes.push(performance.now() - began);
    }
    return { opened, changes };
  } finally {
    await editor.stop();
  }
}
