/** "Plan a Signal": pin, want, and one of the ways to get it, as an edit that can be undone. Everything is worked out by the server. */
import * as vscode from "vscode";
import {
  PINS_REQUEST,
  type PinChoice,
  PLAN_EDIT_REQUEST,
  PLANS_REQUEST,
  type PlanChoices,
  type PlanEditParams,
  type PlannedEdit,
  type PlansParams,
  READ_WANT_REQUEST,
  type UnreadWant,
} from "../shared-model/protocol.js";
import type { LanguageServer } from "./language-server.js";

export function activate(context: vscode.ExtensionContext, server: LanguageServer): void {
  context.subscriptions.push(vscode.commands.registerCommand("pulsewright.planSignal", () => planSignal(server)));
}

async function planSignal(server: LanguageServer): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document === undefined) return;
  server.start();
  const uri = document.uri.toString();
  const pins = await server.request<readonly PinChoice[] | null>(PINS_REQUEST, { uri });
  if (pins === undefined || pins === null || pins.length === 0) {
    void vscode.window.showWarningMessage("Pulsewright found no sketch around this file to plan a signal for.");
    return;
  }
  const pin = await choosePin(pins);
  if (pin === undefined) return;
  const want = await askWant(server, uri, pin);
  if (want === undefined) return;
  const choices = await server.request<PlanChoices | null>(PLANS_REQUEST, { uri, pin, want } satisfies PlansParams);
  if (choices === undefined || choices === null) {
    void vscode.window.showWarningMessage("Pulsewright has no plan: the sketch could not be analysed.");
    return;
  }
  await choosePlan(server, { uri, pin, want }, choices);
}

async function choosePin(pins: readonly PinChoice[]): Promise<string | undefined> {
  const picked = await vscode.window.showQuickPick(
    pins.map(({ pin, says, today }) => ({ label: pin, description: says, detail: `now: ${today}` })),
    { title: "A signal on which pin?", matchOnDescription: true },
  );
  return picked?.label;
}

/** The text is read by the server as it is typed; the last one wins. */
async function askWant(server: LanguageServer, uri: string, pin: string): Promise<string | undefined> {
  return vscode.window.showInputBox({
    title: `What shall ${pin} put out?`,
    placeHolder: "25 kHz within 21..28 kHz, 100 steps",
    prompt: "A frequency, duty, reach, pulse … every …, steps, or a named specification such as fan-4wire",
    validateInput: async (want) => {
      if (want.trim() === "") return "A frequency such as 1 kHz +-2 %";
      const params: PlansParams = { uri, pin, want };
      const unread = await server.request<UnreadWant | null>(READ_WANT_REQUEST, params);
      return unread === undefined || unread === null
        ? undefined
        : `Column ${unread.column + 1}: expected ${unread.expected}`;
    },
  });
}

async function choosePlan(server: LanguageServer, asked: PlansParams, choices: PlanChoices): Promise<void> {
  const { moves } = choices;
  if (choices.plans.length === 0) {
    const why = [choices.why ?? "No setting of this pin's timer gives it.", ...moves].join(" ");
    void vscode.window.showInformationMessage(`${asked.pin}: ${why}`);
    return;
  }
  const picked = await vscode.window.showQuickPick(
    choices.plans.map(({ title, label, says, costs }) => ({
      label,
      detail: costs === "" ? says : `${says}; ${costs}`,
      title,
    })),
    {
      title: `${asked.pin}: ${asked.want}`,
      placeHolder: moves.length === 0 ? "Choose how; the edit can be undone" : moves.join(" "),
      matchOnDetail: true,
    },
  );
  if (picked === undefined) return;
  const params: PlanEditParams = { ...asked, title: picked.title, writesWant: true };
  const edit = await server.request<PlannedEdit | null>(PLAN_EDIT_REQUEST, params);
  if (edit === undefined || edit === null || "refused" in edit) {
    void vscode.window.showWarningMessage(
      `Nothing was edited: ${edit === undefined || edit === null ? "the server has no answer" : edit.refused}.`,
    );
    return;
  }
  const change = new vscode.WorkspaceEdit();
  for (const { uri, range, newText } of edit.edits) {
    const { start, end } = range;
    change.replace(
      vscode.Uri.parse(uri),
      new vscode.Range(start.line, start.character, end.line, end.character),
      newText,
    );
  }
  await vscode.workspace.applyEdit(change);
}
