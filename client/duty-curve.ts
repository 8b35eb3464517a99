/** "Show Duty Curve": what each input of the duty write at the caret gives, as a picture and a table beside the sketch. */
import * as vscode from "vscode";
import { DUTY_CURVE_REQUEST, type DutyCurveAnswer, type DutyCurveParams } from "../shared-model/protocol.js";
import type { LanguageServer } from "./language-server.js";

/** Rows of the table; of a longer curve every so many points are shown, the ends always. */
const ROWS = 18;

interface Shown {
  readonly panel: vscode.WebviewPanel;
  editor: vscode.TextEditor;
}

export function activate(context: vscode.ExtensionContext, server: LanguageServer): void {
  let shown: Shown | undefined;

  const ask = (editor: vscode.TextEditor): Promise<DutyCurveAnswer | null | undefined> => {
    const { line, character } = editor.selection.active;
    const params: DutyCurveParams = { uri: editor.document.uri.toString(), position: { line, character } };
    return server.request<DutyCurveAnswer | null>(DUTY_CURVE_REQUEST, params);
  };
  /** What is shown stays where the caret has left the write. */
  const renew = async (): Promise<void> => {
    if (shown === undefined) return;
    const curve = await ask(shown.editor);
    if (curve !== undefined && curve !== null && shown !== undefined) draw(shown.panel, curve);
  };

  context.subscriptions.push(
    server.onAnalysed(() => void renew()),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
      if (textEditor.document === shown?.editor.document) void renew();
    }),
    vscode.commands.registerCommand("pulsewright.showDutyCurve", async () => {
      const editor = vscode.window.activeTextEditor;
      if (editor === undefined) return;
      server.start();
      const curve = await ask(editor);
      if (curve === undefined || curve === null) {
        void vscode.window.showInformationMessage(
          "No duty curve here: put the caret on a write of a duty that is worked out of one input, such as analogWrite(3, analogRead(A0) / 4).",
        );
        return;
      }
      if (shown === undefined) {
        const panel = vscode.window.createWebviewPanel(
          "pulsewright.dutyCurve",
          "Duty curve",
          { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
          { enableScripts: false, localResourceRoots: [] },
        );
        panel.onDidDispose(() => {
          shown = undefined;
        });
        shown = { panel, editor };
      }
      shown.editor = editor;
      draw(shown.panel, curve);
      shown.panel.reveal(undefined, true);
    }),
    { dispose: () => shown?.panel.dispose() },
  );
}

function draw(panel: vscode.WebviewPanel, curve: DutyCurveAnswer): void {
  panel.title = `Duty curve of ${curve.label}`;
  panel.webview.html = page(curve);
}

/** No script, nothing from outside: a picture in the editor's own colours, and the same as numbers. */
function page(curve: DutyCurveAnswer): string {
  const input = curve.input === "reading" ? "reading" : "value";
  const rows = pointsShown(curve).map(
    ({ input: from, value, duty }) =>
      `<tr><td>${from}</td><td>${value}</td><td>${duty === null ? "constant, level not known" : share(duty)}</td></tr>`,
  );
  const facts = [
    `TOP ${curve.top}: ${curve.used} of ${curve.steps} duty steps are used.`,
    ...(curve.deadLow + curve.deadHigh === 0
      ? []
      : [`Dead travel: ${curve.deadLow} at the lower end, ${curve.deadHigh} at the upper end change nothing.`]),
    ...(curve.line === null ? [] : [curve.line]),
  ];
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline';">
<title>Duty curve of ${escaped(curve.label)}</title>
<style>
body { color: var(--vscode-editor-foreground); background: var(--vscode-editor-background); padding: 0 1.2em; }
svg { width: 100%; max-width: 46em; height: auto; }
table { border-collapse: collapse; margin-top: 1em; }
th, td { text-align: right; padding: 0.15em 1.2em 0.15em 0; font-variant-numeric: tabular-nums; }
th { border-bottom: 1px solid var(--vscode-editorWidget-border, currentColor); font-weight: 600; }
</style>
</head>
<body>
<h2>${escaped(curve.label)}</h2>
${curve.svg}
${facts.map((fact) => `<p>${escaped(fact)}</p>`).join("\n")}
<table>
<thead><tr><th scope="col">${input}</th><th scope="col">written</th><th scope="col">duty</th></tr></thead>
<tbody>
${rows.join("\n")}
</tbody>
</table>
</body>
</html>`;
}

function pointsShown({ points }: DutyCurveAnswer): DutyCurveAnswer["points"] {
  if (points.length <= ROWS) return points;
  const last = points.length - 1;
  const wanted = new Set(Array.from({ length: ROWS }, (_, row) => Math.round((row * last) / (ROWS - 1))));
  return points.filter((_, index) => wanted.has(index));
}

function share(duty: number): string {
  return duty === 0 ? "0 % (low)" : duty === 1 ? "100 % (high)" : `${(duty * 100).toFixed(1)} %`;
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
