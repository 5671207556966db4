import { describe, expect, it } from "vitest";
import { metresFromNm } from "../../../src/core/units/index.ts";
import { gaussianJet } from "../../../src/core/water/index.ts";
import { harbourSeconds, type Outcome, type PassageRun, runDeparture, runPlanned, runUnder } from "../../../src/core/window/index.ts";
import { clock, HOUR, kn, plane, SteadyBoat, trial } from "./setup.ts";

/** A quarter of an hour out at 4 kn (a mile), six hours over at 6 kn (36 nm), half an hour in at 4 kn (two miles). */
const start = plane.toPosition(metresFromNm(36), 0);
const end = plane.toPosition(0, 0);
const setup = trial({
  out: { points: [plane.toPosition(metresFromNm(36), metresFromNm(1)), start], speedOverGroundMps: kn(4) },
  into: {
    points: [end, plane.toPosition(metresFromNm(-1), 0), plane.toPosition(metresFromNm(-1), metresFromNm(1))],
    speedOverGroundMps: kn(4),
  },
});

function arrived(outcome: Outcome | undefined): PassageRun {
  if (outcome?.kind !== "arrives") throw new Error("no passage");
  return outcome.run;
}

describe("a departure from the berth", () => {
  const run = runDeparture(setup, clock(5, 45));

  it("runs out of harbour, over and in, one after the other", () => {
    expect(harbourSeconds(setup)).toEqual({ out: expect.closeTo(900, 6), into: expect.closeTo(1800, 6) });
    const planned = arrived(run.planned);
    expect(planned.openWaterFrom).toBeCloseTo(clock(6), 3);
    expect(planned.openWaterUntil).toBeCloseTo(clock(12), 3);
    expect(planned.arrivalAt).toBeCloseTo(clock(12, 30), 3);
    const { out, open, into } = planned.passed;
    expect(out?.atSeconds[out.count - 1]).toBe(open.atSeconds[0]);
    expect(open.atSeconds[open.count - 1]).toBe(into?.atSeconds[0]);
  });

  it("advises the simplest way, and runs it slower and with the engine stopped", () => {
    expect(run.advised?.name).toBe("oneHeading");
    // 36 nm at 5.4 and 4.8 kn; stopped for 1, 2 and 4 hours in still water she is that much later. The harbour leg goes on at its own speed.
    expect(run.slower.map(({ speedShare }) => speedShare)).toEqual([0.9, 0.8]);
    expect(run.slower.map(({ outcome }) => (arrived(outcome).arrivalAt - clock(6, 30)) / HOUR)).toEqual(
      [36 / 5.4, 36 / 4.8].map((h) => expect.closeTo(h, 4)),
    );
    expect(run.stopped.map((outcome) => (arrived(outcome).arrivalAt - clock(12, 30)) / HOUR)).toEqual(
      [1, 2, 4].map((h) => expect.closeTo(h, 4)),
    );
  });

  it("is planned the same without its kin", () => {
    expect(runPlanned(setup, clock(5, 45))).toEqual({ ...run, slower: [], stopped: [] });
  });

  it("run again under another forecast keep their way, and try every way where none was advised", () => {
    const setup = trial();
    const run = runDeparture(setup, clock(5, 45));
    const arrivalOf = (outcome: Outcome): number => (outcome.kind === "arrives" ? outcome.run.arrivalAt : Number.NaN);
    expect(run.advised?.name).toBe("oneHeading");
    expect(arrivalOf(runUnder(setup, clock(5, 45), run.advised))).toBeCloseTo(arrivalOf(run.planned), 2);
    expect(runUnder(setup, clock(5, 45), null)).toEqual(run.planned);
  });

  it("drifts down-stream while the engine is stopped at the axis", () => {
    const stream = trial({ current: gaussianJet({ rateMps: kn(3), axisMetres: metresFromNm(18), halfWidthMetres: metresFromNm(8) }) });
    const crossed = runDeparture(stream, clock(6));
    const north = (one: PassageRun): number => Math.max(...one.passed.open.yMetres);
    const planned = north(arrived(crossed.planned));
    // An hour at the axis carries her 3 nm further north than planned, less what little the stream slackens.
    const carried = (north(arrived(crossed.stopped[0])) - planned) / metresFromNm(1);
    expect(carried).toBeGreaterThan(0.5);
    expect(arrived(crossed.stopped[0]).arrivalAt - arrived(crossed.planned).arrivalAt).toBeGreaterThan(HOUR);
  });

  it("tells the simplest way's reason where no way arrives", () => {
    // A boat of 2 kn in a stream of 5 from bank to bank.
    const hopeless = trial({
      boat: new SteadyBoat(2),
      current: gaussianJet({ rateMps: kn(5), axisMetres: metresFromNm(18), halfWidthMetres: metresFromNm(60) }),
    });
    const tried = runDeparture(hopeless, clock(6));
    expect(tried.advised).toBeNull();
    expect(tried.planned).toMatchObject({ kind: "fails", why: { kind: "noAnswer" } });
    expect(tried.planned.kind === "fails" && tried.planned.why).toEqual(tried.ways[0]?.kind === "fails" ? tried.ways[0].why : null);
    expect([tried.slower, tried.stopped]).toEqual([[], []]);
  });
});
