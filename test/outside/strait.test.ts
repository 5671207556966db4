import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { planeAround, positionOf } from "../../src/core/earth/index.ts";
import { COVERED, type GridData, NO_PLACE, NO_TIME } from "../../src/core/fields/index.ts";
import { metresFromNm } from "../../src/core/units/index.ts";
import { ASSUMED_STILL, firstThatCovers, gridCurrent, NEAREST_KNOWN, type WhereUnknown } from "../../src/core/water/index.ts";
import { gridWind, WIND_ENDS, WIND_FROM_DEG, WIND_SLOTS, WIND_SPEED_LOW_MPS } from "../../src/core/weather/index.ts";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { readForecast } from "../../src/formats/forecast/index.ts";
import { latLonOf } from "../core/fields/grids.ts";

/*
 * The Strait of Juan de Fuca between the United States and Canada, Neah Bay to Port San Juan: HYCOM's surface current and GFS's wind (NOAA,
 * public domain) as NetCDF classic, and the same fields written as GRIB2 with simple packing by ecCodes 2.28 (12 bits, bitmap on land).
 */
const data = process.env["ATHWART_REAL_DATA"];
if (!data) console.warn("SKIPPED: the real strait between two countries, by NetCDF and by GRIB2 (ATHWART_REAL_DATA is not set)");

const neahBay = positionOf(48.374, -124.61);
const portSanJuan = positionOf(48.548, -124.44);
const plane = planeAround(positionOf(48.46, -124.53), metresFromNm(30));
/** Places along the straight line on the sheet, every 1 %. */
const along = Array.from({ length: 101 }, (_, k) => {
  const [a, b] = [plane.toPlane(neahBay), plane.toPlane(portSanJuan)];
  return { share: k / 100, x: a.xMetres + (k / 100) * (b.xMetres - a.xMetres), y: a.yMetres + (k / 100) * (b.yMetres - a.yMetres) };
});

describe.skipIf(!data)("the real strait", () => {
  const read = async (name: string): Promise<GridData> => {
    const got = await readForecast(bytesFromMemory(readFileSync(join(data ?? "", "crossing-juan-de-fuca", name))), {
      name,
      crop: {
        southDeg: 48.2,
        northDeg: 48.7,
        westDeg: -125,
        eastDeg: -124.1,
        from: Date.parse("2023-03-02T00:00Z") / 1000,
        until: Date.parse("2023-03-05T00:00Z") / 1000,
      },
    });
    if (!got.ok) throw new Error(got.issues.map((one) => one.message).join("; "));
    expect(got.value.grids).toHaveLength(1);
    return got.value.grids[0]!;
  };
  const grids: Record<"currentNc" | "currentGrib" | "windNc" | "windGrib", GridData> = {} as never;
  beforeAll(async () => {
    grids.currentNc = await read("hycom_current_20230302-04.nc");
    grids.currentGrib = await read("derived-grib2/current_simple.grib2");
    grids.windNc = await read("gfs_wind_20230302-04.nc");
    grids.windGrib = await read("derived-grib2/wind_simple.grib2");
  });
  const times = (grid: GridData): number[] => {
    const [first, last] = [grid.times[0]!, grid.times[grid.times.length - 1]!];
    return Array.from({ length: Math.round((last - first) / 1200) + 1 }, (_, k) => first + 1200 * k);
  };

  it("the current is the same from both files within 0.0002 m/s, all along and all the time, covered and not", () => {
    const [nc, grib] = [gridCurrent(grids.currentNc), gridCurrent(grids.currentGrib)];
    expect(grib.covers).toEqual(nc.covers);
    expect(nc.covers).toEqual({ from: Date.parse("2023-03-02T12:00Z") / 1000, until: Date.parse("2023-03-04T12:00Z") / 1000 });
    const [a, b] = [nc.onPlane(plane), grib.onPlane(plane)];
    const [outA, outB] = [new Float64Array(2), new Float64Array(2)];
    let covered = 0;
    let fastest = 0;
    for (const { x, y } of along) {
      for (const at of times(grids.currentNc)) {
        const coverage = a.sampleInto(outA, x, y, at);
        expect(b.sampleInto(outB, x, y, at)).toBe(coverage);
        if (coverage !== COVERED) {
          expect(coverage).toBe(NO_PLACE);
          continue;
        }
        covered++;
        fastest = Math.max(fastest, Math.hypot(outA[0]!, outA[1]!));
        expect(Math.hypot(outA[0]! - outB[0]!, outA[1]! - outB[1]!)).toBeLessThan(0.0002);
      }
    }
    // Most of the line is covered, and something does move there.
    expect(covered / (along.length * times(grids.currentNc).length)).toBeGreaterThan(0.6);
    expect(fastest).toBeGreaterThan(0.1);
    expect(fastest).toBeLessThan(0.77);
  });

  it("the wind is the same from both files within 0.004 m/s", () => {
    const [a, b] = [grids.windNc, grids.windGrib].map((wind) => gridWind([{ wind, gust: null }], 1.3).onPlane(plane, 0)) as [
      ReturnType<ReturnType<typeof gridWind>["onPlane"]>,
      ReturnType<ReturnType<typeof gridWind>["onPlane"]>,
    ];
    const [outA, outB] = [new Float64Array(WIND_SLOTS), new Float64Array(WIND_SLOTS)];
    const vector = (out: Float64Array): readonly [number, number] => {
      const rad = (out[WIND_FROM_DEG]! * Math.PI) / 180;
      return [-out[WIND_SPEED_LOW_MPS]! * Math.sin(rad), -out[WIND_SPEED_LOW_MPS]! * Math.cos(rad)];
    };
    let asked = 0;
    for (const { x, y } of along) {
      for (const at of times(grids.windNc)) {
        expect(a.readInto(outA, x, y, at)).toBe(COVERED);
        expect(b.readInto(outB, x, y, at)).toBe(COVERED);
        expect(outA[WIND_ENDS]).toBe(outB[WIND_ENDS]);
        const [[eastA, northA], [eastB, northB]] = [vector(outA), vector(outB)];
        expect(Math.hypot(eastA - eastB, northA - northB)).toBeLessThan(0.004);
        asked++;
      }
    }
    expect(asked).toBe(101 * 145);
  });

  describe("the current never reaches the shore", () => {
    const at = Date.parse("2023-03-03T00:00Z") / 1000;
    const ask = (unknown: WhereUnknown, place: (typeof along)[number], when = at) => {
      const sampler = firstThatCovers([gridCurrent(grids.currentNc)], unknown).onPlane(plane);
      const out = new Float64Array(2).fill(7);
      return { coverage: sampler.sampleInto(out, place.x, place.y, when), out: [...out], by: sampler.answeredBy };
    };
    const ashore = [along[0]!, along[100]!];

    it("`refuse` covers the middle and neither end", () => {
      const codes = along.map((place) => ask({ kind: "refuse" }, place).coverage);
      expect(codes[0]).toBe(NO_PLACE);
      expect(codes[100]).toBe(NO_PLACE);
      expect(codes[50]).toBe(COVERED);
      // One stretch of water, unbroken, with shore on both sides.
      const first = codes.indexOf(COVERED);
      const last = codes.lastIndexOf(COVERED);
      expect(codes.slice(first, last + 1).every((code) => code === COVERED)).toBe(true);
    });

    it("`still` stands still there and says that it is assumed; the middle stays as it is", () => {
      for (const place of ashore) expect(ask({ kind: "still" }, place)).toEqual({ coverage: COVERED, out: [0, 0], by: ASSUMED_STILL });
      expect(ask({ kind: "still" }, along[50]!)).toEqual(ask({ kind: "refuse" }, along[50]!));
    });

    it("`nearest` within 10 nm is the nearest wet node's own value, and within less than its distance is refused", () => {
      const { times: steps, missing, values } = grids.currentNc;
      const { latitudesDeg, longitudesDeg } = latLonOf(grids.currentNc);
      const t = steps.indexOf(at);
      expect(t).toBeGreaterThan(0);
      for (const place of ashore) {
        let best = { metres: Number.POSITIVE_INFINITY, east: 0, north: 0, x: 0, y: 0 };
        latitudesDeg.forEach((latitudeDeg, j) => {
          longitudesDeg.forEach((longitudeDeg, i) => {
            const node = (t * latitudesDeg.length + j) * longitudesDeg.length + i;
            const on = plane.toPlaneIfOn({ latitudeDeg, longitudeDeg });
            if (missing[node] === 1 || on === null) return;
            const metres = Math.hypot(on.xMetres - place.x, on.yMetres - place.y);
            if (metres < best.metres)
              best = { metres, east: values[2 * node]!, north: values[2 * node + 1]!, x: on.xMetres, y: on.yMetres };
          });
        });
        expect(best.metres).toBeLessThan(metresFromNm(10));
        const got = ask({ kind: "nearest", withinMetres: metresFromNm(10) }, place);
        expect(got).toMatchObject({ coverage: COVERED, by: NEAREST_KNOWN });
        const turnRad = (plane.convergenceDegAt(best.x, best.y) * Math.PI) / 180;
        expect(got.out[0]).toBeCloseTo(best.east * Math.cos(turnRad) - best.north * Math.sin(turnRad), 6);
        expect(got.out[1]).toBeCloseTo(best.east * Math.sin(turnRad) + best.north * Math.cos(turnRad), 6);
        expect(ask({ kind: "nearest", withinMetres: best.metres - 1 }, place).coverage).toBe(NO_PLACE);
      }
    });

    it("and after its last step nothing is assumed, near the shore or off it", () => {
      for (const unknown of [{ kind: "still" }, { kind: "nearest", withinMetres: metresFromNm(10) }] as const) {
        const end = Date.parse("2023-03-04T12:00Z") / 1000;
        for (const place of [...ashore, along[50]!]) {
          expect(ask(unknown, place, end).coverage).toBe(COVERED);
          expect(ask(unknown, place, end + 1).coverage).toBe(NO_TIME);
        }
      }
    });
  });
});
