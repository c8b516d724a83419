// Tasks of the page's own thread that take over 50 ms, through the whole job in Chromium. Nothing is asserted: on a
// busy machine every one of them grows.
//   versolay rehearse --out FOLDER --sheets 6 --dpi 300 --seed 5
//   node tests/bench/page_tasks.mjs FOLDER/print/scans [FOLDER_OF_LARGE_SCANS]   # those are given, and left after 30 s
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { launch } from "../page/browser.mjs";
import { go, opened, station } from "../page/job.mjs";

const [folder, large] = process.argv.slice(2);
const files = (from) => readdirSync(from).sort().map((name) => join(from, name));
const LONG = { timeout: 1_200_000 };
const browser = await launch();
const page = await opened(await browser.newContext({ viewport: { width: 1280, height: 860 } }), {
  before: () => {
    window.tasks = [];
    new PerformanceObserver((list) => window.tasks.push(...list.getEntries().map((one) => Math.round(one.duration)))).observe({ type: "longtask", buffered: true });
  },
});
const all = [];
async function step(what, work = async () => {}) {
  const start = performance.now();
  await work();
  await page.waitForTimeout(400);
  const tasks = await page.evaluate(() => window.tasks.splice(0));
  all.push(...tasks);
  console.log(`| ${what} | ${((performance.now() - start - 400) / 1000).toFixed(1)} s | ${tasks.join(", ") || "none"} |`);
}

console.log("| step | time | tasks over 50 ms |\n|---|---|---|");
await step("open");
await step(`give ${files(folder).length} scans`, async () => {
  await go(page, "Scans");
  await station(page).locator("input[type=file]").first().setInputFiles(files(folder));
});
await step("read them", async () => {
  await page.getByRole("button", { name: "Read the scans" }).click();
  await page.getByText(/\d+ sheets read\./).waitFor(LONG);
});
await step("look at all that was found", async () => {
  for (const one of await page.locator(".scans li").all()) await one.scrollIntoViewIfNeeded();
});
await step("learn", async () => {
  await go(page, "Printer");
  await page.getByLabel("Name of the printer").fill("club inkjet");
  await page.getByRole("button", { name: "Learn this printer" }).click();
  await page.getByText("Learned, and kept below.").waitFor(LONG);
});
await step("figures of the printer", async () => {
  await page.getByRole("button", { name: "Show it in pictures" }).click();
  await page.getByText("Sheet after sheet").waitFor(LONG);
});
await step("advice and its figures", async () => {
  await go(page, "What to do");
  await page.getByRole("button", { name: "Tell me what to do" }).click();
  await page.getByText("Good cards on a sheet").first().waitFor(LONG);
});
// 54 different fronts of 63 x 88 mm at 300 ppi, speckled as photographs are, made in the page.
const deck = await page.evaluateHandle(async () => {
  const made = new DataTransfer();
  for (let at = 0; at < 54; at += 1) {
    const canvas = new OffscreenCanvas(744, 1039);
    const pen = canvas.getContext("2d");
    const picture = pen.createImageData(744, 1039);
    for (let byte = 0; byte < picture.data.length; byte += 1) picture.data[byte] = byte % 4 === 3 ? 255 : (byte * 7 + at * 31 + Math.random() * 60) & 255;
    pen.putImageData(picture, 0, 0);
    made.items.add(new File([await canvas.convertToBlob({ type: "image/png" })], `bird ${at + 1}.png`, { type: "image/png" }));
  }
  return made;
});
await page.evaluate(() => new Promise((done) => setTimeout(() => (window.tasks.splice(0), done()), 500)));
await step("give 54 fronts and a back", async () => {
  await go(page, "Deck");
  const give = (at, how) =>
    station(page).locator("input[type=file][multiple]:not([webkitdirectory])").nth(at).evaluate((input, [made, how]) => {
      const files = new DataTransfer();
      for (const file of how ? [made.files[0]] : made.files) files.items.add(file);
      input.files = files.files;
      input.dispatchEvent(new Event("change"));
    }, [deck, how]);
  await give(0, false);
  await page.locator(".given").nth(0).locator(".art img").nth(23).waitFor(LONG);
  await give(1, true);
  await page.locator(".given").nth(1).locator(".art img").waitFor(LONG);
});
await step("lay out the deck, with the preview", async () => {
  await page.getByRole("button", { name: "Lay out the deck" }).click();
  await page.getByText("54 cards on").waitFor(LONG);
});
await step("look at its last sheet", async () => {
  await page.getByLabel("Sheet to look at").selectOption({ index: 5 });
});
if (large) {
  await go(page, "Scans");
  await page.getByRole("button", { name: "Start another session of printing" }).click();
  await step(`give ${files(large).length} large scans`, () => station(page).locator("input[type=file]").first().setInputFiles(files(large)));
  await step("read them for 30 s, and stop", async () => {
    await page.getByRole("button", { name: "Read the scans" }).click();
    await page.waitForTimeout(30_000);
    await page.getByRole("button", { name: "Stop" }).click();
    await page.getByText("Stopped. Nothing was changed.").waitFor(LONG);
  });
}
console.log(`${all.length} tasks over 50 ms, ${all.filter((one) => one > 100).length} over 100 ms, the longest ${Math.max(0, ...all)} ms`);
await browser.close();
