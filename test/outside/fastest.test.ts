import { describe, expect, it } from "vitest";
import { PowerBoat } from "../../src/core/boat/index.ts";
import { type LandArea, landOn } from "../../src/core/coast/index.ts";
import { crossingOf, fastestWay, lineBetween, oneHeading } from "../../src/core/passage/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { periodWind } from "../../src/core/weather/index.ts";
import { crossingIn, FASTEST_CASES, type FastestCase, fastestArrives, fastestHours, flowCurrent, hourlyGrid } from "./fastest-cases.ts";
import { arriving, FLAT, HOUR, hoursOf, KN, NM, powerBoat } from "./ways-cases.ts";

/** An exact stream: a thousandth of a percent. */
const EXACT_SHARE = 1e-5;

const named = FASTEST_CASES.map((one) => ({ ...one, name: `${one.id}, leaving at ${one.departHours} h: ${one.hours} h` }));

describe("the fastest way in an exact stream", () => {
  it.each(named)("$name", (one) => {
    const crossing = crossingIn(one, flowCurrent(one.flow));
    for (const crossCheck of [true, false]) {
      const way = fastestArrives(fastestWay(crossing, one.departHours * HOUR, { crossCheck }));
      const hours = fastestHours(way);
      expect(Math.abs(hours / one.hours - 1), `cross-check ${crossCheck}: ${hours} h`).toBeLessThanOrEqual(EXACT_SHARE);
      // In the shear the water runs at any rate farther out, so that it can't be told what might come from there.
      if (one.id.startsWith("shear")) continue;
      expect(way.whyNotCrossChecked).toBe(crossCheck ? null : "notAsked");
      expect(way.crossChecked).toBe(crossCheck);
      if (crossCheck) expect(Math.abs(way.searchedArrivalAt - way.arrivalAt)).toBeLessThanOrEqual(1e-5 * hours * HOUR);
    }
  });
});

describe("the fastest way on an hourly grid of one mile, the grid's own error in it", () => {
  const gridded = named.filter((one): one is FastestCase & { name: string; gridShare: number } => one.gridShare !== null);
  it.each(gridded)("$name, within $gridShare", (one) => {
    const crossing = crossingIn(one, hourlyGrid(one));
    for (const crossCheck of [true, false]) {
      const hours = fastestHours(fastestWay(crossing, one.departHours * HOUR, { crossCheck }));
      expect(Math.abs(hours / one.hours - 1), `cross-check ${crossCheck}: ${hours} h`).toBeLessThanOrEqual(one.gridShare);
    }
  });
});

const areaOf = (...corners: readonly (readonly [number, number])[]): LandArea => ({
  kind: "land",
  name: null,
  rings: [
    Float64Array.from(
      corners.flatMap(([east, north]) => {
        const { latitudeDeg, longitudeDeg } = FLAT.toPosition(east * NM, north * NM);
        return [longitudeDeg, latitudeDeg];
      }),
    ),
  ],
});

describe("round land", () => {
  const roundLand = (flow: FastestCase["flow"], boatKn: number, to: readonly [number, number], areas: readonly LandArea[]) => {
    const land = landOn(FLAT, areas);
    if (land === null) throw new Error("no land");
    const around = { plane: FLAT, current: flowCurrent(flow).onPlane(FLAT), currentCovers: null, wind: null, windCovers: null, land };
    const crossing = crossingOf(lineBetween(FLAT, 0, 0, to[0] * NM, to[1] * NM), around, powerBoat(boatKn));
    return [true, false].map((crossCheck) => {
      const way = fastestArrives(fastestWay(crossing, 0, { crossCheck }));
      const { count, xMetres, yMetres } = way.track;
      let crossings = 0;
      for (let i = 0; i + 1 < count; i++) {
        if (land.crosses(xMetres[i] as number, yMetres[i] as number, xMetres[i + 1] as number, yMetres[i + 1] as number)) crossings++;
      }
      return { way, hours: fastestHours(way), crossings };
    });
  };
  const jet: FastestCase["flow"] = (x) => [0, 3.5 * Math.exp(-(((x - 25) / 12) ** 2))];

  // Source: shooting with scipy to and from each corner; round the south corner it would take 12.032 h. Status: computed.
  it("a diamond in a jet (case f): 11.095915 h, round its north corner, no leg through it", () => {
    const diamond = areaOf([24, 1], [30, 9], [36, 1], [30, -7]);
    for (const { way, hours, crossings } of roundLand(jet, 5.5, [60, 5], [diamond])) {
      expect(Math.abs(hours / 11.095915 - 1)).toBeLessThanOrEqual(1e-4);
      expect(crossings).toBe(0);
      expect(way.landCorners).toHaveLength(1);
      expect(Math.hypot((way.landCorners[0]?.xMetres ?? 0) - 30 * NM, (way.landCorners[0]?.yMetres ?? 0) - 9 * NM)).toBeLessThan(10);
    }
  });

  // Source: plane geometry, tangents and an arc. Status: computed here.
  it("a round island in still water: two tangents and the arc between", () => {
    const radius = 8;
    const island = areaOf(
      ...Array.from(
        { length: 200 },
        (_, i) => [30 + radius * Math.cos((i * Math.PI) / 100), radius * Math.sin((i * Math.PI) / 100)] as const,
      ),
    );
    const miles = 2 * Math.sqrt(900 - radius * radius) + radius * (Math.PI - 2 * Math.acos(radius / 30));
    for (const { hours, crossings } of roundLand(() => [0, 0], 5, [60, 0], [island])) {
      // The island of 200 corners is smaller than the circle by up to 1 − cos(π/200), a metre.
      expect(Math.abs(hours / (miles / 5) - 1)).toBeLessThanOrEqual(1e-4);
      expect(crossings).toBe(0);
    }
  });
});

// Source: pointwise minimisation and quadrature with scipy by references/make_fastest.py; the stream of case b, 15 kn of wind from the
// bearing given, three tenths of the speed lost to 20 kn dead ahead. Status: computed.
describe("under power with a loss against the wind", () => {
  it.each([
    { fromDegTrue: 60, hours: 12.246689323 },
    { fromDegTrue: 120, hours: 12.970408796 },
    { fromDegTrue: 180, hours: 11.055347966 },
  ])("wind from $fromDegTrue: $hours h", ({ fromDegTrue, hours }) => {
    const period = { from: epochSeconds(0), until: epochSeconds(72 * HOUR), fromDegTrue, arcDeg: 0, gustMps: null };
    const wind = periodWind("letter", null, [{ ...period, speedLowMps: 15 * KN, speedHighMps: 15 * KN }], 1.4);
    const current = flowCurrent((x) => [0, 3.5 * Math.exp(-(((x - 25) / 12) ** 2))]).onPlane(FLAT);
    const around = { plane: FLAT, current, currentCovers: null, wind: wind.onPlane(FLAT, 0), windCovers: wind.covers };
    const boat = new PowerBoat({ calmSpeedMps: 5.5 * KN, estimatedFromWaterline: false, burnLitresPerHour: 3, headwindLossShare: 0.3 });
    const crossing = crossingOf(lineBetween(FLAT, 0, 0, 60 * NM, 5 * NM), around, boat);
    const way = fastestArrives(fastestWay(crossing, 0));
    expect(Math.abs(fastestHours(way) / hours - 1)).toBeLessThanOrEqual(EXACT_SHARE);
    expect(way.crossChecked).toBe(true);
    expect(fastestHours(way)).toBeLessThan(hoursOf(arriving(oneHeading(crossing, 0))) * (1 + 1e-6));
  });
});
