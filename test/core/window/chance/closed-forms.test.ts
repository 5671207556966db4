import { describe, expect, it } from "vitest";
import { sunAltitudeDeg } from "../../../../src/core/earth/index.ts";
import { type Gate, GateChain, GateStop } from "../../../../src/core/places/index.ts";
import { epochSeconds, metresFromNm } from "../../../../src/core/units/index.ts";
import { uniformCurrent } from "../../../../src/core/water/index.ts";
import { CURRENT_ERROR_LASTS } from "../../../../src/core/window/chance/chance-errors.ts";
import type { Chance, ChanceErrors, WeatherToFeel } from "../../../../src/core/window/index.ts";
import { clock, HOUR, kn, limit, plane, SteadyBoat, trial, winds } from "../setup.ts";
import { below, chanceWith, normalAt, rootOf } from "./setup.ts";

const SAMPLES = 4000;
const NM = 36;
const KNOTS = 6;
const calm: WeatherToFeel = { wind: winds({ from: 0, until: 96, dir: 0, low: 10 }), sea: null };
const destination = plane.toPosition(0, 0);

/** The last moment of Thursday evening at which the sun stands no lower than this at the destination. */
const duskAt = (altitudeDeg: number): number =>
  rootOf((at) => sunAltitudeDeg(epochSeconds(at), destination) - altitudeDeg, clock(20), clock(24));

/** A departure such that the arrival planned lies so many seconds before the sun is 6° down. */
const DARK_AT = duskAt(-6);
const darkness = limit("sunAltitudeDeg", 5, -6, { during: "arrival" });

/** Tries a passage that is planned to take `plannedSeconds` and to arrive `earlySeconds` before dark. */
function tried(errors: Partial<ChanceErrors>, plannedSeconds: number, earlySeconds: number, current = uniformCurrent(0, 0)): Chance {
  const setup = trial({ nm: NM, boat: new SteadyBoat(KNOTS), current });
  return chanceWith(() => setup, DARK_AT - earlySeconds - plannedSeconds, calm, { samples: SAMPLES, ...errors }, [darkness]);
}

function expectShare(chance: Chance, share: number): void {
  const error = Math.sqrt((share * (1 - share)) / SAMPLES);
  expect(Math.abs(chance.good.share - share)).toBeLessThan(3 * error);
  // Its own standard error is that of the true share, as far as the share it counted is the true one.
  expect(Math.abs(chance.good.standardError - error)).toBeLessThan(0.1 * error + 1 / SAMPLES);
}

/** The arrivals told, against `arrivalAt(share)`, each within three standard errors of a quantile: √(p(1 − p)/n) over the density there. */
function expectArrivals(chance: Chance, arrivalAt: (share: number) => number): void {
  const { earlyAt, middleAt, lateAt } = chance.arrival;
  for (const [share, at] of [
    [0.1, earlyAt],
    [0.5, middleAt],
    [0.9, lateAt],
  ] as const) {
    const step = 0.005;
    const secondsAShare = (arrivalAt(share + step) - arrivalAt(share - step)) / (2 * step);
    const error = Math.sqrt((share * (1 - share)) / SAMPLES) * secondsAShare;
    expect(Math.abs((at ?? 0) - arrivalAt(share))).toBeLessThan(3 * error + 1);
  }
}

describe("the chance of an arrival before dark, by closed forms", () => {
  // 36 nm at 6 kn through still water take 6 h; at exp(0.1 z) of that speed 6 h exp(−0.1 z): log-normal.
  it.each([-900, 0, 1800, 3600])("with the speed uncertain by a tenth, %i s early", (early) => {
    const share = below(Math.log((6 * HOUR + early) / (6 * HOUR)) / 0.1);
    const chance = tried({ speedShare: 0.1 }, 6 * HOUR, early);
    expectShare(chance, share);
    const departAt = DARK_AT - early - 6 * HOUR;
    expectArrivals(chance, (p) => departAt + 6 * HOUR * Math.exp(0.1 * normalAt(p)));
    expect(chance.shuts[0]?.count).toBe(SAMPLES - chance.good.count);
    expect(chance).toMatchObject({ noPassage: 0, notJudged: 0, forecasts: null, wind: "error", current: "alongPath" });
  });

  it("with a start up to two hours late, evenly", () => {
    const chance = tried({ latestStartSeconds: 2 * HOUR }, 6 * HOUR, 1.3 * HOUR);
    expectShare(chance, 1.3 / 2);
    expectArrivals(chance, (p) => DARK_AT - 1.3 * HOUR + 2 * HOUR * p);
  });

  // A stream of 1 kn with her, its total uncertain by a quarter: 36 nm at 6 + (1 + 0.25 z) knots.
  it.each([-300, 300])("with the total of a fair stream uncertain by a quarter, %i s early", (early) => {
    const planned = (NM / 7) * HOUR;
    const needed = NM / ((planned + early) / HOUR);
    const chance = tried({ streamTotalShare: 0.25, streamPlaceMetres: 5000 }, planned, early, uniformCurrent(270, kn(1)));
    expectShare(chance, below((7 - needed) / 0.25));
    expectArrivals(chance, (p) => DARK_AT - early - planned + (NM / (7 - 0.25 * normalAt(p))) * HOUR);
    expect(chance.current).toBe("stream");
  });

  // Along the track she is carried by the integral of the error, over V seconds a metre: normal, with the double integral of the correlation
  // of running means over T hours, T² (1 − T/3h) each, as variance. Across it, and by its square, it is nothing at so small an error.
  it.each([-30, 20, 60])("with an error of the current along the path, %i s early", (early) => {
    const rms = 0.02;
    const hours = NM / KNOTS;
    const doubleIntegral = CURRENT_ERROR_LASTS.reduce(
      (sum, one) => sum + one.share * (hours * HOUR) ** 2 * (1 - hours / (3 * one.hours)),
      0,
    );
    const spreadSeconds = ((rms / Math.SQRT2) * Math.sqrt(doubleIntegral)) / kn(KNOTS);
    const chance = tried({ currentRmsMps: rms }, hours * HOUR, early);
    expectShare(chance, below(early / spreadSeconds));
    expectArrivals(chance, (p) => DARK_AT - early + spreadSeconds * normalAt(p));
  });

  it("with a heading that is off: longer either way", () => {
    // For 0.8 of the way on a heading b off, then straight to the destination.
    const D = metresFromNm(NM);
    const takes = (b: number): number => ((0.8 * D) / Math.cos(b) + Math.hypot(0.2 * D, 0.8 * D * Math.tan(b))) / kn(KNOTS);
    const allowed = 600;
    const widest = rootOf((b) => takes(b) - 6 * HOUR - allowed, 0, 1);
    const sigma = (6 * Math.PI) / 180;
    const chance = tried({ headingDeg: 6 }, 6 * HOUR, allowed);
    expectShare(chance, 2 * below(widest / sigma) - 1);
    expectArrivals(chance, (p) => DARK_AT - allowed - 6 * HOUR + takes(sigma * normalAt((1 + p) / 2)));
  });

  it("with speed and start together: the one folded with the other", () => {
    const [early, latest] = [2400, 3600];
    const chance = tried({ speedShare: 0.1, latestStartSeconds: latest }, 6 * HOUR, early);
    let share = 0;
    const steps = 2000;
    for (let k = 0; k < steps; k++) {
      const late = (latest * (k + 0.5)) / steps;
      share += below(Math.log((6 * HOUR + early - late) / (6 * HOUR)) / 0.1) / steps;
    }
    expectShare(chance, share);
  });
});

describe("the chance of a gate", () => {
  // It shuts half an hour after she is planned to be there, and nobody waits: reached at 6 h exp(−0.1 z), it is passed by ln(6.5/6)/0.1.
  it("that shuts soon after the arrival planned is that of being there before", () => {
    const departAt = clock(6);
    const shutsAt = departAt + 6.5 * HOUR;
    const gate: Gate = {
      name: "a lock",
      on: "in",
      place: { kind: "sea" },
      zone: "UTC",
      needs: [
        {
          kind: "windows",
          windows: [
            { from: departAt, until: shutsAt },
            { from: shutsAt + 20 * HOUR, until: shutsAt + 24 * HOUR },
          ],
        },
      ],
      waitSeconds: 0,
      clearanceMetres: null,
      office: null,
    };
    const into = new GateChain([new GateStop(gate, "gate", 0, { where: destination, offX: 0, offY: 0, around: null }, null)], destination);
    const setup = { ...trial({ nm: NM, boat: new SteadyBoat(KNOTS) }), gates: { out: null, into } };
    const errors = { samples: SAMPLES, speedShare: 0.1 };
    const chance = chanceWith(() => setup, departAt, calm, errors, [limit("windMps", 20, 30)]);
    expectShare(chance, below(Math.log(6.5 / 6) / 0.1));
    expect(chance.gateMissed).toBe(SAMPLES - chance.good.count);
    expect(chance).toMatchObject({ past: 0, noPassage: 0, notJudged: 0 });
  });
});

describe("the chance of a wind within its limit", () => {
  // A twentieth of a mile, half a minute, in which the error hardly changes: it is one number z, and the wind 15 kn times exp(share z), the share growing with the lead.
  it.each([
    [0, 0.15],
    [48, 0.15 + 2 * 0.06],
  ])("by the normal law of its logarithm, %i h after the issue", (lead, share) => {
    const felt: WeatherToFeel = { wind: winds({ from: 0, until: 96, dir: 0, low: 15, gust: 20 }), sea: null };
    const setup = trial({ nm: 0.05, boat: new SteadyBoat(KNOTS) });
    for (const never of [14, 16, 19]) {
      const errors = { samples: SAMPLES, windSpeedShare: 0.15, windSpeedSharePerDay: 0.06 };
      const chance = chanceWith(() => setup, clock(lead), felt, errors, [limit("windMps", 5, never)]);
      expectShare(chance, below(Math.log(never / 15) / share));
    }
  });

  it("against the stream by its direction: 16 kn dead against 1 kn, turned by z times 30°", () => {
    const felt: WeatherToFeel = { wind: winds({ from: 0, until: 96, dir: 270, low: 16 }), sea: null };
    const setup = trial({ nm: 0.05, boat: new SteadyBoat(KNOTS), current: uniformCurrent(270, kn(1)) });
    const errors = { samples: SAMPLES, windDirectionDeg: 30 };
    const never = 16 * Math.cos(Math.PI / 6);
    const against = limit("windAgainstCurrentMps2", 0, never, { during: "openWater" });
    const chance = chanceWith(() => setup, clock(6), felt, errors, [against]);
    // Within 30° either way it is past never: two chances in three, one standard deviation.
    expectShare(chance, 1 - (2 * below(1) - 1));
  });
});
