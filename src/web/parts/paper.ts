import type { Answered } from "../ask/answered.ts";
import { byId } from "../dom/element.ts";

/** The sheet of paper is made once the choice has stood still for so long. */
const REST_MILLISECONDS = 1200;

export interface Paper {
  /** The departure that would be printed; null for none. */
  readonly departure: (departAt: string | null) => void;
  /** The one that stands ready is out of date. */
  readonly forget: () => void;
  /** Prints, once the sheet for the departure is there. */
  readonly print: () => Promise<void>;
}

/** Keeps the two printed pages ready beside the sheet on screen, in a tree of their own so that neither's styles reach the other. */
export function paper(fetcher: (departAt: string) => Promise<Answered<string>>, failed: (words: string) => void): Paper {
  const place = byId("paper");
  const root = place.attachShadow({ mode: "open" });
  let wanted: string | null = null;
  let ready: string | null = null;
  let timer = 0;

  const load = async (): Promise<boolean> => {
    clearTimeout(timer);
    const departAt = wanted;
    if (departAt === null) return false;
    if (ready === departAt) return true;
    const answer = await fetcher(departAt);
    if (wanted !== departAt) return false;
    if (answer.kind !== "told") return false;
    await put(root, answer.value);
    ready = departAt;
    document.documentElement.dataset["paper"] = "ready";
    return true;
  };
  const stale = (): void => {
    ready = null;
    // An old sheet is never printed for a new departure: until the new one is there, the page prints itself.
    delete document.documentElement.dataset["paper"];
    clearTimeout(timer);
    if (wanted !== null) timer = window.setTimeout(() => void load(), REST_MILLISECONDS);
  };
  const print = async (): Promise<void> => {
    if (!(await load())) failed("The sheet of paper could not be made; the page itself is printed.");
    window.print();
  };
  document.addEventListener("keydown", (event) => {
    if (event.key.toLowerCase() !== "p" || !(event.ctrlKey || event.metaKey) || event.shiftKey || event.altKey) return;
    event.preventDefault();
    void print();
  });
  return {
    departure(departAt) {
      if (departAt === wanted) return;
      wanted = departAt;
      stale();
    },
    forget: stale,
    print,
  };
}

/** Puts a whole HTML document's styles and body into a shadow tree. Its `html` and `body` stand in it, so that its styles find them. */
async function put(root: ShadowRoot, text: string): Promise<void> {
  // Taken out before it is read as a document: the page forbids style elements, and would complain of each.
  const styles: string[] = [];
  const bare = text.replaceAll(/<style[^>]*>([\s\S]*?)<\/style>/gi, (_, style: string) => {
    styles.push(style);
    return "";
  });
  const parsed = new DOMParser().parseFromString(bare, "text/html");
  const links = [...parsed.querySelectorAll<HTMLLinkElement>("link[rel=stylesheet]")].map((link) => link.getAttribute("href") ?? "");
  for (const href of links)
    styles.push(
      await fetch(href)
        .then((answer) => (answer.ok ? answer.text() : ""))
        .catch(() => ""),
    );
  const sheets = styles.map((style) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(style.replaceAll(":root", ":host"));
    return sheet;
  });
  const html = document.createElement("html");
  const body = document.importNode(parsed.body, true);
  for (const script of body.querySelectorAll("script")) script.remove();
  html.append(body);
  root.adoptedStyleSheets = sheets;
  root.replaceChildren(html);
}
