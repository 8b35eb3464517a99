/** The signal sheet of the open sketch: as text beside it, as a page made for printing, or saved for the build log. */
import * as vscode from "vscode";
import { SHEET_REQUEST, type SheetParams } from "../shared-model/protocol.js";
import type { LanguageServer } from "./language-server.js";

const SCHEME = "pulsewright-sheet";

export function activate(context: vscode.ExtensionContext, server: LanguageServer): void {
  const changed = new vscode.EventEmitter<vscode.Uri>();
  context.subscriptions.push(
    changed,
    vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
      onDidChange: changed.event,
      async provideTextDocumentContent(uri) {
        const format = uri.path.endsWith(".md") ? "markdown" : "text";
        return (await sheetOf(server, decodeURIComponent(uri.query), format)) ?? "There is no sketch here.\n";
      },
    }),
    vscode.commands.registerCommand("pulsewright.showSheet", async () => {
      const sheet = sheetUri(server, "txt");
      if (sheet === undefined) return;
      changed.fire(sheet);
      await vscode.window.showTextDocument(sheet, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true });
    }),
    vscode.commands.registerCommand("pulsewright.previewSheet", async () => {
      const sheet = sheetUri(server, "md");
      if (sheet === undefined) return;
      changed.fire(sheet);
      await vscode.commands.executeCommand("markdown.showPreviewToSide", sheet);
    }),
    vscode.commands.registerCommand("pulsewright.saveSheet", () => save(server)),
  );
}

async function sheetOf(
  server: LanguageServer,
  uri: string,
  format: "text" | "markdown",
): Promise<string | null | undefined> {
  return server.request<string | null>(SHEET_REQUEST, { uri, format } satisfies SheetParams);
}

/** The page of the sketch in front; undefined where there is none, or where it is a sheet itself. */
function sheetUri(server: LanguageServer, ending: "txt" | "md"): vscode.Uri | undefined {
  const document = vscode.window.activeTextEditor?.document;
  if (document === undefined || document.uri.scheme === SCHEME) return undefined;
  server.start();
  return vscode.Uri.from({
    scheme: SCHEME,
    path: `/${nameOf(document)} - signals.${ending}`,
    query: encodeURIComponent(document.uri.toString()),
  });
}

function nameOf(document: vscode.TextDocument): string {
  return document.uri.path.replace(/^.*\//, "");
}

/** Asks where to, beside the sketch by default; what is there already is only replaced if the person says so. */
async function save(server: LanguageServer): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document === undefined) return;
  server.start();
  const sheet = await sheetOf(server, document.uri.toString(), "markdown");
  if (sheet === undefined || sheet === null) {
    void vscode.window.showWarningMessage("Pulsewright found no sketch around this file to write a sheet of.");
    return;
  }
  const stem = nameOf(document).replace(/\.[^.]*$/, "");
  const beside = vscode.Uri.joinPath(document.uri, "..", `${stem}-signals.md`);
  const target = await vscode.window.showSaveDialog({
    title: "Save the signal sheet",
    ...(document.uri.scheme === "untitled" ? {} : { defaultUri: beside }),
    filters: { Markdown: ["md"] },
  });
  if (target === undefined) return;
  try {
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(sheet));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void vscode.window.showErrorMessage(`The signal sheet was not saved: ${why}`);
    return;
  }
  await vscode.window.showTextDocument(target, { viewColumn: vscode.ViewColumn.Beside, preview: false });
}
