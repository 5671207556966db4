import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { landOn } from "../../src/core/coast/index.ts";
import { flatPlane } from "../../src/core/earth/index.ts";
import {
  CHAIN_KG_PER_METRE_PER_MM2,
  chainKgPerMetre,
  chainNewtonsPerMetre,
  fetchFrom,
  fetchRose,
  loadRow,
  NEWTONS_PER_POUND_FORCE,
  rodeForLevelPull,
  rodeForNight,
  rodeForScope,
  rodePull,
  swingRadiusMetres,
  windLoadNewtons,
} from "../../src/core/places/index.ts";
import { windSea } from "../../src/core/sea/index.ts";
import { METRES_PER_NM, metresFromFeet, metresFromNm, mpsFromKnots, nmFromMetres } from "../../src/core/units/index.ts";

/** American Boat and Yacht Council, H-40 (2003), table 1, as reproduced by several sellers and a boatyard manual, pounds-force. */
const H40 = [
  { feet: 30, lbf: [175, 700, 1400, 2800] },
  { feet: 35, lbf: [225, 900, 1800, 3600] },
  { feet: 40, lbf: [300, 1200, 2400, 4800] },
  { feet: 50, lbf: [400, 1600, 3200, 6400] },
  { feet: 60, lbf: [500, 2000, 4000, 8000] },
];

const loadOf = (feet: number, knots: number): number => {
  const row = loadRow({ lengthOverallMetres: metresFromFeet(feet), beamMetres: null, hull: "sail" });
  if (row === null) throw new Error(`no row for ${feet} ft`);
  return windLoadNewtons(row, mpsFromKnots(knots));
};

describe("wind loads on ground tackle (ABYC H-40, table 1)", () => {
  it("are the table's at its winds, to the pound", () => {
    for (const { feet, lbf } of H40)
      expect([15, 30, 42, 60].map((knots) => Math.round(loadOf(feet, knots) / NEWTONS_PER_POUND_FORCE))).toEqual(lbf);
  });

  it("in newtons: 300, 1200 and 2400 lbf", () => {
    expect([15, 30, 42].map((knots) => Number(loadOf(40, knots).toFixed(1)))).toEqual([1334.5, 5337.9, 10675.7]);
  });

  it("go by the wind's square: at 21 kn 1.96 times, at 45 kn within 2 % of 9 times that of 15 kn", () => {
    expect(loadOf(40, 7.5) / loadOf(40, 15)).toBeCloseTo(0.25, 12);
    expect(loadOf(40, 21) / loadOf(40, 15)).toBeCloseTo(1.96, 12);
    expect(Math.abs(loadOf(40, 45) / loadOf(40, 15) / 9 - 1)).toBeLessThan(0.02);
    expect(loadOf(40, 90) / loadOf(40, 60)).toBeCloseTo(2.25, 12);
  });

  // A published example in a boatyard manual's chapter on ground tackle: a motor boat of 32 ft by 12 ft has a working load of 900 lbf.
  it("are entered with length or beam, whichever gives more: 32 ft by 12 ft under power, 900 lbf", () => {
    const row = loadRow({ lengthOverallMetres: metresFromFeet(32), beamMetres: metresFromFeet(12), hull: "power" });
    if (row === null) throw new Error("no row");
    expect(windLoadNewtons(row, mpsFromKnots(30)) / NEWTONS_PER_POUND_FORCE).toBeCloseTo(900, 6);
  });

  it("by the beam where that gives the larger: 30 ft long and 10.5 ft broad under sail has the 40 ft row's", () => {
    const row = loadRow({ lengthOverallMetres: metresFromFeet(30), beamMetres: metresFromFeet(10.5), hull: "sail" });
    expect(row).toMatchObject({ lengthFeet: 40, enteredBy: "beam" });
  });

  it("have no answer for a boat longer than 60 ft, nor for one broader than the table", () => {
    expect(loadRow({ lengthOverallMetres: metresFromFeet(61), beamMetres: null, hull: "sail" })).toBeNull();
    expect(loadRow({ lengthOverallMetres: metresFromFeet(40), beamMetres: metresFromFeet(23), hull: "sail" })).toBeNull();
  });
});

describe("the chain's catenary, the pull on the anchor level: L = √(d² + 2dT/w), x = (T/w) acosh(1 + wd/T)", () => {
  // Worked apart from the program (scipy): chain of 10 mm, 2.3 kg/m, w = 2.3 g (1 − 1025/7850) = 19.6102 N/m.
  const weight = chainNewtonsPerMetre(2.3);
  const level = (height: number, pull: number) => rodeForLevelPull(1000, weight, height, pull)?.chainMetres ?? Number.NaN;

  it("a chain of 10 mm weighs 2.3 kg/m (common practice), in sea water 19.6102 N/m", () => {
    expect(chainKgPerMetre(0.01)).toBeCloseTo(2.3, 12);
    expect(CHAIN_KG_PER_METRE_PER_MM2).toBe(0.023);
    expect(weight).toBeCloseTo(19.6102, 4);
  });

  it("from 7 m below the bow: 31.644 m for 1334 N, 62.128 m for 5338 N", () => {
    expect(level(7, 1334)).toBeCloseTo(31.644, 3);
    expect(level(7, 5338)).toBeCloseTo(62.128, 3);
    expect(level(7, 1334) / 7).toBeCloseTo(4.52, 2);
    expect(level(7, 5338) / 7).toBeCloseTo(8.88, 2);
  });

  it("leads level with just so much chain, reaches 30.602 m and pulls 1471.3 N at the bow", () => {
    const led = rodePull({ chainMetres: level(7, 1334), chainNewtonsPerMetre: weight, ropeMetres: 0 }, 7, 1334);
    if (led.kind === "short") throw new Error("short");
    expect(led.leadDeg).toBeCloseTo(0, 4);
    expect(led.reachMetres).toBeCloseTo(30.602, 3);
    expect(led.bowNewtons).toBeCloseTo(1471.3, 1);
    expect(led.lyingMetres).toBeCloseTo(0, 4);
  });

  it("so the scope for a level pull falls with depth: 5.31 at 5 m, 3.82 at 10 m", () => {
    expect(level(5, 1334) / 5).toBeCloseTo(5.31, 2);
    expect(level(10, 1334) / 10).toBeCloseTo(3.82, 2);
  });
});

describe("swinging circle and scope (two pages on anchoring; the arithmetic redone)", () => {
  it("35 m out, bow 1.3 m, 12 m long: 46.2514 m in 5.9 m at high water, 46.4283 m in 5.0 m at low", () => {
    expect(swingRadiusMetres(35, 5.9 + 1.3, 12)).toBeCloseTo(46.2514, 4);
    expect(swingRadiusMetres(35, 5 + 1.3, 12)).toBeCloseTo(46.4283, 4);
  });

  it("is larger at low water than at high, and never more than rode and length together", () => {
    const [high, low] = [5.9 + 1.3, 5 + 1.3].map((height) => swingRadiusMetres(35, height, 12) ?? Number.NaN);
    expect(low).toBeGreaterThan(high as number);
    expect(low).toBeLessThan(47);
  });

  // A ship's rule as taught: shackles out of 27.5 m each and the ship's length, 6 shackles and 100 m are 265 m, 1.43 cables.
  it("a ship's rule, shackles and length, is the bound that a flat rode comes to: 265 m, 1.43 cables", () => {
    const metres = swingRadiusMetres(6 * 27.5, 0, 100) ?? Number.NaN;
    expect(metres).toBeCloseTo(265, 9);
    expect(metres / 185.2).toBeCloseTo(1.43, 2);
  });

  it("scope counts depth, rise of the tide and bow: seven to one of 5.0 + 0.9 + 1.3 m is 50.4 m", () => {
    expect(rodeForScope(7, { depthMetres: 5, riseMetres: 0.9, bowHeightMetres: 1.3 })).toBeCloseTo(50.4, 10);
  });
});

describe("the sea at anchor", () => {
  // Common practice, as a coastal skipper puts it: 20 to 25 kn off the land over 4 to 5 miles raise 1 to 3 ft.
  it("20 to 25 kn over 4 to 5 nm raise 1 to 3 ft", () => {
    for (const knots of [20, 22.5, 25])
      for (const nm of [4, 4.5, 5]) {
        const sea = windSea({ windMps: mpsFromKnots(knots), fetchMetres: metresFromNm(nm), durationSeconds: null, depthMetres: null });
        expect(sea.heightMetres).toBeGreaterThan(metresFromFeet(1));
        expect(sea.heightMetres).toBeLessThan(metresFromFeet(3));
        expect(sea.limitedBy).toBe("fetch");
      }
  });
});

interface Reference {
  readonly weights: readonly { readonly diameterMm: number; readonly newtonsPerM: number }[];
  readonly rodes: readonly {
    readonly diameterMm: number;
    readonly chainM: number;
    readonly ropeM: number;
    readonly heightM: number;
    readonly pullN: number;
    readonly leadDeg: number;
    readonly lyingM: number;
    readonly reachM: number;
    readonly bowN: number;
    readonly neededM: number | null;
  }[];
  readonly shores: readonly (readonly (readonly [number, number])[])[];
  readonly fetches: readonly { readonly from: number; readonly fetchNm: number; readonly open: boolean }[];
  readonly swings: readonly { readonly rodeM: number; readonly heightM: number; readonly lengthM: number; readonly swingM: number }[];
}

/** Made by test/outside/references/make_anchoring.py (scipy), apart from the program. */
const reference: Reference = JSON.parse(readFileSync(new URL("./references/anchoring.json", import.meta.url), "utf8"));

describe("against the independent script", () => {
  it("chain weighs the same in the water", () => {
    for (const { diameterMm, newtonsPerM } of reference.weights)
      expect(chainNewtonsPerMetre(chainKgPerMetre(diameterMm / 1000))).toBeCloseTo(newtonsPerM, 9);
  });

  // The script integrates the cable link by link; the program has it closed. Seen to agree within 3e-12 of a metre and a degree.
  it.each(reference.rodes)(
    "$chainM m of $diameterMm mm and $ropeM m of rope, $heightM m, $pullN N: lead, reach, pull at the bow",
    (one) => {
      const weight = chainNewtonsPerMetre(chainKgPerMetre(one.diameterMm / 1000));
      const led = rodePull({ chainMetres: one.chainM, chainNewtonsPerMetre: weight, ropeMetres: one.ropeM }, one.heightM, one.pullN);
      if (led.kind === "short") throw new Error("short");
      expect(led.leadDeg).toBeCloseTo(one.leadDeg, 6);
      expect(led.lyingMetres).toBeCloseTo(one.lyingM, 6);
      expect(led.reachMetres).toBeCloseTo(one.reachM, 6);
      expect(led.bowNewtons / one.bowN).toBeCloseTo(1, 9);
    },
  );

  it("the least rode that leads 8 degrees is found to a tenth of a metre, never short of it", () => {
    let found = 0;
    for (const { diameterMm, chainM, ropeM, heightM, pullN, neededM } of reference.rodes) {
      const loads = loadRow({ lengthOverallMetres: metresFromFeet(40), beamMetres: null, hull: "sail" });
      if (loads === null) throw new Error("no row");
      // The wind that pulls so hard on this boat.
      let [low, high] = [0, 100];
      for (let i = 0; i < 80; i++) {
        const middle = (low + high) / 2;
        if (windLoadNewtons(loads, middle) < pullN) low = middle;
        else high = middle;
      }
      const boat = {
        lengthOverallMetres: metresFromFeet(40),
        beamMetres: null,
        hull: "sail" as const,
        draughtMetres: null,
        bowHeightMetres: 1,
        groundTackle: { chainMetres: chainM, chainDiameterMetres: diameterMm / 1000, ropeMetres: ropeM },
      };
      const rode = rodeForNight({ rodeOutMetres: 5, scope: null }, boat, heightM - 1, heightM - 1, high);
      if (neededM === null) expect(rode?.neededMetres).toBeNull();
      else {
        expect(rode?.neededMetres).toBeGreaterThanOrEqual(neededM - 1e-6);
        expect(rode?.neededMetres).toBeLessThan(neededM + 0.1);
        found++;
      }
    }
    expect(found).toBeGreaterThan(4);
  });

  it("the fetch in a bay with an islet off it, by nine rays: within the 5 m that a ray is found to (seen: 2.8 m)", () => {
    const plane = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 30 * METRES_PER_NM);
    const areas = reference.shores.map((shore) => ({
      kind: "land" as const,
      name: null,
      rings: [Float64Array.from([...shore, shore[0] ?? [0, 0]].flatMap(([x, y]) => [x / 60, y / 60]))],
    }));
    const rose = fetchRose(landOn(plane, areas), plane, { xMetres: 0, yMetres: 0 });
    if (rose === null) throw new Error("on land");
    for (const { from, fetchNm, open } of reference.fetches) {
      const fetch = fetchFrom(rose, from);
      expect(fetch.open, `from ${from}`).toBe(open);
      expect(Math.abs(fetch.metres - metresFromNm(fetchNm)), `from ${from}: ${nmFromMetres(fetch.metres)} nm`).toBeLessThan(5);
    }
  });

  it("the swinging circles", () => {
    for (const { rodeM, heightM, lengthM, swingM } of reference.swings)
      expect(swingRadiusMetres(rodeM, heightM, lengthM)).toBeCloseTo(swingM, 9);
  });
});
