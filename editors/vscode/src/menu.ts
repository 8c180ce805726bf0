// What a click on the status item offers.

import * as vscode from "vscode";
import { describe } from "./trouble";
import { specInFront } from "./sheet";
import type { Server } from "./server";

interface Choice extends vscode.QuickPickItem {
  readonly command: string;
}

export async function showMenu(server: Server): Promise<void> {
  const picked = await vscode.window.showQuickPick(choices(server), {
    title: "Patio specifications",
    placeHolder: heading(server),
  });
  if (picked !== undefined) await vscode.commands.executeCommand(picked.command);
}

function heading(server: Server): string {
  const { standing } = server;
  switch (standing.is) {
    case "starting":
      return "The checking starts";
    case "running":
      return `Specs are checked by drylay ${standing.program.version}`;
    case "stopped":
      return "Specs are not checked: the checking has stopped";
    case "without program":
      return describe(standing.trouble);
  }
}

function choices(server: Server): Choice[] {
  const { is } = server.standing;
  const sheets = [
    { label: "$(graph) Plan beside the text", command: "drylay.openPlan" },
    { label: "$(list-flat) Take-off beside the text", command: "drylay.openTakeoff" },
    { label: "$(list-tree) Take-off with its working", command: "drylay.openWorking" },
    { label: "$(law) Standard that applies", command: "drylay.openStandard" },
  ];
  const begin = { label: "$(new-file) New spec", command: "drylay.newFile" };
  const problems = { label: "$(list-unordered) All findings", command: "workbench.actions.view.problems" };
  const restart = { label: "$(debug-restart) Restart the checking", command: "drylay.restart" };
  const output = { label: "$(output) Show output", command: "drylay.showOutput" };
  const settings = { label: "$(settings-gear) Settings", command: "drylay.openSettings" };
  const help = { label: "$(question) How to install drylay", command: "drylay.openHelp" };
  if (is === "without program") return [help, begin, settings, restart, output];
  return [...(specInFront() === undefined ? [] : sheets), begin, problems, restart, output, settings];
}
