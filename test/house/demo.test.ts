import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { demoFiles } from "../../demo/files.mjs";
import { coastOfSarumeNm, coastOfTavoraNm, isLand } from "../../demo/land.mjs";
import { departures } from "../../demo/members.mjs";
import { FROM, LEAD_HOURS, MIDDLE, placeOf, RUN_AT, TO } from "../../demo/strait.mjs";
import { AXIS_ACROSS_NM, AXIS_RATE_KN, currentAt, HALF_WIDTH_NM, strengthAt } from "../../demo/stream.mjs";
import { CONTROL, PARTING, windAt } from "../../demo/weather.mjs";
import type { Parsed } from "../../src/core/answers/index.ts";
import { geodesicBetween, geodesicFrom, planeOver } from "../../src/core/earth/index.ts";
import { COVERED } from "../../src/core/fields/index.ts";
import { prepare, tryDepartures } from "../../src/core/plan/index.ts";
import { epochSeconds, knotsFromMps, metresFromNm, nmFromMetres, radFromDeg } from "../../src/core/units/index.ts";
import { gridCurrent } from "../../src/core/water/index.ts";
import {
  gridWind,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_ASSUMED,
  WIND_GUST_MPS,
  WIND_SLOTS,
  WIND_SPEED_HIGH_MPS,
} from "../../src/core/weather/index.ts";
import { readLetter } from "../../src/formats/bulletin/index.ts";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { type Crop, readForecast } from "../../src/formats/forecast/index.ts";
import { writeGrib2Message } from "../../src/formats/grib/index.ts";
import { packShorts, writeNetcdfClassic } from "../../src/formats/netcdf/index.ts";
import { readPassage } from "../../src/formats/passage/index.ts";
import { latLonOf } from "../core/fields/grids.ts";
import { root } from "./source-files.ts";

const folder = join(root, "demo", "morrel");
const shipped = (name: string) => new Uint8Array(readFileSync(join(folder, name)));
const text = (path: string) => readFileSync(join(root, path), "utf8");
const value = <T>(parsed: Parsed<T>): T => {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues, null, 2));
  return parsed.value;
};
const forecast = async (name: string, crop: Crop | null = null) =>
  value(await readForecast(bytesFromMemory(shipped(name)), { name, crop }));
/** Wide enough for the whole grids. */
const plane = value(planeOver([FROM, TO], metresFromNm(70), "route"));
const leg = geodesicBetween(FROM, TO);
/** Ship's time of the week of 6 April, as an instant. */
const shipTime = (day: number, hour: number) => Date.UTC(2027, 3, day, hour + 8) / 1000;

describe("the files of the demo", () => {
  it.each(demoFiles({ writeGrib2Message, writeNetcdfClassic, packShorts }))(
    "%s is byte for byte what the generator makes",
    (name, made) => {
      expect(Buffer.compare(made, shipped(name))).toBe(0);
    },
  );

  it("are under 3 MB together", () => {
    const sizes = readdirSync(folder).map((name) => statSync(join(folder, name)).size);
    expect(sizes.length).toBe(5);
    expect(sizes.reduce((a, b) => a + b)).toBeLessThan(3_000_000);
  });

  it("have a passage that is read without a complaint and has the generator's buoys", () => {
    const { passage } = value(readPassage(text("demo/morrel/passage.yaml"), { name: "passage.yaml" }));
    expect(passage.invented).toBe(true);
    for (const [read, made] of [[passage.from.position, FROM] as const, [passage.to.position, TO] as const]) {
      expect(read.latitudeDeg).toBeCloseTo(made.latitudeDeg, 9);
      expect(read.longitudeDeg).toBeCloseTo(made.longitudeDeg, 9);
    }
    for (const berth of [passage.pilotageOut?.points[0], passage.pilotageIn?.points.at(-1)]) {
      const { acrossNm, downStreamNm } = placeOf(berth ?? FROM);
      const inlandNm = Math.max(coastOfTavoraNm(downStreamNm) - acrossNm, acrossNm - coastOfSarumeNm(downStreamNm));
      expect(Math.abs(inlandNm)).toBeLessThan(0.6);
    }
  });

  it("are read without an oddity, each field and member", async () => {
    const water = await forecast("current.nc");
    expect(water.oddities).toEqual([]);
    expect(water.grids.map((grid) => [grid.quantities.join(), grid.times.length, grid.issuedAt])).toEqual([
      ["currentEastMps,currentNorthMps", 65, RUN_AT],
    ]);
    const air = await forecast("wind.grib2");
    expect(air.oddities).toEqual([]);
    const members = (quantity: string) => air.grids.filter((grid) => grid.quantities.join() === quantity).map((grid) => grid.member);
    expect(members("windEastMps,windNorthMps")).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(members("gustMps")).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(air.grids.every((grid) => grid.issuedAt === RUN_AT && grid.times.at(-1) === RUN_AT + LEAD_HOURS * 3600)).toBe(true);
  });
});

describe("the strait", () => {
  it("is 52 nm wide toward 118°, an eastward crossing of a stream that sets south-west", () => {
    expect(nmFromMetres(leg.distanceMetres)).toBeCloseTo(52, 0);
    expect(leg.initialBearingDegTrue).toBeCloseTo(118.4, 0);
    const { eastMps, northMps } = currentAt(MIDDLE, 84);
    expect(eastMps).toBeLessThan(0);
    expect(northMps).toBeLessThan(0);
  });

  it("has 48 kn·nm of stream, as the sketch of it in the other passage has within a tenth", () => {
    // The mean over two whole weeks of tide and swell on the line square across; the integral of sech² is twice its half-width.
    const total = (rateKnAt: (acrossNm: number) => number) => {
      let sum = 0;
      for (let acrossNm = -9; acrossNm <= 51; acrossNm += 0.25) sum += rateKnAt(acrossNm) * 0.25;
      return sum;
    };
    const square = (acrossNm: number) => geodesicFrom(FROM, 125, metresFromNm(acrossNm)).position;
    const meanKn = (acrossNm: number) => {
      let sum = 0;
      let count = 0;
      for (let hour = 0; hour < 168; hour += 0.621, count++) {
        const { eastMps, northMps } = currentAt(square(acrossNm), hour);
        sum += knotsFromMps(-eastMps * Math.cos(radFromDeg(55)) - northMps * Math.sin(radFromDeg(55)));
      }
      return sum / count;
    };
    expect(2 * AXIS_RATE_KN * HALF_WIDTH_NM).toBeCloseTo(48, 9);
    expect(total(meanKn) / 48).toBeCloseTo(1, 1);
    const { passage } = value(readPassage(text("examples/letter-only/passage.yaml"), { name: "passage.yaml" }));
    const source = passage.waterSources[0];
    if (source?.kind !== "sketch") throw new Error("the example has no sketch");
    const { section } = source.sketch;
    let sketched = 0;
    for (const [i, point] of section.slice(1).entries()) {
      const before = section[i]!;
      sketched += nmFromMetres(point.acrossMetres - before.acrossMetres) * knotsFromMps((point.rateMps + before.rateMps) / 2);
    }
    expect(Math.abs(sketched / 48 - 1)).toBeLessThan(0.1);
  });

  it("neither makes nor loses water: its divergence is nought off the coasts", () => {
    const metres = 1000;
    for (const bearing of [0, 70, 200, 330]) {
      const place = geodesicFrom(MIDDLE, bearing, metresFromNm(12)).position;
      const beside = (toward: number) => currentAt(geodesicFrom(place, toward, metres).position, 50);
      const [east, west, north, south] = [beside(90), beside(270), beside(0), beside(180)];
      const stretch = (east.eastMps - west.eastMps) / (2 * metres);
      const squeeze = (north.northMps - south.northMps) / (2 * metres);
      // The frame's miles of longitude are those of the middle's latitude: 2 % at the edges.
      expect(Math.abs(stretch + squeeze)).toBeLessThan(0.02 * Math.max(Math.abs(stretch), Math.abs(squeeze)) + 1e-7);
    }
  });

  it("swells by a tenth in the week, with its axis near the twenty-first mile", () => {
    const strengths = Array.from({ length: LEAD_HOURS }, (_, hour) => strengthAt(hour));
    expect(Math.max(...strengths) - Math.min(...strengths)).toBeCloseTo(0.1, 3);
    const atAxis = geodesicFrom(FROM, 125, metresFromNm(AXIS_ACROSS_NM)).position;
    for (let hour = 0; hour <= LEAD_HOURS; hour += 6) {
      const { eastMps, northMps } = currentAt(atAxis, hour);
      expect(knotsFromMps(Math.hypot(eastMps, northMps))).toBeGreaterThan(2.8);
    }
  });

  it("has current everywhere within 5 nm of the open-water leg, and none on land", async () => {
    const grid = (await forecast("current.nc")).grids[0]!;
    const water = gridCurrent(grid).onPlane(plane);
    const out = new Float64Array(2);
    const uncovered: string[] = [];
    for (let alongNm = 0; alongNm <= 52; alongNm += 0.5) {
      const on = geodesicFrom(FROM, leg.initialBearingDegTrue, Math.min(metresFromNm(alongNm), leg.distanceMetres)).position;
      for (let besideNm = -5; besideNm <= 5; besideNm += 0.5) {
        const place = geodesicFrom(on, leg.initialBearingDegTrue + 90, metresFromNm(besideNm)).position;
        const { xMetres, yMetres } = plane.toPlane(place);
        for (const lead of [0, 95.3, LEAD_HOURS]) {
          if (water.sampleInto(out, xMetres, yMetres, RUN_AT + lead * 3600) !== COVERED) uncovered.push(`${alongNm} ${besideNm} ${lead}`);
        }
      }
    }
    expect(uncovered).toEqual([]);
    const dry = grid.missing.slice(0, latLonOf(grid).latitudesDeg.length * latLonOf(grid).longitudesDeg.length);
    for (let node = 0; node < dry.length; node++) {
      const latitudeDeg = latLonOf(grid).latitudesDeg[Math.floor(node / latLonOf(grid).longitudesDeg.length)]!;
      const longitudeDeg = latLonOf(grid).longitudesDeg[node % latLonOf(grid).longitudesDeg.length]!;
      expect(dry[node] === 1).toBe(isLand(placeOf({ latitudeDeg, longitudeDeg })));
    }
    expect(dry.reduce((a, b) => a + b)).toBeGreaterThan(100);
  });
});

describe("the week's weather", () => {
  const blows = (at: number) => at > shipTime(8, 17) && at < shipTime(10, 0);

  it("blows against the stream from Thursday evening to Friday night, with it or across it before and well after", async () => {
    const { grids } = await forecast("wind.grib2");
    const wind = grids.find((grid) => grid.member === 0 && grid.quantities[0] === "windEastMps")!;
    const gust = grids.find((grid) => grid.member === 0 && grid.quantities[0] === "gustMps")!;
    const sampler = gridWind([{ wind, gust }], 1.3).onPlane(plane, 0);
    const { xMetres, yMetres } = plane.toPlane(MIDDLE);
    const out = new Float64Array(WIND_SLOTS);
    for (let at = RUN_AT + 3 * 3600; at <= RUN_AT + LEAD_HOURS * 3600; at += 3 * 3600) {
      expect(sampler.readInto(out, xMetres, yMetres, at)).toBe(COVERED);
      const speedKn = knotsFromMps(out[WIND_SPEED_HIGH_MPS]!);
      const againstKn = speedKn * Math.cos(radFromDeg(out[WIND_FROM_DEG]! - 215));
      expect(out[WIND_GUST_ASSUMED]).toBe(0);
      expect(knotsFromMps(out[WIND_GUST_MPS]!) / speedKn).toBeGreaterThan(1.2);
      if (blows(at)) expect([at, againstKn > 18, speedKn > 20 && speedKn < 31]).toEqual([at, true, true]);
      else if (at < shipTime(8, 12) || at > shipTime(11, 4)) expect([at, againstKn < 9, speedKn < 16]).toEqual([at, true, true]);
    }
    // The step in which the front passes: one direction would read a wind that never blew.
    expect(sampler.readInto(out, xMetres, yMetres, shipTime(8, 17) + 1800)).toBe(COVERED);
    expect(out[WIND_ENDS]).toBe(2);
  });

  it("has ten forecasts that part with the lead: front, strength and direction", () => {
    const forecasts = departures();
    expect(forecasts.length).toBe(10);
    expect(forecasts[0]).toEqual(CONTROL);
    for (const key of ["late", "strong", "veered"] as const) {
      const rest = forecasts.slice(1).map((one) => one[key]);
      expect([Math.min(...rest), Math.max(...rest)]).toEqual([-1, 1]);
      expect(rest.reduce((a, b) => a + b)).toBeCloseTo(0, 9);
    }
    const speedsAt = (hour: number) => forecasts.map((one) => windAt(MIDDLE, hour, one).speedKn);
    const widthAt = (hour: number) => Math.max(...speedsAt(hour)) - Math.min(...speedsAt(hour));
    expect(widthAt(0)).toBe(0);
    expect(widthAt(12)).toBeLessThan(2);
    expect(widthAt(84)).toBeGreaterThan(4);
    const frontAt = forecasts.map((one) => {
      for (let hour = 40; hour < 110; hour += 0.25) if (Math.abs(windAt(MIDDLE, hour, one).fromDeg - 232) < 40) return hour;
      return Number.NaN;
    });
    expect(frontAt[0]).toBeCloseTo(61, 0);
    expect(Math.min(...frontAt)).toBeGreaterThan(61 - PARTING.frontHours - 1);
    expect(Math.max(...frontAt)).toBeLessThan(61 + PARTING.frontHours + 1);
    expect(Math.max(...frontAt) - Math.min(...frontAt)).toBeGreaterThan(1.5 * PARTING.frontHours);
  });

  it("stands in the letter too: the same week to the forecast's end, front four hours earlier, no gap", () => {
    const { passage } = value(readPassage(text("demo/morrel/passage.yaml"), { name: "passage.yaml" }));
    const source = passage.weatherSources.find((one) => one.kind === "letter");
    if (source?.kind !== "letter") throw new Error("the demo names no letter");
    const letter = value(readLetter(text("demo/morrel/letter.txt"), { ...source, path: "letter.txt" }));
    expect(letter.noted).toEqual([]);
    expect([letter.wind[0]!.from, letter.wind.at(-1)!.until]).toEqual([shipTime(6, 6), RUN_AT + LEAD_HOURS * 3600]);
    expect(letter.sea.map((one) => one.from)).toEqual(letter.wind.map((one) => one.from));
    const front = letter.wind.find((one) => one.fromDegTrue === 225);
    expect(front?.from).toBe(shipTime(8, 13));
    for (const sea of letter.sea) {
      const fair = sea.until <= shipTime(8, 6) || sea.from >= shipTime(12, 12);
      if (fair) {
        expect(sea.heightHighMetres).toBeLessThan(1.2);
        expect(sea.periodLowSeconds).toBeGreaterThanOrEqual(8);
      }
    }
    expect(Math.max(...letter.sea.map((one) => one.heightHighMetres))).toBeCloseTo(3, 1);
  });
});

describe("the story", async () => {
  const { passage } = value(readPassage(text("demo/morrel/passage.yaml"), { name: "passage.yaml" }));
  const crop = { southDeg: -34.2, northDeg: -33, westDeg: -119.4, eastDeg: -117.6, from: RUN_AT, until: RUN_AT + LEAD_HOURS * 3600 };
  const [water, air] = [(await forecast("current.nc", crop)).grids, (await forecast("wind.grib2", crop)).grids];
  const source = passage.weatherSources[1];
  if (source?.kind !== "letter") throw new Error("the demo's second source of weather is no letter");
  const letter = { name: "letter.txt", ...value(readLetter(text("demo/morrel/letter.txt"), { ...source, path: "letter.txt" })) };
  const leaving = (day: number, hour: number) => {
    const at = epochSeconds(shipTime(day, hour));
    const prepared = value(prepare({ ...passage, leaveFrom: at, leaveUntil: at }, { water: [water], weather: [air, letter] }));
    const row = tryDepartures(prepared)?.rows[0];
    if (row === undefined || row.arrivalAt === null) throw new Error(`no passage on ${day} at ${hour}`);
    const shut = row.margins.flatMap((one) => (one.kind === "judged" && one.margin >= 0 ? [] : [`${one.kind} ${one.limit.felt}`]));
    return { shut, hours: (row.arrivalAt - at) / 3600, ...row.forecastsAgreeing };
  };

  it.each([
    [7, 1],
    [8, 0],
    [8, 3],
    [11, 2],
    [12, 22],
  ])("nothing shuts a night's departure on April %i at %i:00", (day, hour) => {
    expect(leaving(day, hour).shut).toEqual([]);
  });

  it("is shut by the front from Thursday before dawn, by wind against the stream until Saturday", () => {
    expect(leaving(8, 5).shut).toEqual(expect.arrayContaining(["judged gustMps", "judged windMps"]));
    for (const [day, hour] of [
      [8, 20],
      [9, 21],
    ] as const) {
      expect(leaving(day, hour).shut).toContain("judged windAgainstCurrentMps2");
    }
  });

  it("has forecasts that agree on Wednesday and part on Thursday", () => {
    expect(leaving(7, 1)).toMatchObject({ agree: 10, of: 10 });
    const { agree } = leaving(8, 3);
    expect([agree > 4, agree < 9]).toEqual([true, true]);
  });

  // Common practice: a crossing of this kind takes a boat of 5 to 6 kn most of a day, so that leaving before dawn gives arrival in daylight.
  it("takes 8 to 14 hours, so that a noon departure arrives in the dark and one before dawn by day", () => {
    for (const day of [7, 12]) {
      const beforeDawn = leaving(day, 3);
      expect(beforeDawn.hours).toBeGreaterThan(8);
      expect(beforeDawn.hours).toBeLessThan(14);
      expect(beforeDawn.shut).toEqual([]);
      expect(leaving(day, 12).shut).toContain("judged sunAltitudeDeg");
    }
  });
});

describe("the passage by letter and sketch alone", () => {
  it("is read without a complaint, its letter too", () => {
    const { passage } = value(readPassage(text("examples/letter-only/passage.yaml"), { name: "passage.yaml" }));
    const source = passage.weatherSources[0];
    if (source?.kind !== "letter") throw new Error("the example names no letter");
    const letter = value(readLetter(text("examples/letter-only/letter.txt"), { ...source, path: "letter.txt" }));
    expect(letter.noted).toEqual([]);
    expect(letter.lines.filter((line) => line.readAs === "struckOut").length).toBe(2);
    expect(passage.waterSources.map((one) => one.kind)).toEqual(["sketch"]);
  });
});
