/** "Show Signal Sheet": what every pin of the open sketch puts out, as the command line prints it. */
import * as vscode from "vscode";
import { SHEET_REQUEST } from "../shared-model/protocol.js";
import type { LanguageServer } from "./language-server.js";

const SCHEME = "pulsewright-sheet";

export function activate(context: vscode.ExtensionContext, server: LanguageServer): void {
  const changed = new vscode.EventEmitter<vscode.Uri>();
  context.subscriptions.push(
    changed,
    vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
      onDidChange: changed.event,
      async provideTextDocumentContent(uri) {
        const sketch = decodeURIComponent(uri.query);
        return (await server.request<string | null>(SHEET_REQUEST, { uri: sketch })) ?? "There is no sketch here.\n";
      },
    }),
    vscode.commands.registerCommand("pulsewright.showSheet", async () => {
      const document = vscode.window.activeTextEditor?.document;
      if (document === undefined || document.uri.scheme === SCHEME) return;
      server.start();
      const name = document.uri.path.replace(/^.*\//, "");
      const sheet = vscode.Uri.from({
        scheme: SCHEME,
        path: `/${name} - signals.txt`,
        query: encodeURIComponent(document.uri.toString()),
      });
      changed.fire(sheet);
      await vscode.window.showTextDocument(sheet, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true });
    }),
  );
}
