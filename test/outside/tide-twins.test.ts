import { allStations } from "@neaps/tide-database";
import { describe, expect, it } from "vitest";
import { readWorldTides } from "../../src/atlas/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { findConstituent } from "../../src/core/water/index.ts";
import { curveOf, madeStation } from "../core/water/tide/made-station.ts";

/*
 * Twins: stations of the global set TICON-4 within 2 km of a station whose constants a national office publishes (NOAA, Kartverket). Both tell the same
 * water, so their phases must agree where the arguments do. They show which of TICON-4's constituents have other quarter turns.
 */
type Station = (typeof allStations)[number];
const harmonic = allStations.filter(
  ({ kind, type, harmonic_constituents: own }) => kind === "tide" && type === "reference" && own.length > 0,
);
const global = harmonic.filter(({ source }) => source.name === "TICON-4");
const official = harmonic.filter(({ source }) => source.name !== "TICON-4");
const near = (one: Station, other: Station) => {
  const east = (one.longitude - other.longitude) * Math.cos((one.latitude * Math.PI) / 180);
  return Math.hypot(one.latitude - other.latitude, east) < 2 / 111;
};
const twins = official.flatMap((office) => {
  const twin = global.find((station) => near(office, station));
  return twin === undefined ? [] : [{ office, twin }];
});

/** The mean of the global phase less the official one, degrees, weighted by amplitude, and how far they are of one mind (0 to 1). */
function phaseOff(globalName: string, officialNames: readonly string[], leastMetres: number) {
  let [cos, sin, weight, count] = [0, 0, 0, 0];
  for (const { office, twin } of twins) {
    const there = office.harmonic_constituents.find(({ name }) => officialNames.includes(name));
    const here = twin.harmonic_constituents.find(({ name }) => name === globalName);
    if (there === undefined || here === undefined || there.amplitude < leastMetres || here.amplitude < leastMetres) continue;
    const off = ((here.phase - there.phase) * Math.PI) / 180;
    cos += there.amplitude * Math.cos(off);
    sin += there.amplitude * Math.sin(off);
    weight += there.amplitude;
    count++;
  }
  return { degrees: (Math.atan2(sin, cos) * 180) / Math.PI, unity: Math.hypot(cos, sin) / weight, count };
}

describe("twins of the global set and national offices", () => {
  it("agree in phase on what both take from the same list", () => {
    expect(twins.length).toBeGreaterThan(500);
    for (const name of ["M2", "S2", "N2", "K2", "K1", "O1", "P1", "Q1", "M3", "M4", "M6", "MS4", "MN4", "S1", "SA", "J1", "L2", "T2"]) {
      const { degrees, unity, count } = phaseOff(name, [name], 0.003);
      expect(count, name).toBeGreaterThan(60);
      expect(unity, name).toBeGreaterThan(0.85);
      expect(Math.abs(degrees), name).toBeLessThan(6);
    }
  });

  it.each([
    ["SGM", ["SIGMA1", "sigma1"], 180, 12],
    ["R3", ["SK3"], -90, 12],
    ["2MK5", ["2MK5"], -90, 12],
    ["2MO5", ["2MO5"], 90, 12],
    ["3N2", ["OQ2_KV"], 180, 25],
    ["M1", ["NO1"], -90, 25],
  ] as const)("stand apart by quarter turns in %s, which the atlas takes out", (name, names, expected, tolerance) => {
    const { degrees, unity, count } = phaseOff(name, names, 0.0005);
    expect(count).toBeGreaterThan(0);
    expect(unity).toBeGreaterThan(0.8);
    expect(Math.abs(((degrees - expected + 540) % 360) - 180)).toBeLessThan(tolerance);
    const asShipped = { SGM: "SGM", R3: "SK3", "2MK5": "2MK5", "2MO5": "2MO5", "3N2": "3N2", M1: "NO1" }[name];
    const atlas = readWorldTides();
    const kept = global.find(
      ({ id, harmonic_constituents: own }) => atlas.constants(id) !== null && own.some((one) => one.name === name && one.amplitude > 0.001),
    );
    const raw = kept?.harmonic_constituents.find((one) => one.name === name)?.phase ?? Number.NaN;
    const shipped = atlas.constants(kept?.id ?? "")?.constants.find((one) => one.name === asShipped)?.phaseDeg ?? Number.NaN;
    expect(((raw - shipped - expected + 540.01) % 360) - 180).toBeCloseTo(0, 1);
  });

  it("are nearer to each other with these turns taken out, at more of them than chance would have it", () => {
    const turns: Readonly<Record<string, readonly [string, number]>> = {
      SGM: ["SGM", 180],
      "3N2": ["3N2", 180],
      M1: ["NO1", 90],
      R3: ["SK3", 90],
      "2MK5": ["2MK5", 90],
      "2MO5": ["2MO5", -90],
    };
    const shortPeriod = (name: string) => (findConstituent(name)?.speedDegPerHour ?? 0) > 5;
    const curve = (station: Station, turned: boolean) =>
      curveOf(
        madeStation(
          Object.fromEntries(
            station.harmonic_constituents
              .filter(({ name }) => shortPeriod(name))
              .map(({ name, amplitude, phase }) => {
                const [as, by] = (turned ? turns[name] : undefined) ?? [name, 0];
                return [as, [amplitude, phase + by] as const];
              }),
          ),
        ),
      );
    let [better, worse] = [0, 0];
    for (const { office, twin } of twins.filter((_, i) => i % 4 === 0)) {
      const [truth, raw, turned] = [curve(office, false), curve(twin, false), curve(twin, true)];
      let [rawSum, turnedSum] = [0, 0];
      for (let hour = 0; hour < 60 * 24; hour += 7) {
        const at = epochSeconds(Date.UTC(2026, 3, 1, hour) / 1000);
        rawSum += (raw.heightAt(at) - truth.heightAt(at)) ** 2;
        turnedSum += (turned.heightAt(at) - truth.heightAt(at)) ** 2;
      }
      if (turnedSum < rawSum) better++;
      else worse++;
    }
    // The sign test: were it chance, the two would stand apart by three times the root of their number once in four hundred draws.
    expect(better - worse).toBeGreaterThan(3 * Math.sqrt(better + worse));
  });
});
