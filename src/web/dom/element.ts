/** What may stand inside an element: text, which is never read as markup, or other elements. */
export type Content = Node | string | null;

type Attributes = Readonly<Record<string, string | number | boolean | null>>;

/** Makes an element. `true` gives an attribute without a value, `false` and `null` leave it out; text is set as text. */
export function element<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Attributes = {},
  ...contents: readonly Content[]
): HTMLElementTagNameMap[Name] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === false) continue;
    made.setAttribute(key, value === true ? "" : String(value));
  }
  made.append(...contents.filter((one) => one !== null));
  return made;
}

/** A button that does one thing. */
export function button(words: string, act: () => void, attributes: Attributes = {}): HTMLButtonElement {
  const made = element("button", { type: "button", ...attributes }, words);
  made.addEventListener("click", act);
  return made;
}

/** Paragraphs, one for each text; empty texts are left out. */
export function paragraphs(texts: readonly string[], className = "note"): HTMLParagraphElement[] {
  return texts.filter((text) => text !== "").map((text) => element("p", { class: className }, text));
}

/** The element of the page's own skeleton with this id; its absence is our bug. */
export function byId(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no #${id}`);
  return found;
}

const shown = new WeakMap<Element, string>();

/** Sets markup that a figure drew, all its text escaped already; does nothing when the same stands there. Tells whether it changed. */
export function setMarkup(container: Element, markup: string): boolean {
  if (shown.get(container) === markup) return false;
  shown.set(container, markup);
  container.innerHTML = markup;
  return true;
}

/** Fills a container with what is made of some facts; does nothing when what was made of the same stands there. */
export function fillFrom(container: Element, facts: unknown, make: () => readonly Content[]): void {
  const key = `facts ${JSON.stringify(facts)}`;
  if (shown.get(container) === key) return;
  fill(container, ...make());
  shown.set(container, key);
}

/** Puts contents in place of what a container held, whether markup or elements. */
export function fill(container: Element, ...contents: readonly Content[]): void {
  shown.delete(container);
  container.replaceChildren(...contents.filter((one) => one !== null));
}
