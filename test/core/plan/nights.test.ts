import { describe, expect, it } from "vitest";
import { isoDate } from "../../../src/core/calendar/index.ts";
import type { LandArea } from "../../../src/core/coast/index.ts";
import type { StatedAnchorage } from "../../../src/core/places/index.ts";
import { type Gathered, type NightsAnswer, nightsAtAnchor, type Passage, secondsToInlet } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import type { StatedTide } from "../../../src/core/water/index.ts";
import type { SeaPeriod, WindPeriod } from "../../../src/core/weather/index.ts";
import { clock } from "../window/setup.ts";
import { kn, prepared, tansy } from "./setup.ts";

const NM = 1852;
const HOUR = 3600;
const anchorage = (name: string, changes: Partial<StatedAnchorage> = {}): StatedAnchorage => ({
  name,
  position: { latitudeDeg: 34.05, longitudeDeg: -39.98 },
  night: "before",
  depthMetres: 4,
  tide: { kind: "stated", lowestMetres: 0.2, highestMetres: 1.5 },
  bottom: null,
  rodeOutMetres: null,
  scope: null,
  openTo: [],
  fetchMetres: null,
  roomMetres: null,
  toInlet: null,
  underKeelMetres: 0.5,
  wavesMetres: null,
  neverWindMps: null,
  neverGustMps: null,
  neverSeaMetres: null,
  notes: null,
  ...changes,
});

const blow = (from: number, until: number, dir: number, knots: number): WindPeriod => ({
  from: epochSeconds(clock(from)),
  until: epochSeconds(clock(until)),
  fromDegTrue: dir,
  arcDeg: 0,
  speedLowMps: kn(knots),
  speedHighMps: kn(knots),
  gustMps: kn(knots * 1.3),
});
const swell = (from: number, until: number, metres: number): SeaPeriod => ({
  from: epochSeconds(clock(from)),
  until: epochSeconds(clock(until)),
  heightLowMetres: metres,
  heightHighMetres: metres,
  periodLowSeconds: 7,
  periodHighSeconds: 7,
});

/** A straight shore: land to the north of 34°03.6' N, a mile north of the anchorages, and a reef that is kept out of a mile to their south. */
const shore: readonly LandArea[] = [
  { kind: "land", name: "the north shore", rings: [Float64Array.of(-41, 34.0667, -39, 34.0667, -39, 34.5, -41, 34.5)] },
  { kind: "keptOut", name: "a reef", rings: [Float64Array.of(-40.05, 34.03, -39.9, 34.03, -39.9, 34.035, -40.05, 34.035)] },
];
const onShore: Gathered = { water: [null], weather: [null], land: { coast: null, files: [{ file: "shore.geojson", areas: shore }] } };

/** Off the land until two in the night (UTC-3: 05 UTC of Friday), then off the sea. */
const veering = [blow(0, 29, 0, 18), blow(29, 60, 180, 18)];
const boat = {
  ...tansy,
  bowHeightMetres: 1.3,
  beamMetres: null,
  groundTackle: { chainMetres: 40, chainDiameterMetres: 0.01, ropeMetres: 30 },
};
const nights = (anchorages: readonly StatedAnchorage[], changes: Partial<Passage> = {}, gathered: Gathered = onShore): NightsAnswer =>
  nightsAtAnchor(
    prepared(
      {
        boat,
        anchorages,
        weatherSources: [{ kind: "periods", wind: veering, sea: [swell(0, 60, 1.4)] }],
        leaveFrom: epochSeconds(clock(33)),
        ...changes,
      },
      gathered,
    ),
    null,
  );

describe("the nights at anchor", () => {
  it("are those that the forecast reaches, by the clock: before the crossing from its eve, after it from its day", () => {
    const { nights: found } = nights([anchorage("A", { night: "both" })]);
    expect(found.map(({ side, date }) => `${side} ${isoDate(date)}`)).toEqual([
      "before 2026-06-04",
      "before 2026-06-05",
      "after 2026-06-05",
    ]);
    expect(found[0]?.from).toBe(clock(21));
    expect(found[0]?.until).toBe(clock(35));
    const { nights: one } = nights([anchorage("A", { night: "both" })], { leaveUntil: epochSeconds(clock(40)) });
    expect(one.map(({ side }) => side)).toEqual(["before", "after"]);
  });

  it("turn when the wind goes round from the land to the open sea: the hour is found, and the sea outside with it", () => {
    const lies = nights([anchorage("Pelu Road", { neverSeaMetres: 0.8 })]).nights[0]?.compared.ranked[0];
    expect(lies?.verdict).toBe("untenable");
    expect(lies?.faults).toMatchObject([{ kind: "sea", metres: 1.4, neverMetres: 0.8 }]);
    const open = lies?.looks.find((look) => look.kind === "known" && look.sea.kind !== "unknown" && look.sea.open);
    expect(open?.at).toBe(clock(29));
    const before = lies?.looks.filter(({ at }) => at < clock(29)) ?? [];
    for (const look of before) {
      if (look.kind !== "known" || look.sea.kind === "unknown") throw new Error("not known");
      // A mile of fetch square to the shore, somewhat more by the mean of the rays aslant.
      expect(look.sea.fetchMetres).toBeGreaterThan(0.98 * NM);
      expect(look.sea.fetchMetres).toBeLessThan(1.06 * NM);
      expect(look.sea.heightMetres).toBeLessThan(0.3);
      expect(look.outsideMetres).toBe(1.4);
    }
  });

  it("are not sheltered by a reef that is only kept out of", () => {
    const look = nights([anchorage("A")]).nights[1]?.compared.ranked[0]?.looks[4];
    expect(look).toMatchObject({ kind: "known", sea: { open: true } });
  });

  it("name where to lie: the cove that the skipper notes before the open road", () => {
    const { compared } =
      nights([anchorage("Road", { neverSeaMetres: 0.8 }), anchorage("Cove", { fetchMetres: 500, neverSeaMetres: 0.8 })]).nights[0] ?? {};
    expect(compared?.winner?.anchorage.name).toBe("Cove");
    expect(compared?.why).toEqual({ by: "verdict" });
  });

  it("are not judged where no coastline is reckoned and nothing is noted, where the place lies ashore, or after the forecast", () => {
    const bare = nights([anchorage("A")], {}, { water: [null], weather: [null] }).nights[0]?.compared;
    expect(bare?.winner).toBeNull();
    expect(bare?.ranked[0]?.notJudged).toMatchObject([{ kind: "shelter" }]);
    const ashore = nights([anchorage("A", { position: { latitudeDeg: 34.1, longitudeDeg: -39.98 } })]).nights[0]?.compared.ranked[0];
    expect(ashore?.notJudged).toMatchObject([{ kind: "shelter" }]);
    const late = nights([anchorage("A", { underKeelMetres: 0 })]).nights[1]?.compared.ranked[0];
    expect(late?.verdict).toBe("holds");
    const ended = nights([anchorage("A", { fetchMetres: 500 })], {
      weatherSources: [{ kind: "periods", wind: [blow(0, 30, 0, 10)], sea: [] }],
    });
    expect(ended.nights[0]?.compared.ranked[0]?.notJudged).toMatchObject([{ kind: "weather", why: { code: "not-covered-time" } }]);
  });

  it("take the tide by its name, its low water among the looks, and refuse one that is no chart's datum", () => {
    const tide = (datum: string): StatedTide => ({
      name: "Bar",
      told: {
        kind: "constants",
        station: {
          id: "bar",
          name: "Bar",
          position: { latitudeDeg: 34.05, longitudeDeg: -39.98 },
          zone: "UTC-3",
          credit: "",
          licence: "",
          datum,
          meanLevelMetres: 1.2,
          constants: [{ name: "M2", amplitudeMetres: 0.9, phaseDeg: 30 }],
        },
      },
    });
    const by = { tide: { kind: "named" as const, name: "Bar" }, wavesMetres: 0 };
    const lies = nights([anchorage("A", by)], { tides: [tide("LAT")] }).nights[0]?.compared.ranked[0];
    const least = lies?.depths?.least;
    expect(lies?.looks.map(({ at }) => at)).toContain(least?.at);
    expect(lies?.worst.water?.at).toBe(least?.at);
    expect(lies?.worst.water?.underKeelMetres).toBeCloseTo((least?.depthMetres ?? Number.NaN) - 1.7, 9);
    const refused = nights([anchorage("A", by)], { tides: [tide("MSL")] }).nights[0]?.compared.ranked[0];
    expect(refused).toMatchObject({ verdict: "notJudged", depths: null, notJudged: [{ kind: "datum", datum: "MSL" }] });
  });

  it("say what is not stated, and never guess it", () => {
    const none = nights([anchorage("A", { depthMetres: null, tide: null })], { boat: { ...boat, draughtMetres: null } }).nights[0]?.compared
      .ranked[0];
    expect(none?.notJudged).toMatchObject([
      { kind: "notStated", what: "depth" },
      { kind: "notStated", what: "draught" },
    ]);
    const tideless = nights([anchorage("A", { tide: null })]).nights[0]?.compared.ranked[0];
    expect(tideless?.notJudged).toMatchObject([{ kind: "notStated", what: "tide" }]);
  });

  it("reckon the way to the inlet from its length at the speed under power", () => {
    const { passage } = prepared({ boat });
    expect(secondsToInlet(anchorage("A", { toInlet: { kind: "metres", metres: 3 * NM } }), passage)).toBeCloseTo(HOUR / 2, 6);
    expect(secondsToInlet(anchorage("A", { toInlet: { kind: "seconds", seconds: 900 } }), passage)).toBe(900);
    expect(secondsToInlet(anchorage("A"), passage)).toBeNull();
  });
});
