import type { BoatSpec } from "../../../src/core/boat/index.ts";
import type { GridData, GridQuantity } from "../../../src/core/fields/index.ts";
import { type Gathered, type Passage, type Prepared, prepare } from "../../../src/core/plan/index.ts";
import { epochSeconds, mpsFromKnots } from "../../../src/core/units/index.ts";
import { clock, limit } from "../window/setup.ts";

export const kn = mpsFromKnots;

/** An invented boat of 6 kn under power. */
export const tansy: BoatSpec = {
  name: "Tansy",
  lengthOverallMetres: 11.6,
  waterlineLengthMetres: 9.8,
  draughtMetres: 1.7,
  airDraughtMetres: 16.5,
  goes: "power",
  power: { speedMps: kn(6), burnLitresPerHour: 2.6, burnMeasuredAtMps: null, usableFuelLitres: 180, headwindLossShare: 0 },
  sail: null,
  engineRule: null,
  motorSail: { exponent: 2, headsailOnlyBeyondDeg: 35, hullSpeedMps: null },
  compass: { variationDeg: null, deviationCard: [] },
};

/** From 34° N 40° W some 36 miles west, in a uniform stream to north, with a wind typed in: invented. */
export function passage(changes: Partial<Passage> = {}): Passage {
  return {
    name: "A small passage",
    invented: true,
    shipZone: "UTC-3",
    arrivalZone: "UTC-3",
    boat: tansy,
    from: { name: "East Haven", position: { latitudeDeg: 34, longitudeDeg: -40 } },
    to: { name: "West Haven", position: { latitudeDeg: 34, longitudeDeg: -40.724 } },
    pilotageOut: null,
    pilotageIn: null,
    whereCurrentUnknown: { kind: "refuse" },
    waterSources: [{ kind: "uniform", setDegTrue: 0, rateMps: kn(1) }],
    gustFactor: 1.4,
    weatherSources: [
      {
        kind: "periods",
        wind: [
          {
            from: epochSeconds(clock(0)),
            until: epochSeconds(clock(48)),
            fromDegTrue: 180,
            arcDeg: 0,
            speedLowMps: kn(8),
            speedHighMps: kn(12),
            gustMps: kn(16),
          },
        ],
        sea: [],
      },
    ],
    limits: [limit("windMps", 15, 25)],
    leaveFrom: null,
    leaveUntil: null,
    ...changes,
  };
}

/** A grid over the passage's waters with the same values everywhere; six-hourly from the run's beginning. */
export function grid(
  quantities: readonly GridQuantity[],
  values: readonly number[],
  run: { issuedAt?: number | null; member?: number; source?: string } = {},
): GridData {
  const { issuedAt = clock(0), member = 0, source = "made by hand" } = run;
  const times = Float64Array.from({ length: 9 }, (_, k) => clock(0) + k * 21600);
  return {
    quantities,
    mesh: { kind: "latLon", latitudesDeg: Float64Array.of(32, 34, 36), longitudesDeg: Float64Array.of(-43, -41, -39) },
    times,
    values: Float32Array.from({ length: times.length * 9 * values.length }, (_, i) => values[i % values.length] as number),
    missing: new Uint8Array(times.length * 9),
    nature: "instant",
    source,
    issuedAt,
    member,
  };
}

export const windGrid = (knots: number, run: Parameters<typeof grid>[2] = {}): GridData =>
  grid(["windEastMps", "windNorthMps"], [0, kn(knots)], run);
export const gustGrid = (knots: number, run: Parameters<typeof grid>[2] = {}): GridData => grid(["gustMps"], [kn(knots)], run);
export const currentGrid = (knots: number, run: Parameters<typeof grid>[2] = {}): GridData =>
  grid(["currentEastMps", "currentNorthMps"], [0, kn(knots)], run);

/** The passage put together; throws what is wanting. */
export function prepared(changes: Partial<Passage> = {}, gathered: Gathered = { water: [null], weather: [null] }): Prepared {
  const made = prepare(passage(changes), gathered);
  if (!made.ok) throw new Error(made.issues.map((one) => `${one.path}: ${one.message}`).join("; "));
  return made.value;
}
