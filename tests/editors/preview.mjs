// `drylay preview` in a real browser: it shows a job, follows its file, and runs
// nothing of what somebody wrote. `drylay` is taken from the PATH.
//
//   node preview.mjs [FOLDER FOR PICTURES]

import { spawn } from "node:child_process";
import { cpSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { join } from "node:path";
import { browse, until } from "./vscode/editor.mjs";
import { fresh, repository } from "./vscode/place.mjs";

// How long one thing may take, in milliseconds.
const PATIENCE = 60_000;

const run = fresh("preview");
const pictures = process.argv[2] ?? run;
const spec = join(run, "weir-lane-draft.patio");
cpSync(join(repository, "specs/mistakes/weir-lane-draft.patio"), spec);
const first = readFileSync(spec, "utf8");

const program = spawn("drylay", ["preview", "weir-lane-draft.patio"], { cwd: run, stdio: ["ignore", "ignore", "pipe"] });
const address = await new Promise((found, failed) => {
  let said = "";
  program.stderr.on("data", (part) => {
    said += part;
    const at = said.match(/http:\/\/\S+?\//);
    if (at) found(at[0]);
  });
  program.on("exit", () => failed(new Error(said)));
});
const browser = await browse(run);
let failed = 0;
try {
  const context = await browser.newContext({ viewport: { width: 1000, height: 900 } });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  const asked = [];
  const complaints = [];
  page.on("request", (request) => asked.push(request.url()));
  page.on("console", (message) => complaints.push(message.text()));
  page.on("pageerror", (fault) => complaints.push(String(fault)));
  page.on("dialog", (dialog) => {
    complaints.push(`a dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  await page.goto(address);
  const picture = (name) => page.screenshot({ path: join(pictures, `preview-${name}.png`), fullPage: true });
  for (const [what, see] of Object.entries(sights(page, picture, asked, complaints))) {
    try {
      await see();
      console.log(`ok      ${what}`);
    } catch (fault) {
      failed += 1;
      console.log(`FAILED  ${what}: ${fault.message.split("\n")[0]}`);
      await page.screenshot({ path: join(run, `failed-${failed}.png`) });
    }
  }
} finally {
  await browser.close();
  program.kill();
}
process.exit(failed === 0 ? 0 : 1);

function sights(page, picture, asked, complaints) {
  const text = (selector) => page.locator(selector).innerText();
  const see = (selector, words) =>
    until(async () => (await text(selector)).includes(words), `"${words}" is to be read in ${selector}`, PATIENCE);
  const view = () => page.evaluate(() => plan.view);
  const zoomed = async () => {
    await page.locator("#plan").focus();
    await page.keyboard.press("+");
    await page.keyboard.press("ArrowRight");
    return view();
  };
  return {
    "the plan, the findings, the figures and the shopping list are there": async () => {
      await see("#head", "Patio at Weir Lane");
      await see("#findings", "Warning");
      await see("#figures", "Surface patio");
      await see("#shopping", "bluestone");
      await page.locator("#plan > svg").waitFor();
      await see("#sections", "Sections");
      await until(
        () => page.evaluate(() => [...document.fonts].every((face) => face.status === "loaded")),
        "the type is there",
      );
    },
    "it is looked at in the light and in the dark, wide and narrow": async () => {
      for (const colorScheme of ["light", "dark"]) {
        await page.emulateMedia({ colorScheme });
        for (const width of [1000, 640]) {
          await page.setViewportSize({ width, height: 900 });
          await page.locator("#plan").press("0");
          await page.evaluate(() => document.activeElement.blur());
          await picture(`${width}-${colorScheme}`);
          const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
          if (over > 0) throw new Error(`at ${width} it is ${over} too wide`);
        }
      }
      await page.emulateMedia({ colorScheme: "light" });
      await page.setViewportSize({ width: 1000, height: 900 });
    },
    "a finding leads to its place on the plan": async () => {
      await page.locator("article", { hasText: "too flat" }).first().click();
      await until(() => page.locator("#plan g.pointed").count(), "its place is marked");
      await see("#line", "fall");
      await picture("picked");
    },
    "a change of the file is shown, and nothing jumps": async () => {
      await page.locator("#shopping input").first().check();
      const before = await zoomed();
      await page.evaluate(() => scrollTo(0, 300));
      writeFileSync(spec, first.replace(/job ".*"/, 'job "Another Lane"'));
      await see("#head", "Another Lane");
      const after = await view();
      if (JSON.stringify(before) !== JSON.stringify(after)) throw new Error("the plan has moved");
      if ((await page.evaluate(() => scrollY)) !== 300) throw new Error("the page has moved");
      if (!(await page.locator("#shopping input").first().isChecked())) throw new Error("the tick is gone");
    },
    "a file that is put in its place is shown": async () => {
      writeFileSync(`${spec}~`, first.replace(/job ".*"/, 'job "Third Lane"'));
      renameSync(`${spec}~`, spec);
      await see("#head", "Third Lane");
    },
    "a spec that goes is told of, and one that comes is shown": async () => {
      rmSync(spec);
      await see("#state", "weir-lane-draft.patio");
      await see("#head", "Third Lane");
      writeFileSync(spec, first);
      await see("#head", "Patio at Weir Lane");
    },
    "nothing that somebody wrote does anything": async () => {
      const hostile = "<img src=x onerror=alert(1)><script>alert(2)</script>";
      writeFileSync(spec, first.replace(/job ".*"/, `job "${hostile}"`));
      await see("#head", "<img src=x");
      if (await page.locator("#head img, #head script, #plan img").count()) throw new Error("it is no text");
    },
    "another page can neither read nor frame it": async () => {
      const other = createServer((_, answer) => answer.end("<!doctype html><title>other</title>"));
      await new Promise((ready) => other.listen(0, "127.0.0.1", ready));
      const window = await page.context().newPage();
      await window.goto(`http://localhost:${other.address().port}/`);
      const read = await window.evaluate(
        (url) => fetch(url).then((answer) => answer.text(), (fault) => `kept out: ${fault}`),
        `${address}events`,
      );
      if (!read.startsWith("kept out")) throw new Error(read.slice(0, 80));
      await window.evaluate((url) => {
        const frame = document.createElement("iframe");
        frame.src = url;
        document.body.append(frame);
        return new Promise((done) => (frame.onload = done));
      }, address);
      const framed = await Promise.all(window.frames().map((frame) => frame.locator("#head").count()));
      if (framed.some((count) => count > 0)) throw new Error("it is framed");
      await window.close();
      other.close();
    },
    "nothing is asked of anywhere else, and nothing is complained of": async () => {
      const elsewhere = asked.filter((url) => !url.startsWith(address) && !url.startsWith("data:"));
      if (elsewhere.length > 0) throw new Error(`asked: ${elsewhere}`);
      if (complaints.length > 0) throw new Error(complaints.join("; "));
    },
    "when the program ends, that is said": async () => {
      program.kill();
      await see("#state", "drylay has ended");
    },
  };
}
