import { describe, expect, it } from "vitest";
import { epochSeconds } from "../../../../src/core/units/index.ts";
import {
  aboveDatum,
  differed,
  highsAndLows,
  type SecondaryStation,
  secondaryPort,
  secondaryTide,
  timeByCosine,
} from "../../../../src/core/water/index.ts";
import { curveOf, madeStation } from "./made-station.ts";

const reference = madeStation({ M2: [1.5, 40], S2: [0.5, 90], K1: [0.3, 120] }, 2.2);
const secondary: SecondaryStation = {
  ...reference,
  id: "made-2",
  name: "Brae Sound",
  datum: "CD",
  referenceId: "made",
  high: { laterSeconds: 1500, height: { kind: "ratio", by: 0.9 } },
  low: { laterSeconds: -600, height: { kind: "metres", by: 0.2 } },
};
const [from, until] = [epochSeconds(Date.UTC(2027, 3, 1) / 1000), epochSeconds(Date.UTC(2027, 3, 20) / 1000)];

describe("a secondary port", () => {
  it("has each of its reference's turns, moved and scaled, and its heights go from turn to turn by the cosine rule", () => {
    const curve = curveOf(reference);
    const tide = secondaryTide(secondary, reference);
    if (!tide.ok) throw new Error("not a tide");
    expect(tide.value.datum).toBe("CD");
    const turns = tide.value.highsAndLows(from, until);
    expect(turns.length).toBeGreaterThan(70);
    for (const turn of turns) {
      const later = turn.kind === "high" ? 1500 : -600;
      const of = highsAndLows(curve, epochSeconds(turn.at - later - 60), epochSeconds(turn.at - later + 60))[0];
      expect(of?.kind).toBe(turn.kind);
      expect(turn.heightMetres).toBeCloseTo(turn.kind === "high" ? 0.9 * (of?.heightMetres ?? 0) : (of?.heightMetres ?? 0) + 0.2, 7);
      expect(tide.value.heightAt(turn.at)).toBeCloseTo(turn.heightMetres, 6);
    }
    const [one, other] = [turns[10]!, turns[11]!];
    const middle = epochSeconds((one.at + other.at) / 2);
    expect(tide.value.heightAt(middle)).toBeCloseTo((one.heightMetres + other.heightMetres) / 2, 6);
    expect(timeByCosine(one, other, tide.value.heightAt(middle))).toBeCloseTo(middle, 0);
    expect(timeByCosine(one, other, Math.max(one.heightMetres, other.heightMetres) + 0.1)).toBeNull();
  });

  it("interpolates differences that are given at two levels, also beyond them", () => {
    const levels = (a: number, b: number) =>
      ({
        levels: [
          { referenceHeightMetres: 3, value: a },
          { referenceHeightMetres: 4, value: b },
        ],
      }) as const;
    const two = {
      ...secondary,
      high: { laterSeconds: levels(600, 1200), height: { kind: "metres" as const, by: levels(-0.4, -0.2) } },
    };
    const turn = (heightMetres: number) => differed(two, { kind: "high", at: epochSeconds(0), heightMetres });
    expect(turn(3)).toEqual({ kind: "high", at: 600, heightMetres: 2.6 });
    expect(turn(3.5).at).toBe(900);
    expect(turn(3.5).heightMetres).toBeCloseTo(3.2, 12);
    expect(turn(4.5).at).toBe(1500);
  });

  it("is refused with another reference, and with differences that no port has", () => {
    const same = {
      levels: [
        { referenceHeightMetres: 3, value: 1 },
        { referenceHeightMetres: 3, value: 2 },
      ],
    } as const;
    const wrong: SecondaryStation = {
      ...secondary,
      referenceId: "elsewhere",
      high: { laterSeconds: 90_000, height: { kind: "ratio", by: -1 } },
      low: { laterSeconds: same, height: { kind: "metres", by: Number.NaN } },
    };
    const got = secondaryPort(wrong, curveOf(reference));
    expect(got.ok ? [] : got.issues.map(({ path, code }) => `${path} ${code}`)).toEqual([
      "differences.reference tide-reference-differs",
      "differences.high.later tide-differences-range",
      "differences.high.height tide-differences-range",
      "differences.low.height tide-differences-range",
      "differences.low.levels tide-differences-range",
    ]);
  });
});

describe("datums", () => {
  const offsets = [{ datum: "MSL", aboveDatum: "LAT", offsetMetres: 2.4, source: "a chart" }];
  it("are joined by a stated offset only, in either sense", () => {
    const given = { heightMetres: 3, datum: "LAT" };
    expect(aboveDatum(given, "LAT", [])).toEqual({ ok: true, value: given });
    const above = aboveDatum(given, "MSL", offsets);
    expect(above.ok && above.value.heightMetres).toBeCloseTo(0.6, 12);
    const back = aboveDatum({ heightMetres: 0.6, datum: "MSL" }, "LAT", offsets);
    expect(back.ok && back.value.heightMetres).toBeCloseTo(3, 12);
    const refused = aboveDatum(given, "MLLW", offsets);
    expect(refused.ok ? [] : refused.issues.map(({ code }) => code)).toEqual(["tide-datum-differs"]);
  });
});
