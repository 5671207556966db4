import { describe, expect, it } from "vitest";
import { chanceOf, type KeptChance, shareOf } from "../../src/core/window/index.ts";
import { arrivalsInWords, chanceInWords, forecastsInWords, inTen, shareInWords } from "../../src/words/index.ts";
import { prepared } from "../core/plan/setup.ts";
import { tryOne } from "../core/window/chance/setup.ts";
import { clock, limit, SteadyBoat, trial, winds } from "../core/window/setup.ts";

const passage = prepared({ arrivalZone: "UTC-2" });
const weather = { wind: winds({ from: 0, until: 96, dir: 0, low: 10 }), sea: null };

/** Tried from 1500 over six hours, about half of it in the dark. */
function kept(hour = 15): KeptChance {
  const setup = trial({ nm: 36, boat: new SteadyBoat(6) });
  return tryOne(() => setup, clock(hour), weather, { speedShare: 0.1, samples: 200 });
}

describe("a share in words", () => {
  it("is whole tenths, and certain only where it was all or none", () => {
    expect([0, 1, 20, 49, 77, 96, 99, 100].map((count) => inTen(shareOf(count, 100)))).toEqual([0, 1, 2, 5, 8, 9, 9, 10]);
    expect(shareInWords(shareOf(78, 100))).toBe("8 in 10 (±0.4)");
    // (101/102)(1/102)/102, its root: 0.0096.
    expect(shareInWords(shareOf(100, 100))).toBe("10 in 10 (±0.1)");
    expect(shareInWords(shareOf(9, 10))).toBe("9 in 10 (±1.1)");
    expect(forecastsInWords(shareOf(9, 10))).toContain("9 of 10 forecasts");
  });
});

describe("a chance in words", () => {
  it("tells the share, the arrivals by the clock there, what shuts most often, and the light for the late one", () => {
    const limits = [limit("windMps", 5, 9), limit("sunAltitudeDeg", 5, -40, { during: "arrival" })];
    const chance = chanceOf(kept(), limits);
    const words = chanceInWords(chance, clock(15), passage);
    expect(words).toMatch(
      /^The chance that she arrives with nothing past never is 0 in 10 \(±0\.1\), arriving 18:\d\d to 19:\d\d UTC-2 eight times in ten\./,
    );
    expect(words).toContain("What shuts it most often is wind (200 of 200).");
    expect(words).toMatch(/At the late end of the arrival, Thu 19:\d\d, the sun is \d+° (below the horizon|high)/);
    expect(arrivalsInWords(chance, "UTC")).toMatch(/^20:\d\d to 21:\d\d$/);
  });

  it("says where it is not judged, and names no arrival that too few come to", () => {
    const nothing = chanceOf(kept(), [limit("seaHeightMetres", 1, 2)]);
    expect(chanceInWords(nothing, clock(15), passage)).toBe("The chance is not judged: something on the way is not known.");
    const few = { ...nothing, arrival: { earlyAt: clock(20), middleAt: clock(21), lateAt: null } };
    expect(arrivalsInWords(few, "UTC")).toBeNull();
  });
});
