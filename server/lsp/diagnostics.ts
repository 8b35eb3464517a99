/**
 * Findings to the editor: pulled where the client declares it, pushed else, never both. A new finding waits for a pause in
 * typing, one that is gone goes at once; while the text is half-typed the last good set stays.
 */
import { createHash } from "node:crypto";
import {
  type CancellationToken,
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  LSPErrorCodes,
  ResponseError,
} from "vscode-languageserver/node";
import { DOOR_LIMITS } from "../limits.js";
import type { Guard } from "./guard.js";
import type { SketchDiagnostics } from "./questions.js";
import type { Session } from "./session-state.js";
import { pathOf } from "./uris.js";

const PUSH_TOGETHER_MILLISECONDS = 50;

interface Sent {
  readonly id: string;
  /** What the user sees, place aside: an edit above a finding moves it without making it new. */
  readonly said: ReadonlySet<string>;
}

type Found = SketchDiagnostics | "retired" | undefined;

export class DiagnosticsSender {
  readonly #session: Session;
  readonly #open = new Set<string>();
  readonly #editedAt = new Map<string, number>();
  readonly #edits = new Map<string, number>();
  /** Places that did not parse when a document's findings were last shown. */
  readonly #broken = new Map<string, number>();
  readonly #sent = new Map<string, Sent>();
  readonly #pushes = new Map<string, NodeJS.Timeout>();
  /** In push mode: the files that a document's sketch published, to be cleared with it. */
  readonly #publishedFor = new Map<string, readonly string[]>();
  #onAnalysed: (uris: readonly string[]) => void = () => undefined;

  constructor(session: Session) {
    this.#session = session;
  }

  onAnalysed(listener: (uris: readonly string[]) => void): void {
    this.#onAnalysed = listener;
  }

  register(guard: Guard): void {
    const { connection, abilities } = this.#session;
    if (!abilities.pullsDiagnostics) return;
    connection.languages.diagnostics.on((params, token) =>
      guard.run<DocumentDiagnosticReport>("diagnostic", { kind: DocumentDiagnosticReportKind.Full, items: [] }, () =>
        this.#pulled(params.textDocument.uri, params.previousResultId, token),
      ),
    );
  }

  /** Opened (then nothing waits for a pause) or edited. */
  edited(uri: string): void {
    if (this.#open.has(uri)) this.#editedAt.set(uri, performance.now());
    this.#open.add(uri);
    this.#edits.set(uri, this.#editsOf(uri) + 1);
    if (!this.#session.abilities.pullsDiagnostics) this.#schedulePush(uri);
    this.#refreshHintsOfOthers(uri);
  }

  closed(uri: string): void {
    this.#open.delete(uri);
    this.#editedAt.delete(uri);
    this.#edits.set(uri, this.#editsOf(uri) + 1);
    this.#broken.delete(uri);
    clearTimeout(this.#pushes.get(uri));
    for (const other of this.#publishedFor.get(uri) ?? []) {
      if (!this.#session.documents.get(other)) this.#publish(other, []);
    }
    if (this.#publishedFor.delete(uri)) this.#publish(uri, []);
    this.#sent.delete(uri);
  }

  /** Settings or files on disk changed: every open document's answers may be others now. */
  everythingChanged(): void {
    const { connection, abilities, documents } = this.#session;
    if (abilities.refreshesHints) void connection.languages.inlayHint.refresh().catch(() => undefined);
    if (!abilities.pullsDiagnostics) {
      for (const uri of documents.keys()) this.#schedulePush(uri);
    } else if (abilities.refreshesDiagnostics) {
      void connection.languages.diagnostics.refresh().catch(() => undefined);
    }
    this.#onAnalysed(documents.keys());
  }

  async #pulled(
    uri: string,
    previous: string | undefined,
    token: CancellationToken,
  ): Promise<DocumentDiagnosticReport> {
    const found = await this.#find(uri, token);
    if (found === "retired") {
      throw new ResponseError(LSPErrorCodes.ServerCancelled, "the text has changed", { retriggerRequest: true });
    }
    const items = found?.byUri[uri] ?? [];
    const id = digest(items);
    this.#sent.set(uri, { id, said: saidBy(items) });
    this.#onAnalysed([uri]);
    return id === previous
      ? { kind: DocumentDiagnosticReportKind.Unchanged, resultId: id }
      : { kind: DocumentDiagnosticReportKind.Full, resultId: id, items: [...items] };
  }

  /** The findings once they may be shown; undefined where the engine has no answer for this sketch. */
  async #find(uri: string, token: CancellationToken | undefined): Promise<Found> {
    const edits = this.#editsOf(uri);
    const circumstances = await this.#session.circumstances(uri);
    const answered = await this.#session.engine.ask("diagnostics", { path: pathOf(uri) }, circumstances, (giveUp) =>
      token?.onCancellationRequested(giveUp),
    );
    if (answered.kind === "retired" || edits !== this.#editsOf(uri)) return "retired";
    if (answered.kind === "fault") return undefined;
    const { answer } = answered;
    const wait =
      answer.broken > (this.#broken.get(uri) ?? 0)
        ? DOOR_LIMITS.brokenQuietMilliseconds
        : this.#saysSomethingNew(uri, answer.byUri[uri] ?? [])
          ? DOOR_LIMITS.quietMilliseconds
          : 0;
    if (!(await this.#quiet(uri, wait, edits, token))) return "retired";
    this.#broken.set(uri, answer.broken);
    return answer;
  }

  #saysSomethingNew(uri: string, items: readonly Diagnostic[]): boolean {
    const said = this.#sent.get(uri)?.said;
    return [...saidBy(items)].some((words) => said?.has(words) !== true);
  }

  /** Waits until the last edit is so long ago. False where another edit or a withdrawal came first. */
  async #quiet(
    uri: string,
    milliseconds: number,
    edits: number,
    token: CancellationToken | undefined,
  ): Promise<boolean> {
    for (;;) {
      if (token?.isCancellationRequested === true || edits !== this.#editsOf(uri)) return false;
      const left = (this.#editedAt.get(uri) ?? Number.NEGATIVE_INFINITY) + milliseconds - performance.now();
      if (left <= 0) return true;
      await new Promise((resolve) => setTimeout(resolve, Math.min(left, 50)));
    }
  }

  #schedulePush(uri: string): void {
    clearTimeout(this.#pushes.get(uri));
    this.#pushes.set(
      uri,
      setTimeout(
        () => void this.#push(uri).catch((error: unknown) => this.#session.connection.console.error(String(error))),
        PUSH_TOGETHER_MILLISECONDS,
      ),
    );
  }

  async #push(uri: string): Promise<void> {
    const found = await this.#find(uri, undefined);
    if (found === "retired" || this.#session.documents.get(uri) === undefined) return;
    const byUri = found?.byUri ?? {};
    const now = Object.keys(byUri);
    for (const gone of this.#publishedFor.get(uri) ?? []) if (!now.includes(gone)) this.#publish(gone, []);
    this.#publishedFor.set(uri, now);
    this.#publish(uri, byUri[uri] ?? []);
    for (const [other, items] of Object.entries(byUri)) if (other !== uri) this.#publish(other, items);
    this.#onAnalysed([uri]);
  }

  /** One step, and only where something is different. */
  #publish(uri: string, items: readonly Diagnostic[]): void {
    const id = digest(items);
    const before = this.#sent.get(uri);
    if (before?.id === id || (before === undefined && items.length === 0)) return;
    this.#sent.set(uri, { id, said: saidBy(items) });
    void this.#session.connection.sendDiagnostics({ uri, diagnostics: [...items] });
  }

  #hintTimer: NodeJS.Timeout | undefined;

  /** Editors ask for hints of the edited document by themselves; those of the sketch's other tabs change with it. */
  #refreshHintsOfOthers(uri: string): void {
    const { abilities, documents, connection } = this.#session;
    const folder = uri.slice(0, uri.lastIndexOf("/") + 1);
    if (!abilities.refreshesHints || !documents.keys().some((other) => other !== uri && other.startsWith(folder)))
      return;
    clearTimeout(this.#hintTimer);
    this.#hintTimer = setTimeout(
      () => void connection.languages.inlayHint.refresh().catch(() => undefined),
      DOOR_LIMITS.quietMilliseconds,
    );
  }

  #editsOf(uri: string): number {
    return this.#edits.get(uri) ?? 0;
  }
}

function saidBy(items: readonly Diagnostic[]): ReadonlySet<string> {
  return new Set(items.map((item) => `${item.code}\0${item.message}`));
}

function digest(items: readonly Diagnostic[]): string {
  return createHash("sha1").update(JSON.stringify(items)).digest("base64url");
}
