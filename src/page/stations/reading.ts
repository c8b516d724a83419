// Reading scans: the same at the station of the scans and at that of the next time.
import { el } from "../dom";
import type { Progress } from "../engine-types";
import { Refusal, type Answer, type Finding } from "../program";
import { distinctNames, more, note, table, warningsOf, type App } from "../ui";

interface Registration {
  dx_mm: number;
  dy_mm: number;
  rotation_mrad: number;
}
interface Sheet {
  sheet: number;
  registration: Registration;
  datum: string;
  datum_notes?: Finding[];
  files: string[];
  warnings: Finding[];
  kind?: string;
}
interface Rejected extends Finding {
  file: string;
  files: string[];
  sheet?: number;
}
export interface Measured {
  schema: string;
  sheets: Sheet[];
  rejected: Rejected[];
  warnings?: Finding[];
}

export interface Reading {
  json: Measured;
  refusal: string | null;
  text: string | null; // the readings file, when there are sheets
  pictures: Map<string, Blob>; // of each scan, what was found in it
}

export async function readScans(
  app: App,
  scans: File[],
  datum: string,
  onProgress: (p: Progress) => void,
): Promise<Reading> {
  const named = distinctNames(scans);
  const argv = ["measure", ...named.map(([name]) => `scans/${name}`), "--datum", datum];
  argv.push("--out", "readings.json", "--overlay", "overlay");
  const files = named.map(([name, data]) => ({ path: `scans/${name}`, data }));
  let answer: Answer<Measured>;
  let refusal: string | null = null;
  try {
    answer = await app.program.json<Measured>(argv, files, onProgress);
  } catch (error) {
    // A refusal that names its scans is shown scan by scan.
    if (!(error instanceof Refusal) || !error.json || !("rejected" in error.json)) throw error;
    refusal = error.message.split("\n")[0]!;
    answer = { exit: 1, json: error.json as unknown as Measured, text: [], files: error.files };
  }
  const file = answer.files.get("readings.json");
  const pictures = new Map<string, Blob>();
  for (const [path, blob] of answer.files)
    if (path.startsWith("overlay/")) pictures.set(path.slice("overlay/".length), new Blob([blob], { type: "image/png" }));
  return {
    json: answer.json,
    refusal,
    text: file && answer.json.sheets.length ? await file.text() : null,
    pictures,
  };
}

const towards = (value: number, plus: string, minus: string, unit: string) => `${Math.abs(value).toFixed(3)}${unit} ${value < 0 ? minus : plus}`;

export function sheetTable(measured: Measured): HTMLElement | null {
  if (!measured.sheets.length) return null;
  const caption = "How far each back landed from its front, seen from the back";
  const doubts = measured.sheets.flatMap((one) => (one.warnings ?? []).map((finding) => el("p", {}, `Sheet ${one.sheet}: ${finding.message}`)));
  return el(
    "div",
    {},
    el("h3", {}, caption),
    table(
      caption,
      ["Sheet", "Left or right", "Up or down", "Turned"],
      measured.sheets.map(({ sheet, registration }) => [
        sheet,
        towards(registration.dx_mm, "right", "left", "\u00a0mm"),
        towards(registration.dy_mm, "down", "up", "\u00a0mm"),
        towards((registration.rotation_mrad * 0.18) / Math.PI, "clockwise", "anticlockwise", "°"),
      ]),
    ),
    doubts.length ? note("warning", doubts) : null,
    more(
      "What each sheet was read from",
      el("ul", {}, measured.sheets.map((one) => el("li", {}, `Sheet ${one.sheet}: ${one.datum}. `, (one.datum_notes ?? []).map((finding) => `${finding.message} `)))),
    ),
  );
}

/** Shows a picture as large as the window allows. */
export function enlarged(name: string, address: string): void {
  const close = el("button", { type: "button", autofocus: true }, "Close");
  const dialog = el(
    "dialog",
    { class: "picture", "aria-label": name },
    el("div", { class: "row" }, el("b", {}, name), close),
    el("img", { src: address, alt: name }),
  );
  close.addEventListener("click", () => dialog.close());
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

// "scan.png" -> "scan.overlay.png", page 2 of "scan.pdf" -> "scan.p2.overlay.png"
function pictureNames(file: string, pictures: Map<string, Blob>): string[] {
  const stem = file.replace(/\.[^.]+$/, "");
  return [...pictures.keys()].filter(
    (name) => name === `${stem}.overlay.png` || (name.startsWith(`${stem}.p`) && /\.p\d+\.overlay\.png$/.test(name)),
  );
}

let shown: string[] = [];

/** Each scan as a small picture with what was found, refused ones first. */
export function scanCards(reading: Reading): HTMLElement | null {
  for (const address of shown) URL.revokeObjectURL(address);
  shown = [];
  const cards: HTMLElement[] = [];
  const seen = new Set<string>();
  const card = (file: string, words: (HTMLElement | string)[], good: boolean) => {
    const names = pictureNames(file, reading.pictures);
    const pictures = names.map((name) => {
      const address = URL.createObjectURL(reading.pictures.get(name)!);
      shown.push(address);
      const button = el("button", { type: "button", class: "thumb", "aria-label": `Enlarge ${file}` }, el("img", { src: address, alt: "", loading: "lazy" }));
      button.addEventListener("click", () => enlarged(`What was found in ${file}`, address));
      return button;
    });
    cards.push(
      el(
        "li",
        { class: good ? "scan" : "scan left-out" },
        pictures.length ? pictures : el("div", { class: "thumb none", "aria-hidden": "true" }, "cannot be shown"),
        el("div", {}, el("b", { class: "file-name" }, file), words),
      ),
    );
    seen.add(file);
  };
  for (const one of reading.json.rejected) {
    const files = (one.files?.length ? one.files : [one.file]).filter(Boolean);
    for (const file of files)
      card(file, [el("span", { class: "tag bad" }, "left out"), el("p", {}, one.message)], false);
  }
  for (const sheet of reading.json.sheets)
    for (const file of sheet.files ?? [])
      if (!seen.has(file)) card(file, [el("span", { class: "tag" }, `sheet ${sheet.sheet}`)], true);
  return cards.length ? el("ul", { class: "scans" }, cards) : null;
}

/** Warnings that do not stand beside a scan already: those about files do. */
function beside(measured: Measured): Finding[] {
  const told = new Set(measured.rejected.map((one) => one.code));
  return (measured.warnings ?? []).filter((one) => !(told.has(one.code) && one.files?.length));
}

/** What came of a reading. */
export function readingShown(reading: Reading): (HTMLElement | null)[] {
  const { sheets, rejected } = reading.json;
  const left = rejected.length ? ` ${rejected.length} left out, for the reasons beside their pictures.` : "";
  return [
    reading.refusal
      ? note("refused", el("p", {}, `${reading.refusal} The reasons stand beside the scans.`))
      : note("done", el("p", {}, `${sheets.length} ${sheets.length === 1 ? "sheet" : "sheets"} read.${left}`)),
    warningsOf({ warnings: beside(reading.json) }),
    sheetTable(reading.json),
    rejected.length || reading.pictures.size ? el("h3", {}, "What was found in each scan") : null,
    scanCards(reading),
  ];
}
