/** "Open Demo Sketch": a copy of one of the sketches that come with the extension, for trying things out. */
import * as vscode from "vscode";

const DEMOS = [
  { name: "lamp", label: "Lamp", detail: "A dimmer at 1 kHz on pin 3 that misses its frequency by one operator" },
  { name: "greenhouse-fan", label: "Greenhouse fan", detail: "A four-wire fan at 25 kHz whose duty leaves the scale" },
  { name: "pump", label: "Pump", detail: "A slow pump drive that moves the millisecond clock" },
  { name: "beacon", label: "Beacon", detail: "A flashing light whose timer is also wanted by a servo" },
] as const;

export function activate(context: vscode.ExtensionContext): void {
  context.subscriptions.push(
    vscode.commands.registerCommand("pulsewright.openDemo", async (name?: string) => {
      const chosen = DEMOS.find((demo) => demo.name === name) ?? (await choose());
      if (chosen !== undefined) await open(context, chosen.name);
    }),
  );
}

async function choose(): Promise<(typeof DEMOS)[number] | undefined> {
  return vscode.window.showQuickPick(DEMOS, { title: "Open a demo sketch", matchOnDetail: true });
}

/** A copy that is there already is opened as it is: it may hold the user's own changes. */
async function open(context: vscode.ExtensionContext, name: string): Promise<void> {
  const source = vscode.Uri.joinPath(context.extensionUri, "client", "demo", name);
  const folder = vscode.Uri.joinPath(context.globalStorageUri, "demo", name);
  const sketch = vscode.Uri.joinPath(folder, `${name}.ino`);
  const there = await vscode.workspace.fs.stat(sketch).then(
    () => true,
    () => false,
  );
  if (!there) await vscode.workspace.fs.copy(source, folder, { overwrite: true });
  await vscode.window.showTextDocument(sketch, { preview: false });
}
