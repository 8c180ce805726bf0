// Patio specifications in the editor: the language server, the take-off beside
// the text, and a place in the status bar that tells how it stands.

import * as vscode from "vscode";
import { newFile } from "./beginning";
import { showMenu } from "./menu";
import { Plans } from "./plan";
import { Server } from "./server";
import { Sheets } from "./sheet";
import { Status } from "./status";
import { tell } from "./trouble";

let server: Server | undefined;

export function activate(context: vscode.ExtensionContext): void {
  const own = (server = new Server(context.extensionPath));
  const sheets = new Sheets(own);
  const plans = new Plans(own, context.extensionUri);
  const commands: Record<string, () => unknown> = {
    "drylay.newFile": () => newFile(context),
    "drylay.openPlan": () => plans.open(),
    "drylay.openTakeoff": () => sheets.open("takeoff"),
    "drylay.openWorking": () => sheets.open("working"),
    "drylay.openStandard": () => sheets.open("standard"),
    "drylay.restart": () => own.restart(),
    "drylay.showOutput": () => own.output.show(true),
    "drylay.openSettings": () => openSettings(context),
    "drylay.openHelp": () => openHelp(context),
    "drylay.showMenu": () => showMenu(own),
  };
  context.subscriptions.push(
    own,
    new Status(own),
    sheets,
    plans,
    ...Object.entries(commands).map(([name, run]) => vscode.commands.registerCommand(name, run)),
    own.onDidChange((standing) => {
      if (standing.is === "without program") void tell(standing.trouble);
    }),
    vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration("drylay.path")) void own.restart();
    }),
  );
  void own.start();
}

export async function deactivate(): Promise<void> {
  await server?.stop();
}

function openSettings({ extension }: vscode.ExtensionContext): Thenable<unknown> {
  return vscode.commands.executeCommand("workbench.action.openSettings", `@ext:${extension.id}`);
}

function openHelp({ extensionUri }: vscode.ExtensionContext): Thenable<unknown> {
  return vscode.commands.executeCommand("markdown.showPreview", vscode.Uri.joinPath(extensionUri, "README.md"));
}
