// What the tests of the page share: a browser context whose network is watched, and the steps of a job.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { lendNative } from "./native.mjs";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
export const program = resolve(process.env.VERSOLAY_PROGRAM ?? join(root, ".build/release/versolay"));
export const file = resolve(process.env.VERSOLAY_PAGE ?? join(root, ".build/page/versolay.html"));
export const work = mkdtempSync(join(tmpdir(), "versolay-page-test-"));

/** The native program, which the page is held against. */
export function native(argv, folder = work) {
  try {
    return { exit: 0, stdout: execFileSync(program, [...argv, "--no-job", "--force"], { cwd: folder, encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe"] }) };
  } catch (error) {
    return { exit: error.status, stdout: error.stdout };
  }
}

/** Rehearsed scans of six sheets, 200 dpi: small, and read well enough. */
export function rehearsed() {
  const folder = join(work, "rehearsal");
  if (!existsSync(folder)) native(["rehearse", "--out", "rehearsal", "--sheets", "6", "--proof-sheets", "3", "--dpi", "200", "--seed", "3"]);
  const scans = join(folder, "print/scans");
  return readdirSync(scans).sort().map((name) => join(scans, name));
}

/** A page that has loaded; every request beyond the file itself and its own blobs fails the test. */
export async function opened(context, { before } = {}) {
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  page.strays = [];
  page.complaints = [];
  page.on("request", (request) => {
    if (!/^(file|blob|data):/.test(request.url())) page.strays.push(request.url());
  });
  page.on("pageerror", (error) => page.complaints.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") page.complaints.push(message.text());
  });
  if (readFileSync(file, "utf8").includes("versolayNative")) await lendNative(page, program);
  if (before) await page.addInitScript(before);
  await page.goto(`file://${file}`);
  await page.waitForSelector("html[data-ready]");
  return page;
}

export function quiet(page) {
  assert.deepEqual(page.strays, [], "no request of any kind");
  assert.deepEqual(page.complaints, [], "nothing in the console");
}

export const station = (page) => page.locator("main > section:not([hidden])");

export async function go(page, name) {
  await page.getByRole("navigation").getByRole("link", { name }).click();
  await page.getByRole("heading", { level: 2, name }).waitFor();
}

/** What a link with a file to save holds. */
export async function saved(page, link) {
  const [download] = await Promise.all([page.waitForEvent("download"), link.click()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

export function textFile(name, text) {
  const path = join(work, name);
  writeFileSync(path, text);
  return path;
}

/** Equal but for when and with what they were made; numbers to a billionth of their size, or what
    floating point leaves of 0; those of a covariance to a millionth. */
export function sameDocument(page, program, path = "") {
  if (typeof program === "number") {
    assert.equal(typeof page, "number", path);
    const least = path.includes("covariance") ? 1e-6 : 1e-9;
    assert.ok(Math.abs(page - program) <= least * Math.max(1, Math.abs(program)), `${path}: ${page} against ${program}`);
  } else if (program && typeof program === "object") {
    assert.deepEqual(Object.keys(page), Object.keys(program), path);
    for (const key of Object.keys(program)) if (key !== "created") sameDocument(page[key], program[key], `${path}/${key}`);
  } else assert.equal(page, program, path);
}
