// Debian's Chromium, driven by playwright-core of the page's lock file; nothing is downloaded.
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const packages = createRequire(join(here, "../../src/page/package.json"));
export const { chromium, firefox } = packages("playwright-core");
export const axeScript = packages.resolve("axe-core/axe.min.js");

export const launch = () =>
  chromium.launch({ executablePath: process.env.VERSOLAY_CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
