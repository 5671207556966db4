import { describe, expect, it } from "vitest";
import { geodesicBetween, positionOf, rhumbBetween } from "../../../src/core/earth/index.ts";
import { courseToSteer } from "../../../src/core/passage/index.ts";
import { crossAt, type Passage, type StagingPoint, type StagingRow, stagingFor } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { clock } from "../window/setup.ts";
import { kn, passage, prepared } from "./setup.ts";

const HOUR = 3600;
const to = positionOf(34, -40.724);
const takes = (name: string, latitudeDeg: number, longitudeDeg: number, hours: number): StagingPoint => ({
  name,
  position: positionOf(latitudeDeg, longitudeDeg),
  reached: { kind: "takes", seconds: hours * HOUR },
});

/** Seconds from a place to the destination at 6 knots in the passage's stream, by the triangle of velocities along the rhumb line. */
function closedSeconds(from: { latitudeDeg: number; longitudeDeg: number }, rateKn: number): number {
  const rhumb = rhumbBetween(from, to);
  const steer = courseToSteer(rhumb.bearingDegTrue, kn(6), 0, kn(rateKn));
  if (steer === "cannotHold") throw new Error("cannot hold");
  return rhumb.distanceMetres / steer.speedMadeGood;
}

function arriving(row: StagingRow | undefined): Extract<StagingRow, { kind: "arrives" }> {
  if (row?.kind !== "arrives") throw new Error(`${row?.name} does not arrive`);
  return row;
}

describe("staging up-stream", () => {
  const rateKn = 4;
  const strong: Partial<Passage> = { waterSources: [{ kind: "uniform", setDegTrue: 0, rateMps: kn(rateKn) }] };

  it("tells the whole passage by each point: the way there and the crossing, against the closed form", () => {
    const staging = [takes("South Haven", 33.7, -40, 2), takes("North Haven", 34.3, -40, 2)];
    const table = stagingFor(prepared({ ...strong, staging }), clock(6));
    if (table === null) throw new Error("no table");
    const [from, south, north] = table.rows.map(arriving);
    expect(from?.name).toBe("East Haven");
    expect(from?.savedSeconds).toBe(0);
    const direct = closedSeconds(positionOf(34, -40), rateKn);
    expect(Math.abs((from?.wholeSeconds ?? 0) / direct - 1)).toBeLessThan(1e-3);
    for (const [row, latitude] of [
      [south, 33.7],
      [north, 34.3],
    ] as const) {
      const whole = 2 * HOUR + closedSeconds(positionOf(latitude, -40), rateKn);
      expect(row?.reachedAt).toBe(clock(8));
      expect(row?.leavesAt).toBe(clock(8));
      expect(Math.abs((row?.wholeSeconds ?? 0) / whole - 1)).toBeLessThan(1e-3);
      expect(row?.savedSeconds).toBeCloseTo((from?.wholeSeconds ?? 0) - (row?.wholeSeconds ?? 0), 6);
      expect(row?.arrivalAt).toBeCloseTo(clock(6) + (row?.wholeSeconds ?? 0), 6);
    }
  });

  it("finds the point that makes the whole shortest, the way to it included", () => {
    const near = (hours: number) => stagingFor(prepared({ ...strong, staging: [takes("South Haven", 33.7, -40, hours)] }), clock(6));
    const quick = near(0.5);
    const long = near(6);
    expect(quick?.soonest?.name).toBe("South Haven");
    expect(arriving(quick?.rows[1]).savedSeconds).toBeGreaterThan(0);
    expect(long?.soonest?.name).toBe("East Haven");
    expect(arriving(long?.rows[1]).savedSeconds).toBeLessThan(0);
  });

  it("reckons a way along the coast from its points, the harbours at either end too", () => {
    const berth = positionOf(34.05, -39.95);
    const along: StagingPoint = {
      name: "South Haven",
      position: positionOf(33.8, -40),
      reached: { kind: "along", speedOverGroundMps: kn(5), points: [berth, positionOf(33.9, -39.97)] },
    };
    const pilotageIn = { speedOverGroundMps: kn(4), points: [positionOf(34.02, -40.75)] };
    const pilotageOut = { speedOverGroundMps: kn(5), points: [berth] };
    const table = stagingFor(prepared({ pilotageIn, pilotageOut, staging: [along] }), clock(6));
    const metres =
      geodesicBetween(berth, positionOf(33.9, -39.97)).distanceMetres +
      geodesicBetween(positionOf(33.9, -39.97), positionOf(33.8, -40)).distanceMetres;
    const row = arriving(table?.rows[1]);
    expect(Math.abs((row.reachedAt - clock(6)) / (metres / kn(5)) - 1)).toBeLessThan(1e-4);
    const out = geodesicBetween(berth, positionOf(34, -40)).distanceMetres / kn(5);
    expect(Math.abs((arriving(table?.rows[0]).reachedAt - clock(6)) / out - 1)).toBeLessThan(1e-4);
    const into = geodesicBetween(to, positionOf(34.02, -40.75)).distanceMetres / kn(4);
    const whole = row.reachedAt - clock(6) + closedSeconds(positionOf(33.8, -40), 1) + into;
    expect(Math.abs(row.wholeSeconds / whole - 1)).toBeLessThan(1e-3);
  });

  it("waits there while the stream is stronger than the boat, as long as waiting gains", () => {
    const floodKn = 12;
    const waterSources: Passage["waterSources"] = [
      {
        kind: "sketch",
        sketch: {
          name: "the flood",
          at: positionOf(34, -40.4),
          axisTowardDegTrue: 0,
          from: null,
          until: epochSeconds(clock(16)),
          section: [
            { acrossMetres: -100_000, rateMps: kn(floodKn), setDegTrue: null },
            { acrossMetres: 100_000, rateMps: kn(floodKn), setDegTrue: null },
          ],
        },
      },
      { kind: "uniform", setDegTrue: 0, rateMps: 0 },
    ];
    const table = stagingFor(prepared({ waterSources, staging: [takes("South Haven", 33.95, -40, 1)] }), clock(6));
    // Through the water she goes straight to where the destination will have drifted from her: 36 miles west, the flood's drift south.
    const arrivalAt = (leavesHour: number): number => {
      const southNm = (16 - leavesHour) * floodKn - 3;
      return leavesHour + Math.hypot(rhumbBetween(positionOf(34, -40), to).distanceMetres / 1852, southNm) / 6;
    };
    const hours = Array.from({ length: 10 }, (_, i) => 7 + i);
    const best = hours.reduce((one, other) => (arrivalAt(other) < arrivalAt(one) ? other : one));
    expect(best).toBe(14);
    const row = arriving(table?.rows[1]);
    expect(row.reachedAt).toBe(clock(7));
    expect(row.leavesAt).toBe(clock(best));
    expect(Math.abs((row.arrivalAt - clock(0)) / HOUR - arrivalAt(best))).toBeLessThan(0.01);
    expect(table?.soonest?.name).toBe("South Haven");
  });

  it("tells why a point leads nowhere, and saves nothing against a baseline that has none", () => {
    const waterSources: Passage["waterSources"] = [{ kind: "uniform", setDegTrue: 0, rateMps: kn(6.5) }];
    const staging = [takes("North Haven", 34.2, -40, 1), takes("South Haven", 33.6, -40, 1)];
    const table = stagingFor(prepared({ waterSources, staging }), clock(6));
    expect(table?.rows[0]?.kind).toBe("fails");
    expect(table?.rows[1]?.kind).toBe("fails");
    if (table?.rows[1]?.kind === "fails") expect(["unreachable", "carried-away"]).toContain(table.rows[1].why.code);
    expect(arriving(table?.rows[2]).savedSeconds).toBeNull();
    expect(table?.soonest?.name).toBe("South Haven");
  });

  it("is part of one departure's answer where points are given, and nothing where they are not", () => {
    expect(crossAt(prepared(), clock(6)).staging).toBeNull();
    const answer = crossAt(prepared({ staging: [takes("South Haven", 33.7, -40, 2)] }), clock(6));
    expect(answer.staging?.rows).toHaveLength(2);
    expect(answer.upStreamBias?.rows.length).toBeGreaterThan(3);
  });

  it("widens the plane so that a point far off is on it", () => {
    const far = prepared({ staging: [takes("Far Haven", 35.5, -40, 10)] });
    expect(far.plane.toPlaneIfOn(positionOf(35.5, -40))).not.toBeNull();
    expect(far.passage.staging).toHaveLength(1);
    expect(passage().staging).toBeUndefined();
  });
});

describe("lanes in the plan", () => {
  const lane = {
    name: "south-going lane",
    flowDegTrue: 180,
    ring: [positionOf(33.8, -40.3), positionOf(33.8, -40.4), positionOf(34.2, -40.4), positionOf(34.2, -40.3)],
  };

  it("are laid on the plane, tell which way is square, and which departures are", () => {
    const strongly: Partial<Passage> = { waterSources: [{ kind: "uniform", setDegTrue: 0, rateMps: kn(2.5) }], lanes: [lane] };
    const answer = crossAt(prepared(strongly), clock(6));
    expect(answer.ways.map(({ way }) => way.name)).toContain("squareInLanes");
    expect(answer.advised?.name).toBe("squareInLanes");
    const one = answer.ways[0]?.way;
    if (one?.kind !== "arrives") throw new Error("one heading does not arrive");
    expect(one.laneCrossings[0]?.flagged).toBe(true);
    expect(answer.squareDepartures?.spells).toEqual([]);
    expect(Math.abs(answer.squareDepartures?.squarest?.offSquareDeg ?? 0)).toBeCloseTo(one.laneCrossings[0]?.offSquareWorstDeg ?? 0, 6);
    expect(answer.row.advised?.name).toBe("squareInLanes");
  });

  it("in a weak stream are crossed by one heading, square enough from every departure", () => {
    const answer = crossAt(prepared({ lanes: [lane] }), clock(6));
    expect(answer.advised?.name).toBe("oneHeading");
    expect(answer.squareDepartures?.spells).toHaveLength(1);
  });

  it("without a flow, or none at all, ask for nothing", () => {
    expect(crossAt(prepared({ lanes: [{ ...lane, flowDegTrue: null }] }), clock(6)).squareDepartures).toBeNull();
    expect(crossAt(prepared(), clock(6)).squareDepartures).toBeNull();
  });
});
