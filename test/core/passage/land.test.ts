import { describe, expect, it } from "vitest";
import { type LandArea, landOn } from "../../../src/core/coast/index.ts";
import {
  bowOnDestination,
  type Crossing,
  carryOut,
  crossingOf,
  findHeadings,
  holdTrack,
  lineBetween,
  oneHeading,
  reAimTables,
  startOf,
  type Way,
  waysAcross,
} from "../../../src/core/passage/index.ts";
import { gaussianJet, gridCurrent, sumOfCurrents, turningTide, uniformCurrent } from "../../../src/core/water/index.ts";
import { arriving, currentGrid, FLAT, HOUR, headingOf, KN, NM, powerBoat, whyOf } from "./waters.ts";

/** A rectangle of land, nm east and north of the centre, where a minute is a mile. */
function block(name: string, west: number, south: number, east: number, north: number, kind: LandArea["kind"] = "land"): LandArea {
  const rings = [Float64Array.of(west / 60, south / 60, east / 60, south / 60, east / 60, north / 60, west / 60, north / 60)];
  return { kind, name, rings };
}

function overLand(
  areas: readonly LandArea[],
  current = uniformCurrent(0, 0),
  from: readonly [number, number] = [0, 0],
  to: readonly [number, number] = [40, 0],
  knots = 5,
): Crossing {
  const line = lineBetween(FLAT, from[0] * NM, from[1] * NM, to[0] * NM, to[1] * NM);
  const around = { plane: FLAT, current: current.onPlane(FLAT), currentCovers: current.covers, wind: null, windCovers: null };
  return crossingOf(line, { ...around, land: landOn(FLAT, areas) }, powerBoat(knots));
}

const jet = gaussianJet({ rateMps: 3 * KN, axisMetres: 20 * NM, halfWidthMetres: 8 * NM });

describe("land in the way", () => {
  it("ends a track that is held over a headland, and says where, when and on what", () => {
    const way = holdTrack(overLand([block("Cape Orro", 10, -3, 12, 20)]), 1000);
    const why = whyOf(way);
    expect(why.code).toBe("across-land");
    if (why.code !== "across-land") return;
    expect(why.area).toEqual({ kind: "land", name: "Cape Orro" });
    // Ten miles at five knots.
    expect(why.at).toBeCloseTo(1000 + 2 * HOUR, 3);
    expect(why.where.longitudeDeg).toBeCloseTo(10 / 60, 8);
    expect(why.where.latitudeDeg).toBeCloseTo(0, 8);
  });

  it("ends every way, each where it meets it, and none is clear of land only at its nodes", () => {
    // A wall of 20 m: a step is 770 m long.
    const wall = block("the wall", 30, -60, 30 + 20 / NM, 60, "keptOut");
    const { ways } = waysAcross(overLand([wall], jet), 0);
    expect(ways.length).toBeGreaterThanOrEqual(4);
    for (const way of ways) {
      const why = whyOf(way);
      expect(why.code).toBe("across-land");
      if (why.code === "across-land") {
        expect(why.area).toEqual({ kind: "keptOut", name: "the wall" });
        expect(why.where.longitudeDeg * 60).toBeCloseTo(30, 6);
      }
    }
  });

  it("leaves alone what passes clear of it: the same answers to the last bit", () => {
    const clear = waysAcross(overLand([], jet), 0).ways;
    const beside = waysAcross(overLand([block("Isle", -30, -3, -20, 3), block("Far", 10, -40, 30, -30)], jet), 0).ways;
    expect(beside).toEqual(clear);
  });

  it("lets one heading lead round what blocks the straight track, and the way that strays through it fails", () => {
    // One heading is set up-stream first: south of the line, since the jet sets north; the island lies on the line.
    const island = block("Middle Isle", 10, -0.2, 12, 30);
    const crossing = overLand([island], jet);
    const held = whyOf(holdTrack(crossing, 0));
    expect(held.code).toBe("across-land");
    const way = arriving(oneHeading(crossing, 0));
    expect(way.arrivalAt).toBe(arriving(oneHeading(overLand([], jet), 0)).arrivalAt);
    const land = crossing.around.land;
    for (let i = 1; i < way.track.count; i++) {
      const [ax, ay, bx, by] = [way.track.xMetres[i - 1], way.track.yMetres[i - 1], way.track.xMetres[i], way.track.yMetres[i]] as [
        number,
        number,
        number,
        number,
      ];
      expect(land?.crosses(ax, ay, bx, by)).toBe(false);
    }
  });

  it("takes out the headings that cross it; others that lead there stay", () => {
    // The water of headings.test.ts in which three headings lead there.
    const bell = { axisMetres: 6.44 * NM, halfWidthMetres: 4.79 * NM };
    const tide = turningTide({ rateMps: 5.81 * KN, periodSeconds: 12.42 * HOUR, epochAt: 0, bell });
    const water = sumOfCurrents([tide, gaussianJet({ rateMps: 4.42 * KN, axisMetres: 4.4 * NM, halfWidthMetres: 5 * NM })]);
    const at = 36_336;
    const among = (areas: readonly LandArea[]) => overLand(areas, water, [0, 0], [11.66, -8.82], 5.65);
    const open = among([]);
    const all = findHeadings(open.simulator, open.boat, open.line, startOf(open, at), open.stepSeconds).found;
    expect(all.length).toBe(3);
    const earliest = all[0] as (typeof all)[number];
    // Block the earliest's track half-way with a buoy-sized island.
    const track = arriving(oneHeading(open, at)).track;
    const half = Math.floor(track.count / 2);
    const [x, y] = [(track.xMetres[half] as number) / NM, (track.yMetres[half] as number) / NM];
    const blocked = among([block("Buoy Rock", x - 0.1, y - 0.1, x + 0.1, y + 0.1)]);
    const left = findHeadings(blocked.simulator, blocked.boat, blocked.line, startOf(blocked, at), blocked.stepSeconds);
    expect(left.found.length).toBe(2);
    expect(left.found.some((one) => Math.abs(one.headingDegTrue - earliest.headingDegTrue) < 1e-6)).toBe(false);
    expect(headingOf(arriving(oneHeading(blocked, at)))).toBeCloseTo((all[1] as (typeof all)[number]).headingDegTrue, 5);
  });

  it("says that the land stops her where the current's grid ends at the coast", () => {
    // No current is known east of 29 miles; the land begins at 29.5. Half a step from the edge of what is known she would be ashore.
    const grid = gridCurrent(currentGrid({ westDeg: -0.2, eastDeg: 1, spanDeg: 0.5, hours: 24 }, (east) => (east > 26 ? null : [0, 0])));
    const coast = block("Sarn", 29.2, -60, 60, 60);
    const toLand: Way = holdTrack(overLand([coast], grid), 0);
    const why = whyOf(toLand);
    expect(why.code).toBe("across-land");
    expect(why.where.longitudeDeg * 60).toBeCloseTo(29.2, 6);
    expect(why.at / HOUR).toBeCloseTo(29.2 / 5, 3);
    // Without land it is the current that is wanting, and where the land is no part of the track too.
    expect(whyOf(holdTrack(overLand([], grid), 0)).code).toBe("not-covered-place");
    expect(whyOf(holdTrack(overLand([block("Off", 29.2, 5, 60, 60)], grid), 0)).code).toBe("not-covered-place");
  });

  it("is met by an order carried out in other water, by the bow kept on the mark at the last, and by new aims", () => {
    // The jet at 1.25 sets the boat farther north on the same heading.
    const open = overLand([], jet);
    const way = arriving(oneHeading(open, 0));
    const strayed = carryOut(open, way, { streamFactor: 1.25 });
    expect(strayed.run.kind).toBe("arrives");
    const off = Math.max(...(strayed.run.kind === "arrives" ? strayed.run.track.yMetres : [])) / NM;
    const north = overLand([block("North Shoal", 15, off - 0.5, 40, off + 5, "keptOut")], jet);
    const same = arriving(oneHeading(north, 0));
    expect(same.arrivalAt).toBe(way.arrivalAt);
    const run = carryOut(north, same, { streamFactor: 1.25 }).run;
    expect(run.kind === "fails" && run.why.code).toBe("across-land");
    const cells = reAimTables(north, same, -1).flatMap((table) => table.rows.flatMap((row) => row.cells));
    expect(cells.filter((cell) => cell === null).length).toBeGreaterThan(
      reAimTables(open, way, -1)
        .flatMap((table) => table.rows.flatMap((row) => row.cells))
        .filter((cell) => cell === null).length,
    );
    const atMark = overLand([block("Pier", 39.999, -0.002, 39.9995, 0.002)]);
    expect(whyOf(bowOnDestination(atMark, 0)).code).toBe("across-land");
  });
});
