import { describe, expect, it } from "vitest";
import { boatModel } from "../../../src/core/boat/index.ts";
import { bowOnDestination, crossingOf, holdTrack, lineBetween, NO_WAY_SECONDS, oneHeading } from "../../../src/core/passage/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { uniformCurrent } from "../../../src/core/water/index.ts";
import { periodWind } from "../../../src/core/weather/index.ts";
import { boat, kn, sail } from "../boat/boats.ts";
import { arriving, FLAT, HOUR, NM, whyOf } from "./waters.ts";

/** Thirty miles east under sail, still water, 12 kn of wind from `fromDegTrue` until `shiftAt`, then from the north. */
function under(fromDegTrue: number, shiftAt: number) {
  const model = boatModel(boat({ goes: "sail", sail }));
  if (!model.ok) throw new Error(JSON.stringify(model.issues));
  const wind = { arcDeg: 0, speedLowMps: kn(12), speedHighMps: kn(12), gustMps: null };
  const source = periodWind(
    "letter",
    null,
    [
      { ...wind, from: epochSeconds(0), until: epochSeconds(shiftAt), fromDegTrue },
      { ...wind, from: epochSeconds(shiftAt), until: epochSeconds(72 * HOUR), fromDegTrue: 0 },
    ],
    1.4,
  );
  const around = {
    plane: FLAT,
    current: uniformCurrent(0, 0).onPlane(FLAT),
    currentCovers: null,
    wind: source.onPlane(FLAT, 0),
    windCovers: source.covers,
  };
  return crossingOf(lineBetween(FLAT, 0, 0, 30 * NM, 0), around, model.value);
}

describe("a boat that can't sail where her order points", () => {
  it("has no passage against the wind, told at once and not after a tide of waiting", () => {
    for (const way of [oneHeading(under(90, 48 * HOUR), 0), bowOnDestination(under(90, 48 * HOUR), 0)]) {
      expect(whyOf(way)).toMatchObject({ code: "no-way", at: 0 });
    }
    expect(whyOf(holdTrack(under(90, 48 * HOUR), 0)).code).toBe("cannot-hold");
  });

  it("gets no order that leaves her in irons until the wind shifts", () => {
    expect(whyOf(oneHeading(under(90, 2 * HOUR), 0)).code).toBe("no-way");
    // A lull in her way shorter than a quarter of an hour is sailed through.
    expect(arriving(oneHeading(under(90, NO_WAY_SECONDS - 60), 0)).arrivalAt).toBeLessThan(8 * HOUR);
    expect(arriving(oneHeading(under(0, 2 * HOUR), 0)).arrivalAt).toBeLessThan(8 * HOUR);
  });
});
