/** Work-done progress for analyses that take noticeably long; nothing is shown for the others. */
import type { Connection, WorkDoneProgressServerReporter } from "vscode-languageserver/node";
import type { ClientAbilities } from "./session-state.js";

/** The returned function is told which path the engine works on, or null when it has ended. */
export function showProgressWhileBusy(
  connection: Connection,
  abilities: ClientAbilities,
  afterMilliseconds: number,
): (path: string | null) => void {
  let timer: NodeJS.Timeout | undefined;
  let round = 0;
  let shown: WorkDoneProgressServerReporter | undefined;

  const show = async (path: string, ofRound: number): Promise<void> => {
    const reporter = await connection.window.createWorkDoneProgress();
    // It may have ended while the client made room for it.
    if (ofRound !== round) return reporter.done();
    reporter.begin("Pulsewright", undefined, `following ${path.replace(/^.*[\\/]/, "")}`);
    shown = reporter;
  };

  return (path) => {
    round++;
    clearTimeout(timer);
    shown?.done();
    shown = undefined;
    if (path === null || !abilities.progress) return;
    const ofRound = round;
    timer = setTimeout(() => void show(path, ofRound).catch(() => undefined), afterMilliseconds);
  };
}
