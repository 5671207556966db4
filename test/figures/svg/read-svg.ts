/** An element of a drawing as a strict reader finds it. */
export type Element = {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
};

const NAME = /^[A-Za-z_][\w:.-]*/;

/** Reads what a string of XML holds; throws at the first breach of XML 1.0's rules for elements, attributes, references and characters. */
export function readSvg(source: string): Element {
  const bad = (at: number, why: string): never => {
    throw new Error(`${why} at ${at}: …${source.slice(Math.max(0, at - 40), at + 40)}…`);
  };
  for (const character of source) {
    const code = character.codePointAt(0)!;
    const allowed =
      code === 9 || code === 10 || code === 13 || (code >= 0x20 && code <= 0xd7ff) || (code >= 0xe000 && code <= 0xfffd) || code >= 0x10000;
    if (!allowed) bad(source.indexOf(character), `no character of XML: ${code.toString(16)}`);
  }
  const decoded = (raw: string, at: number): string =>
    raw.replace(/&([^;]*;?)/g, (whole, name: string) => {
      const known: Record<string, string> = { "amp;": "&", "lt;": "<", "gt;": ">", "quot;": '"', "#39;": "'" };
      return known[name] ?? bad(at, `no reference: ${whole}`);
    });
  const open: Element[] = [];
  let root: Element | null = null;
  let at = 0;
  while (at < source.length) {
    if (source[at] !== "<") {
      const end = source.indexOf("<", at);
      const text = decoded(source.slice(at, end < 0 ? source.length : end), at);
      const inside = open.at(-1);
      if (inside === undefined) bad(at, "text outside the root");
      else inside.text += text;
      at = end < 0 ? source.length : end;
      continue;
    }
    if (source[at + 1] === "/") {
      const end = source.indexOf(">", at);
      const closed = open.pop();
      if (closed === undefined || closed.tag !== source.slice(at + 2, end)) bad(at, "closes what is not open");
      at = end + 1;
      continue;
    }
    const tag = NAME.exec(source.slice(at + 1))?.[0] ?? bad(at, "no tag");
    const attributes: Record<string, string> = {};
    let here = at + 1 + tag.length;
    for (;;) {
      const rest = source.slice(here, here + 200_000);
      const end = /^\s*(\/?)>/.exec(rest);
      if (end !== null) {
        const element: Element = { tag, attributes, children: [], text: "" };
        const parent = open.at(-1);
        if (parent !== undefined) parent.children.push(element);
        else if (root === null) root = element;
        else bad(at, "a second root");
        if (end[1] === "") open.push(element);
        at = here + end[0].length;
        break;
      }
      const attribute = /^\s+([A-Za-z_][\w:.-]*)="([^"<]*)"/.exec(rest) ?? bad(here, "no attribute");
      const [whole, name = "", value = ""] = attribute;
      if (name in attributes) bad(here, `${name} twice`);
      attributes[name] = decoded(value, here);
      here += whole.length;
    }
  }
  if (open.length > 0 || root === null) return bad(at, "left open");
  return root;
}

/** All elements, the root first. */
export function everyElement(root: Element): Element[] {
  return [root, ...root.children.flatMap(everyElement)];
}

/** The elements that bear a class. */
export function withClass(root: Element, name: string): Element[] {
  return everyElement(root).filter(({ attributes }) => (attributes.class ?? "").split(" ").includes(name));
}

/** The points that path data of absolute moves, lines and curves goes through or bends by. */
export function pointsOf(data: string): [number, number][] {
  const numbers = [...data.matchAll(/-?\d+(?:\.\d+)?/g)].map(([each]) => Number(each));
  if (numbers.length % 2 !== 0 || /[^MLCZ\d\s.-]/.test(data)) throw new Error(`no path data of the figures': ${data}`);
  return Array.from({ length: numbers.length / 2 }, (_, i) => [numbers[2 * i]!, numbers[2 * i + 1]!]);
}
