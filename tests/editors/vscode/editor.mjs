// VS Code, served to a browser, and the browser.

import { spawn, execFileSync } from "node:child_process";
import { mkdirSync, openSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { place, required } from "./place.mjs";

const { chromium } = required("playwright-core");
const PATIENCE = 90_000;

// What an editor shows is as usual; only what asks, greets or calls outside is
// turned off.
const SETTINGS = {
  "security.workspace.trust.enabled": false,
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "telemetry.telemetryLevel": "off",
  "chat.disableAIFeatures": true,
  "extensions.autoCheckUpdates": false,
  "extensions.ignoreRecommendations": true,
  "git.enabled": false,
  "drylay.hover.pictures": true,
  "files.simpleDialog.enable": true,
  // What is reverted must not have been saved meanwhile.
  "files.autoSave": "off",
};

export class Editor {
  // A VS Code with a clean profile and these extensions, and its settings.
  constructor(run, extensions, environment) {
    this.run = run;
    this.log = join(run, "editor.log");
    this.path = join(run, "path.txt");
    mkdirSync(join(run, "data/User"), { recursive: true });
    this.home = join(run, "home");
    mkdirSync(this.home, { recursive: true });
    writeFileSync(join(run, "data/User/settings.json"), JSON.stringify(SETTINGS, null, 2));
    this.environment = { ...process.env, ...environment, DRYLAY_PATH_SET: this.path, HOME: this.home };
    for (const name of Object.keys(this.environment)) {
      if (/^(XDG_|VSCODE_|CODE_SERVER|CARGO_HOME)/.test(name)) delete this.environment[name];
    }
    this.words = [
      join(place, "node_modules/code-server/out/node/entry.js"),
      ...["--user-data-dir", join(run, "data"), "--extensions-dir", join(run, "extensions")],
      ...["--config", join(run, "config.yaml")],
    ];
    writeFileSync(join(run, "config.yaml"), "auth: none\n");
    for (const extension of extensions) {
      execFileSync(process.execPath, [...this.words, "--install-extension", extension], {
        env: this.environment,
        stdio: ["ignore", "ignore", openSync(this.log, "a")],
      });
    }
  }

  // Sets drylay.path while the editor runs; nothing sets it back.
  setPath(path) {
    writeFileSync(this.path, path);
  }

  // Starts the editor on a folder and opens it in a browser.
  async open(folder, size) {
    const port = await freePort();
    const log = openSync(this.log, "a");
    const words = ["--auth", "none", "--bind-addr", `127.0.0.1:${port}`];
    words.push("--disable-telemetry", "--disable-update-check", "--disable-workspace-trust");
    this.server = spawn(process.execPath, [...this.words, ...words, folder], {
      env: this.environment,
      stdio: ["ignore", log, log],
    });
    const address = `http://127.0.0.1:${port}`;
    await until(() => fetch(`${address}/healthz`).then((answer) => answer.ok, () => false), "the editor answers");
    this.browser = await browse(this.home);
    const page = await this.browser.newPage({ viewport: size });
    page.setDefaultTimeout(PATIENCE);
    await page.goto(`${address}/?folder=${encodeURIComponent(folder)}`, { waitUntil: "domcontentloaded" });
    await page.locator(".monaco-workbench").waitFor();
    return page;
  }

  async close() {
    await this.browser?.close();
    this.server?.kill();
  }
}

// A browser with a home of its own.
export function browse(home) {
  const browser = join(place, "browser");
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? join(browser, "chromium"),
    args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--font-render-hinting=none"],
    env: {
      ...process.env,
      HOME: home,
      FONTCONFIG_FILE: join(browser, "fonts.conf"),
      LD_LIBRARY_PATH: join(browser, "lib"),
    },
  });
}

// Waits until something is so, and gives what it gave.
export async function until(find, what, patience = PATIENCE) {
  const end = Date.now() + patience;
  for (;;) {
    const found = await find();
    if (found) return found;
    if (Date.now() > end) throw new Error(`it did not come to be that ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

function freePort() {
  return new Promise((resolve) => {
    const server = createServer().listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}
