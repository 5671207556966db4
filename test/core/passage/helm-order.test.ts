import { describe, expect, it } from "vitest";
import { type FastestArrives, fastestWay, type HeldHeadings, helmOrder, oneHeading } from "../../../src/core/passage/index.ts";
import { analyticCurrent, type CurrentSource, gaussianJet, turningTide } from "../../../src/core/water/index.ts";
import { crossing, HOUR, KN, NM, powerBoat } from "./waters.ts";

const jet = gaussianJet({ rateMps: 5.5 * KN, axisMetres: 18 * NM, halfWidthMetres: 8 * NM });
const tide = turningTide({
  rateMps: 3.5 * KN,
  periodSeconds: 12.42 * HOUR,
  epochAt: 0,
  bell: { axisMetres: 11 * NM, halfWidthMetres: 7 * NM },
});
/** The shear u = −y, twice as strong at the edge as the boat is fast: no single heading leads through it. */
const shear = analyticCurrent("shear", (out, _x, y) => {
  out[0] = -(y / (10 * NM)) * 5 * KN;
  out[1] = 0;
});

const SEAS: readonly {
  readonly name: string;
  readonly current: CurrentSource;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly departHours: number;
}[] = [
  { name: "a jet stronger than the boat", current: jet, from: [0, 0], to: [45, 0], departHours: 0 },
  { name: "a tide under a bell", current: tide, from: [0, 0], to: [22, 0], departHours: 7 },
  { name: "a strong shear", current: shear, from: [36.6, -18.6], to: [0, 0], departHours: 0 },
];

function fastest(one: ReturnType<typeof crossing>, at: number): FastestArrives {
  const way = fastestWay(one, at, { crossCheck: false });
  if (way.kind === "fails") throw new Error(way.why.code);
  return way;
}
const ordered = (order: HeldHeadings) => {
  if (order.kind === "fails") throw new Error(order.why.code);
  return order;
};

describe.each(SEAS)("the fastest way's order for a helm: $name", ({ current, from, to, departHours }) => {
  const one = crossing(current, from, to, powerBoat(5));
  const way = fastest(one, departHours * HOUR);

  it.each([2, 1, 0.5])("holds each heading for %d h, arrives, and loses little", (hours) => {
    const order = ordered(helmOrder(one, way, hours * HOUR));
    const instants = [...order.orders.map((each) => each.fromAt), order.arrivalAt];
    for (let i = 1; i < instants.length; i++)
      expect((instants[i] as number) - (instants[i - 1] as number)).toBeGreaterThan(hours * HOUR - 60);
    expect(order.orders.every((each) => each.steer.kind === "heading")).toBe(true);
    const last = order.track.count - 1;
    expect(Math.hypot((order.track.xMetres[last] as number) - to[0] * NM, (order.track.yMetres[last] as number) - to[1] * NM)).toBeLessThan(
      5,
    );
    expect(order.lossSeconds).toBeCloseTo(order.arrivalAt - way.arrivalAt, 6);
    expect(order.lossSeconds).toBeGreaterThan(-1);
  });

  it("the more often it may change, the less it loses", () => {
    const losses = [2, 1, 0.5].map((hours) => ordered(helmOrder(one, way, hours * HOUR)).lossSeconds);
    expect(losses[1] as number).toBeLessThan((losses[0] as number) + 1);
    expect(losses[2] as number).toBeLessThan((losses[1] as number) + 1);
    expect(losses[2] as number).toBeLessThan(0.002 * (way.arrivalAt - way.departAt));
  });
});

describe("an order of headings held", () => {
  const one = crossing(jet, [0, 0], [45, 0], powerBoat(5));
  const way = fastest(one, 0);

  it("is the one heading, where the passage is too short for two", () => {
    const order = ordered(helmOrder(one, way, 8 * HOUR));
    const single = oneHeading(one, 0);
    if (single.kind === "fails") throw new Error(single.why.code);
    expect(order.orders).toEqual(single.orders);
    expect(order.lossSeconds).toBe(single.arrivalAt - way.arrivalAt);
  });

  // The best of its kind: no small change of two headings that still arrives is earlier.
  it("is the best of its kind: headings turned to and fro, the rest made to arrive, come later", () => {
    const order = ordered(helmOrder(one, way, 2 * HOUR));
    const headings = order.orders.map((each) => (each.steer.kind === "heading" ? each.steer.headingDegTrue : Number.NaN));
    const arrival = (turned: readonly number[]): number => {
      // The last heading is found again, by halving, so that the boat comes abeam of the destination on it.
      const missOf = (lastDeg: number): { miss: number; at: number } => {
        let state = { xMetres: 0, yMetres: 0, at: 0, engineOn: false };
        turned.forEach((heading, i) => {
          const isLast = i + 1 === turned.length;
          const helm = { kind: "heading", headingDegTrue: isLast ? lastDeg : heading } as const;
          const until = {
            kind: "along",
            line: one.line,
            metres: isLast ? one.line.lengthMetres : 1e9,
            ...(isLast ? {} : { byAt: (i + 1) * 2 * HOUR }),
          } as const;
          const end = one.simulator.run(one.boat, helm, until, state, one.stepSeconds, null);
          if (end.kind === "noAnswer") throw new Error(end.code);
          state = { xMetres: end.xMetres, yMetres: end.yMetres, at: end.at, engineOn: end.engineOn };
        });
        return { miss: state.yMetres, at: state.at };
      };
      let low = (turned.at(-1) as number) - 15;
      let high = (turned.at(-1) as number) + 15;
      const isNorthAtLow = missOf(low).miss > 0;
      expect(missOf(high).miss > 0).toBe(!isNorthAtLow);
      for (let i = 0; i < 45; i++) {
        const middle = (low + high) / 2;
        if (missOf(middle).miss > 0 === isNorthAtLow) low = middle;
        else high = middle;
      }
      return missOf(low).at;
    };
    const best = arrival(headings);
    expect(Math.abs(best - order.arrivalAt)).toBeLessThan(1);
    for (let i = 0; i + 1 < headings.length; i++) {
      for (const turn of [-2, 2])
        expect(arrival(headings.map((heading, k) => (k === i ? heading + turn : heading)))).toBeGreaterThan(best - 0.05);
    }
  });

  it("refuses a hold that is no time", () => {
    expect(() => helmOrder(one, way, 0)).toThrow(/held for some time/);
  });
});
