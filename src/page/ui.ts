// The parts that the stations are made of: fields, notes, drops, saving, progress.
import { actionButton, el, fill, freshId, type Child } from "./dom";
import { EngineFailure, Stopped, type Progress } from "./engine-types";
import { Refusal, type Finding, type Program } from "./program";
import { FIELDS } from "./words";
import type { Work } from "./work";

export interface App {
  work: Work;
  program: Program;
  /** Read out by screen readers, politely. */
  announce(words: string): void;
  go(station: string): void;
  /** Fills in the readings of the example and learns from them. */
  takeExample(): Promise<void>;
}

export interface Station {
  id: string;
  title: string;
  lead: string;
  node: HTMLElement;
  /** Whether what the station is for has been reached. */
  done(): boolean;
  /** Shows what is known now. */
  refresh(): void;
}

// ---- words ---------------------------------------------------------------

/** Sentences of the program: paragraphs, lists and tables, as its lines show. */
export function said(lines: string[]): HTMLElement {
  const box = el("div", { class: "said" });
  for (const block of lines.join("\n").split(/\n{2,}/)) {
    const rows = block.split("\n").filter((row) => row.trim());
    if (!rows.length) continue;
    // Rows with columns are a table; what is above and below it are sentences.
    const columns = rows.map((row) => / {2,}\S/.test(row.trim()));
    const first = columns.indexOf(true);
    if (first >= 0) {
      const after = columns.lastIndexOf(true) + 1;
      const title = rows.slice(0, first);
      if (title.length) box.append(el("p", {}, title.join(" ")));
      box.append(el("pre", { tabindex: 0 }, rows.slice(first, after).join("\n")));
      rows.splice(0, after);
    }
    let list: HTMLElement | null = null;
    for (const row of joined(rows)) {
      const item = /^\s+(?:- )?(.*)$/.exec(row);
      if (item) {
        if (!list) box.append((list = el("ul")));
        list.append(el("li", {}, item[1]!));
      } else {
        list = null;
        const caution = /^Caution[:.] ?(.*)$/i.exec(row);
        box.append(caution ? cautionBox(caution[1]!) : el("p", {}, row));
      }
    }
  }
  return box;
}

// Lines that go on the sentence before them.
function joined(rows: string[]): string[] {
  const whole: string[] = [];
  for (const row of rows) {
    const before = whole[whole.length - 1];
    if (before !== undefined && /^[a-z]/.test(row) && !/[.:]$/.test(before))
      whole[whole.length - 1] = `${before} ${row}`;
    else if (before !== undefined && /^[a-z]/.test(row)) whole[whole.length - 1] = `${before} ${row}`;
    else whole.push(row);
  }
  return whole;
}

export function cautionBox(...words: Child[]): HTMLElement {
  return el("p", { class: "caution" }, el("strong", {}, "Caution. "), ...words);
}

export function note(kind: "refused" | "warning" | "done" | "empty", ...content: Child[]): HTMLElement {
  const props = kind === "refused" ? { role: "alert" } : {};
  return el("div", { class: `note ${kind}`, ...props }, ...content);
}

export function warningsOf(json: { warnings?: Finding[] }): HTMLElement | null {
  const warnings = json.warnings ?? [];
  if (!warnings.length) return null;
  return note("warning", warnings.map((one) => el("p", {}, one.message)));
}

export function wrong(error: unknown): HTMLElement {
  if (error instanceof Stopped) return note("warning", el("p", {}, "Stopped. Nothing was changed."));
  if (error instanceof Refusal)
    return note("refused", error.message.split("\n").filter(Boolean).map((line) => el("p", {}, line)));
  if (error instanceof EngineFailure)
    return note("refused", el("p", {}, error.message), el("p", {}, "What is kept here is safe; the program has been restarted. Try again with fewer or smaller files, and close other tabs."));
  return note("refused", el("p", {}, error instanceof Error ? error.message : String(error)));
}

// ---- fields --------------------------------------------------------------

export interface Field {
  node: HTMLElement;
  input: HTMLInputElement | HTMLSelectElement;
  value(): string;
}

interface FieldWords {
  hint?: string;
  otherwise?: string;
  unit?: string;
  wide?: boolean;
}

function labelled(
  label: string,
  input: HTMLInputElement | HTMLSelectElement,
  words: FieldWords,
): HTMLElement {
  const id = freshId("field");
  input.id = id;
  const hint = words.hint ? el("small", { id: `${id}-hint` }, words.hint) : null;
  if (hint) input.setAttribute("aria-describedby", hint.id);
  return el(
    "div",
    { class: words.wide ? "field wide" : "field" },
    el("label", { for: id }, label),
    words.unit ? el("span", { class: "with-unit" }, input, el("span", { class: "unit" }, words.unit)) : input,
    hint,
  );
}

// Fields of one name show the same, wherever they stand.
function bind(app: App, name: string, input: HTMLInputElement | HTMLSelectElement): () => string {
  const keep = () => app.work.choose(name, input.value.trim());
  input.addEventListener("change", keep);
  const first = input.value;
  app.work.onChange((change) => {
    const now = app.work.choice(name, first);
    if (change === "choices" && document.activeElement !== input && input.value.trim() !== now) input.value = now;
  });
  return () => input.value.trim();
}

/** A line of text, kept under `name`. */
export function textField(
  app: App,
  name: string,
  label: string,
  words: FieldWords & { numeric?: boolean; suggest?: string[] } = {},
): Field {
  const list = words.suggest ? freshId("list") : undefined;
  const input = el("input", {
    type: "text",
    autocomplete: "off",
    inputmode: words.numeric ? "decimal" : undefined,
    list,
    value: app.work.choice(name, words.otherwise ?? ""),
  });
  const node = labelled(label, input, words);
  if (list) node.append(el("datalist", { id: list }, words.suggest!.map((value) => el("option", { value }))));
  return { node, input, value: bind(app, name, input) };
}

export function selectField(
  app: App,
  name: string,
  label: string,
  options: [string, string][],
  words: FieldWords = {},
): Field {
  const kept = app.work.choice(name, words.otherwise ?? options[0]![0]);
  const value = options.some(([key]) => key === kept) ? kept : options[0]![0];
  const input = el("select", { value }, options.map(([key, text]) => el("option", { value: key }, text)));
  return { node: labelled(label, input, words), input, value: bind(app, name, input) };
}

export function checkField(
  app: App,
  name: string,
  label: string,
  otherwise = false,
): { node: HTMLElement; value(): boolean } {
  const input = el("input", { type: "checkbox" });
  input.checked = app.work.choice(name, otherwise ? "yes" : "") === "yes";
  input.addEventListener("change", () => app.work.choose(name, input.checked ? "yes" : "no"));
  return { node: el("label", { class: "check" }, input, " ", label), value: () => input.checked };
}

/** Choices side by side, each with a picture. */
export function pictureChoice(
  app: App,
  name: string,
  legend: string,
  options: { value: string; label: string; picture?: Node; words?: string }[],
  onPick: () => void = () => {},
): { node: HTMLElement; value(): string } {
  const group = freshId("choice");
  const kept = app.work.choice(name, options[0]!.value);
  const inputs = options.map((option) => {
    const input = el("input", { type: "radio", name: group, value: option.value });
    input.checked = option.value === kept;
    input.addEventListener("change", () => {
      app.work.choose(name, option.value);
      onPick();
    });
    return input;
  });
  if (!inputs.some((input) => input.checked)) inputs[0]!.checked = true;
  app.work.onChange((change) => {
    const now = app.work.choice(name, options[0]!.value);
    if (change === "choices") for (const input of inputs) input.checked = input.value === now;
  });
  const node = el(
    "fieldset",
    { class: "choices" },
    el("legend", {}, legend),
    el(
      "div",
      { class: "row" },
      options.map((option, at) =>
        el(
          "label",
          { class: option.picture ? "picture-choice" : "plain-choice" },
          inputs[at],
          option.picture ?? null,
          el("span", {}, el("b", {}, option.label), option.words ? el("small", {}, option.words) : null),
        ),
      ),
    ),
  );
  return { node, value: () => inputs.find((input) => input.checked)!.value };
}

// ---- files ---------------------------------------------------------------

export function saveLink(name: string, data: Blob | (() => Blob) | undefined, words = `Save ${name}`): HTMLElement {
  if (!data) throw new Error(`The program did not write ${name}. Please report it, with what you chose here.`);
  const link = el("a", { class: "button save", download: name, href: "#" }, words);
  // Made when it is reached for: an address holds its data until the page is closed, and links come and go.
  let address = "";
  const ready = () => (link.href = address ||= URL.createObjectURL(typeof data === "function" ? data() : data));
  for (const kind of ["pointerdown", "focus", "contextmenu", "click"]) link.addEventListener(kind, ready);
  return link;
}

export function textBlob(text: string, type = "application/json"): Blob {
  return new Blob([text], { type });
}

interface DropWords {
  what: string; // "scans"
  button: string;
  accept: string;
  folder?: boolean;
  camera?: boolean;
  single?: boolean;
  hint?: string;
}

interface Entry {
  isFile: boolean;
  isDirectory: boolean;
  file(done: (file: File) => void, fail: (error: unknown) => void): void;
  createReader(): { readEntries(done: (entries: Entry[]) => void, fail: (error: unknown) => void): void };
}

async function filesOf(entry: Entry): Promise<File[]> {
  if (entry.isFile) return [await new Promise<File>((done, fail) => entry.file(done, fail))];
  if (!entry.isDirectory) return [];
  const reader = entry.createReader();
  const files: File[] = [];
  for (;;) {
    const some = await new Promise<Entry[]>((done, fail) => reader.readEntries(done, fail));
    if (!some.length) return files;
    for (const one of some) files.push(...(await filesOf(one)));
  }
}

/** Without the hidden files of a folder; somebody who gives nothing else means them. */
function wanted(files: File[]): File[] {
  const seen = files.filter((file) => !file.name.startsWith("."));
  return seen.length ? seen : files;
}

/** A place to drop files, with buttons for those who do not drag. */
export function dropPlace(words: DropWords, take: (files: File[]) => void): HTMLElement {
  const input = (props: Record<string, unknown>, label: string, kind = "") => {
    const field = el("input", { type: "file", class: "file", "aria-label": label, ...props });
    field.addEventListener("change", () => {
      const files = [...(field.files ?? [])];
      field.value = "";
      if (files.length) take(wanted(files));
    });
    return el("label", { class: `button ${kind}` }, label, field);
  };
  const place = el(
    "div",
    { class: "drop" },
    el("p", { class: "drop-words" }, `Drop ${words.what} here, or`),
    el(
      "div",
      { class: "row" },
      input({ accept: words.accept, multiple: !words.single }, words.button),
      words.folder ? input({ webkitdirectory: true, multiple: true }, "Choose a folder", "folder") : null,
      words.camera ? input({ accept: "image/*", capture: "environment" }, "Take a picture", "touch-only") : null,
    ),
    words.hint ? el("small", {}, words.hint) : null,
  );
  let depth = 0;
  const mark = (by: number) => {
    depth = Math.max(0, depth + by);
    place.classList.toggle("over", depth > 0);
  };
  place.addEventListener("dragenter", (event) => (event.preventDefault(), mark(1)));
  place.addEventListener("dragleave", () => mark(-1));
  place.addEventListener("dragover", (event) => event.preventDefault());
  place.addEventListener("drop", (event) => {
    event.preventDefault();
    mark(-depth);
    const items = [...(event.dataTransfer?.items ?? [])].filter((item) => item.kind === "file");
    const entries = items.map((item) => item.webkitGetAsEntry?.() as unknown as Entry | null);
    const loose = [...(event.dataTransfer?.files ?? [])];
    void (async () => {
      const files = entries.some((entry) => entry?.isDirectory)
        ? (await Promise.all(entries.map((entry) => (entry ? filesOf(entry) : [])))).flat()
        : loose;
      const seen = wanted(files);
      if (seen.length) take(words.single ? seen.slice(0, 1) : seen);
    })();
  });
  return place;
}

/** A name for the program's folder that no command takes for an option, with the ending that it must have. */
export function plainName(name: string, ending = ""): string {
  const clean = name.replace(/[\\/:\0-\x1f]/g, "_").replace(/^-/, "_") || "file";
  return clean.toLowerCase().endsWith(ending) ? clean : clean + ending;
}

/** Names that differ, whatever folders the files came from, and that no command takes for an option. */
export function distinctNames(files: File[]): [string, File][] {
  const taken = new Set<string>();
  return files.map((file) => {
    const clean = plainName(file.name);
    const dot = clean.lastIndexOf(".");
    const stem = dot > 0 ? clean.slice(0, dot) : clean;
    const ending = dot > 0 ? clean.slice(dot) : "";
    let name = clean;
    for (let number = 2; taken.has(name.toLowerCase()); number += 1) name = `${stem} (${number})${ending}`;
    taken.add(name.toLowerCase());
    return [name, file];
  });
}

// ---- running -------------------------------------------------------------

function timeLeft(seconds: number): string {
  if (seconds < 5) return "a few seconds left";
  if (seconds < 90) return `about ${Math.ceil(seconds / 5) * 5} seconds left`;
  return `about ${Math.ceil(seconds / 60)} minutes left`;
}

/** A refusal about an option is shown at its field as well. */
function pointAt(section: Element | null, error: unknown): void {
  if (!(error instanceof Refusal) || !error.option || !error.problem) return;
  const name = FIELDS[error.option];
  const label = [...(section?.querySelectorAll("label[for]") ?? [])].find((one) => one.textContent === name) as HTMLLabelElement | undefined;
  const input = label?.control;
  if (!input) return;
  const words = el("small", { class: "problem", id: freshId("problem") }, error.problem[0]!.toUpperCase() + error.problem.slice(1));
  const described = input.getAttribute("aria-describedby");
  input.closest(".field")!.append(words);
  input.setAttribute("aria-invalid", "true");
  input.setAttribute("aria-describedby", [words.id, described].filter(Boolean).join(" "));
  const details = input.closest("details");
  if (details) details.open = true;
  input.focus();
  const mended = () => {
    words.remove();
    input.removeAttribute("aria-invalid");
    if (described) input.setAttribute("aria-describedby", described);
    else input.removeAttribute("aria-describedby");
  };
  for (const kind of ["input", "again"]) input.addEventListener(kind, mended, { once: true });
}

// What runs now, in whichever station, or waits last.
let going: { what: string; over: Promise<void> } = { what: "", over: Promise.resolve() };

/** Where a run shows its progress, and then what came of it. */
export class Outcome {
  readonly node = el("div", { class: "outcome" });
  private last: Promise<unknown> = Promise.resolve();
  constructor(private app: App) {}

  show(...content: Child[]): void {
    fill(this.node, ...content);
  }

  /** Runs `work` when this place is free; what it returns is shown. False when it went wrong. */
  run(what: string, work: (onProgress: (p: Progress) => void) => Promise<Child[]>): Promise<boolean> {
    const run = this.last.then(() => this.inTurn(what, work));
    this.last = run;
    return run;
  }

  // The program does one thing at a time. What waits can be stopped without stopping what goes on elsewhere.
  private async inTurn(what: string, work: (onProgress: (p: Progress) => void) => Promise<Child[]>): Promise<boolean> {
    const before = going;
    let over = () => {};
    const mine = { what, over: new Promise<void>((resolve) => (over = resolve)) };
    going = mine;
    const end = () => {
      over();
      if (going === mine) going = { what: "", over: mine.over };
    };
    if (before.what) {
      const stop = el("button", { type: "button", class: "quiet" }, "Stop");
      const stopped = new Promise<boolean>((resolve) => stop.addEventListener("click", () => resolve(true)));
      this.show(el("div", { class: "running" }, el("span", {}, `${what}: waits for “${before.what}” to end.`), stop));
      if (await Promise.race([before.over.then(() => false), stopped])) {
        void before.over.then(end);
        this.show(wrong(new Stopped()));
        return false;
      }
    }
    return this.runNow(what, work).finally(end);
  }

  private async runNow(
    what: string,
    work: (onProgress: (p: Progress) => void) => Promise<Child[]>,
  ): Promise<boolean> {
    const section = this.node.closest("section");
    section?.querySelectorAll("[aria-invalid]").forEach((input) => input.dispatchEvent(new Event("again")));
    const bar = el("progress", { "aria-label": what });
    const words = el("span", {}, `${what} …`);
    const stop = el("button", { type: "button", class: "quiet" }, "Stop");
    stop.addEventListener("click", () => this.app.program.engine.stop());
    this.show(el("div", { class: "running" }, words, bar, stop));
    this.app.announce(`${what}. Please wait.`);
    let start = performance.now();
    let told = start;
    let before = 0;
    try {
      const content = await work((p) => {
        if (p.total <= 0) return;
        bar.max = p.total;
        bar.value = p.done;
        const now = performance.now();
        if (p.done < before) start = now; // the program runs a second time
        before = p.done;
        const spent = (now - start) / 1000;
        const left = p.done >= p.total ? ", nearly done" : p.done > 0 && spent > 2 ? `, ${timeLeft((spent / p.done) * (p.total - p.done))}` : "";
        const doing = p.what ? p.what[0]!.toUpperCase() + p.what.slice(1) : what;
        words.textContent = `${doing}: ${p.done} of ${p.total}${left}`;
        if (now - told > 8000) {
          told = now;
          this.app.announce(words.textContent);
        }
      });
      this.show(...content);
      this.app.announce(`${what}: done.`);
      return true;
    } catch (error) {
      this.show(wrong(error));
      pointAt(section, error);
      return false;
    }
  }
}

/** What is shown where nothing is known yet. */
export function emptyState(app: App, words: string, goTo: [string, string][]): HTMLElement {
  return note(
    "empty",
    el("p", {}, words),
    el(
      "div",
      { class: "row" },
      goTo.map(([station, label]) => el("a", { class: "button", href: `#${station}` }, label)),
      actionButton("Try it with an example", () => app.takeExample(), { class: "quiet" }),
    ),
  );
}

/** A table of cells; the first column names the row. */
export function table(caption: string, columns: string[], rows: Child[][]): HTMLElement {
  return el(
    "div",
    { class: "table", tabindex: 0, role: "region", "aria-label": caption },
    el(
      "table",
      { "aria-label": caption },
      el("thead", {}, el("tr", {}, columns.map((name) => el("th", { scope: "col" }, name)))),
      el(
        "tbody",
        {},
        rows.map((cells) =>
          el("tr", {}, cells.map((cell, at) => (at === 0 ? el("th", { scope: "row" }, cell) : el("td", {}, cell)))),
        ),
      ),
    ),
  );
}

export function more(summary: string, ...content: Child[]): HTMLDetailsElement {
  return el("details", {}, el("summary", {}, summary), ...content);
}
