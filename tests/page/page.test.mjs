// The page in Debian's Chromium, from an empty browser to a deck, and what may go wrong on the way.
// node --test tests/page; VERSOLAY_PAGE and VERSOLAY_PROGRAM name other files than those of .build.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { axeScript, launch } from "./browser.mjs";
import { file, go, native, opened, quiet, rehearsed, sameDocument, saved, station, textFile, work } from "./job.mjs";

let browser;
before(async () => {
  browser = await launch();
});
after(async () => {
  await browser.close();
});

const context = (options = {}) => browser.newContext({ viewport: { width: 1280, height: 860 }, ...options });
const LONG = { timeout: 480_000 };

async function takeExample(page) {
  await page.getByRole("button", { name: "Try it with an example" }).first().click();
  await page.waitForFunction(() => document.getElementById("known").textContent.startsWith("club inkjet"), null, LONG);
}

test("one file of at most 12 MB that names no other place", () => {
  assert.ok(readFileSync(file).length <= 12e6);
  const addresses = readFileSync(file, "utf8").match(/https?:\/\/[\w.-]+/g) ?? [];
  assert.deepEqual([...new Set(addresses)].filter((one) => !/^http:\/\/www\.w3\.org$/.test(one)), [], "addresses of other places");
});

describe("the job", () => {
  test("from an empty browser over scans to a deck, as the program does it", { timeout: 600_000 }, async () => {
    const scans = rehearsed();
    const page = await opened(await context());

    await go(page, "Test sheets");
    await page.getByLabel("Sheets", { exact: true }).fill("6");
    await page.getByLabel("On the short edge").check();
    await page.getByLabel("On the long edge").check();
    await page.getByRole("button", { name: "Make the test sheets" }).click();
    const target = await saved(page, page.getByRole("link", { name: /Save target.pdf \(12 pages\)/ }));
    assert.equal(target.bytes.subarray(0, 5).toString(), "%PDF-");
    assert.equal((await saved(page, page.getByRole("link", { name: /print card/ }))).bytes.subarray(0, 5).toString(), "%PDF-");

    await go(page, "Scans");
    await station(page).locator("input[type=file]").first().setInputFiles(scans);
    await page.getByRole("button", { name: "Read the scans" }).click();
    await page.getByText("6 sheets read.").waitFor(LONG);
    assert.equal(await station(page).locator(".scans li").count(), 12);
    assert.equal(await station(page).locator(".scans img").count(), 12);
    const readings = await saved(page, page.getByRole("link", { name: "Save", exact: true }));
    native(["measure", ...scans, "--out", "readings.json"]);
    sameDocument(JSON.parse(readings.bytes), JSON.parse(readFileSync(join(work, "readings.json"))));

    // From here on both work on the same readings.
    writeFileSync(join(work, "readings.json"), readings.bytes);
    await go(page, "Printer");
    await page.getByLabel("Name of the printer").fill("club inkjet");
    await page.getByLabel("Tray and guides").fill("rear tray");
    await page.getByLabel("sheet 4", { exact: true }).uncheck();
    await page.getByLabel("Why sheet 4 does not count").fill("<b>torn</b>");
    await page.getByLabel("Why sheet 4 does not count").blur();
    await page.getByRole("button", { name: "Learn this printer" }).click();
    await page.getByText("Learned, and kept below.").waitFor(LONG);
    await page.getByText("<b>torn</b>").first().waitFor(); // words, not markup
    const profile = await saved(page, page.getByRole("link", { name: "Save club-inkjet.json" }));
    native(["profile", "readings.json", "--printer", "club inkjet", "--feed", "rear tray", "--exclude", "4", "--why", "<b>torn</b>", "--out", "club-inkjet.json"]);
    sameDocument(JSON.parse(profile.bytes), JSON.parse(readFileSync(join(work, "club-inkjet.json"))));

    writeFileSync(join(work, "club-inkjet.json"), profile.bytes);
    await go(page, "What to do");
    await page.getByLabel("Cards wanted").fill("54");
    await page.getByRole("button", { name: "Tell me what to do" }).click();
    await page.locator(".verdict").waitFor(LONG);
    const said = native(["advise", "club-inkjet.json", "--card", "63x88", "--cards", "54"]).stdout;
    assert.equal(await page.locator(".verdict").textContent(), said.split("\n")[0]);
    const advice = JSON.parse(native(["advise", "club-inkjet.json", "--card", "63x88", "--cards", "54", "--json"]).stdout);
    await page.getByText(`${advice.editor.canvas_px[0]} x ${advice.editor.canvas_px[1]} px`, { exact: true }).waitFor();
    await page.getByText("Good cards on a sheet").first().waitFor(LONG);
    const report = await saved(page, page.getByRole("link", { name: "Save the report as a web page" }));
    assert.match(report.bytes.toString(), /<!DOCTYPE html>/);

    await go(page, "Deck");
    await page.getByRole("button", { name: "Take nine example cards" }).click();
    await page.locator(".art img").nth(9).waitFor();
    await page.getByRole("button", { name: "Lay out the deck" }).click();
    await page.getByText("9 cards on 1 sheet.").waitFor(LONG);
    assert.equal(await page.locator(".sheets svg image").count(), 9 + 2 * 9); // fronts; backs with their reach
    const deck = await saved(page, page.getByRole("link", { name: "Save deck.pdf" }));
    writeFileSync(join(work, "deck.pdf"), deck.bytes);
    // The program reads what the page wrote: it knows that these backs are moved.
    const again = JSON.parse(native(["correct", "deck.pdf", "--profile", "club-inkjet.json", "--out", "again.pdf", "--json"]).stdout);
    assert.equal(again.refused.code, "already_corrected");

    await go(page, "Next time");
    await station(page).getByText("Or open readings that are there already").click();
    await station(page).locator("details input[type=file]").setInputFiles(join(work, "rehearsal/proof-readings.json"));
    await page.getByLabel("Printed with this correction").check();
    await page.getByRole("button", { name: "Does the profile still hold?" }).click();
    await page.getByText("The answer").waitFor(LONG);
    const verdict = native(["check", "club-inkjet.json", "rehearsal/proof-readings.json", "--corrected"]).stdout.split("\n")[0];
    await station(page).getByText(verdict, { exact: true }).waitFor();
    quiet(page);
    await page.context().close();
  });

  test("finished pages are corrected, and a layer of guides is drawn", { timeout: 480_000 }, async () => {
    native(["target", "--paper", "a4", "--sheets", "2", "--out", "pages.pdf"]);
    const page = await opened(await context());
    await takeExample(page);
    await go(page, "Deck");
    await page.getByText("Finished pages").click();
    await station(page).locator("input[type=file]").setInputFiles(join(work, "pages.pdf"));
    await page.getByRole("button", { name: "Correct the backs" }).click();
    const corrected = await saved(page, page.getByRole("link", { name: "Save pages-corrected.pdf" }));
    assert.equal(corrected.bytes.subarray(0, 5).toString(), "%PDF-");
    await page.getByText("An image editor", { exact: true }).click();
    await page.getByRole("button", { name: "Make the layer" }).click();
    assert.match((await saved(page, page.getByRole("link", { name: "Save layer.svg" }))).bytes.toString(), /<svg/);
    quiet(page);
    await page.context().close();
  });
});

describe("nothing is lost", () => {
  test("a page that is closed in the middle finds its work again", async () => {
    const one = await context();
    const page = await opened(one);
    await takeExample(page);
    await go(page, "What to do");
    await page.getByLabel("Border of the back").fill("4");
    await page.getByLabel("Border of the back").blur();
    const known = await page.locator("#known").textContent();
    await page.waitForTimeout(300);
    await page.close();
    const later = await opened(one);
    assert.equal(await later.locator("#known").textContent(), known);
    await go(later, "What to do");
    assert.equal(await later.getByLabel("Border of the back").inputValue(), "4");
    await one.close();
  });

  test("two tabs keep both of two profiles that were changed at once", async () => {
    const both = await context();
    const one = await opened(both);
    await takeExample(one);
    const other = await opened(both);
    assert.match(await other.locator("#known").textContent(), /^club inkjet/);
    // The other tab does not hear of changes: as if both were made in the same moment.
    await go(one, "Printer");
    await other.evaluate(() => (BroadcastChannel.prototype.postMessage = () => {}));
    await one.evaluate(() => (BroadcastChannel.prototype.postMessage = () => {}));
    for (const [tab, tick] of [[one, "sheet 1"], [other, "sheet 2"]]) {
      await go(tab, "Printer");
      await tab.getByText("Sheets of example.json").first().waitFor();
      await tab.getByLabel(tick, { exact: true }).uncheck();
      await tab.getByRole("button", { name: "Learn this printer" }).click();
      await tab.getByText("Learned, and kept below.").waitFor(LONG);
    }
    await other.getByText("Both are kept, side by side.").waitFor();
    const third = await opened(both);
    await go(third, "Printer");
    const names = await third.getByRole("link", { name: /^Save club-inkjet-example.*\.json$/ }).allTextContents();
    assert.equal(names.length, 2);
    await both.close();
  });

  test("a tab hears of what another one has learned", async () => {
    const both = await context();
    const one = await opened(both);
    const other = await opened(both);
    await takeExample(one);
    await other.waitForFunction(() => document.getElementById("known").textContent.startsWith("club inkjet"));
    await both.close();
  });

  test("a browser that keeps nothing is said, and all else works", async () => {
    const page = await opened(await context(), {
      before: () => Object.defineProperty(window, "indexedDB", { get: () => { throw new DOMException("no", "SecurityError"); } }),
    });
    await page.getByText("save your files before you close it").waitFor();
    await takeExample(page);
    await go(page, "What to do");
    await page.getByRole("button", { name: "Tell me what to do" }).click();
    await page.locator(".verdict").waitFor(LONG);
    await page.context().close();
  });

  test("a run that is stopped changes nothing, and the next one works", { timeout: 300_000 }, async () => {
    const page = await opened(await context());
    await go(page, "Scans");
    await station(page).locator("input[type=file]").first().setInputFiles(rehearsed());
    await page.getByRole("button", { name: "Read the scans" }).click();
    await page.getByRole("button", { name: "Stop" }).click();
    await page.getByText("Stopped. Nothing was changed.").waitFor(LONG);
    assert.equal(await page.locator("#known").textContent(), "nothing is known yet");
    await page.getByRole("button", { name: "Read the scans" }).click();
    await page.getByText("6 sheets read.").waitFor(LONG);
    await page.context().close();
  });

  test("a program that dies is a message, and is restarted", async (t) => {
    if (readFileSync(file, "utf8").includes("versolayNative")) return t.skip("the engine is lent");
    const page = await opened(await context(), {
      before: () => {
        const Real = Worker;
        window.workers = [];
        window.Worker = class extends Real {
          constructor(...words) {
            super(...words);
            window.workers.push(this);
          }
        };
      },
    });
    await takeExample(page);
    await go(page, "What to do");
    await page.getByRole("button", { name: "Tell me what to do" }).click();
    await page.evaluate(() => window.workers.at(-1).dispatchEvent(new ErrorEvent("error", { message: "out of memory" })));
    await page.getByRole("alert").getByText("out of memory").waitFor();
    await page.getByRole("button", { name: "Tell me what to do" }).click();
    await page.locator(".verdict").waitFor(LONG);
    assert.equal(await page.evaluate(() => window.workers.length), 2);
    await page.context().close();
  });
});

describe("wrong files", () => {
  test("are refused by name, as text, where they were given", { timeout: 300_000 }, async () => {
    const page = await opened(await context());
    await go(page, "Scans");
    const hostile = "<img src=x onerror=alert(1)>.png";
    await station(page).locator("input[type=file]").first().setInputFiles([
      { name: hostile, mimeType: "image/png", buffer: Buffer.from("not a picture") },
      { name: "--out.png", mimeType: "image/png", buffer: Buffer.from("\x89PNG\r\n\x1a\n cut short") },
      { name: "empty.tif", mimeType: "image/tiff", buffer: Buffer.alloc(0) },
    ]);
    await page.getByRole("button", { name: "Read the scans" }).click();
    await page.getByRole("alert").filter({ hasText: hostile }).filter({ hasText: "empty.tif" }).waitFor(LONG);
    assert.equal(await page.locator("img[src=x]").count(), 0);

    const readings = station(page).locator("input[accept='.json']");
    for (const [text, refusal] of [["{", /JSON|parse/i], ['{"schema": "versolay.readings/99"}', /99|newer/], ['{"schema": "versolay.profile/2"}', /readings/i]]) {
      await readings.setInputFiles(textFile("wrong.json", text));
      await page.getByRole("alert").filter({ hasText: refusal }).waitFor();
    }
    await go(page, "Printer");
    await station(page).locator("input[accept='.json']").setInputFiles(textFile("wrong.json", '{"schema": "versolay.readings/2", "sheets": []}'));
    await page.getByRole("alert").filter({ hasText: /profile/i }).waitFor();

    await go(page, "Test sheets");
    await page.getByLabel("Sheets", { exact: true }).fill("ten");
    await page.getByRole("button", { name: "Make the test sheets" }).click();
    await page.getByRole("alert").filter({ hasText: /Sheets/ }).waitFor();
    const sheets = page.getByLabel("Sheets", { exact: true });
    assert.equal(await sheets.getAttribute("aria-invalid"), "true");
    await station(page).locator(".field", { has: sheets }).getByText("Must be a whole number").waitFor();
    await sheets.fill("10");
    assert.equal(await sheets.getAttribute("aria-invalid"), null);

    await go(page, "Deck");
    await station(page).locator("input[type=file]").first().setInputFiles([{ name: "front.png", mimeType: "image/png", buffer: Buffer.from("no") }]);
    await page.getByRole("button", { name: "Lay out the deck" }).click();
    await page.getByRole("alert").filter({ hasText: "front.png" }).waitFor();
    quiet(page);
    await page.context().close();
  });
});

describe("for everybody", () => {
  for (const [name, options] of [
    ["light", {}],
    ["dark", { colorScheme: "dark" }],
    ["360 px, touch", { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true }],
  ])
    test(`axe-core finds nothing, and nothing is wider than the window: ${name}`, { timeout: 480_000 }, async () => {
      const page = await opened(await context({ ...options, bypassCSP: true }));
      const look = async (at) => {
        await page.addScriptTag({ path: axeScript });
        const { violations } = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
        assert.deepEqual(violations.map((one) => `${at}: ${one.id}: ${one.nodes[0].html}`), []);
        assert.doesNotMatch(await page.evaluate(() => document.body.innerText), /--[a-z]|\bversolay [a-z]/, `${at} names a command or an option`);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.ok(wide <= 0, `${at} is ${wide} px wider than the window`);
      };
      const names = ["Test sheets", "Scans", "Printer", "What to do", "Deck", "Next time"];
      for (const one of names) {
        await go(page, one);
        await look(`${one}, empty`);
      }
      await takeExample(page);
      await go(page, "Test sheets");
      await page.getByRole("button", { name: "Make the test sheets" }).click();
      await page.getByText("Your test sheets are ready").waitFor(LONG);
      await go(page, "Printer");
      await page.getByRole("button", { name: "Show it in pictures" }).click();
      await page.getByRole("heading", { name: "Sheet by sheet" }).waitFor(LONG);
      await go(page, "What to do");
      await page.getByRole("button", { name: "Tell me what to do" }).click();
      await page.getByText("Good cards on a sheet").first().waitFor(LONG);
      await go(page, "Deck");
      await page.getByRole("button", { name: "Take nine example cards" }).click();
      await page.locator(".art img").nth(9).waitFor();
      await page.getByRole("button", { name: "Lay out the deck" }).click();
      await page.getByText("9 cards on 1 sheet.").waitFor(LONG);
      for (const one of names) {
        await go(page, one);
        await page.evaluate(() => document.querySelectorAll("section:not([hidden]) details").forEach((part) => (part.open = true)));
        await page.waitForTimeout(200);
        await look(one);
      }
      await page.context().close();
    });

  test("with the keyboard alone, from the first key to the verdict", { timeout: 300_000 }, async (t) => {
    const page = await opened(await context());
    const to = async (words) => {
      for (let key = 0; key < 80; key += 1) {
        await page.keyboard.press("Tab");
        const here = await page.evaluate(() => document.activeElement?.textContent?.trim() ?? "");
        if (here.includes(words)) return;
      }
      assert.fail(`the keyboard does not reach “${words}”`);
    };
    await to("Try it with an example");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 2, name: "What to do" }).waitFor(LONG);
    await to("Tell me what to do");
    await page.keyboard.press("Enter");
    await page.locator(".verdict").waitFor(LONG);
    const first = await page.evaluate(() => performance.getEntriesByName("first-verdict")[0].startTime);
    t.diagnostic(`first advice ${(first / 1000).toFixed(1)} s after the page was opened`);
    await page.context().close();
  });
});
