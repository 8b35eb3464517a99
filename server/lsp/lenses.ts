/** Lenses above wants: the protocol side. Off unless asked for; while somebody types the last ones stay, so that no line moves. */
import { type CodeLens, LSPErrorCodes, ResponseError } from "vscode-languageserver/node";
import { APPLY_PLAN_COMMAND } from "../../shared-model/protocol.js";
import { isActionData, workspaceEdit } from "./code-actions.js";
import type { Guard } from "./guard.js";
import { askAbout } from "./place-requests.js";
import type { ActionData } from "./questions.js";
import type { Session } from "./session-state.js";
import { pathOf } from "./uris.js";

interface LensData {
  readonly path: string;
  readonly version: number;
  readonly start: number;
  readonly pin: string;
}

export function registerLenses(session: Session, guard: Guard): void {
  const { connection } = session;
  const last = new Map<string, readonly CodeLens[]>();

  connection.onCodeLens((params, token) =>
    guard.run<CodeLens[]>("code lens", [], async () => {
      const { uri } = params.textDocument;
      const { settings } = await session.circumstances(uri);
      if (!settings.lens.enable) {
        last.delete(uri);
        return [];
      }
      const version = session.documents.get(uri)?.version ?? 0;
      const answer = await askAbout(session, "lenses", uri, { path: pathOf(uri), version }, token);
      if (answer === undefined) return [...(last.get(uri) ?? [])];
      last.set(uri, answer);
      return [...answer];
    }),
  );

  connection.onCodeLensResolve((lens, token) =>
    guard.run<CodeLens>("code lens resolve", lens, async () => {
      if (!isLensData(lens.data)) return lens;
      const { path, version, start, pin } = lens.data;
      const uri = session.uriOfPath(path);
      // Of another text than the one shown: the editor asks for the lenses again by itself.
      const asks = { path, version, start, pin };
      const stale = session.documents.get(uri)?.version !== version;
      const answer = stale ? undefined : await askAbout(session, "lensTitle", uri, asks, token);
      const { title, command, arguments: words } = answer ?? { title: "…", command: "", arguments: [] };
      return { range: lens.range, command: { title, command, arguments: [...words] } };
    }),
  );

  connection.onExecuteCommand(({ command, arguments: words }) =>
    guard.run<null>("apply plan", null, async () => {
      const wanted: unknown = words?.[0];
      if (command !== APPLY_PLAN_COMMAND || !isActionData(wanted)) return null;
      await apply(session, wanted);
      return null;
    }),
  );
  session.documents.onDidClose(({ document }) => void last.delete(document.uri));
}

async function apply(session: Session, wanted: ActionData): Promise<void> {
  const uri = session.uriOfPath(wanted.path);
  if (session.documents.get(uri)?.version !== wanted.version)
    throw new ResponseError(LSPErrorCodes.ContentModified, "the text has changed");
  const resolved = await askAbout(session, "resolve", uri, { path: wanted.path, wanted });
  if (resolved === undefined) return;
  if (resolved.kind === "edits")
    await session.connection.workspace.applyEdit({ label: wanted.title, edit: workspaceEdit(session, resolved) });
  else session.connection.window.showWarningMessage(`Pulsewright did not change anything: ${resolved.reason}`);
}

function isLensData(data: unknown): data is LensData {
  return typeof data === "object" && data !== null && "path" in data && "start" in data && "pin" in data;
}
