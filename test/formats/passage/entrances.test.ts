import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { mpsFromKnots } from "../../../src/core/units/index.ts";
import { changed, good, issuesOf } from "./fixture.ts";

const EXAMPLE = readFileSync(new URL("../../../examples/letter-only/passage.yaml", import.meta.url), "utf8");
const WATERS = `
tides:
  - {name: Port Ansa, position: 33 50.0S 118 00.0W, datum: LAT, meanLevel: 1.3 m, constants: [{name: M2, amplitude: 0.7 m, phase: 148}]}
streams:
  - {name: the Cut, position: 33 50.0S 118 00.0W, flood: 335, constants: [{name: M2, rate: 1.9 kn, phase: 96}]}`;
const withGates = (gates: string): string => changed(EXAMPLE, "\nlimits:", `${WATERS}\ngates:\n${gates}\nlimits:`);
const needsOf = (gates: string) => good(withGates(gates)).passage.gates?.[0]?.needs;
const issues = (gates: string) => issuesOf(withGates(gates)).map(({ code, path }) => `${path} ${code}`);

describe("bars, cuts and computed sills in a passage file", () => {
  it("are read in SI", () => {
    const needs = needsOf(`  - name: the bar
    on: in
    stream: {of: the Cut, ebbNever: 2.2 kn, slack: 20 min}
    bar:
      depth: 2.1 m
      underKeel: 3 ft
      tide: Port Ansa
      sea: 1.6 m
      steepness: 1/20
      period: 9 s
      from: 160
      fetch: 20 nm
      windAgainst: 20 kn2
    byEye: {sunAbove: 25 deg, sunOffBow: 45 deg, course: 215}
    notes: two dog-legs`);
    expect(needs).toEqual([
      {
        kind: "entrance",
        entrance: {
          depth: {
            chartedDepthMetres: 2.1,
            draughtMetres: expect.any(Number),
            underKeelMetres: expect.closeTo(0.9144, 9),
            tide: "Port Ansa",
            waves: { kind: "seaOnBar" },
          },
          stream: { of: "the Cut", ebbNeverMps: mpsFromKnots(2.2), floodNeverMps: null, slackWithinSeconds: 1200 },
          sea: { neverHeightMetres: 1.6, neverSteepness: 0.05, periodSeconds: 9, fromDegTrue: 160, fetchMetres: 20 * 1852 },
          windAgainstEbbNeverMps2: expect.closeTo(20 * mpsFromKnots(1) ** 2, 9),
          eye: { sunAboveDeg: 25, offBow: { courseDegTrue: 215, leastDeg: 45 } },
        },
      },
    ]);
    const never = needsOf("  - {name: a, on: out, stream: {of: the Cut, never: 2 kn}, light: daylight}");
    expect(never).toEqual([
      { kind: "light", sunAboveDeg: -6 },
      {
        kind: "entrance",
        entrance: expect.objectContaining({
          stream: { of: "the Cut", ebbNeverMps: mpsFromKnots(2), floodNeverMps: mpsFromKnots(2), slackWithinSeconds: null },
          depth: null,
          sea: null,
        }),
      },
    ]);
  });

  it("have a sill's tide computed, without waves unless they are stated", () => {
    const sill = (waves: string) => needsOf(`  - {name: a, on: in, sill: {depth: -0.4 m, underKeel: 0.3 m, tide: Port Ansa${waves}}}`)?.[0];
    expect(sill("")).toMatchObject({
      kind: "entrance",
      entrance: { depth: { chartedDepthMetres: -0.4, waves: { kind: "none" } }, sea: null },
    });
    expect(sill(", waves: 0.2 m")).toMatchObject({ entrance: { depth: { waves: { kind: "stated", metres: 0.2 } } } });
  });

  it("name the nearest right name for one that there isn't", () => {
    const [issue] = issuesOf(withGates("  - {name: a, on: in, sill: {depth: 1 m, underKeel: 0.3 m, tide: Port Anza}}"));
    expect(issue).toMatchObject({ path: "gates[0].sill.tide", code: "name-unknown" });
    expect(issue?.message).toContain("did you mean “Port Ansa”?");
    const [stream] = issuesOf(withGates("  - {name: a, on: in, stream: {of: Gull, never: 2 kn}}"));
    expect(stream?.message).toContain("it has “the Cut”");
    const [none] = issuesOf(changed(EXAMPLE, "\nlimits:", "\ngates:\n  - {name: a, on: in, stream: {of: Gull, never: 2 kn}}\nlimits:"));
    expect(none?.message).toContain("the passage has no `streams`");
  });

  it("say everything that is wrong at once", () => {
    expect(
      issues(`  - name: a
    on: in
    bar: {depth: 2 m, underKeel: 0.5 m, tide: nowhere, sea: high, steepness: steep, period: 0 s, from: 400, windAgainst: 20 kn2}
  - name: b
    on: in
    sill: {depth: 1 m, underKeel: 0.3 m, tide: Port Ansa, heights: [{at: 2027-04-08 1200 UTC, height: 1 m}, {at: 2027-04-08 1300 UTC, height: 1 m}]}
  - name: c
    on: in
    sill: {depth: 1 m, underKeel: 0.3 m}
  - name: d
    on: in
    stream: {of: the Cut}
  - name: e
    on: in
    stream: {of: the Cut, never: 2 kn, ebbNever: 1 kn}
  - name: f
    on: in
    byEye: {sunAbove: 25 deg, sunOffBow: 45 deg}
  - name: g
    on: in
    sill: {depth: 1 m, underKeel: 0.3 m, tide: Port Ansa}
    bar: {depth: 2 m, underKeel: 0.5 m, tide: Port Ansa, fetch: 5 nm}
  - name: h
    on: in
    bar: {depth: 2 m, tide: Port Ansa}`),
    ).toEqual([
      "gates[0].bar.tide name-unknown",
      "gates[0].bar.sea quantity-not-understood",
      "gates[0].bar.steepness quantity-not-understood",
      "gates[0].bar.period out-of-range",
      "gates[0].bar.from out-of-range",
      "gates[0].bar.windAgainst key-out-of-place",
      "gates[1].sill choose-one",
      "gates[2].sill choose-one",
      "gates[3].stream gate-never-opens",
      "gates[4].stream.ebbNever choose-one",
      "gates[5].byEye missing-key",
      "gates[6].bar choose-one",
      "gates[6].bar.fetch key-out-of-place",
      "gates[7].bar.underKeel missing-key",
    ]);
  });

  it("want the boat's draught", () => {
    const without = (gate: string) =>
      issuesOf(changed(withGates(gate), /\n {2}draught:[^\n]*/.exec(EXAMPLE)?.[0] ?? "", "")).map(({ code, path }) => `${path} ${code}`);
    expect(without("  - {name: a, on: in, bar: {depth: 2 m, underKeel: 0.5 m, tide: Port Ansa}}")).toEqual(["gates[0].bar missing-key"]);
    expect(without("  - {name: a, on: in, sill: {depth: 2 m, underKeel: 0.5 m, tide: Port Ansa}}")).toEqual(["gates[0].sill missing-key"]);
  });
});

describe("the tide of a depth", () => {
  const withDepth = (tide: string, datum = "chart"): string =>
    changed(EXAMPLE, "\nlimits:", `${WATERS}\ndepths: [{name: flats, on: in, depth: 2 m, datum: ${datum}, tide: ${tide}}]\nlimits:`);

  it("is a computed one by name, or a height", () => {
    expect(good(withDepth("Port Ansa")).passage.depths).toMatchObject([{ tide: "Port Ansa", tideAboveChartDatumMetres: null }]);
    expect(good(withDepth("0.4 m")).passage.depths).toMatchObject([{ tideAboveChartDatumMetres: 0.4 }]);
    expect(good(withDepth("0.4 m")).passage.depths?.[0]).not.toHaveProperty("tide");
  });

  it("is asked about where it is neither", () => {
    const along = (at: string) => good(withDepth(`Port Ansa, at: ${at}`)).passage.depths?.[0]?.along;
    expect([along("1 nm"), along("berth")]).toEqual([1852, "berth"]);
    expect(issuesOf(withDepth("0.4 m, at: 1 nm"))[0]).toMatchObject({ path: "depths[0].at", code: "key-out-of-place" });
    expect(issuesOf(withDepth("Port Anza"))[0]).toMatchObject({ path: "depths[0].tide", code: "name-unknown" });
    expect(issuesOf(withDepth("40 apples"))[0]).toMatchObject({ path: "depths[0].tide" });
    expect(issuesOf(withDepth("Port Ansa", "unknown"))[0]).toMatchObject({ path: "depths[0].tide", code: "key-out-of-place" });
  });
});
