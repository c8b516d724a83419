// Every sentence of the program that names an option or a command, as the page says it.
// node --test tests/page/words.test.mjs
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const { buildSync } = createRequire(join(root, "src/page/package.json"))("esbuild");
const built = buildSync({ entryPoints: [join(root, "src/page/words.ts")], bundle: true, write: false, format: "esm" });
const { FIELDS, STATIONS, WORDS, forPage } = await import(`data:text/javascript;base64,${Buffer.from(built.outputFiles[0].contents).toString("base64")}`);

// Said by commands, or in answer to options, that the page never gives; help; and what is printed on paper.
const NOT_IN_THE_PAGE = [
  /^src\/cli\/(completion|job|manual|next_step|rehearsal_outcome|rehearse)/,
  /^src\/report\/(cut_card|print_card|run_card|report_sections)\.cpp$/,
  /^src\/words\/target_page_words\.cpp$/,
];
const HELP = [
  /(^|\n)Example: /, /^\S.*\(default: .*--/, /^pixels per inch of the images/, /^fronts of this job as/, /^read fronts of a job/,
  /^printer profile \(JSON\)/, /^the reason, one for each/, /^proof sheets: /, /^paper and turn, from/, /^with --guides: \{\}$/,
];
const NEVER_ASKED_FOR = [
  /--force/, /--paired/, /--compare/, /--passes: /, /--corrected-by/, /--fed-round/, /VERSOLAY_DATA/, /^is a second PDF/, /--out;/, /says whether they do/,
  /^print, punch and scan/, /^fill it in, then/, // "Next:", which the page drops
  /^No printer profile is here/, // of a folder of profiles
  /--target\b/, /--printer-like/, /^This folder has no job yet/, // of rehearse and job
  /^versolay target, /, // title of a PDF
];

function sentences() {
  const found = [];
  for (const block of readFileSync(join(root, "src/messages/versolay.pot"), "utf8").split("\n\n")) {
    const places = [...block.matchAll(/^#: (.*)$/gm)].flatMap((one) => one[1].split(" "));
    for (const [, lines] of block.matchAll(/^msgid(?:_plural)? ((?:".*"\n?)+)/gm)) {
      const text = [...lines.matchAll(/^"(.*)"$/gm)].map((one) => JSON.parse(`"${one[1]}"`)).join("");
      if (places.length && !places.every((place) => NOT_IN_THE_PAGE.some((one) => one.test(place)))) found.push(text);
    }
  }
  return found;
}

const COMMAND = new RegExp(`\\bversolay (${Object.keys(STATIONS).join("|")}|rehearse|job|help)\\b`);
const namesACommand = (text) => /--[a-z]/.test(text) || COMMAND.test(text);

test("no sentence names an option or a command in the page", () => {
  const all = sentences();
  assert.ok(all.length > 1000, "the catalogue was read");
  const naming = all.filter((text) => namesACommand(text) && !HELP.some((one) => one.test(text)) && !NEVER_ASKED_FOR.some((one) => one.test(text)));
  assert.ok(naming.length > 50, `${naming.length} sentences name one`);
  const left = naming.map((text) => forPage(text.replace(/\{[^}]*\}/g, "3"))).filter((text) => namesACommand(text) || /\b(PROFILE|READINGS|REASON|FILE)\b/.test(text));
  assert.deepEqual(left, [], "add their words to src/page/words.ts");
});

test("all words for the page are of sentences that the program has", () => {
  const all = sentences().map((text) => text.replace(/\{[^}]*\}/g, "a.json"));
  for (const [from] of WORDS) assert.ok(all.some((text) => text.search(from) >= 0), `no sentence has ${from}`);
});

test("what the page calls them is in the page", () => {
  const folder = join(root, "src/page/stations");
  const source = readdirSync(folder).map((name) => readFileSync(join(folder, name), "utf8")).join("\n");
  for (const name of [...Object.values(FIELDS), ...Object.values(STATIONS)]) assert.ok(source.includes(`"${name}"`), `“${name}” is no label of the page`);
  for (const text of sentences())
    for (const [, name] of forPage(text).matchAll(/“([^”]*)”/g)) assert.ok(source.includes(`"${name}"`), `“${name}”, of “${text}”, is no label of the page`);
});
