import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { flatPlane, planeAround, positionOf } from "../../src/core/earth/index.ts";
import { COVERED, type GridData } from "../../src/core/fields/index.ts";
import { mpsFromKnots, turnDeg } from "../../src/core/units/index.ts";
import {
  gridWind,
  SHARPEST_STEADY_TURN_DEG,
  WIND_ARC_DEG,
  WIND_END_STRIDE,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_MPS,
  WIND_SLOTS,
  WIND_SPEED_HIGH_MPS,
  WIND_SPEED_LOW_MPS,
} from "../../src/core/weather/index.ts";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { readForecast } from "../../src/formats/forecast/index.ts";
import { gridOf, latLonOf } from "../core/fields/grids.ts";

const HOUR = 3600;
const KN = 1852 / 3600;
const data = process.env["ATHWART_REAL_DATA"];
if (!data) console.warn("SKIPPED: the rule of the wind shift on a real forecast (ATHWART_REAL_DATA is not set)");

/** A front as common practice knows it: 18 kn before and 18 kn behind, turned right about inside one 6-hour step of the forecast. */
const front = gridOf({
  quantities: ["windEastMps", "windNorthMps"],
  latitudesDeg: [-1, 1],
  longitudesDeg: [-1, 1],
  times: [0, 6 * HOUR, 12 * HOUR, 18 * HOUR],
  // From 180°, from 180°, from 0°, from 0°.
  values: ({ t }) => [0, (t < 2 ? 1 : -1) * mpsFromKnots(18)],
});

describe("a wind of 18 kn that turns by 180° inside a 6-hour step", () => {
  const reading = new Float64Array(WIND_SLOTS);
  const sampler = gridWind([{ wind: front, gust: null }], 1.3).onPlane(flatPlane(positionOf(0, 0), 50_000), 0);

  it("by components the middle of that step would be calm: that is what the rule is for", () => {
    expect(front.values[4 * 2 * 1 + 1]! + front.values[4 * 2 * 2 + 1]!).toBe(0);
  });

  it("never reads below 18 kn at any minute of it, and has both its directions all along", () => {
    for (let at = 6 * HOUR + 60; at < 12 * HOUR; at += 60) {
      expect(sampler.readInto(reading, 1000, -2000, at)).toBe(COVERED);
      expect(reading[WIND_ENDS]).toBe(2);
      for (const [end, fromDeg] of [
        [0, 180],
        [1, 0],
      ] as const) {
        const offset = end * WIND_END_STRIDE;
        expect(reading[offset + WIND_SPEED_LOW_MPS]! / KN).toBeGreaterThanOrEqual(18 - 1e-6);
        expect(reading[offset + WIND_SPEED_HIGH_MPS]! / KN).toBeLessThanOrEqual(18 + 1e-6);
        expect(Math.abs(turnDeg(reading[offset + WIND_FROM_DEG]!, fromDeg))).toBeLessThan(1e-9);
        expect(reading[offset + WIND_ARC_DEG]).toBe(0);
      }
      expect(reading[WIND_GUST_MPS]! / KN).toBeCloseTo(1.3 * 18, 5);
    }
  });

  it("reads steady before and behind", () => {
    for (const [hour, fromDeg] of [
      [3, 180],
      [6, 180],
      [12, 0],
      [17, 0],
    ] as const) {
      sampler.readInto(reading, 0, 0, hour * HOUR);
      expect(reading[WIND_ENDS]).toBe(1);
      expect(reading[WIND_SPEED_LOW_MPS]! / KN).toBeCloseTo(18, 5);
      expect(Math.abs(turnDeg(reading[WIND_FROM_DEG]!, fromDeg))).toBeLessThan(1e-9);
    }
  });
});

/*
 * GFS (NOAA, public domain), 10 m wind at 0.25° in 3-hourly steps over the entrance of the Strait of Juan de Fuca, 2 to 4 March 2023.
 */
describe.skipIf(!data)("a real forecast", () => {
  const read = async (): Promise<GridData> => {
    const name = "crossing-juan-de-fuca/gfs_wind_20230302-04.nc";
    const got = await readForecast(bytesFromMemory(readFileSync(join(data ?? "", name))), { name, crop: null });
    if (!got.ok) throw new Error(got.issues.map((one) => one.message).join("; "));
    return got.value.grids[0]!;
  };

  it("at each of its nodes is read between the two speeds of the step; a turn beyond a right angle keeps both ends", async () => {
    const grid = await read();
    const plane = planeAround(positionOf(48, -124.75), 95 * 1852);
    const sampler = gridWind([{ wind: grid, gust: null }], 1.3).onPlane(plane, 0);
    const reading = new Float64Array(WIND_SLOTS);
    const [rows, columns] = [latLonOf(grid).latitudesDeg.length, latLonOf(grid).longitudesDeg.length];
    const nodeWind = (t: number, j: number, i: number) => {
      const at = 2 * ((t * rows + j) * columns + i);
      const [east, north] = [grid.values[at]!, grid.values[at + 1]!];
      return { mps: Math.hypot(east, north), fromDeg: (Math.atan2(-east, -north) * 180) / Math.PI };
    };
    let shifts = 0;
    let calmerByComponents = 0;
    for (let t = 0; t + 1 < grid.times.length; t++) {
      for (let j = 1; j < rows - 1; j++) {
        for (let i = 1; i < columns - 1; i++) {
          const { xMetres, yMetres } = plane.toPlane({
            latitudeDeg: latLonOf(grid).latitudesDeg[j]!,
            longitudeDeg: latLonOf(grid).longitudesDeg[i]!,
          });
          const [before, after] = [nodeWind(t, j, i), nodeWind(t + 1, j, i)];
          const middle = (grid.times[t]! + grid.times[t + 1]!) / 2;
          expect(sampler.readInto(reading, xMetres, yMetres, middle)).toBe(COVERED);
          const turn = turnDeg(before.fromDeg, after.fromDeg);
          const rad = (turn * Math.PI) / 180;
          const byComponents = Math.sqrt(before.mps ** 2 + after.mps ** 2 + 2 * before.mps * after.mps * Math.cos(rad)) / 2;
          if (byComponents < Math.min(before.mps, after.mps) - 0.5) calmerByComponents++;
          if (Math.abs(turn) > SHARPEST_STEADY_TURN_DEG) {
            shifts++;
            expect(reading[WIND_ENDS]).toBe(2);
            expect(reading[WIND_SPEED_LOW_MPS]).toBeCloseTo(before.mps, 3);
            expect(reading[WIND_END_STRIDE + WIND_SPEED_LOW_MPS]).toBeCloseTo(after.mps, 3);
          } else {
            expect(reading[WIND_ENDS]).toBe(1);
            expect(reading[WIND_SPEED_LOW_MPS]).toBeCloseTo((before.mps + after.mps) / 2, 3);
            expect(Math.abs(turnDeg(reading[WIND_FROM_DEG]!, before.fromDeg + turn / 2))).toBeLessThan(0.05);
          }
        }
      }
    }
    // The file does hold such turns, and components would have read calmer there.
    expect(shifts).toBeGreaterThan(0);
    expect(calmerByComponents).toBeGreaterThan(0);
  });
});
