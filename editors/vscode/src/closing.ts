// What was found in a document goes when it is closed, unless specs that are not
// open are checked too and it is one of them. The client leaves that to what it
// is told of the whole workspace, which says nothing of documents outside it.

import * as vscode from "vscode";
import { type Middleware, vsdiag } from "vscode-languageclient/node";

export function forgetting(): Middleware {
  let tell: vsdiag.ResultReporter | undefined;
  return {
    provideWorkspaceDiagnostics: (known, token, report, next) => {
      tell = report;
      return next(known, token, report);
    },
    provideDiagnostics: async (document, known, token, next) => {
      const found = await next(document, known, token);
      const uri = document instanceof vscode.Uri ? document : document.uri;
      if (!isShown(uri) && !isCheckedClosed(uri)) {
        // The client still has to be done with this answer.
        setTimeout(() => tell?.({ items: [nothingIn(uri)] }));
      }
      return found;
    },
  };
}

// Whether a tab shows a document, alone or beside another version of it.
function isShown(uri: vscode.Uri): boolean {
  const tabs = vscode.window.tabGroups.all.flatMap((group) => group.tabs);
  return tabs.some(({ input }) => {
    const shown =
      input instanceof vscode.TabInputText
        ? [input.uri]
        : input instanceof vscode.TabInputTextDiff
          ? [input.original, input.modified]
          : [];
    return shown.some((one) => one.toString() === uri.toString());
  });
}

function isCheckedClosed(uri: vscode.Uri): boolean {
  const checks = vscode.workspace.getConfiguration("drylay", uri).get("findings.workspace", true);
  return checks && uri.scheme === "file" && vscode.workspace.getWorkspaceFolder(uri) !== undefined;
}

function nothingIn(uri: vscode.Uri): vsdiag.WorkspaceFullDocumentDiagnosticReport {
  return { kind: vsdiag.DocumentDiagnosticReportKind.full, uri, version: null, items: [] };
}
