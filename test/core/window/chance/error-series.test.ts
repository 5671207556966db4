import { describe, expect, it } from "vitest";
import { CURRENT_ERROR_LASTS, WIND_ERROR_FADES_SECONDS } from "../../../../src/core/window/chance/chance-errors.ts";
import { type ErrorSeries, FadingError, RunningMeanError } from "../../../../src/core/window/chance/error-series.ts";
import { SeededRandom } from "../../../../src/core/window/chance/seeded-random.ts";
import { HOUR } from "../setup.ts";

const SERIES = 20_000;

/** The correlation of many drawn series between the hours 3 and 3 + lag, its spread at hour 3, and the standard error of the correlation. */
function correlationOf(make: (random: SeededRandom) => ErrorSeries, lagHours: number) {
  let [square, other, product] = [0, 0, 0];
  for (let k = 0; k < SERIES; k++) {
    const series = make(SeededRandom.from(5, k, lagHours));
    const [a, b] = [series.at(3 * HOUR), series.at((3 + lagHours) * HOUR)];
    square += a * a;
    other += b * b;
    product += a * b;
  }
  const correlation = product / Math.sqrt(square * other);
  return { correlation, variance: square / SERIES, standardError: (1 - correlation ** 2) / Math.sqrt(SERIES) + 1e-12 };
}

describe("the current's error", () => {
  const make = (random: SeededRandom): ErrorSeries => new RunningMeanError(random, 0, CURRENT_ERROR_LASTS);

  // The largest of the five sets of drifters against modelled currents: 248 drifters, 45,698 hours.
  it.each([
    [1, 0.95],
    [3, 0.76],
    [6, 0.5],
    [12, 0.26],
    [24, 0],
  ])("correlates after %i h as drifters had it: %f, within 0.04", (lag, measured) => {
    const { correlation, variance, standardError } = correlationOf(make, lag);
    expect(Math.abs(correlation - measured)).toBeLessThan(0.04 + 3 * standardError);
    expect(Math.abs(variance - 1)).toBeLessThan(3 * Math.sqrt(2 / SERIES));
  });

  it.each([1, 3, 6, 9, 12, 18, 24, 30])("has the correlation of its triangles after %i h", (lag) => {
    const closedForm = CURRENT_ERROR_LASTS.reduce((sum, { hours, share }) => sum + share * Math.max(0, 1 - lag / hours), 0);
    const { correlation, standardError } = correlationOf(make, lag);
    expect(Math.abs(correlation - closedForm)).toBeLessThan(3 * standardError);
  });
});

describe("the wind's error", () => {
  it.each([1, 6, 24, 48])("fades by one part in e a day: after %i h", (lag) => {
    const { correlation, variance, standardError } = correlationOf((random) => new FadingError(random, 0, WIND_ERROR_FADES_SECONDS), lag);
    expect(Math.abs(correlation - Math.exp(-lag / 24))).toBeLessThan(3 * standardError);
    expect(Math.abs(variance - 1)).toBeLessThan(3 * Math.sqrt(2 / SERIES));
  });
});

describe("any error", () => {
  it("is the same whatever hours are asked for first, in straight lines between them", () => {
    const forward = new RunningMeanError(SeededRandom.from(9), 100, CURRENT_ERROR_LASTS);
    const backward = new RunningMeanError(SeededRandom.from(9), 100, CURRENT_ERROR_LASTS);
    const late = backward.at(100 + 30 * HOUR);
    const early = backward.at(100 + 2 * HOUR);
    expect(forward.at(100 + 2 * HOUR)).toBe(early);
    expect(forward.at(100 + 30 * HOUR)).toBe(late);
    const [before, after] = [forward.at(100 + 2 * HOUR), forward.at(100 + 3 * HOUR)];
    expect(forward.at(100 + 2.25 * HOUR)).toBeCloseTo(before + 0.25 * (after - before), 12);
    expect(forward.at(0)).toBe(forward.at(100));
  });
});
