// Station 1: test sheets to print, and what to do with them.
import { actionButton, el } from "../dom";
import { testSheetPicture, turnPicture } from "../pictures";
import {
  cautionBox, more, Outcome, pictureChoice, said, saveLink, selectField, textField, warningsOf,
  type App, type Station,
} from "../ui";

export const PAPERS: [string, string][] = [
  ["a4", "A4 (210 x 297 mm)"],
  ["letter", "Letter (8.5 x 11 in)"],
  ["a3", "A3 (297 x 420 mm)"],
  ["tabloid", "Tabloid (11 x 17 in)"],
  ["other", "Another size"],
];

interface Target {
  sheets: number;
  pages: number;
  run: string;
}

export function sheetsStation(app: App): Station {
  const outcome = new Outcome(app);
  const other = textField(app, "paper.other", "Width x height", { otherwise: "", hint: "such as 210x297 (mm) or 13x19in" });
  const paper = selectField(app, "paper", "Paper", PAPERS);
  const showOther = () => (other.node.hidden = paper.value() !== "other");
  paper.input.addEventListener("change", showOther);
  showOther();
  const turn = pictureChoice(app, "turn", "How you turn the sheet over", [
    { value: "long-edge", label: "On the long edge", words: "like the page of a book", picture: turnPicture("long-edge") },
    { value: "short-edge", label: "On the short edge", words: "over its top, like a wall calendar", picture: turnPicture("short-edge") },
  ]);
  const sheets = textField(app, "sheets", "Sheets", { otherwise: "10", numeric: true, hint: "10 are a good start; fewer than 5 tell too little" });
  const passes = selectField(
    app,
    "passes",
    "Times that each sheet is fed",
    [["1", "once a side"], ["2", "twice a side"], ["3", "3 times a side"], ["4", "4 times a side"], ["5", "5 times a side"], ["6", "6 times a side"]],
    { hint: "3 sheets fed 5 times tell about as much as 10 fed once, with a third of the scans" },
  );
  const label = textField(app, "label", "Your own words", { hint: "printed on every page; may stay empty", wide: true });

  const argv = () => {
    const line = ["target", "--paper", paper.value() === "other" ? other.value() : paper.value(), "--turn", turn.value()];
    line.push("--sheets", sheets.value(), "--passes", passes.value());
    if (label.value()) line.push("--label", label.value());
    return [...line, "--out", "target.pdf", "--print-card", "print-card.pdf", "--geometry", "geometry.json"];
  };
  const make = actionButton(
    "Make the test sheets",
    async () => {
      await outcome.run("Making the test sheets", async (onProgress) => {
        const made = await app.program.json<Target>(argv(), [], onProgress);
        app.work.choose("sheets.made", "yes");
        return [
          el("h3", {}, "Your test sheets are ready"),
          el("p", {}, `${made.json.sheets} sheets to be printed on both sides, and a card to tick off what is done.`),
          el(
            "div",
            { class: "row" },
            saveLink("target.pdf", made.files.get("target.pdf"), `Save target.pdf (${made.json.pages} pages)`),
            saveLink("print-card.pdf", made.files.get("print-card.pdf"), "Save the print card"),
          ),
          warningsOf(made.json as never),
          more(
            "For programs: where every mark is",
            el("p", {}, `The run is ${made.json.run}, as on every page.`),
            saveLink("geometry.json", made.files.get("geometry.json")),
          ),
        ];
      });
    },
    { class: "main" },
  );

  const manyOutcome = new Outcome(app);
  const spread = textField(app, "plan.sd", "Spread from sheet to sheet", { otherwise: "0.2", unit: "mm", numeric: true, hint: "a guess will do" });
  const many = more(
    "How many sheets are enough?",
    el("div", { class: "form" }, spread.node),
    actionButton("Work it out", async () => {
      await manyOutcome.run("Working it out", async () => [said((await app.program.text(["plan", "--sd", spread.value()])).text)]);
    }),
    manyOutcome.node,
  );

  const node = el(
    "div",
    {},
    el("div", { class: "form" }, paper.node, other.node, sheets.node, passes.node, label.node),
    turn.node,
    make,
    outcome.node,
    el("h3", {}, "Then, with printer, punch and scanner"),
    el(
      "div",
      { class: "beside" },
      el(
        "ol",
        { class: "steps" },
        el("li", {}, el("b", {}, "Print the fronts as you print cards: "), "same feed, paper and quality. Actual size (100 %); fit to page, borderless and driver duplex off. Let them dry."),
        el("li", {}, el("b", {}, "Turn the sheets and print the backs. "), "Let them dry. Feed every sheet by the same edge."),
        el(
          "li",
          {},
          el("b", {}, "Punch each short edge once, "),
          "inside the dashed circles, when both sides are printed. Without a punch, prick the nets of pale lines with a pin.",
          cautionBox("Never feed a punched, pricked, torn or damp sheet into a printer. Keep fingers clear of the punch; prick into thick card on the table, never towards a hand. The makers’ manuals and your local rules come first."),
        ),
        el("li", {}, el("b", {}, "Scan both sides, black card behind, "), "300 to 600 dpi, PNG or TIFF, no cropping or straightening. Any order, any way up: every page says in its marks which one it is."),
      ),
      testSheetPicture(),
    ),
    el("p", {}, el("a", { class: "button", href: "#scans" }, "Go on: read the scans")),
    many,
  );
  return {
    id: "sheets",
    title: "Test sheets",
    lead: "Print a few numbered sheets on both sides. How far their backs land from their fronts is what everything else is worked out from.",
    node,
    done: () => app.work.choice("sheets.made") === "yes" || app.work.readings().length > 0,
    refresh: () => {},
  };
}
