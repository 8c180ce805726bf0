// The plan of a spec beside its text, drawn anew while the spec is edited. A
// click leads to the line that a mark comes from, and the line of the cursor is
// marked on the plan.

import { randomBytes } from "node:crypto";
import * as vscode from "vscode";
import { ExecuteCommandRequest } from "vscode-languageclient/node";
import type { Server } from "./server";
import { specInFront } from "./sheet";

// Edits that follow one another faster than this are drawn at once, in
// milliseconds.
const PAUSE = 30;

// An entry that something on the plan comes from: its section and its line in
// it, as the picture names them, and its line in the text.
interface Anchor {
  readonly section: number;
  readonly entry: number;
  readonly line: number;
}

interface Plan {
  readonly text: string;
  readonly sections: readonly string[];
  readonly version: number | null;
  readonly anchors: readonly Anchor[];
}

export class Plans implements vscode.Disposable {
  private readonly shown = new Map<string, Shown>();
  private readonly listening: vscode.Disposable;

  constructor(
    private readonly server: Server,
    private readonly extension: vscode.Uri,
  ) {
    const all = () => this.shown.forEach((one) => one.drawLater());
    const files = vscode.workspace.createFileSystemWatcher("**/*.patio");
    this.listening = vscode.Disposable.from(
      files,
      files.onDidChange(all),
      files.onDidCreate(all),
      files.onDidDelete(all),
      server.onDidChange(({ is }) => {
        if (is !== "starting") all();
      }),
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document.languageId === "patio") all();
      }),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        this.shown.get(textEditor.document.uri.toString())?.point(textEditor.selection.active.line);
      }),
    );
  }

  dispose(): void {
    this.shown.forEach((one) => one.panel.dispose());
    this.listening.dispose();
  }

  // Opens the plan of the spec in front beside it.
  open(): void {
    const spec = specInFront();
    if (spec === undefined) {
      void vscode.window.showInformationMessage("Open a spec first: the plan is drawn of the one in front.");
      return;
    }
    const known = this.shown.get(spec.toString());
    if (known !== undefined) {
      known.panel.reveal(undefined, true);
      return;
    }
    const one = new Shown(spec, this.server, this.extension);
    this.shown.set(spec.toString(), one);
    one.panel.onDidDispose(() => this.shown.delete(spec.toString()));
  }
}

// One plan that is shown.
class Shown {
  readonly panel: vscode.WebviewPanel;
  private anchors: readonly Anchor[] = [];
  private pause: NodeJS.Timeout | undefined;
  private isAsked = false;
  private isStale = false;

  constructor(
    private readonly spec: vscode.Uri,
    private readonly server: Server,
    extension: vscode.Uri,
  ) {
    const name = spec.path.split("/").pop() ?? "";
    const dist = vscode.Uri.joinPath(extension, "dist");
    this.panel = vscode.window.createWebviewPanel(
      "drylay.plan",
      `Plan of ${name.replace(/\.patio$/, "")}`,
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, localResourceRoots: [dist], retainContextWhenHidden: true },
    );
    this.panel.webview.html = page(this.panel.webview, dist);
    this.panel.webview.onDidReceiveMessage((message: unknown) => void this.hear(message));
    this.panel.onDidDispose(() => clearTimeout(this.pause));
  }

  drawLater(): void {
    clearTimeout(this.pause);
    this.pause = setTimeout(() => void this.draw(), PAUSE);
  }

  // Marks what comes from a line of the text.
  point(line: number): void {
    const own = this.anchors.find((anchor) => anchor.line === line);
    // Else the section that the line stands in: the last one that begins above.
    const above = this.anchors.filter((anchor) => anchor.line <= line).sort((a, b) => b.line - a.line)[0];
    const found = own ?? (above && { section: above.section, entry: -1 });
    this.tell({ point: found ? [found.section, found.entry] : [-1, -1] });
  }

  private async draw(): Promise<void> {
    // One question at a time; what comes meanwhile is asked once after it.
    if (this.isAsked) {
      this.isStale = true;
      return;
    }
    this.isAsked = true;
    try {
      const { text, sections, anchors } = await this.ask();
      this.anchors = anchors;
      this.tell({ show: text, sections });
      const editor = vscode.window.visibleTextEditors.find(
        ({ document }) => document.uri.toString() === this.spec.toString(),
      );
      if (editor !== undefined) this.point(editor.selection.active.line);
    } catch (fault) {
      this.tell({ say: fault instanceof Error ? fault.message : String(fault) });
    } finally {
      this.isAsked = false;
      if (this.isStale) {
        this.isStale = false;
        this.drawLater();
      }
    }
  }

  private async ask(): Promise<Plan> {
    const client = this.server.running;
    if (client === undefined) throw new Error("Specs are not checked at the moment.");
    const uri = client.code2ProtocolConverter.asUri(this.spec);
    const answer: unknown = await client.sendRequest(ExecuteCommandRequest.type, {
      command: "drylay.document.plan",
      arguments: [{ uri }],
    });
    return answer as Plan;
  }

  private tell(message: unknown): void {
    void this.panel.webview.postMessage(message);
  }

  private async hear(message: unknown): Promise<void> {
    const { ready, pick } = message as { ready?: boolean; pick?: [number, number] };
    if (ready === true) this.drawLater();
    // In a folder that is not trusted a plan is looked at, and does nothing.
    if (pick === undefined || !vscode.workspace.isTrusted) return;
    const [section, entry] = pick;
    const anchor = this.anchors.find((own) => own.section === section && own.entry === entry);
    if (anchor === undefined) return;
    const at = new vscode.Position(anchor.line, 0);
    const beside = vscode.window.visibleTextEditors.find(
      ({ document }) => document.uri.toString() === this.spec.toString(),
    );
    await vscode.window.showTextDocument(this.spec, {
      viewColumn: beside?.viewColumn ?? vscode.ViewColumn.One,
      selection: new vscode.Range(at, at),
    });
  }
}

// The page: its own script and style, and nothing from anywhere else.
function page(webview: vscode.Webview, dist: vscode.Uri): string {
  const nonce = randomBytes(16).toString("base64");
  const address = (name: string) => webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString();
  const allowed = [
    "default-src 'none'",
    `style-src ${webview.cspSource}`,
    `font-src ${webview.cspSource} data:`,
    `script-src 'nonce-${nonce}'`,
  ];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${allowed.join("; ")}">
<link rel="stylesheet" href="${address("plan.css")}">
</head>
<body>
<div id="plan" tabindex="0" aria-label="Plan"></div>
<p id="words" hidden></p>
<script nonce="${nonce}" src="${address("plan.js")}"></script>
<script nonce="${nonce}">
const host = acquireVsCodeApi();
plan.onpick = (section, entry) => host.postMessage({ pick: [section, entry] });
window.addEventListener("message", ({ data }) => {
  if (data.show !== undefined) plan.show(data.show, data.sections);
  if (data.say !== undefined) plan.say(data.say);
  if (data.point !== undefined) plan.point(...data.point);
});
host.postMessage({ ready: true });
</script>
</body>
</html>`;
}
