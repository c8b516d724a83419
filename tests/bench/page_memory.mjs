// How much memory the page takes to read scans: the program's heap, and the process of the page (its share of
// every page of memory, PSS, five times a second; Linux only). Nothing is asserted.
//   versolay rehearse --out FOLDER --sheets 12 --dpi 600 --seed 7       # scans, some minutes
//   node tests/bench/page_memory.mjs FOLDER/print/scans                  # the page of VERSOLAY_PAGE, or of .build
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { launch } from "../page/browser.mjs";
import { go, opened, station } from "../page/job.mjs";

const folder = process.argv[2];
const scans = readdirSync(folder).sort().map((name) => join(folder, name));
const browser = await launch();

const others = new Set(renderersOf(() => true)); // of other browsers, and of this one while it has no page
function renderersOf(wanted) {
  return readdirSync("/proc").filter((pid) => {
    if (!/^\d+$/.test(pid) || !wanted(pid)) return false;
    try {
      return readFileSync(`/proc/${pid}/cmdline`, "utf8").includes("--type=renderer");
    } catch {
      return false; // ended meanwhile
    }
  });
}
const renderers = () => renderersOf((pid) => !others.has(pid));

const megabytes = (pid) => {
  try {
    return Number(/^Pss:\s+(\d+)/m.exec(readFileSync(`/proc/${pid}/smaps_rollup`, "utf8"))[1]) / 1024;
  } catch {
    return 0;
  }
};

// The worker reports its heap along with every message that it sends.
const spy = `
  const memories = [];
  const real = WebAssembly.instantiate;
  WebAssembly.instantiate = async (...words) => {
    const made = await real.apply(WebAssembly, words);
    for (const one of Object.values((made.instance ?? made).exports)) if (one instanceof WebAssembly.Memory) memories.push(new WeakRef(one));
    return made;
  };
  const channel = new BroadcastChannel("heap of the program");
  const send = self.postMessage.bind(self);
  self.postMessage = (...words) => {
    channel.postMessage(Math.max(0, ...memories.map((one) => one.deref()?.buffer.byteLength ?? 0)));
    send(...words);
  };
`;
const page = await opened(await browser.newContext(), {
  before: `{
    window.heap = 0;
    new BroadcastChannel("heap of the program").onmessage = (event) => (window.heap = Math.max(window.heap, event.data));
    const make = URL.createObjectURL;
    URL.createObjectURL = (blob) => make.call(URL, blob.type === "text/javascript" ? new Blob([${JSON.stringify(spy)}, blob], { type: blob.type }) : blob);
  }`,
});
await go(page, "Scans");
let peak = 0;
const idle = Math.max(...renderers().map(megabytes));
const watch = setInterval(() => {
  peak = Math.max(peak, ...renderers().map(megabytes));
}, 200);
await station(page).locator("input[type=file]").first().setInputFiles(scans);
const started = performance.now();
await page.getByRole("button", { name: "Read the scans" }).click();
await page.getByText(/\d+ sheets? read\.|Nothing could be read/).first().waitFor({ timeout: 3_600_000 });
const ended = performance.now();
const reading = peak;
await page.locator(".scans img").last().scrollIntoViewIfNeeded();
await page.waitForTimeout(3000); // the small pictures are drawn
clearInterval(watch);
const heap = await page.evaluate(() => window.heap);
console.log(`${scans.length} scans read in ${((ended - started) / 1000).toFixed(0)} s: heap of the program ${(heap / 1048576).toFixed(0)} MB; process of the page ${idle.toFixed(0)} MB before, at most ${reading.toFixed(0)} MB while it reads, ${peak.toFixed(0)} MB with the pictures of what was found`);
await browser.close();
