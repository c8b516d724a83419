// The reader of codes in a browser against the native one, on the same pictures.
//   node tests/page/codes_test.mjs ENGINE PICTURES
// ENGINE is .build/page/engine, PICTURES a folder that the program code_pictures filled.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";

const [engine, folder] = process.argv.slice(2).map((path) => resolve(path));

test("what the native reader reads, the other reads, and neither reads what was not printed", async () => {
  const { prepareCodes } = await import(pathToFileURL(join(engine, "codes.mjs")).href);
  const read = await prepareCodes(readFileSync(join(engine, "codes.wasm")));
  const count = {};
  for (const picture of JSON.parse(readFileSync(join(folder, "pictures.json")))) {
    const grey = new Uint8Array(readFileSync(join(folder, picture.file)));
    const text = read(grey, picture.width, picture.height, picture.format);
    const of = (count[picture.format] ??= { all: 0, native: 0, here: 0, lost: 0 });
    of.all += 1;
    if (picture.read !== null) {
      of.native += 1;
      assert.equal(picture.read, picture.printed);
    }
    if (text !== null) {
      of.here += 1;
      assert.equal(text, picture.printed);
    }
    if (text === null && picture.read !== null) of.lost += 1;
  }
  console.log("#", JSON.stringify(count));
  for (const of of Object.values(count)) {
    assert.ok(of.native > of.all / 2, "most pictures are there to be read");
    assert.ok(of.here >= of.native, `${of.here} of ${of.all} read here, natively ${of.native}`);
    // Two versions of one library: each reads some poor pictures that the other does not.
    assert.ok(of.lost <= 0.03 * of.all, `${of.lost} are read natively and not here`);
  }
});
