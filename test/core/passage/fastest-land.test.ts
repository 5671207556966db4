import { describe, expect, it } from "vitest";
import { type Land, type LandArea, landOn } from "../../../src/core/coast/index.ts";
import { crossingOf, type FastestWay, fastestWay, helmOrder, lineBetween } from "../../../src/core/passage/index.ts";
import { type CurrentSource, gaussianJet, sumOfCurrents, turningTide, uniformCurrent } from "../../../src/core/water/index.ts";
import { seededNumbers } from "./seeded-numbers.ts";
import { FLAT, HOUR, KN, NM, powerBoat } from "./waters.ts";

type Corner = readonly [east: number, north: number];

/** On the flat plane around 0°, 0° a minute is a mile. */
const areaOf = (corners: readonly Corner[]): LandArea => ({
  kind: "land",
  name: null,
  rings: [Float64Array.from(corners.flatMap(([east, north]) => [east / 60, north / 60]))],
});

/** Convex islands of five to nine corners off both ends of the line of 60 miles. */
function islands(seed: number, count: number): Corner[][] {
  const next = seededNumbers(seed);
  return Array.from({ length: count }, () => {
    const east = 10 + 40 * next();
    const north = -10 + 20 * next();
    const size = 2 + 6 * next();
    const corners = 5 + Math.floor(5 * next());
    const turn = 6 * next();
    return Array.from({ length: corners }, (_, i): Corner => {
      const angle = turn + (2 * Math.PI * i) / corners;
      return [east + size * Math.cos(angle), north + size * Math.sin(angle)];
    });
  });
}

function fastestPast(areas: readonly LandArea[], current: CurrentSource, crossCheck: boolean): { way: FastestWay; land: Land } {
  const land = landOn(FLAT, areas);
  if (land === null) throw new Error("no land");
  const around = { plane: FLAT, current: current.onPlane(FLAT), currentCovers: null, wind: null, windCovers: null, land };
  return { way: fastestWay(crossingOf(lineBetween(FLAT, 0, 0, 60 * NM, 0), around, powerBoat(5)), 0, { crossCheck }), land };
}

const hoursOf = (way: FastestWay): number => {
  if (way.kind === "fails") throw new Error(JSON.stringify(way.why));
  return (way.arrivalAt - way.departAt) / HOUR;
};

function timesAcross(way: FastestWay, land: Land): number {
  if (way.kind === "fails") throw new Error(way.why.code);
  const { count, xMetres, yMetres } = way.track;
  let times = 0;
  for (let i = 0; i + 1 < count; i++) {
    if (land.crosses(xMetres[i] as number, yMetres[i] as number, xMetres[i + 1] as number, yMetres[i + 1] as number)) times++;
  }
  return times;
}

/** The shortest way past corners from which one sees the other, miles (Dijkstra on the visibility graph): exact in still water. */
function shortestNm(corners: readonly Corner[], land: Land): number {
  const places: readonly Corner[] = [[0, 0], [60, 0], ...corners];
  const miles = places.map((_, i) => (i === 0 ? 0 : Number.POSITIVE_INFINITY));
  const done = new Set<number>();
  for (;;) {
    let nearest = -1;
    miles.forEach((mile, i) => {
      if (!done.has(i) && mile < Number.POSITIVE_INFINITY && (nearest < 0 || mile < (miles[nearest] as number))) nearest = i;
    });
    if (nearest < 0 || nearest === 1) return miles[1] as number;
    done.add(nearest);
    const [x0, y0] = places[nearest] as Corner;
    places.forEach(([x1, y1], i) => {
      if (done.has(i) || land.crosses(x0 * NM, y0 * NM, x1 * NM, y1 * NM)) return;
      miles[i] = Math.min(miles[i] as number, (miles[nearest] as number) + Math.hypot(x1 - x0, y1 - y0));
    });
  }
}

/** Corners a metre off, so that what runs along an edge is clear. */
const offCorners = (island: readonly Corner[]): Corner[] => {
  const east = island.reduce((sum, [x]) => sum + x, 0) / island.length;
  const north = island.reduce((sum, [, y]) => sum + y, 0) / island.length;
  return island.map(([x, y]) => {
    const far = Math.hypot(x - east, y - north);
    return [x + ((x - east) / far) * (2 / NM), y + ((y - north) / far) * (2 / NM)];
  });
};

const SEEDS = Array.from({ length: 14 }, (_, i) => i + 1);

describe("the fastest way among islands", () => {
  it.each(SEEDS)("still water, seed %i: the shortest way of the visibility graph, and never ashore", (seed) => {
    const made = islands(seed, 2 + (seed % 5));
    const { way, land } = fastestPast(made.map(areaOf), uniformCurrent(0, 0), true);
    const best = shortestNm(made.flatMap(offCorners), land) / 5;
    expect(timesAcross(way, land)).toBe(0);
    expect(hoursOf(way) / best).toBeGreaterThan(1 - 1e-5);
    expect(hoursOf(way) / best, `${hoursOf(way)} h against ${best} h`).toBeLessThan(1 + 1e-4);
  });

  it.each(SEEDS)("moving water, seed %i: never ashore, and no earlier than without the islands", (seed) => {
    const next = seededNumbers(seed + 100);
    const current = sumOfCurrents([
      gaussianJet({ rateMps: (6 * next() - 3) * KN, axisMetres: 30 * NM, halfWidthMetres: (5 + 10 * next()) * NM }),
      turningTide({ rateMps: 1.5 * next() * KN, periodSeconds: 12.42 * HOUR, epochAt: 12 * next() * HOUR }),
    ]);
    const areas = islands(seed, 2 + (seed % 5)).map(areaOf);
    const quick = fastestPast(areas, current, false);
    expect(timesAcross(quick.way, quick.land)).toBe(0);
    const checked = fastestPast(areas, current, true);
    expect(timesAcross(checked.way, checked.land)).toBe(0);
    const free = fastestPast(
      [
        areaOf([
          [200, 200],
          [201, 200],
          [201, 201],
        ]),
      ],
      current,
      true,
    );
    expect(hoursOf(checked.way)).toBeGreaterThan(hoursOf(free.way) * (1 - 1e-6));
    expect(hoursOf(checked.way)).toBeLessThan(hoursOf(quick.way) * (1 + 1e-6));
  });

  it("runs along a straight coast toward which the stream is the better, edge to edge", () => {
    const coast = areaOf([
      [5, 0.5],
      [55, 0.5],
      [55, 20],
      [5, 20],
    ]);
    const helped = gaussianJet({ rateMps: 2 * KN, axisMetres: -NM, halfWidthMetres: 3 * NM });
    // The same bell laid along the coast: its axis a mile north of the line, behind the edge.
    const along: CurrentSource = {
      ...helped,
      onPlane: (plane) => {
        const inner = helped.onPlane(plane);
        return {
          quantities: inner.quantities,
          answeredBy: 0,
          sampleInto(out, _x, y, at) {
            const why = inner.sampleInto(out, -y, 0, at);
            out[0] = out[1] as number;
            out[1] = 0;
            return why;
          },
          nearestInto: () => false,
          reachesPlace: () => true,
        };
      },
    };
    const { way, land } = fastestPast([coast], along, true);
    expect(timesAcross(way, land)).toBe(0);
    if (way.kind === "fails") throw new Error(way.why.code);
    const far = Math.max(...way.track.yMetres);
    expect(far).toBeLessThan(0.5 * NM);
  });

  it("an order of held headings that would lead ashore is refused", () => {
    const { way } = fastestPast(
      [
        areaOf([
          [24, -3],
          [36, -3],
          [36, 9],
          [24, 9],
        ]),
      ],
      uniformCurrent(0, 0),
      false,
    );
    if (way.kind === "fails") throw new Error(way.why.code);
    const land = landOn(FLAT, [
      areaOf([
        [24, -3],
        [36, -3],
        [36, 9],
        [24, 9],
      ]),
    ]);
    const around = { plane: FLAT, current: uniformCurrent(0, 0).onPlane(FLAT), currentCovers: null, wind: null, windCovers: null, land };
    const order = helmOrder(crossingOf(lineBetween(FLAT, 0, 0, 60 * NM, 0), around, powerBoat(5)), way, 24 * HOUR);
    expect(order).toMatchObject({ kind: "fails", why: { code: "across-land" } });
  });
});
