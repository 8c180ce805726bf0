// The extension in a real VS Code: packed, installed, asked from the inside, and
// looked at in a browser. `drylay` is taken from the PATH.
//
//   node run.mjs [FOLDER FOR PICTURES]

import { cpSync, existsSync, mkdirSync, readFileSync, realpathSync, symlinkSync } from "node:fs";
import { delimiter, join } from "node:path";
import { Editor, until } from "./editor.mjs";
import { packed } from "./packing.mjs";
import { fresh, repository } from "./place.mjs";
import { look } from "./looking.mjs";

// How long all questions may take, in milliseconds.
const PATIENCE = Number(process.env.DRYLAY_PATIENCE ?? 300_000);

const run = fresh("run");
const jobs = join(run, "jobs");
mkdirSync(jobs);
for (const name of ["weir-lane.patio", "mistakes/weir-lane-draft.patio"]) {
  cpSync(join(repository, "specs", name), join(jobs, name.split("/").pop()));
}
const report = join(run, "asked.txt");
const program = drylay();
const editor = new Editor(run, packed(), { DRYLAY_ASKED: report, DRYLAY_PROGRAM: program });
// Where Rust's installer puts programs: a desktop's editor must find it there.
mkdirSync(join(editor.home, ".cargo/bin"), { recursive: true });
symlinkSync(program, join(editor.home, ".cargo/bin/drylay"));
let failed = 0;
try {
  const page = await editor.open(jobs, { width: 1400, height: 900 });
  try {
    await until(() => existsSync(report), "VS Code was asked everything", PATIENCE);
  } catch (fault) {
    await page.screenshot({ path: join(run, "failed.png") });
    if (existsSync(`${report}.part`)) process.stdout.write(readFileSync(`${report}.part`, "utf8"));
    throw fault;
  }
  const asked = readFileSync(report, "utf8");
  process.stdout.write(asked);
  failed += asked.split("\n").filter((line) => line.startsWith("FAILED")).length;
  failed += await look(page, editor, process.argv[2] ?? run);
} finally {
  await editor.close();
}
process.exit(failed === 0 ? 0 : 1);

// The program on the PATH.
function drylay() {
  const folders = process.env.PATH.split(delimiter);
  const found = folders.map((folder) => join(folder, "drylay")).find(existsSync);
  if (found === undefined) throw new Error("drylay is not on the PATH");
  return realpathSync(found);
}
