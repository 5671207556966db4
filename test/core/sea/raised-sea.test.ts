import { describe, expect, it } from "vitest";
import { landOn } from "../../../src/core/coast/index.ts";
import { flatPlane } from "../../../src/core/earth/index.ts";
import { COVERED, NO_TIME } from "../../../src/core/fields/index.ts";
import {
  BLEW_BEFORE_SECONDS,
  OPEN_FETCH_METRES,
  raisedSea,
  SEA_HALVES_IN_SECONDS,
  StandingSea,
  type StatedSwell,
  windSea,
} from "../../../src/core/sea/index.ts";
import { METRES_PER_NM } from "../../../src/core/units/index.ts";
import {
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_LACKS_SWELL,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_SLOTS,
  SYSTEM_HEIGHT_METRES,
  SYSTEM_PERIOD_SECONDS,
  SYSTEM_STRIDE,
  SYSTEM_TOWARD_NORTH,
  SYSTEMS_SLOTS,
} from "../../../src/core/weather/index.ts";
import { type Blow, clock, HOUR, kn, winds } from "../window/setup.ts";

const plane = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 30 * METRES_PER_NM);
/** A coast that runs east and west, the sea south of it, nautical miles north of the middle. */
const coast = (northNm: number) => {
  const [low, high] = [northNm / 60, 1];
  return landOn(plane, [{ kind: "land", name: null, rings: [Float64Array.of(-1, low, 1, low, 1, high, -1, high, -1, low)] }]);
};

function read(blows: readonly Blow[], land: Parameters<typeof raisedSea>[1], swell: StatedSwell | "none" | null, at: number, northNm = 0) {
  const sampler = raisedSea(winds(...blows), land, swell).onPlane(plane);
  const out = new Float64Array(SEA_SLOTS);
  const systems = new Float64Array(SYSTEMS_SLOTS);
  const coverage = sampler.readInto(out, 0, northNm * METRES_PER_NM, at);
  const count = sampler.systemsInto?.(systems, 0, 0, at) ?? 0;
  return {
    coverage,
    heightMetres: out[SEA_HEIGHT_HIGH_METRES] as number,
    periodSeconds: out[SEA_PERIOD_HIGH_SECONDS] as number,
    out,
    count,
    systems,
  };
}

describe("a standing sea", () => {
  // The growth law itself: hours one after the other are no other than all at once, by time and by fetch.
  it.each([
    [10, null, 6],
    [15, 200e3, 10],
    [15, 40e3, 12],
    [8, 300e3, 48],
  ] as const)("of %d m/s over %s m for %d h is that of a steady wind, however the hours are cut", (windMps, fetchMetres, hours) => {
    const whole = windSea({ windMps, fetchMetres, durationSeconds: hours * HOUR, depthMetres: null });
    for (const step of [HOUR, HOUR / 4]) {
      const sea = new StandingSea();
      for (let t = 0; t < hours * HOUR; t += step) sea.blow(windMps, 0, 1, fetchMetres ?? Number.POSITIVE_INFINITY, step);
      expect(sea.wind.heightMetres).toBeCloseTo(whole.heightMetres, 9);
      expect(sea.wind.periodSeconds).toBeCloseTo(whole.periodSeconds ?? 0, 9);
    }
  });

  it("grows on from what stands when the wind freshens, and never beyond the steady sea of the stronger wind", () => {
    const sea = new StandingSea();
    sea.blow(8, 0, 1, 100e3, 12 * HOUR);
    const before = sea.wind.heightMetres;
    let last = before;
    for (let hour = 0; hour < 24; hour++) {
      sea.blow(13, 0, 1, 100e3, HOUR);
      expect(sea.wind.heightMetres).toBeGreaterThanOrEqual(last);
      last = sea.wind.heightMetres;
    }
    expect(last).toBeGreaterThan(before);
    expect(last).toBeCloseTo(windSea({ windMps: 13, fetchMetres: 100e3, durationSeconds: null, depthMetres: null }).heightMetres, 9);
  });

  it("halves in half a day when its wind drops, and is held by what still blows", () => {
    const sea = new StandingSea();
    sea.blow(14, 0, 1, 200e3, 48 * HOUR);
    const { heightMetres, periodSeconds } = { ...sea.wind };
    for (let hour = 0; hour < SEA_HALVES_IN_SECONDS / HOUR; hour++) sea.blow(0, 0, 0, 200e3, HOUR);
    expect(sea.wind.heightMetres).toBeCloseTo(heightMetres / 2, 9);
    expect(sea.wind.periodSeconds).toBe(periodSeconds);
    for (let hour = 0; hour < 96; hour++) sea.blow(6, 0, 1, 200e3, HOUR);
    expect(sea.wind.heightMetres).toBeCloseTo(
      windSea({ windMps: 6, fetchMetres: 200e3, durationSeconds: null, depthMetres: null }).heightMetres,
      9,
    );
  });

  it("runs on the old way when the wind turns, while a new one is raised", () => {
    const sea = new StandingSea();
    sea.blow(12, 0, 1, 200e3, 24 * HOUR);
    const stood = sea.wind.heightMetres;
    sea.blow(12, 1, 0, 200e3, HOUR);
    expect(sea.old).toMatchObject({ towardEast: 0, towardNorth: 1 });
    expect(sea.old.heightMetres).toBeCloseTo(stood, 9);
    expect(sea.wind).toMatchObject({ towardEast: 1, towardNorth: 0 });
    expect(sea.wind.heightMetres).toBeCloseTo(
      windSea({ windMps: 12, fetchMetres: 200e3, durationSeconds: HOUR, depthMetres: null }).heightMetres,
      9,
    );
    sea.blow(12, 1, 0, 200e3, HOUR);
    expect(sea.old.heightMetres).toBeCloseTo(stood * 2 ** (-1 / 12), 9);
  });

  it("gives numbers for any winds, never less than nothing nor more than a full sea of the strongest", () => {
    let seed = 7;
    const random = (): number => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    for (let run = 0; run < 50; run++) {
      const sea = new StandingSea();
      let strongest = 0;
      for (let hour = 0; hour < 60; hour++) {
        const windMps = random() < 0.2 ? 0 : 30 * random() ** 2;
        strongest = Math.max(strongest, windMps);
        const angle = random() * 7;
        const isVariable = random() < 0.1;
        sea.blow(windMps, isVariable ? 0 : Math.sin(angle), isVariable ? 0 : Math.cos(angle), random() < 0.1 ? 0 : 400e3 * random(), HOUR);
        const together = Math.hypot(sea.wind.heightMetres, sea.old.heightMetres);
        expect(Number.isFinite(together) && together >= 0).toBe(true);
        // Seas of several winds together, each full by itself, could be more than one: here none grows so far.
        expect(together).toBeLessThanOrEqual((1.5 * 0.243 * strongest * strongest) / 9.80665 + 0.1);
        expect(sea.wind.heightMetres > 0).toBe(sea.wind.periodSeconds > 0);
      }
    }
  });
});

describe("the sea raised by a wind forecast", () => {
  const northerly: Blow = { from: 0, until: 48, dir: 0, low: 18, high: 22 };

  // Twelve nautical miles off a straight coast: nine rays, the mean of 12 nm / cos of 0, 3, … 12 degrees.
  it("off a coast to windward is that of its fetch by nine rays, under the upper end of the wind's range", () => {
    const secant = (deg: number): number => 1 / Math.cos((deg * Math.PI) / 180);
    const mean = (1 + 2 * (secant(3) + secant(6) + secant(9) + secant(12))) / 9;
    const fetchMetres = 12 * METRES_PER_NM * mean;
    const wanted = windSea({ windMps: kn(22), fetchMetres, durationSeconds: null, depthMetres: null });
    const got = read([northerly], coast(12), "none", clock(30));
    expect(got.coverage).toBe(COVERED);
    // A degree of latitude is no 60 miles on the plane.
    expect(Math.abs(got.heightMetres / wanted.heightMetres - 1)).toBeLessThan(0.006);
    expect(Math.abs(got.periodSeconds / (wanted.periodSeconds ?? 0) - 1)).toBeLessThan(0.004);
    expect(got.systems[SYSTEM_TOWARD_NORTH]).toBeCloseTo(-1, 6);
    expect(got.count).toBe(1);
  });

  it("in open water grows with the hours, the first wind taken to have blown for half a day", () => {
    for (const hour of [0, 5, 30]) {
      const wanted = windSea({
        windMps: kn(22),
        fetchMetres: OPEN_FETCH_METRES,
        durationSeconds: BLEW_BEFORE_SECONDS + hour * HOUR,
        depthMetres: null,
      });
      expect(read([northerly], null, "none", clock(hour)).heightMetres).toBeCloseTo(wanted.heightMetres, 5);
    }
  });

  it("lies down after the blow", () => {
    const blow: Blow = { from: 0, until: 24, dir: 0, low: 25 };
    const calm: Blow = { from: 24, until: 72, dir: 0, low: 0 };
    const top = read([blow, calm], null, "none", clock(23)).heightMetres;
    const later = read([blow, calm], null, "none", clock(47)).heightMetres;
    expect(later).toBeCloseTo(top / 4, 4);
  });

  it("says that it lacks the swell unless that is stated; a stated one counts by squares", () => {
    const alone = read([northerly], null, "none", clock(20));
    expect(alone.out[SEA_LACKS_SWELL]).toBe(0);
    expect(read([northerly], null, null, clock(20)).out[SEA_LACKS_SWELL]).toBe(1);
    const together = read([northerly], null, { heightMetres: 1.2, periodSeconds: 11 }, clock(20));
    expect(together.out[SEA_LACKS_SWELL]).toBe(0);
    expect(together.heightMetres).toBeCloseTo(Math.hypot(alone.heightMetres, 1.2), 9);
    expect(together.count).toBe(2);
    expect(together.systems[SYSTEM_STRIDE + SYSTEM_HEIGHT_METRES]).toBe(1.2);
    expect(together.systems[SYSTEM_STRIDE + SYSTEM_PERIOD_SECONDS]).toBe(11);
  });

  it("a calm raises nothing, a sea without height has no period", () => {
    const got = read([{ from: 0, until: 24, dir: 0, low: 0 }], null, "none", clock(10));
    expect(got.heightMetres).toBe(0);
    expect(got.out[SEA_HAS_PERIOD]).toBe(0);
    expect(got.count).toBe(0);
  });

  // Near land the highest of the places around is taken, which is on the safe side.
  it("close under a weather shore there is less, on land by the coastline none, and a lee shore takes nothing off", () => {
    const off = read([northerly], coast(6), "none", clock(30)).heightMetres;
    const close = read([northerly], coast(6), "none", clock(30), 5.5).heightMetres;
    const twoMiles = windSea({ windMps: kn(22), fetchMetres: 2.06 * METRES_PER_NM, durationSeconds: null, depthMetres: null });
    expect(close).toBeLessThan(0.6 * off);
    expect(close).toBeLessThanOrEqual(twoMiles.heightMetres);
    expect(read([northerly], coast(6), "none", clock(30), 20).heightMetres).toBe(0);
    const southerly: Blow = { ...northerly, dir: 180 };
    const inShore = read([southerly], coast(6), "none", clock(30), 5.5).heightMetres;
    expect(inShore).toBeCloseTo(read([southerly], coast(6), "none", clock(30), -5).heightMetres, 2);
  });

  it("is raised to the very edge of the plane, and in waters too narrow for the places around", () => {
    const edge = 30 * METRES_PER_NM;
    for (const [x, y] of [
      [edge, edge],
      [-edge, 0],
      [0, -edge],
    ] as const) {
      const out = new Float64Array(SEA_SLOTS);
      expect(raisedSea(winds(northerly), null, "none").onPlane(plane).readInto(out, x, y, clock(30))).toBe(COVERED);
      expect(out[SEA_HEIGHT_HIGH_METRES]).toBeGreaterThan(1);
    }
    // A cut a tenth of a mile wide, from north to south through land; no place of the grid lies in it.
    const box = (west: number, east: number) => ({
      kind: "land" as const,
      name: null,
      rings: [Float64Array.from([west, -1, east, -1, east, 1, west, 1, west, -1].map((nm, i) => (i % 2 === 0 ? nm / 60 : nm)))],
    });
    const out = new Float64Array(SEA_SLOTS);
    const cut = raisedSea(winds(northerly), landOn(plane, [box(-60, 0.51), box(0.61, 60)]), "none").onPlane(plane);
    expect(cut.readInto(out, 0.55 * METRES_PER_NM, 100, clock(30))).toBe(COVERED);
    expect(out[SEA_HEIGHT_HIGH_METRES]).toBeGreaterThan(0.1);
  });

  it("of a wind that may come from anywhere in an arc is that over its longest fetch", () => {
    const arc: Blow = { ...northerly, dir: 300, arc: 120 };
    const headland = landOn(plane, [
      { kind: "land", name: null, rings: [Float64Array.of(-0.05, 0.05, 0.05, 0.05, 0.05, 0.2, -0.05, 0.2, -0.05, 0.05)] },
    ]);
    const alone = read([{ ...northerly, dir: 300 }], headland, "none", clock(30)).heightMetres;
    expect(read([northerly], headland, "none", clock(30)).heightMetres).toBeLessThan(alone / 2);
    expect(read([arc], headland, "none", clock(30)).heightMetres).toBeCloseTo(alone, 2);
  });

  it("on the weather side of a spit is not made less by what lies to leeward of it", () => {
    const spit = landOn(plane, [
      { kind: "land", name: null, rings: [Float64Array.of(-0.1, -0.01, 0.1, -0.01, 0.1, -0.005, -0.1, -0.005, -0.1, -0.01)] },
    ]);
    const open = read([northerly], null, "none", clock(30)).heightMetres;
    for (const northNm of [-0.2, 0, 0.3, 0.6])
      expect(read([northerly], spit, "none", clock(30), northNm).heightMetres).toBeCloseTo(open, 3);
  });

  it("of a place ashore by the coastline is that of the water nearest to it", () => {
    const bay = read([{ ...northerly, dir: 180 }], coast(6), "none", clock(30), 6.3);
    expect(bay.coverage).toBe(COVERED);
    expect(bay.heightMetres).toBeGreaterThan(2);
  });

  it("covers what its wind does", () => {
    const gap = [
      { ...northerly, until: 10 },
      { ...northerly, from: 14 },
    ];
    expect(read(gap, null, "none", clock(9)).coverage).toBe(COVERED);
    expect(read(gap, null, "none", clock(12)).coverage).toBe(NO_TIME);
    expect(read(gap, null, "none", clock(15)).coverage).toBe(COVERED);
    expect(read(gap, null, "none", clock(49)).coverage).toBe(NO_TIME);
    expect(read(gap, null, "none", clock(-1)).coverage).toBe(NO_TIME);
  });
});
