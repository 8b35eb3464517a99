/** The language server's life: started when the first sketch comes in sight, restarted by hand, stopped with the extension. */
import * as vscode from "vscode";
import {
  LanguageClient,
  type LanguageClientOptions,
  RevealOutputChannelOn,
  type ServerOptions,
  TransportKind,
} from "vscode-languageclient/node";
import { ANALYSED_NOTIFICATION, type ClientOptions } from "../shared-model/protocol.js";
import { DOCUMENTS } from "./sketch-in-sight.js";

export class LanguageServer {
  readonly #context: vscode.ExtensionContext;
  readonly #log: vscode.LogOutputChannel;
  #client: LanguageClient | undefined;
  /** Starting and stopping in the order in which they were asked for. */
  #turn: Promise<void> = Promise.resolve();
  readonly #analysed = new vscode.EventEmitter<void>();
  /** After each start, and whenever answers may have changed. */
  readonly onAnalysed = this.#analysed.event;

  constructor(context: vscode.ExtensionContext) {
    this.#context = context;
    this.#log = vscode.window.createOutputChannel("Pulsewright", { log: true });
    context.subscriptions.push(this.#log, this.#analysed);
  }

  start(): void {
    this.#next(async () => {
      if (this.#client === undefined) await this.#launch();
    });
  }

  /** Works when the server is dead as well: the old client goes with everything it registered. */
  restart(): Promise<void> {
    return this.#next(async () => {
      await this.#end();
      await this.#launch();
    });
  }

  stop(): Promise<void> {
    return this.#next(() => this.#end());
  }

  /** The answer; undefined where there is no server or it has none. */
  async request<T>(method: string, params: unknown): Promise<T | undefined> {
    await this.#turn;
    const client = this.#client;
    if (client === undefined || !client.isRunning()) return undefined;
    return await client.sendRequest<T>(method, params);
  }

  settingsChanged(): void {
    const client = this.#client;
    if (client?.isRunning()) void client.sendNotification("workspace/didChangeConfiguration", { settings: null });
  }

  #next(work: () => Promise<void>): Promise<void> {
    const done = this.#turn.then(work).catch((error: unknown) => {
      this.#log.error(error instanceof Error ? error : String(error));
    });
    this.#turn = done;
    return done;
  }

  async #launch(): Promise<void> {
    const module = this.#context.asAbsolutePath("dist/server.js");
    const server: ServerOptions = {
      run: { module, transport: TransportKind.ipc },
      debug: { module, transport: TransportKind.ipc, options: { execArgv: ["--inspect=6011"] } },
    };
    const client = new LanguageClient("pulsewright", "Pulsewright", server, this.#options());
    this.#client = client;
    await client.start();
    // One handler for all: a client keeps only the last that was registered.
    client.onNotification(ANALYSED_NOTIFICATION, () => this.#analysed.fire());
    this.#analysed.fire();
  }

  #options(): LanguageClientOptions {
    return {
      documentSelector: DOCUMENTS,
      outputChannel: this.#log,
      // A background fault is logged, not thrown at the user.
      revealOutputChannelOn: RevealOutputChannelOn.Never,
      diagnosticPullOptions: { onChange: true, onSave: true, onTabs: false },
      initializationOptions: { explainsFindings: true } satisfies ClientOptions,
      connectionOptions: { maxRestartCount: 5 },
    };
  }

  async #end(): Promise<void> {
    const client = this.#client;
    this.#client = undefined;
    if (client === undefined) return;
    try {
      await client.dispose(2_000);
    } catch (error) {
      this.#log.warn(`the old server did not stop cleanly: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
}
