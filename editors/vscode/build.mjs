// Bundles the extension into dist/extension.js, and writes LICENSE.txt: the
// licence of this program, and those of the packages that went into the bundle.

import { build } from "esbuild";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

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

// The repository's licences, which lie in a folder above this one.
let root = process.cwd();
while (!existsSync(join(root, "LICENSE-MIT"))) {
  if (root === dirname(root)) throw new Error("no folder above has LICENSE-MIT");
  root = dirname(root);
}
// What the plan's page is made of, as the program has it: its script, its style
// and the type that it is set in, whose licence goes with it.
const drawing = join(root, "src/drawing");
const faces = Object.entries({ regular: 400, medium: 500 }).map(([name, weight]) => {
  const packed = readFileSync(join(drawing, `font/${name}.woff2.base64`), "utf8").trim();
  return `@font-face{font-family:'Barlow Semi Condensed';font-weight:${weight};src:url(data:font/woff2;base64,${packed})format('woff2')}\n`;
});
writeFileSync("dist/plan.css", faces.join("") + readFileSync(join(drawing, "page/plan.css"), "utf8"));
writeFileSync("dist/plan.js", readFileSync(join(drawing, "page/plan.js")));
const typeLicence = readFileSync(join(drawing, "font/LICENSE.txt"), "utf8").trim();

const own = ["LICENSE-MIT", "LICENSE-APACHE"].map((name) => join(root, name));
const parts = [
  "drylay is licensed under MIT or Apache 2.0, as you choose.",
  ...own.map((path) => readFileSync(path, "utf8").trim()),
  "The extension contains these packages.",
  ...[...new Set(bundled)].sort().map(licenceOf),
  `The type of the plan, Barlow Semi Condensed:\n\n${typeLicence}`,
];
writeFileSync("LICENSE.txt", parts.join(`\n\n${"-".repeat(72)}\n\n`) + "\n");
