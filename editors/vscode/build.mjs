// Bundles the extension into dist/extension.js, and writes LICENSE.txt: the
// licence of this program, and those of the packages that went into the bundle.
//
//   node build.mjs [FOLDER WITH LICENSE-MIT AND LICENSE-APACHE]
import { build } from "esbuild";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";

const root = process.argv[2] ?? "../..";

const { metafile } = await build({
  entryPoints: ["src/extension.ts"],
  outfile: "dist/extension.js",
  bundle: true,
  platform: "node",
  target: "node18",
  format: "cjs",
  external: ["vscode"],
  minify: true,
  metafile: true,
  logLevel: "warning",
});

const bundled = Object.keys(metafile.inputs)
  .map((input) => input.match(/^.*node_modules\/(?:@[^/]+\/)?[^/]+/)?.[0])
  .filter((folder) => folder !== undefined);

function licenceOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, "utf8"));
  const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
  if (file === undefined) throw new Error(`${name} has no licence to pass on`);
  return `${name} ${version} (${license})\n\n${readFileSync(`${folder}/${file}`, "utf8").trim()}`;
}

const own = ["LICENSE-MIT", "LICENSE-APACHE"].map((name) => `${root}/${name}`).filter(existsSync);
if (own.length !== 2) throw new Error(`no licences of ours in ${root}`);
const parts = [
  "drylay is licensed under MIT or Apache 2.0, as you choose.",
  ...own.map((path) => readFileSync(path, "utf8").trim()),
  "The extension contains these packages.",
  ...[...new Set(bundled)].sort().map(licenceOf),
];
writeFileSync("LICENSE.txt", parts.join(`\n\n${"-".repeat(72)}\n\n`) + "\n");
