// node examples/page_pictures.mjs FOLDER: pictures of the page with its example, for the README. Needs the
// page (bash .ci/page) and Chromium.
import { join } from "node:path";
import { launch } from "../tests/page/browser.mjs";
import { file } from "../tests/page/job.mjs";

const folder = process.argv[2];
const browser = await launch();
const page = await (await browser.newContext({ viewport: { width: 1000, height: 700 } })).newPage();
page.setDefaultTimeout(120_000);
await page.goto(`file://${file}`);
await page.getByRole("button", { name: "Try it with an example" }).first().click();
await page.getByRole("button", { name: "Tell me what to do" }).click();
await page.getByText("Good cards on a sheet").first().waitFor();

async function picture(station, name, top) {
  await page.getByRole("navigation").getByRole("link", { name: station }).click();
  await page.waitForTimeout(500);
  await page.locator("main > section:not([hidden])").locator(top).first().evaluate((node) => {
    node.scrollIntoView();
    scrollBy(0, -90); // below the line of what is known
  });
  await page.screenshot({ path: join(folder, name) });
}
await picture("What to do", "page-advice.png", ".verdict");
await page.getByRole("navigation").getByRole("link", { name: "Deck" }).click();
await page.getByRole("button", { name: "Take nine example cards" }).click();
await page.locator(".art img").nth(9).waitFor();
await page.getByRole("button", { name: "Lay out the deck" }).click();
await page.getByText("9 cards on 1 sheet.").waitFor();
await picture("Deck", "page-deck.png", ".sheets");
await browser.close();
