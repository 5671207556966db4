import { describe, expect, it } from "vitest";
import { harbourLegs, legsHome, type Passage, planeOf } from "../../../src/core/plan/index.ts";
import { readPassage } from "../../../src/formats/passage/index.ts";

const TEXT = `
athwart: passage/1
name: Stillwater
zones: {ship: UTC}
boat: {name: Wren, goes: power, power: {speed: 6 kn}}
route:
  from: {name: South Mark, position: 44 42.0N 40 00.0W}
  to: {name: North Mark, position: 45 18.0N 40 00.0W}
  pilotageOut: {speed: 4 kn, points: [44 41.0N 40 00.0W]}
  pilotageIn: {speed: 4 kn, points: [45 20.0N 40 00.0W]}
water: {sources: [{uniform: {set: 0, rate: 0 kn}}]}
weather: {sources: [{periods: [{from: 2026-06-01 0000, until: 2026-06-12 0000, wind: S 5}]}]}
limits: {wind: {happy: 12 kn, never: 20 kn}}
gates:
  - {name: the inlet, on: out, light: daylight}
  - {name: the lock, on: in, at: 0.4 nm, opens: [{from: 0700, until: 1900}]}
  - {name: the basin, on: in, at: 20 min, opens: [{from: 0700, until: 1900}]}
  - {name: the office, on: in, opens: [{from: 0900, until: 1200}], office: {ashore: 10 min}}
`;
function passage(): Passage {
  const read = readPassage(TEXT, { name: "stillwater.yaml" });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value.passage;
}
const stops = (chain: ReturnType<typeof harbourLegs>["gates"]["out"]): readonly [string, number][] =>
  (chain?.stops ?? []).map((stop) => [stop.gate.name, Math.round(stop.afterSeconds / 60)]);

describe("the gates of a passage", () => {
  const fitted = planeOf(passage());
  if (!fitted.ok) throw new Error(JSON.stringify(fitted.issues));
  const plane = fitted.value;

  it("stand on their legs at the minutes on the way to them", () => {
    const { gates } = harbourLegs(plane, passage());
    // A mile out and two in at 4 kn: a quarter of an hour and half an hour.
    expect(stops(gates.out)).toEqual([["the inlet", 15]]);
    expect(stops(gates.into)).toEqual([
      ["the lock", 6],
      ["the basin", 20],
      ["the office", 40],
    ]);
  });

  it("are met the other way about on the way home, without the office", () => {
    const { gates, out, into } = legsHome(plane, passage());
    expect(stops(gates.out)).toEqual([
      ["the basin", 10],
      ["the lock", 24],
    ]);
    expect(stops(gates.into)).toEqual([["the inlet", 0]]);
    expect(out?.points[0]?.latitudeDeg).toBeCloseTo(45 + 20 / 60, 9);
    expect(into?.points[0]?.latitudeDeg).toBeCloseTo(44 + 42 / 60, 9);
  });
});
