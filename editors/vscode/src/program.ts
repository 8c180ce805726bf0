// The drylay program: where it lies, and whether it is one that we can work with.

import { execFile } from "node:child_process";
import { accessSync, constants, statSync } from "node:fs";
import { homedir } from "node:os";
import { delimiter, join } from "node:path";

// The oldest program that this extension works with.
export const OLDEST = "0.1.0";

// How long a program may take to say which it is, in milliseconds.
const PATIENCE = 10_000;

export interface Program {
  readonly path: string;
  readonly version: string;
}

// Why there is no program, and which was looked for or found.
export type Trouble =
  | { readonly kind: "missing"; readonly path: string }
  | { readonly kind: "stranger"; readonly path: string }
  | { readonly kind: "old"; readonly path: string; readonly version: string };

// The program that the setting means: a path, or a name that is looked for in
// the extension's own folder, where a package for one system brings the program
// with it, on the PATH, and among what Rust's own installer puts down, which an
// editor started from a desktop often does not have on its PATH.
export async function findProgram(setting: string, extension: string): Promise<Program | Trouble> {
  const path = locate(setting, extension);
  if (path === undefined) return { kind: "missing", path: setting };
  const said = await sayVersion(path);
  const version = said.match(/^drylay (\d+\.\d+\.\d+)/)?.[1];
  if (version === undefined) return { kind: "stranger", path };
  return isOlder(version, OLDEST) ? { kind: "old", path, version } : { path, version };
}

export function isTrouble(found: Program | Trouble): found is Trouble {
  return "kind" in found;
}

function locate(setting: string, extension: string): string | undefined {
  const wanted = setting.trim() === "" ? "drylay" : setting.trim();
  const full = wanted.replace(/^~(?=[/\\])/, homedir());
  if (/[/\\]/.test(full)) return isProgram(full) ? full : undefined;
  const onPath = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  const ofRust = join(process.env["CARGO_HOME"] ?? join(homedir(), ".cargo"), "bin");
  const folders = [join(extension, "program"), ...onPath, ofRust];
  const endings = process.platform === "win32" ? [".exe", ""] : [""];
  const places = folders.flatMap((folder) => endings.map((ending) => join(folder, full + ending)));
  return places.find(isProgram);
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

// What the program says of itself; nothing where it cannot be run.
function sayVersion(path: string): Promise<string> {
  return new Promise((resolve) => {
    execFile(path, ["--version"], { timeout: PATIENCE }, (_, said) => resolve(said ?? ""));
  });
}

function isOlder(version: string, than: string): boolean {
  const [own, other] = [version, than].map((text) => text.split(".").map(Number)) as [number[], number[]];
  const differs = own.findIndex((part, at) => part !== other[at]);
  return differs >= 0 && (own[differs] ?? 0) < (other[differs] ?? 0);
}
