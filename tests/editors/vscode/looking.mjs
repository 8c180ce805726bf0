// VS Code looked at in a browser: what is drawn, and the pictures of it.

import { chmodSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { until } from "./editor.mjs";

// The pictures that the page on editors shows.
const SHOWN = ["finding", "takeoff", "plan"];

// Where the pointer is over nothing that would light up.
const CLEAR = [600, 48];
// The same where tabs stand there, whose paths a pointer brings up.
const EMPTY = [200, 500];

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
      await page.mouse.move(...CLEAR);
      await hands.open("weir-lane-draft.patio");
      await hands.see(".view-lines", "sq ft");
      await until(() => page.locator(".squiggly-warning").count(), "a warning is underlined");
      await until(() => page.locator(".squiggly-error").count(), "an error is underlined");
    },
    "a finding tells its figure and its limit": async () => {
      await hands.goTo(/^ +fall/, 17);
      await hands.bring(".monaco-hover", "fall-flat", "Control+KeyK", "Control+KeyI");
      const said = (await hands.read(".monaco-hover:visible")).split("too flat: 1.04 %").length - 1;
      if (said !== 1) throw new Error(`what is found is told ${said} times`);
      await picture("finding");
      await hands.dismiss(".monaco-hover");
    },
    "the status bar counts": () => hands.see(".statusbar", "Patio: 3 findings"),
    "its fixes are offered": async () => {
      await hands.bring(".action-widget", "Make the fall", "Control+Period");
      await picture("fixes");
      await hands.dismiss(".action-widget");
    },
    "an acceptance leaves the cursor in its reason": async () => {
      await hands.bring(".action-widget", "Accept fall-flat", "Control+Period");
      await page.locator(".action-widget .action:visible", { hasText: "Accept fall-flat" }).first().click();
      await hands.see(".view-lines", "fall-flat, because");
      await until(async () => (await hands.line()).includes("accept"), "the cursor is in the acceptance");
      await page.keyboard.type("a step");
      await hands.see(".view-lines", 'because "a step"');
      await picture("accepted");
      await hands.command("File: Revert File");
      await until(async () => !(await hands.read(".view-lines")).includes("because"), "the acceptance is gone");
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
      await hands.open("weir-lane.patio");
      await hands.see(".view-lines", "181.6 sq ft");
      await page.locator(".editor-actions .action-label[aria-label^='Take-off']").first().click();
      await hands.see(".editor-group-container:nth-of-type(1) ~ *, .split-view-view", "ORDERS");
      await page.mouse.move(...EMPTY);
      await page.locator(".monaco-editor .scrollbar.visible").first().waitFor({ state: "hidden" });
      await picture("takeoff");
    },
    "the plan stands beside the text, its sections under it": async () => {
      await hands.command("View: Close Other Editors in Group").catch(() => {});
      await hands.command("Patio: Plan Beside the Text");
      const frame = await until(async () => {
        for (const own of page.frames()) {
          const drawn = await own.locator("#plan > svg > svg").count().catch(() => 0);
          if (drawn > 1) return own;
        }
        return undefined;
      }, "the plan and its sections are drawn");
      const words = await frame.locator("#plan").evaluate((plan) => plan.textContent);
      if (!words.includes("mortar-set")) throw new Error(`no section is there: ${words.slice(0, 80)}`);
      await page.mouse.move(...CLEAR);
      await picture("plan");
      await hands.command("View: Close Editors in Other Groups").catch(() => {});
    },
    "a hover over a build has the picture of its layers": async () => {
      await hands.goTo(/^build/, 9);
      await hands.bring(".monaco-hover", "mortar-set", "Control+KeyK", "Control+KeyI");
      const image = page.locator(".monaco-hover:visible img").first();
      await until(() => image.evaluate((own) => own.complete && own.naturalWidth > 0), "the picture is shown");
      await picture("layers");
      await hands.dismiss(".monaco-hover");
      await hands.ask("Control+KeyG", ":1");
      await page.keyboard.press("Enter");
      await page.locator(".quick-input-widget").waitFor({ state: "hidden" });
    },
    "completion says what belongs here": async () => {
      await hands.goTo(/^ +base/, 80);
      await page.keyboard.type(", ");
      await hands.bring(".suggest-widget", "lifts", "Control+Space");
      await picture("completion");
      await hands.dismiss(".suggest-widget");
      await page.keyboard.press("Control+KeyZ");
      await page.keyboard.press("Control+KeyZ");
    },
    "a click in the status bar offers what can be done": async () => {
      await page.locator("#drylay\\.drylay\\.drylay, .statusbar-item[id*='drylay']").first().click();
      await hands.see(".quick-input-widget", "Take-off beside the text");
      await picture("menu");
      await hands.dismiss(".quick-input-widget");
      await page.mouse.move(...CLEAR);
    },
    "a new spec is whole, and its values can be gone through": async () => {
      await hands.command("Patio: New Spec");
      await hands.see(".quick-input-list", "A patio in metres");
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

  // What is to be read in the places that a selector finds. VS Code draws blanks
  // that do not break.
  async read(selector) {
    return (await this.page.locator(selector).allInnerTexts()).join("\n").replaceAll("\u00a0", " ");
  }

  // Waits until a text is to be read in one of the places that a selector finds.
  async see(selector, text, patience = 30_000) {
    const seen = async () => (await this.read(selector)).includes(text);
    await until(seen, `"${text}" is to be read in ${selector}`, patience);
    return true;
  }

  // Presses keys until what they open is there and holds a text; of what VS Code
  // has closed, something stays in the page unseen. What is open is left alone
  // for a while: the keys that open a menu of fixes take the first of them when
  // it is there.
  async bring(selector, text, ...keys) {
    const shown = `${selector}:visible`;
    await until(async () => {
      if (!(await this.page.locator(shown).count())) {
        for (const key of keys) await this.page.keyboard.press(key);
      }
      if (await this.see(shown, text, 5_000).catch(() => false)) return true;
      await this.dismiss(selector);
      return false;
    }, `${keys.join(" ")} brings "${text}"`);
  }

  // Closes what is open and waits until it is gone.
  async dismiss(selector) {
    await until(async () => {
      if (!(await this.page.locator(`${selector}:visible`).count())) return true;
      await this.page.keyboard.press("Escape");
      return false;
    }, `${selector} is gone`);
  }

  async open(name) {
    const { page } = this;
    await this.ask("Control+KeyP", name);
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
    await this.ask("Control+KeyG", `:${number}:${column}`);
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
    await this.ask("F1", `>${title}`);
    await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: title }).first().waitFor();
    await page.keyboard.press("Enter");
  }

  // Has VS Code ask with its field at the top, and writes the answer there.
  async ask(key, answer) {
    const field = this.page.locator(".quick-input-widget input:visible").first();
    await this.dismiss(".quick-input-widget");
    await until(async () => {
      if (await field.count()) return true;
      await this.page.keyboard.press(key);
      return field.waitFor({ timeout: 5_000 }).then(() => true, () => false);
    }, `${key} asks`);
    await until(() => field.evaluate((element) => element === document.activeElement), "the field is ready");
    await field.fill(answer);
  }
}
