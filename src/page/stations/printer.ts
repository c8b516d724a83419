// Station 3: what was learned of the printer; sheets left out; profiles kept, saved, compared.
import { actionButton, el, fill } from "../dom";
import { figuresOf } from "../figures";
import { Program, type Finding, type Part } from "../program";
import {
  checkField, dropPlace, emptyState, more, note, Outcome, plainName, said, saveLink, textBlob, textField, warningsOf, wrong,
  type App, type Station,
} from "../ui";
import type { Profile } from "../work";

interface ProfileJson {
  printer: string;
  excluded: (Finding & { source: string; sheet: number })[];
  warnings?: Finding[];
}

interface ReportJson {
  figures: { id: string; title: string; alt: string; caption: string; columns: string[]; rows: string[][] }[];
}

/** What a profile file says, by the program; throws its refusal when it is none. */
export async function learnedOf(app: App, name: string, text: string): Promise<Pick<Profile, "learned" | "note" | "backs">> {
  const { json } = await app.program.json<{ parts?: Part[] }>(["profiles", "show", name], [{ path: name, data: text }]);
  const part = (about: string) => Program.part(json, about);
  return { learned: part("learned").split("\n"), note: part("note"), backs: part("backs") };
}

export async function keepProfile(app: App, file: File): Promise<void> {
  const text = await file.text();
  const name = plainName(file.name, ".json");
  await app.work.addProfile({ name, text, ...(await learnedOf(app, name, text)) });
}

/** Makes a profile of the readings that count, with the sheets left out that were unticked. */
export async function learn(
  app: App,
  setUp: { printer: string; feed: string; stock: string; quality: string },
  flags: string[],
): Promise<{ json: ProfileJson; key: string }> {
  const readings = app.work.counting().map(([, one]) => one);
  const name = `${setUp.printer.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "printer"}.json`;
  const argv = ["profile", ...readings.map((one) => one.name), "--printer", setUp.printer];
  for (const [option, words] of [["--feed", setUp.feed], ["--stock", setUp.stock], ["--quality", setUp.quality]] as const)
    if (words) argv.push(option, words);
  for (const [sheet, why] of leftOut(app)) argv.push("--exclude", sheet, "--why", why || "left out by hand");
  const files = readings.map((one) => ({ path: one.name, data: one.text }));
  const made = await app.program.json<ProfileJson>([...argv, ...flags, "--out", "made-just-now.json"], files);
  const text = await made.files.get("made-just-now.json")!.text();
  const same = app.work.profiles().find(([, one]) => {
    const file = app.work.profileFile(one);
    return file.printer === setUp.printer && file.feed === setUp.feed && file.stock === setUp.stock && file.quality === setUp.quality;
  });
  const profile: Profile = { name, text, ...(await learnedOf(app, name, text)) };
  return { json: made.json, key: await app.work.addProfile(profile, same?.[0]) };
}

// Kept with the choices: "readings.json:3" -> why.
function allLeftOut(app: App): Record<string, string> {
  try {
    const all = JSON.parse(app.work.choice("left-out", "{}")) as Record<string, unknown> | null;
    return Object.fromEntries(Object.entries(all ?? {}).map(([sheet, why]) => [sheet, String(why)]));
  } catch {
    return {}; // damaged: all sheets count, as the ticks show
  }
}
function leftOut(app: App): [string, string][] {
  const names = new Set(app.work.counting().map(([, one]) => one.name));
  return Object.entries(allLeftOut(app)).filter(([sheet]) => names.has(sheet.slice(0, sheet.lastIndexOf(":"))));
}
function leaveOut(app: App, sheet: string, why: string | null): void {
  const all = allLeftOut(app);
  if (why === null) delete all[sheet];
  else all[sheet] = why;
  app.work.choose("left-out", JSON.stringify(all));
}

export function printerStation(app: App): Station {
  const outcome = new Outcome(app);
  const body = el("div");
  const keptBox = el("div", { class: "keeping" });
  const printer = textField(app, "printer.name", "Name of the printer", { hint: "in your words" });
  const feed = textField(app, "printer.feed", "Tray and guides", { hint: "such as rear tray; may stay empty" });
  const stock = textField(app, "printer.stock", "Paper stock", { hint: "such as 220 g matt; may stay empty" });
  const quality = textField(app, "printer.quality", "Quality setting", { hint: "as in the print dialog; may stay empty" });
  const keep = checkField(app, "printer.keep", "Count in misfed sheets");
  const doubtful = checkField(app, "printer.doubtful", "Count in doubtful sheets");

  const learnButton = actionButton("Learn this printer", async () => {
    await outcome.run("Learning", async () => {
      if (!printer.value()) throw new Error("“Name of the printer”: say which printer it is, in your words.");
      const flags = [...(keep.value() ? ["--keep"] : []), ...(doubtful.value() ? ["--keep-doubtful"] : [])];
      const setUp = { printer: printer.value(), feed: feed.value(), stock: stock.value(), quality: quality.value() };
      const { json } = await learn(app, setUp, flags);
      return [
        note("done", el("p", {}, "Learned, and kept below."), el("div", { class: "row" }, el("a", { class: "button main", href: "#todo" }, "Go on: what to do"))),
        warningsOf(json),
        json.excluded.length
          ? note("warning", el("p", {}, "These sheets do not count:"), el("ul", {}, json.excluded.map((one) => el("li", {}, `sheet ${one.sheet} of ${one.source}: ${one.message}`))))
          : null,
      ];
    });
  }, { class: "main" });

  // ---- sheets that count
  const sheetsBox = el("div");
  let sheetsOf = "";
  function showSheets(): void {
    const readings = app.work.counting();
    const now = readings.map(([key, one]) => `${key}${one.name}${one.text.length}`).join();
    if (now === sheetsOf) return; // keeps the focus where it is
    sheetsOf = now;
    const left = new Map(leftOut(app));
    fill(
      sheetsBox,
      el("h3", {}, "Sheets that count"),
      readings.length > 1
        ? el("p", {}, `Readings that count: ${readings.map(([, one]) => one.name).join(", ")}. `, el("a", { href: "#scans" }, "Choose which"), ".")
        : null,
      readings.map(([, one]) =>
        el(
          "details",
          { class: "sheets-counted", open: readings.length === 1 },
          el("summary", {}, `Sheets of ${one.name}`),
          el("p", { class: "quiet-words" }, "Untick a sheet when you know that something went wrong with it."),
          el(
            "ul",
            { class: "sheet-ticks" },
            app.work.readingsFile(one).sheets.map(({ sheet }) => {
              const id = `${one.name}:${sheet}`;
              const tick = el("input", { type: "checkbox" });
              tick.checked = !left.has(id);
              const why = el("input", { type: "text", placeholder: "why not?", "aria-label": `Why sheet ${sheet} does not count`, value: left.get(id) ?? "" });
              why.hidden = tick.checked;
              tick.addEventListener("change", () => {
                why.hidden = tick.checked;
                leaveOut(app, id, tick.checked ? null : why.value.trim());
                if (!tick.checked) why.focus();
              });
              why.addEventListener("change", () => leaveOut(app, id, why.value.trim()));
              return el("li", {}, el("label", { class: "check" }, tick, ` sheet ${sheet}`), why);
            }),
          ),
        ),
      ),
    );
  }

  // ---- what was learned
  function profileCard(key: string, one: Profile, current: boolean): HTMLElement {
    const file = app.work.profileFile(one);
    const use = el("input", { type: "radio", name: "profile-in-use" });
    use.checked = current;
    use.addEventListener("change", () => {
      app.work.choose("profile", key);
      refresh();
    });
    const forget = el("button", { type: "button", class: "quiet", "aria-label": `Forget ${one.name}` }, "Forget");
    forget.addEventListener("click", () => void app.work.forget(key));
    const words = [file.feed, file.stock, file.quality].filter(Boolean).join(", ");
    return el(
      "li",
      {},
      el("label", { class: "check" }, use, " ", el("b", {}, file.printer)),
      el("span", {}, `${words ? `${words}; ` : ""}${file.n_sheets} sheets`),
      el("span", { class: "row" }, saveLink(one.name, () => textBlob(one.text), `Save ${one.name}`), forget),
    );
  }

  const learnedBox = el("div");
  let learnedShown = "";
  function showLearned(): void {
    const current = app.work.profile();
    const now = current ? `${current[0]}${current[1].text}` : "";
    if (now === learnedShown) return;
    learnedShown = now;
    if (!current) return fill(learnedBox);
    const [, one] = current;
    const pictures = new Outcome(app);
    const show = actionButton("Show it in pictures", async () => {
      show.hidden = await pictures.run("Drawing", async (onProgress) => {
        const made = await app.program.json<ReportJson>(["report", one.name, "--out", "report.html"], [{ path: one.name, data: one.text }], onProgress);
        const html = await made.files.get("report.html")!.text();
        return [el("div", { class: "figures" }, figuresOf(html, made.json.figures, ["feeds", "trend", "field", "shares"]))];
      });
    });
    fill(
      learnedBox,
      el("h3", {}, `What was learned of ${app.work.profileFile(one).printer}`),
      said(one.learned),
      show,
      pictures.node,
      more("A note to pin up above the printer", el("pre", { class: "pinned", tabindex: 0 }, one.note), saveLink("note.txt", textBlob(one.note, "text/plain"), "Save the note")),
    );
  }

  const loadOutcome = new Outcome(app);
  const load = dropPlace({ what: "profiles", button: "Open a profile", accept: ".json", hint: "a file saved here or by the command-line program, this year or earlier" }, (files) => {
    void loadOutcome.run("Opening", async () => {
      const bad: HTMLElement[] = [];
      for (const file of files) await keepProfile(app, file).catch((error) => bad.push(wrong(error)));
      return bad.length ? bad : [note("done", el("p", {}, "Opened."))];
    });
  });

  // ---- compare
  const compareOutcome = new Outcome(app);
  const compareBox = el("div");
  function showCompare(): void {
    const all: [string, string, string][] = [
      ...app.work.profiles().map(([, one]): [string, string, string] => [`profiles/${one.name}`, `profile ${one.name}`, one.text]),
      ...app.work.readings().map(([, one]): [string, string, string] => [`readings/${one.name}`, `readings ${one.name}`, one.text]),
    ];
    if (all.length < 2) return fill(compareBox, el("p", {}, "This needs two profiles or readings: of another tray, paper or way of turning, for example."));
    const pick = (label: string, at: number) => {
      const id = `compare-${at}`;
      const input = el("select", { id, value: all[at]![0] }, all.map(([path, words]) => el("option", { value: path }, words)));
      return { node: el("div", { class: "field" }, el("label", { for: id }, label), input), input };
    };
    const one = pick("This", 0);
    const other = pick("with this", 1);
    fill(
      compareBox,
      el("div", { class: "form" }, one.node, other.node),
      actionButton("Compare", async () => {
        await compareOutcome.run("Comparing", async () => {
          const paths = [one.input.value, other.input.value];
          if (paths[0] === paths[1]) throw new Error("Choose two different ones.");
          const files = all.filter(([path]) => paths.includes(path)).map(([path, , data]) => ({ path, data }));
          return [said((await app.program.text(["compare", ...paths], files)).text)];
        });
      }),
    );
  }
  const compare = more("Compare two set-ups", compareBox, compareOutcome.node);

  function refresh(): void {
    const some = app.work.counting().length > 0;
    if (!some) sheetsOf = "";
    if (some && !body.contains(learnButton))
      fill(body, el("div", { class: "form" }, printer.node, feed.node, stock.node, quality.node), sheetsBox, el("div", { class: "row ticks" }, keep.node, doubtful.node), el("p", { class: "quiet-words" }, "Unless you tick these, sheets that went in askew or could not be read well are left out, and named."), learnButton, outcome.node);
    else if (!some)
      fill(body, emptyState(app, "No sheets have been read yet. Read the scans of your test sheets first, or open a profile that you saved.", [["scans", "To the scans"]]));
    if (some) showSheets();
    showLearned();
    const profiles = app.work.profiles();
    const current = app.work.profile()?.[0];
    fill(
      keptBox,
      el("h3", {}, "Profiles that are kept"),
      profiles.length > 1 ? el("p", { class: "quiet-words" }, "The chosen one is used by all stations.") : null,
      profiles.length
        ? el("ul", { class: "kept" }, profiles.map(([key, one]) => profileCard(key, one, key === current)))
        : el("p", {}, "None yet. A profile is what was learned of one printer with one tray, paper and quality; make one for each."),
    );
    showCompare();
  }

  return {
    id: "printer",
    title: "Printer",
    lead: "What the sheets tell of your printer: how far off it always is, and how much it varies from sheet to sheet.",
    node: el("div", {}, body, learnedBox, keptBox, load, loadOutcome.node, compare),
    done: () => app.work.profiles().length > 0,
    refresh,
  };
}
