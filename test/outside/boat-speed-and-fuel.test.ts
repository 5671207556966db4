import { describe, expect, it } from "vitest";
import {
  apparentFromTrue,
  burnLitresPerHourAt,
  CRUISE_SHARE_OF_HULL_SPEED,
  combinedSpeedMps,
  fuelForSeconds,
  hullSpeedMps,
  leewayDegFor,
  sinHeelEstimate,
} from "../../src/core/boat/index.ts";
import { knotsFromMps, LITRES_PER_US_GALLON, metresFromFeet, mpsFromKnots } from "../../src/core/units/index.ts";

const hullKnots = (feet: number): number => knotsFromMps(hullSpeedMps(metresFromFeet(feet)));

describe("hull speed, against handbooks' 1.34 times the root of the waterline in feet", () => {
  it("36 ft: 8.04 kn (about 8, as a boat magazine prints)", () => expect(hullKnots(36)).toBeCloseTo(8.04, 2));
  it("33 ft: 7.698 kn by the handbooks' 1.34, within the rounding of that factor (the wave's own is 1.340724, worked apart)", () => {
    expect(Math.abs(hullKnots(33) / 7.698 - 1)).toBeLessThan(6e-4);
    expect(hullKnots(33) / Math.sqrt(33)).toBeCloseTo(1.340724, 5);
  });
  it("31.8 ft: not below the 7.3 kn that a magazine prints with the factor 1.3", () => {
    expect(hullKnots(31.8)).toBeGreaterThan(7.33);
    expect(hullKnots(31.8)).toBeLessThan(7.33 * 1.04);
  });
  it("cruising takes 60 to 70 % of it, and 75 % at the most (boat magazine; common practice)", () => {
    expect(CRUISE_SHARE_OF_HULL_SPEED).toBeGreaterThanOrEqual(0.6);
    expect(CRUISE_SHARE_OF_HULL_SPEED).toBeLessThanOrEqual(0.75);
  });
});

describe("burn by the cube law", () => {
  it("at 80 % of the speed about half is burnt (diesel makers' propeller curve: 0.512)", () => {
    expect(burnLitresPerHourAt(0.8 * 3, 10, 3)).toBeCloseTo(5.12, 12);
  });

  it("1.5 gallons an hour at 2800 revolutions is 0.7276 at 2200 (worked apart)", () => {
    expect(burnLitresPerHourAt(2200, 1.5, 2800)).toBeCloseTo(0.7276, 4);
  });

  it("against a current the least fuel a mile over the ground is at one and a half times the current", () => {
    for (const currentKnots of [1, 2, 3]) {
      let best = { knots: 0, litresPerMile: Number.POSITIVE_INFINITY };
      for (let knots = currentKnots + 0.01; knots < 3 * currentKnots; knots += 0.001) {
        const burn = burnLitresPerHourAt(mpsFromKnots(knots), 2.6, mpsFromKnots(5.6));
        const litresPerMile = burn / (knots - currentKnots);
        if (litresPerMile < best.litresPerMile) best = { knots, litresPerMile };
      }
      expect(best.knots).toBeCloseTo(1.5 * currentKnots, 2);
    }
  });

  it("82 h of motoring that took 50 of 75 gallons burnt 0.61 an hour (an account of motor-sailing a 39-ft boat)", () => {
    expect(fuelForSeconds(0.61 * LITRES_PER_US_GALLON, 82 * 3600) / LITRES_PER_US_GALLON).toBeCloseTo(50, 1);
  });
});

describe("motor-sailing (common practice, no source)", () => {
  it("a headsail that gives 3.5 kn by itself makes 6.5 kn of 5.5 kn under engine: about one knot more", () => {
    const knots = knotsFromMps(combinedSpeedMps(mpsFromKnots(5.5), mpsFromKnots(3.5), 2, null));
    expect(knots).toBeCloseTo(6.5, 1);
    expect(knots - 5.5).toBeGreaterThan(0.8);
    expect(knots - 5.5).toBeLessThan(1.2);
  });
});

describe("leeway, against R. Garrett, The Symmetry of Sailing (1987), as quoted on a navigators' mailing list in 2001", () => {
  const sine = (degrees: number): number => Math.sin((degrees * Math.PI) / 180);

  it("464·sin 15°/36 is 3.34° at 6 kn: the heel enters as its sine, not in degrees (which would give 193°)", () => {
    expect(leewayDegFor(464, sine(15), mpsFromKnots(6), 12)).toBeCloseTo(3.34, 2);
  });

  it("agrees for usual heels with the older rule of 8 × heel in degrees / V² (the same list, 1995 and 1999) within 5 %", () => {
    for (const heelDeg of [5, 10, 15, 20]) {
      const older = (8 * heelDeg) / 36;
      expect(Math.abs(leewayDegFor(464, sine(heelDeg), mpsFromKnots(6), 90) / older - 1)).toBeLessThan(0.05);
    }
  });

  it("close-hauled the estimated heel gives the 3 to 5° that the list calls typical, and near its 8° in 20 kn where the sea slows the boat", () => {
    const leewayIn = (windKnots: number, boatKnots: number): number => {
      const felt = apparentFromTrue({ windMps: mpsFromKnots(windKnots), angleDeg: 45 }, mpsFromKnots(boatKnots));
      return leewayDegFor(464, sinHeelEstimate(felt.windMps, Math.cos((felt.angleDeg * Math.PI) / 180)), mpsFromKnots(boatKnots), 12);
    };
    for (const wind of [13, 16, 20]) {
      expect(leewayIn(wind, 6)).toBeGreaterThan(3);
      expect(leewayIn(wind, 6)).toBeLessThan(5);
    }
    expect(leewayIn(20, 4.5)).toBeGreaterThan(6.5);
    expect(leewayIn(20, 4.5)).toBeLessThan(8);
  });
});
