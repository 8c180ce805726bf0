// What the server makes of a spec, as a read-only document beside its text that
// is kept up to date while the spec, or a file that it uses, is edited.

import * as vscode from "vscode";
import { ExecuteCommandRequest } from "vscode-languageclient/node";
import type { Server } from "./server";

const SCHEME = "drylay-sheet";

// Edits that follow one another faster than this are shown at once, in
// milliseconds.
const PAUSE = 150;

// A kind of sheet: how its documents are called, and how the server is asked.
interface Kind {
  readonly title: string;
  readonly command: string;
  readonly words: Readonly<Record<string, unknown>>;
}

export const KINDS = {
  takeoff: { title: "Take-off of", command: "drylay.document.takeoff", words: {} },
  working: { title: "Working of", command: "drylay.document.takeoff", words: { working: true } },
  standard: { title: "Standard for", command: "drylay.document.standard", words: {} },
} satisfies Record<string, Kind>;

export type KindName = keyof typeof KINDS;

// The document that shows a sheet of a spec. The kind is its authority, the
// spec its query.
function sheetOf(spec: vscode.Uri, kind: KindName): vscode.Uri {
  const name = spec.path.split("/").pop() ?? "";
  const path = `/${KINDS[kind].title} ${name.replace(/\.patio$/, "")}`;
  return vscode.Uri.from({ scheme: SCHEME, authority: kind, path, query: spec.toString() });
}

export function isSheet(uri: vscode.Uri): boolean {
  return uri.scheme === SCHEME;
}

export function specOf(sheet: vscode.Uri): vscode.Uri {
  return vscode.Uri.parse(sheet.query, true);
}

// The spec whose text or sheet is in front.
export function specInFront(): vscode.Uri | undefined {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId === "patio") return document.uri;
  return document !== undefined && isSheet(document.uri) ? specOf(document.uri) : undefined;
}

export class Sheets implements vscode.TextDocumentContentProvider, vscode.Disposable {
  private readonly changed = new vscode.EventEmitter<vscode.Uri>();
  readonly onDidChange = this.changed.event;
  private readonly listening: vscode.Disposable;
  private pause: NodeJS.Timeout | undefined;

  constructor(private readonly server: Server) {
    const files = vscode.workspace.createFileSystemWatcher("**/*.patio");
    const later = () => this.refreshLater();
    const ifPatio = (document: vscode.TextDocument) => {
      if (document.languageId === "patio") later();
    };
    this.listening = vscode.Disposable.from(
      this.changed,
      files,
      files.onDidChange(later),
      files.onDidCreate(later),
      files.onDidDelete(later),
      server.onDidChange(({ is }) => {
        if (is !== "starting") later();
      }),
      vscode.workspace.onDidChangeTextDocument(({ document }) => ifPatio(document)),
      vscode.workspace.onDidSaveTextDocument(ifPatio),
      vscode.workspace.onDidCloseTextDocument(ifPatio),
      vscode.workspace.onDidChangeConfiguration((change) => {
        if (change.affectsConfiguration("drylay")) later();
      }),
      vscode.workspace.registerTextDocumentContentProvider(SCHEME, this),
    );
  }

  dispose(): void {
    clearTimeout(this.pause);
    this.listening.dispose();
  }

  // Opens a sheet of the spec in front beside it.
  async open(kind: KindName): Promise<void> {
    const spec = specInFront();
    if (spec === undefined) {
      void vscode.window.showInformationMessage("Open a spec first: the sheet is made of the one in front.");
      return;
    }
    const document = await vscode.workspace.openTextDocument(sheetOf(spec, kind));
    await vscode.languages.setTextDocumentLanguage(document, "patio-sheet");
    const isBesideItsText = vscode.window.activeTextEditor?.document.languageId === "patio";
    await vscode.window.showTextDocument(document, {
      viewColumn: isBesideItsText ? vscode.ViewColumn.Beside : vscode.ViewColumn.Active,
      preserveFocus: isBesideItsText,
      preview: false,
    });
  }

  async provideTextDocumentContent(sheet: vscode.Uri): Promise<string> {
    const spec = specOf(sheet);
    try {
      return await this.ask(spec, KINDS[sheet.authority as KindName]);
    } catch (fault) {
      const reason = fault instanceof Error ? fault.message : String(fault);
      return `There is nothing to show of ${spec.path.split("/").pop()}.\n\n${reason}\n`;
    }
  }

  private async ask(spec: vscode.Uri, { command, words }: Kind): Promise<string> {
    const client = this.server.running;
    if (client === undefined) throw new Error("Specs are not checked at the moment.");
    const uri = client.code2ProtocolConverter.asUri(spec);
    // VS Code tells nobody how wide an editor is; the usual width is that of half
    // a window.
    const width = vscode.workspace.getConfiguration("drylay", spec).get<number>("takeoff.width");
    const answer: unknown = await client.sendRequest(ExecuteCommandRequest.type, {
      command,
      arguments: [{ uri, width, ...words }],
    });
    return (answer as { text: string }).text;
  }

  private refreshLater(): void {
    clearTimeout(this.pause);
    this.pause = setTimeout(() => {
      const open = vscode.workspace.textDocuments.filter(({ uri }) => isSheet(uri));
      for (const { uri } of open) this.changed.fire(uri);
    }, PAUSE);
  }
}
