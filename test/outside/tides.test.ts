import { describe, expect, it } from "vitest";
import { epochSeconds } from "../../src/core/units/index.ts";
import {
  cosineShare,
  differed,
  equilibriumDeg,
  factorOf,
  findConstituent,
  heightByCosine,
  heightByTwelfths,
  highsAndLows,
  lunarOrbit,
  meanLongitudes,
  nodeFactors,
  type TideTurn,
  TWELFTHS_GREATEST_ERROR_SHARE,
  twelfthsShare,
} from "../../src/core/water/index.ts";
import { curveOf, madeStation } from "../core/water/tide/made-station.ts";

const METRES_PER_FOOT = 0.3048;
const utc = (iso: string) => epochSeconds(Date.parse(iso) / 1000);
const turn = (kind: "high" | "low", iso: string, heightMetres: number): TideTurn => ({ kind, at: utc(iso), heightMetres });

describe("the rule of twelfths, as teaching pages give it", () => {
  // 1-2-3-3-2-1; low water 2 m at 1200 and high water 14 m six hours later give 8 m at 1500. (A page that prints 3.5/12 as 0.33 is wrong.)
  it("adds 1, 2, 3, 3, 2, 1 twelfths, and tells its error beside the height", () => {
    expect([1, 2, 3, 4, 5, 6].map((hour) => Math.round(12 * (twelfthsShare(hour / 6) - twelfthsShare((hour - 1) / 6))))).toEqual([
      1, 2, 3, 3, 2, 1,
    ]);
    const got = heightByTwelfths(turn("low", "2027-04-01T12:00Z", 2), turn("high", "2027-04-01T18:00Z", 14), utc("2027-04-01T15:00Z"));
    expect(got).toEqual({ heightMetres: 8, errorMetres: 12 * TWELFTHS_GREATEST_ERROR_SHARE });
    expect(twelfthsShare(1.75 / 6)).toBeCloseTo(2.5 / 12, 12);
  });

  it("is off the cosine rule by 0.0163 of the range on the hours, and never by more than it says", () => {
    const off = (share: number) => Math.abs(twelfthsShare(share) - cosineShare(share));
    expect(Math.max(...[1, 2, 3, 4, 5].map((hour) => off(hour / 6)))).toBeCloseTo(0.0163, 4);
    let most = 0;
    for (let i = 0; i <= 6000; i++) most = Math.max(most, off(i / 6000));
    expect(most).toBeLessThanOrEqual(TWELFTHS_GREATEST_ERROR_SHARE);
    expect(most).toBeGreaterThan(TWELFTHS_GREATEST_ERROR_SHARE - 2e-4);
  });
});

describe("secondary ports, published worked examples", () => {
  // Homework of the United States Naval Academy's navigation course: Boston on 19 April 2004, feet; Rainsford Island by ratio .95, low water 2 min later.
  it("Rainsford Island from Boston: high water 9.5 ft at 1111, low water .475 ft at 1712, 5.0 ft at 1400 within half a foot", () => {
    const ratio = { kind: "ratio" as const, by: 0.95 };
    const island = { high: { laterSeconds: 0, height: ratio }, low: { laterSeconds: 120, height: ratio } };
    const high = differed(island, turn("high", "2004-04-19T11:11Z", 10));
    const low = differed(island, turn("low", "2004-04-19T17:10Z", 0.5));
    expect(high).toEqual(turn("high", "2004-04-19T11:11Z", 9.5));
    expect(low.at).toBe(utc("2004-04-19T17:12Z"));
    expect(low.heightMetres).toBeCloseTo(0.475, 12);
    const at = utc("2004-04-19T14:00Z");
    expect(Math.abs(heightByTwelfths(high, low, at).heightMetres - 5)).toBeLessThan(0.5);
    expect(heightByCosine(high, low, at)).toBeCloseTo(5.438, 3);
  });

  // Lecture slides: Ponquogue; reference low −0.7 ft at 0108, high 5.6 ft at 0721; differences +0:29 and −2.3 ft, +0:14 and 0.0 ft.
  it("Ponquogue: high water 3.3 ft at 0750, low water −0.7 ft at 0122; dates roll over midnight both ways", () => {
    const feet = (by: number) => ({ kind: "metres" as const, by: by * METRES_PER_FOOT });
    const port = { high: { laterSeconds: 29 * 60, height: feet(-2.3) }, low: { laterSeconds: 14 * 60, height: feet(0) } };
    const high = differed(port, turn("high", "2020-05-01T07:21Z", 5.6 * METRES_PER_FOOT));
    const low = differed(port, turn("low", "2020-05-01T01:08Z", -0.7 * METRES_PER_FOOT));
    expect(high.at).toBe(utc("2020-05-01T07:50Z"));
    expect(high.heightMetres / METRES_PER_FOOT).toBeCloseTo(3.3, 9);
    expect(low.at).toBe(utc("2020-05-01T01:22Z"));
    expect(low.heightMetres / METRES_PER_FOOT).toBeCloseTo(-0.7, 9);
    const moved = (hours: number, iso: string) =>
      differed({ ...port, high: { ...port.high, laterSeconds: hours * 3600 } }, turn("high", iso, 1)).at;
    expect(moved(3, "2020-05-01T22:00Z")).toBe(utc("2020-05-02T01:00Z"));
    expect(moved(-5, "2020-05-01T02:00Z")).toBe(utc("2020-04-30T21:00Z"));
  });
});

describe("height at any time", () => {
  // Canadian Tide and Current Tables, tables 5 and 5A, a worked example: Montague Harbour on 1 October 2003, feet; the cosine to four figures was computed.
  it("Montague Harbour at 0700: 5.8 ft", () => {
    const low = turn("low", "2003-10-01T03:27Z", 2.2);
    const high = turn("high", "2003-10-01T11:41Z", 11.4);
    expect(heightByCosine(low, high, utc("2003-10-01T07:00Z"))).toBeCloseTo(5.8131, 4);
  });

  // The rule of the American table 3: R/2·(1 − cos πt/D).
  it("range 10, duration 6 h, after 2 h: 2.5", () => {
    expect(
      heightByCosine(turn("low", "2027-01-01T00:00Z", 0), turn("high", "2027-01-01T06:00Z", 10), utc("2027-01-01T02:00Z")),
    ).toBeCloseTo(2.5, 12);
  });
});

describe("an official table of high and low waters", () => {
  // NOAA, CO-OPS, station 9413450 Monterey: its daily predictions for 13 and 14 July 2016, feet above MLLW, times UTC−7, and its constants
  // of the same vintage from the free harmonics file of 2025-12-28 (as in xtide-data 2019-12-29); feet, degrees G.
  const constants = {
    M2: [1.61, 181.3],
    K1: [1.2, 219.6],
    O1: [0.75, 203.5],
    S2: [0.43, 180.1],
    P1: [0.38, 215.8],
    N2: [0.37, 155],
    SA: [0.2, 198.5],
    Q1: [0.13, 194.8],
    K2: [0.12, 170.6],
    J1: [0.07, 232.3],
    NU2: [0.07, 160.9],
    SSA: [0.07, 264.6],
    "2N2": [0.05, 125.4],
    L2: [0.04, 213.4],
    M1: [0.04, 224.9],
    OO1: [0.04, 246.4],
    MU2: [0.04, 114.7],
    MF: [0.04, 138.1],
    S1: [0.03, 317.1],
    "2Q1": [0.02, 191.7],
    T2: [0.02, 165.3],
    RHO1: [0.02, 197],
    M3: [0.01, 7],
    LDA2: [0.01, 213.6],
  } as const;
  const published = [
    ["low", "2016-07-13T01:18", 1.46],
    ["high", "2016-07-13T07:01", 3.1],
    ["low", "2016-07-13T11:59", 2.06],
    ["high", "2016-07-13T18:51", 5.06],
    ["low", "2016-07-14T02:09", 1.03],
    ["high", "2016-07-14T08:18", 3.18],
    ["low", "2016-07-14T12:48", 2.31],
    ["high", "2016-07-14T19:30", 5.25],
  ] as const;

  it("Monterey, July 2016: all eight within 3 min and 0.01 m", () => {
    const metres = Object.fromEntries(
      Object.entries(constants).map(([name, [feet, phase]]) => [name, [feet * METRES_PER_FOOT, phase] as const]),
    );
    const curve = curveOf(madeStation(metres, 2.83 * METRES_PER_FOOT));
    const turns = highsAndLows(curve, utc("2016-07-13T07:00Z"), utc("2016-07-15T07:00Z"));
    expect(turns.map(({ kind }) => kind)).toEqual(published.map(([kind]) => kind));
    published.forEach(([, local, feet], i) => {
      expect(Math.abs((turns[i]?.at ?? 0) - utc(`${local}:00-07:00`))).toBeLessThan(180);
      expect(Math.abs((turns[i]?.heightMetres ?? 0) - feet * METRES_PER_FOOT)).toBeLessThan(0.01);
    });
  });
});

describe("node factors and arguments", () => {
  // The table of the free harmonics file (equal to Schureman's table 14 and 15 in layout): f in the middle of the year, V0 + u at 1 January 0h Greenwich.
  type Pair = readonly [f: number, degrees: number];
  const table: readonly { readonly year: number; readonly pairs: readonly Pair[]; readonly degrees: readonly number[] }[] = [
    {
      year: 1970,
      pairs: [
        [0.9665, 165.43],
        [1.1052, 13.44],
        [1.1702, 150.71],
        [1.2888, 207.25],
      ],
      degrees: [270.12, 255.39, 349.76],
    },
    {
      year: 1997,
      pairs: [
        [1.0376, 193.96],
        [0.8827, 9.48],
        [0.8074, 185.15],
        [0.7478, 199.21],
      ],
      degrees: [331.67, 322.86, 349.31],
    },
    {
      year: 2000,
      pairs: [
        [1.0162, 134.54],
        [0.9629, 1.46],
        [0.9394, 137.21],
        [0.8936, 183.36],
      ],
      degrees: [6.09, 8.76, 350.03],
    },
    {
      year: 2006,
      pairs: [
        [0.9632, 332.24],
        [1.1128, 10.6],
        [1.1828, 321.6],
        [1.3162, 201.21],
      ],
      degrees: [5.32, 354.68, 349.49],
    },
    {
      year: 2016,
      pairs: [
        [1.0367, 210.46],
        [0.8864, 7.56],
        [0.8135, 204.31],
        [0.7533, 195.61],
      ],
      degrees: [50.19, 44.04, 349.9],
    },
    {
      year: 2025,
      pairs: [
        [0.9636, 324.92],
        [1.112, 12],
        [1.1814, 312.48],
        [1.3131, 204.13],
      ],
      degrees: [46.94, 34.51, 349.1],
    },
    {
      year: 2026,
      pairs: [
        [0.9674, 66.36],
        [1.1031, 14.26],
        [1.1668, 50.65],
        [1.2815, 208.93],
      ],
      degrees: [59.66, 43.96, 349.33],
    },
    {
      year: 2027,
      pairs: [
        [0.9748, 167.68],
        [1.0849, 16.25],
        [1.137, 149.03],
        [1.2196, 213.08],
      ],
      degrees: [72.27, 53.62, 349.57],
    },
  ];
  const factorsMid = (year: number) => {
    const leap = year % 4 === 0;
    const middle = meanLongitudes(epochSeconds(Date.UTC(year, 6, 2, leap ? 0 : 12) / 1000));
    return nodeFactors(lunarOrbit(middle.moonNodeDeg), middle.moonPerigeeDeg);
  };
  const argument = (name: string, year: number) => {
    const constituent = findConstituent(name)!;
    return equilibriumDeg(constituent, meanLongitudes(epochSeconds(Date.UTC(year, 0, 1) / 1000)), factorOf(constituent, factorsMid(year)));
  };
  const apart = (a: number, b: number) => Math.abs(((a - b + 540) % 360) - 180);

  it.each(table)("$year: f within 2e-4, V0 + u within 0.02°", ({ year, pairs, degrees }) => {
    ["M2", "K1", "O1", "K2"].forEach((name, i) => {
      const [f, tabled] = pairs[i]!;
      expect(Math.abs(factorOf(findConstituent(name)!, factorsMid(year)).f - f)).toBeLessThan(2e-4);
      expect(apart(argument(name, year), tabled)).toBeLessThan(0.02);
    });
    ["N2", "Q1", "P1"].forEach((name, i) => {
      expect(apart(argument(name, year), degrees[i]!)).toBeLessThan(0.02);
    });
  });

  it("u of M2, K1, O1 and K2 in 2000 and 2026 within 0.02°", () => {
    for (const [year, m2, k1, o1, k2] of [
      [2000, -1.923, -8.514, 10.723, -16.58],
      [2026, 0.995, 3.595, -4.046, 7.6],
    ] as const) {
      const factors = factorsMid(year);
      expect(Math.abs(factors.M2.uDeg - m2)).toBeLessThan(0.02);
      expect(Math.abs(factors.K1.uDeg - k1)).toBeLessThan(0.02);
      expect(Math.abs(factors.O1.uDeg - o1)).toBeLessThan(0.02);
      expect(Math.abs(factors.K2.uDeg - k2)).toBeLessThan(0.02);
    }
  });

  // Recorded in the tests of a TypeScript tide library, which takes Meeus's longitudes and the obliquity of the date: N = 102.9341° follows
  // from them. Our triangle gives its angles to 1e-3; our longitudes, Schureman's, differ by up to 0.02°.
  it("2019-10-04T10:15:40Z: I, ξ, ν, ν″ and P of another implementation, from its node and obliquity", () => {
    const orbit = lunarOrbit(102.93412, 23.43666);
    expect(Math.abs(orbit.inclinationDeg - 22.8113)).toBeLessThan(1e-3);
    expect(Math.abs(orbit.xiDeg - 11.9899)).toBeLessThan(1e-3);
    expect(Math.abs(orbit.nuDeg - 13.0286)).toBeLessThan(1e-3);
    expect(Math.abs(orbit.nuSecondDeg - 8.8162)).toBeLessThan(1e-3);
    expect(Math.abs(167.2326 - orbit.xiDeg - 155.2427)).toBeLessThan(1e-3);
    const ours = meanLongitudes(epochSeconds(Date.parse("2019-10-04T10:15:40.010Z") / 1000));
    expect(apart(ours.moonDeg, 258.2387)).toBeLessThan(0.02);
    expect(apart(ours.sunDeg, 192.8264)).toBeLessThan(0.001);
  });
});
