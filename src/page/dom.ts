// Elements from words. Every string becomes a text node or an attribute, never markup.

export type Child = Node | string | number | null | undefined | false | Child[];
type Props = Record<string, unknown>;

const SVG = "http://www.w3.org/2000/svg";

function put(node: Element, props: Props): void {
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith("on") && typeof value === "function") {
      node.addEventListener(name.slice(2), value as EventListener);
    } else if (name === "value" && "value" in node) {
      (node as HTMLInputElement).value = String(value);
    } else if (value === true) {
      node.setAttribute(name, "");
    } else {
      node.setAttribute(name, String(value));
    }
  }
}

function add(node: Node, children: Child[]): void {
  for (const child of children) {
    if (Array.isArray(child)) add(node, child);
    else if (child instanceof Node) node.appendChild(child);
    else if (child !== null && child !== undefined && child !== false)
      node.appendChild(document.createTextNode(String(child)));
  }
}

export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  props: Props = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const node = document.createElement(tag);
  add(node, children);
  put(node, props); // after the children: a select takes its value from its options
  return node;
}

export function svg(tag: string, props: Props = {}, ...children: Child[]): SVGElement {
  const node = document.createElementNS(SVG, tag);
  put(node, props);
  add(node, children);
  return node;
}

export function fill(node: Element, ...children: Child[]): void {
  node.replaceChildren();
  add(node, children);
}

let last = 0;
export function freshId(stem: string): string {
  last += 1;
  return `${stem}-${last}`;
}

/** A button that cannot be pressed twice while its work runs; what goes wrong goes to `fail`. */
export function actionButton(
  label: string,
  work: () => Promise<void>,
  props: Props = {},
  fail: (error: unknown) => void = (error) => console.error(error),
): HTMLButtonElement {
  const button = el("button", { type: "button", ...props }, label);
  button.addEventListener("click", () => {
    if (button.getAttribute("aria-disabled") === "true") return;
    button.setAttribute("aria-disabled", "true");
    work()
      .catch(fail)
      .finally(() => button.removeAttribute("aria-disabled"));
  });
  return button;
}
