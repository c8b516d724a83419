// Station 6: the sheets of a job tell whether the profile still holds.
import { actionButton, el, fill } from "../dom";
import {
  cautionBox, dropPlace, emptyState, more, note, Outcome, pictureChoice, plainName, said, saveLink, textBlob, type App, type Station,
} from "../ui";
import { learnedOf } from "./printer";
import { readingShown, readScans } from "./reading";
import { SCAN_FILES } from "./scans";
import { laterReadings } from "../example";

export function nextStation(app: App): Station {
  let scans: File[] = [];
  let readings: { name: string; text: string } | null = null;
  const readOutcome = new Outcome(app);
  const checkOutcome = new Outcome(app);
  const body = el("div");
  const waiting = el("div", { class: "waiting" });
  const ready = el("div");

  const read = actionButton("Read the scans", async () => {
    await readOutcome.run("Reading scans", async (onProgress) => {
      const reading = await readScans(app, scans, "auto", onProgress);
      if (reading.text) take("job-readings.json", reading.text);
      return readingShown(reading);
    });
  }, { class: "main" });

  function take(name: string, text: string): void {
    readings = { name, text };
    checkOutcome.show();
    fill(ready, note("done", el("p", {}, `${name} is ready to be checked. `), saveLink(name, textBlob(text), `Save ${name}`)));
  }

  const drop = dropPlace({ what: "scans of the deck", button: "Choose scans", accept: SCAN_FILES, folder: true, camera: true, hint: "both sides of a few sheets or of all; all four edges in the picture, black card behind" }, (files) => {
    scans.push(...files);
    const clear = el("button", { type: "button", class: "quiet" }, "Clear");
    clear.addEventListener("click", () => {
      scans = [];
      fill(waiting);
      readOutcome.show();
    });
    fill(waiting, el("p", {}, el("b", {}, `${scans.length} ${scans.length === 1 ? "file" : "files"}`), " given."), el("div", { class: "row" }, read, clear));
  });
  const load = more(
    "Or open readings that are there already",
    dropPlace({ what: "readings", button: "Open readings", accept: ".json", single: true }, ([file]) => {
      void file!.text().then((text) => take(plainName(file!.name, ".json"), text));
    }),
    actionButton("Take the example’s later sheets", async () => {
      take("later-sheets.json", laterReadings);
      app.work.choose("next.how", "--corrected");
    }),
  );

  const how = pictureChoice(app, "next.how", "How were these sheets printed?", [
    { value: "", label: "As their marks say", words: "sheets of a deck that was made here" },
    { value: "--corrected", label: "Printed with this correction", words: "test sheets from a corrected PDF" },
    { value: "--not-corrected", label: "Printed without it", words: "test sheets as they were made" },
  ]);

  const check = actionButton("Does the profile still hold?", async () => {
    const current = app.work.profile();
    await checkOutcome.run("Checking", async () => {
      if (!readings) throw new Error("Give scans or readings of new sheets first.");
      if (!current) throw new Error("No printer is known yet.");
      const [key, profile] = current;
      const files = [{ path: `profile/${profile.name}`, data: profile.text }, { path: `new/${readings.name}`, data: readings.text }];
      const argv = ["check", files[0]!.path, files[1]!.path, "--out", "updated.json", "--units", app.work.choice("units", "mm")];
      if (how.value()) argv.push(how.value());
      const made = await app.program.text(argv, files);
      const updated = made.files.get("updated.json");
      const text = updated ? await updated.text() : null;
      const takeIt = text
        ? actionButton("Keep the profile brought up to date", async () => {
            await app.work.addProfile({ name: profile.name, text, ...(await learnedOf(app, profile.name, text)) }, key);
            takeIt!.replaceWith(note("done", el("p", {}, "Kept, in place of the older one.")));
          })
        : null;
      app.work.choose("next.made", "yes");
      return [
        el("h3", {}, "The answer"),
        said(made.text),
        text ? el("div", { class: "row" }, takeIt, saveLink(profile.name.replace(/\.json$/, "-updated.json"), textBlob(text))) : null,
      ];
    });
  }, { class: "main" });

  const form = [
    el("p", {}, "The marks in the waste of every deck sheet tell how the printer did, at no cost in paper."),
    cautionBox("Scan the sheets when they are dry and before they are laminated. Do not scan damp prints."),
    drop,
    waiting,
    readOutcome.node,
    load,
    ready,
    how.node,
    check,
    checkOutcome.node,
  ];

  return {
    id: "next",
    title: "Next time",
    lead: "Scan a few sheets of the deck, or fresh test sheets: does what was learned of the printer still hold?",
    node: body,
    done: () => app.work.choice("next.made") === "yes",
    refresh: () => {
      if (!app.work.profile()) fill(body, emptyState(app, "No printer is known yet, so nothing can be checked. Learn yours from test sheets, or open a profile that you saved.", [["printer", "To the printer"]]));
      else if (!body.contains(check)) fill(body, form);
    },
  };
}
