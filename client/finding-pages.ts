/** A finding's page, shown as rendered Markdown: what it says, why it matters, an example, when to leave it be. */
import * as vscode from "vscode";
import { EXPLAIN_FINDING_COMMAND, FINDING_PAGE_REQUEST } from "../shared-model/protocol.js";
import type { LanguageServer } from "./language-server.js";

const SCHEME = "pulsewright-finding";

export function activate(context: vscode.ExtensionContext, server: LanguageServer): void {
  context.subscriptions.push(
    vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
      async provideTextDocumentContent(uri) {
        const id = uri.path.replace(/^\/|\.md$/g, "");
        return (
          (await server.request<string | null>(FINDING_PAGE_REQUEST, { id })) ??
          `# ${id}\n\nThere is no page about this.`
        );
      },
    }),
    vscode.commands.registerCommand(EXPLAIN_FINDING_COMMAND, async (id: string) => {
      await vscode.commands.executeCommand(
        "markdown.showPreview",
        vscode.Uri.from({ scheme: SCHEME, path: `/${id}.md` }),
      );
    }),
  );
}
