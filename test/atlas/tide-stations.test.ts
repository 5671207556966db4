import { readFileSync } from "node:fs";
import { stations } from "@neaps/tide-database";
import { describe, expect, it } from "vitest";
import { openTideStations, readWorldTides, TIDE_FACTS } from "../../src/atlas/index.ts";
import { parseZone } from "../../src/core/calendar/index.ts";
import { geodesicBetween } from "../../src/core/earth/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { tideCurve } from "../../src/core/water/index.ts";

const atlas = readWorldTides();
const bytes = (): Uint8Array => new Uint8Array(readFileSync(new URL("../../src/atlas/data/tides.bin", import.meta.url)));
const tides = stations.filter(({ kind }) => kind === "tide");
const [from, until] = [epochSeconds(Date.UTC(2027, 3, 1) / 1000), epochSeconds(Date.UTC(2027, 3, 4) / 1000)];

describe("the tide stations that ship", () => {
  it("are one file below 1 MB, credited in the notice, and its facts told", () => {
    expect(bytes().length).toBeLessThan(1_000_000);
    const notice = readFileSync(new URL("../../src/atlas/data/NOTICE.md", import.meta.url), "utf8");
    for (const words of ["Hart-Davis", "Kartverket", "CC BY 4.0", "GeoNames", "Marine Regions"]) expect(notice).toContain(words);
    expect(atlas.count).toBe(TIDE_FACTS.harmonicCount + TIDE_FACTS.secondaryCount);
  });

  it("are all of the set that may be used for everything and have a tide, and only those, counted", () => {
    const free = tides.filter(({ license }) => license.commercial_use);
    expect(tides.length - free.length).toBe(TIDE_FACTS.leftOut.notFree);
    const without = free.filter(({ type, harmonic_constituents: own }) => type === "reference" && own.length === 0);
    expect(without.length).toBe(TIDE_FACTS.leftOut.noConstants);
    const missing = free.filter(({ id }) => atlas.station(id) === null);
    expect(missing.length).toBe(TIDE_FACTS.leftOut.noConstants + TIDE_FACTS.leftOut.noMeanLevel);
    expect(free.filter(({ id }) => atlas.station(id) !== null).length).toBe(atlas.count);
    for (const { id } of tides.filter(({ license }) => !license.commercial_use)) expect(atlas.station(id)).toBeNull();
  });

  it("have each a position, a datum, a zone that is known, a credit, a licence, and constants that all are known", () => {
    const zones = new Set<string>();
    for (const given of tides) {
      const station = atlas.station(given.id);
      if (station === null) continue;
      expect(Math.abs(station.position.latitudeDeg - given.latitude)).toBeLessThan(6e-6);
      expect(Math.abs(station.position.longitudeDeg - given.longitude)).toBeLessThan(6e-6);
      expect([station.name, station.credit, station.datum]).toEqual([given.name, given.attribution, given.chart_datum]);
      expect(["CC BY 4.0", "public domain"]).toContain(station.licence);
      zones.add(station.zone);
      const constants = atlas.constants(given.id);
      expect(constants === null).toBe(given.type === "subordinate");
      if (constants === null) continue;
      const curve = tideCurve(constants);
      expect(curve.ok ? [] : curve.issues.map(({ message }) => message)).toEqual([]);
      const strongest = given.harmonic_constituents.reduce((a, b) => (b.amplitude > a.amplitude ? b : a));
      const kept = constants.constants.reduce((a, b) => (b.amplitudeMetres > a.amplitudeMetres ? b : a));
      expect(Math.abs(kept.amplitudeMetres - strongest.amplitude)).toBeLessThan(6e-5);
      const datum = given.datums[given.chart_datum ?? ""] ?? Number.NaN;
      expect(Math.abs(constants.meanLevelMetres - ((given.datums["MSL"] ?? Number.NaN) - datum))).toBeLessThan(6e-5);
    }
    for (const zone of zones) expect(parseZone(zone, "zone").ok, zone).toBe(true);
  });

  it("tell secondary ports from their reference, with its differences", () => {
    for (const given of tides.filter(({ type }) => type === "subordinate").filter((_, i) => i % 50 === 0)) {
      const station = atlas.station(given.id);
      expect(station?.referenceId).toBe(given.offsets?.reference);
      const tide = atlas.tide(given.id);
      const reference = atlas.tide(station?.referenceId ?? "");
      if (!tide.ok || !reference.ok) throw new Error(`no tide at ${given.id}`);
      expect(tide.value.reference?.id).toBe(station?.referenceId);
      const high = tide.value.highsAndLows(from, until).find(({ kind }) => kind === "high");
      const laterSeconds = (given.offsets?.time.high ?? 0) * 60;
      const own = reference.value
        .highsAndLows(epochSeconds(from - 86_400), epochSeconds(until + 86_400))
        .find(({ kind, at }) => kind === "high" && Math.abs(at + laterSeconds - (high?.at ?? 0)) < 1);
      const { type, high: by } = given.offsets!.height;
      const expected = type === "ratio" ? (own?.heightMetres ?? Number.NaN) * by : (own?.heightMetres ?? Number.NaN) + by;
      expect(Math.abs((high?.heightMetres ?? 0) - expected)).toBeLessThan(1e-3);
    }
  });
});

describe("finding tide stations", () => {
  it("gives the nearest as measuring every one does, over 180° and at the poles too", () => {
    const all = tides.flatMap(({ id }) => atlas.station(id) ?? []);
    for (const position of [
      { latitudeDeg: 48.1, longitudeDeg: -123.4 },
      { latitudeDeg: -17, longitudeDeg: 179.99 },
      { latitudeDeg: -17, longitudeDeg: -179.99 },
      { latitudeDeg: 89.9, longitudeDeg: 0 },
      { latitudeDeg: -60, longitudeDeg: -120 },
      { latitudeDeg: 36.1, longitudeDeg: -5.4 },
    ]) {
      const near = atlas.near(position, 6);
      const measured = all.map((station) => geodesicBetween(position, station.position).distanceMetres).sort((a, b) => a - b);
      near.forEach(({ distanceMetres }, i) => {
        expect(distanceMetres).toBeCloseTo(measured[i] ?? 0, 6);
      });
      expect(near).toHaveLength(6);
    }
  });

  it("gives those of a name, of a name with its region, or one that may be meant", () => {
    expect(atlas.named("Monterey").stations.map(({ region }) => region)).toContain("CA");
    expect(atlas.named("alesund").stations.map(({ name }) => name)).toContain("Ålesund");
    expect(atlas.named("noaa/9413450").stations.map(({ name }) => name)).toEqual(["Monterey"]);
    const inState = atlas.named("portland ME").stations;
    expect(inState.length).toBeGreaterThan(0);
    for (const { region } of inState) expect(region).toBe("ME");
    expect(atlas.named("Monteray")).toMatchObject({ stations: [], meant: "Monterey" });
    expect(atlas.named("  ").stations).toEqual([]);
  });

  it("throws on bytes that are none, that break off, and on a station that isn't there", () => {
    expect(() => openTideStations(new Uint8Array(64))).toThrow("no packed tide stations");
    expect(() => openTideStations(bytes().subarray(0, 5000))).toThrow("5000 bytes");
    expect(() => atlas.tide("nowhere/1")).toThrow("nowhere/1");
    expect(atlas.constants("nowhere/1")).toBeNull();
  });
});
