import { describe, expect, it } from "vitest";
import { variationAt } from "../../../src/core/earth/index.ts";
import { forTheHelm, steeringCompass } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { clock } from "../window/setup.ts";
import { prepared, tansy } from "./setup.ts";

const boatWith = (compass: Partial<typeof tansy.compass>) => prepared({ boat: { ...tansy, compass: { ...tansy.compass, ...compass } } });

describe("the compass of a passage", () => {
  it("takes the variation of the model at the middle of the line", () => {
    const one = prepared();
    const compass = steeringCompass(one, clock(6));
    const model = variationAt(epochSeconds(clock(6)), { latitudeDeg: 34, longitudeDeg: -40.362 });
    if (!model.ok) throw new Error(model.code);
    expect(compass).toMatchObject({ kind: "compass", from: "model", hasDeviationCard: false });
    expect(compass.kind === "compass" && compass.variationDeg).toBeCloseTo(model.variationDeg, 2);
  });

  it("takes a variation typed in the passage file before the model's, in any year", () => {
    expect(steeringCompass(boatWith({ variationDeg: -12 }), Date.UTC(2045, 0, 1) / 1000)).toEqual({
      kind: "compass",
      variationDeg: -12,
      from: "typed",
      hasDeviationCard: false,
      caution: false,
    });
  });

  it("is true beyond the model's years, and says why", () => {
    const one = prepared();
    const compass = steeringCompass(one, Date.UTC(2045, 0, 1) / 1000);
    expect(compass).toEqual({ kind: "true", why: "variation-model-years" });
    expect(forTheHelm(one, compass, 270)).toBeNull();
  });

  it("turns a true heading to the helm's: 270° true with 12° W of variation and 2° E of deviation is 280° compass", () => {
    // Variation west is added, deviation east is taken off (any handbook of navigation).
    const one = boatWith({
      variationDeg: -12,
      deviationCard: [
        { headingDegMag: 0, deviationDeg: 2 },
        { headingDegMag: 180, deviationDeg: 2 },
      ],
    });
    const heading = forTheHelm(one, steeringCompass(one, clock(6)), 270);
    expect(heading?.headingDegMag ?? Number.NaN).toBeCloseTo(282, 9);
    expect(heading?.headingDegCompass ?? Number.NaN).toBeCloseTo(280, 6);
  });
});
