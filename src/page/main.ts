// The page: six stations, what is known in one line, everything kept.
import { actionButton, el, fill } from "./dom";
import { exampleReadings, examplePrinter } from "./example";
import { makeEngine } from "./engine";
import { Program } from "./program";
import { stationSign } from "./pictures";
import { deckStation } from "./stations/deck";
import { nextStation } from "./stations/next";
import { learn, printerStation } from "./stations/printer";
import { scansStation } from "./stations/scans";
import { sheetsStation } from "./stations/sheets";
import { todoStation } from "./stations/todo";
import { openStore, type Kept } from "./store";
import { note, saveLink, textBlob, wrong, type App, type Station } from "./ui";
import { Work } from "./work";

const at = <T extends HTMLElement>(id: string) => document.getElementById(id) as T;

function knownLine(work: Work): string {
  const current = work.profile();
  if (!current) {
    const sheets = work.counting().reduce((sum, [, one]) => sum + work.readingsFile(one).sheets.length, 0);
    return sheets ? `${sheets} ${sheets === 1 ? "sheet" : "sheets"} read; the printer is not learned yet` : "nothing is known yet";
  }
  const [key, profile] = current;
  const file = work.profileFile(profile);
  const advised = work.advised();
  const parts = [file.printer, file.feed, `${file.n_sheets} sheets`].filter(Boolean).join(", ");
  const larger =
    advised?.profile === key
      ? `; ${advised.total_px.width} px wider and ${advised.total_px.height} px higher than the card at ${advised.ppi} ppi`
      : "";
  const backs = profile.backs ? `; backs ${profile.backs.replace(/ \([^)]*\)/g, "")}` : ""; // brief: without other units
  return `${parts}${backs}${larger}`;
}

/** What a damaged record holds may be dear: it can be saved as it is. */
function savedAsItIs(key: string, record: Kept): HTMLElement {
  const value = record.value as { name?: unknown; text?: unknown } | null | undefined;
  const name = typeof value?.name === "string" ? value.name : `${key.replace(/:/g, "-")}.json`;
  return saveLink(name, textBlob(typeof value?.text === "string" ? value.text : (JSON.stringify(record, null, 2) ?? "")));
}

async function start(): Promise<void> {
  const work = await Work.open(await openStore());
  const program = new Program(makeEngine());
  const live = at("live");

  const app: App = {
    work,
    program,
    announce: (words) => {
      live.textContent = words;
    },
    go: (station) => {
      location.hash = station;
    },
    takeExample: async () => {
      const has = work.readings().some(([, one]) => one.origin === "example");
      if (!has) await work.addReadings({ name: "example.json", text: exampleReadings, origin: "example", counts: true });
      if (!work.choice("printer.name")) work.choose("printer.name", examplePrinter.name);
      if (!work.choice("printer.feed")) work.choose("printer.feed", examplePrinter.feed);
      if (!work.profiles().length) {
        try {
          await learn(app, { printer: work.choice("printer.name"), feed: work.choice("printer.feed"), stock: "", quality: "" }, []);
        } catch (error) {
          fill(at("notice"), wrong(error));
          return;
        }
      }
      app.announce("The example is taken: readings of ten sheets, and what was learned from them.");
    },
  };

  const stations: Station[] = [sheetsStation, scansStation, printerStation, todoStation, deckStation, nextStation].map((make) => make(app));
  const links = new Map<string, { link: HTMLAnchorElement; sign: HTMLElement; words: HTMLElement }>();
  const sections = new Map<string, HTMLElement>();
  stations.forEach((station, index) => {
    const sign = el("span", {}, stationSign(index + 1, false));
    const words = el("span", { class: "unseen" });
    const link = el("a", { href: `#${station.id}` }, sign, el("span", {}, station.title), words);
    links.set(station.id, { link, sign, words });
    at("stations").append(el("li", {}, link));
    const heading = el("h2", { tabindex: -1, id: `${station.id}-heading` }, station.title);
    const section = el("section", { hidden: true, "aria-labelledby": heading.id }, heading, el("p", { class: "lead" }, station.lead), station.node);
    sections.set(station.id, section);
    at("here").append(section);
  });

  let current = "";
  function show(): void {
    const wanted = location.hash.slice(1);
    const id = sections.has(wanted) ? wanted : stations[0]!.id;
    if (id === current) return;
    const first = current === "";
    current = id;
    for (const [name, section] of sections) section.hidden = name !== id;
    for (const [name, { link }] of links) {
      if (name === id) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    const station = stations.find((one) => one.id === id)!;
    document.title = `${station.title} – Versolay`;
    if (!first) {
      scrollTo(0, 0);
      sections.get(id)!.querySelector("h2")!.focus({ preventScroll: true });
    }
  }

  const unreadableNote = (key: string, record: Kept) => {
    const saving = savedAsItIs(key, record);
    const forget = el("button", { type: "button", class: "quiet" }, "Forget it");
    forget.addEventListener("click", () => void work.forget(key));
    const kind = key.startsWith("profile:") ? "a profile" : "readings";
    return note("warning", el("p", {}, `Save this and open it with a newer page, or forget it: it is kept in this browser as ${kind}, but this page cannot read it.`), el("div", { class: "row" }, saving, forget));
  };

  const storageNotice = el("p");
  function refresh(): void {
    for (const [index, station] of stations.entries()) {
      station.refresh();
      const { sign, words } = links.get(station.id)!;
      const done = station.done();
      fill(sign, stationSign(index + 1, done));
      words.textContent = done ? " (done)" : "";
    }
    at("known").textContent = knownLine(work);
    const some = work.readings().length + work.profiles().length + work.unreadable().length > 0;
    at("begin").hidden = some;
    at("forget").hidden = !some;
    storageNotice.textContent = work.lasting
      ? ""
      : "This browser keeps nothing for this page (a private window, or storage that is forbidden or full). Everything works, but save your files before you close it.";
    fill(
      at("storage"),
      work.lasting ? null : el("p", { class: "note warning" }, storageNotice.textContent),
      work.notice ? el("p", { class: "note warning", role: "status" }, work.notice) : null,
      work.unreadable().map(([key, record]) => unreadableNote(key, record)),
    );
  }
  // Several changes at once are shown once.
  let waiting = false;
  work.onChange(() => {
    if (waiting) return;
    waiting = true;
    queueMicrotask(() => {
      waiting = false;
      refresh();
    });
  });

  fill(
    at("begin"),
    el("p", {}, "New here? The six stations go from test sheets to a deck that fits front and back. To see it work first, without paper:"),
    actionButton("Try it with an example", async () => {
      await app.takeExample();
      app.go("todo");
    }),
  );
  const forget = at<HTMLButtonElement>("forget");
  forget.addEventListener("click", () => {
    const dialog = at<HTMLDialogElement>("forget-dialog");
    dialog.showModal();
  });
  at("forget-dialog").addEventListener("close", () => {
    const dialog = at<HTMLDialogElement>("forget-dialog");
    if (dialog.returnValue === "yes") void work.forgetAll().then(() => (program.engine.stop(), location.reload()));
  });

  // What is typed is kept after a moment, not only when its field is left: a tab may be closed before.
  let typed = 0;
  document.addEventListener("input", ({ target }) => {
    clearTimeout(typed);
    if (target instanceof HTMLInputElement && target.type === "text") typed = setTimeout(() => target.dispatchEvent(new Event("change", { bubbles: true })), 400);
  });

  // A run that took minutes, and what no browser keeps, are not closed by mistake.
  addEventListener("beforeunload", (event) => {
    if (program.engine.busy || (!work.lasting && work.readings().length + work.profiles().length > 0)) event.preventDefault();
  });

  // A file that misses its place must not replace the page.
  for (const kind of ["dragover", "drop"]) addEventListener(kind, (event) => event.preventDefault());
  refresh();
  show();
  addEventListener("hashchange", show);
  document.documentElement.dataset["ready"] = "yes";
}

start().catch((error: unknown) => fill(at("notice"), wrong(error)));
