/** What one session knows: the client's abilities, the workspace's folders, and the settings of each document. */
import type { Connection, InitializeParams, TextDocuments } from "vscode-languageserver/node";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { type ClientOptions, SECTION } from "../../shared-model/protocol.js";
import type { Engine } from "./engine.js";
import type { Circumstances } from "./questions.js";
import { type EditorSettings, settingsFrom } from "./settings.js";
import { pathOf, uriOf } from "./uris.js";

export interface ClientAbilities {
  readonly configuration: boolean;
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesHints: boolean;
  readonly resolvesActionEdits: boolean;
  readonly showsDisabledActions: boolean;
  readonly versionedEdits: boolean;
  readonly watchesFiles: boolean;
  readonly workspaceFolders: boolean;
  readonly progress: boolean;
  readonly markdown: boolean;
  /** The client in client/: it has our commands and wants our notifications. */
  readonly ownClient: boolean;
}

export function clientAbilities({ capabilities, initializationOptions }: InitializeParams): ClientAbilities {
  const { workspace, textDocument, window } = capabilities;
  const own = initializationOptions as ClientOptions | null | undefined;
  return {
    configuration: workspace?.configuration === true,
    pullsDiagnostics: textDocument?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    resolvesActionEdits: textDocument?.codeAction?.resolveSupport?.properties.includes("edit") === true,
    showsDisabledActions: textDocument?.codeAction?.disabledSupport === true,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    workspaceFolders: workspace?.workspaceFolders === true,
    progress: window?.workDoneProgress === true,
    markdown: textDocument?.hover?.contentFormat?.includes("markdown") ?? false,
    ownClient: own?.explainsFindings === true,
  };
}

export class Session {
  readonly connection: Connection;
  readonly documents: TextDocuments<TextDocument>;
  readonly engine: Engine;
  readonly abilities: ClientAbilities;
  /** URIs of the workspace's folders. */
  readonly workspace: Set<string>;
  /** Settings by document, as long as nothing says that they changed. */
  readonly #settings = new Map<string, Promise<EditorSettings>>();
  /** What a client without `workspace/configuration` sent. */
  #sentSettings: unknown;

  constructor(
    connection: Connection,
    documents: TextDocuments<TextDocument>,
    engine: Engine,
    abilities: ClientAbilities,
    params: InitializeParams,
  ) {
    this.connection = connection;
    this.documents = documents;
    this.engine = engine;
    this.abilities = abilities;
    this.workspace = new Set(params.workspaceFolders?.map((folder) => folder.uri) ?? []);
    this.#sentSettings = (params.initializationOptions as { settings?: unknown } | null | undefined)?.settings;
  }

  async circumstances(uri: string): Promise<Circumstances> {
    return { settings: await this.settingsOf(uri), workspace: [...this.workspace].map(pathOf) };
  }

  settingsOf(uri: string): Promise<EditorSettings> {
    const known = this.#settings.get(uri);
    if (known !== undefined) return known;
    const asked = this.#ask(uri);
    this.#settings.set(uri, asked);
    return asked;
  }

  /** `sent`: what a client that is not asked pushes along. */
  settingsChanged(sent: unknown): void {
    const section = (sent as Record<string, unknown> | null | undefined)?.[SECTION];
    if (section !== undefined) this.#sentSettings = section;
    this.#settings.clear();
  }

  /** The URI under which the client knows a path. */
  uriOfPath(path: string): string {
    return this.documents.keys().find((uri) => pathOf(uri) === path) ?? uriOf(path);
  }

  forget(uri: string): void {
    this.#settings.delete(uri);
  }

  async #ask(uri: string): Promise<EditorSettings> {
    if (!this.abilities.configuration) return settingsFrom(this.#sentSettings);
    try {
      return settingsFrom(await this.connection.workspace.getConfiguration({ scopeUri: uri, section: SECTION }));
    } catch {
      return settingsFrom(this.#sentSettings);
    }
  }
}
