// A new file to begin from: one of the snippets that fill a whole file.

import { readFile } from "node:fs/promises";
import * as vscode from "vscode";

interface Snippet {
  readonly description: string;
  readonly body: readonly string[];
}

interface Choice extends vscode.QuickPickItem {
  readonly body: readonly string[];
}

export async function newFile({ extensionUri }: vscode.ExtensionContext): Promise<void> {
  const path = vscode.Uri.joinPath(extensionUri, "snippets", "patio.json").fsPath;
  const snippets = JSON.parse(await readFile(path, "utf8")) as Record<string, Snippet>;
  const choices = Object.entries(snippets).map(
    ([label, { description, body }]): Choice => ({ label, detail: description, body }),
  );
  const picked = await vscode.window.showQuickPick(choices, {
    title: "New patio file",
    placeHolder: "What it begins with; every value in it can then be changed with Tab",
  });
  if (picked === undefined) return;
  const document = await vscode.workspace.openTextDocument({ language: "patio" });
  const editor = await vscode.window.showTextDocument(document);
  await editor.insertSnippet(new vscode.SnippetString(picked.body.join("\n")));
}
