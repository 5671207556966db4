import { describe, expect, it } from "vitest";
import {
  type BoatModel,
  type BoatSpec,
  boatModel,
  combinedSpeedMps,
  driftingModel,
  engineStopped,
  hullSpeedMps,
  type Propulsion,
  slowed,
} from "../../../src/core/boat/index.ts";
import { boat, kn, power, propulsion, sail } from "./boats.ts";

function build(spec: BoatSpec): BoatModel {
  const model = boatModel(spec);
  if (!model.ok) throw new Error(JSON.stringify(model.issues));
  return model.value;
}

describe("a boat under power", () => {
  it("goes at its speed with its burn in any wind when no loss is stated", () => {
    const model = build(boat());
    expect(model.dependsOnWind).toBe(false);
    for (const wind of [0, 10, 40])
      expect(propulsion(model, 90, wind, 90)).toEqual({ knots: 5.5, leewayDeg: 0, engineOn: true, litresPerHour: 2.6 });
  });

  it("loses the stated share into 20 kn dead ahead, with the square of the wind ahead, nothing from the beam aft, and never goes astern", () => {
    const model = build(boat({ power: { ...power, headwindLossShare: 0.04 } }));
    expect(model.dependsOnWind).toBe(true);
    expect(propulsion(model, 90, 20, 90).knots).toBeCloseTo(5.5 * 0.96, 9);
    expect(propulsion(model, 90, 10, 90).knots).toBeCloseTo(5.5 * 0.99, 9);
    expect(propulsion(model, 0, 20, 300).knots).toBeCloseTo(5.5 * 0.99, 9);
    expect(propulsion(model, 0, 20, 90).knots).toBeCloseTo(5.5, 9);
    expect(propulsion(model, 0, 20, 180).knots).toBe(5.5);
    expect(propulsion(model, 0, 150, 0).knots).toBe(0);
  });

  it("does not read the direction of a calm, and throws on a wind that is none", () => {
    const model = build(boat({ power: { ...power, headwindLossShare: 0.04 } }));
    expect(propulsion(model, 90, 0, Number.NaN).knots).toBe(5.5);
    expect(() => propulsion(model, 90, 10, Number.NaN)).toThrow("NaN");
    expect(() => propulsion(build(boat({ goes: "sail", sail })), 90, 10, Number.NaN)).toThrow("NaN");
  });

  it("estimates its speed from the waterline and scales the burn to it", () => {
    const model = build(boat({ waterlineLengthMetres: 10, power: { ...power, speedMps: null, burnMeasuredAtMps: kn(6) } }));
    const knots = (0.7 * hullSpeedMps(10)) / kn(1);
    expect(propulsion(model, 0, 0, 0).knots).toBeCloseTo(knots, 9);
    expect(propulsion(model, 0, 0, 0).litresPerHour).toBeCloseTo(2.6 * (knots / 6) ** 3, 9);
  });
});

describe("a boat under sail", () => {
  const spec = boat({ goes: "sail", sail });

  it("goes by its table, alike on both tacks, and not at all in a calm or too close to the wind", () => {
    const model = build(spec);
    expect(propulsion(model, 0, 10, 90)).toEqual({ knots: expect.closeTo(6.5, 9), leewayDeg: 0, engineOn: false, litresPerHour: 0 });
    expect(propulsion(model, 0, 10, 270).knots).toBeCloseTo(6.5, 9);
    expect(propulsion(model, 350, 10, 50).knots).toBeCloseTo(6.1, 9);
    expect(propulsion(model, 0, 10, 20).knots).toBe(0);
    expect(propulsion(model, 0, 0, Number.NaN).knots).toBe(0);
  });

  it("starts and stops its engine with hysteresis", () => {
    const model = build({ ...spec, engineRule: { onBelowMps: kn(3.5), offAboveMps: kn(4.5) } });
    // At 150°: 3.2 kn in 6 kn of wind, 3.625 in 7, 4.475 in 9, 4.9 in 10.
    expect(propulsion(model, 0, 6, 150, false).engineOn).toBe(true);
    expect(propulsion(model, 0, 7, 150, false).engineOn).toBe(false);
    expect(propulsion(model, 0, 7, 150, true).engineOn).toBe(true);
    expect(propulsion(model, 0, 9, 150, true).engineOn).toBe(true);
    expect(propulsion(model, 0, 10, 150, true)).toMatchObject({ engineOn: false, litresPerHour: 0 });
    expect(propulsion(model, 0, 6, 150)).toMatchObject({ knots: expect.closeTo(Math.hypot(5.5, 3.2), 9), litresPerHour: 2.6 });
    expect(propulsion(model, 0, 10, 10)).toMatchObject({ knots: 5.5, engineOn: true });
  });

  it("makes leeway away from the wind, more close-hauled than off it, and no more than the cap", () => {
    const model = build({ ...spec, sail: { ...sail, leewayCoefficient: 464 } });
    const starboardTack = propulsion(model, 0, 16, 50).leewayDeg;
    expect(starboardTack).toBeLessThan(0);
    expect(propulsion(model, 0, 16, 310).leewayDeg).toBeCloseTo(-starboardTack, 12);
    expect(Math.abs(propulsion(model, 0, 16, 90).leewayDeg)).toBeLessThan(Math.abs(starboardTack));
    expect(Math.abs(propulsion(model, 0, 16, 180).leewayDeg)).toBeLessThan(0.2);
    const capped = build({ ...spec, sail: { ...sail, leewayCoefficient: 464, leewayCapDeg: 1.5 } });
    expect(propulsion(capped, 0, 16, 50).leewayDeg).toBe(-1.5);
    expect(propulsion(model, 0, 16, 10)).toMatchObject({ knots: 0, leewayDeg: 0 });
  });
});

describe("motor-sailing", () => {
  const spec = boat({ goes: "motor-sail", sail });

  it("adds thrusts, and the sail only beyond the headsail's apparent angle", () => {
    const model = build(spec);
    expect(propulsion(model, 0, 10, 90).knots).toBeCloseTo(Math.hypot(5.5, 6.5), 9);
    // Motoring at 5.5 kn in 10 kn from 60°: apparent angle atan2(8.66, 10.5) = 39.5°; from 52°: 33.9°.
    expect(propulsion(model, 0, 10, 60).knots).toBeCloseTo(Math.hypot(5.5, 6.1), 9);
    expect(propulsion(model, 0, 10, 52).knots).toBe(5.5);
    expect(propulsion(model, 0, 0, Number.NaN)).toMatchObject({ knots: 5.5, engineOn: true, litresPerHour: 2.6 });
  });

  it("is capped at the hull speed, stated or from the waterline, but never below what sail or engine gives alone", () => {
    const capped = build({ ...spec, motorSail: { ...spec.motorSail, hullSpeedMps: kn(7.6) } });
    expect(propulsion(capped, 0, 16, 90).knots).toBeCloseTo(7.6, 9);
    const fromWaterline = build({ ...spec, waterlineLengthMetres: 9.75 });
    expect(propulsion(fromWaterline, 0, 16, 90).knots).toBeCloseTo(hullSpeedMps(9.75) / kn(1), 9);
    expect(propulsion(capped, 0, 20, 120).knots).toBeCloseTo(7.8, 9);
  });

  it("gains less with a higher exponent", () => {
    expect(combinedSpeedMps(3, 2, 3, null)).toBeCloseTo(35 ** (1 / 3), 12);
    expect(combinedSpeedMps(3, 2, 3, null)).toBeLessThan(combinedSpeedMps(3, 2, 2, null));
    expect(combinedSpeedMps(3, 2, 2 + 1e-9, null)).toBeCloseTo(combinedSpeedMps(3, 2, 2, null), 6);
    expect(combinedSpeedMps(3, 0, 2.5, null)).toBeCloseTo(3, 12);
  });
});

describe("the same boat, changed", () => {
  it("drifts without way or burn", () => {
    expect(propulsion(driftingModel(), 45, 15, 0, true)).toEqual({ knots: 0, leewayDeg: 0, engineOn: false, litresPerHour: 0 });
    expect(driftingModel().dependsOnWind).toBe(false);
  });

  it("is slower by a factor, and burns by its cube", () => {
    const model = slowed(build(boat()), 0.9);
    expect(propulsion(model, 0, 0, 0)).toMatchObject({ knots: expect.closeTo(4.95, 9), litresPerHour: expect.closeTo(2.6 * 0.729, 9) });
    expect(model.dependsOnWind).toBe(false);
    expect(() => slowed(model, 0)).toThrow("0");
    expect(() => slowed(model, Number.NaN)).toThrow("NaN");
  });

  it("with its engine stopped it sails if it has sails set, else drifts", () => {
    const underSail = engineStopped(boat({ goes: "motor-sail", sail }));
    const underPower = engineStopped(boat());
    if (!underSail.ok || !underPower.ok || underSail.value === null || underPower.value === null) throw new Error("not built");
    expect(propulsion(underSail.value, 0, 10, 90, true)).toMatchObject({
      knots: expect.closeTo(6.5, 9),
      engineOn: false,
      litresPerHour: 0,
    });
    expect(propulsion(underPower.value, 0, 10, 90, true)).toMatchObject({ knots: 0, engineOn: false });
  });

  it("has no engine to be stopped where she goes by sail and never uses one; one with an engine rule has", () => {
    expect(engineStopped(boat({ goes: "sail", sail }))).toEqual({ ok: true, value: null });
    const byRule = engineStopped(boat({ goes: "sail", sail, engineRule: { onBelowMps: kn(3.5), offAboveMps: kn(4.5) } }));
    if (!byRule.ok || byRule.value === null) throw new Error("not built");
    expect(propulsion(byRule.value, 0, 6, 150, true)).toMatchObject({ knots: expect.closeTo(3.2, 9), engineOn: false });
  });

  it("returns the issues of a boat that can't be built", () => {
    expect(boatModel(boat({ goes: "sail" })).ok).toBe(false);
    expect(engineStopped(boat({ draughtMetres: -1 })).ok).toBe(false);
  });
});

it("propels a million times in under two seconds", () => {
  const model = build(
    boat({ goes: "sail", sail: { ...sail, leewayCoefficient: 464 }, engineRule: { onBelowMps: kn(3.5), offAboveMps: kn(4.5) } }),
  );
  const out: Propulsion = { speedThroughWaterMps: 0, leewayDeg: 0, engineOn: false, burnLitresPerHour: 0 };
  const started = performance.now();
  let sum = 0;
  for (let i = 0; i < 1_000_000; i++) {
    model.propelInto(out, i % 360, (i % 97) / 6, (i * 7) % 360, out.engineOn);
    sum += out.speedThroughWaterMps;
  }
  expect(sum).toBeGreaterThan(0);
  expect(performance.now() - started).toBeLessThan(2000);
});
