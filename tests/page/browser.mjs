// Debian's browsers, nothing is downloaded: Chromium driven by playwright-core, Firefox by puppeteer-core
// (playwright wants a Firefox of its own), both from the page's lock file.
import { createRequire } from "node:module";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const packages = createRequire(join(here, "../../src/page/package.json"));
const { chromium } = packages("playwright-core");
export const axeScript = packages.resolve("axe-core/axe.min.js");

export const launch = () =>
  chromium.launch({ executablePath: process.env.VERSOLAY_CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });

/** Null when Firefox ESR is not installed. */
export async function launchFirefox() {
  const executablePath = process.env.VERSOLAY_FIREFOX ?? "/usr/bin/firefox-esr";
  if (!existsSync(executablePath)) return null;
  const { launch } = await import(pathToFileURL(packages.resolve("puppeteer-core")).href);
  return launch({ browser: "firefox", executablePath, headless: true, protocolTimeout: 300_000 });
}
