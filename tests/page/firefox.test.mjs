// The page in Debian's Firefox ESR: from scans to a deck, and the work found again.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { launchFirefox } from "./browser.mjs";
import { file, native, program, rehearsed } from "./job.mjs";
import { lendNative } from "./native.mjs";

test("from scans to a deck in Firefox", { timeout: 600_000 }, async (t) => {
  const browser = await launchFirefox();
  if (!browser) return t.skip("firefox-esr is not installed");
  t.after(() => browser.close());
  const page = await browser.newPage();
  page.setDefaultTimeout(240_000);
  const strays = [];
  const complaints = [];
  page.on("request", (request) => {
    if (!/^(file|blob|data):/.test(request.url())) strays.push(request.url());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  if (readFileSync(file, "utf8").includes("versolayNative")) await lendNative(page, program);
  const press = (words) =>
    page.evaluate((text) => {
      const button = [...document.querySelectorAll("section:not([hidden]) button")].find((one) => one.textContent === text);
      if (!button) throw new Error(`no button “${text}”`);
      button.click();
    }, words);
  const shown = (words) => page.waitForFunction((text) => document.querySelector("main").innerText.includes(text), {}, words);
  const go = (id) => page.evaluate((name) => void (location.hash = name), id);

  await page.goto(`file://${file}`);
  await page.waitForSelector("html[data-ready]");
  await go("scans");
  const scans = rehearsed();
  await (await page.$("section:not([hidden]) input[type=file]")).uploadFile(...scans);
  await press("Read the scans");
  await shown("6 sheets read.");
  await go("printer");
  await page.type("section:not([hidden]) input[type=text]", "club inkjet");
  await page.keyboard.press("Tab");
  await press("Learn this printer");
  await shown("Learned, and kept below.");
  await go("todo");
  await press("Tell me what to do");
  await page.waitForSelector(".verdict");
  const verdict = await page.$eval(".verdict", (node) => node.textContent);
  native(["measure", ...scans, "--out", "firefox.json"]);
  native(["profile", "firefox.json", "--printer", "club inkjet", "--out", "firefox-profile.json"]);
  assert.equal(verdict, native(["advise", "firefox-profile.json", "--card", "63x88"]).stdout.split("\n")[0]);
  await shown("Good cards on a sheet");
  await go("deck");
  await press("Take nine example cards");
  await page.waitForFunction(() => document.querySelectorAll(".art img").length === 10);
  await press("Lay out the deck");
  await shown("9 cards on 1 sheet.");

  const known = await page.$eval("#known", (node) => node.textContent);
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  assert.equal(await page.$eval("#known", (node) => node.textContent), known);
  if (process.env.VERSOLAY_PICTURES) await page.screenshot({ path: `${process.env.VERSOLAY_PICTURES}/firefox.png`, fullPage: true });
  assert.deepEqual(strays, []);
  assert.deepEqual(complaints, []);
});
