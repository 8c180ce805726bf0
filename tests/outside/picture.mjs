// Draws pages with the browser of the tests, a picture of each.
//
//     node picture.mjs PLACE WIDTH HEIGHT PAGE PICTURE
//
// PLACE is where `tests/editors/vscode/set-up` has put the browser.

import { createRequire } from "node:module";
import { join } from "node:path";

const [place, width, height, address, picture] = process.argv.slice(2);
const { chromium } = createRequire(join(place, "package.json"))("playwright-core");
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? join(place, "browser", "chromium"),
  args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--font-render-hinting=none"],
  env: {
    ...process.env,
    FONTCONFIG_FILE: join(place, "browser", "fonts.conf"),
    LD_LIBRARY_PATH: join(place, "browser", "lib"),
  },
});
const page = await browser.newPage({ viewport: { width: Number(width), height: Number(height) } });
await page.goto(address);
await page.evaluate(() => document.fonts.ready.then(() => undefined));
await page.screenshot({ path: picture });
await browser.close();
