import type { BoatModel, BoatSpec, PowerSpec, Propulsion, SailPoint, SailSpec } from "../../../src/core/boat/index.ts";
import { mpsFromKnots } from "../../../src/core/units/index.ts";

export const kn = mpsFromKnots;

/** An invented boat's speeds: rows of true wind angle with the speed in 6, 10, 16 and 20 kn of wind, in knots. */
const ROWS: readonly (readonly number[])[] = [
  [45, 3.8, 5.4, 6.2, 6.3],
  [60, 4.5, 6.1, 6.9, 7.0],
  [90, 4.9, 6.5, 7.3, 7.6],
  [120, 4.5, 6.3, 7.3, 7.8],
  [150, 3.2, 4.9, 6.6, 7.2],
];
const WINDS = [6, 10, 16, 20];

export const points: readonly SailPoint[] = ROWS.flatMap(([angle, ...speeds]) =>
  speeds.map((speed, j) => ({ trueWindAngleDeg: angle, trueWindMps: kn(WINDS[j]), speedMps: kn(speed) })),
);

export const sail: SailSpec = { points, leewayCoefficient: null, leewayCapDeg: 12 };

export const power: PowerSpec = {
  speedMps: kn(5.5),
  burnLitresPerHour: 2.6,
  burnMeasuredAtMps: null,
  usableFuelLitres: 180,
  headwindLossShare: 0,
};

/** An invented boat that goes under power unless told otherwise. */
export function boat(changes: Partial<BoatSpec> = {}): BoatSpec {
  return {
    name: "Tansy",
    lengthOverallMetres: 11.6,
    waterlineLengthMetres: null,
    draughtMetres: 1.7,
    airDraughtMetres: 16.5,
    goes: "power",
    power,
    sail: null,
    engineRule: null,
    motorSail: { exponent: 2, headsailOnlyBeyondDeg: 35, hullSpeedMps: null },
    compass: { variationDeg: null, deviationCard: [] },
    ...changes,
  };
}

/** What a model does in knots and degrees; the wind in knots over the water. */
export function propulsion(model: BoatModel, headingDeg: number, windKnots: number, windFromDeg: number, engineWasOn = false) {
  const out: Propulsion = { speedThroughWaterMps: Number.NaN, leewayDeg: Number.NaN, engineOn: false, burnLitresPerHour: Number.NaN };
  model.propelInto(out, headingDeg, kn(windKnots), windFromDeg, engineWasOn);
  return {
    knots: out.speedThroughWaterMps / kn(1),
    leewayDeg: out.leewayDeg,
    engineOn: out.engineOn,
    litresPerHour: out.burnLitresPerHour,
  };
}
