// VS Code looked at in a browser: what is drawn, and the pictures of it.

import { chmodSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { until } from "./editor.mjs";

// The pictures that the page on editors shows.
const SHOWN = ["finding", "takeoff"];

// Where the pointer is over nothing that would light up.
const CLEAR = [600, 48];

// Looks at everything, keeps the pictures in a folder, and gives how much was
// not as it should be.
export async function look(page, editor, pictures) {
  let failed = 0;
  const hands = new Hands(page);
  for (const [what, see] of Object.entries(sights(page, hands, editor, pictures))) {
    try {
      await see();
      console.log(`ok      ${what}`);
    } catch (fault) {
      failed += 1;
      console.log(`FAILED  ${what}: ${fault.message.split("\n")[0]}`);
      await page.screenshot({ path: join(editor.run, `failed-${failed}.png`) });
      await page.keyboard.press("Escape");
    }
  }
  return failed;
}

function sights(page, hands, editor, pictures) {
  const picture = (name) => {
    const folder = SHOWN.includes(name) ? pictures : editor.run;
    return page.screenshot({ path: join(folder, `vscode-${name}.png`), animations: "disabled" });
  };
  return {
    "what is found is underlined": async () => {
      await page.keyboard.press("Control+KeyB");
      await page.mouse.move(...CLEAR);
      await hands.open("weir-lane-draft.patio");
      await hands.see(".view-lines", "sq ft");
      await until(() => page.locator(".squiggly-warning").count(), "a warning is underlined");
      await until(() => page.locator(".squiggly-error").count(), "an error is underlined");
    },
    "a finding tells its figure and its limit": async () => {
      await hands.goTo(/^ +fall/, 17);
      await hands.chord("Control+KeyK", "Control+KeyI");
      await hands.see(".monaco-hover", "fall-flat");
      await picture("finding");
      await page.keyboard.press("Escape");
    },
    "the status bar counts": () => hands.see(".statusbar", "Patio: 8 findings"),
    "its fixes are offered": async () => {
      await page.keyboard.press("Control+Period");
      await hands.see(".action-widget", "Make the fall");
      await picture("fixes");
      await page.keyboard.press("Escape");
    },
    "an acceptance leaves the cursor in its reason": async () => {
      await page.keyboard.press("Control+Period");
      const accept = page.locator(".action-widget .action", { hasText: "Accept fall-flat" });
      await accept.first().click();
      await hands.see(".view-lines", "fall-flat, because");
      await until(async () => (await hands.line()).includes("accept"), "the cursor is in the acceptance");
      await page.keyboard.type("a step");
      await hands.see(".view-lines", 'because "a step"');
      await picture("accepted");
      await hands.command("File: Revert File");
    },
    "a hint tells how its figure came about": async () => {
      const hint = page.locator(".view-line span", { hasText: "4.57 tons" }).last();
      // A hover goes when the line under it is drawn anew, as now it may be.
      await until(async () => {
        await page.mouse.move(...CLEAR);
        await hint.hover();
        return hands.see(".monaco-hover", "mass = volume", 3_000).catch(() => false);
      }, "the hint has a hover");
      await picture("hint");
      await page.mouse.move(...CLEAR);
    },
    "a click on the figures over a surface opens the take-off": async () => {
      await until(async () => {
        await page.locator(".codelens-decoration a", { hasText: "181.6 sq ft" }).first().click();
        return hands.see(".tabs-container", "Take-off of weir-lane-draft", 3_000).catch(() => false);
      }, "the take-off is open");
      const tab = page.locator(".tab", { hasText: "Take-off of weir-lane-draft" });
      await tab.click({ button: "middle" });
      await tab.waitFor({ state: "detached" });
    },
    "a button opens the take-off beside the text": async () => {
      await page.setViewportSize({ width: 1500, height: 800 });
      await hands.open("weir-lane.patio");
      await hands.see(".view-lines", "181.6 sq ft");
      await page.locator(".editor-actions .action-label[aria-label^='Take-off']").first().click();
      await hands.see(".editor-group-container:nth-of-type(1) ~ *, .split-view-view", "SURFACE patio");
      await page.mouse.move(...CLEAR);
      await page.locator(".monaco-editor .scrollbar.visible").first().waitFor({ state: "hidden" });
      await picture("takeoff");
    },
    "completion says what belongs here": async () => {
      await hands.goTo(/^ +base/, 80);
      await page.keyboard.type(", ");
      await page.keyboard.press("Control+Space");
      await hands.see(".suggest-widget", "lifts");
      await picture("completion");
      await page.keyboard.press("Escape");
      await page.keyboard.press("Control+KeyZ");
      await page.keyboard.press("Control+KeyZ");
    },
    "a click in the status bar offers what can be done": async () => {
      await page.locator("#drylay\\.drylay\\.drylay, .statusbar-item[id*='drylay']").first().click();
      await hands.see(".quick-input-widget", "Take-off beside the text");
      await picture("menu");
      await page.keyboard.press("Escape");
      await page.mouse.move(...CLEAR);
    },
    "a new spec is whole, and its values can be gone through": async () => {
      await hands.command("Patio: New Spec");
      await hands.see(".quick-input-list", "Whole spec, metric");
      await page.keyboard.press("Enter");
      await hands.see(".view-lines", "160 sq ft");
      await page.keyboard.type("Yard");
      await page.keyboard.press("Tab");
      await page.keyboard.press("Tab");
      await page.keyboard.type("yard");
      await hands.see(".view-lines", 'job "Yard"');
      await hands.see(".view-lines", "surface yard");
      await picture("new");
      await hands.command("View: Revert and Close Editor");
    },
    "where the program is not there, that is said, and how to install it": async () => {
      editor.setPath("~/nowhere/drylay");
      await hands.see(".notifications-toasts", "the program ~/nowhere/drylay is not there");
      await hands.see(".statusbar", "not checked");
      await picture("missing");
      await page.locator(".notifications-toasts .monaco-button", { hasText: "How to install" }).click();
      await hands.see(".tabs-container", "README");
      await until(async () => {
        const frames = await Promise.all(page.frames().map((frame) => frame.innerText("body").catch(() => "")));
        return frames.some((text) => text.includes("cargo install"));
      }, "the page tells how to install");
      await picture("help");
    },
    "an old program is told": async () => {
      editor.setPath(program(editor, "old", "drylay 0.0.9"));
      await hands.see(".notifications-toasts", "is drylay 0.0.9, and 0.1.0 or newer is needed");
    },
    "another program is told": async () => {
      editor.setPath(program(editor, "other", "something else"));
      await hands.see(".notifications-toasts", "does not answer as drylay does");
    },
    "with the program back, specs are checked again": async () => {
      editor.setPath("");
      await hands.open("weir-lane-draft.patio");
      await hands.see(".statusbar", "findings");
    },
  };
}

// A program that only says which it is.
function program(editor, name, says) {
  const path = join(editor.home, name);
  writeFileSync(path, `#!/bin/sh\necho ${says}\n`);
  chmodSync(path, 0o755);
  return path;
}

// What a user's hands and eyes do.
class Hands {
  constructor(page) {
    this.page = page;
  }

  // Waits until a text is to be read in one of the places that a selector finds.
  // VS Code draws blanks that do not break.
  async see(selector, text, patience = 30_000) {
    const read = async () => (await this.page.locator(selector).allInnerTexts()).join("\n").replaceAll("\u00a0", " ");
    await until(async () => (await read()).includes(text), `"${text}" is to be read in ${selector}`, patience);
    return true;
  }

  async chord(...keys) {
    for (const key of keys) await this.page.keyboard.press(key);
  }

  async open(name) {
    const { page } = this;
    await page.keyboard.press("Control+KeyP");
    await this.fill(".quick-input-widget input", name);
    await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: name }).first().waitFor();
    await page.keyboard.press("Enter");
    await page.locator(".tab.active", { hasText: name }).first().waitFor();
  }

  // Puts the cursor into the first line on the screen that reads so.
  async goTo(line, column) {
    const { page } = this;
    const texts = await page.locator(".editor-group-container.active .view-line").evaluateAll((lines) =>
      lines
        .map((one) => [parseFloat(one.style.top), one.innerText.replaceAll("\u00a0", " ")])
        .sort(([one], [other]) => one - other)
        .map(([, text]) => text),
    );
    const number = texts.findIndex((text) => line.test(text)) + 1;
    if (number === 0) throw new Error(`no line reads ${line}`);
    await page.keyboard.press("Control+KeyG");
    await this.fill(".quick-input-widget input", `:${number}:${column}`);
    await page.keyboard.press("Enter");
    await page.locator(".quick-input-widget").waitFor({ state: "hidden" });
  }

  // The text of the line that the cursor is in; nothing while it is being drawn.
  line() {
    return this.page.evaluate(() => {
      const editor = document.querySelector(".editor-group-container.active");
      const cursor = editor?.querySelector(".cursors-layer .cursor");
      if (!cursor) return "";
      const top = (element) => element.getBoundingClientRect().top;
      const lines = [...editor.querySelectorAll(".view-line")];
      return lines.find((line) => Math.abs(top(line) - top(cursor)) < 3)?.innerText ?? "";
    });
  }

  // Runs a command from the palette.
  async command(title) {
    const { page } = this;
    await page.keyboard.press("F1");
    await this.fill(".quick-input-widget input", `>${title}`);
    await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: title }).first().waitFor();
    await page.keyboard.press("Enter");
  }

  async fill(selector, text) {
    const field = this.page.locator(selector).first();
    await field.waitFor();
    await until(() => field.evaluate((element) => element === document.activeElement), "the field is ready");
    await field.fill(text);
  }
}
