import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { epochSeconds } from "../../src/core/units/index.ts";
import { curveOf, madeStation } from "../core/water/tide/made-station.ts";

/* NOAA, CO-OPS, station 9447130 Seattle (public domain): its constants and datums, and the water that its gauge saw in January 2015, six-minute, metres above MLLW. */
const data = process.env["ATHWART_REAL_DATA"];
if (!data) console.warn("SKIPPED: a month of observed water (ATHWART_REAL_DATA is not set)");

interface Recorded {
  readonly interactions: readonly {
    readonly request: { readonly uri: string };
    readonly response: { readonly body: { readonly string: string } };
  }[];
}
interface Meta {
  readonly stations: readonly {
    readonly datums: { readonly datums: readonly { readonly name: string; readonly value: number }[] };
    readonly harmonicConstituents: {
      readonly HarmonicConstituents: readonly { readonly name: string; readonly amplitude: number; readonly phase_GMT: number }[];
    };
  }[];
}

describe.skipIf(!data)("water that was observed", () => {
  it("Seattle, January 2015: the tide leaves a residue of weather only, and stands nowhere in time but at nought", () => {
    const { interactions } = parse(
      readFileSync(join(data ?? "", "tides/noaa_seattle_9447130_waterlevel_201501_vcr.yaml"), "utf8"),
    ) as Recorded;
    const body = (part: string): string => interactions.find(({ request }) => request.uri.includes(part))?.response.body.string ?? "";
    const [station] = (JSON.parse(body("mdapi")) as Meta).stations;
    const { data: observed } = JSON.parse(body("product=water_level")) as { data: { t: string; v: string }[] };
    const level = (name: string) => station?.datums.datums.find((one) => one.name === name)?.value ?? Number.NaN;
    const feet = 0.3048;
    const constants = Object.fromEntries(
      (station?.harmonicConstituents.HarmonicConstituents ?? []).map(({ name, amplitude, phase_GMT }) => [
        name,
        [amplitude * feet, phase_GMT] as const,
      ]),
    );
    const curve = curveOf(madeStation(constants, (level("MSL") - level("MLLW")) * feet));
    const seen = observed
      .filter(({ v }) => v !== "")
      .map(({ t, v }) => ({ at: Date.parse(`${t.replace(" ", "T")}Z`) / 1000, metres: Number(v) }));
    expect(seen.length).toBeGreaterThan(7000);
    const residue = (laterSeconds: number) => {
      const off = seen.map(({ at, metres }) => metres - curve.heightAt(epochSeconds(at - laterSeconds)));
      const mean = off.reduce((sum, one) => sum + one, 0) / off.length;
      return { mean, spread: Math.sqrt(off.reduce((sum, one) => sum + (one - mean) ** 2, 0) / off.length) };
    };
    const { mean, spread } = residue(0);
    const range = Math.max(...seen.map(({ metres }) => metres)) - Math.min(...seen.map(({ metres }) => metres));
    // Air pressure and wind of a winter month: decimetres, beside a range of more than four metres.
    expect(range).toBeGreaterThan(4);
    expect(Math.abs(mean)).toBeLessThan(0.2);
    expect(spread).toBeLessThan(0.15);
    const lags = [-30, -18, -12, -6, 0, 6, 12, 18, 30];
    const best = lags.reduce((a, b) => (residue(b * 60).spread < residue(a * 60).spread ? b : a));
    expect(Math.abs(best)).toBeLessThanOrEqual(6);
    expect(residue(18 * 60).spread).toBeGreaterThan(spread);
    console.log(`Seattle, January 2015: mean ${mean.toFixed(3)} m, spread ${spread.toFixed(3)} m, best lag ${best} min`);
  });
});
