import { describe, expect, it } from "vitest";
import { DAYLIGHT_ALTITUDE_DEG } from "../../../src/core/plan/index.ts";
import { UNDER_KEEL_IF_LEFT_OUT_METRES } from "../../../src/formats/passage/index.ts";
import { EXAMPLE } from "./example.ts";
import { changed, good, issuesOf } from "./fixture.ts";

const with_ = (refuges: string): string => changed(EXAMPLE, "limits:  ", `refuges:\n${refuges}\nlimits:  `);
const WHOLE = `  - name: Lantern Cove
    position: 17 44.8S 149 48.0W
    enter: daylight
    zone: UTC-9
    never: {wind: 25 kn, gust: 32 kn, sea: 4 ft}
    depth: 10'6"
    underKeel: 2 ft
    pilotage: 25 min
    notes: "Leading lights 041: the second is unlit."`;

describe("the refuges of a passage file", () => {
  it("are read in SI with what is left out as said", () => {
    const { refuges } = good(with_(`${WHOLE}\n  - {name: B, position: 17 40S 149 30W, enter: any, depth: -0.4 m}`)).passage;
    const [cove, b] = refuges?.listed ?? [];
    expect(refuges).toMatchObject({ fromCounts: true, toCounts: true });
    expect(cove).toEqual({
      name: "Lantern Cove",
      position: { latitudeDeg: expect.closeTo(-(17 + 44.8 / 60), 9), longitudeDeg: expect.closeTo(-149.8, 9) },
      zone: "UTC-9",
      entrance: {
        sunAboveDeg: DAYLIGHT_ALTITUDE_DEG,
        neverWindMps: expect.closeTo((25 * 1852) / 3600, 9),
        neverGustMps: expect.closeTo((32 * 1852) / 3600, 9),
        neverSeaMetres: expect.closeTo(4 * 0.3048, 9),
        chartedDepthMetres: expect.closeTo(10.5 * 0.3048, 9),
        underKeelMetres: expect.closeTo(2 * 0.3048, 9),
      },
      pilotageSeconds: 1500,
      notes: "Leading lights 041: the second is unlit.",
    });
    expect(b).toMatchObject({
      zone: null,
      pilotageSeconds: null,
      notes: null,
      entrance: { sunAboveDeg: null, neverWindMps: null, chartedDepthMetres: -0.4, underKeelMetres: UNDER_KEEL_IF_LEFT_OUT_METRES },
    });
  });

  it("may leave an end of the route out, and need not be there at all", () => {
    const text = changed(EXAMPLE, "position: 17 32.4S 149 50.2W}", "position: 17 32.4S 149 50.2W, refuge: no}");
    expect(good(text).passage.refuges).toEqual({ listed: [], fromCounts: false, toCounts: true });
  });

  it.each([
    ["enter: daylight", "enter: dusk", "refuges[0].enter", "unknown-word"],
    ["    enter: daylight\n", "", "refuges[0].enter", "missing-key"],
    ["wind: 25 kn", "wind: 25", "refuges[0].never.wind", "unit-missing"],
    ["{wind: 25 kn, gust: 32 kn, sea: 4 ft}", "{}", "refuges[0].never", "empty-value"],
    ["149 48.0W", "149 48.0E", "refuges[0].position", "place-far-off"],
    [`    depth: 10'6"\n`, "", "refuges[0].underKeel", "key-out-of-place"],
    ["pilotage: 25 min", "pilotage: 25", "refuges[0].pilotage", "unit-missing"],
    ["zone: UTC-9", "zone: EST", "refuges[0].zone", "zone-unknown"],
    ["name: Lantern Cove", "title: Lantern Cove", "refuges[0].title", "unknown-key"],
  ])("%s made %s is told at %s: %s", (from, to, path, code) => {
    const issues = issuesOf(with_(changed(WHOLE, from, to)));
    expect(issues.map((one) => [one.path, one.code])).toContainEqual([path, code]);
    for (const one of issues) expect(one.message).toMatch(/^line \d+: /);
  });

  it("can't have a depth without a draught, nor one name twice", () => {
    const text = with_(`${WHOLE}\n${WHOLE}`).replace("  draught: 1.7 m\n", "");
    expect(issuesOf(text).map((one) => [one.path, one.code])).toEqual([
      ["refuges[0].depth", "missing-key"],
      ["refuges[1].name", "name-twice"],
      ["refuges[1].depth", "missing-key"],
    ]);
  });
});
