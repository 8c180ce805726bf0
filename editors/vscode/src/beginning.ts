// A new file to begin from: one of the snippets that fill a whole file. It has
// a name from the start, so that saving it asks for none and takes none from
// the title of the job, which may hold what no file's name can.

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
  const document = await vscode.workspace.openTextDocument(await unusedFile(fileName(picked)));
  const editor = await vscode.window.showTextDocument(document);
  await editor.insertSnippet(new vscode.SnippetString(picked.body.join("\n")));
}

// A standard is found by its name, `standard.patio`; a job may have any.
function fileName({ body }: Choice): string {
  return body[0]?.startsWith("standard ") === true ? "standard" : "patio";
}

// A file of that name that is not there yet, in the folder that is open.
async function unusedFile(name: string): Promise<vscode.Uri> {
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  for (let count = 1; ; count += 1) {
    const file = count === 1 ? `${name}.patio` : `${name}-${count}.patio`;
    const uri = folder === undefined ? undefined : vscode.Uri.joinPath(folder, file);
    const path = uri?.path ?? file;
    const isOpen = vscode.workspace.textDocuments.some((open) => open.uri.path === path);
    if (isOpen || (uri !== undefined && (await exists(uri)))) continue;
    return uri?.with({ scheme: "untitled" }) ?? vscode.Uri.parse(`untitled:${file}`);
  }
}

async function exists(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
