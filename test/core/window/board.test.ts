import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { metresFromNm } from "../../../src/core/units/index.ts";
import { gaussianJet } from "../../../src/core/water/index.ts";
import {
  type BoardRow,
  judgeBoard,
  type KeptDeparture,
  keepDepartures,
  type Limit,
  spellsOf,
  type Trial,
  type WeatherToFeel,
} from "../../../src/core/window/index.ts";
import { clock, HOUR, kn, limit, memberWinds, SteadyBoat, seas, trial, WindBoat, winds } from "./setup.ts";

const jet = gaussianJet({ rateMps: kn(2.5), axisMetres: metresFromNm(18), halfWidthMetres: metresFromNm(8) });
/** Southerly 10 kn, a northerly blow from 1000 to 1600, and southerly again. */
const blow = winds(
  { from: 0, until: 10, dir: 190, low: 8, high: 10, gust: 13 },
  { from: 10, until: 16, dir: 350, arc: 20, low: 16, high: 22, gust: 31 },
  { from: 16, until: 72, dir: 200, low: 6, high: 10 },
);
const weather: WeatherToFeel = { wind: blow, sea: seas([0, 12, 0.5, 1, 6, 7], [12, 20, 1.5, 2.2, 4, 5], [20, 72, 0.8, 1.2, 6, 7]) };
const limits: readonly Limit[] = [
  limit("windMps", 15, 25),
  limit("gustMps", 20, 32),
  limit("windAgainstCurrentMps2", 0, 40, { during: "openWater" }),
  limit("seaHeightMetres", 1, 2.5),
  limit("seaPeriodSeconds", 6, 3),
  limit("sunAltitudeDeg", 0, -6, { during: "arrival" }),
];
const berth = { latitudeDeg: 34, longitudeDeg: -41.05 };

const hours = (from: number, until: number): number[] => Array.from({ length: until - from + 1 }, (_, k) => clock(from + k));

function keep(setup: Trial, departures: readonly number[], felt: WeatherToFeel = weather): readonly KeptDeparture[] {
  const kept = keepDepartures(() => setup, departures, felt);
  if (kept === null) throw new Error("stopped");
  return kept;
}

/** What a row says, without the tracks behind it. */
const said = (row: BoardRow) => ({
  ...row,
  advised: row.advised === null ? null : [row.advised.name, row.advised.arrivalAt, row.advised.orders],
});

describe("a board", () => {
  it("is judged anew by other limits without running anything", () => {
    const boat = new SteadyBoat(6);
    const setup = trial({
      current: jet,
      boat,
      into: { points: [{ latitudeDeg: 34, longitudeDeg: -41 }, berth], speedOverGroundMps: kn(5) },
    });
    const kept = keep(setup, hours(0, 12));
    const first = judgeBoard(kept, limits, weather);
    const looser = limits.map((one) =>
      one.felt === "windAgainstCurrentMps2" ? limit("windAgainstCurrentMps2", 20, 90, { during: "openWater" }) : one,
    );
    boat.broken = true;
    expect(() => keep(setup, hours(0, 1))).toThrow("a passage was run again");
    const { runs } = boat;
    const again = judgeBoard(kept, looser, weather);
    expect(boat.runs).toBe(runs);
    boat.broken = false;
    // The same as if all had been run with those limits from the start, and not the same as before.
    expect(again.map(said)).toEqual(judgeBoard(keep(setup, hours(0, 12)), looser, weather).map(said));
    expect(again.map((row) => row.verdict.kind)).not.toEqual(first.map((row) => row.verdict.kind));
    expect(judgeBoard(kept, limits, weather)).toEqual(first);
  });

  it("has the same lines whatever the order of the departures: each stands alone", () => {
    const departures = hours(0, 7);
    const setup = trial({ current: jet });
    const straight = new Map(keep(setup, departures).map((one) => [one.run.departAt, one]));
    fc.assert(
      fc.property(fc.shuffledSubarray(departures, { minLength: 2, maxLength: 4 }), (some) => {
        for (const one of keep(setup, some)) expect(one).toEqual(straight.get(one.run.departAt));
      }),
      { numRuns: 6 },
    );
  });

  it("closes what meets the blow against the stream and tells the limit, its time and its place", () => {
    const row = judgeBoard(keep(trial({ current: jet }), hours(8, 8)), limits, weather)[0] as BoardRow;
    expect(row.verdict.kind).toBe("closed");
    const { decidedBy } = row.verdict;
    if (decidedBy.kind !== "margin") throw new Error(decidedBy.kind);
    // 22 kn dead against 2.5 kn is 55 kn², (40 − 55)/40; never is first passed as the wind shifts at 1000 or soon after it.
    expect(decidedBy.margin.limit.felt).toBe("windAgainstCurrentMps2");
    expect(decidedBy.margin.margin).toBeCloseTo(-0.375, 2);
    expect(decidedBy.margin.firstPastNeverAt as number).toBeGreaterThan(clock(10) - 1);
    expect(decidedBy.margin.firstPastNeverAt as number).toBeLessThan(clock(11));
    expect(decidedBy.margin.at).toBeGreaterThan(clock(10));
    expect(row.inHand).toBeNull();
    expect(row.sinceAgainst).toEqual({ kind: "blew", seconds: 0 });
  });

  it("is marginal without limits, and not judged where a limit has no data", () => {
    const kept = keep(trial({ current: jet }), hours(0, 1), { wind: blow, sea: null });
    const none = judgeBoard(kept, [], { wind: blow, sea: null })[0] as BoardRow;
    expect(none.verdict).toMatchObject({ kind: "marginal", decidedBy: { kind: "noLimits" } });
    const dry = judgeBoard(kept, [limit("seaHeightMetres", 1, 2.5), limit("windMps", 25, 40)], { wind: blow, sea: null })[0] as BoardRow;
    expect(dry.verdict).toMatchObject({
      kind: "marginal",
      decidedBy: { kind: "notJudged", margin: { why: { code: "not-covered-variable", quantity: "seaHeightMetres" } } },
    });
  });

  it("gathers neighbours of one verdict into spells, none lost", () => {
    const rows = judgeBoard(keep(trial({ current: jet }), hours(0, 30)), limits, weather);
    const spells = spellsOf(rows);
    expect(spells.flatMap((spell) => spell.rows)).toEqual(rows);
    for (const [i, spell] of spells.entries()) {
      expect(new Set(spell.rows.map((row) => row.verdict.kind))).toEqual(new Set([spell.kind]));
      expect(spell.kind).not.toBe(spells[i - 1]?.kind);
    }
    expect(spells.length).toBeGreaterThan(2);
    expect(spellsOf([])).toEqual([]);
  });

  it("tells its progress and stops when asked to", () => {
    const told: string[] = [];
    const setup = trial();
    const stopped = keepDepartures(
      () => setup,
      hours(0, 9),
      weather,
      (done, of) => {
        told.push(`${done}/${of}`);
        return done === 3;
      },
    );
    expect(stopped).toBeNull();
    expect(told).toEqual(["1/10", "2/10", "3/10"]);
    expect(
      keepDepartures(
        () => setup,
        hours(0, 1),
        weather,
        () => false,
      ),
    ).toHaveLength(2);
  });
});

describe("several forecasts", () => {
  const wind = limit("windMps", 15, 25);
  /** Member 0 blows 12 kn, and of three others one 20, one 26, one 30. */
  const members = memberWinds([
    [12, 180],
    [20, 180],
    [26, 180],
    [30, 180],
  ]);
  const felt: WeatherToFeel = { wind: members, sea: null };

  it("are counted where they put a departure on the same side of closed as the one that decides", () => {
    let asked = 0;
    const setup = trial();
    const kept = keepDepartures(
      () => {
        asked++;
        return setup;
      },
      hours(6, 8),
      felt,
    );
    if (kept === null) throw new Error("stopped");
    // A boat that does not feel the wind goes one way in all of them.
    expect(asked).toBe(1);
    for (const row of judgeBoard(kept, [wind], felt)) {
      expect(row.verdict.kind).toBe("open");
      expect(row.forecastsAgreeing).toEqual({ agree: 2, of: 4 });
    }
    // Never at 11 kn: closed in all four. Never at 19: closed in the three others.
    expect(judgeBoard(kept, [limit("windMps", 5, 11)], felt)[0]?.forecastsAgreeing).toEqual({ agree: 4, of: 4 });
    expect(judgeBoard(kept, [limit("windMps", 5, 19)], felt)[0]?.forecastsAgreeing).toEqual({ agree: 1, of: 4 });
    expect(judgeBoard(kept, [limit("windMps", 30, 40)], felt)[0]?.forecastsAgreeing).toEqual({ agree: 4, of: 4 });
  });

  it("are each run with their own wind where the boat's speed depends on it", () => {
    const boat = new WindBoat();
    const asked: number[] = [];
    const kept = keepDepartures(
      (member) => {
        asked.push(member);
        return trial({ boat, wind: members, member });
      },
      hours(6, 7),
      felt,
    );
    if (kept === null) throw new Error("stopped");
    expect(asked).toEqual([0, 1, 2, 3]);
    // A quarter of 12, 20, 26 and 30 kn over 36 nm: 12 h, 7 h 12 min, 5.538 h, 4 h 48 min.
    const one = kept[0] as KeptDeparture;
    expect(one.run.planned.kind === "arrives" && one.run.planned.run.arrivalAt).toBeCloseTo(clock(18), 2);
    const taken = one.members.map((member) =>
      member.kind === "felt" ? ((member.exposure.atSeconds.at(-1) as number) - clock(6)) / HOUR : null,
    );
    expect(taken).toEqual([7.2, 36 / 6.5, 4.8].map((hour) => expect.closeTo(hour, 6)));
    expect(
      one.members.map((member) => (member.kind === "felt" ? (member.exposure.columns.windMps.high[0] as number) / kn(1) : null)),
    ).toEqual([20, 26, 30].map((knots) => expect.closeTo(knots, 9)));
  });

  it("disagree where one has no passage that the water allows, and agree on closed for whatever reason", () => {
    // In 4 kn of wind the boat makes 1 kn through still water: 36 nm take her 36 h, of which the forecast covers all. In a calm she makes none.
    const calm = memberWinds([
      [20, 180],
      [0, 180],
      [28, 180],
    ]);
    const boat = new WindBoat();
    const setup = (member: number) => trial({ boat, wind: calm, member });
    const kept = keepDepartures(setup, hours(6, 6), { wind: calm, sea: null });
    if (kept === null) throw new Error("stopped");
    expect(kept[0]?.members[0]).toMatchObject({ kind: "noPassage", why: { code: "no-way" } });
    // Open in the first; no way under sail, so closed, in the second; too strong in the third.
    expect(judgeBoard(kept, [wind], { wind: calm, sea: null })[0]).toMatchObject({
      verdict: { kind: "open" },
      forecastsAgreeing: { agree: 1, of: 3 },
    });
    // Closed in the first, too, and then all three agree.
    expect(judgeBoard(kept, [limit("windMps", 5, 15)], { wind: calm, sea: null })[0]?.forecastsAgreeing).toEqual({ agree: 3, of: 3 });
  });
});
