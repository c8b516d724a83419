// What broke the page once, and must not again: storage that is spoilt, slow or gone, tabs that meet, names that bite.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { launch } from "./browser.mjs";
import { go, opened, quiet, station } from "./job.mjs";

let browser;
before(async () => {
  browser = await launch();
});
after(async () => {
  await browser.close();
});

const context = () => browser.newContext({ viewport: { width: 1280, height: 860 } });
const LONG = { timeout: 240_000 };

async function takeExample(page) {
  await page.getByRole("button", { name: "Try it with an example" }).first().click();
  await page.waitForFunction(() => document.getElementById("known").textContent.startsWith("club inkjet"), null, LONG);
}

/** All records that the browser keeps; `change`, a function in the page, may return others to be put. */
const kept = (page, change = null, words = null) =>
  page.evaluate(
    async ([change, words]) => {
      const done = (request) => new Promise((resolve, reject) => ((request.onsuccess = () => resolve(request.result)), (request.onerror = () => reject(request.error))));
      const database = await done(indexedDB.open("versolay"));
      const records = await done(database.transaction("records").objectStore("records").getAll());
      if (change) {
        const store = database.transaction("records", "readwrite").objectStore("records");
        for (const one of new Function(`return ${change}`)()(records, words)) await done(store.put(one));
      }
      database.close();
      return records;
    },
    [change && String(change), words],
  );

describe("what is kept", () => {
  test("records that are damaged do not take the page away: they can be saved as they are, or forgotten", { timeout: 480_000 }, async () => {
    const one = await browser.newContext({ bypassCSP: true }); // the test writes a function into the page
    const first = await opened(one);
    await takeExample(first);
    await kept(first, (records) => {
      const of = (kind) => records.find((record) => record.key.startsWith(kind)).value;
      const spoilt = [null, undefined, "text", [], {}, { ...of("readings:"), text: "{" }, { ...of("readings:"), text: "{}" }, { ...of("readings:"), text: '{"sheets": [null]}' }, { ...of("profile:"), learned: null }, { ...of("profile:"), text: of("profile:").text.slice(0, 9000) }];
      return [
        ...spoilt.flatMap((value, at) => ["readings:", "profile:"].map((kind) => ({ key: `${kind}zz${at}`, version: 1, value }))),
        { key: "choices", version: 9, value: { ppi: 5, "left-out": "{" } },
        { key: "advised", version: 9, value: "x" },
        { key: "something else", version: 1, value: 1 },
      ];
    });
    await first.close();
    const page = await opened(one);
    assert.match(await page.locator("#known").textContent(), /^club inkjet/);
    for (const name of ["Test sheets", "Scans", "Printer", "What to do", "Deck", "Next time"]) await go(page, name);
    const notes = page.locator("#storage .note");
    assert.equal(await notes.count(), 20);
    await notes.getByRole("button", { name: "Forget it" }).last().click();
    await page.waitForFunction(() => document.querySelectorAll("#storage .note").length === 19);
    assert.equal((await kept(page)).length, 2 + 19 + 3);
    await go(page, "What to do");
    await page.getByLabel("Cards wanted").fill("54");
    await page.getByLabel("Cards wanted").blur();
    await page.waitForTimeout(300);
    const choices = (await kept(page)).find((record) => record.key === "choices").value;
    assert.deepEqual(choices, { cards: "54" });
    quiet(page);
    await one.close();
  });

  test("a database that does not open is not waited for", async () => {
    const page = await opened(await context(), { before: () => (IDBFactory.prototype.open = () => new EventTarget()) });
    await page.getByText("save your files before you close it").waitFor();
    quiet(page);
    await page.context().close();
  });

  test("a newer page gets the database at once; the older one says that it keeps nothing any more", async () => {
    const page = await opened(await context());
    await takeExample(page);
    const answer = await page.evaluate(
      () => new Promise((done) => {
        const request = indexedDB.open("versolay", 2);
        request.onblocked = () => done("blocked");
        request.onsuccess = () => (request.result.close(), done("opened"));
      }),
    );
    assert.equal(answer, "opened");
    await go(page, "What to do");
    await page.getByLabel("Cards wanted").fill("54");
    await page.getByLabel("Cards wanted").blur();
    await page.getByText("save your files before you close it").waitFor();
    assert.match(await page.locator("#known").textContent(), /^club inkjet/);
    quiet(page);
    await page.context().close();
  });

  test("data that the browser throws away under the page is a message, not an error", async () => {
    const one = await context();
    const page = await opened(one);
    await takeExample(page);
    await (await one.newCDPSession(page)).send("Storage.clearDataForOrigin", { origin: "file://", storageTypes: "all" });
    await go(page, "What to do");
    await page.getByLabel("Cards wanted").fill("54");
    await page.getByLabel("Cards wanted").blur();
    await page.getByText("save your files before you close it").waitFor();
    quiet(page);
    await one.close();
  });

  test("what a tab writes while it takes over another tab's work stays", { timeout: 240_000 }, async () => {
    const both = await context();
    const one = await opened(both);
    await takeExample(one);
    // Reading all records takes this tab a while, as with many of them.
    const other = await opened(both, {
      before: () => {
        const all = IDBObjectStore.prototype.getAll;
        IDBObjectStore.prototype.getAll = function (...words) {
          const request = all.apply(this, words);
          Object.defineProperty(request, "onsuccess", { set: (heard) => request.addEventListener("success", () => setTimeout(heard, window.slow ?? 0)) });
          return request;
        };
      },
    });
    await go(other, "Scans");
    await go(one, "What to do");
    await other.evaluate(() => (window.slow = 2000));
    await one.getByLabel("Cards wanted").fill("54");
    await one.getByLabel("Cards wanted").blur();
    await other.waitForTimeout(500); // it reads
    await station(other).getByRole("button", { name: "Forget example.json" }).click();
    await other.waitForTimeout(6000);
    assert.equal(await station(other).locator("ul.kept li").count(), 0, "what was forgotten does not come back");
    await both.close();
  });

  test("what a full disk did not take stays in its tab when another one writes", { timeout: 240_000 }, async () => {
    const both = await context();
    const one = await opened(both, { before: () => (IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); }) });
    const other = await opened(both);
    await takeExample(one);
    await one.getByText("save your files before you close it").waitFor();
    await other.evaluate(() => new BroadcastChannel("versolay").postMessage("choices"));
    await one.waitForTimeout(1000);
    assert.match(await one.locator("#known").textContent(), /^club inkjet/);
    quiet(one);
    await both.close();
  });
});

describe("runs", () => {
  test("a run that waits can be stopped, and the one that goes on is not", { timeout: 480_000 }, async () => {
    const page = await opened(await context());
    await takeExample(page);
    await go(page, "What to do");
    await page.getByRole("button", { name: "Tell me what to do" }).click();
    await go(page, "Test sheets");
    await page.getByRole("button", { name: "Make the test sheets" }).click();
    await page.getByText("Making the test sheets: waits for").waitFor();
    await station(page).getByRole("button", { name: "Stop" }).click();
    await page.getByText("Stopped. Nothing was changed.").waitFor();
    await page.getByRole("button", { name: "Make the test sheets" }).click();
    await page.getByText("Your test sheets are ready").waitFor(LONG);
    await go(page, "What to do");
    assert.ok(await page.locator(".verdict").isVisible());
    quiet(page);
    await page.context().close();
  });

  test("closing the page in the middle of one is asked about, and not otherwise", { timeout: 240_000 }, async () => {
    const page = await opened(await context());
    await takeExample(page);
    await go(page, "What to do");
    const asked = [];
    page.on("dialog", (dialog) => (asked.push(dialog.type()), void dialog.dismiss()));
    await page.getByRole("button", { name: "Tell me what to do" }).click();
    await page.close({ runBeforeUnload: true });
    await page.getByText("Good cards on a sheet").first().waitFor(LONG);
    assert.deepEqual(asked, ["beforeunload"]);
    await Promise.all([page.waitForEvent("close"), page.close({ runBeforeUnload: true })]);
    assert.deepEqual(asked, ["beforeunload"]);
    await page.context().close();
  });

  test("what is typed is kept when the page is closed before its field is left", async () => {
    const one = await context();
    const page = await opened(one);
    await takeExample(page);
    await go(page, "Printer");
    await page.getByLabel("sheet 4", { exact: true }).uncheck();
    await page.getByLabel("Why sheet 4 does not count").pressSequentially("torn");
    await page.waitForTimeout(1000);
    await page.close();
    const later = await opened(one);
    await go(later, "Printer");
    assert.equal(await later.getByLabel("Why sheet 4 does not count").inputValue(), "torn");
    await one.close();
  });
});

describe("files", () => {
  test("whose names look like options or hidden files are opened like all others", { timeout: 240_000 }, async () => {
    const page = await opened(await context());
    await takeExample(page);
    const of = async (kind) => Buffer.from((await kept(page)).find((record) => record.key.startsWith(kind)).value.text);
    for (const [name, kind, shown] of [["Printer", "profile:", "Save _x.json"], ["Scans", "readings:", "_x.json"]]) {
      await go(page, name);
      const input = station(page).locator("input[accept='.json']");
      await input.setInputFiles([{ name: "-x.json", mimeType: "application/json", buffer: await of(kind) }]);
      await station(page).getByText(shown, { exact: true }).first().waitFor();
      await input.setInputFiles([{ name: ".json", mimeType: "application/json", buffer: await of(kind) }]);
      await station(page).getByText(/^(Save )?\.json$/).first().waitFor();
    }
    quiet(page);
    await page.context().close();
  });

  test("that could be saved, and were not, are not held for ever", { timeout: 240_000 }, async () => {
    const page = await opened(await context(), {
      before: () => {
        window.made = 0;
        const make = URL.createObjectURL;
        URL.createObjectURL = (blob) => ((window.made += 1), make.call(URL, blob));
      },
    });
    await takeExample(page);
    await go(page, "What to do");
    const before = await page.evaluate(() => window.made);
    for (let number = 1; number < 20; number += 1) {
      await page.getByLabel("Cards wanted").fill(String(number));
      await page.getByLabel("Cards wanted").blur();
    }
    assert.equal(await page.evaluate(() => window.made), before);
    await page.context().close();
  });
});

describe("many records", () => {
  test("are not read again at every choice", { timeout: 240_000 }, async () => {
    const one = await browser.newContext({ bypassCSP: true }); // the test writes a function into the page
    const first = await opened(one);
    await takeExample(first);
    await kept(first, (records) => {
      const of = (kind) => records.find((record) => record.key.startsWith(kind)).value;
      return Array.from({ length: 20 }, (_, at) => ["readings:", "profile:"].map((kind) => ({ key: `${kind}z${at}`, version: 1, value: { ...of(kind), counts: false, name: `${at}.json` } }))).flat();
    });
    await first.close();
    const page = await opened(one);
    await go(page, "What to do");
    const read = await page.evaluate(async () => {
      let read = 0;
      const parse = JSON.parse;
      JSON.parse = (text, ...words) => ((read += text.length), parse(text, ...words));
      const field = [...document.querySelectorAll("section:not([hidden]) input")].find((input) => input.labels?.[0]?.textContent === "Cards wanted");
      field.value = "54";
      field.dispatchEvent(new Event("change"));
      await new Promise((done) => setTimeout(done, 500));
      return read;
    });
    assert.ok(read < 10_000, `${read} letters of JSON were read`);
    await one.close();
  });
});
