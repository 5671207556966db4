/**
 * A crossing of a real strait from real files: an ocean model's current and a weather model's wind over the Strait of Juan de Fuca,
 * 2 to 4 March 2023 (HYCOM and GFS as kept in the PyGNOME repository, public domain), as NetCDF and, re-encoded with ecCodes, as GRIB2
 * simple packing. Not for navigation.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { crossAt, steeringCompass, tryDepartures } from "../../src/core/plan/index.ts";
import { openPassage } from "../../src/storage/index.ts";

const data = process.env.ATHWART_REAL_DATA;
if (!data) console.warn("Skipped: a crossing of a real strait; set ATHWART_REAL_DATA to the folder of real files.");

let folder = "";

interface Choice {
  readonly files: "netcdf" | "grib2";
  readonly whereUnknown: string;
  readonly to?: string;
  readonly leave?: string;
  readonly land?: "atlas" | "none";
}

async function opened({ files, whereUnknown, to = "48 31.2N 124 33.0W", leave = "", land = "atlas" }: Choice) {
  const strait = join(data ?? "", "crossing-juan-de-fuca");
  const current = files === "netcdf" ? join(strait, "hycom_current_20230302-04.nc") : join(strait, "derived-grib2", "current_simple.grib2");
  const wind = files === "netcdf" ? join(strait, "gfs_wind_20230302-04.nc") : join(strait, "derived-grib2", "wind_simple.grib2");
  const path = join(folder, `${files}-${whereUnknown.replaceAll(" ", "")}-${to.length}${leave.length}${land}.yaml`);
  writeFileSync(
    path,
    `athwart: passage/1
name: Across the strait
zones: {ship: UTC-8}
boat:
  name: Test boat
  goes: power
  power: {speed: 5 kn}
route:
  from: {name: the south side, position: 48 24.0N 124 36.0W}
  to: {name: the north side, position: ${to}}
land: {coast: ${land}}
water:
  whereUnknown: ${whereUnknown}
  sources: [{file: ${current}}]
weather:
  sources: [{file: ${wind}}]
limits:
  wind: {happy: 12 kn, never: 20 kn}
  gust: {happy: 16 kn, never: 28 kn}
  windAgainstCurrent: {happy: 0 kn2, never: 30 kn2}
  lightAtArrival: {happy: 5 deg, never: -6 deg}
${leave}`,
  );
  const result = await openPassage(path);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value.prepared;
}

describe.skipIf(!data)("a crossing of a real strait", () => {
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "athwart-strait-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it("gives the same board from NetCDF and from GRIB2 simple packing", async () => {
    const [a, b] = [
      tryDepartures(await opened({ files: "netcdf", whereUnknown: "refuse" })),
      tryDepartures(await opened({ files: "grib2", whereUnknown: "refuse" })),
    ];
    if (a === null || b === null) throw new Error("stopped");
    expect(a.rows.length).toBeGreaterThan(30);
    expect(a.rows.map((row) => row.departAt)).toEqual(b.rows.map((row) => row.departAt));
    expect(a.rows.map((row) => row.verdict.kind)).toEqual(b.rows.map((row) => row.verdict.kind));
    const kinds = new Set(a.rows.map((row) => row.verdict.kind));
    expect(kinds.size).toBeGreaterThan(1);
    let compared = 0;
    a.rows.forEach((row, i) => {
      const other = b.rows[i];
      if (row.arrivalAt === null || other?.arrivalAt == null) return;
      compared++;
      // A current 0.0002 m/s apart moves the arrival of a boat of 5 kn by less than 1e-4 of the passage.
      expect(Math.abs(row.arrivalAt - other.arrivalAt)).toBeLessThan(1e-4 * (row.arrivalAt - row.departAt));
      row.margins.forEach((margin, k) => {
        const twin = other.margins[k];
        if (margin.kind !== "judged" || twin?.kind !== "judged") return;
        expect(Math.abs(margin.margin - twin.margin), margin.limit.felt).toBeLessThan(0.01);
      });
    });
    expect(compared).toBeGreaterThan(20);
  });

  it("says until when it is covered where a passage outlasts the forecast", async () => {
    const prepared = await opened({
      files: "netcdf",
      whereUnknown: "refuse",
      leave: "leave: {from: 2023-03-03 1300, until: 2023-03-03 1600}\n",
    });
    const answer = tryDepartures(prepared);
    const windEnds = Date.UTC(2023, 2, 4) / 1000;
    expect(prepared.weather.wind.covers.until).toBe(windEnds);
    const last = answer?.rows.at(-1);
    expect(last?.verdict.kind).toBe("marginal");
    const decidedBy = last?.verdict.decidedBy;
    if (decidedBy?.kind !== "notJudged") throw new Error(`decided by ${decidedBy?.kind}`);
    expect(decidedBy.margin.why).toMatchObject({ code: "not-covered-time", coveredUntil: windEnds });
  });

  it("never reaches the shore where land isn't asked about: refuse refuses, still stands still, nearest takes the nearest known", async () => {
    const shore = "48 33.6N 124 25.0W";
    const at = Date.UTC(2023, 2, 2, 18) / 1000;
    const seaAlone = { files: "netcdf", to: shore, land: "none" } as const;
    const refused = crossAt(await opened({ ...seaAlone, whereUnknown: "refuse" }), at);
    for (const { way } of refused.ways) {
      expect(way.kind).toBe("fails");
      if (way.kind === "fails") expect(way.why.code).toBe("not-covered-place");
    }
    expect(refused.row.verdict.decidedBy.kind).toBe("noPassage");
    const still = crossAt(await opened({ ...seaAlone, whereUnknown: "still" }), at);
    const nearest = crossAt(await opened({ ...seaAlone, whereUnknown: "nearest within 10 nm" }), at);
    const within = crossAt(await opened({ ...seaAlone, whereUnknown: "nearest within 0.5 nm" }), at);
    expect(within.advised).toBeNull();
    for (const answer of [still, nearest]) {
      const way = answer.advised;
      if (way === null) throw new Error("no way");
      expect(way.assumedWaterShare).toBeGreaterThan(0.02);
      expect(way.assumedWaterShare).toBeLessThan(0.9);
      // The limit that needs the current can't be judged where the current was assumed.
      expect(answer.row.margins.find((margin) => margin.limit.felt === "windAgainstCurrentMps2")?.kind).toBe("notJudged");
      expect(answer.row.verdict.kind).not.toBe("open");
    }
    const end = (answer: typeof still) => {
      const track = answer.advised?.track;
      if (track === undefined) throw new Error("no track");
      const last = track.count - 1;
      return [track.currentEastMps[last], track.currentNorthMps[last], track.answeredBy[last]];
    };
    expect(end(still)).toEqual([0, 0, -1]);
    const [east, north, by] = end(nearest);
    expect(by).toBe(-2);
    expect(Math.hypot(east as number, north as number)).toBeGreaterThan(0.001);
  });

  it("gives true headings in 2023, before the magnetic model begins, and says why", async () => {
    const prepared = await opened({ files: "netcdf", whereUnknown: "refuse" });
    expect(steeringCompass(prepared, Date.UTC(2023, 2, 2, 18) / 1000)).toEqual({ kind: "true", why: "variation-model-years" });
  });
});
