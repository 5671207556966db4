import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { driftingModel } from "../../../src/core/boat/index.ts";
import { landOn } from "../../../src/core/coast/index.ts";
import {
  type Crossing,
  crossingOf,
  type FastestArrives,
  fastestWay,
  holdTrack,
  lineBetween,
  oneHeading,
  type Way,
} from "../../../src/core/passage/index.ts";
import {
  analyticCurrent,
  type CurrentSource,
  gaussianJet,
  gridCurrent,
  sumOfCurrents,
  turningTide,
  uniformCurrent,
} from "../../../src/core/water/index.ts";
import { crossing, currentGrid, FLAT, HOUR, KN, NM, powerBoat } from "./waters.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

function fastest(one: Crossing, departAt = 0, crossCheck = false): FastestArrives {
  const way = fastestWay(one, departAt, { crossCheck });
  if (way.kind === "fails") throw new Error(`fails: ${JSON.stringify(way.why)}`);
  return way;
}
const secondsOf = (way: FastestArrives): number => way.arrivalAt - way.departAt;
const tookSeconds = (way: Way): number => (way.kind === "arrives" ? way.arrivalAt - way.departAt : Number.POSITIVE_INFINITY);
const whyNot = (one: Crossing, departAt = 0) => {
  const way = fastestWay(one, departAt);
  if (way.kind === "arrives") throw new Error("arrives");
  return way.why;
};

const jetOf = (peakKn: number, axisNm: number, widthNm: number): CurrentSource =>
  gaussianJet({ rateMps: peakKn * KN, axisMetres: axisNm * NM, halfWidthMetres: widthNm * NM });

describe("the fastest way beside orders that can be kept", () => {
  // Theorem for a steady stream that depends on x alone and an end straight across: fastest ≤ one heading ≤ held track (Jensen).
  it("is no later than one heading, and one heading no later than the held track", () => {
    fc.assert(
      fc.property(between(0.5, 4.5), between(5, 40), between(4, 15), (peakKn, axisNm, widthNm) => {
        const one = crossing(jetOf(peakKn, axisNm, widthNm), [0, 0], [45, 0], powerBoat(5));
        const best = secondsOf(fastest(one));
        const heading = tookSeconds(oneHeading(one, 0));
        // The others are run in steps of 300 s, true to a second.
        expect(best).toBeLessThan(heading + 1);
        expect(heading).toBeLessThan(tookSeconds(holdTrack(one, 0)) + 1);
      }),
      { numRuns: 12 },
    );
  });

  it("is no later than any of them in a stream that turns", () => {
    fc.assert(
      fc.property(between(-3, 3), between(-3, 3), between(0, 12), between(-20, 20), (jetKn, tideKn, departHours, northNm) => {
        const current = sumOfCurrents([
          jetOf(jetKn, 15, 8),
          turningTide({
            rateMps: tideKn * KN,
            periodSeconds: 12.42 * HOUR,
            epochAt: 0,
            bell: { axisMetres: 30 * NM, halfWidthMetres: 9 * NM },
          }),
        ]);
        const one = crossing(current, [0, 0], [40, northNm], powerBoat(6.5));
        const best = secondsOf(fastest(one, departHours * HOUR));
        for (const way of [oneHeading(one, departHours * HOUR), holdTrack(one, departHours * HOUR)])
          expect(best).toBeLessThan(tookSeconds(way) + 1);
      }),
      { numRuns: 12 },
    );
  });
});

/** A stream with eddies that turns with the tide; mirrored in the x axis for side −1, its clock put on by `laterSeconds`. */
const eddying = (side: 1 | -1, laterSeconds: number): CurrentSource =>
  analyticCurrent("eddying", (out, x, y, at) => {
    const turn = Math.cos((2 * Math.PI * (at - laterSeconds)) / (12.42 * HOUR));
    const north = side * y;
    const e = 2.2 * KN * Math.exp(-((x - 18 * NM) ** 2 + (north - 4 * NM) ** 2) / (2 * (7 * NM) ** 2));
    out[0] = (-e * (north - 4 * NM)) / (7 * NM);
    out[1] = side * ((e * (x - 18 * NM)) / (7 * NM) + 1.5 * KN * turn * Math.exp(-(((x - 32 * NM) / (6 * NM)) ** 2)));
  });

describe("what the fastest way must not depend on", () => {
  it("mirrored water gives the mirrored way", () => {
    fc.assert(
      fc.property(between(0, 12), between(-12, 12), (departHours, northNm) => {
        const one = fastest(crossing(eddying(1, 0), [0, 0], [42, northNm]), departHours * HOUR);
        const other = fastest(crossing(eddying(-1, 0), [0, 0], [42, -northNm]), departHours * HOUR);
        expect(Math.abs(secondsOf(one) - secondsOf(other))).toBeLessThan(1e-6 * secondsOf(one));
        const middle = Math.floor(one.track.count / 2);
        expect((one.track.yMetres[middle] as number) + (other.track.yMetres[middle] as number)).toBeCloseTo(0, -2);
      }),
      { numRuns: 8 },
    );
  });

  it("water an hour or a day later gives the same way as much later", () => {
    fc.assert(
      fc.property(between(0, 12), fc.integer({ min: -40, max: 2000 }), (departHours, laterHours) => {
        const one = fastest(crossing(eddying(1, 0), [0, 0], [42, 3]), departHours * HOUR);
        const other = fastest(crossing(eddying(1, laterHours * HOUR), [0, 0], [42, 3]), (departHours + laterHours) * HOUR);
        expect(Math.abs(secondsOf(one) - secondsOf(other))).toBeLessThan(1e-6 * secondsOf(one));
      }),
      { numRuns: 8 },
    );
  });

  it("another departure asked for before gives the very same answer", () => {
    const asked = crossing(eddying(1, 0), [0, 0], [42, 3]);
    for (const hours of [30, 7, 0, 12, 3]) fastest(asked, hours * HOUR);
    expect(fastest(asked, 5 * HOUR).arrivalAt).toBe(fastest(crossing(eddying(1, 0), [0, 0], [42, 3]), 5 * HOUR).arrivalAt);
  });

  it("a line that runs another way over the same water, turned with it, takes as long", () => {
    const jet = (degrees: number): CurrentSource => {
      const rad = (degrees * Math.PI) / 180;
      return analyticCurrent("turned jet", (out, x, y) => {
        const along = x * Math.cos(rad) + y * Math.sin(rad);
        const rate = 3.5 * KN * Math.exp(-(((along - 20 * NM) / (9 * NM)) ** 2));
        out[0] = -rate * Math.sin(rad);
        out[1] = rate * Math.cos(rad);
      });
    };
    const hours = [0, 37, 111, 200, 290].map((degrees) => {
      const rad = (degrees * Math.PI) / 180;
      return secondsOf(fastest(crossing(jet(degrees), [0, 0], [40 * Math.cos(rad), 40 * Math.sin(rad)]))) / HOUR;
    });
    for (const each of hours) expect(each).toBeCloseTo(hours[0] as number, 5);
  });
});

describe("a way planned in coarser water", () => {
  it("never beats the fastest way of the true water when it is gone there", () => {
    for (const departHours of [0, 4, 8]) {
      const truth = crossing(eddying(1, 0), [0, 0], [42, 3]);
      const best = fastest(truth, departHours * HOUR);
      const out = new Float64Array(2);
      const sampler = eddying(1, 0).onPlane(FLAT);
      const coarse = currentGrid({ westDeg: -1, eastDeg: 2, spanDeg: 1, hours: 30 }, (east, north, hour) => {
        sampler.sampleInto(out, east * NM, north * NM, hour * HOUR);
        return [(out[0] as number) / KN, (out[1] as number) / KN];
      });
      const planned = fastest(crossing(gridCurrent(coarse), [0, 0], [42, 3]), departHours * HOUR);
      let at = departHours * HOUR;
      for (let i = 0; i + 1 < planned.track.count; i++) {
        const [x0, y0] = [planned.track.xMetres[i] as number, planned.track.yMetres[i] as number];
        const [dx, dy] = [(planned.track.xMetres[i + 1] as number) - x0, (planned.track.yMetres[i + 1] as number) - y0];
        const length = Math.hypot(dx, dy);
        sampler.sampleInto(out, x0 + dx / 2, y0 + dy / 2, at + length / 2 / (5 * KN));
        const across = (dx * (out[1] as number) - dy * (out[0] as number)) / length;
        const made = (dx * (out[0] as number) + dy * (out[1] as number)) / length + Math.sqrt((5 * KN) ** 2 - across * across);
        at += length / made;
      }
      expect(at).toBeGreaterThan(best.arrivalAt - 1);
      expect(at - best.arrivalAt).toBeLessThan(600);
    }
  });
});

describe("the answer's parts", () => {
  const one = crossing(eddying(1, 0), [0, 0], [42, 3]);
  const way = fastest(one, 3 * HOUR, true);

  it("the track begins and ends where it must, in order, and adds up", () => {
    const { track } = way;
    const last = track.count - 1;
    expect([track.xMetres[0], track.yMetres[0], track.atSeconds[0]]).toEqual([0, 0, 3 * HOUR]);
    expect(Math.hypot((track.xMetres[last] as number) - 42 * NM, (track.yMetres[last] as number) - 3 * NM)).toBeLessThan(0.01);
    expect(track.atSeconds[last]).toBe(way.arrivalAt);
    for (let i = 1; i <= last; i++) expect(track.atSeconds[i] as number).toBeGreaterThan(track.atSeconds[i - 1] as number);
    expect(way.throughWaterMetres / (5 * KN)).toBeCloseTo(secondsOf(way), 3);
    expect(way.fuelLitres).toBeCloseTo((3 * secondsOf(way)) / HOUR, 6);
    expect(way.nodes.length).toBeGreaterThan(40);
    expect(way.landCorners).toEqual([]);
  });

  it("the headings of its nodes, steered as told, lead to the destination in its time", () => {
    const { nodes } = way;
    let x = 0;
    let y = 0;
    const out = new Float64Array(2);
    const steps = 40;
    for (let i = 0; i + 1 < nodes.length; i++) {
      const [a, b] = [nodes[i], nodes[i + 1]];
      if (a === undefined || b === undefined) throw new Error("no node");
      const h = (b.at - a.at) / steps;
      for (let k = 0; k < steps; k++) {
        const heading = ((a.headingDegTrue + ((k + 0.5) / steps) * (b.headingDegTrue - a.headingDegTrue)) * Math.PI) / 180;
        const at = a.at + k * h;
        one.around.current.sampleInto(out, x, y, at);
        const mx = x + (h / 2) * (5 * KN * Math.sin(heading) + (out[0] as number));
        const my = y + (h / 2) * (5 * KN * Math.cos(heading) + (out[1] as number));
        one.around.current.sampleInto(out, mx, my, at + h / 2);
        x += h * (5 * KN * Math.sin(heading) + (out[0] as number));
        y += h * (5 * KN * Math.cos(heading) + (out[1] as number));
      }
    }
    expect(Math.hypot(x - 42 * NM, y - 3 * NM)).toBeLessThan(100);
  });
});

describe("no way there", () => {
  it("a boat weaker than the stream reaches what lies in her cone and nothing else", () => {
    const stream = uniformCurrent(0, 4 * KN);
    // Within asin(3/4) = 48.59° of down-stream.
    const way = fastest(crossing(stream, [0, 0], [10, 30], powerBoat(3)));
    expect(secondsOf(way) / HOUR).toBeCloseTo(4.853821047082, 6);
    expect(fastestWay(crossing(stream, [0, 0], [25, 30], powerBoat(3)), 0).kind).toBe("arrives");
    expect(whyNot(crossing(stream, [0, 0], [30, 25], powerBoat(3))).code).toBe("unreachable");
    expect(whyNot(crossing(stream, [0, 0], [0, -20], powerBoat(3))).code).toBe("unreachable");
  });

  it("a boat that makes no way", () => {
    expect(whyNot(crossing(uniformCurrent(90, 1 * KN), [0, 0], [10, 0], driftingModel())).code).toBe("no-way");
  });

  const flow = (east: number): readonly [number, number] => [0, 3 * Math.exp(-(((east - 20) / 8) ** 2))];

  it("tells where and when the current runs out", () => {
    const short = gridCurrent(currentGrid({ westDeg: -1, eastDeg: 2, spanDeg: 1, hours: 6 }, flow));
    const why = whyNot(crossing(short, [0, 0], [40, 0]), 0);
    expect(why).toMatchObject({ code: "not-covered-time", quantity: "current", coveredFrom: 0, coveredUntil: 6 * HOUR });
    expect(why.at).toBeGreaterThan(6 * HOUR - 1);
    const late = gridCurrent(currentGrid({ westDeg: -1, eastDeg: 2, spanDeg: 1, hours: 12 }, flow));
    expect(fastestWay(crossing(late, [0, 0], [40, 0]), 0).kind).toBe("arrives");
    expect(whyNot(crossing(late, [0, 0], [40, 0]), 13 * HOUR).code).toBe("not-covered-time");
    const narrow = gridCurrent(currentGrid({ westDeg: -1, eastDeg: 0.5, spanDeg: 1, hours: 24 }, flow));
    const place = whyNot(crossing(narrow, [0, 0], [40, 0]), 0);
    expect(place).toMatchObject({ code: "not-covered-place", quantity: "current" });
    expect(place.where.longitudeDeg * 60).toBeGreaterThan(24);
  });

  it("goes round water that isn't known, and says that an earlier way might lead through it", () => {
    const hole = (east: number, north: number) => (Math.hypot(east - 20, north) < 5 ? null : flow(east));
    const holed = crossing(gridCurrent(currentGrid({ westDeg: -1, eastDeg: 2, spanDeg: 1, hours: 30 }, hole)), [0, 0], [40, 0]);
    const whole = crossing(gridCurrent(currentGrid({ westDeg: -1, eastDeg: 2, spanDeg: 1, hours: 30 }, flow)), [0, 0], [40, 0]);
    const round = fastest(holed, 0, true);
    expect(secondsOf(round)).toBeGreaterThan(secondsOf(fastest(whole, 0, true)));
    expect(round.whyNotCrossChecked).toBe("waterUnknown");
    // In the water that is known the searches may agree all the same, and then it is said so.
    const edge = fastest(
      crossing(gridCurrent(currentGrid({ westDeg: -1, eastDeg: 2, spanDeg: 0.06, hours: 30 }, flow)), [0, 0], [40, 0]),
      0,
      true,
    );
    expect(edge.whyNotCrossChecked).toBe("waterUnknown");
    expect(edge.crossChecked).toBe(false);
    expect(edge.crossCheckedInKnownWater).toBe(true);
    const out = new Float64Array(2);
    for (let i = 0; i < round.track.count; i++) {
      const { atSeconds, xMetres, yMetres } = round.track;
      expect(holed.around.current.sampleInto(out, xMetres[i] as number, yMetres[i] as number, atSeconds[i] as number)).toBe(0);
    }
  });

  it("tells which land shuts the way, or lies on either end", () => {
    const degrees = (corners: readonly (readonly [number, number])[]) =>
      Float64Array.from(corners.flatMap(([east, north]) => [east / 60, north / 60]));
    const shutBy = (name: string, corners: readonly (readonly [number, number])[]): Crossing => {
      const land = landOn(FLAT, [{ kind: "keptOut", name, rings: [degrees(corners)] }]);
      const line = lineBetween(FLAT, 0, 0, 40 * NM, 0);
      const around = { plane: FLAT, current: uniformCurrent(0, KN).onPlane(FLAT), currentCovers: null, wind: null, windCovers: null, land };
      return crossingOf(line, around, powerBoat(5));
    };
    const box = (west: number, south: number, east: number, north: number) =>
      [
        [west, south],
        [east, south],
        [east, north],
        [west, north],
      ] as const;
    const wall = whyNot(shutBy("Long Bank", box(20, -200, 21, 200)));
    expect(wall).toMatchObject({ code: "across-land", area: { kind: "keptOut", name: "Long Bank" } });
    expect(wall.where.longitudeDeg * 60).toBeCloseTo(20, 3);
    expect(whyNot(shutBy("Start Shoal", box(-2, -2, 2, 2)))).toMatchObject({ code: "across-land", area: { name: "Start Shoal" } });
    expect(whyNot(shutBy("End Shoal", box(39, -2, 42, 2)))).toMatchObject({ code: "across-land", area: { name: "End Shoal" } });
  });
});
