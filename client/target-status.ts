/** Board and clock of the sketch in front, as a language status item, and the picker that changes them. */
import * as vscode from "vscode";
import { readClock, writeClock } from "../shared-model/clock-text.js";
import {
  BOARDS_REQUEST,
  type BoardChoice,
  type FileEdit,
  TARGET_EDIT_REQUEST,
  TARGET_REQUEST,
  type TargetAnswer,
} from "../shared-model/protocol.js";
import type { LanguageServer } from "./language-server.js";

export function activate(context: vscode.ExtensionContext, server: LanguageServer): void {
  const item = vscode.languages.createLanguageStatusItem("pulsewright.target", []);
  item.name = "Pulsewright: board and clock";
  item.command = { command: "pulsewright.chooseBoard", title: "Change" };

  let round = 0;
  const show = async (): Promise<void> => {
    const document = vscode.window.activeTextEditor?.document;
    const ofRound = ++round;
    if (document === undefined) return;
    const answer = await server.request<TargetAnswer | null>(TARGET_REQUEST, { uri: document.uri.toString() });
    if (ofRound !== round) return;
    if (answer === undefined || answer === null) {
      item.selector = [];
      return;
    }
    showTarget(item, answer);
    item.selector = { scheme: document.uri.scheme, language: document.languageId };
  };

  context.subscriptions.push(
    item,
    server.onAnalysed(() => void show()),
    vscode.window.onDidChangeActiveTextEditor(() => void show()),
    vscode.commands.registerCommand("pulsewright.chooseBoard", () => chooseBoard(server)),
    vscode.commands.registerCommand("pulsewright.chooseClock", () => chooseClock(server)),
  );
}

function showTarget(item: vscode.LanguageStatusItem, target: TargetAnswer): void {
  if (target.trouble !== null) {
    item.text = target.boardId === "" ? "Pulsewright: no answer" : target.boardId;
    item.detail = target.trouble;
    item.severity = vscode.LanguageStatusSeverity.Warning;
    return;
  }
  item.text = `${target.boardId} · ${writeClock(target.clockHz)}`;
  const gaps = target.gaps === 0 ? "" : `; ${target.gaps} ${target.gaps === 1 ? "thing" : "things"} not followed`;
  item.detail = `${target.boardName}, ${target.chip}; board from: ${target.decidedBy}${gaps}`;
  item.severity = vscode.LanguageStatusSeverity.Information;
}

async function chooseBoard(server: LanguageServer): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document === undefined) return;
  const boards = (await server.request<readonly BoardChoice[]>(BOARDS_REQUEST, {})) ?? [];
  const clock = { label: "$(watch) Change the clock only…", description: "", board: undefined };
  const picked = await vscode.window.showQuickPick(
    [
      ...boards.map((board) => ({
        label: board.id,
        description: `${board.name}, ${board.chip}, ${writeClock(board.clockHz)}`,
        board,
      })),
      clock,
    ],
    { title: "Which board is this sketch for?", matchOnDescription: true },
  );
  if (picked === undefined) return;
  if (picked.board === undefined) return chooseClock(server);
  await write(server, document, { boardId: picked.board.id });
}

async function chooseClock(server: LanguageServer): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document === undefined) return;
  const answer = await vscode.window.showInputBox({
    title: "Which frequency does the oscillator have?",
    placeHolder: "16 MHz",
    validateInput: (text) => (readClock(text) === null ? "A frequency such as 16 MHz or 8000000" : undefined),
  });
  const clockHz = answer === undefined ? null : readClock(answer);
  if (clockHz !== null) await write(server, document, { clockHz });
}

/** Into the sketch, where everybody who opens it finds it, or into the workspace's settings. */
async function write(
  server: LanguageServer,
  document: vscode.TextDocument,
  wanted: { boardId?: string; clockHz?: number },
): Promise<void> {
  const inSketch = { label: "In the sketch", detail: "as a comment: // for pulsewright: …" };
  const inSettings = { label: "In the settings", detail: "pulsewright.board and pulsewright.clock of this folder" };
  const where = await vscode.window.showQuickPick([inSketch, inSettings], { title: "Where shall it be written down?" });
  if (where === inSettings) {
    const folder = vscode.workspace.getWorkspaceFolder(document.uri);
    const target =
      folder === undefined ? vscode.ConfigurationTarget.Global : vscode.ConfigurationTarget.WorkspaceFolder;
    const settings = vscode.workspace.getConfiguration("pulsewright", document.uri);
    if (wanted.boardId !== undefined) await settings.update("board", wanted.boardId, target);
    if (wanted.clockHz !== undefined) await settings.update("clock", writeClock(wanted.clockHz), target);
    return;
  }
  if (where !== inSketch) return;
  const edit = await server.request<FileEdit | null>(TARGET_EDIT_REQUEST, { uri: document.uri.toString(), ...wanted });
  if (edit === undefined || edit === null) {
    void vscode.window.showWarningMessage("Pulsewright found no sketch around this file to write the comment into.");
    return;
  }
  const { start, end } = edit.range;
  const change = new vscode.WorkspaceEdit();
  change.replace(
    vscode.Uri.parse(edit.uri),
    new vscode.Range(start.line, start.character, end.line, end.character),
    edit.newText,
  );
  await vscode.workspace.applyEdit(change);
}
