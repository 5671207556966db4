import type { SectionTold } from "../../../src/api/told/section-told.ts";
import { drawSection, type SectionOptions } from "../../../src/figures/section/draw-section.ts";
import type { Box } from "../../../src/figures/svg/box.ts";
import { boxOf } from "../../../src/figures/svg/text.ts";
import { type Element, everyElement, pointsOf, readSvg, withClass } from "../svg/read-svg.ts";

/** The widths that a section is drawn for: the page's three, and the sheet of paper. */
export const widths = [900, 708, 476, 332] as const;

/** A section drawn and read back by the strict reader. */
export function drawn(told: SectionTold, options: SectionOptions): { svg: string; root: Element; texts: Element[] } {
  const svg = drawSection(told, options);
  const root = readSvg(svg);
  return { svg, root, texts: everyElement(root).filter(({ tag }) => tag === "text") };
}

/** A number among an element's attributes. */
export function numberOf(element: Element, name: string): number {
  const value = Number(element.attributes[name]);
  if (!Number.isFinite(value)) throw new Error(`${element.tag} has no number ${name}: ${element.attributes[name]}`);
  return value;
}

/** The box that a text's ink stands in, by the figures' own measure. */
export function boxOfText({ attributes, text }: Element): Box {
  const classes = attributes.class ?? "";
  const bold = /section-(name|badge-letter|land-name|bold)/.test(classes);
  return boxOf({
    text,
    at: [Number(attributes.x), Number(attributes.y)],
    anchor: (attributes["text-anchor"] ?? "start") as "start" | "middle" | "end",
    sizePx: Number(attributes["font-size"]),
    face: classes.includes("section-place") ? "serif" : bold ? "sansBold" : "sans",
    className: classes,
    upright: attributes.transform !== undefined,
  });
}

/** The ring of a place by its name: its middle. */
export function ringOf(root: Element, name: string): [number, number] {
  const group = everyElement(root).find(({ tag, children }) => tag === "g" && children[0]?.tag === "title" && children[0].text === name);
  const ring = group?.children.find(({ tag }) => tag === "circle");
  if (ring === undefined) throw new Error(`no ring for ${name}`);
  return [numberOf(ring, "cx"), numberOf(ring, "cy")];
}

/** The path data of a way. */
export function wayData(root: Element, letter: string): string[] {
  return everyElement(root)
    .filter(({ attributes }) => attributes["data-way"] === letter)
    .map(({ attributes }) => attributes.d ?? "");
}

/** All points that anything of the drawing goes through, in the drawing's own pixels; patterns and the turned hull left out. */
export function everyPoint(root: Element): [number, number][] {
  const inPattern = new Set(
    everyElement(root)
      .filter(({ tag }) => tag === "pattern")
      .flatMap(everyElement),
  );
  return everyElement(root).flatMap((element): [number, number][] => {
    if (inPattern.has(element) || element.attributes.transform !== undefined) return [];
    if (element.tag === "path") return pointsOf(element.attributes.d ?? "");
    if (element.tag === "circle") return [[numberOf(element, "cx"), numberOf(element, "cy")]];
    if (element.tag !== "rect") return [];
    const [x, y] = [numberOf(element, "x"), numberOf(element, "y")];
    return [
      [x, y],
      [x + numberOf(element, "width"), y + numberOf(element, "height")],
    ];
  });
}

/** The one element of a class. */
export function only(root: Element, name: string): Element {
  const found = withClass(root, name);
  if (found.length !== 1) throw new Error(`${found.length} of ${name}`);
  return found[0]!;
}
