/** Starts, stops and wires. Each feature is a file of its own; nothing is shown to anyone at start. */
import * as vscode from "vscode";
import * as demoSketches from "./demo-sketches.js";
import * as dutyCurve from "./duty-curve.js";
import * as findingPages from "./finding-pages.js";
import { LanguageServer } from "./language-server.js";
import * as planSignal from "./plan-signal.js";
import * as signalSheet from "./signal-sheet.js";
import { isSketchDocument, sketchInWorkspace } from "./sketch-in-sight.js";
import * as targetStatus from "./target-status.js";

let server: LanguageServer | undefined;

export function activate(context: vscode.ExtensionContext): void {
  const own = new LanguageServer(context);
  server = own;
  context.subscriptions.push(
    vscode.commands.registerCommand("pulsewright.restartServer", () => own.restart()),
    vscode.workspace.onDidOpenTextDocument((document) => {
      if (isSketchDocument(document)) own.start();
    }),
    vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration("pulsewright")) own.settingsChanged();
    }),
  );
  demoSketches.activate(context);
  dutyCurve.activate(context, own);
  findingPages.activate(context, own);
  planSignal.activate(context, own);
  signalSheet.activate(context, own);
  targetStatus.activate(context, own);

  // A C++ project without a sketch costs nothing: the server waits until there is one.
  if (vscode.workspace.textDocuments.some(isSketchDocument)) own.start();
  else void sketchInWorkspace().then((found) => (found ? own.start() : undefined));
}

export async function deactivate(): Promise<void> {
  await server?.stop();
}
