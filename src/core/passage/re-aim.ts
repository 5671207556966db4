import { nmFromMetres } from "../units/index.ts";
import { scaledCurrent } from "../water/index.ts";
import type { Crossing } from "./crossing.ts";
import { alongOf, lineBetween, offOf, pointAt } from "./line.ts";
import { findHeadings } from "./one-heading.ts";
import { Simulator } from "./simulate.ts";
import { runnerFor } from "./square-in-lanes.ts";
import type { Track } from "./track.ts";
import type { WayArrives } from "./way.ts";

/** How strong the stream may turn out, as shares of what was foretold. */
export const STREAM_FACTORS = [0.8, 1, 1.25] as const;
/** Miles off the expected path for which a new heading is given. Down-stream positive. */
export const OFF_PATH_NM = [-4, -2, 0, 2, 4] as const;

export interface ReAimRow {
  readonly acrossMetres: number;
  /** When the boat is expected there. */
  readonly at: number;
  /** One cell for each of `OFF_PATH_NM`: the heading to the destination from there and when it arrives; null where none leads there. */
  readonly cells: readonly ({ readonly headingDegTrue: number; readonly arrivalAt: number } | null)[];
}

export interface ReAimTable {
  readonly streamFactor: number;
  readonly rows: readonly ReAimRow[];
}

/** The spacing of rows, miles across, so that about ten rows serve any crossing. */
export function rowSpacingNm(lengthMetres: number): number {
  const miles = nmFromMetres(lengthMetres);
  for (const spacing of [1, 2, 2.5, 5, 10, 20]) if (miles / spacing <= 11) return spacing;
  return 20;
}

/**
 * The table that goes with the order: miles across and miles off the expected path give the one heading to the destination from there,
 * for the stream at each of `STREAM_FACTORS`. "Down-stream" is the side toward which the stream sets. For
 * a way square in the lanes they are the headings outside the lanes.
 */
export function reAimTables(crossing: Crossing, way: WayArrives, downStreamSide: 1 | -1): readonly ReAimTable[] {
  const { line } = crossing;
  const spacing = rowSpacingNm(line.lengthMetres) * 1852;
  return STREAM_FACTORS.map((streamFactor) => {
    const around = { ...crossing.around, current: scaledCurrent(crossing.around.current, streamFactor) };
    const simulator = runnerFor(crossing, way.name, new Simulator(around));
    const rows: ReAimRow[] = [];
    for (let across = 0; across <= line.lengthMetres * 0.95; across += spacing) {
      const expected = whereAlong(way.track, line, across);
      if (expected === null) continue;
      let near: number | null = null;
      const cells = OFF_PATH_NM.map((offNm) => {
        const from = pointAt(line, across, expected.offMetres + offNm * 1852 * downStreamSide);
        const rest = lineBetween(line.plane, from.xMetres, from.yMetres, line.toX, line.toY);
        const start = { ...from, at: expected.at, engineOn: false };
        const best = findHeadings(
          simulator,
          crossing.boat,
          rest,
          start,
          crossing.stepSeconds,
          near === null ? { earliestOnly: true } : { near },
        ).found[0];
        near = best?.headingDegTrue ?? null;
        return best === undefined ? null : { headingDegTrue: best.headingDegTrue, arrivalAt: best.arrivalAt };
      });
      rows.push({ acrossMetres: across, at: expected.at, cells });
    }
    return { streamFactor, rows };
  });
}

/** When and how far off the line a track first comes to a distance along it; null when it never does. */
export function whereAlong(
  track: Track,
  line: Crossing["line"],
  alongMetres: number,
): { readonly at: number; readonly offMetres: number } | null {
  let beforeAlong = alongOf(line, track.xMetres[0] as number, track.yMetres[0] as number);
  if (alongMetres <= beforeAlong + 1e-6)
    return { at: track.atSeconds[0] as number, offMetres: offOf(line, track.xMetres[0] as number, track.yMetres[0] as number) };
  for (let i = 1; i < track.count; i++) {
    const along = alongOf(line, track.xMetres[i] as number, track.yMetres[i] as number);
    if (along >= alongMetres) {
      const share = (alongMetres - beforeAlong) / (along - beforeAlong);
      const at0 = track.atSeconds[i - 1] as number;
      const off0 = offOf(line, track.xMetres[i - 1] as number, track.yMetres[i - 1] as number);
      const off1 = offOf(line, track.xMetres[i] as number, track.yMetres[i] as number);
      return { at: at0 + share * ((track.atSeconds[i] as number) - at0), offMetres: off0 + share * (off1 - off0) };
    }
    beforeAlong = along;
  }
  return null;
}
