// Builds the extension as a user does, in a copy, and packs it and the one that
// asks VS Code from the inside.

import { execFileSync } from "node:child_process";
import { cpSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { here, place, repository } from "./place.mjs";

const MADE = ["node_modules", "dist", "LICENSE.txt"];

export function packed() {
  const copy = join(place, "extension");
  for (const entry of readdirSync(copy)) {
    if (entry !== "node_modules") rmSync(join(copy, entry), { recursive: true });
  }
  const source = join(repository, "editors/vscode");
  for (const entry of readdirSync(source)) {
    if (!MADE.includes(entry) && !entry.endsWith(".vsix")) {
      cpSync(join(source, entry), join(copy, entry), { recursive: true });
    }
  }
  const vsce = join(copy, "node_modules/@vscode/vsce/vsce");
  const node = (folder, ...words) =>
    execFileSync(process.execPath, words, { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
  node(copy, "node_modules/typescript/bin/tsc", "--noEmit");
  node(copy, "build.mjs", repository);
  const pack = ["package", "--no-dependencies", "--allow-missing-repository", "--skip-license"];
  node(copy, vsce, ...pack, "--out", "drylay.vsix");
  const asking = join(place, "asking.vsix");
  node(join(here, "host"), vsce, ...pack, "--out", asking);
  return [join(copy, "drylay.vsix"), asking];
}
