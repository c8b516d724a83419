// The program for browsers against the native one: the same inputs, the same answers.
//   node tests/page/engine_test.mjs ENGINE PROGRAM
// ENGINE is .build/page/engine, PROGRAM the native versolay. Node has no WORKERFS, so inputs are in
// memory here; tests in browsers read them as files. Prints sizes, times and memory as it goes;
// nothing is asserted of them.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";

const [engineFolder, program] = process.argv.slice(2).map((path) => resolve(path));
const environment = { SOURCE_DATE_EPOCH: "1700000000", LC_ALL: "C.UTF-8" };
const SCANNED_SHEETS = 5;  // fewer than 4 give no oversize

const root = mkdtempSync(join(tmpdir(), "versolay-engine-"));
let engine;
const wasm = readFileSync(join(engineFolder, "versolay.wasm"));

function inEngine(name) {
  return import(pathToFileURL(join(engineFolder, name)).href);
}

// The loader of emscripten 3.1.6 takes node for the old kind of modules.
globalThis.__dirname = engineFolder;
globalThis.require = createRequire(import.meta.url);

before(async () => {
  const { makeEngine } = await inEngine("engine.js");
  engine = await makeEngine({
    versolay: (await inEngine("versolay.mjs")).default,
    readCodes: (await inEngine("codes.mjs")).prepareCodes,
    wasm,
    codesWasm: readFileSync(join(engineFolder, "codes.wasm")),
    environment,
  });
  // In node the loader makes the program's exit code that of the tests.
  const run = engine.run;
  engine.run = async (...words) => {
    const before = process.exitCode;
    try {
      return await run(...words);
    } finally {
      process.exitCode = before;
    }
  };
});

after(() => rmSync(root, { recursive: true }));

/** The native program on the inputs (path -> bytes) in a folder of its own; as engine.run says it. */
function native(argv, inputs) {
  const folder = mkdtempSync(join(root, "native-"));
  for (const [path, data] of inputs) {
    mkdirSync(join(folder, dirname(path)), { recursive: true });
    writeFileSync(join(folder, path), data);
  }
  const ended = spawnSync(program, argv, {
    cwd: folder,
    env: { ...process.env, ...environment },
    maxBuffer: 1 << 28,
  });
  const files = new Map();
  for (const entry of readdirSync(folder, { recursive: true })) {
    if (statSync(join(folder, entry)).isFile() && !inputs.has(entry)) {
      files.set(entry, readFileSync(join(folder, entry)));
    }
  }
  return { exit: ended.status, stdout: String(ended.stdout), stderr: String(ended.stderr), files };
}

/** The command in both; their exit codes and the names of their files are the same. */
async function both(argv, inputs = new Map()) {
  const started = performance.now();
  const there = native(argv, inputs);
  const between = performance.now();
  const files = [...inputs].map(([path, data]) => ({ path, data }));
  const steps = [];
  const here = await engine.run(argv, files, (step) => steps.push(step));
  const seconds = (ms) => (ms / 1000).toFixed(2);
  console.log(
    `# ${argv[0]}: native ${seconds(between - started)} s, here ${seconds(performance.now() - between)} s`,
  );
  assert.equal(here.exit, there.exit, `${here.stderr}\n---\n${there.stderr}`);
  assert.deepEqual([...here.files.keys()].sort(), [...there.files.keys()].sort());
  return { here, there, steps };
}

function jsonOf(bytes) {
  return JSON.parse(new TextDecoder().decode(bytes));
}

/**
 * Asserts that two values of JSON are the same: numbers to 1e-9, absolute for small ones; numbers
 * of a covariance to 1e-6 of its largest. Both bounds are those of the issue of the page.
 */
function assertSame(a, b, path = "", scale = 0) {
  if (typeof a === "number" && typeof b === "number") {
    const bound = scale > 0 ? 1e-6 * scale : 1e-9 * Math.max(1, Math.abs(b));
    assert.ok(Math.abs(a - b) <= bound, `${path}: ${a} is not ${b}`);
  } else if (a !== null && typeof a === "object" && b !== null && typeof b === "object") {
    assert.deepEqual(Object.keys(a), Object.keys(b), path);
    for (const key of Object.keys(a)) {
      const numbers = /covariance/.test(key) ? JSON.stringify(b[key]).match(/-?[\d.]+(e[-+]?\d+)?/g) : null;
      const largest = numbers ? Math.max(...numbers.map((n) => Math.abs(Number(n)))) : scale;
      assertSame(a[key], b[key], `${path}/${key}`, largest);
    }
  } else {
    assert.equal(a, b, path);
  }
}

/** Byte for byte, or as two renderers see them. */
function assertSamePdf(a, b, name) {
  if (Buffer.compare(Buffer.from(a), Buffer.from(b)) === 0) return;
  const folder = mkdtempSync(join(root, "pdf-"));
  const pages = [a, b].map((bytes, i) => {
    const file = join(folder, `${i}.pdf`);
    writeFileSync(file, bytes);
    const poppler = execFileSync("pdftoppm", ["-r", "100", file], { maxBuffer: 1 << 30 });
    const mupdf = execFileSync("mutool", ["draw", "-q", "-F", "ppm", "-r", "100", "-o", "-", file], {
      maxBuffer: 1 << 30,
    });
    return [poppler, mupdf];
  });
  assert.ok(pages[0][0].equals(pages[1][0]), `${name} differs, as Poppler draws it`);
  assert.ok(pages[0][1].equals(pages[1][1]), `${name} differs, as MuPDF draws it`);
  console.log(`# ${name}: not the same bytes, the same pictures`);
}

const target = ["target", "--paper", "a4", "--turn", "long-edge", "--run", "PAGE", "--sheets", String(SCANNED_SHEETS)];

test("target: the same pages and places of marks", async () => {
  const { here, there } = await both([
    ...target, "--out", "t.pdf", "--geometry", "g.json", "--no-job", "--json",
  ]);
  assert.equal(here.exit, 0);
  assertSamePdf(here.files.get("t.pdf"), there.files.get("t.pdf"), "t.pdf");
  assertSame(jsonOf(here.files.get("g.json")), jsonOf(there.files.get("g.json")));
});

// Scans that the native program rehearses; what they say goes from command to command as a person
// would carry it.
const scans = new Map();
const made = {};

test("measure: the same readings of rehearsed scans", async () => {
  const folder = join(root, "rehearsal");
  execFileSync(program, ["rehearse", "--out", folder, "--sheets", String(SCANNED_SHEETS), "--no-job", "--quiet"]);
  const print = join(folder, "print", "scans");
  for (const name of readdirSync(print)) scans.set(name, readFileSync(join(print, name)));
  const argv = ["measure", ...scans.keys(), "--out", "r.json", "--overlay", "o", "--no-job", "--json"];
  const { here, there, steps } = await both(argv, scans);
  const [a, b] = [here, there].map((run) => jsonOf(run.files.get("r.json")));
  assert.equal(b.sheets.length, SCANNED_SHEETS);
  assertSame(a, b);
  assert.ok(steps.length > 0, "nothing was said of progress");
  made.readings = there.files.get("r.json");
});

for (const kind of [
  "--pictures halves", "--holes pricked", "--holes none", "--passes 3", "--scans 2 --turn-repeats",
]) {
  test(`measure and profile: the same answers with ${kind}`, async () => {
    const folder = join(root, `rehearsal${kind}`);
    execFileSync(program, [
      "rehearse", "--out", folder, "--sheets", "2", "--proof-sheets", "1", "--dpi", "200", "--seed", "3",
      ...kind.split(" "), "--no-job", "--quiet",
    ]);
    const print = join(folder, "print", "scans");
    const pictures = new Map(readdirSync(print).map((name) => [name, readFileSync(join(print, name))]));
    const measure = ["measure", ...pictures.keys(), "--out", "r.json", "--no-job", "--json"];
    const read = await both(measure, pictures);
    const [a, b] = [read.here, read.there].map((run) => jsonOf(run.files.get("r.json")));
    assert.equal(b.sheets.length, 2);
    assertSame(a, b);
    const learn = ["profile", "r.json", "--printer", "p", "--out", "p.json", "--no-job", "--json"];
    const { here, there } = await both(learn, new Map([["r.json", read.there.files.get("r.json")]]));
    assertSame(jsonOf(here.files.get("p.json")), jsonOf(there.files.get("p.json")));
  });
}

/** A PDF with a picture on each page, as MuPDF makes it. */
function pdfOf(pictures) {
  const folder = mkdtempSync(join(root, "pdf-"));
  const pages = pictures.map((data, i) => {
    writeFileSync(join(folder, `${i}.png`), data);
    const [width, height] = [16, 20].map((at) => (data.readUInt32BE(at) * 72) / 300);
    const page = join(folder, `${i}.txt`);
    writeFileSync(page, `%%MediaBox 0 0 ${width} ${height}\n%%Image I0 ${folder}/${i}.png\nq ${width} 0 0 ${height} 0 0 cm /I0 Do Q\n`);
    return page;
  });
  execFileSync("mutool", ["create", "-o", join(folder, "scans.pdf"), ...pages]);
  return readFileSync(join(folder, "scans.pdf"));
}

test("measure: the same readings of scans in a PDF file", async () => {
  const pdf = pdfOf([...scans.values()]);
  const argv = ["measure", "s.pdf", "--out", "r.json", "--no-job", "--json"];
  const { here, there } = await both(argv, new Map([["s.pdf", pdf]]));
  const [a, b] = [here, there].map((run) => jsonOf(run.files.get("r.json")));
  assert.equal(b.sheets.length, SCANNED_SHEETS);
  assertSame(a, b);
});

test("a compression that only the native program reads is refused with a sentence", async () => {
  const pdf = pdfOf([scans.values().next().value]);
  const image = /(Subtype\s*\/Image[^>]*)\/FlateDecode/;
  assert.match(pdf.toString("latin1"), image);
  const packed = Buffer.from(pdf.toString("latin1").replace(image, "$1/JPXDecode  "), "latin1");
  const { exit, stdout } = await engine.run(
    ["measure", "s.pdf", "--out", "r.json", "--no-job", "--json"], [{ path: "s.pdf", data: packed }],
  );
  assert.equal(exit, 2);
  assert.match(stdout, /cannot be read in a browser/);
});

test("profile and advise: the same answers", async () => {
  const profile = ["profile", "r.json", "--printer", "club inkjet", "--out", "p.json", "--no-job", "--json"];
  const { here, there } = await both(profile, new Map([["r.json", made.readings]]));
  assertSame(jsonOf(here.files.get("p.json")), jsonOf(there.files.get("p.json")));
  made.profile = there.files.get("p.json");

  const advise = [
    "advise", "p.json", "--card", "63x88", "--grid", "3x3", "--ppi", "300", "--no-job", "--json",
  ];
  const advice = await both(advise, new Map([["p.json", made.profile]]));
  assert.ok([0, 3].includes(advice.there.exit));
  const [adviceHere, adviceThere] = [advice.here, advice.there].map((run) => JSON.parse(run.stdout));
  assertSame(adviceHere, adviceThere, "advice");
});

test("impose and correct: the same pages", async () => {
  const picture = scans.values().next().value; // any picture will do for a card
  const inputs = new Map([["p.json", made.profile], ["fronts/1.png", picture], ["back.png", picture]]);
  const impose = [
    "impose", "--fronts", "fronts", "--back", "back.png", "--paper", "a4", "--card", "63x88",
    "--grid", "auto", "--profile", "p.json", "--out", "job.pdf", "--no-job", "--json",
  ];
  const deck = await both(impose, inputs);
  assertSamePdf(deck.here.files.get("job.pdf"), deck.there.files.get("job.pdf"), "job.pdf");

  const pages = native([...target, "--out", "t.pdf", "--no-job"], new Map()).files.get("t.pdf");
  const correct = ["correct", "t.pdf", "--profile", "p.json", "--out", "c.pdf", "--no-job", "--json"];
  const corrected = await both(correct, new Map([["t.pdf", pages], ["p.json", made.profile]]));
  assertSamePdf(corrected.here.files.get("c.pdf"), corrected.there.files.get("c.pdf"), "c.pdf");
});

test("what a browser cannot do is refused with a sentence", async () => {
  const rehearsal = await engine.run(["rehearse", "--out", "x", "--no-job"]);
  assert.equal(rehearsal.exit, 2);
  assert.match(rehearsal.stderr, /command line only/);
});

test("bad inputs end as they do natively, and the next run is not affected", async () => {
  for (const data of [Buffer.from("not a picture"), Buffer.from("\x89PNG\r\n\x1a\n"), Buffer.alloc(0)]) {
    const argv = ["measure", "a.png", "--out", "r.json", "--no-job", "--json"];
    const { here, there } = await both(argv, new Map([["a.png", data]]));
    assert.equal(here.stdout, there.stdout);
  }
  const { here } = await both(["advise", "missing.json", "--card", "63x88", "--no-job", "--json"]);
  assert.equal(here.exit, 2);
});
