/** A small editor for tests: speaks the protocol with the server's bundle as a process of its own, over stdio. */
import { type ChildProcess, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import {
  type ClientCapabilities,
  type CodeAction,
  createProtocolConnection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type Hover,
  type InlayHint,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
  StreamMessageReader,
  StreamMessageWriter,
  type TextEdit,
} from "vscode-languageserver/node";
import { lineIndex } from "../../shared-model/text-position.js";

export interface EditorOptions {
  /** Pull diagnostics, as VS Code does; else the server pushes. Default true. */
  readonly pull?: boolean;
  readonly resolveActions?: boolean;
  readonly settings?: unknown;
  readonly folders?: readonly string[];
  readonly ownClient?: boolean;
  /** Behind the bundle's name on the command line. */
  readonly words?: readonly string[];
}

interface Open {
  version: number;
  text: string;
}

export class Editor {
  readonly connection: ProtocolConnection;
  readonly process: ChildProcess;
  /** Everything pushed, in order. */
  readonly published: PublishDiagnosticsParams[] = [];
  readonly shown: string[] = [];
  readonly logged: string[] = [];
  /** Notifications of ours and refreshes, by method. */
  readonly heard: string[] = [];
  settings: unknown;
  exited: number | null | undefined;
  readonly #open = new Map<string, Open>();

  private constructor(bundle: string, options: EditorOptions) {
    this.process = spawn(process.execPath, [bundle, ...(options.words ?? ["--stdio"])], {
      stdio: ["pipe", "pipe", "pipe"],
    });
    this.process.on("exit", (code) => {
      this.exited = code;
    });
    this.process.stderr?.on("data", (data: Buffer) => this.logged.push(data.toString()));
    this.connection = createProtocolConnection(
      new StreamMessageReader(this.process.stdout!),
      new StreamMessageWriter(this.process.stdin!),
    );
    this.settings = options.settings ?? {};
    this.connection.onNotification(
      "textDocument/publishDiagnostics",
      (params: PublishDiagnosticsParams) => void this.published.push(params),
    );
    this.connection.onNotification(
      "window/showMessage",
      ({ message }: { message: string }) => void this.shown.push(message),
    );
    this.connection.onNotification(
      "window/logMessage",
      ({ message }: { message: string }) => void this.logged.push(message),
    );
    this.connection.onNotification("pulsewright/analysed", () => void this.heard.push("pulsewright/analysed"));
    this.connection.onRequest("workspace/configuration", ({ items }: { items: unknown[] }) =>
      items.map(() => this.settings),
    );
    for (const method of [
      "workspace/inlayHint/refresh",
      "workspace/diagnostic/refresh",
      "client/registerCapability",
      "window/workDoneProgress/create",
    ]) {
      this.connection.onRequest(method, () => {
        this.heard.push(method);
        return null;
      });
    }
    this.connection.listen();
  }

  static async start(bundle: string, options: EditorOptions = {}): Promise<Editor> {
    const editor = new Editor(bundle, options);
    const capabilities: ClientCapabilities = {
      workspace: {
        configuration: true,
        workspaceFolders: true,
        didChangeWatchedFiles: { dynamicRegistration: true },
        inlayHint: { refreshSupport: true },
        diagnostics: { refreshSupport: true },
        workspaceEdit: { documentChanges: true },
      },
      textDocument: {
        ...(options.pull === false ? {} : { diagnostic: { dynamicRegistration: false } }),
        hover: { contentFormat: ["markdown"] },
        codeAction: {
          disabledSupport: true,
          dataSupport: true,
          ...(options.resolveActions === false ? {} : { resolveSupport: { properties: ["edit"] } }),
          codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix", "source.fixAll"] } },
        },
      },
      window: { workDoneProgress: true },
    };
    await editor.connection.sendRequest("initialize", {
      processId: process.pid,
      rootUri: null,
      capabilities,
      workspaceFolders: options.folders?.map((folder) => ({ uri: pathToFileURL(folder).href, name: folder })) ?? null,
      initializationOptions: options.ownClient === false ? {} : { explainsFindings: true },
    });
    await editor.connection.sendNotification("initialized", {});
    return editor;
  }

  /** Opens a file of the disk, or the text given, as the user's buffer. Gives its URI. */
  async open(path: string, text?: string, languageId = "cpp"): Promise<string> {
    const uri = pathToFileURL(path).href;
    const content = text ?? readFileSync(path, "utf8");
    this.#open.set(uri, { version: 1, text: content });
    await this.connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri, languageId, version: 1, text: content },
    });
    return uri;
  }

  /** Replaces the first `before` by `after`. */
  async edit(uri: string, before: string, after: string): Promise<void> {
    const open = this.#open.get(uri)!;
    const at = open.text.indexOf(before);
    if (at < 0) throw new Error(`"${before}" is not in the document`);
    const index = lineIndex(open.text);
    const range = { start: index.positionAt(at), end: index.positionAt(at + before.length) };
    open.text = open.text.slice(0, at) + after + open.text.slice(at + before.length);
    open.version++;
    await this.connection.sendNotification("textDocument/didChange", {
      textDocument: { uri, version: open.version },
      contentChanges: [{ range, text: after }],
    });
  }

  /** One insertion at a place that is known, as a keyboard makes it. */
  async type(uri: string, position: Position, text: string): Promise<void> {
    const open = this.#open.get(uri)!;
    const at = lineIndex(open.text).offsetAt(position);
    open.text = open.text.slice(0, at) + text + open.text.slice(at);
    open.version++;
    await this.connection.sendNotification("textDocument/didChange", {
      textDocument: { uri, version: open.version },
      contentChanges: [{ range: { start: position, end: position }, text }],
    });
  }

  async close(uri: string): Promise<void> {
    this.#open.delete(uri);
    await this.connection.sendNotification("textDocument/didClose", { textDocument: { uri } });
  }

  text(uri: string): string {
    return this.#open.get(uri)!.text;
  }

  /** Where a word stands, counted from its first letter. */
  rangeOf(uri: string, word: string): Range {
    const { text } = this.#open.get(uri)!;
    const at = text.indexOf(word);
    if (at < 0) throw new Error(`"${word}" is not in the document`);
    const index = lineIndex(text);
    return { start: index.positionAt(at), end: index.positionAt(at + word.length) };
  }

  /** As editors do: asks again as long as the server says that the text has moved on. */
  async diagnostics(uri: string): Promise<readonly Diagnostic[]> {
    for (;;) {
      try {
        const report = await this.connection.sendRequest<DocumentDiagnosticReport>("textDocument/diagnostic", {
          textDocument: { uri },
        });
        if (report.kind === "full") return report.items;
        throw new Error("unchanged without a previous result");
      } catch (error) {
        if ((error as { data?: { retriggerRequest?: boolean } }).data?.retriggerRequest !== true) throw error;
      }
    }
  }

  hover(uri: string, word: string): Promise<Hover | null> {
    return this.connection.sendRequest("textDocument/hover", {
      textDocument: { uri },
      position: this.rangeOf(uri, word).start,
    });
  }

  hints(uri: string): Promise<readonly InlayHint[] | null> {
    const lines = lineIndex(this.text(uri)).lines;
    return this.connection.sendRequest("textDocument/inlayHint", {
      textDocument: { uri },
      range: { start: { line: 0, character: 0 }, end: { line: lines, character: 0 } },
    });
  }

  async actions(uri: string, word: string, only?: readonly string[]): Promise<readonly CodeAction[]> {
    const found = await this.connection.sendRequest<readonly CodeAction[] | null>("textDocument/codeAction", {
      textDocument: { uri },
      range: this.rangeOf(uri, word),
      context: { diagnostics: [], ...(only === undefined ? {} : { only }) },
    });
    return found ?? [];
  }

  resolve(action: CodeAction): Promise<CodeAction> {
    return this.connection.sendRequest("codeAction/resolve", action);
  }

  /** The document after an action's edit, as the editor would show it. */
  applied(uri: string, action: CodeAction): string {
    const edits: TextEdit[] = [...(action.edit?.changes?.[uri] ?? [])];
    for (const change of action.edit?.documentChanges ?? []) {
      if ("textDocument" in change && change.textDocument.uri === uri) edits.push(...(change.edits as TextEdit[]));
    }
    let text = this.text(uri);
    const index = lineIndex(text);
    const placed = edits.map((edit) => ({
      start: index.offsetAt(edit.range.start),
      end: index.offsetAt(edit.range.end),
      text: edit.newText,
    }));
    for (const edit of placed.sort((a, b) => b.start - a.start))
      text = text.slice(0, edit.start) + edit.text + text.slice(edit.end);
    return text;
  }

  /** Ends as a well-behaved client does; gives the exit status. */
  async stop(): Promise<number | null> {
    if (this.exited !== undefined) return this.exited;
    const ended = new Promise<number | null>((resolve) => this.process.on("exit", resolve));
    await this.connection.sendRequest("shutdown");
    await this.connection.sendNotification("exit");
    const code = await ended;
    this.connection.dispose();
    return code;
  }
}

/** Asks until `fits` holds. */
export async function until<T>(
  ask: () => T | Promise<T>,
  fits: (value: T) => boolean,
  milliseconds = 10_000,
): Promise<T> {
  const end = performance.now() + milliseconds;
  for (;;) {
    const value = await ask();
    if (fits(value)) return value;
    if (performance.now() > end) throw new Error(`never came: last seen ${JSON.stringify(value)}`);
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
}
