import { describe, expect, it } from "vitest";
import type { NoAnswer } from "../../../../src/core/answers/index.ts";
import {
  comesIn,
  compareNights,
  depthsOfStay,
  directionsIn,
  type FetchRose,
  type LookAtAnchor,
  lookAtAnchor,
  type NightAtAnchor,
  nightAtAnchor,
  RAYS_APART_DEG,
  type Shelter,
  type StatedAnchorage,
  seaAtAnchor,
  type WeatherAtAnchor,
} from "../../../../src/core/places/index.ts";
import { windSea } from "../../../../src/core/sea/index.ts";
import { epochSeconds, mpsFromKnots } from "../../../../src/core/units/index.ts";
import { harmonicTide } from "../../../../src/core/water/index.ts";

const kn = mpsFromKnots;
const NM = 1852;
const HOUR = 3600;
const T0 = 1_780_531_200;

/** Land two miles off all round but for the south, from 150 to 210, where there is none. */
const bay: FetchRose = {
  rayMetres: Array.from({ length: 120 }, (_, i) => (i * RAYS_APART_DEG >= 150 && i * RAYS_APART_DEG <= 210 ? 20 * NM : 2 * NM)),
  rayOpen: Array.from({ length: 120 }, (_, i) => i * RAYS_APART_DEG >= 150 && i * RAYS_APART_DEG <= 210),
};
const byCoast: Shelter = { openTo: [], fetchMetres: null, rose: bay };
const wind = (knots: number, fromDegTrue: number, arcDeg = 0) => ({ windMps: kn(knots), fromDegTrue, arcDeg });
const raised = (knots: number, nm: number): number =>
  windSea({ windMps: kn(knots), fetchMetres: nm * NM, durationSeconds: null, depthMetres: null }).heightMetres;

describe("the sea at anchor", () => {
  it("is what the wind raises over the fetch where it comes off the land, whatever stands outside", () => {
    const sea = seaAtAnchor(byCoast, [wind(20, 0)], { heightMetres: 3, periodSeconds: 9, fromDegTrue: null });
    expect(sea).toMatchObject({ kind: "known", brings: "wind", open: false, fetchMetres: expect.closeTo(2 * NM, 6) });
    expect(sea.kind !== "unknown" && sea.heightMetres).toBeCloseTo(raised(20, 2), 9);
  });

  it("is the sea outside where it comes over open water, and at least what the nearer water raises where that is not known", () => {
    expect(seaAtAnchor(byCoast, [wind(12, 180)], { heightMetres: 3, periodSeconds: 9, fromDegTrue: null })).toMatchObject({
      kind: "known",
      brings: "seaOutside",
      heightMetres: 3,
    });
    const unknown = seaAtAnchor(byCoast, [wind(12, 180)], null);
    expect(unknown).toMatchObject({ kind: "atLeast", brings: "wind", open: true });
    expect(unknown.kind !== "unknown" && unknown.heightMetres).toBeCloseTo(raised(12, 20), 9);
  });

  it("takes the worst of all directions that the wind may come from, and of both its ends", () => {
    const swung = seaAtAnchor(byCoast, [wind(12, 90, 60)], { heightMetres: 2, periodSeconds: 8, fromDegTrue: null });
    expect(swung).toMatchObject({ brings: "seaOutside", heightMetres: 2 });
    expect(seaAtAnchor(byCoast, [wind(12, 0), wind(12, 180)], { heightMetres: 2, periodSeconds: 8, fromDegTrue: null })).toMatchObject({
      heightMetres: 2,
    });
    expect(directionsIn(350, 20)).toContain(350);
    expect(directionsIn(350, 20).at(-1)).toBeCloseTo(10, 9);
    expect(directionsIn(90, 0)).toEqual([90]);
  });

  it("goes by the skipper's notes where they say more than the coastline: a reef near by, an open side", () => {
    const reef = seaAtAnchor({ openTo: [{ fromDegTrue: 80, arcDeg: 20 }], fetchMetres: 500, rose: bay }, [wind(20, 180)], {
      heightMetres: 3,
      periodSeconds: 9,
      fromDegTrue: null,
    });
    expect(reef.kind !== "unknown" && reef.heightMetres).toBeCloseTo(raised(20, 500 / NM), 9);
    expect(
      seaAtAnchor({ openTo: [{ fromDegTrue: 80, arcDeg: 20 }], fetchMetres: 500, rose: null }, [wind(20, 90)], {
        heightMetres: 3,
        periodSeconds: 9,
        fromDegTrue: null,
      }),
    ).toMatchObject({ heightMetres: 3, open: true });
  });

  it("is the swell where it is said to come from an open side, and never where it comes against the land", () => {
    const swell = (fromDegTrue: number) => seaAtAnchor(byCoast, [wind(12, 0)], { heightMetres: 2, periodSeconds: 11, fromDegTrue });
    expect(swell(180)).toMatchObject({ kind: "known", brings: "swell", heightMetres: 2, fromDegTrue: 180 });
    expect(swell(139)).toMatchObject({ brings: "swell" });
    expect(swell(90)).toMatchObject({ brings: "wind", open: false });
    const noted: Shelter = { openTo: [{ fromDegTrue: 80, arcDeg: 20 }], fetchMetres: 500, rose: null };
    const into = (fromDegTrue: number) => seaAtAnchor(noted, [wind(12, 0)], { heightMetres: 2, periodSeconds: 11, fromDegTrue });
    expect(into(70)).toMatchObject({ brings: "swell" });
    expect(into(65)).toMatchObject({ brings: "wind" });
  });

  it("is unknown where nobody says what lies up-wind", () => {
    expect(
      seaAtAnchor({ openTo: [], fetchMetres: null, rose: null }, [wind(20, 90)], { heightMetres: 1, periodSeconds: 5, fromDegTrue: null }),
    ).toMatchObject({ kind: "unknown" });
  });

  it("is flat in a calm", () => {
    expect(seaAtAnchor(byCoast, [wind(0, 0, 360)], { heightMetres: 0, periodSeconds: null, fromDegTrue: null })).toMatchObject({
      heightMetres: 0,
    });
  });
});

describe("an open sector", () => {
  it("counts its ends, and reaches across north", () => {
    for (const deg of [330, 0, 30]) expect(comesIn([{ fromDegTrue: 330, arcDeg: 60 }], deg, 0)).toBe(true);
    for (const deg of [329, 31, 180]) expect(comesIn([{ fromDegTrue: 330, arcDeg: 60 }], deg, 0)).toBe(false);
  });
});

const made = harmonicTide({
  id: "made",
  name: "made",
  position: { latitudeDeg: 34, longitudeDeg: -40 },
  zone: "UTC",
  credit: "",
  licence: "",
  datum: "LAT",
  meanLevelMetres: 1.4,
  constants: [
    { name: "M2", amplitudeMetres: 0.8, phaseDeg: 40 },
    { name: "K1", amplitudeMetres: 0.4, phaseDeg: 100 },
  ],
});
if (!made.ok) throw new Error("no tide");
const tide = made.value;

describe("the water of a stay", () => {
  it("is the least and the greatest that a look every ten seconds would find, at turns or at the ends", () => {
    for (let start = 0; start < 48; start += 5) {
      const [from, until] = [T0 + start * HOUR, T0 + (start + 11) * HOUR];
      let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
      for (let at = from; at <= until; at += 10) {
        const depth = 3 + tide.heightAt(epochSeconds(at));
        least = Math.min(least, depth);
        greatest = Math.max(greatest, depth);
      }
      const found = depthsOfStay(3, { kind: "computed", name: "made", tide }, from, until);
      expect(found.least.depthMetres).toBeLessThanOrEqual(least + 1e-9);
      expect(found.least.depthMetres).toBeCloseTo(least, 5);
      expect(found.greatest.depthMetres).toBeCloseTo(greatest, 5);
      expect(found.least.at).toBeGreaterThanOrEqual(from);
      expect(found.greatest.at).toBeLessThanOrEqual(until);
    }
  });

  it("is as stated where the skipper states it, and has no time then", () => {
    expect(depthsOfStay(3, { kind: "stated", lowestMetres: 0.2, highestMetres: 2.1 }, T0, T0 + HOUR)).toEqual({
      least: { depthMetres: 3.2, at: null },
      greatest: { depthMetres: 5.1, at: null },
    });
  });
});

const stated: StatedAnchorage = {
  name: "Pelu Road",
  position: { latitudeDeg: 34, longitudeDeg: -40 },
  night: "before",
  depthMetres: 4,
  tide: { kind: "stated", lowestMetres: 0.2, highestMetres: 1.5 },
  bottom: null,
  rodeOutMetres: null,
  scope: 5,
  openTo: [],
  fetchMetres: null,
  roomMetres: null,
  toInlet: null,
  underKeelMetres: 1,
  wavesMetres: null,
  neverWindMps: null,
  neverGustMps: null,
  neverSeaMetres: null,
  notes: null,
};
const boat = {
  lengthOverallMetres: 11.6,
  beamMetres: null,
  hull: "power" as const,
  draughtMetres: 1.7,
  bowHeightMetres: 1.3,
  groundTackle: { chainMetres: 40, chainDiameterMetres: 0.01, ropeMetres: 40 },
};
const by = {
  chartedMetres: 4,
  tide: { kind: "stated" as const, lowestMetres: 0.2, highestMetres: 1.5 },
  draughtMetres: 1.7,
  wavesMetres: null,
};
const depths = depthsOfStay(4, by.tide, T0, T0 + HOUR);
const weather = (hour: number, knots: number, from: number, outside: number | null = 1): WeatherAtAnchor => ({
  kind: "known",
  at: T0 + hour * HOUR,
  ends: [wind(knots, from)],
  gustMps: kn(knots * 1.3),
  outside: outside === null ? null : { heightMetres: outside, periodSeconds: 7, fromDegTrue: null },
});
const look = (...args: Parameters<typeof weather>): LookAtAnchor => lookAtAnchor(weather(...args), byCoast, by);
const night = (changes: Partial<StatedAnchorage>, looks: readonly LookAtAnchor[] = [look(0, 10, 0), look(1, 12, 0)]): NightAtAnchor =>
  nightAtAnchor({ ...stated, ...changes }, boat, looks, depths, []);

describe("a look at anchor", () => {
  it("has under the keel what is left of depth, draught and the sea there, or what is told to be allowed", () => {
    const here = look(0, 10, 0);
    const sea = here.kind === "known" && here.sea.kind !== "unknown" ? here.sea.heightMetres : Number.NaN;
    expect(here.water?.underKeelMetres).toBeCloseTo(4.2 - 1.7 - sea, 9);
    expect(lookAtAnchor(weather(0, 10, 0), byCoast, { ...by, wavesMetres: 0.5 }).water?.underKeelMetres).toBeCloseTo(2, 9);
  });

  it("keeps the sea outside beside it where swell may come in, and none where it can't or is counted already", () => {
    expect(look(0, 10, 0)).toMatchObject({ outsideMetres: 1 });
    expect(look(0, 10, 180)).toMatchObject({ outsideMetres: null });
    expect(lookAtAnchor(weather(0, 10, 0), { openTo: [], fetchMetres: 500, rose: bay }, by)).toMatchObject({ outsideMetres: null });
  });
});

describe("a night at anchor", () => {
  it("holds where nothing speaks against it", () => {
    expect(night({})).toMatchObject({ verdict: "holds", faults: [], notJudged: [], leftOut: ["room"] });
  });

  it("is untenable for each reason, the worst of each kind with its time", () => {
    const looks = [look(0, 12, 180, 0.8), look(1, 20, 180, 2), look(2, 16, 180, 1.2)];
    const kinds = (changes: Partial<StatedAnchorage>) => night(changes, looks).faults;
    expect(kinds({ neverSeaMetres: 0.5, underKeelMetres: 0 })).toMatchObject([{ kind: "sea", at: T0 + HOUR, metres: 2 }]);
    expect(kinds({ neverWindMps: kn(14), underKeelMetres: 0 })).toMatchObject([{ kind: "wind", at: T0 + HOUR, mps: kn(20) }]);
    expect(kinds({ neverGustMps: kn(14), underKeelMetres: 0 })).toMatchObject([{ kind: "gust", at: T0 + HOUR }]);
    expect(kinds({})).toMatchObject([{ kind: "depth", at: T0 + HOUR, underKeelMetres: expect.closeTo(0.5, 9), leastMetres: 1 }]);
    expect(kinds({ underKeelMetres: 0, roomMetres: 30 })).toMatchObject([{ kind: "swing", roomMetres: 30 }]);
    expect(night({}, looks).verdict).toBe("untenable");
  });

  it("is not untenable for a short rode as long as there is more and room for it; else it is", () => {
    const blowing = [look(0, 30, 0)];
    const short = { rodeOutMetres: 20, scope: null };
    expect(night(short, blowing)).toMatchObject({ verdict: "holds", rode: { from: "stated" } });
    expect(night({ ...short, roomMetres: 35 }, blowing).faults).toMatchObject([{ kind: "lift" }]);
    const bare = nightAtAnchor(
      { ...stated, ...short },
      { ...boat, groundTackle: { chainMetres: 20, chainDiameterMetres: 0.01, ropeMetres: 0 } },
      blowing,
      depths,
      [],
    );
    expect(bare.faults).toMatchObject([{ kind: "lift", leadDeg: expect.any(Number) }]);
  });

  it("is never said to hold where weather, shelter, the sea outside or the depth is not known", () => {
    const where = stated.position;
    const why: NoAnswer = {
      kind: "noAnswer",
      code: "not-covered-time",
      quantity: "windMps",
      at: T0 + HOUR,
      where,
      coveredFrom: T0,
      coveredUntil: T0,
    };
    const dark = lookAtAnchor({ kind: "unknown", at: T0 + HOUR, why }, byCoast, by);
    expect(night({}, [look(0, 10, 0), dark])).toMatchObject({ verdict: "notJudged", notJudged: [{ kind: "weather" }] });
    const blind = lookAtAnchor(weather(0, 10, 0), { openTo: [], fetchMetres: null, rose: null }, by);
    expect(night({}, [blind])).toMatchObject({ verdict: "notJudged", notJudged: [{ kind: "shelter", at: T0 }] });
    expect(night({ underKeelMetres: 0 }, [look(0, 10, 180, null)])).toMatchObject({
      verdict: "notJudged",
      notJudged: [{ kind: "seaOutside" }],
    });
    const noDepth = nightAtAnchor(stated, boat, [lookAtAnchor(weather(0, 10, 0), byCoast, null)], null, [
      { kind: "notStated", what: "tide" },
    ]);
    expect(noDepth).toMatchObject({ verdict: "notJudged", depths: null, rode: null });
  });
});

describe("nights compared", () => {
  const seconds = new Map<string, number>();
  const compare = (...nights: readonly NightAtAnchor[]) => {
    const found = compareNights(nights, ({ anchorage }) => seconds.get(anchorage.name) ?? null);
    return { order: found.ranked.map(({ anchorage }) => anchorage.name), winner: found.winner?.anchorage.name ?? null, why: found.why };
  };
  const rough = [look(0, 12, 180, 0.8)];

  it("name one that holds before any that doesn't, and say so", () => {
    expect(compare(night({ name: "A", neverSeaMetres: 0.1 }, rough), night({ name: "B", underKeelMetres: 0 }))).toEqual({
      order: ["B", "A"],
      winner: "B",
      why: { by: "verdict" },
    });
  });

  it("name none where none is known to hold", () => {
    expect(compare(night({ name: "A", neverSeaMetres: 0.1 }, rough), night({ name: "B", neverSeaMetres: 0.1 }, rough))).toEqual({
      order: ["A", "B"],
      winner: null,
      why: null,
    });
  });

  it("put the lower sea first, then the one without swell, then the nearer, and else what is listed first", () => {
    expect(compare(night({ name: "A", underKeelMetres: 0 }, rough), night({ name: "B" })).why).toMatchObject({
      by: "sea",
      otherMetres: 0.8,
    });
    const lee = lookAtAnchor(weather(0, 10, 0), { openTo: [], fetchMetres: 2 * NM, rose: null }, by);
    expect(compare(night({ name: "A" }, [look(0, 10, 0)]), night({ name: "B" }, [lee]))).toMatchObject({
      winner: "B",
      why: { by: "swell", otherMetres: 1 },
    });
    seconds.set("C", 3600).set("D", 1200);
    expect(compare(night({ name: "C" }), night({ name: "D" }))).toMatchObject({
      winner: "D",
      why: { by: "way", seconds: 1200, otherSeconds: 3600 },
    });
    expect(compare(night({ name: "A" }), night({ name: "B" }))).toMatchObject({ winner: "A", why: { by: "nothing" } });
    expect(compare(night({ name: "A" }))).toMatchObject({ winner: "A", why: null });
  });
});
