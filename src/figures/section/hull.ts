import type { SectionTold } from "../../api/index.ts";
import { around, type Point } from "../svg/box.ts";
import { px } from "../svg/px.ts";
import type { Ground } from "./ground.ts";

type Row = readonly (readonly [number, number])[];

/** The value of a row at so many miles across: between the first two points that have it between them; null where none have. */
export function valueAt(points: Row, acrossNm: number): number | null {
  for (let i = 1; i < points.length; i++) {
    const [[a, v], [b, w]] = [points[i - 1]!, points[i]!];
    if (a === b || (acrossNm - a) * (acrossNm - b) > 0) continue;
    return v + (w - v) * Math.min(1, Math.max(0, (acrossNm - a) / (b - a)));
  }
  return null;
}

/** The boat in mid-stream on her order, pointing where she heads, not where she goes. */
export function drawHull(ground: Ground): string {
  const { map, measures, labels, section } = ground;
  const order = section.paths.find(({ role }) => role === "order");
  const { acrossNm } = section.axis;
  const offNm = order === undefined ? null : valueAt(order.points, acrossNm);
  if (order === undefined || offNm === null) return "";
  const [x, y] = map.at([acrossNm, offNm]);
  const { plan } = map;
  const half = measures.hullPx / 2;
  if (x < plan.left + half || x > plan.right - half || y < plan.top + half || y > plan.bottom - half) return "";
  const turned = courseTurned(order.points.map(map.at), [x, y]) + (headingLessCourse(section) ?? 0);
  const d =
    `M${px(half)} 0C${px(half * 0.45)} ${px(-half * 0.5)} ${px(-half * 0.4)} ${px(-half * 0.52)} ${px(-half)} ${px(-half * 0.34)}` +
    `L${px(-half)} ${px(half * 0.34)}C${px(-half * 0.4)} ${px(half * 0.52)} ${px(half * 0.45)} ${px(half * 0.5)} ${px(half)} 0Z`;
  labels.keepOff(around([x, y], half * 0.8));
  return `<path class="section-hull" transform="translate(${px(x)} ${px(y)}) rotate(${px(turned)})" d="${d}"/>`;
}

/** How far the way over the ground is turned from the right of the drawing, clockwise, degrees, where it passes a point. */
function courseTurned(points: readonly Point[], [x]: Point): number {
  const i = points.findIndex(([at], k) => k > 0 && (at - x) * (points[k - 1]![0] - x) <= 0);
  const [[ax, ay], [bx, by]] = [points[Math.max(0, i - 1)]!, points[Math.max(1, i)]!];
  return (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
}

/** The heading less the course over the ground in mid-stream, degrees. */
function headingLessCourse({ heading, axis }: SectionTold): number | null {
  const steered = valueAt(heading.steered, axis.acrossNm);
  const course = valueAt(heading.overGround, axis.acrossNm);
  return steered === null || course === null ? null : ((((steered - course + 180) % 360) + 360) % 360) - 180;
}
