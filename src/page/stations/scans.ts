// Station 2: scans, read into how far each back landed; or readings by eye.
import { actionButton, el, fill } from "../dom";
import { Refusal } from "../program";
import { cautionBox, dropPlace, more, note, Outcome, plainName, said, saveLink, selectField, textBlob, wrong, type App, type Station } from "../ui";
import { PAPERS } from "./sheets";
import { readingShown, readScans } from "./reading";

export const SCAN_FILES = ".png,.jpg,.jpeg,.tif,.tiff,image/png,image/jpeg,image/tiff";

/** A readings file that was given: the program looks at it before it is kept. */
export async function keepReadings(app: App, file: File): Promise<string> {
  const text = await file.text();
  const name = plainName(file.name, ".json");
  try {
    await app.program.json(["profile", name, "--printer", "-", "--out", "looked-at.json"], [{ path: name, data: text }]);
  } catch (error) {
    if (!(error instanceof Refusal) || error.exit !== 1) throw error; // 1: read, but too few for a profile
  }
  return app.work.addReadings({ name, text, origin: "file", counts: true });
}

export function scansStation(app: App): Station {
  let scans: File[] = [];
  let session: string | undefined; // the readings that these scans make
  const outcome = new Outcome(app);
  const waiting = el("div", { class: "waiting" });
  const keptBox = el("div", { class: "keeping" });

  const datum = selectField(app, "datum", "Read by", [
    ["auto", "holes, or else edges"],
    ["holes", "holes only"],
    ["edges", "the paper’s edges only"],
  ], { hint: "leave it, unless the holes or the edges of your sheets are bad" });

  const read = actionButton("Read the scans", async () => {
    await outcome.run("Reading scans", async (onProgress) => {
      const reading = await readScans(app, scans, datum.value(), onProgress);
      if (reading.text)
        session = await app.work.addReadings(
          { name: session ? (app.work.readings().find(([key]) => key === session)?.[1].name ?? "readings.json") : "readings.json", text: reading.text, origin: "scans", counts: true },
          session && app.work.readings().some(([key]) => key === session) ? session : undefined,
        );
      return [
        ...readingShown(reading),
        reading.text ? el("p", {}, el("a", { class: "button main", href: "#printer" }, "Go on: learn the printer")) : null,
      ];
    });
    showWaiting();
  }, { class: "main" });

  function showWaiting(): void {
    const size = scans.reduce((sum, file) => sum + file.size, 0) / 1e6;
    const clear = el("button", { type: "button", class: "quiet" }, "Clear, for scans of another printing session");
    clear.addEventListener("click", () => {
      scans = [];
      session = undefined;
      outcome.show();
      showWaiting();
    });
    fill(
      waiting,
      scans.length
        ? [
            el("p", {}, el("b", {}, `${scans.length} ${scans.length === 1 ? "file" : "files"}`), ` given (${size < 10 ? size.toFixed(1) : Math.round(size)} MB). Each front finds its back by the marks on it.`),
            el("div", { class: "form" }, datum.node),
            el("div", { class: "row" }, read, clear),
          ]
        : null,
    );
  }

  const drop = dropPlace(
    { what: "scans", button: "Choose scans", accept: SCAN_FILES, folder: true, camera: true, hint: "PNG, JPEG or TIFF. They stay on this device." },
    (files) => {
      const same = (a: File, b: File) => a.name === b.name && a.size === b.size && a.lastModified === b.lastModified;
      for (const file of files) if (!scans.some((one) => same(one, file))) scans.push(file);
      showWaiting();
      app.announce(`${scans.length} files given. Press “Read the scans”.`);
    },
  );

  const loadOutcome = new Outcome(app);
  const load = dropPlace({ what: "readings", button: "Open readings", accept: ".json", hint: "a file such as readings.json, saved here or by the command-line program" }, (files) => {
    void loadOutcome.run("Opening readings", async () => {
      const bad: HTMLElement[] = [];
      for (const file of files) {
        try {
          await keepReadings(app, file);
        } catch (error) {
          bad.push(wrong(error));
        }
      }
      return bad.length ? bad : [note("done", el("p", {}, "Opened."))];
    });
  });

  // ---- by eye
  const eyeOutcome = new Outcome(app);
  const by = selectField(app, "eye.by", "What you read", [
    ["holes", "pricked holes"],
    ["verniers", "scales V1 to V8, against a window"],
    ["values", "offsets, found in another way"],
  ]);
  const separator = selectField(
    app,
    "eye.separator",
    "Between cells",
    [["comma", "comma"], ["semicolon", "semicolon"], ["tab", "tab"]],
    { hint: "spreadsheet programs with a decimal comma want semicolons" },
  );
  const byEye = more(
    "No scanner? Read by eye",
    el("p", {}, "Make a table, fill in the numbers that are printed beside the lines, and give it back here. Eyes are good for 0.06 mm on a sheet, a scan for 0.02 mm."),
    cautionBox("Prick into thick card on the table, never towards a hand; count the pins; children only with the person in charge. Do not look into the sun or a bare lamp; keep paper off hot lamps."),
    el("div", { class: "form" }, by.node, separator.node),
    el("p", { class: "quiet-words" }, "Paper, turn and number of sheets are those of the station Test sheets."),
    actionButton("Make the table", async () => {
      await eyeOutcome.run("Making the table", async () => {
        const paper = app.work.choice("paper", PAPERS[0]![0]);
        const made = await app.program.text([
          "readings", "--template", "--by", by.value(), "--separator", separator.value(),
          "--paper", paper === "other" ? app.work.choice("paper.other") : paper,
          "--turn", app.work.choice("turn", "long-edge"), "--sheets", app.work.choice("sheets", "10"), "--out", "table.csv",
        ]);
        return [said(made.text), saveLink("table.csv", made.files.get("table.csv"))];
      });
    }),
    dropPlace({ what: "the table, filled in,", button: "Choose the table", accept: ".csv,text/csv", single: true }, ([file]) => {
      void eyeOutcome.run("Reading the table", async () => {
        const name = plainName(file!.name, ".csv");
        const made = await app.program.text(["readings", name, "--out", "readings.json"], [{ path: name, data: file! }]);
        await app.work.addReadings({ name: "readings.json", text: await made.files.get("readings.json")!.text(), origin: "table", counts: true });
        return [said(made.text)];
      });
    }),
    eyeOutcome.node,
  );

  const advice = more(
    "How to scan, or to photograph",
    el(
      "ul",
      {},
      el("li", {}, "On the glass, black card behind that reaches beyond the paper; 300 to 600 dpi; PNG or TIFF; no cropping, no straightening."),
      el("li", {}, "A sheet larger than the glass: two halves of each side that overlap a little in the middle. Give all pictures; do not stitch them."),
      el("li", {}, "A sheet as long as the glass and without holes: each side twice, the second time shifted by 15 mm."),
      el("li", {}, "A camera of 8 megapixels or more: sheet flat on black card, even light, no flash, straight above its middle, main lens, no zoom. Not the mode for documents, which bends pictures."),
    ),
    cautionBox("Do not scan damp prints."),
  );

  function showKept(): void {
    const kept = app.work.readings();
    fill(
      keptBox,
      el("h3", {}, "Readings that are kept"),
      kept.length
        ? [el("p", { class: "quiet-words" }, "The printer is learned from those that are ticked."), el(
            "ul",
            { class: "kept" },
            kept.map(([key, one]) => {
              const file = app.work.readingsFile(one);
              const counts = el("input", { type: "checkbox" });
              counts.checked = one.counts;
              counts.addEventListener("change", () => app.work.setCounts(key, counts.checked));
              const forget = el("button", { type: "button", class: "quiet", "aria-label": `Forget ${one.name}` }, "Forget");
              forget.addEventListener("click", () => void app.work.forget(key));
              return el(
                "li",
                {},
                el("label", { class: "check" }, counts, " ", el("b", {}, one.name)),
                el("span", {}, `${file.sheets.length} ${file.sheets.length === 1 ? "sheet" : "sheets"}${one.origin === "example" ? ", example" : ""}${file.created ? `, ${file.created.slice(0, 10)}` : ""}`),
                el("span", { class: "row" }, saveLink(one.name, () => textBlob(one.text), "Save"), forget),
              );
            }),
          )]
        : note(
            "empty",
            el("p", {}, "None yet. Give the scans of your test sheets above, open readings that you saved, or look at the example of a bird-watching club."),
            actionButton("Take the example’s readings", () => app.takeExample(), { class: "quiet" }),
          ),
      load,
      loadOutcome.node,
    );
  }

  return {
    id: "scans",
    title: "Scans",
    lead: "Give the scans of both sides of your test sheets. Order and orientation do not matter.",
    node: el("div", {}, drop, waiting, outcome.node, advice, byEye, keptBox),
    done: () => app.work.readings().length > 0,
    refresh: showKept,
  };
}
