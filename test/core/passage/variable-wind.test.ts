import { describe, expect, it } from "vitest";
import { type BoatSpec, boatModel } from "../../../src/core/boat/index.ts";
import { bowOnDestination, type Crossing, crossingOf, holdTrack, lineBetween, oneHeading } from "../../../src/core/passage/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { uniformCurrent } from "../../../src/core/water/index.ts";
import { periodWind } from "../../../src/core/weather/index.ts";
import { boat, kn, power, sail } from "../boat/boats.ts";
import { arriving, FLAT, HOUR, NM, whyOf } from "./waters.ts";

/** Thirty miles east in a wind of 8 to 12 kn from an arc that begins in the north; the current in knots toward a set. */
function over(spec: BoatSpec, arcDeg: number, setDeg = 0, rateKn = 0): Crossing {
  const model = boatModel(spec);
  if (!model.ok) throw new Error(JSON.stringify(model.issues));
  const period = { from: epochSeconds(0), until: epochSeconds(72 * HOUR), fromDegTrue: 0, arcDeg, gustMps: null };
  const wind = periodWind("letter", null, [{ ...period, speedLowMps: kn(8), speedHighMps: kn(12) }], 1.4);
  const current = uniformCurrent(setDeg, kn(rateKn));
  const around = { plane: FLAT, current: current.onPlane(FLAT), currentCovers: null, wind: wind.onPlane(FLAT, 0), windCovers: wind.covers };
  return crossingOf(lineBetween(FLAT, 0, 0, 30 * NM, 0), around, model.value);
}

const ways = (one: Crossing) => [oneHeading(one, 0), holdTrack(one, 0), bowOnDestination(one, 0)];
const byRule = { onBelowMps: kn(3), offAboveMps: kn(4) };

describe("a wind that is variable", () => {
  it("gives the sails no drive: under sail alone there is no passage", () => {
    for (const way of ways(over(boat({ goes: "sail", sail }), 360))) expect(["no-way", "cannot-hold"]).toContain(whyOf(way).code);
    for (const way of ways(over(boat({ goes: "sail", sail }), 180))) expect(["no-way", "cannot-hold"]).toContain(whyOf(way).code);
    // An arc of less than half the circle has a middle: 89.5°, dead ahead too; of 20°, from 10°: a reach.
    expect(arriving(oneHeading(over(boat({ goes: "sail", sail }), 20), 0)).arrivalAt).toBeLessThan(6 * HOUR);
  });

  it("leaves it to the engine rule, and the engine goes on: as in a calm", () => {
    for (const spec of [boat({ goes: "sail", sail, engineRule: byRule }), boat({ goes: "motor-sail", sail })]) {
      for (const way of ways(over(spec, 360))) {
        expect(arriving(way).arrivalAt / HOUR).toBeCloseTo(30 / 5.5, 4);
        expect(arriving(way).engineSeconds).toBeCloseTo(arriving(way).arrivalAt, 3);
      }
    }
  });

  it("gives the sails none in a stream either, though the stream makes a wind of its own over the water", () => {
    const one = over(boat({ goes: "motor-sail", sail }), 360, 180, 4);
    for (const speed of arriving(oneHeading(one, 0)).track.throughWaterMps) expect(speed).toBeCloseTo(kn(5.5), 9);
  });

  it("costs an engine what as much wind dead ahead costs, on every heading, with what the current adds to it", () => {
    const lossy = boat({ power: { ...power, headwindLossShare: 0.4 } });
    // 10 kn ahead: 0.4 × (10/20)² = a tenth.
    for (const way of ways(over(lossy, 360))) expect(arriving(way).arrivalAt / HOUR).toBeCloseTo(30 / (5.5 * 0.9), 4);
    for (const [setDeg, aheadKn] of [
      [90, 12],
      [270, 8],
    ] as const) {
      const share = 1 - 0.4 * (aheadKn / 20) ** 2;
      for (const way of ways(over(lossy, 360, setDeg, 2)))
        for (const speed of arriving(way).track.throughWaterMps) expect(speed).toBeCloseTo(kn(5.5 * share), 6);
    }
  });
});
