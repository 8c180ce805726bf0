// Packs the extension together with the program, for the system that this runs
// on: whoever installs it needs nothing else.

import { execFileSync } from "node:child_process";
import { copyFileSync, mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const name = process.platform === "win32" ? "drylay.exe" : "drylay";
const target = `${process.platform}-${process.arch}`;
const run = (program, words, cwd) => execFileSync(program, words, { cwd, stdio: "inherit", shell: process.platform === "win32" });

run("cargo", ["build", "--locked", "--profile", "packaged"], root);
mkdirSync("program", { recursive: true });
try {
  const built = process.env["CARGO_TARGET_DIR"] ?? join(root, "target");
  copyFileSync(join(built, "packaged", name), join("program", name));
  run("npm", ["run", "package", "--", "--target", target, "--out", `drylay-${target}.vsix`]);
} finally {
  // What is packed next may be for every system.
  rmSync("program", { recursive: true });
}
