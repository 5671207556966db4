import { describe, expect, it } from "vitest";
import { type Passage, tryDepartures } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { SEA_HEIGHT_HIGH_METRES, SEA_SLOTS } from "../../../src/core/weather/index.ts";
import { assumptionsInWords, reasonInWords, sourcesInWords } from "../../../src/words/index.ts";
import { clock, limit } from "../window/setup.ts";
import { kn, prepared } from "./setup.ts";

const at = (hours: number) => epochSeconds(clock(hours));
const blowing = (knots: number): Partial<Passage> => ({
  weatherSources: [
    {
      kind: "periods",
      wind: [{ from: at(0), until: at(48), fromDegTrue: 180, arcDeg: 0, speedLowMps: kn(knots), speedHighMps: kn(knots), gustMps: null }],
      sea: [],
    },
  ],
  limits: [limit("windMps", 30, 40), limit("seaHeightMetres", 1, 2)],
  leaveFrom: at(6),
  leaveUntil: at(6),
});

function only(changes: Partial<Passage>) {
  const one = prepared(changes);
  const row = tryDepartures(one)?.rows[0];
  if (row?.verdict == null) throw new Error("no departure");
  return { one, row, verdict: row.verdict.kind, sea: row.margins.find(({ limit: { felt } }) => felt === "seaHeightMetres") };
}

describe("a passage for which no source gives a sea", () => {
  it("is no better than marginal while its swell isn't known, and says so", () => {
    const { one, row, verdict, sea } = only(blowing(10));
    expect(verdict).toBe("marginal");
    expect(sea).toMatchObject({ kind: "notJudged", why: { code: "swell-not-known" } });
    expect(reasonInWords(row)).toContain("the swell is not known");
    expect(sourcesInWords(one).join(" ")).toContain("Sea: no source; the wind's own is reckoned, what swell there is isn't known");
    expect(assumptionsInWords(one).join(" ")).toContain("the wind's own is reckoned");
  });

  it("is shut where the wind's own sea alone is too high", () => {
    const { verdict, sea } = only(blowing(25));
    expect(verdict).toBe("closed");
    if (sea?.kind !== "notJudged") throw new Error("judged");
    expect(sea.knownPart?.value).toBeGreaterThan(2);
  });

  it("is judged where the swell is stated, and by both together", () => {
    const none = only({ ...blowing(10), swell: "none" });
    expect(none.verdict).toBe("open");
    const swell = only({ ...blowing(10), swell: { heightMetres: 1.9, periodSeconds: 12 } });
    if (none.sea?.kind !== "judged" || swell.sea?.kind !== "judged") throw new Error("not judged");
    expect(swell.sea.value).toBeCloseTo(Math.hypot(none.sea.value, 1.9), 2);
    expect(sourcesInWords(swell.one).join(" ")).toContain("a swell of 1.9 m at 12 s as stated");
  });

  it("in none of ten crossings tried is taken as known", () => {
    const one = prepared(blowing(10));
    const answer = tryDepartures(one);
    expect(answer?.chances[0]?.good.count).toBe(0);
    expect(tryDepartures(prepared({ ...blowing(10), swell: "none" }))?.chances[0]?.good.count).toBeGreaterThan(0);
  });

  it("grows over areas that are only kept out of, and not over land", () => {
    const area = (kind: "land" | "keptOut") => ({
      kind,
      name: "a bank",
      rings: [Float64Array.of(-41.5, 33.9, -39, 33.9, -39, 33.97, -41.5, 33.97, -41.5, 33.9)],
    });
    const raised = (kind: "land" | "keptOut"): number => {
      const land = { coast: null, files: [{ file: "own.geojson", areas: [area(kind)] }] };
      const one = prepared({ ...blowing(20), swell: "none" }, { water: [null], weather: [null], land });
      const out = new Float64Array(SEA_SLOTS);
      const { xMetres, yMetres } = one.plane.toPlane({ latitudeDeg: 34.05, longitudeDeg: -40.35 });
      one.weather.sea?.onPlane(one.plane).readInto(out, xMetres, yMetres, clock(12));
      return out[SEA_HEIGHT_HIGH_METRES] as number;
    };
    expect(raised("keptOut")).toBeGreaterThan(2 * raised("land"));
    expect(raised("land")).toBeGreaterThan(0);
  });

  it("keeps bars, refuges and anchorages to a sea that is known whole", () => {
    expect(prepared(blowing(10)).wholeSea).toBeNull();
    expect(prepared({ ...blowing(10), swell: "none" }).wholeSea).not.toBeNull();
    expect(prepared(blowing(10)).entrances.sea).toBeNull();
  });
});
