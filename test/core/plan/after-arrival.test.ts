import { describe, expect, it } from "vitest";
import { positionOf } from "../../../src/core/earth/index.ts";
import { type Anchorage, crossAt, LYING_SECONDS, lyingThere, wayHome } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import type { WindPeriod } from "../../../src/core/weather/index.ts";
import { clock, limit, plane, winds } from "../window/setup.ts";
import { kn, prepared } from "./setup.ts";

const HOUR = 3600;
const pool = (changes: Partial<Anchorage> = {}): Anchorage => ({
  name: "West Pool",
  position: positionOf(34, -40.73),
  openTo: [{ fromDegTrue: 330, arcDeg: 60 }],
  neverWindMps: kn(30),
  neverGustMps: null,
  neverSeaMetres: null,
  neverOpenWindMps: kn(12),
  neverOpenGustMps: null,
  ...changes,
});

/** A day and a half from Thursday noon: light from the south, then 20 kn from the north, then 35 from the south. */
const source = winds(
  { from: 0, until: 24, dir: 180, low: 15 },
  { from: 24, until: 36, dir: 10, low: 20 },
  { from: 36, until: 48, dir: 180, low: 35 },
);
const around = { wind: source.onPlane(plane, 0), windCovers: source.covers, sea: null, seaCovers: null };
const spells = (anchorage: Anchorage) =>
  lyingThere(anchorage, { xMetres: 0, yMetres: 0 }, around, clock(12)).map((spell) => [spell.kind, (spell.from - clock(0)) / HOUR]);

describe("the anchorage after an arrival", () => {
  it("holds in 15 kn from the sheltered side, not in 20 from the open one, not in 35 from any, and is not known after the forecast", () => {
    const found = lyingThere(pool(), { xMetres: 0, yMetres: 0 }, around, clock(12));
    expect(found.map((spell) => spell.kind)).toEqual(["holds", "untenable", "notJudged"]);
    // The forecast's last instant is still known; the next look is half an hour later.
    expect(found.map((spell) => (spell.from - clock(0)) / HOUR)).toEqual([12, 24, 48.5]);
    expect(found.at(-1)?.until).toBe(clock(12) + LYING_SECONDS);
    const worst = found[1]?.kind === "untenable" ? found[1].worst : null;
    // 20 over 12 is more of an excess than 35 over 30.
    expect(worst).toMatchObject({ felt: "windMps", open: true });
    expect(worst?.value).toBeCloseTo(kn(20), 9);
    expect(worst?.never).toBeCloseTo(kn(12), 9);
  });

  it("holds again where the wind goes back behind the shelter", () => {
    expect(spells(pool({ neverWindMps: kn(40) }))).toEqual([
      ["holds", 12],
      ["untenable", 24],
      ["holds", 36],
      ["notJudged", 48.5],
    ]);
  });

  it("is open to a wind only out of its sectors, at their edges too, across north", () => {
    const at = (dir: number, arc = 0): string | undefined => {
      const one = winds({ from: 0, until: 100, dir, arc, low: 20 });
      const look = { wind: one.onPlane(plane, 0), windCovers: one.covers, sea: null, seaCovers: null };
      return lyingThere(pool(), { xMetres: 0, yMetres: 0 }, look, clock(12))[0]?.kind;
    };
    for (const dir of [330, 345, 0, 30]) expect(at(dir), String(dir)).toBe("untenable");
    for (const dir of [31, 90, 180, 270, 329]) expect(at(dir), String(dir)).toBe("holds");
    expect(at(300, 40)).toBe("untenable");
    expect(at(20, 60)).toBe("untenable");
    expect(at(40, 280)).toBe("holds");
    expect(at(40, 300)).toBe("untenable");
  });

  it("is never taken to hold where a sea was to be judged and no source gives one", () => {
    expect(lyingThere(pool({ neverSeaMetres: 1 }), { xMetres: 0, yMetres: 0 }, around, clock(12))[0]?.kind).toBe("notJudged");
  });
});

const blow = (from: number, until: number, knots: number): WindPeriod => ({
  from: epochSeconds(clock(from)),
  until: epochSeconds(clock(until)),
  fromDegTrue: 90,
  arcDeg: 0,
  speedLowMps: kn(knots),
  speedHighMps: kn(knots),
  gustMps: kn(knots),
});

describe("the way home", () => {
  it("opens again when the wind goes down, and takes as long as the passage itself in a stream square to it", () => {
    const passage = prepared({
      weatherSources: [{ kind: "periods", wind: [blow(0, 16, 10), blow(16, 30, 30), blow(30, 80, 10)], sea: [] }],
      limits: [limit("windMps", 15, 25)],
      anchorage: pool(),
    });
    const answer = crossAt(passage, clock(6));
    const berthAt = answer.row.arrivalAt as number;
    expect(answer.afterArrival?.berthAt).toBe(berthAt);
    expect(answer.afterArrival?.anchorage?.spells.length).toBeGreaterThan(0);
    const home = wayHome(passage, berthAt);
    // Every two hours on even hours; the first after the blow is at 30 h.
    expect(home.opens?.from).toBe(clock(30));
    expect(home.rows.filter((row) => row.departAt < clock(30)).every((row) => row.verdict.kind === "closed")).toBe(true);
    const back = home.rows.find((row) => row.departAt === clock(30));
    const took = (row: { readonly departAt: number; readonly arrivalAt: number | null } | undefined): number =>
      (row?.arrivalAt ?? 0) - (row?.departAt ?? 0);
    expect(Math.abs(took(back) / took(answer.row) - 1)).toBeLessThan(1e-6);
  });

  it("is not known where the forecast ends too soon", () => {
    const passage = prepared({ weatherSources: [{ kind: "periods", wind: [blow(0, 14, 10)], sea: [] }] });
    const home = wayHome(passage, clock(12));
    expect(home.opens).toBeNull();
    expect(home.rows.every((row) => row.verdict.kind !== "open")).toBe(true);
  });
});
