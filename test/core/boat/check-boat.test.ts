import { describe, expect, it } from "vitest";
import { type BoatSpec, boatAssumptions, checkBoat, hullSpeedMps } from "../../../src/core/boat/index.ts";
import { boat, kn, points, power, sail } from "./boats.ts";

const found = (spec: BoatSpec): string[] => checkBoat(spec).map((one) => `${one.path} ${one.code}`);

describe("checking a boat", () => {
  it("passes sound boats of every kind", () => {
    expect(found(boat())).toEqual([]);
    expect(found(boat({ goes: "sail", sail, power: null }))).toEqual([]);
    expect(found(boat({ goes: "motor-sail", sail: { ...sail, leewayCoefficient: 464 } }))).toEqual([]);
    expect(found(boat({ waterlineLengthMetres: 10, power: { ...power, speedMps: null } }))).toEqual([]);
  });

  it("says what is missing for the way the boat goes", () => {
    expect(found(boat({ goes: "sail" }))).toEqual(["boat.sail boat-incomplete"]);
    expect(found(boat({ power: null }))).toEqual(["boat.power boat-incomplete"]);
    expect(found(boat({ goes: "motor-sail", power: null }))).toEqual(["boat.sail boat-incomplete", "boat.power boat-incomplete"]);
    expect(found(boat({ goes: "sail", sail, power: null, engineRule: { onBelowMps: kn(3), offAboveMps: kn(4) } }))).toEqual([
      "boat.power boat-incomplete",
    ]);
    expect(found(boat({ power: { ...power, speedMps: null } }))).toEqual(["boat.power.speed boat-speed-unknown"]);
    expect(found(boat({ power: { ...power, burnLitresPerHour: null, burnMeasuredAtMps: kn(5) } }))).toEqual([
      "boat.power.burn boat-incomplete",
    ]);
  });

  it("finds every figure that can't be, at once", () => {
    const spec = boat({
      lengthOverallMetres: 0,
      draughtMetres: -1.7,
      airDraughtMetres: Number.NaN,
      power: { speedMps: -1, burnLitresPerHour: -2, burnMeasuredAtMps: 0, usableFuelLitres: -3, headwindLossShare: 1.2 },
      motorSail: { exponent: 5, headsailOnlyBeyondDeg: -4, hullSpeedMps: 0 },
    });
    expect(checkBoat(spec).map((one) => one.path)).toEqual([
      "boat.lengthOverall",
      "boat.draught",
      "boat.airDraught",
      "boat.power.speed",
      "boat.power.burn",
      "boat.power.burnMeasuredAt",
      "boat.power.usableFuel",
      "boat.power.headwindLoss",
      "boat.motorSail.exponent",
      "boat.motorSail.headsailOnlyBeyond",
      "boat.motorSail.hullSpeed",
    ]);
    expect(checkBoat(spec).every((one) => one.code === "boat-out-of-range")).toBe(true);
    expect(checkBoat(boat({ draughtMetres: -1.7 }))[0].message).toContain("-1.7 m");
  });

  it("finds contradictions", () => {
    expect(found(boat({ waterlineLengthMetres: 12 }))).toEqual(["boat.waterlineLength boat-contradiction"]);
    expect(found(boat({ goes: "sail", sail, engineRule: { onBelowMps: kn(4), offAboveMps: kn(3.5) } }))).toEqual([
      "boat.engineRule.offAbove boat-contradiction",
    ]);
  });

  it("finds holes in the sail table and a leeway coefficient for the other form of the rule", () => {
    expect(found(boat({ goes: "sail", sail: { ...sail, points: points.slice(1) } }))).toEqual(["boat.sail.rows sail-table-hole"]);
    expect(found(boat({ goes: "sail", sail: { ...sail, leewayCoefficient: 8 } }))).toEqual([
      "boat.sail.leeway.coefficient leeway-coefficient-doubtful",
    ]);
    expect(found(boat({ goes: "sail", sail: { ...sail, leewayCoefficient: 464, leewayCapDeg: 0 } }))).toEqual([
      "boat.sail.leeway.cap boat-out-of-range",
    ]);
  });
});

describe("what a boat's figures rest on", () => {
  it("tells that a speed is estimated, and with what", () => {
    const [first, second, third] = boatAssumptions(
      boat({ waterlineLengthMetres: 10, power: { ...power, speedMps: null, burnMeasuredAtMps: kn(6), headwindLossShare: 0.04 } }),
    );
    const speedMps = 0.7 * hullSpeedMps(10);
    expect(first).toEqual({
      kind: "speedEstimatedFromWaterline",
      waterlineLengthMetres: 10,
      hullSpeedMps: hullSpeedMps(10),
      cruiseShare: 0.7,
      speedMps,
    });
    expect(second).toMatchObject({ kind: "burnScaledByCubeLaw", burnLitresPerHour: expect.closeTo(2.6 * (speedMps / kn(6)) ** 3, 9) });
    expect(third).toEqual({ kind: "headwindLossWithSquareOfWindAhead", lossShare: 0.04, atWindMps: kn(20) });
  });

  it("tells what is not reckoned", () => {
    expect(boatAssumptions(boat({ power: { ...power, burnLitresPerHour: null } })).map((one) => one.kind)).toEqual([
      "burnNotGiven",
      "headwindLossNotReckoned",
    ]);
    // With an engine that is said beside the loss into the wind.
    expect(boatAssumptions(boat({ goes: "sail", sail })).map((one) => one.kind)).toEqual([
      "headSeaLossNotReckoned",
      "sailTableEdges",
      "leewayNotReckoned",
      "engineNeverUsed",
    ]);
  });

  it("tells the loss in head seas that is stated, and what she rides over", () => {
    expect(boatAssumptions(boat({ headSeaLossShare: 0.2, waterlineLengthMetres: 10 }))).toContainEqual({
      kind: "headSeaLoss",
      lossShare: 0.2,
      ridesOverMetres: 20,
      waterlineKnown: true,
    });
    expect(checkBoat(boat({ headSeaLossShare: 0.95 })).map(({ path }) => path)).toEqual(["boat.headSeaLoss"]);
  });

  it("tells the table's edges, the engine rule, the leeway and the motor-sailing rule", () => {
    const spec = boat({
      goes: "sail",
      waterlineLengthMetres: 10,
      sail: { ...sail, leewayCoefficient: 464 },
      engineRule: { onBelowMps: kn(3.5), offAboveMps: kn(4.5) },
    });
    expect(boatAssumptions(spec)).toEqual([
      { kind: "headwindLossNotReckoned" },
      { kind: "sailTableEdges", closestDeg: 45, widestDeg: 150, lowestWindMps: kn(6), highestWindMps: kn(20) },
      { kind: "leewayFromEstimatedHeel", coefficient: 464, capDeg: 12, heelDeg: 20, heelReachedAtApparentMps: kn(20) },
      { kind: "engineByRule", onBelowMps: kn(3.5), offAboveMps: kn(4.5) },
      { kind: "motorSailing", exponent: 2, headsailOnlyBeyondDeg: 35, hullSpeedMps: hullSpeedMps(10), hullSpeedFrom: "waterline" },
    ]);
  });
});
