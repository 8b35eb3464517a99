/** Requests about one place or stretch of one document: hover, inlay hints, completion. */
import type { InlayHint } from "vscode-languageserver/node";
import type { Guard } from "./guard.js";
import type { Exchange, QuestionKind } from "./questions.js";
import type { Session } from "./session-state.js";
import { pathOf } from "./uris.js";

export function registerPlaceRequests(session: Session, guard: Guard): void {
  const { connection } = session;
  connection.onHover((params, token) =>
    guard.run("hover", null, async () => {
      const { uri } = params.textDocument;
      const { settings } = await session.circumstances(uri);
      if (!settings.hover.enable) return null;
      const answer = await askAbout(session, "hover", uri, { path: pathOf(uri), position: params.position }, token);
      return answer ?? null;
    }),
  );

  connection.languages.inlayHint.on((params, token) =>
    guard.run<InlayHint[] | null>("inlay hints", null, async () => {
      const { uri } = params.textDocument;
      const { settings } = await session.circumstances(uri);
      if (!settings.hints.enable) return [];
      const version = session.documents.get(uri)?.version;
      const answer = await askAbout(session, "hints", uri, { path: pathOf(uri), range: params.range }, token);
      // Hints for another text than the one shown would land in odd places; the editor asks again by itself.
      return answer === undefined || version !== session.documents.get(uri)?.version ? null : [...answer];
    }),
  );

  connection.onCompletion((params, token) =>
    guard.run("completion", null, async () => {
      const { uri } = params.textDocument;
      const answer = await askAbout(
        session,
        "completion",
        uri,
        { path: pathOf(uri), position: params.position },
        token,
      );
      return answer === undefined ? null : [...answer];
    }),
  );
}

/** The answer; undefined where the question was retired, `null` and `[]` being answers. A fault answers like nothing known. */
export async function askAbout<K extends QuestionKind>(
  session: Session,
  kind: K,
  uri: string,
  asks: Exchange[K]["asks"],
  token?: { onCancellationRequested(listener: () => void): unknown },
): Promise<Exchange[K]["answer"] | undefined> {
  const circumstances = await session.circumstances(uri);
  const answered = await session.engine.ask(kind, asks, circumstances, (giveUp) =>
    token?.onCancellationRequested(giveUp),
  );
  return answered.kind === "answer" ? answered.answer : undefined;
}
