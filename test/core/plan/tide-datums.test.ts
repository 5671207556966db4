import { describe, expect, it } from "vitest";
import { prepare } from "../../../src/core/plan/index.ts";
import { readPassage } from "../../../src/formats/passage/index.ts";

const text = (datum: string): string => `
athwart: passage/1
name: Stillwater
invented: yes
boat: {name: Wren, goes: power, draught: 1.5 m, power: {speed: 6 kn}}
route:
  from: {name: South Mark, position: 44 42.0N 40 00.0W}
  to: {name: North Mark, position: 45 18.0N 40 00.0W}
water: {sources: [{uniform: {set: 0, rate: 0 kn}}]}
tides:
  - {name: the bar's, position: 44 42.0N 40 00.0W, datum: ${datum}, meanLevel: 1 m, constants: [{name: M2, amplitude: 1 m, phase: 10}]}
weather:
  sources: [{periods: [{from: 2027-05-20 0000 UTC, until: 2027-05-22 0000 UTC, wind: S 5, sea: 0.5 m @ 9 s}]}]
limits: {wind: {happy: 12 kn, never: 20 kn}}
depths: [{name: flats, on: in, depth: 2 m, datum: chart, tide: the bar's}]
gates:
  - {name: the bar, on: in, bar: {depth: 2 m, underKeel: 0.5 m, tide: the bar's}}
  - {name: the sill, on: out, sill: {depth: 2 m, underKeel: 0.5 m, tide: the bar's}}
`;

function prepared(datum: string) {
  const read = readPassage(text(datum), { name: "passage.yaml" });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return prepare(read.value.passage, { water: [null], weather: [null] });
}

describe("a computed tide and a charted depth", () => {
  it("are added where the heights are above a chart datum", () => {
    expect(prepared("LAT").ok).toBe(true);
    expect(prepared("MLLW").ok).toBe(true);
  });

  it("are not where they are above mean sea level or the gauge's own zero: every place is named", () => {
    for (const datum of ["MSL", "STND"]) {
      const made = prepared(datum);
      expect(made.ok ? [] : made.issues.map(({ path, code }) => `${path} ${code}`)).toEqual([
        "gates[0] tide-datum-differs",
        "gates[1] tide-datum-differs",
        "depths[0] tide-datum-differs",
      ]);
    }
  });
});
