// The figures of the program's report, taken out of it shape by shape: nothing but known shapes with
// known attributes passes, whatever is in the file.
import { el, fill } from "./dom";

interface FigureWords {
  id: string;
  title: string;
  alt: string;
  caption: string;
  columns: string[];
  rows: string[][];
}

const SHAPES = new Set(["svg", "g", "polygon", "polyline", "line", "circle", "ellipse", "rect", "path", "text", "tspan"]);
const ATTRIBUTES = new Set(
  ("viewBox points d x y x1 y1 x2 y2 cx cy r rx ry width height dx dy transform fill fill-opacity stroke " +
    "stroke-width stroke-dasharray stroke-opacity stroke-linecap stroke-linejoin opacity font-size font-weight text-anchor " +
    "dominant-baseline").split(" "),
);
const CLASSES = /^role-(before|after|frame|mark)$/;
const SVG = "http://www.w3.org/2000/svg";

function copy(from: Element): SVGElement | null {
  if (!SHAPES.has(from.localName)) return null;
  const to = document.createElementNS(SVG, from.localName);
  for (const { name, value } of from.attributes) {
    if (ATTRIBUTES.has(name) && !/url\(|javascript:/i.test(value)) to.setAttribute(name, value);
    if (name === "class" && CLASSES.test(value)) to.setAttribute("class", value);
  }
  for (const child of from.childNodes) {
    if (child.nodeType === Node.TEXT_NODE && /text|tspan/.test(from.localName))
      to.append(child.textContent ?? "");
    else if (child instanceof Element) {
      const shape = copy(child);
      if (shape) to.append(shape);
    }
  }
  return to;
}

/** The figures named, with their captions, and their numbers as a table to open. */
export function figuresOf(html: string, words: FigureWords[], wanted: string[]): HTMLElement[] {
  // Runs and loads nothing; styles go first, since the page's policy would complain of them.
  const bare = html.replace(/<style>[^]*?<\/style>/g, "").replace(/ style="[^"]*"/g, "");
  const report = new DOMParser().parseFromString(bare, "text/html");
  const shown: HTMLElement[] = [];
  for (const id of wanted) {
    const about = words.find((one) => one.id === id);
    const drawing = report.querySelector(`figure[id="${id}"] svg`);
    const picture = drawing ? copy(drawing) : null;
    if (!about || !picture) continue;
    picture.setAttribute("role", "img");
    picture.setAttribute("aria-label", `${about.title}. ${about.alt}`);
    const figure = el("figure", { class: "report" }, el("h4", {}, about.title), picture, el("figcaption", {}, about.caption));
    if (about.rows.length) {
      const body = el("div");
      const details = el("details", {}, el("summary", {}, "The numbers"), body);
      details.addEventListener("toggle", () => {
        if (details.open)
          fill(
            body,
            el(
              "table",
              {},
              el("caption", { class: "unseen" }, about.title),
              el("thead", {}, el("tr", {}, about.columns.map((name) => el("th", { scope: "col" }, name)))),
              el("tbody", {}, about.rows.map((row) => el("tr", {}, row.map((cell, at) => (at ? el("td", {}, cell) : el("th", { scope: "row" }, cell)))))),
            ),
          );
      });
      figure.append(details);
    }
    shown.push(figure);
  }
  return shown;
}
