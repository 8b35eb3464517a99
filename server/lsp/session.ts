/** One editor's session: says what the server can do, wires each request through the guard, follows documents and settings. */
import {
  CodeActionKind,
  createConnection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  type InitializeResult,
  ProposedFeatures,
  TextDocumentSyncKind,
  TextDocuments,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { ANALYSED_NOTIFICATION, APPLY_PLAN_COMMAND } from "../../shared-model/protocol.js";
import { TRIGGER_CHARACTERS } from "../features/completion.js";
import { DOOR_LIMITS } from "../limits.js";
import { registerActions } from "./code-actions.js";
import { registerCustomRequests } from "./custom-requests.js";
import { DiagnosticsSender } from "./diagnostics.js";
import { Engine } from "./engine.js";
import { Guard } from "./guard.js";
import { registerLenses } from "./lenses.js";
import { registerPlaceRequests } from "./place-requests.js";
import { showProgressWhileBusy } from "./progress.js";
import { type ClientAbilities, clientAbilities, Session } from "./session-state.js";
import { pathOf } from "./uris.js";

const WATCHED = ["**/*.{ino,pde,cpp,c,cc,cxx,h,hpp,hh,hxx,inc}", "**/sketch.{yaml,yml}"];

/** `script`: the bundle itself, from which the engine's thread is started. */
export function startSession(script: string): void {
  const connection = createConnection(ProposedFeatures.all);
  const documents = new TextDocuments(TextDocument);
  let session: Session | undefined;

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    const abilities = clientAbilities(params);
    const engine = new Engine(script, DOOR_LIMITS, {
      log: (line) => connection.console.warn(line),
      busy: (path) => progress(path),
    });
    const progress = showProgressWhileBusy(connection, abilities, DOOR_LIMITS.progressAfterMilliseconds);
    session = new Session(connection, documents, engine, abilities, params);
    wire(session);
    return { serverInfo: { name: "Pulsewright", version: VERSION }, capabilities: capabilities(abilities) };
  });

  connection.onInitialized(() => {
    if (session !== undefined) registerWatching(session);
  });
  connection.onShutdown(async () => {
    await session?.engine.close();
  });
  documents.listen(connection);
  connection.listen();
}

const VERSION = process.env["PULSEWRIGHT_VERSION"] ?? "0";

function capabilities(abilities: ClientAbilities): InitializeResult["capabilities"] {
  return {
    positionEncoding: "utf-16",
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: false },
    hoverProvider: true,
    inlayHintProvider: true,
    codeActionProvider: {
      codeActionKinds: [CodeActionKind.QuickFix, `${CodeActionKind.SourceFixAll}.pulsewright`],
      resolveProvider: true,
    },
    codeLensProvider: { resolveProvider: true },
    executeCommandProvider: { commands: [APPLY_PLAN_COMMAND] },
    // In comments editors ask on these characters alone; `=` and `|` are where field names follow.
    completionProvider: { triggerCharacters: [...TRIGGER_CHARACTERS, "=", "|"], resolveProvider: false },
    ...(abilities.pullsDiagnostics
      ? { diagnosticProvider: { identifier: "pulsewright", interFileDependencies: true, workspaceDiagnostics: false } }
      : {}),
    workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
  };
}

function wire(session: Session): void {
  const { connection, documents, engine } = session;
  const guard = new Guard((line) => connection.console.error(line));
  const diagnostics = new DiagnosticsSender(session);

  documents.onDidChangeContent(({ document }) => {
    const path = pathOf(document.uri);
    engine.changed({ path, uri: document.uri, version: document.version, text: document.getText() });
    diagnostics.edited(document.uri);
  });
  documents.onDidClose(({ document }) => {
    engine.changed({ path: pathOf(document.uri), uri: document.uri, version: 0, text: null });
    session.forget(document.uri);
    diagnostics.closed(document.uri);
  });
  connection.onDidChangeConfiguration((change) => {
    session.settingsChanged(change.settings);
    diagnostics.everythingChanged();
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    engine.filesChanged(changes.map((change) => pathOf(change.uri)));
    diagnostics.everythingChanged();
  });

  diagnostics.onAnalysed((uris) => {
    if (session.abilities.ownClient) void connection.sendNotification(ANALYSED_NOTIFICATION, { uris });
  });
  diagnostics.register(guard);
  registerPlaceRequests(session, guard);
  registerActions(session, guard);
  registerLenses(session, guard);
  registerCustomRequests(session, guard);
}

function registerWatching({ connection, abilities, workspace }: Session): void {
  if (abilities.configuration)
    void connection.client.register(DidChangeConfigurationNotification.type, { section: "pulsewright" });
  if (abilities.watchesFiles) {
    void connection.client.register(DidChangeWatchedFilesNotification.type, {
      watchers: WATCHED.map((globPattern) => ({ globPattern })),
    });
  }
  if (abilities.workspaceFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      for (const folder of removed) workspace.delete(folder.uri);
      for (const folder of added) workspace.add(folder.uri);
    });
  }
}
