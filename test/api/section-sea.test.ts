import { writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sectionTold, sectionToldOf } from "../../src/api/index.ts";
import { seaInWords } from "../../src/api/told/section/sea-in-words.ts";
import { stretchesFrom } from "../../src/api/told/section/stretches.ts";
import { type CrossAnswer, closeAt } from "../../src/core/plan/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { valueAt } from "../../src/figures/section/hull.ts";
import { demoNamed, openPassage } from "../../src/storage/index.ts";
import { temporaryFolders } from "../storage/temporary-folder.ts";

const newFolder = temporaryFolders();

/** A passage across a sketched stream of 3.2 kn, under a sea that stays the same. */
async function crossed(sea: string | null, limits: string, swell = ""): Promise<CrossAnswer> {
  const path = join(newFolder(), "passage.yaml");
  writeFileSync(
    path,
    `athwart: passage/1
name: T
zones: {ship: UTC-8}
boat: {name: B, goes: power, power: {speed: 6 kn}}
route:
  from: {name: A, position: 33 24.0S 118 57.0W}
  to: {name: Z, position: 33 48.7S 118 02.2W}
land: {coast: none}
water:
  whereUnknown: refuse
  sources:
    - sketch:
        at: 33 34.1S 118 34.7W
        axis: 215
        section:
          - {across: -36 nm, rate: 0 kn}
          - {across: -10 nm, rate: 0.8 kn, set: 215}
          - {across: 0 nm, rate: 3.2 kn, set: 215}
          - {across: 10 nm, rate: 0.8 kn, set: 215}
          - {across: 36 nm, rate: 0 kn}
weather: {sources: [{periods: [{from: 2027-05-10 0000, until: 2027-05-12 0000, wind: W ${sea === null ? "15" : `4, sea: ${sea}`}}]}]${swell}}
limits: {wind: {happy: 14 kn, never: 22 kn}${limits}}
`,
  );
  const opened = await openPassage(path);
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  return closeAt(opened.value.prepared, epochSeconds(Date.parse("2027-05-10T14:00Z") / 1000), null);
}

function seaOf(answer: CrossAnswer) {
  const section = sectionTold.parse(sectionToldOf(answer));
  if (section.sea === null) throw new Error("no sea");
  return { section, sea: section.sea };
}

const G = 9.80665;

/**
 * Waves of a height and a fixed place's period against a stream in deep water. Source: the dispersion of waves on a current,
 * (ω + kU)² = gk with U against them, and wave action, E (Cg − U)/σ the same on and off it; Mei, "The Applied Dynamics of Ocean Surface
 * Waves", ch. 3.6. Solved here by halving.
 */
function against(heightMetres: number, periodSeconds: number, rateKn: number): { heightMetres: number; steepness: number } {
  const omega = (2 * Math.PI) / periodSeconds;
  const rate = (rateKn * 1852) / 3600;
  let [least, most] = [(omega * omega) / G, (4 * omega * omega) / G];
  for (let i = 0; i < 80; i++) {
    const k = (least + most) / 2;
    if ((omega + k * rate) ** 2 > G * k) least = k;
    else most = k;
  }
  const k = least;
  const sigma = Math.sqrt(G * k);
  const still = G / (2 * omega) / omega;
  const height = heightMetres * Math.sqrt(still / ((sigma / (2 * k) - rate) / sigma));
  return { heightMetres: height, steepness: (height * k) / (2 * Math.PI) };
}

describe("the sea that a section tells", () => {
  it("is the wind's own where no source gives one, and says that the swell isn't known until it is stated", async () => {
    const limits = ", seaHeight: {happy: 1 m, never: 3 m}";
    const { sea, section } = seaOf(await crossed(null, limits));
    expect(sea.lacksSwell).toBe(true);
    expect(sea.height.every(([, low, high]) => low === high && high > 0.5)).toBe(true);
    expect(section.inWords).toContain("The wind's own sea, what swell runs not being known, is");
    const stated = seaOf(await crossed(null, limits, ", swell: none"));
    expect(stated.sea.lacksSwell).toBe(false);
    expect(stated.sea.height).toEqual(sea.height);
    expect(seaOf(await crossed("2 m @ 12 s", limits)).sea.lacksSwell).toBe(false);
  });

  it("on the stream is as wave action has it, where nothing tells how the sea runs: dead against the set", async () => {
    const { section, sea } = seaOf(
      await crossed("2 m @ 12 s", ", seaHeight: {happy: 1 m, never: 3 m}, seaOnCurrent: {happy: 1 m, never: 2.2 m}"),
    );
    const { onStream } = sea;
    expect(sea.height.every(([, low, high]) => low === 2 && high === 2)).toBe(true);
    expect([sea.neverMetres, onStream?.neverMetres, onStream?.neverSteepness]).toEqual([3, 2.2, null]);
    expect(onStream?.height.length).toBe(sea.height.length);
    const rates = section.rate.points.map(([across, kn]): [number, number] => [across, kn]);
    let compared = 0;
    sea.height.forEach(([acrossNm], i) => {
      // The sketch goes in straight lines, and so does the rate between two places.
      const kn = valueAt(rates, acrossNm);
      const [stands, steepness] = [onStream?.height[i], onStream?.steepness[i]];
      if (kn === null || stands === undefined || stands === null || steepness === undefined || steepness === null) return;
      const law = against(2, 12, kn);
      // The rate is told to the hundredth of a knot, the height to that of a metre.
      expect(stands[0]).toBe(acrossNm);
      expect(Math.abs(stands[2] - law.heightMetres)).toBeLessThan(0.012);
      expect(Math.abs(steepness[2] - law.steepness)).toBeLessThan(0.0002);
      compared++;
    });
    expect(compared).toBeGreaterThan(40);
    // 3.2 kn against 2 m and 12 s: some 2.45 m.
    expect(onStream?.raised?.[2]).toBeCloseTo(against(2, 12, 3.2).heightMetres, 1);
    expect(onStream?.raised?.[0]).toBeCloseTo(section.axis.acrossNm, 0);
    expect(section.inWords).toContain(
      `The forecast's sea is 2.0 m at its highest, ${sea.height[0]?.[0].toFixed(1)} miles across, within never (3.0 m). ` +
        `The stream makes it ${onStream?.raised?.[2].toFixed(1)} m at its highest, ${onStream?.raised?.[0].toFixed(1)} miles across, past never (2.2 m).`,
    );
  });

  it("on the stream stands worst where its limits do, and is past never where they are: the second demo in a gale", async () => {
    const opened = await openPassage(demoNamed("averil")?.path ?? "");
    if (!opened.ok) throw new Error("no demo");
    const answer = closeAt(opened.value.prepared, epochSeconds(Date.parse("2027-02-20T00:00Z") / 1000), null);
    const { section, sea } = seaOf(answer);
    const { onStream } = sea;
    if (onStream === null) throw new Error("nothing on the stream");
    const judged = (felt: string) => {
      const margin = answer.row.margins.find((one) => one.limit.felt === felt);
      if (margin?.kind !== "judged") throw new Error(`${felt} is not judged`);
      return margin;
    };
    const greatest = (rows: typeof onStream.height) => Math.max(...rows.map((one) => one?.[2] ?? 0));
    expect(greatest(onStream.height)).toBeCloseTo(judged("seaOnCurrentMetres").value, 2);
    expect(greatest(onStream.steepness)).toBeCloseTo(judged("seaSteepness").value, 4);
    expect([onStream.pastNever.length > 0, judged("seaSteepness").margin < 0]).toEqual([true, true]);
    expect(onStream.pastNever).toEqual(onStream.breaking);
    for (const { fromNm, untilNm } of onStream.breaking)
      expect(onStream.steep.some((one) => one.fromNm <= fromNm && one.untilNm >= untilNm)).toBe(true);
    expect(section.inWords).toMatch(
      /steep \(1\/25 or more\) from .* miles across, .*; breaking \(1\/13 or more\) from .*; past never \(1\/13\) from/,
    );
  });

  it("says what is not known: no period, no sea on the stream", async () => {
    const { section, sea } = seaOf(await crossed("2 m", ""));
    expect(sea.onStream).toBeNull();
    expect(section.inWords).toContain("What the stream makes of it is not known.");
    expect(seaInWords(null)).toBe("No source gives a sea.");
  });

  it("says of a sea that the stream leaves as it is that it does", async () => {
    const { section, sea } = seaOf(await crossed("0.2 m @ 12 s", ""));
    expect(sea.onStream?.raised).toBeNull();
    expect(section.inWords).toContain("The stream makes it no higher.");
    expect(section.inWords).not.toContain("steep");
  });
});

describe("stretches from a threshold", () => {
  it("begin and end between points, and at a gap", () => {
    expect(stretchesFrom([[0, 1], [2, 3], [4, 1], null, [5, 4], null, [6, 4], [8, 2]], 2)).toEqual([
      { fromNm: 1, untilNm: 3, greatest: 3 },
      { fromNm: 5, untilNm: 5, greatest: 4 },
      { fromNm: 6, untilNm: 8, greatest: 4 },
    ]);
    expect(
      stretchesFrom(
        [
          [0, 1],
          [2, 2],
          [4, 2],
        ],
        2,
        true,
      ),
    ).toEqual([]);
    expect(
      stretchesFrom(
        [
          [0, 1],
          [2, 2],
          [4, 2],
        ],
        2,
      ),
    ).toEqual([{ fromNm: 2, untilNm: 4, greatest: 2 }]);
  });

  it("hold every point that is over, and none that is under", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 1, maxLength: 30 }), (values) => {
        const stretches = stretchesFrom(
          values.map((value, i): [number, number] => [i, value]),
          10.5,
        );
        values.forEach((value, i) => {
          expect(stretches.filter(({ fromNm, untilNm }) => fromNm <= i && i <= untilNm).length).toBe(value > 10.5 ? 1 : 0);
        });
        expect(Math.max(0, ...stretches.map(({ greatest }) => greatest))).toBe(Math.max(0, ...values.filter((value) => value > 10.5)));
      }),
    );
  });
});
