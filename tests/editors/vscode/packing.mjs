// Builds and packs the extension by the command that a user gives, in a copy,
// and the extension that asks VS Code from the inside.

import { execFileSync } from "node:child_process";
import { cpSync, readdirSync, symlinkSync } from "node:fs";
import { delimiter, join } from "node:path";
import { fresh, here, place, repository } from "./place.mjs";

const MADE = ["node_modules", "dist", "LICENSE.txt"];

export function packed() {
  const copy = fresh("extension");
  symlinkSync(join(place, "extension/node_modules"), join(copy, "node_modules"));
  const source = join(repository, "editors/vscode");
  for (const entry of readdirSync(source)) {
    if (!MADE.includes(entry) && !entry.endsWith(".vsix")) {
      cpSync(join(source, entry), join(copy, entry), { recursive: true });
    }
  }
  const path = [join(place, "bin"), process.env.PATH].join(delimiter);
  const done = (folder, program, ...words) =>
    execFileSync(program, words, {
      cwd: folder,
      env: { ...process.env, PATH: path, HOME: copy, npm_config_update_notifier: "false" },
      stdio: ["ignore", "ignore", "inherit"],
    });
  done(copy, join(place, "bin/npm"), "run", "--silent", "package");
  const asking = join(copy, "asking.vsix");
  const pack = ["package", "--no-dependencies", "--allow-missing-repository", "--skip-license"];
  done(join(here, "host"), join(copy, "node_modules/.bin/vsce"), ...pack, "--out", asking);
  return [join(copy, "drylay.vsix"), asking];
}
