// Station 4: what to do with the backs, for cards of a size.
import { actionButton, el, fill } from "../dom";
import type { InputFile } from "../engine-types";
import { figuresOf } from "../figures";
import { Program, type Finding, type Part } from "../program";
import {
  checkField, dropPlace, emptyState, more, Outcome, said, saveLink, selectField, textField, warningsOf,
  type App, type Field, type Station,
} from "../ui";

interface Advice {
  parts?: Part[];
  profile: string;
  request: { ppi: number };
  total_px: { width: number; height: number };
  editor: { canvas_px: [number, number]; right_px: number; down_px: number } | null;
  warnings?: Finding[];
}
interface Report {
  advice: Advice;
  figures: { id: string; title: string; alt: string; caption: string; columns: string[]; rows: string[][] }[];
  warnings?: Finding[];
}

const CARDS = ["63x88", "63.5x88.9", "57.15x88.9", "70x120", "44.45x63.5", "44x67", "70x70", "53.98x85.6"];

/** The fields of a card and its sheet, shared by the advice and the deck. */
export function cardFields(app: App): { card: Field; ppi: Field; grid: Field; gutter: Field } {
  return {
    card: textField(app, "card", "Card", { otherwise: "63x88", suggest: CARDS, hint: "width x height: 63x88 (mm), 744x1039px, or a name such as poker, bridge, tarot" }),
    ppi: textField(app, "ppi", "Pixels per inch", { otherwise: "300", numeric: true }),
    grid: textField(app, "grid", "Cards on a sheet", { otherwise: "auto", hint: "columns x rows, such as 3x3, or auto" }),
    gutter: textField(app, "gutter", "Gutter between cards", { otherwise: "0", hint: "mm, or such as 12px" }),
  };
}

export function cardArguments(fields: ReturnType<typeof cardFields>): string[] {
  return ["--card", fields.card.value(), "--grid", fields.grid.value() || "auto", "--gutter", fields.gutter.value() || "0", "--ppi", fields.ppi.value() || "300"];
}

const right = (px: number) => (px < 0 ? `${-px} px to the left` : px > 0 ? `${px} px to the right` : "not left or right");
const down = (px: number) => (px < 0 ? `${-px} px up` : px > 0 ? `${px} px down` : "not up or down");

export function todoStation(app: App): Station {
  const outcome = new Outcome(app);
  const pictures = new Outcome(app);
  const body = el("div");
  const card = cardFields(app);
  const cards = textField(app, "cards", "Cards wanted", { numeric: true, hint: "to hear how many sheets to print; may stay empty" });
  const border = textField(app, "border", "Border of the back", { hint: "mm, or such as 47px, to hear how even it will be; may stay empty" });
  const today = textField(app, "today", "Your backs are larger today by", { hint: "both sides together, such as 16px; may stay empty" });
  const edge = selectField(app, "edge", "Edge of the back", [
    ["auto", "not sure: tell me of each"],
    ["white", "white"],
    ["plain", "one plain colour"],
    ["pattern", "a pattern that repeats"],
    ["picture", "a picture"],
  ]);
  const units = selectField(app, "units", "Say distances first in", [["mm", "millimetres"], ["px", "pixels"], ["in", "inches"]]);

  // ---- what if
  const coverage = selectField(app, "coverage", "Cards free of slivers", [["0.95", "95 of 100"], ["0.8", "80 of 100"], ["0.9", "90 of 100"], ["0.99", "99 of 100"]]);
  const confidence = selectField(app, "confidence", "How sure", [["0.9", "90 %"], ["0.8", "80 %"], ["0.95", "95 %"], ["0.99", "99 %"]]);
  const count = selectField(app, "count", "What is counted", [["card", "cards"], ["sheet", "whole sheets"]]);
  const grow = selectField(app, "grow", "How the back grows", [["equal", "the same on all sides"], ["proportional", "keeping its shape"], ["per-axis", "each way as needed"]]);
  const cut = textField(app, "cut-sd", "How unevenly you cut", { otherwise: "0", hint: "one standard deviation of an edge, mm" });
  const step = textField(app, "step", "Your editor moves in steps of", { otherwise: "0", hint: "such as 1px; 0: any" });
  const noRotation = checkField(app, "no-rotation", "Move the backs, do not turn them");
  const noScale = checkField(app, "no-scale", "Move and turn the backs, do not scale them");
  let fresh: File | null = null;
  const freshWords = el("p");
  const freshDrop = dropPlace({ what: "readings of the day", button: "Choose readings", accept: ".json", single: true, hint: "2 or 3 fresh test sheets: the shift is theirs, the spread that of the profile" }, ([file]) => {
    fresh = file!;
    const off = el("button", { type: "button", class: "quiet" }, "Without it");
    off.addEventListener("click", () => {
      fresh = null;
      fill(freshWords);
    });
    fill(freshWords, `The shift is taken from ${fresh.name}. `, off);
  });

  const argv = (name: string) => {
    const line = [name, ...cardArguments(card), "--coverage", coverage.value(), "--confidence", confidence.value()];
    line.push("--count", count.value(), "--grow", grow.value(), "--cut-sd", cut.value() || "0", "--step", step.value() || "0", "--back-edge", edge.value());
    if (cards.value()) line.push("--cards", cards.value());
    if (border.value()) line.push("--border", border.value());
    if (today.value()) line.push("--today", today.value());
    if (noRotation.value()) line.push("--no-rotation");
    if (noScale.value()) line.push("--no-scale");
    if (fresh) line.push("--recentre", "fresh/readings.json");
    return line;
  };

  async function ask(): Promise<void> {
    const current = app.work.profile();
    if (!current) return;
    const [key, profile] = current;
    pictures.show();
    const line = argv(profile.name);
    const files: InputFile[] = [{ path: profile.name, data: profile.text }, ...(fresh ? [{ path: "fresh/readings.json", data: fresh }] : [])];
    let advice: Advice | null = null;
    const fine = await outcome.run("Working it out", async (onProgress) => {
      const made = await app.program.json<Advice>(["advise", ...line, "--units", units.value()], files, onProgress);
      advice = made.json;
      const [verdict, ...others] = made.text;
      // What is said of the numbers is below them.
      const ofEditor = Program.part(made.json, "editor");
      const rest = others.filter((sentence) => sentence !== ofEditor);
      performance.mark("first-verdict");
      app.work.setAdvised({ profile: key, total_px: advice.total_px, ppi: advice.request.ppi });
      const editor = advice.editor;
      return [
        el("p", { class: "verdict" }, ...said([verdict!]).childNodes[0]!.childNodes),
        editor
          ? el(
              "div",
              { class: "numbers" },
              el("h3", {}, `In an image editor, at ${advice.request.ppi} pixels per inch`),
              el(
                "dl",
                {},
                el("div", {}, el("dt", {}, "Canvas of the back"), el("dd", {}, `${editor.canvas_px[0]} x ${editor.canvas_px[1]} px`)),
                el("div", {}, el("dt", {}, "Move it"), el("dd", {}, right(editor.right_px))),
                el("div", {}, el("dt", {}, "and"), el("dd", {}, down(editor.down_px))),
              ),
              el("p", { class: "quiet-words" }, `Seen from the back. ${Program.part(made.json, "editor_note")}`),
              el("p", { class: "quiet-words" }, "The station Deck does all of it for you, and turns the backs as well."),
            )
          : null,
        warningsOf(advice),
        said(rest),
        whole(["advise", ...line, "--verbose", "--units", units.value()], files, made.text),
        el("p", {}, el("a", { class: "button main", href: "#deck" }, "Go on: lay out the deck")),
      ];
    });
    if (!fine || !advice) return;
    await pictures.run("Drawing the pictures", async (onProgress) => {
      const made = await app.program.json<Report>(["report", ...line, "--out", "report.html", "--pdf", "report.pdf"], files, onProgress);
      const html = made.files.get("report.html")!;
      return [
        el("h3", {}, "In pictures"),
        el("div", { class: "figures" }, figuresOf(await html.text(), made.json.figures, ["yield", "sheet-map", "card-back", "more-sheets", "turn"])),
        el("div", { class: "row" }, saveLink("report.html", html, "Save the report as a web page"), saveLink("report.pdf", made.files.get("report.pdf"), "Save it as a PDF")),
      ];
    });
  }

  // All that there is to say, when it is asked for.
  function whole(words: string[], files: InputFile[], shown: string[]): HTMLElement {
    const all = new Outcome(app);
    const details = more("How sure this is, other ways to print, what more sheets would bring, how it was computed", all.node);
    details.addEventListener("toggle", () => {
      if (details.open && !all.node.hasChildNodes()) void all.run("Working it out", async () => [said((await app.program.text(words, files)).text.filter((one) => !one || !shown.includes(one)))]);
    });
    return details;
  }

  const button = actionButton("Tell me what to do", ask, { class: "main" });
  const form = [
    el("div", { class: "form" }, card.card.node, card.ppi.node, card.grid.node, card.gutter.node, cards.node, border.node, today.node, edge.node, units.node),
    more(
      "What if you asked for something else?",
      el("div", { class: "form" }, coverage.node, confidence.node, count.node, grow.node, cut.node, step.node),
      el("div", { class: "row" }, noRotation.node, noScale.node),
      el("h3", {}, "Fresh sheets of the day"),
      freshDrop,
      freshWords,
    ),
    button,
    outcome.node,
    pictures.node,
  ];

  let shownProfile = "";
  return {
    id: "todo",
    title: "What to do",
    lead: "For your cards and your sheet: how far to move the backs, how much larger than the card to make them, and how sure that is.",
    node: body,
    done: () => {
      const current = app.work.profile();
      return current !== null && app.work.advised()?.profile === current[0];
    },
    refresh: () => {
      const current = app.work.profile();
      if (!current) {
        shownProfile = "";
        fill(body, emptyState(app, "No printer is known yet. Learn yours from test sheets, or open a profile that you saved.", [["printer", "To the printer"]]));
      } else if (!body.contains(button)) fill(body, form);
      const now = current ? current[0] + current[1].text.length : "";
      if (shownProfile && now !== shownProfile) {
        outcome.show();
        pictures.show();
      }
      shownProfile = now;
    },
  };
}
