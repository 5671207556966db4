import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { averilFiles } from "../../demo/averil-scripts/files.mjs";
import { coastOfNorvaneNm, coastOfOstreyNm } from "../../demo/averil-scripts/land.mjs";
import { FROM, frame, LEAD_HOURS, MIDDLE, RUN_AT, TO_NM } from "../../demo/averil-scripts/strait.mjs";
import { readWorldCoast } from "../../src/atlas/index.ts";
import { geodesicBetween } from "../../src/core/earth/index.ts";
import { oneHeading } from "../../src/core/passage/index.ts";
import { offSquareDeg } from "../../src/core/places/index.ts";
import { inletsOf, judgeLeave, LeaveWork } from "../../src/core/plan/index.ts";
import { epochSeconds, knotsFromMps, nmFromMetres } from "../../src/core/units/index.ts";
import { streamNamed, tideNamed } from "../../src/core/water/index.ts";
import { harbourSeconds } from "../../src/core/window/index.ts";
import { writeGrib2Message } from "../../src/formats/grib/index.ts";
import { DEMOS, demoNamed, openPassage } from "../../src/storage/index.ts";
import { root } from "./source-files.ts";

const folder = join(root, "demo", "averil");
const opened = await openPassage(demoNamed("averil")?.path ?? "");
if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
const { prepared, readings } = opened.value;
const { passage } = prepared;

/** Ship's time of February 2027, as an instant. */
const shipTime = (day: number, hour: number, minute = 0) => epochSeconds(Date.UTC(2027, 1, day, hour - 6, minute) / 1000);
const found = <T>(one: T | null | undefined): T => {
  if (one === null || one === undefined) throw new Error("the demo lacks what its story needs");
  return one;
};
const middle = found(streamNamed(prepared.streams, "the middle of the sound"));
const mouth = found(streamNamed(prepared.streams, "the mouth of the Arl"));
const arlmouth = found(tideNamed(prepared.tides, "Arlmouth"));
const [first, last] = [shipTime(18, 0), shipTime(22, 0)];

describe("the files of the second demo", () => {
  it.each(averilFiles({ writeGrib2Message }))("%s is byte for byte what the generator makes", (name, made) => {
    expect(Buffer.compare(made, readFileSync(join(folder, name)))).toBe(0);
  });

  it("are under 600 kB together", () => {
    const sizes = readdirSync(folder).map((name) => statSync(join(folder, name)).size);
    expect(sizes.length).toBe(4);
    expect(sizes.reduce((a, b) => a + b)).toBeLessThan(600_000);
  });

  it("are read without an oddity: five forecasts of wind and gust, one sea, to the end", () => {
    expect(readings.flatMap((one) => one.oddities)).toEqual([]);
    const grids = readings.flatMap((one) => one.grids);
    const members = (quantity: string) => grids.filter((grid) => grid.quantities[0] === quantity).map((grid) => grid.member);
    expect(members("windEastMps")).toEqual([0, 1, 2, 3, 4]);
    expect(members("gustMps")).toEqual([0, 1, 2, 3, 4]);
    expect(members("seaHeightMetres").length).toBe(1);
    expect(members("seaPeriodSeconds").length).toBe(1);
    expect(grids.every((grid) => grid.issuedAt === RUN_AT && grid.times.at(-1) === RUN_AT + LEAD_HOURS * 3600)).toBe(true);
  });
});

describe("the second strait", () => {
  it("has the generator's ends, about 20 nm apart across an east-going flood, and berths in the two inlets", () => {
    expect(passage.invented).toBe(true);
    const to = frame.positionAt(TO_NM.acrossNm, TO_NM.alongNm);
    for (const [read, made] of [[passage.from.position, FROM] as const, [passage.to.position, to] as const])
      expect(nmFromMetres(geodesicBetween(read, made).distanceMetres)).toBeLessThan(0.1);
    const across = geodesicBetween(passage.from.position, passage.to.position);
    expect(nmFromMetres(across.distanceMetres)).toBeGreaterThan(15);
    expect(nmFromMetres(across.distanceMetres)).toBeLessThan(22);
    expect(Math.abs(Math.cos(((across.initialBearingDegTrue - middle.floodTowardDegTrue) * Math.PI) / 180))).toBeLessThan(0.15);
    const berths = [passage.pilotageOut?.points[0], passage.pilotageIn?.points.at(-1)].map((one) => frame.milesOf(found(one)));
    for (const { acrossNm, alongNm } of berths) {
      const inlandNm = Math.max(coastOfOstreyNm(alongNm) - acrossNm, acrossNm - coastOfNorvaneNm(alongNm));
      expect(inlandNm).toBeLessThan(0.1);
    }
  });

  it("lies in open ocean: no land of the world's coastline within 5 degrees", () => {
    const { latitudeDeg, longitudeDeg } = MIDDLE;
    const box = { southDeg: latitudeDeg - 5, northDeg: latitudeDeg + 5, westDeg: longitudeDeg - 5, eastDeg: longitudeDeg + 5 };
    expect(readWorldCoast().within(box)).toEqual([]);
  });

  it("runs at some 3 knots at springs, and turns hours after high water: its slack is its own", () => {
    const turns = middle.turns(first, last);
    const greatest = turns.filter(({ kind }) => kind.startsWith("greatest")).map(({ rateMps }) => knotsFromMps(rateMps));
    expect(Math.max(...greatest)).toBeGreaterThan(2.9);
    expect(Math.max(...greatest)).toBeLessThan(3.5);
    const highs = arlmouth.highsAndLows(first, last).filter(({ kind }) => kind === "high");
    const nearest = (at: number) => Math.min(...highs.map((high) => Math.abs(high.at - at)));
    const slacks = (stream: typeof middle) =>
      stream.turns(shipTime(18, 3), shipTime(21, 20)).filter(({ kind }) => kind === "slack before ebb");
    expect(slacks(middle).length).toBeGreaterThan(6);
    for (const { at } of slacks(middle)) expect(nearest(at)).toBeGreaterThan(90 * 60);
    for (const { at } of slacks(mouth)) expect(nearest(at)).toBeLessThan(30 * 60);
  });

  it("has lanes on which ships keep to the right, and water everywhere that its refuges are", () => {
    const lanes = found(passage.lanes).filter(({ flowDegTrue }) => flowDegTrue !== null);
    expect(lanes.map(({ flowDegTrue }) => flowDegTrue)).toEqual([75, 255]);
    // Bound north, the lane met first is on the near side: its ships come from the left.
    const acrossOf = (lane: (typeof lanes)[number]) => Math.min(...lane.ring.map((corner) => frame.milesOf(corner).acrossNm));
    expect(acrossOf(found(lanes[0]))).toBeLessThan(acrossOf(found(lanes[1])));
    const { around, line } = prepared.trialOf(0).crossing;
    const out = new Float64Array(2);
    for (const { position } of found(passage.refuges).listed) {
      const { xMetres, yMetres } = line.plane.toPlane(position);
      expect(around.current.sampleInto(out, xMetres, yMetres, shipTime(19, 12))).toBe(0);
    }
  });
});

describe("its story", () => {
  const work = new LeaveWork(prepared);
  const leaving = (day: number, hour: number) => {
    const at = shipTime(day, hour);
    return found(judgeLeave(prepared, [at], [work.keep(at, false)]).rows[0]);
  };
  /** What closes a departure: the gate that is missed and what of its entrance shuts it, or the limits that are passed. */
  const shutBy = (day: number, hour: number) => {
    const { verdict, gates, margins } = leaving(day, hour);
    const limits = margins.flatMap((one) => (one.kind === "judged" && one.margin < 0 ? [one.limit.felt] : []));
    const missed = gates.fault?.kind === "missed" ? gates.fault : null;
    return {
      kind: verdict.kind,
      limits,
      gate: missed?.gate.name ?? null,
      reasons: (missed?.shutBy ?? []).map(({ kind }) => kind),
      reachedAt: missed?.reachedAt ?? null,
    };
  };

  it.each([
    [18, 9],
    [18, 12],
    [19, 8],
  ])("leaving on February %i at %i:00 is open", (day, hour) => {
    expect(shutBy(day, hour)).toEqual({ kind: "open", limits: [], gate: null, reasons: [], reachedAt: null });
  });

  it("is shut by the sea on the bar on Thursday's afternoon ebb, two hours after it was open", () => {
    const late = shutBy(18, 14);
    expect(late).toMatchObject({ kind: "closed", limits: [], gate: "the bar of the Arl", reasons: ["seaHeight"] });
    expect(knotsFromMps(mouth.alongAt(found(late.reachedAt)))).toBeLessThan(-1.5);
    // There is water enough all the while: it is the ebb that does it.
    expect(found(arlmouth.heightAt(epochSeconds(found(late.reachedAt))))).toBeGreaterThan(1.5);
  });

  it("finds the bar breaking on Friday's morning ebb, and open two hours later", () => {
    const early = shutBy(19, 4);
    expect(early).toMatchObject({ kind: "closed", limits: [], gate: "the bar of the Arl" });
    expect(early.reasons).toContain("breaking");
    expect(mouth.alongAt(found(early.reachedAt))).toBeLessThan(0);
    expect(shutBy(19, 6).kind).toBe("open");
  });

  it("has the bar open on Thursday for hours of flood, shut by the ebb after dark and before dawn", () => {
    const bar = found(inletsOf(prepared).find(({ gate }) => gate.name === "the bar of the Arl"));
    const reasonsAt = (hour: number) => (bar.entranceAt(shipTime(18, hour))?.reasons ?? []).map(({ kind }) => kind);
    expect([11, 13, 15].map(reasonsAt)).toEqual([[], [], []]);
    expect(reasonsAt(18)).toContain("seaHeight");
    expect(reasonsAt(19)).toContain("breaking");
  });

  it("is shut by the dark, by the blow, by the bridge, each in its turn; Sunday has one marginal hour", () => {
    expect(shutBy(19, 0)).toMatchObject({ kind: "closed", limits: ["sunAltitudeDeg"], gate: "the bar of the Arl" });
    expect(shutBy(20, 8).limits).toEqual(expect.arrayContaining(["windMps", "gustMps"]));
    expect(shutBy(21, 3).limits).toEqual(expect.arrayContaining(["seaHeightMetres", "seaOnCurrentMetres"]));
    expect(shutBy(21, 12)).toMatchObject({ kind: "closed", limits: [], gate: "the Arl bridge" });
    const { verdict } = leaving(21, 11);
    expect([verdict.kind, verdict.decidedBy.kind]).toEqual(["marginal", "littleTime"]);
  });

  it("takes one heading square through the lanes about slack, and needs another in them at full stream", () => {
    const one = (day: number, hour: number) => {
      const trial = prepared.trialOf(0);
      const way = oneHeading(trial.crossing, shipTime(day, hour) + harbourSeconds(trial).out);
      if (way.kind !== "arrives") throw new Error(`no heading leads there on ${day} at ${hour}`);
      const inLanes = way.laneCrossings.filter(({ flowDegTrue }) => flowDegTrue !== null);
      expect(inLanes.map(({ laneName }) => laneName)).toEqual(["east-going lane", "west-going lane"]);
      return inLanes;
    };
    const slack = found(middle.turns(shipTime(18, 9), shipTime(18, 13)).find(({ kind }) => kind === "slack before flood"));
    const atSlack = one(18, 9);
    for (const lane of atSlack) expect(Math.abs((lane.enteredAt + lane.leftAt) / 2 - slack.at)).toBeLessThan(40 * 60);
    expect(atSlack.map(({ flagged }) => flagged)).toEqual([false, false]);
    expect(leaving(18, 9).advised?.name).toBe("oneHeading");
    expect(one(19, 12).map(({ flagged }) => flagged)).toEqual([true, true]);
    const square = found(leaving(19, 12).advised);
    expect(square.name).toBe("squareInLanes");
    for (const { steer } of square.orders.slice(1, 2)) {
      if (steer.kind !== "heading") throw new Error("no heading in the lanes");
      expect(Math.abs(offSquareDeg(steer.headingDegTrue, 75))).toBeLessThan(1);
    }
  });

  it("goes through its gates in order, each with its time", () => {
    const { gates } = leaving(18, 8);
    expect(gates.passed.map(({ gate, role }) => `${gate.name}${role === "notice" ? ", notice" : ""}`)).toEqual([
      "Stannet Gut",
      "the bar of the Arl",
      "the Arl bridge",
      "the sill of Arlmouth basin",
      "the customs office of Norvane, notice",
      "the customs office of Norvane",
    ]);
  });
});

describe("the demos by name", () => {
  it("are the folders that ship, the first the one meant where none is named", () => {
    expect(DEMOS.map(({ name }) => name)).toEqual(["morrel", "averil"]);
    expect(DEMOS[0]?.id).toBe("demo");
    for (const { name, path } of DEMOS) expect(statSync(path).isFile(), name).toBe(true);
    expect(demoNamed("nowhere")).toBeNull();
  });
});
