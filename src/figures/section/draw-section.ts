import type { SectionTold, WayTold } from "../../api/index.ts";
import { escapeText } from "../svg/escape.ts";
import { drawHatch, nameOfFigure } from "../svg/hatch.ts";
import { Labels } from "../svg/labels.ts";
import { drawLine } from "../svg/path.ts";
import { px } from "../svg/px.ts";
import type { Ground } from "./ground.ts";
import { drawClockRow, drawHourRules } from "./hours.ts";
import { drawHull } from "./hull.ts";
import { measuresFor, PAPER_WIDTH_PX } from "./measures.ts";
import { drawMiles } from "./miles.ts";
import { drawNorth, drawScale } from "./plan-furniture.ts";
import { drawLand, drawLanes, drawStream, nameGround } from "./plan-ground.ts";
import { drawPlaces } from "./plan-places.ts";
import { drawLetters, drawWays } from "./plan-ways.ts";
import { project } from "./projection.ts";
import { drawStrips, stripsHeightPx } from "./strips.ts";

/** How a section is drawn. */
export type SectionOptions = {
  /** The width of the drawing, pixels: 900, 708 and 332 on the screen, 476 on the sheet of paper; others between them work. */
  readonly widthPx: number;
  /** The ways as the table has them: why one does not arrive is then said at its line. */
  readonly ways?: readonly WayTold[];
  /** Set in the sizes of paper; by itself where the width is that of the sheet. */
  readonly paper?: boolean;
};

/**
 * The section across the stream as an SVG: the plan over the strips, on one axis of miles across with the hours ruled down through all.
 * Up the plan is up-stream. Inks are those of `section.css`; what it shows is in its title and description too.
 */
export function drawSection(section: SectionTold, options: SectionOptions): string {
  const measures = measuresFor(options.widthPx, options.paper ?? options.widthPx === PAPER_WIDTH_PX);
  const map = project(section, measures);
  const id = nameOfFigure("section", [section, measures.kind, measures.widthPx]);
  const bare = { section, measures, map, id };
  const stripsTop = map.plan.bottom + measures.clockRowPx;
  const footTop = stripsTop + stripsHeightPx({ ...bare, labels: new Labels(map.plan) });
  const heightPx = Math.ceil(footTop + measures.footPx);
  const ground: Ground = { ...bare, labels: new Labels({ left: 0, top: 0, right: measures.widthPx, bottom: heightPx }) };

  const stream = drawStream(ground);
  const scale = drawScale(ground, stream.pxPerKn);
  const under = drawHourRules(ground, footTop) + stream.svg + drawLanes(ground) + drawLand(ground);
  const line = drawLine([map.left, map.y(0)], [map.right, map.y(0)], "section-line");
  const ways = drawWays(ground);
  const hull = drawHull(ground);
  const places = drawPlaces(ground);
  const letters = drawLetters(ground);
  const north = drawNorth(ground);
  nameGround(ground);
  const strips = drawStrips(ground, stripsTop);
  const clock = drawClockRow(ground);
  const miles = drawMiles(ground, footTop);
  const why = (options.ways ?? [])
    .filter(({ arrives }) => !arrives)
    .map(({ letter, name, why }) => ` ${letter}, ${name}, does not arrive${why === null ? "" : `: ${why}`}.`)
    .join("");

  return (
    `<svg xmlns="http://www.w3.org/2000/svg" class="section section-${measures.kind}" viewBox="0 0 ${px(measures.widthPx)} ${heightPx}"` +
    ` width="${px(measures.widthPx)}" height="${heightPx}" role="img" aria-labelledby="${id}-title ${id}-words">` +
    `<title id="${id}-title">${escapeText(`Plan and section across the stream, ${section.from} to ${section.to}`)}</title>` +
    `<desc id="${id}-words">${escapeText(section.inWords + why)}</desc>` +
    `<defs>${drawHatch(`${id}-hatch`, "section-hatch", measures.kind === "paper" ? 3.4 : 5)}` +
    `${drawHatch(`${id}-past`, "section-hatch-past", measures.kind === "paper" ? 3 : 4.6)}</defs>` +
    `${under}${line}${ways}${hull}${north}${letters}${scale}${places}${clock}${strips}${miles}` +
    `<g class="section-labels">${ground.labels.drawn()}</g></svg>`
  );
}
