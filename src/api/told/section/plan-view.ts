import { COVERED } from "../../../core/fields/index.ts";
import { type Track, whereAlong } from "../../../core/passage/index.ts";
import type { CrossAnswer } from "../../../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../../../core/units/index.ts";
import type { CurrentSampler } from "../../../core/water/index.ts";
import { shortPlace } from "../refuges-told-of.ts";
import type { SectionTold } from "../section-told.ts";
import { type Across, type AcrossAxes, isFar, tidy } from "./across.ts";

/** Corners of a coast nearer to each other than this share of the crossing can't be told apart in a drawing. */
const CORNER_SHARE = 1 / 600;
/** Land is drawn so far beyond either end and either side, as shares of the crossing. */
const BEYOND_SHARE = 0.35;
const MARKS_ACROSS = 16;

/** Land and kept-out areas about the crossing; corners far outside what is drawn are left out. */
export function landToldOf({ prepared }: CrossAnswer, axes: AcrossAxes): SectionTold["land"] {
  const lengthNm = nmFromMetres(prepared.line.lengthMetres);
  const reachNm = lengthNm * (0.5 + BEYOND_SHARE);
  const isNear = (ring: readonly Across[]): boolean => {
    const across = ring.map(([x]) => x);
    const off = ring.map(([, y]) => y);
    return (
      Math.max(...across) > -lengthNm * BEYOND_SHARE &&
      Math.min(...across) < lengthNm * (1 + BEYOND_SHARE) &&
      Math.max(...off) > -reachNm &&
      Math.min(...off) < reachNm
    );
  };
  return (prepared.land?.areas ?? []).flatMap(({ name, kind, rings }) => {
    const outer = rings[0];
    if (outer === undefined) return [];
    const ring: Across[] = [];
    for (let i = 0; i + 1 < outer.length; i += 2) {
      const point = axes.ofPosition({ latitudeDeg: outer[i + 1] as number, longitudeDeg: outer[i] as number });
      if (point !== null && isFar(ring.at(-1), point, lengthNm * CORNER_SHARE)) ring.push(point);
    }
    return ring.length >= 3 && isNear(ring) ? [{ name, kind, ring }] : [];
  });
}

export function lanesToldOf({ prepared }: CrossAnswer, axes: AcrossAxes): SectionTold["lanes"] {
  return (prepared.passage.lanes ?? []).map(({ name, ring, flowDegTrue }) => ({
    name,
    ring: ring.flatMap((position) => {
      const point = axes.ofPosition(position);
      return point === null ? [] : [point];
    }),
    flowTowardDegTrue: flowDegTrue,
  }));
}

export function placesToldOf({ prepared }: CrossAnswer, axes: AcrossAxes): SectionTold["places"] {
  const { from, to, refuges } = prepared.passage;
  const named = [
    { ...from, kind: "from" as const },
    { ...to, kind: "to" as const },
    ...(refuges?.listed ?? []).map((one) => ({ ...one, kind: "refuge" as const })),
  ];
  return named.flatMap(({ name, position, kind }) => {
    const point = axes.ofPosition(position);
    return point === null ? [] : [{ name: shortPlace(name), kind, acrossNm: point[0], offNm: point[1] }];
  });
}

/** The current about the order, each mark of the time at which the order brings the boat so far across; none where it is not known. */
export function streamMarksOf(
  { prepared }: CrossAnswer,
  axes: AcrossAxes,
  track: Track,
  current: CurrentSampler,
  offs: { readonly least: number; readonly most: number },
): SectionTold["streamMarks"] {
  const { line } = prepared;
  const spacing = line.lengthMetres / MARKS_ACROSS;
  const spacingNm = nmFromMetres(spacing);
  const out = new Float64Array(2);
  const marks: SectionTold["streamMarks"] = [];
  for (let along = spacing / 2; along < line.lengthMetres; along += spacing) {
    const there = whereAlong(track, line, along);
    if (there === null) continue;
    for (let k = Math.floor(offs.least / spacingNm); k <= Math.ceil(offs.most / spacingNm); k++) {
      const offNm = k * spacingNm;
      const off = -axes.downStreamSide * offNm * 1852;
      const x = line.fromX + line.alongX * along + line.alongY * off;
      const y = line.fromY + line.alongY * along - line.alongX * off;
      if (line.plane.radiusMetres < Math.max(Math.abs(x), Math.abs(y))) continue;
      if (prepared.land?.onPlane?.contains(x, y) === true || current.sampleInto(out, x, y, there.at) !== COVERED) continue;
      const [east, north] = [out[0] as number, out[1] as number];
      const alongMps = east * line.alongX + north * line.alongY;
      const starboardMps = east * line.alongY - north * line.alongX;
      marks.push({
        acrossNm: tidy(nmFromMetres(along)),
        offNm: tidy(offNm),
        alongKn: tidy(knotsFromMps(alongMps)),
        upKn: tidy(-axes.downStreamSide * knotsFromMps(starboardMps)),
      });
    }
  }
  return marks;
}
