import type { SectionTold } from "../../api/index.ts";
import { around, type Box, type Point } from "../svg/box.ts";
import { escapeText } from "../svg/escape.ts";
import { drawDot, drawLine } from "../svg/path.ts";
import { px } from "../svg/px.ts";
import { boxOf } from "../svg/text.ts";
import { fitted } from "../svg/text-width.ts";
import { type Beside, type Ground, lineOf, linesAbout } from "./ground.ts";

type Place = SectionTold["places"][number];

/** A name takes at most the first of these shares of the plan's width; where that finds no room, the next. */
const NAME_SHARES = [0.42, 0.26, 0.15] as const;
/** A name over so many points of the ways (of five pixels) leaves them whole to the eye; over more than the second it breaks them. */
const TIDY_POINTS = 2;
const UNTIDY_POINTS = 9;
/** With a leader a name may stand so many sizes from its place. */
const LEADER_SIZES = [2, 3.2] as const;

/** All places: those told of, and where open water begins and ends if they are not among them. The ends come first. */
function placesOf({ places, from, to, lengthNm }: SectionTold): Place[] {
  const ends: Place[] = [];
  if (!places.some(({ kind }) => kind === "from")) ends.push({ name: from, kind: "from", acrossNm: 0, offNm: 0 });
  if (!places.some(({ kind }) => kind === "to")) ends.push({ name: to, kind: "to", acrossNm: lengthNm, offNm: 0 });
  const rank = { from: 0, to: 0, refuge: 1 };
  return [...ends, ...places].sort((a, b) => rank[a.kind] - rank[b.kind]);
}

/** A ring at each place, its name beside it; a place off the plan is named at the edge with an arrow and how far off the line it lies. */
export function drawPlaces(ground: Ground): string {
  const { plan, at } = ground.map;
  const radius = ground.measures.placePx;
  const all = placesOf(ground.section).map((place) => ({ place, point: at([place.acrossNm, place.offNm]) }));
  const shown = all.filter(({ point: [x, y] }) => x >= plan.left && x <= plan.right && y >= plan.top + radius && y <= plan.bottom - radius);
  for (const { point } of shown) ground.labels.keepOff(around(point, radius + 1));
  let svg = "";
  for (const { place, point } of shown) {
    const title = `<title>${escapeText(place.name)}</title>`;
    svg += `${nameBeside(ground, place, point)}<g>${title}${drawDot(point, radius, "section-place-ring")}</g>`;
  }
  for (const each of all.filter((each) => !shown.includes(each))) svg += nameAtEdge(ground, each.place, each.point);
  return svg;
}

/** Sets the name, whole where it can be, else with a leader, else cut; gives the leader where there is one. */
function nameBeside(ground: Ground, { name, kind }: Place, point: Point): string {
  const { measures, map, labels } = ground;
  const bounds = map.plan;
  const size = measures.sizes.place;
  const more = kind === "refuge" ? "" : "section-end-place";
  for (const share of NAME_SHARES) {
    const words = fitted(name, (bounds.right - bounds.left) * share, size, "serif");
    if (words === "") return "";
    const near = linesAbout(ground, "place", [words], point, besides(ground, point, size), more);
    if (labels.set(near, { bounds, mostCovered: TIDY_POINTS }) !== null) return "";
    const far = leaders(size).map(([x, y, anchor]) => lineOf(ground, "place", words, [point[0] + x, point[1] + y], anchor, more));
    const led = labels.set(far, { bounds, mostCovered: TIDY_POINTS });
    if (led !== null) return drawLine(point, nearestOn(boxOf(led), point), "section-leader");
    if (labels.set(near, { bounds, mostCovered: UNTIDY_POINTS }) !== null) return "";
  }
  const shortest = fitted(name, (bounds.right - bounds.left) * NAME_SHARES[2], size, "serif");
  labels.set(linesAbout(ground, "place", [shortest], point, besides(ground, point, size), more), { bounds });
  return "";
}

/** Toward the open water first: there is more room. */
function besides({ map, measures }: Ground, [x]: Point, size: number): Beside[] {
  const gap = measures.placePx + size * 0.35;
  const inward = x < (map.plan.left + map.plan.right) / 2 ? 1 : -1;
  const toward = (side: number): "start" | "end" => (side > 0 ? "start" : "end");
  const beside: Beside[] = [];
  for (const side of [inward, -inward]) {
    beside.push(
      [side * gap, size * 0.95 + 1, toward(side)],
      [side * gap, -size * 0.35, toward(side)],
      [side * gap, size * 0.3, toward(side)],
    );
    beside.push([side * gap * 0.4, size * 1.25, toward(side)], [side * gap * 0.4, -size * 0.7, toward(side)]);
  }
  beside.push([0, size * 1.3, "middle"], [0, -size * 0.75, "middle"]);
  return beside;
}

function leaders(size: number): Beside[] {
  return LEADER_SIZES.flatMap((sizes): Beside[] => {
    const away = sizes * size;
    return [
      [size, away, "start"],
      [-size, away, "end"],
      [size, -away, "start"],
      [-size, -away, "end"],
      [away, size * 0.3, "start"],
      [-away, size * 0.3, "end"],
    ];
  });
}

function nearestOn(box: Box, [x, y]: Point): Point {
  return [Math.min(box.right, Math.max(box.left, x)), Math.min(box.bottom, Math.max(box.top, y))];
}

/** `Kell Inlet 14 nm` at the edge nearest to it, with an arrow out of the drawing. */
function nameAtEdge(ground: Ground, { name, offNm, acrossNm }: Place, [x, y]: Point): string {
  const { plan } = ground.map;
  const size = ground.measures.sizes.tiny;
  const down = y > plan.bottom - ground.measures.placePx;
  const up = y < plan.top + ground.measures.placePx;
  const beyondNm = Math.hypot(Math.max(0, -acrossNm, acrossNm - ground.section.lengthNm), offNm);
  const sideways = up || down ? 0 : x < plan.left ? -1 : 1;
  const edge: Point = [Math.min(plan.right - 6, Math.max(plan.left + 6, x)), down ? plan.bottom - 3 : up ? plan.top + 3 : y];
  const words = `${fitted(name, (plan.right - plan.left) * NAME_SHARES[0], size)} ${beyondNm.toFixed(0)} nm`;
  const beside: Beside[] = (["start", "end"] as const).flatMap((anchor): Beside[] => {
    const right = anchor === "start" ? 7 : -7;
    return [0, 1, 2].map((row): Beside => [right, (down ? -row : row) * size * 1.25 + (down ? -1 : size * 0.7), anchor]);
  });
  if (ground.labels.set(linesAbout(ground, "tiny", [words], edge, beside), { bounds: plan }) === null) return "";
  const [ux, uy] = [sideways, down ? 1 : up ? -1 : 0];
  const [tx, ty] = [edge[0] + (sideways < 0 ? -2 : sideways > 0 ? 2 : 0), edge[1]];
  const tail = `M${px(tx - ux * 9)} ${px(ty - uy * 9)}L${px(tx)} ${px(ty)}`;
  const head = `M${px(tx - ux * 3.5 - uy * 2.5)} ${px(ty - uy * 3.5 + ux * 2.5)}L${px(tx)} ${px(ty)}L${px(tx - ux * 3.5 + uy * 2.5)} ${px(ty - uy * 3.5 - ux * 2.5)}`;
  return `<path class="section-leader" d="${tail}${head}"/>`;
}
