import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  DEFAULT_STEP_SECONDS,
  isNotSquare,
  laneCrossings,
  lookSquare,
  oneHeading,
  SQUARE_WITHIN_DEG,
  squareDepartures,
  squareInLanes,
  waysAcross,
} from "../../src/core/passage/index.ts";
import { type Lane, offSquareDeg, squareHeadingDeg } from "../../src/core/places/index.ts";
import { type CurrentSource, gaussianJet, turningTide, uniformCurrent } from "../../src/core/water/index.ts";
import { headingsOf, lanedCrossing } from "../core/passage/lanes-waters.ts";
import { arriving, FLAT, HOUR, KN, NM, powerBoat } from "../core/passage/waters.ts";

// Source: references/lanes.json, worked out with scipy (DOP853, brentq; uniform streams also in closed form) by make_lanes.py beside it.
// Status: computed.
interface Strip {
  readonly flow: number;
  readonly from: number;
  readonly until: number;
}
interface Water {
  readonly stream: {
    readonly kind: "uniform" | "jet" | "tide";
    readonly rate: number;
    readonly axis?: number;
    readonly halfWidth?: number;
    readonly period?: number;
  };
  readonly boat: number;
  readonly to: readonly [number, number];
  readonly lanes: readonly Strip[];
}
interface Case extends Water {
  readonly id: string;
  readonly t0: number;
  readonly headingOutside: number;
  readonly squareHeading: number;
  /** Hours, nm east, nm north. */
  readonly lanesFrom: readonly [number, number, number];
  readonly lanesUntil: readonly [number, number, number];
  readonly hours: number;
  readonly oneHeading: number;
  readonly oneHeadingOffSquare: number;
}
const references: {
  readonly squareInLanes: readonly Case[];
  readonly departures: Water & { readonly squareAt: readonly number[]; readonly tenDegreesOffAt: readonly number[] };
} = JSON.parse(readFileSync(new URL("references/lanes.json", import.meta.url), "utf8"));

function sourceOf({ stream }: Water): CurrentSource {
  const rateMps = stream.rate * KN;
  if (stream.kind === "uniform") return uniformCurrent(0, rateMps);
  if (stream.kind === "tide") return turningTide({ rateMps, periodSeconds: (stream.period ?? 0) * HOUR, epochAt: 0 });
  return gaussianJet({ rateMps, axisMetres: (stream.axis ?? 0) * NM, halfWidthMetres: (stream.halfWidth ?? 0) * NM });
}

/** A strip along its flow, its edges through (from, 0) and (until, 0), far longer than the crossing. */
function strip({ flow, from, until }: Strip, i: number): Lane {
  const rad = (flow * Math.PI) / 180;
  const at = (eastNm: number, alongNm: number) => FLAT.toPosition((eastNm + alongNm * Math.sin(rad)) * NM, alongNm * Math.cos(rad) * NM);
  return { name: `lane ${i}`, flowDegTrue: flow, ring: [at(from, -80), at(until, -80), at(until, 80), at(from, 80)] };
}

const crossingOf = (one: Water, stepSeconds: number) =>
  lanedCrossing(sourceOf(one), one.to, one.lanes.map(strip), powerBoat(one.boat), stepSeconds);

describe.each([
  { name: "fine steps", seconds: 5, share: 1e-6 },
  { name: "default steps", seconds: DEFAULT_STEP_SECONDS, share: 1e-4 },
])("square in the lanes, $name", ({ seconds, share }) => {
  it.each(references.squareInLanes)("$id", (one) => {
    const crossing = crossingOf(one, seconds);
    const departAt = one.t0 * HOUR;
    const way = arriving(squareInLanes(crossing, departAt));
    const headings = headingsOf(way);
    expect(headings).toHaveLength(3);
    expect(Math.abs(headings[0]! - one.headingOutside), "heading outside").toBeLessThan(share * 360);
    expect(headings[1]).toBe(one.squareHeading);
    expect(headings[2]).toBe(headings[0]);
    expect(Math.abs((way.arrivalAt - departAt) / HOUR / one.hours - 1), "hours").toBeLessThan(share);
    const first = way.laneCrossings[0]!;
    const last = way.laneCrossings[way.laneCrossings.length - 1]!;
    const lengthNm = crossing.line.lengthMetres / NM;
    for (const [at, where, expected] of [
      [first.enteredAt, first.entered, one.lanesFrom],
      [last.leftAt, last.left, one.lanesUntil],
    ] as const) {
      const { xMetres, yMetres } = FLAT.toPlane(where);
      expect(Math.abs(at / HOUR - expected[0]), "when").toBeLessThan(share * one.hours);
      expect(Math.hypot(xMetres / NM - expected[1], yMetres / NM - expected[2]), "where").toBeLessThan(2 * share * lengthNm);
    }
    expect(way.orders[1]!.fromAt).toBeCloseTo(first.enteredAt, 2);
    expect(way.orders[2]!.fromAt).toBeCloseTo(last.leftAt, 2);
    const alone = arriving(oneHeading(crossing, departAt));
    expect(Math.abs(headingsOf(alone)[0]! - one.oneHeading)).toBeLessThan(share * 360);
    for (const crossed of alone.laneCrossings) {
      expect(Math.abs((crossed.offSquareWorstDeg ?? 90) - one.oneHeadingOffSquare)).toBeLessThan(share * 360);
      expect(crossed.flagged).toBe(one.oneHeadingOffSquare > SQUARE_WITHIN_DEG);
    }
  });
});

describe("from which departure one heading is square, in a tide", () => {
  const { squareAt, tenDegreesOffAt, ...water } = references.departures;
  const crossing = crossingOf(water, 60);
  const hourly = Array.from({ length: 25 }, (_, i) => i * HOUR);
  const found = squareDepartures((departAt) => lookSquare(crossing, departAt), hourly);

  it("to half a minute of the instants found apart from it", () => {
    expect(found.spells.length).toBe(3);
    const near = (hours: number, among: readonly number[]): number => Math.min(...among.map((one) => Math.abs(one - hours)));
    for (const spell of found.spells) {
      expect(near(spell.squarest.departAt / HOUR, squareAt) * HOUR).toBeLessThan(30);
      for (const end of [spell.from, spell.until]) {
        if (end !== 0 && end !== 24 * HOUR) expect(near(end / HOUR, tenDegreesOffAt) * HOUR).toBeLessThan(30);
      }
    }
  });
});

// International Regulations for Preventing Collisions at Sea, 1972, as amended, Rule 10 (traffic separation schemes). Status: the regulation,
// paragraphs (b) and (c) cited from memory.
describe("rule 10, as the regulation has it", () => {
  it("(c): it is the heading that is to be square to the general direction of traffic flow, not the track", () => {
    // Due east by heading over a stream to the north: square, though the track is far from it.
    const crossing = lanedCrossing(uniformCurrent(0, 2.5 * KN), [20, 10], [strip({ flow: 0, from: 5, until: 15 }, 0)]);
    const heading = arriving(oneHeading(crossing, 0));
    expect(headingsOf(heading)[0]).toBeCloseTo(90, 6);
    expect(isNotSquare(heading)).toBe(false);
    // Due east by track: the heading leans 30° into the stream.
    const track = lanedCrossing(uniformCurrent(0, 2.5 * KN), [20, 0], [strip({ flow: 0, from: 5, until: 15 }, 0)]);
    const held = arriving(waysAcross(track, 0).ways.find((way) => way.name === "holdTrack")!);
    expect(laneCrossings(held.track, track.around.lanes ?? null)[0]?.offSquareWorstDeg).toBeCloseTo(30, 6);
    expect(isNotSquare(held)).toBe(true);
  });

  it("(b), (c): a lane runs one way, and both its sides are crossed by the same two headings", () => {
    for (const flow of [0, 33, 145, 290]) {
      for (const toward of [0, 77, 200]) {
        const heading = squareHeadingDeg(flow, toward);
        expect(offSquareDeg(heading, flow)).toBeCloseTo(0, 9);
        expect(offSquareDeg(heading, (flow + 180) % 360)).toBeCloseTo(0, 9);
      }
    }
  });

  it('(c): "as nearly as practicable" names no figure; ours is 10° (common practice)', () => {
    expect(SQUARE_WITHIN_DEG).toBe(10);
  });
});
