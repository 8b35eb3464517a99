/** Quick fixes and fix-all: the protocol side. What is offered and what it edits is worked out in `offered-actions.ts`. */
import {
  type CodeAction,
  CodeActionTriggerKind,
  LSPErrorCodes,
  MessageType,
  ResponseError,
  ShowMessageNotification,
  type WorkspaceEdit,
} from "vscode-languageserver/node";
import type { Guard } from "./guard.js";
import { askAbout } from "./place-requests.js";
import type { ActionData, ResolvedAction } from "./questions.js";
import type { Session } from "./session-state.js";
import { pathOf } from "./uris.js";

export function registerActions(session: Session, guard: Guard): void {
  const { connection, abilities } = session;

  connection.onCodeAction((params, token) =>
    guard.run<CodeAction[] | null>("code action", null, async () => {
      const { uri } = params.textDocument;
      const version = session.documents.get(uri)?.version;
      const actions = await askAbout(
        session,
        "actions",
        uri,
        {
          path: pathOf(uri),
          range: params.range,
          only: params.context.only,
          eager: !abilities.resolvesActionEdits,
          diagnostics: params.context.diagnostics,
          explains: abilities.ownClient,
          automatic: params.context.triggerKind === CodeActionTriggerKind.Automatic,
        },
        token,
      );
      if (actions === undefined || version !== session.documents.get(uri)?.version) return null;
      return abilities.showsDisabledActions ? [...actions] : actions.filter((action) => action.disabled === undefined);
    }),
  );

  connection.onCodeActionResolve((action, token) =>
    guard.run<CodeAction>("code action resolve", action, async () => {
      if (!isActionData(action.data)) return action;
      const wanted = action.data;
      const uri = session.uriOfPath(wanted.path);
      if (session.documents.get(uri)?.version !== wanted.version) {
        throw new ResponseError(LSPErrorCodes.ContentModified, "the text has changed");
      }
      const resolved = await askAbout(session, "resolve", uri, { path: wanted.path, wanted }, token);
      if (resolved === undefined) throw new ResponseError(LSPErrorCodes.ContentModified, "the text has changed");
      if (resolved.kind === "edits") return { ...action, edit: workspaceEdit(session, resolved) };
      // Asked for by hand and not possible: the person is told why, and nothing is edited.
      void connection.sendNotification(ShowMessageNotification.type, {
        type: MessageType.Warning,
        message: `Pulsewright did not change anything: ${resolved.reason}`,
      });
      return action;
    }),
  );
}

/** With versions where the client takes them, so that it refuses the edit where the text has moved on. */
export function workspaceEdit(session: Session, { byUri }: Extract<ResolvedAction, { kind: "edits" }>): WorkspaceEdit {
  const files = Object.entries(byUri).map(([uri, edits]) => ({ uri, edits: [...edits] }));
  if (!session.abilities.versionedEdits)
    return { changes: Object.fromEntries(files.map(({ uri, edits }) => [uri, edits])) };
  return {
    documentChanges: files.map(({ uri, edits }) => ({
      textDocument: { uri, version: session.documents.get(uri)?.version ?? null },
      edits,
    })),
  };
}

export function isActionData(data: unknown): data is ActionData {
  return typeof data === "object" && data !== null && "scope" in data && "path" in data;
}
