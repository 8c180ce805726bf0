// The item in the status bar: whether specs are checked, and how many findings
// the one in front has.

import * as vscode from "vscode";
import { describe } from "./trouble";
import { specInFront } from "./sheet";
import type { Server, Standing } from "./server";

const FINDINGS: readonly [vscode.DiagnosticSeverity, string, string][] = [
  [vscode.DiagnosticSeverity.Error, "error", "errors"],
  [vscode.DiagnosticSeverity.Warning, "warning", "warnings"],
  [vscode.DiagnosticSeverity.Information, "advisory", "advisories"],
  [vscode.DiagnosticSeverity.Hint, "note", "notes"],
];

export class Status implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem("drylay", vscode.StatusBarAlignment.Right, 100);
  private readonly listening: vscode.Disposable;

  constructor(private readonly server: Server) {
    this.item.name = "Patio";
    this.item.command = "drylay.showMenu";
    const show = () => this.show();
    this.listening = vscode.Disposable.from(
      this.item,
      server.onDidChange(show),
      vscode.window.onDidChangeActiveTextEditor(show),
      vscode.languages.onDidChangeDiagnostics(show),
    );
    show();
  }

  dispose(): void {
    this.listening.dispose();
  }

  private show(): void {
    const spec = specInFront();
    if (spec === undefined) {
      this.item.hide();
      return;
    }
    const { text, tooltip, isWrong } = shown(this.server.standing, spec);
    this.item.text = text;
    this.item.tooltip = `${tooltip}\nClick for what can be done.`;
    this.item.backgroundColor = isWrong ? new vscode.ThemeColor("statusBarItem.warningBackground") : undefined;
    this.item.show();
  }
}

interface Shown {
  readonly text: string;
  readonly tooltip: string;
  readonly isWrong: boolean;
}

function shown(standing: Standing, spec: vscode.Uri): Shown {
  switch (standing.is) {
    case "starting":
      return { text: "$(sync~spin) Patio", tooltip: "The checking starts.", isWrong: false };
    case "stopped":
      return { text: "$(circle-slash) Patio: stopped", tooltip: "Specs are not checked.", isWrong: true };
    case "without program":
      return { text: "$(warning) Patio: not checked", tooltip: describe(standing.trouble), isWrong: true };
    case "running":
      return { ...findings(spec), isWrong: false };
  }
}

function findings(spec: vscode.Uri): { text: string; tooltip: string } {
  const all = vscode.languages.getDiagnostics(spec);
  const counts = FINDINGS.map(([severity, one, many]) => {
    const count = all.filter((finding) => finding.severity === severity).length;
    return { severity, count, words: `${count} ${count === 1 ? one : many}` };
  }).filter(({ count }) => count > 0);
  const icons = ["$(error)", "$(warning)", "$(info)", "$(info)"];
  const icon = icons[counts[0]?.severity ?? -1] ?? "$(check)";
  const total = all.length === 1 ? "1 finding" : `${all.length === 0 ? "no" : all.length} findings`;
  const name = spec.path.split("/").pop();
  const listed = counts.length === 0 ? "nothing found" : counts.map(({ words }) => words).join(", ");
  return { text: `${icon} Patio: ${total}`, tooltip: `${name}: ${listed}.` };
}
