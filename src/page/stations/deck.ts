// Station 5: the deck on its sheets; or finished pages corrected; or a layer of guides.
import { actionButton, el, fill } from "../dom";
import { exampleBack, exampleFronts } from "../example-cards";
import type { InputFile } from "../engine-types";
import { sheetPicture, type Correction, type Grid } from "../pictures";
import { Program, type Finding, type Part } from "../program";
import {
  cautionBox, checkField, distinctNames, dropPlace, emptyState, more, note, Outcome, pictureChoice, said, saveLink, selectField, textBlob,
  textField, warningsOf, type App, type Station,
} from "../ui";
import { PAPERS } from "./sheets";
import { cardFields } from "./todo";
import { enlarged } from "./reading";
import { SCAN_FILES } from "./scans";

interface Imposed {
  parts?: Part[];
  paper_mm: [number, number];
  turn: string;
  cards: number;
  sheets: number;
  grid: Grid;
  back_moved: Correction | null;
  oversize: { x_mm: number; y_mm: number } | null;
  back_enlargement: number | null;
  placed: { card: string; sheet: number; row: number; column: number; front: string; back: string | null }[];
  warnings: Finding[];
}

const ART = ".png,.jpg,.jpeg,.tif,.tiff,.pdf";
const LIST = ".csv,text/csv";
const SMALL_PX = 180;

/** A small picture of a PNG or JPEG, at its own shape; nothing for what a browser cannot show. */
async function small(file: File): Promise<string | null> {
  if (!/\.(png|jpe?g)$/i.test(file.name)) return null;
  try {
    const bitmap = await createImageBitmap(file, { resizeWidth: SMALL_PX, resizeQuality: "medium" });
    const sheet = el("canvas", { width: bitmap.width, height: bitmap.height });
    sheet.getContext("2d")!.drawImage(bitmap, 0, 0);
    bitmap.close();
    const blob = await new Promise<Blob | null>((done) => sheet.toBlob(done, "image/png"));
    return blob ? URL.createObjectURL(blob) : null;
  } catch {
    return null; // broken: the program will say so by name
  }
}

class Pictures {
  readonly node = el("div", { class: "given" });
  files: [string, File][] = [];
  readonly small = new Map<string, string>();
  constructor(private what: string, private changed: () => void) {
    this.show();
  }
  async add(files: File[], replace = false): Promise<void> {
    const all = replace ? files : [...this.files.map(([, file]) => file), ...files];
    this.files = distinctNames(all);
    this.show();
    for (const [name, file] of this.files) {
      if (this.small.has(name) && !replace) continue;
      const address = await small(file);
      if (address) this.small.set(name, address);
    }
    this.show();
    this.changed();
  }
  private show(): void {
    if (!this.files.length) return fill(this.node);
    const clear = el("button", { type: "button", class: "quiet" }, `Remove ${this.what}`);
    clear.addEventListener("click", () => {
      this.files = [];
      for (const address of this.small.values()) URL.revokeObjectURL(address);
      this.small.clear();
      this.show();
      this.changed();
    });
    const first = this.files.slice(0, 24);
    fill(
      this.node,
      el("p", {}, el("b", {}, `${this.files.length} ${this.files.length === 1 ? "file" : "files"}`), " ", clear),
      el(
        "ul",
        { class: "art" },
        first.map(([name]) => {
          const address = this.small.get(name);
          return el("li", {}, address ? el("img", { src: address, alt: "" }) : el("span", { class: "no-art", "aria-hidden": "true" }, name.split(".").pop()), el("small", { title: name }, name));
        }),
        this.files.length > first.length ? el("li", {}, `and ${this.files.length - first.length} more`) : null,
      ),
    );
  }
}

/** What follows in the workshop, each caution at its step. */
function afterwards(marked: boolean, cutCard: boolean): HTMLElement {
  return el(
    "div",
    {},
    el("h3", {}, "Then print, dry, laminate, cut"),
    el(
      "ol",
      { class: "steps" },
      el(
        "li",
        {},
        el("b", {}, "Print one sheet first "),
        "and hold it against a lamp before you print the rest. ",
        marked ? "In the waste stand pairs of circles with a dot behind each: dot inside the inner circle is well met; dot across the outer circle: put that sheet aside. " : "",
        "If the error has doubled, the sheet was turned on the other edge.",
        cautionBox("Feed no paper thicker or heavier than the printer’s manual allows, and thick paper by the straight path where there is one. Never pull at a jam before the printer is off. Do not look into a bare lamp, and keep paper off hot ones. The maker’s manual comes first."),
      ),
      el("li", {}, el("b", {}, "Let the prints dry, "), "the fronts before the backs, and both before you laminate or cut.", cautionBox("A damp sheet sticks in a laminator, and tears in a cutter and in the printer.")),
      el(
        "li",
        {},
        el("b", {}, "Scan a few sheets, both sides, "),
        "before they are laminated: they tell ",
        el("a", { href: "#next" }, "next time"),
        " whether the printer still behaves.",
      ),
      el("li", {}, el("b", {}, "Laminate, if you want to."), cautionBox("Laminator rollers are hot: sealed edge of the pouch first and straight, no empty or cut-down pouches, no more heat than the pouch allows; on a jam switch off and unplug; ventilate. Never laminate damp prints, and never put a laminated sheet into a printer. The maker’s manual comes first.")),
      el("li", {}, el("b", {}, cutCard ? "Cut in the order of the cut card." : "Cut."), cautionBox("Guard on the cutter, fingers behind the clamp, blade locked when idle. Children only with the person in charge. The maker’s manual comes first.")),
    ),
  );
}

export function deckStation(app: App): Station {
  // ---- lay out pictures
  const outcome = new Outcome(app);
  const fronts = new Pictures("the fronts", () => {});
  const backs = new Pictures("the backs", () => {});
  const fields = cardFields(app);
  const paper = selectField(app, "deck.paper", "Paper", [["", "as the profile says"], ...PAPERS.slice(0, 4)]);
  const turn = selectField(app, "deck.turn", "How you turn the sheet over", [["", "as the profile says"], ["long-edge", "on the long edge"], ["short-edge", "on the short edge"]]);
  const margin = textField(app, "deck.margin", "White margin of the printer", { otherwise: "5", hint: "mm at every edge, or left,top,right,bottom" });
  const fit = selectField(app, "deck.fit", "How the pictures fill the card", [["fill", "cover it, cut off the excess"], ["fit", "show all of the picture"], ["crop", "at the size that the file states"]]);
  const frontBleed = textField(app, "deck.front-bleed", "Bleed that the fronts have", { otherwise: "0", hint: "mm, or such as 8px" });
  const backBleed = textField(app, "deck.back-bleed", "Bleed that the backs have", { otherwise: "0", hint: "mm, or such as 8px" });
  const edge = selectField(app, "deck.edge", "Edge of the back", [["auto", "look at the pictures"], ["white", "white"], ["plain", "one plain colour"], ["pattern", "a pattern that repeats"], ["picture", "a picture"]]);
  const oversize = textField(app, "deck.oversize", "Oversize of the backs", { hint: "how far the backs reach beyond the cut on each side, such as 0.7 or 8px; empty: as the profile needs it" });
  const job = textField(app, "deck.job", "Name of the job", { hint: "printed in the waste; may stay empty" });
  const paperThick = textField(app, "deck.paper-thickness", "Thickness of the paper", { hint: "such as 220um, 0.22mm, 9mil or 200gsm; may stay empty" });
  const pouchThick = textField(app, "deck.pouch-thickness", "Thickness of a pouch film", { hint: "such as 80um or 3mil; may stay empty" });
  const laminated = textField(app, "deck.laminated", "Laminated size", { hint: "measured/printed mm of a finished sheet, such as 263.6/264; may stay empty" });
  const ticks = selectField(app, "deck.ticks", "Ticks beside the guides", [["0", "none"], ["0.1", "every 0.1 mm"], ["0.25", "every 0.25 mm"]]);
  const radius = textField(app, "deck.radius", "Corner radius in the preview", { otherwise: "0", hint: "mm" });
  const flipped = checkField(app, "deck.head-to-foot", "Backs stand on their head");
  const guides = checkField(app, "deck.guides", "Cut guides", true);
  const marks = checkField(app, "deck.marks", "Marks in the waste, for the next time", true);
  const lastPage = checkField(app, "deck.last-page", "Cut card as last page of the PDF");
  const blocks = selectField(app, "deck.blocks", "Blocks on a sheet", [["auto", "as usual for the paper"], ["1", "one"], ["2", "two"]], { hint: "two, with a waste strip between, on A3 and Tabloid; else one" });
  let fitted: string | null = null;

  function imposeArguments(): { argv: string[]; files: InputFile[] } {
    const profile = app.work.profile()?.[1];
    const list = fronts.files.find(([name]) => /\.csv$/i.test(name));
    const argv = ["impose", "--fronts", list ? `fronts/${list[0]}` : "fronts", "--card", fields.card.value(), "--grid", fields.grid.value() || "auto"];
    argv.push("--gutter", fields.gutter.value() || "0", "--ppi", fields.ppi.value() || "300", "--margin", margin.value() || "5", "--fit", fit.value());
    argv.push("--front-bleed", frontBleed.value() || "0", "--back-bleed", backBleed.value() || "0", "--back-edge", edge.value(), "--ticks", ticks.value(), "--blocks", blocks.value());
    const files: InputFile[] = fronts.files.map(([name, data]) => ({ path: `fronts/${name}`, data }));
    // A list may name backs that lie beside it.
    if (backs.files.length === 1) argv.push("--back", `backs/${backs.files[0]![0]}`);
    else if (backs.files.length > 1) argv.push("--back", "backs");
    files.push(...backs.files.map(([name, data]) => ({ path: `backs/${name}`, data })));
    if (profile) {
      argv.push("--profile", profile.name, "--coverage", app.work.choice("coverage", "0.95"), "--confidence", app.work.choice("confidence", "0.9"));
      files.push({ path: profile.name, data: profile.text });
    }
    for (const [option, value] of [
      ["--paper", paper.value()], ["--turn", turn.value()], ["--oversize", oversize.value()], ["--job", job.value()],
      ["--paper-thickness", paperThick.value()], ["--pouch-thickness", pouchThick.value()], ["--laminated-mm", laminated.value()],
      ["--corner-radius", radius.value()],
    ] as const)
      if (value) argv.push(option, value);
    if (flipped.value()) argv.push("--head-to-foot");
    if (!guides.value()) argv.push("--no-guides");
    if (!marks.value()) argv.push("--no-marks");
    if (lastPage.value()) argv.push("--cut-card", "last-page");
    if (fitted) {
      argv.push("--fitted-to", "fitted/fronts.json"); // a profile may have that name
      files.push({ path: "fitted/fronts.json", data: fitted });
    }
    return { argv, files };
  }

  function pictured(made: Imposed): HTMLElement {
    const base = (path: string | null) => (path ?? "").split("/").pop()!.replace(/#\d+$/, "");
    const box = el("div");
    const show = (sheet: number) =>
      fill(
        box,
        sheetPicture(
          made.paper_mm,
          made.turn,
          made.grid,
          made.placed.filter((one) => one.sheet === sheet),
          made.back_moved ?? { dx_mm: 0, dy_mm: 0 },
          made.oversize ?? { x_mm: 0, y_mm: 0 },
          made.back_enlargement ?? 1,
          (path) => fronts.small.get(base(path)) ?? backs.small.get(base(path)) ?? null,
        ),
      );
    show(1);
    const pick = el("select", { "aria-label": "Sheet to look at" }, Array.from({ length: made.sheets }, (_, at) => el("option", { value: at + 1 }, `Sheet ${at + 1} of ${made.sheets}`)));
    pick.addEventListener("change", () => show(Number(pick.value)));
    return el("div", {}, el("h3", {}, "The sheet as it will print"), made.sheets > 1 ? pick : null, box, el("p", { class: "quiet-words" }, "Solid: the cut. Dashed: how far each back reaches. The backs follow the fronts of this printer, so they stand a little askew of the cut. Guides and marks in the waste are not drawn here."));
  }

  const layOut = actionButton("Lay out the deck", async () => {
    await outcome.run("Laying out", async (onProgress) => {
      if (!fronts.files.length) throw new Error("Give the fronts first, above: pictures, PDFs, or a list with its pictures.");
      const { argv, files } = imposeArguments();
      const units = app.work.choice("units", "mm");
      const made = await app.program.json<Imposed>([...argv, "--out", "deck.pdf", ...(app.work.profile() ? ["--preview", "preview"] : []), "--units", units], files, onProgress);
      app.work.choose("deck.made", "yes");
      const cutCard = made.files.get("deck-cutcard.pdf");
      const ofPreview = Program.part(made.json, "preview");
      const words = { front: "front", "back-best": "back as drawn", "back-typical": "typical back", "back-worst": "the worst that was promised", "back-band": "where the cut may fall" };
      const previews = Object.entries(words).flatMap(([name, about]) => {
        const picture = made.files.get(`preview/${name}.png`);
        return picture ? [[about, URL.createObjectURL(new Blob([picture], { type: "image/png" }))] as const] : [];
      });
      return [
        note("done", el("p", {}, `${made.json.cards} cards on ${made.json.sheets} ${made.json.sheets === 1 ? "sheet" : "sheets"}.`)),
        el("div", { class: "row" }, saveLink("deck.pdf", made.files.get("deck.pdf")), cutCard ? saveLink("deck-cutcard.pdf", cutCard, "Save the cut card") : null),
        warningsOf(made.json),
        pictured(made.json),
        said(made.text.filter((sentence) => sentence !== ofPreview)),
        previews.length
          ? [
              el("h3", {}, "The worst card, cut out"),
              said([ofPreview]),
              el(
                "ul",
                { class: "previews" },
                previews.map(([about, address]) => {
                  const button = el("button", { type: "button", class: "thumb whole", "aria-label": `Enlarge: ${about}` }, el("img", { src: address, alt: "" }));
                  button.addEventListener("click", () => enlarged(about, address));
                  return el("li", {}, button, el("small", {}, about));
                }),
              ),
            ]
          : null,
        afterwards(marks.value(), true),
      ];
    });
  }, { class: "main" });

  const exampleArt = actionButton("Take nine example cards", async () => {
    await fronts.add(await exampleFronts(), true);
    await backs.add([await exampleBack()], true);
  }, { class: "quiet" });

  const fittedOutcome = new Outcome(app);
  const fit2 = more(
    "Fit each back to its own front",
    el("p", {}, "Part of the error is on the paper before the back is printed. Lay out the deck, print its fronts, let them dry and scan them with black beyond all four edges. The backs are then made for these very sheets."),
    dropPlace({ what: "scans of printed fronts", button: "Choose scans", accept: SCAN_FILES, folder: true, camera: true }, (files) => {
      void fittedOutcome.run("Reading the fronts", async (onProgress) => {
        const named = distinctNames(files);
        const inputs = named.map(([name, data]) => ({ path: `scans/${name}`, data }));
        const made = await app.program.text(["measure", "--fronts", ...inputs.map((one) => one.path), "--out", "fronts.json"], inputs, onProgress);
        const text = await made.files.get("fronts.json")!.text();
        fitted = text;
        const off = el("button", { type: "button", class: "quiet" }, "Do not fit");
        off.addEventListener("click", () => {
          fitted = null;
          fittedOutcome.show();
        });
        return [said(made.text), note("done", el("p", {}, "“Lay out the deck” now makes backs alone, each for the sheet whose number is printed in its waste.")), el("div", { class: "row" }, saveLink("fronts.json", textBlob(text)), off)];
      });
    }),
    fittedOutcome.node,
  );

  const layOutForm = el(
    "div",
    {},
    el("p", { class: "quiet-words" }, "No pictures at hand? ", exampleArt),
    el("h3", {}, "Fronts"),
    dropPlace({ what: "fronts", button: "Choose fronts", accept: `${ART},${LIST}`, folder: true, hint: "PNG, JPEG, TIFF or PDF; one of each card. For other numbers add a list, a CSV file with the columns card, quantity, front, back, note" }, (files) => void fronts.add(files)),
    fronts.node,
    el("h3", {}, "Back"),
    dropPlace({ what: "one back for all, or one for each front,", button: "Choose backs", accept: ART, hint: "PNG, JPEG, TIFF or PDF" }, (files) => void backs.add(files)),
    backs.node,
    el("h3", {}, "Card and sheet"),
    el("div", { class: "form" }, fields.card.node, fields.ppi.node, fields.grid.node, fields.gutter.node, paper.node, turn.node, margin.node, fit.node),
    more(
      "More choices",
      el("div", { class: "form" }, frontBleed.node, backBleed.node, edge.node, oversize.node, blocks.node, job.node, ticks.node, paperThick.node, pouchThick.node, laminated.node, radius.node),
      el("div", { class: "row ticks" }, flipped.node, guides.node, marks.node, lastPage.node),
    ),
    fit2,
    layOut,
    outcome.node,
  );

  // ---- correct finished pages
  const correctOutcome = new Outcome(app);
  let pages: File[] = [];
  const pagesWords = el("p");
  const backPages = textField(app, "correct.backs", "Pages that are backs", { hint: "such as 2,4; empty: every second" });
  const pagePpi = textField(app, "correct.ppi", "Pixels per inch of the pictures", { hint: "empty: they cover the page", numeric: true });
  const only = selectField(app, "correct.out", "For two pictures, make", [["pdf", "a PDF of both"], ["png", "the moved back as PNG"], ["tif", "the moved back as TIFF"]]);
  const correct = actionButton("Correct the backs", async () => {
    const profile = app.work.profile()?.[1];
    await correctOutcome.run("Correcting", async (onProgress) => {
      if (!pages.length) throw new Error("Give a two-sided PDF, or two pictures of whole pages: front and back.");
      if (!profile) throw new Error("No printer is known yet. Learn it first, or open a profile.");
      const named = distinctNames(pages).map(([name, data]): InputFile => ({ path: `pages/${name.replace(/,/g, "_")}`, data }));
      const pair = named.length > 1;
      const ending = pair ? only.value() : "pdf";
      const stem = pages[pages.length - 1]!.name.replace(/\.[^.]+$/, "");
      const out = `${stem}-corrected.${ending}`;
      const argv = ["correct", named.slice(0, 2).map((one) => one.path).join(","), "--profile", profile.name, "--out", out];
      if (backPages.value() && !pair) argv.push("--backs", backPages.value());
      if (pagePpi.value() && pair) argv.push("--ppi", pagePpi.value());
      const made = await app.program.text(argv, [...named, { path: profile.name, data: profile.text }], onProgress);
      app.work.choose("deck.made", "yes");
      return [el("div", { class: "row" }, [...made.files].map(([path, blob]) => saveLink(path.split("/").pop()!, blob))), said(made.text), afterwards(false, false)];
    });
  }, { class: "main" });
  const correctForm = el(
    "div",
    {},
    el("p", {}, "Give a two-sided PDF whose pages are front, back, front, back; or two pictures of whole pages, first the front, then the back."),
    dropPlace({ what: "the PDF, or two pictures,", button: "Choose pages", accept: ART }, (files) => {
      pages = files.length > 1 || /\.pdf$/i.test(files[0]!.name) || !pages.length || /\.pdf$/i.test(pages[0]!.name) ? files : [...pages.slice(-1), ...files];
      fill(pagesWords, pages.length === 1 && !/\.pdf$/i.test(pages[0]!.name) ? `Front: ${pages[0]!.name}. Now give the back.` : pages.length > 1 ? `Front: ${pages[0]!.name}. Back: ${pages[1]!.name}.` : pages[0]!.name);
    }),
    pagesWords,
    el("div", { class: "form" }, backPages.node, pagePpi.node, only.node),
    correct,
    correctOutcome.node,
  );

  // ---- guides
  const guidesOutcome = new Outcome(app);
  const guideFields = cardFields(app);
  const layer = actionButton("Make the layer", async () => {
    const profile = app.work.profile()?.[1];
    await guidesOutcome.run("Drawing the layer", async () => {
      if (!profile) throw new Error("No printer is known yet. Learn it first, or open a profile.");
      const argv = ["correct", "--guides", "layer", "--card", guideFields.card.value(), "--grid", guideFields.grid.value() || "auto", "--gutter", guideFields.gutter.value() || "0", "--ppi", guideFields.ppi.value() || "300", "--margin", margin.value() || "5", "--profile", profile.name];
      const made = await app.program.text(argv, [{ path: profile.name, data: profile.text }]);
      return [el("div", { class: "row" }, [...made.files].map(([path, blob]) => saveLink(path, blob))), said(made.text), afterwards(false, false)];
    });
  }, { class: "main" });
  const guidesForm = el(
    "div",
    {},
    el("p", {}, "A transparent layer to lie over your page of backs in an image editor: it shows where each back belongs and how far it must reach."),
    el("div", { class: "form" }, guideFields.card.node, guideFields.ppi.node, guideFields.grid.node, guideFields.gutter.node),
    layer,
    guidesOutcome.node,
  );

  const withoutProfile = el("div");
  const needs = (form: HTMLElement) => {
    if (app.work.profile()) return [form];
    return [emptyState(app, "No printer is known yet. Learn yours from test sheets, or open a profile that you saved.", [["printer", "To the printer"]])];
  };
  const shown = el("div");
  const kind = pictureChoice(
    app,
    "deck.kind",
    "What have you got?",
    [
      { value: "layout", label: "Pictures of cards", words: "fronts and a back, to be laid out" },
      { value: "correct", label: "Finished pages", words: "a two-sided PDF or two pictures, to be corrected" },
      { value: "guides", label: "An image editor", words: "and I place the backs myself, over a layer of guides" },
    ],
    () => refresh(),
  );
  let now = "";
  function refresh(): void {
    const known = app.work.profile() !== null;
    const next = `${kind.value()} ${known}`;
    if (next === now) return;
    now = next;
    fill(withoutProfile, known ? null : note("warning", el("p", {}, "No printer is known yet, so the backs are neither moved nor enlarged. You can begin like that: scan the sheets of this deck before you cut them, and the next deck is moved.")));
    if (kind.value() === "layout") fill(shown, withoutProfile, layOutForm);
    else fill(shown, needs(kind.value() === "correct" ? correctForm : guidesForm));
  }

  return {
    id: "deck",
    title: "Deck",
    lead: "Sheets ready to print, the backs moved and enlarged as your printer needs it.",
    node: el("div", {}, kind.node, shown),
    done: () => app.work.choice("deck.made") === "yes",
    refresh,
  };
}
