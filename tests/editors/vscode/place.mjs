// Where things lie: the repository, what set-up made, and what this run makes.

import { mkdirSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const here = dirname(fileURLToPath(import.meta.url));
export const repository = join(here, "../../..");
export const place = join(repository, "target/test-env/vscode");
// The packages that set-up installed lie there, not beside these scripts.
export const required = createRequire(join(place, "package.json"));

// An empty folder of this build's own, for a run.
export function fresh(name) {
  const folder = join(repository, "target/vscode", name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  return folder;
}
