import type { WayTold } from "../../api/index.ts";

/** How a way is drawn: told apart by line alone, never by colour. */
export interface WayLine {
  readonly widthPx: number;
  /** SVG `stroke-dasharray`; null for a whole line. */
  readonly dash: string | null;
  readonly roundCaps: boolean;
}

const order: WayLine = { widthPx: 3.4, dash: null, roundCaps: false };
const yardstick: WayLine = { widthPx: 2, dash: "0.1 5", roundCaps: true };
const unknown: WayLine = { widthPx: 1.7, dash: "3 3", roundCaps: false };
const byKey: Readonly<Record<string, WayLine>> = {
  bowOnDestination: { widthPx: 1.7, dash: "9 3.5", roundCaps: false },
  holdTrack: { widthPx: 1.1, dash: null, roundCaps: false },
  acrossThenTurn: { widthPx: 1.7, dash: "10 3 1.5 3", roundCaps: false },
  oneHeading: { widthPx: 1.7, dash: "5 2.5", roundCaps: false },
  changingHeadings: { widthPx: 1.7, dash: "10 3 1.5 3 1.5 3", roundCaps: false },
  squareInLanes: { widthPx: 1.1, dash: "14 4", roundCaps: false },
};

/** The line of a way, by what it is for and which it is: the same on a figure and beside its name. */
export function lineOfWay(way: Pick<WayTold, "role" | "key">): WayLine {
  if (way.role === "order") return order;
  if (way.role === "yardstick") return yardstick;
  return byKey[way.key] ?? unknown;
}

/** A short sample of a way's line, 44 × 10 px. */
export function drawWaySample(way: Pick<WayTold, "role" | "key">): string {
  const { widthPx, dash, roundCaps } = lineOfWay(way);
  const dashes = dash === null ? "" : ` stroke-dasharray="${dash}"`;
  const caps = roundCaps ? ' stroke-linecap="round"' : "";
  return `<svg class="way-sample" viewBox="0 0 44 10" width="44" height="10" aria-hidden="true" focusable="false"><line class="way-${way.role}" x1="2" y1="5" x2="42" y2="5" stroke-width="${widthPx}"${dashes}${caps}/></svg>`;
}
