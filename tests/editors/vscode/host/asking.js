// Runs inside VS Code and asks it, not the server, what a user would see. Writes
// a line for each thing into the file that DRYLAY_ASKED names. Then sets
// drylay.path to what stands in DRYLAY_PATH_SET, as often as that changes.

const { execFileSync } = require("node:child_process");
const { appendFileSync, readFileSync, readdirSync, renameSync, watchFile, writeFileSync } = require("node:fs");
const vscode = require("vscode");

const PATIENCE = 60_000;

exports.activate = async () => {
  const report = process.env.DRYLAY_ASKED;
  if (report === undefined) return;
  writeFileSync(`${report}.part`, "");
  const say = (line) => appendFileSync(`${report}.part`, `${line}\n`);
  say(`VS Code ${vscode.version}`);
  try {
    const { asked, restore } = await questions();
    for (const [what, ask] of Object.entries(asked)) {
      try {
        await ask();
        say(`ok      ${what}`);
      } catch (fault) {
        say(`FAILED  ${what}: ${fault.message}`);
        await restore();
      }
    }
  } catch (fault) {
    say(`FAILED  ${fault.stack}`);
  }
  renameSync(`${report}.part`, report);
  watchFile(process.env.DRYLAY_PATH_SET, { interval: 100 }, () => {
    const path = readFileSync(process.env.DRYLAY_PATH_SET, "utf8");
    const wanted = path === "" ? undefined : path;
    vscode.workspace.getConfiguration("drylay").update("path", wanted, vscode.ConfigurationTarget.Global);
  });
};

const ask = (command, ...words) => vscode.commands.executeCommand(command, ...words);

async function until(find, what = find) {
  const end = Date.now() + PATIENCE;
  for (;;) {
    const found = await find();
    if (found) return found;
    if (Date.now() > end) throw new Error(`it never was so: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

function same(found, wanted) {
  const [one, other] = [found, wanted].map((value) => JSON.stringify(value));
  if (one === other) return;
  const at = [...one].findIndex((letter, at) => letter !== other[at]);
  const around = (text) => text.slice(Math.max(0, at - 40), at + 80);
  throw new Error(`found ${around(one)}, wanted ${around(other)}`);
}

function holds(text, ...parts) {
  for (const part of parts) {
    if (!text.includes(part)) throw new Error(`${JSON.stringify(part)} is not in ${JSON.stringify(text)}`);
  }
}

// The servers that this extension host has started, by their numbers.
function servers() {
  return readdirSync("/proc").filter((number) => {
    if (!/^\d+$/.test(number)) return false;
    try {
      const parent = readFileSync(`/proc/${number}/stat`, "utf8").split(") ")[1].split(" ")[1];
      const words = readFileSync(`/proc/${number}/cmdline`, "utf8").split("\0");
      return Number(parent) === process.pid && words[1] === "serve";
    } catch {
      return false; // It has ended meanwhile.
    }
  });
}

async function questions() {
  const folder = vscode.workspace.workspaceFolders[0].uri;
  const uri = vscode.Uri.joinPath(folder, "weir-lane.patio");
  const document = await vscode.workspace.openTextDocument(uri);
  const editor = await vscode.window.showTextDocument(document);
  const whole = () => new vscode.Range(0, 0, document.lineCount, 0);
  const original = document.getText();

  // The number of the first line that begins so.
  const line = (start) => {
    for (let number = 0; number < document.lineCount; number++) {
      if (document.lineAt(number).text.startsWith(start)) return number;
    }
    throw new Error(`no line begins with ${start}`);
  };
  const at = (start, word) => {
    const number = line(start);
    return new vscode.Position(number, document.lineAt(number).text.indexOf(word));
  };
  const change = (range, text) => editor.edit((edit) => edit.replace(range, text));
  const replace = (start, from, to) => {
    const place = at(start, from);
    return change(new vscode.Range(place, place.translate(0, from.length)), to);
  };
  // Puts back what has changed and no more, so that the rest keeps its colours,
  // which closing quotes goes by.
  const restore = async () => {
    const text = document.getText();
    if (text === original) return;
    let [start, end] = [0, 0];
    while (start < Math.min(text.length, original.length) && text[start] === original[start]) start += 1;
    const most = Math.min(text.length, original.length) - start;
    while (end < most && text[text.length - 1 - end] === original[original.length - 1 - end]) end += 1;
    const range = new vscode.Range(document.positionAt(start), document.positionAt(text.length - end));
    await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
    await change(range, original.slice(start, original.length - end));
    await document.save();
  };
  const findings = () => vscode.languages.getDiagnostics(uri);
  const finding = (rule) => findings().find(({ code }) => (code?.value ?? code) === rule);
  const hints = async () => {
    const all = (await ask("vscode.executeInlayHintProvider", uri, whole())) ?? [];
    return all.map(({ label }) => (typeof label === "string" ? label : label.map(({ value }) => value).join("")));
  };
  const hover = async (place) => {
    const all = await ask("vscode.executeHoverProvider", uri, place);
    return all.flatMap(({ contents }) => contents.map((content) => content.value ?? content)).join("\n");
  };
  const offered = async (place) => {
    const { items } = await ask("vscode.executeCompletionItemProvider", uri, place);
    return items.map(({ label }) => label.label ?? label);
  };
  const takeoff = () => vscode.window.visibleTextEditors.find((one) => one.document.uri.scheme === "drylay-sheet");
  // Types keys one by one at the end of a line, each with what the line under
  // the cursor then is.
  const typed = async (start, ...steps) => {
    const { end } = document.lineAt(line(start)).range;
    await vscode.window.showTextDocument(document);
    editor.selection = new vscode.Selection(end, end);
    for (const [key, wanted] of steps) {
      await ask("type", { text: key });
      const found = () => document.lineAt(editor.selection.active.line).text;
      await until(() => found() === wanted, `a line ${JSON.stringify(wanted)} after ${JSON.stringify(key)}`);
    }
    await restore();
  };
  const settings = () => vscode.workspace.getConfiguration("drylay");
  const drylay = (...words) => execFileSync(process.env.DRYLAY_PROGRAM, words, { cwd: folder.fsPath, encoding: "utf8" });

  const asked = {
    "the language is patio": () => same(document.languageId, "patio"),
    "two blanks are an indent": () => same([editor.options.tabSize, editor.options.insertSpaces], [2, true]),
    "figures stand at the ends of lines": async () => {
      const found = await until(async () => {
        const all = await hints();
        return all.length > 8 && all.join("\n");
      });
      holds(found, "181.6 sq ft", "52' 7 7/8\"", "4.57 tons", "drops 3\"");
    },
    "what is found is what check finds": async () => {
      await replace("  fall", "1/4 in per ft", "1:200");
      await until(() => finding("fall-flat"));
      await document.save();
      const run = () => {
        try {
          return drylay("check", "--format", "json", "weir-lane.patio");
        } catch (fault) {
          return fault.stdout;
        }
      };
      const told = JSON.parse(run()).files.flatMap((file) => file.findings);
      const shown = findings().map(({ code }) => code.value ?? code);
      same(shown.sort(), told.filter(({ accepted }) => accepted === null).map(({ rule }) => rule).sort());
    },
    "a finding stands at its line": () => {
      const { range, severity, message } = finding("fall-flat");
      same([range.start.line, severity], [line("  fall"), vscode.DiagnosticSeverity.Warning]);
      holds(message, "0.5 %");
    },
    "a fix mends it": async () => {
      const actions = await ask("vscode.executeCodeActionProvider", uri, finding("fall-flat").range);
      const fix = actions.find(({ title }) => title.startsWith("Make the fall"));
      await vscode.workspace.applyEdit(fix.edit);
      await until(() => finding("fall-flat") === undefined);
      await restore();
      await document.save();
    },
    "a hover tells what it is and how it came about": async () =>
      holds(await hover(at("  base", "base")), "The compacted base", "volume in place", "4.57 tons"),
    "completion knows the keys not yet used": async () => {
      const end = document.lineAt(line("  water")).range.end;
      await change(new vscode.Range(end, end), "\n  ");
      const keys = await offered(new vscode.Position(end.line + 1, 2));
      await restore();
      holds(keys.join("\n"), "edging");
      if (keys.includes("shape")) throw new Error("a key that is used already is offered");
    },
    "completion offers no whole files within one": async () => {
      const names = await offered(at("  base", "crushed-stone"));
      same(names.filter((name) => /spec|library|whole/i.test(name)), []);
    },
    "completion knows the materials": async () => {
      const place = at("  base", "crushed-stone");
      holds((await offered(place.translate(0, 3))).join("\n"), "crushed-stone");
    },
    "an entry's clauses are told while it is written": async () => {
      const place = at("  base", "compacted");
      const help = await ask("vscode.executeSignatureHelpProvider", uri, place);
      holds(help.signatures[0].label, "base");
    },
    "layout is put right": async () => {
      await replace("  slab", "          concrete, 4 in", " concrete,4in");
      await ask("editor.action.formatDocument");
      await until(() => document.getText() === original, "the document is laid out as before");
    },
    "a name is changed wherever it stands": async () => {
      const edit = await ask("vscode.executeDocumentRenameProvider", uri, at("mix bed-mix", "bed-mix"), "setting-bed");
      await vscode.workspace.applyEdit(edit);
      same(document.getText(), original.replaceAll("bed-mix", "setting-bed"));
      await restore();
    },
    "the outline lists the sections": async () => {
      const names = (await ask("vscode.executeDocumentSymbolProvider", uri)).map(({ name }) => name);
      holds(names.join("\n"), "Patio at Weir Lane", "patio", "mortar-set", "joint-mix", "crushed-stone");
    },
    "a name leads to where it is defined": async () => {
      const [found] = await ask("vscode.executeDefinitionProvider", uri, at("  bed  ", "bed-mix"));
      same((found.range ?? found.targetRange).start.line, line("mix bed-mix"));
    },
    "a line of figures stands over a surface": async () => {
      const lenses = await ask("vscode.executeCodeLensProvider", uri, 10);
      holds(lenses.map(({ command }) => command?.title).join("\n"), "181.6 sq ft");
    },
    "the server colours": async () => same((await ask("vscode.provideDocumentSemanticTokens", uri)).data.length > 500, true),
    "sections fold": async () => same((await ask("vscode.executeFoldingRangeProvider", uri)).length > 8, true),
    "Enter behind a heading indents": () => typed("mix bed-mix", ["\n", "  "], ["x", "  x"]),
    "Enter behind an entry keeps the indent": () => typed("  units", ["\n", "  "], ["x", "  x"]),
    "Enter behind an open entry goes to where values stand": () =>
      typed("  laid", [",", "  laid          irregular, stones 12 in to 18 in,"], ["\n", " ".repeat(16)]),
    "Enter on an empty entry goes back to the margin": () =>
      typed("  currency", ["\n", "  "], ["\n", ""], ["x", "x"]),
    "Enter behind a let stays at the margin": async () => {
      await change(new vscode.Range(0, 0, 0, 0), "let gap = 2 in\n");
      await typed("let gap", ["\n", ""], ["x", "x"]);
    },
    "an opening quote is closed": () => typed("  currency", [" ", "  currency      USD "], ["\"", "  currency      USD \"\""]),
    "an inch mark is not": () => typed("  units", [" ", "  units         imperial "], ["6", "  units         imperial 6"], ["\"", "  units         imperial 6\""]),
    "a line is made a comment and back": async () => {
      const place = at("  units", "units");
      editor.selection = new vscode.Selection(place, place);
      await ask("editor.action.commentLine");
      same(document.lineAt(place.line).text, "  # units         imperial");
      await ask("editor.action.commentLine");
      same(document.getText(), original);
    },
    "the take-off opens beside the text": async () => {
      await vscode.window.showTextDocument(document);
      await ask("drylay.openTakeoff");
      const shown = await until(takeoff);
      same(shown.document.languageId, "patio-sheet");
      same(shown.viewColumn, vscode.ViewColumn.Two);
      const text = shown.document.getText();
      for (const line of text.split("\n")) if (line.length > 60) throw new Error(`wider than its panel: ${line}`);
      same(text.match(/^[A-Z]{2}[A-Z -]*$/m)[0], "ORDERS");
      // The program's own sheet is wider: the same words, broken elsewhere.
      const words = (sheet) => sheet.split(/\s+/).filter((word) => /\d/.test(word)).sort();
      const own = words(drylay("takeoff", "weir-lane.patio").replace(/^ +taken off from.*$/m, ""));
      same(words(text.replace(/^ +taken off from.*$/m, "")), own);
    },
    "it is laid out as wide as is set": async () => {
      const widest = () => Math.max(...takeoff().document.getText().split("\n").map((line) => line.length));
      await settings().update("takeoff.width", 100, vscode.ConfigurationTarget.Global);
      await until(() => widest() > 80, "a wider take-off");
      await settings().update("takeoff.width", undefined, vscode.ConfigurationTarget.Global);
      await until(() => widest() <= 60, "a narrow take-off");
    },
    "it cannot be written in": async () => {
      const before = takeoff().document.getText();
      await takeoff().edit((edit) => edit.insert(new vscode.Position(0, 0), "x")).then(undefined, () => false);
      same(takeoff().document.getText(), before);
    },
    "it follows an edit that is not saved": async () => {
      await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
      await replace("  price         $36", "$36", "$72");
      await until(() => takeoff().document.getText().includes("$72.00/ton"));
      await restore();
      await until(() => takeoff().document.getText().includes("$36.00/ton"));
    },
    "hints are switched off at once": async () => {
      await settings().update("hints.areas", false, vscode.ConfigurationTarget.Global);
      await until(async () => !(await hints()).join("\n").includes("181.6 sq ft"));
      await settings().update("hints.areas", undefined, vscode.ConfigurationTarget.Global);
      await until(async () => (await hints()).join("\n").includes("181.6 sq ft"));
    },
    "the checking starts anew": async () => {
      await ask("drylay.restart");
      await until(async () => (await hints()).join("\n").includes("181.6 sq ft"));
    },
    "a server that dies is started anew": async () => {
      const before = servers();
      same(before.length, 1);
      process.kill(Number(before[0]), "SIGKILL");
      await until(() => servers().length === 1 && servers()[0] !== before[0], "another server runs");
      await until(async () => (await hints()).join("\n").includes("181.6 sq ft"));
    },
    "a document that lies nowhere yet is checked": async () => {
      const draft = await vscode.workspace.openTextDocument({ language: "patio", content: "job \"Draft\"\n  colour blue\n" });
      await until(() => vscode.languages.getDiagnostics(draft.uri).length > 0);
      await vscode.window.showTextDocument(draft);
      await ask("workbench.action.revertAndCloseActiveEditor");
      await until(() => vscode.languages.getDiagnostics(draft.uri).length === 0, "its findings go with it");
    },
    "all is as it was": async () => {
      await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
      same(document.getText(), original);
      await document.save();
      await ask("workbench.action.closeAllEditors");
    },
  };
  return { asked, restore };
}
