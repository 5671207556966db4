import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  anchorSum,
  GREATEST_LEAD_DEG,
  loadRow,
  type Rode,
  rodeForLevelPull,
  rodeForNight,
  rodePull,
  swingRadiusMetres,
  windLoadNewtons,
} from "../../../../src/core/places/index.ts";
import "../../../seeded.ts";

const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const rodes = fc.record({ chainMetres: range(0, 80), chainNewtonsPerMetre: range(4, 40), ropeMetres: range(0, 80) });
const led = (rode: Rode, height: number, pull: number) => {
  const found = rodePull(rode, height, pull);
  return found.kind === "leads" ? found : null;
};

describe("a rode under a pull", () => {
  it("is a number whatever is let out, its reach within its length, its lead below upright", () => {
    fc.assert(
      fc.property(rodes, range(1, 40), range(0.01, 20000), (rode, height, pull) => {
        const one = led(rode, height, pull);
        const length = rode.chainMetres + rode.ropeMetres;
        expect(one === null).toBe(!(length > height));
        if (one === null) return;
        expect(Object.values(one).slice(1).every(Number.isFinite)).toBe(true);
        expect(one.leadDeg).toBeGreaterThanOrEqual(0);
        expect(one.leadDeg).toBeLessThanOrEqual(90);
        expect(one.lyingMetres).toBeGreaterThanOrEqual(0);
        expect(one.reachMetres).toBeLessThanOrEqual(length + 1e-9);
        expect(one.bowNewtons).toBeGreaterThanOrEqual(pull - 1e-6);
        // No straight line is longer than the rode it is drawn for.
        if (one.lyingMetres === 0) expect(Math.hypot(one.reachMetres, height)).toBeLessThanOrEqual(length + 1e-6);
      }),
    );
  });

  it("leads no steeper with more of it, nor in less wind, nor from lower", () => {
    fc.assert(
      fc.property(rodes, range(1, 30), range(10, 15000), range(1.01, 2), (rode, height, pull, more) => {
        const lead = (one: Rode, up: number, newtons: number) => led(one, up, newtons)?.leadDeg ?? 90;
        const here = lead(rode, height, pull);
        expect(lead({ ...rode, ropeMetres: rode.ropeMetres + more }, height, pull)).toBeLessThanOrEqual(here + 1e-6);
        expect(lead({ ...rode, chainMetres: rode.chainMetres + more }, height, pull)).toBeLessThanOrEqual(here + 1e-6);
        expect(lead(rode, height / more, pull)).toBeLessThanOrEqual(here + 1e-6);
        expect(lead(rode, height, pull / more)).toBeLessThanOrEqual(here + 1e-6);
      }),
    );
  });

  it("leads just level with the rode that is said to keep it level, and not with a metre less", () => {
    fc.assert(
      fc.property(range(5, 200), range(4, 40), range(1, 30), range(50, 10000), (chain, weight, height, pull) => {
        const level = rodeForLevelPull(chain, weight, height, pull);
        if (level === null) throw new Error("chain and no answer");
        const { chainMetres, ropeMetres } = level;
        const just = led({ chainMetres, chainNewtonsPerMetre: weight, ropeMetres: ropeMetres + 1e-6 }, height, pull);
        expect(just?.leadDeg ?? 90).toBeLessThan(0.01);
        const less = ropeMetres > 1 ? { chainMetres, ropeMetres: ropeMetres - 1 } : { chainMetres: chainMetres - 1, ropeMetres: 0 };
        if (ropeMetres === 0 || ropeMetres > 1)
          expect(led({ ...less, chainNewtonsPerMetre: weight }, height, pull)?.leadDeg ?? 90).toBeGreaterThan(0);
      }),
    );
  });

  it("of rope alone runs straight, and never level", () => {
    const one = led({ chainMetres: 0, chainNewtonsPerMetre: 0, ropeMetres: 50 }, 10, 1000);
    expect(one?.leadDeg).toBeCloseTo((Math.asin(10 / 50) * 180) / Math.PI, 9);
    expect(one?.reachMetres).toBeCloseTo(Math.sqrt(50 * 50 - 100), 9);
    expect(rodeForLevelPull(0, 0, 10, 1000)).toBeNull();
  });

  it("hangs straight down in a flat calm", () => {
    expect(rodePull({ chainMetres: 30, chainNewtonsPerMetre: 20, ropeMetres: 0 }, 7, 0)).toEqual({
      kind: "leads",
      leadDeg: 0,
      lyingMetres: 23,
      reachMetres: 23,
      bowNewtons: 140,
    });
  });
});

describe("the swinging circle", () => {
  it("is larger the lower the water, as long as the rode reaches at all", () => {
    fc.assert(
      fc.property(range(10, 100), range(1, 40), range(0.1, 5), (rode, high, fall) => {
        const [atHigh, atLow] = [swingRadiusMetres(rode, high, 12), swingRadiusMetres(rode, high - fall, 12)];
        if (atHigh === null || high <= fall) return;
        expect(atLow ?? 0).toBeGreaterThan(atHigh);
        expect(atLow ?? 0).toBeLessThanOrEqual(rode + 12);
      }),
    );
  });
});

describe("the wind's load", () => {
  it("rises with the wind, and has no jump", () => {
    const row = loadRow({ lengthOverallMetres: 11.6, beamMetres: 3.8, hull: "sail" });
    if (row === null) throw new Error("no row");
    expect(windLoadNewtons(row, 0)).toBe(0);
    fc.assert(
      fc.property(range(0, 45), (mps) => {
        const [here, there] = [windLoadNewtons(row, mps), windLoadNewtons(row, mps + 0.01)];
        expect(there).toBeGreaterThan(here);
        expect(there - here).toBeLessThan(60);
      }),
    );
  });
});

const boat = {
  lengthOverallMetres: 11.6,
  beamMetres: null,
  hull: "power" as const,
  draughtMetres: 1.7,
  bowHeightMetres: 1.3,
  groundTackle: { chainMetres: 30, chainDiameterMetres: 0.01, ropeMetres: 40 },
};

describe("the rode for a night", () => {
  it("is by scope in light gusts, more in strong ones, and all there is where neither is to be had", () => {
    const by = (gustKn: number, depth = 4, scope: number | null = 5) =>
      rodeForNight({ rodeOutMetres: null, scope }, boat, depth - 1, depth, gustKn * 0.514444);
    expect(by(12)).toMatchObject({ from: "scope", outMetres: 26.5, scope: 5 });
    const strong = by(45);
    expect(strong?.from).toBe("gusts");
    expect(strong?.outMetres).toBeGreaterThan(26.5);
    expect(strong?.pull?.pull).toMatchObject({ kind: "leads", leadDeg: expect.closeTo(GREATEST_LEAD_DEG, 1) });
    expect(by(20, 20)).toMatchObject({ from: "allOfIt", outMetres: 70 });
    expect(by(12, 4, null)).toMatchObject({ from: "scope", scopeWanted: 5 });
    expect(by(12, 8, null)).toMatchObject({ scopeWanted: 7 });
  });

  it("is what the skipper notes, with what would serve in the gusts beside it", () => {
    const noted = rodeForNight({ rodeOutMetres: 25, scope: null }, boat, 3, 4, 20);
    expect(noted).toMatchObject({ from: "stated", outMetres: 25 });
    expect(noted?.neededMetres).toBeGreaterThan(25);
    expect(noted?.neededSwingMetres).toBeGreaterThan(noted?.swingLowMetres ?? Number.POSITIVE_INFINITY);
  });

  it("says nothing without the bow's height, nor of a pull without the ground tackle", () => {
    expect(rodeForNight({ rodeOutMetres: 25, scope: null }, { ...boat, bowHeightMetres: null }, 3, 4, 20)).toBeNull();
    expect(rodeForNight({ rodeOutMetres: null, scope: null }, { ...boat, groundTackle: null }, 3, 4, 20)).toBeNull();
    expect(rodeForNight({ rodeOutMetres: 25, scope: null }, { ...boat, groundTackle: null }, 3, 4, 20)).toMatchObject({
      pull: null,
      neededMetres: null,
    });
  });
});

describe("the small sum", () => {
  const given = {
    lengthOverallMetres: 12,
    beamMetres: null,
    hull: "sail" as const,
    depthMetres: 5,
    riseMetres: 0.9,
    fallMetres: 0,
    bowHeightMetres: 1.3,
    rodeMetres: 35,
    chainMetres: 35,
    chainDiameterMetres: 0.01,
    windMps: null,
    scopeWanted: null,
    draughtMetres: null,
  };

  it("finds the winds at which the pull ceases to be level, and to hold: on either side of them it is so", () => {
    const sum = anchorSum(given);
    const lead = (mps: number): number => {
      const pull = anchorSum({ ...given, windMps: mps }).winds.find((one) => one.windMps === mps)?.pull;
      return pull?.kind === "leads" ? pull.leadDeg : Number.NaN;
    };
    const [level, holds] = [sum.levelUpToMps ?? Number.NaN, sum.holdsUpToMps ?? Number.NaN];
    expect(lead(level)).toBe(0);
    expect(lead(level + 0.02)).toBeGreaterThan(0);
    expect(lead(holds)).toBeLessThanOrEqual(8);
    expect(lead(holds + 0.02)).toBeGreaterThan(8);
  });

  it("has no bound for rope at three to one, and no circle for a rode that does not reach", () => {
    expect(anchorSum({ ...given, rodeMetres: 21, chainMetres: 0, chainDiameterMetres: 0 })).toMatchObject({
      levelUpToMps: null,
      holdsUpToMps: null,
      scopeWanted: 7,
    });
    expect(anchorSum({ ...given, rodeMetres: 7, chainMetres: 7 })).toMatchObject({ swingHighMetres: null, levelUpToMps: null });
  });
});
