// What is said when there is no program to check with, and what can be done.

import * as vscode from "vscode";
import { OLDEST, type Trouble } from "./program";

const SETTINGS = "Open the setting";
const HELP = "How to install";

export async function tell(trouble: Trouble): Promise<void> {
  const answer = await vscode.window.showErrorMessage(describe(trouble), HELP, SETTINGS);
  if (answer === SETTINGS) await openSetting();
  if (answer === HELP) await vscode.commands.executeCommand("drylay.openHelp");
}

export function describe(trouble: Trouble): string {
  const { kind, path } = trouble;
  switch (kind) {
    case "missing":
      return `Specs are coloured but not checked: the program ${path} is not there. Install it, or set where it lies.`;
    case "stranger":
      return `Specs are coloured but not checked: ${path} is there, but does not answer as drylay does. Set where drylay lies.`;
    case "old":
      return `Specs are coloured but not checked: ${path} is drylay ${trouble.version}, and ${OLDEST} or newer is needed. Install a newer one.`;
  }
}

function openSetting(): Thenable<unknown> {
  return vscode.commands.executeCommand("workbench.action.openSettings", "drylay.path");
}
