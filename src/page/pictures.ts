// Drawings of the page: how a sheet is turned, what a test sheet looks like, the sign of a station.
import { el, svg } from "./dom";

/** A ring and a dot: off its middle before, in its middle when the station has been reached. */
export function stationSign(number: number, done: boolean): SVGElement {
  return svg(
    "svg",
    { viewBox: "0 0 32 32", class: done ? "sign done" : "sign", "aria-hidden": "true" },
    svg("circle", { cx: 16, cy: 16, r: 13, class: "ring" }),
    svg("circle", { cx: done ? 16 : 24.5, cy: done ? 16 : 7, r: 4.5, class: "dot" }),
    svg("text", { x: 16, y: 20.5, "text-anchor": "middle", class: "number" }, done ? "" : number),
  );
}

function page(x: number, y: number, name: string, corner: [number, number]): SVGElement {
  return svg(
    "g",
    { transform: `translate(${x} ${y})` },
    svg("rect", { width: 42, height: 58, rx: 1.5, class: "paper" }),
    svg("circle", { cx: corner[0], cy: corner[1], r: 3.2, class: "dot" }),
    svg("text", { x: 21, y: 70, "text-anchor": "middle", class: "words" }, name),
  );
}

/** Front and back of a sheet, with the line about which it is turned; the dot is one corner of it. */
export function turnPicture(turn: "long-edge" | "short-edge"): SVGElement {
  const long = turn === "long-edge";
  return svg(
    "svg",
    { viewBox: "0 0 124 90", class: "drawing", "aria-hidden": "true" },
    svg("defs", {}, svg("marker", { id: `tip-${turn}`, viewBox: "0 0 8 8", refX: 6, refY: 4, markerWidth: 5, markerHeight: 5, orient: "auto" }, svg("path", { d: "M0 0 L8 4 L0 8 Z", class: "tip" }))),
    page(8, 16, "front", [6, 6]),
    page(74, 16, "back", long ? [36, 6] : [6, 52]),
    long
      ? svg("line", { x1: 29, y1: 10, x2: 29, y2: 76, class: "fold" })
      : svg("line", { x1: 3, y1: 45, x2: 55, y2: 45, class: "fold" }),
    long
      ? svg("path", { d: "M14 10 C 22 0, 36 0, 44 10", class: "arrow", "marker-end": `url(#tip-${turn})` })
      : svg("path", { d: "M54 28 C 66 36, 66 54, 54 63", class: "arrow", "marker-end": `url(#tip-${turn})` }),
  );
}

/** A test sheet with its holes, drawn small. */
export function testSheetPicture(): SVGElement {
  const ring = (x: number, y: number) => svg("circle", { cx: x, cy: y, r: 1.6, class: "thin" });
  const around: SVGElement[] = [];
  for (const [x, y] of [[22, 9], [48, 9], [22, 91], [48, 91]] as const) {
    around.push(svg("circle", { cx: x, cy: y, r: 3.4, class: "hole" }));
    for (let k = 0; k < 6; k += 1) {
      const angle = (k / 6) * 2 * Math.PI + 0.3;
      around.push(ring(x + 7 * Math.cos(angle), Math.min(97, Math.max(3, y + 7 * Math.sin(angle)))));
    }
  }
  for (let y = 22; y < 82; y += 10) around.push(ring(4, y), ring(66, y));
  return svg(
    "svg",
    { viewBox: "-6 -6 82 112", class: "drawing tall", role: "img", "aria-label": "A test sheet: rings all round, and two punched holes at each short edge, on black card" },
    svg("rect", { x: -6, y: -6, width: 82, height: 112, class: "black-card" }),
    svg("rect", { width: 70, height: 100, class: "paper" }),
    around,
    svg("text", { x: 35, y: 50, "text-anchor": "middle", class: "words" }, "Sheet 1"),
    svg("text", { x: 35, y: 58, "text-anchor": "middle", class: "words small" }, "FRONT"),
  );
}

// ---- the sheet as it will print -----------------------------------------------

export interface Grid {
  columns: number;
  rows: number;
  card_mm: [number, number];
  cells_recto: { row: number; column: number; x_mm: number; y_mm: number }[];
}
export interface Correction {
  dx_mm: number;
  dy_mm: number;
  rotation_mrad?: number;
  scale_x_ppm?: number;
  scale_y_ppm?: number;
  shear_mrad?: number;
}
interface Placed {
  card: string;
  row: number;
  column: number;
  front: string;
  back: string | null;
}

/** Front and back of one sheet: fronts where they are cut, backs where they are printed. What reaches
    beyond the picture of a back is hinted at by the picture itself, drawn larger below it. */
export function sheetPicture(
  paper: [number, number],
  turn: string,
  grid: Grid,
  placed: Placed[],
  moved: Correction,
  oversize: { x_mm: number; y_mm: number },
  enlargement: number,
  pictureOf: (name: string) => string | null,
): HTMLElement {
  const [w, h] = paper;
  const [cw, ch] = grid.card_mm;
  const mirror = turn === "long-edge" ? [-1, 1] : [1, -1];
  const face = (back: boolean) => {
    const label = back ? "Back" : "Front";
    const cells = grid.cells_recto.map((cell) => ({
      x: back ? cell.x_mm * mirror[0]! : cell.x_mm,
      y: back ? cell.y_mm * mirror[1]! : cell.y_mm,
      card: placed.find((one) => one.row === cell.row && one.column === cell.column),
    }));
    const taken = cells.filter((cell) => cell.card);
    const box = (x: number, y: number, width: number, height: number) => ({ x: x - width / 2, y: y - height / 2, width, height });
    const reach = back ? [cw + 2 * oversize.x_mm, ch + 2 * oversize.y_mm] : [cw, ch];
    const drawn = (size: number[]) =>
      taken.map(({ x, y, card }) => {
        const picture = pictureOf(back ? (card!.back ?? "") : card!.front);
        return picture
          ? svg("image", { href: picture, ...box(x, y, size[0]!, size[1]!), preserveAspectRatio: "none" })
          : svg("rect", { ...box(x, y, size[0]!, size[1]!), class: "card" });
      });
    const boxes = [
      back ? drawn(reach) : null,
      drawn([cw * (back ? enlargement : 1), ch * (back ? enlargement : 1)]),
      taken.map(({ x, y, card }) =>
        pictureOf(back ? (card!.back ?? "") : card!.front)
          ? null
          : svg("text", { x, y, "text-anchor": "middle", class: "words", "font-size": 6 }, back ? "" : card!.card.slice(0, 18)),
      ),
      back ? taken.map(({ x, y }) => svg("rect", { ...box(x, y, reach[0]!, reach[1]!), class: "reach" })) : null,
    ];
    const cuts = cells.map(({ x, y }) => svg("rect", { ...box(x, y, cw, ch), class: "cut" }));
    const r = (moved.rotation_mrad ?? 0) * 1e-3;
    const k = (moved.shear_mrad ?? 0) * 1e-3;
    const a = 1 + (moved.scale_x_ppm ?? 0) * 1e-6;
    const d = 1 + (moved.scale_y_ppm ?? 0) * 1e-6;
    const matrix = `matrix(${a} ${r + k} ${k - r} ${d} ${moved.dx_mm} ${moved.dy_mm})`;
    return el(
      "figure",
      { class: "sheet" },
      el("figcaption", {}, label),
      svg(
        "svg",
        { viewBox: `${-w / 2} ${-h / 2} ${w} ${h}`, role: "img", "aria-label": `${label} of the sheet with ${placed.length} cards` },
        svg("rect", { x: -w / 2, y: -h / 2, width: w, height: h, class: "paper" }),
        svg("g", back ? { transform: matrix } : {}, boxes),
        cuts,
      ),
    );
  };
  return el("div", { class: "sheets" }, face(false), face(true));
}
