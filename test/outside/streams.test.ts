import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { boardToldOf } from "../../src/api/index.ts";
import { positionOf } from "../../src/core/earth/index.ts";
import { tryDepartures } from "../../src/core/plan/index.ts";
import { epochSeconds, knotsFromMps, metresFromNm, mpsFromKnots } from "../../src/core/units/index.ts";
import {
  buildStreams,
  equilibriumDeg,
  factorOf,
  findConstituent,
  lunarOrbit,
  meanLongitudes,
  nodeFactors,
  type StatedStream,
  type StreamTurnKind,
  slackLastsSeconds,
  type TidalStream,
} from "../../src/core/water/index.ts";
import { openPassage } from "../../src/storage/index.ts";
import { notFitInWords } from "../../src/words/index.ts";
import { run, runJson, at as value } from "../cli/run.ts";

/*
 * Tidal streams against NOAA's rules (Tidal Current Tables, tables 2, 3 and 4) and against current stations whose constants NOAA publishes
 * (CO-OPS, public domain). The events of June 2026 are another program's harmonic sum of the same constants with tabled V0 + u and f of
 * the year's middle; the same sum reproduces NOAA's published heights within 1.5 min.
 */
const data = process.env["ATHWART_REAL_DATA"];
if (!data) console.warn("SKIPPED: real current stations and a forecast held against one (ATHWART_REAL_DATA is not set)");

const at = (text: string) => epochSeconds(Date.parse(text) / 1000);

function built(...stated: StatedStream[]): readonly TidalStream[] {
  const streams = buildStreams(stated, []);
  if (!streams.ok) throw new Error(streams.issues.map((one) => `${one.path}: ${one.message}`).join("; "));
  return streams.value;
}

describe("NOAA's tables", () => {
  it("table 4: minutes near slack with no more than so many tenths of a knot, greatest rate 3.0 kn", () => {
    // Printed 8, 15, 23, 31, 38 for 0.1 to 0.5 kn (from memory); by the formula (720/π)·asin(x/3).
    const minutes = [0.1, 0.2, 0.3, 0.4, 0.5].map((rate) => (slackLastsSeconds(mpsFromKnots(3), mpsFromKnots(rate)) ?? 0) / 60);
    expect(minutes.map((one) => Math.round(one * 10) / 10)).toEqual([7.6, 15.3, 23, 30.6, 38.4]);
    expect(minutes.map(Math.round)).toEqual([8, 15, 23, 31, 38]);
    expect(slackLastsSeconds(mpsFromKnots(0.4), mpsFromKnots(0.5))).toBeNull();
  });
});

const NOS_ORDER =
  "M2 S2 N2 K1 M4 O1 M6 MK3 S4 MN4 NU2 S6 MU2 2N2 OO1 LDA2 S1 M1 J1 MM SSA SA MSF MF RHO1 Q1 T2 R2 2Q1 P1 2SM2 M3 L2 2MK3 K2 M8 MS4".split(
    " ",
  );

interface Station {
  readonly name: string;
  readonly kind: string;
  readonly datum_offset: number;
  readonly meta: Readonly<Record<string, string>>;
  readonly constituents: unknown;
}

describe.skipIf(!data)("current stations of NOAA, 1 to 8 June 2026", () => {
  const file = (name: string): string => readFileSync(join(data ?? "", "tides", name), "utf8");
  const selected = data
    ? (JSON.parse(file("constants_selected.json")) as { stations: Station[]; speeds: Record<string, number> })
    : { stations: [], speeds: {} };
  const currents = selected.stations.filter(({ kind }) => kind === "current");
  // The tabled sum's M1 has the u of the year's middle already at the new year and runs with the perigee's rate besides: by June it is ahead
  // of itself. Ours is given its phase for the week, as in the test of heights (tide-tables.test.ts).
  const m1AheadDeg = ((): number => {
    if (!data) return 0;
    const midWeek = epochSeconds(Date.UTC(2026, 5, 4) / 1000);
    const m1 = findConstituent("M1")!;
    const then = meanLongitudes(midWeek);
    const ours = equilibriumDeg(m1, then, factorOf(m1, nodeFactors(lunarOrbit(then.moonNodeDeg), then.moonPerigeeDeg)));
    const tables = JSON.parse(file("equilibrium_and_node_factors_2015-2030.json")) as { V0u: Record<string, Record<string, number>> };
    const theirs = (tables.V0u["M1"]?.["2026"] ?? 0) + ((selected.speeds["M1"] ?? 0) * (midWeek - Date.UTC(2026, 0, 1) / 1000)) / 3600;
    return ((((theirs - ours + 540) % 360) + 360) % 360) - 180;
  })();
  const events = (data ? file("computed_events_2026-06.csv") : "").split("\n").flatMap((line) => {
    const found = /^"(.+)",(\w+),([^,]+),([^,]+),knots$/.exec(line);
    return found === null ? [] : [{ station: found[1]!, type: found[2]!, at: Date.parse(found[3]!) / 1000, knots: Number(found[4]) }];
  });
  const kinds: Readonly<Record<string, StreamTurnKind>> = {
    slack_to_flood: "slack before flood",
    max_flood: "greatest flood",
    slack_to_ebb: "slack before ebb",
    max_ebb: "greatest ebb",
    min_ebb: "least ebb",
  };

  it("slacks and greatest rates are where the tabled sum has them: within 2 min, one flat ebb excepted, and 0.02 kn, none missed and none more", () => {
    expect(currents).toHaveLength(7);
    const late: { station: string; kind: string; seconds: number; apartKn: number }[] = [];
    let worstKn = 0;
    let many = 0;
    for (const station of currents) {
      const [stream] = built(statedOf(station, m1AheadDeg));
      const turns = stream!.turns(at("2026-06-01T00:00:00Z"), at("2026-06-08T00:00:00Z"));
      const own = events.filter((one) => one.station === station.name && one.at < at("2026-06-08T00:00:00Z"));
      expect(own.length, station.name).toBeGreaterThan(20);
      expect(
        turns.map(({ kind }) => kind),
        station.name,
      ).toEqual(own.map(({ type }) => kinds[type]));
      own.forEach((one, i) => {
        const turn = turns[i]!;
        const seconds = Math.abs(turn.at - one.at);
        const apartKn = Math.abs(knotsFromMps(stream!.alongAt(one.at) - turn.alongMps));
        if (seconds > 120) late.push({ station: station.name, kind: turn.kind, seconds, apartKn });
        worstKn = Math.max(worstKn, Math.abs(knotsFromMps(turn.alongMps) - one.knots));
        many++;
      });
    }
    expect(many).toBe(326);
    // An ebb so flat that the two instants have the same thousandth of a knot: no table tells them apart.
    expect(late).toHaveLength(1);
    expect(late[0]?.kind).toMatch(/^(greatest|least) ebb$/);
    expect(late[0]?.seconds).toBeLessThan(150);
    expect(late[0]?.apartKn).toBeLessThan(0.0005);
    expect(worstKn).toBeLessThan(0.02);
  });

  /*
   * Station files of NOAA's Office of Response and Restoration (PyGNOME, public domain): a reference's 37 constants in NOS's standard order
   * (common practice), mean flow, differences and ratios, and the mean greatest rates that table 2 prints for the subordinate station. Their phases
   * are of a local meridian and they don't name the reference, so that times can't be held against them; mean rates over a year can.
   */
  it.each([
    ["tides/shio_charleston_harbor.txt", ["flood"]], // Its ebb: 1.3 kn printed beside 0.7 times a reference that ebbs 2.27 kn: its own figures don't agree.
    ["tides/shio_long_island.txt", ["flood", "ebb"]],
    ["tides/shio_portsmouth_harbor.txt", ["flood", "ebb"]],
    ["crossing-juan-de-fuca/shio_discovery_island_station.txt", ["flood", "ebb"]],
  ] as const)(
    "mean greatest rates of the subordinate station of %s are those printed, as far as ratios of one decimal tell",
    (name, senses) => {
      const text = readFileSync(join(data ?? "", name), "utf8");
      const number = (key: string): number => Number(new RegExp(`${key}=([-\\d.]+)`).exec(text)?.[1]);
      const list = (key: string): number[] => (new RegExp(`^${key}=(.*)$`, "m").exec(text)?.[1] ?? "").trim().split(" ").map(Number);
      const [rates, phases] = [list("H"), list("kPrime")];
      const constants = NOS_ORDER.map((constituent, i) => ({
        name: constituent,
        rateMps: mpsFromKnots(rates[i] ?? 0),
        phaseDeg: phases[i] ?? 0,
      }));
      const seconds = (key: string): number => Math.round(3600 * number(key));
      const facts = { position: positionOf(40, -70), floodTowardDegTrue: 0, ebbTowardDegTrue: 180, withinMetres: null };
      const [reference, side] = built(
        {
          ...facts,
          name: "the reference",
          told: { kind: "constants", along: { meanMps: mpsFromKnots(number("datum")), constants }, across: null, axisTowardDegTrue: null },
        },
        {
          ...facts,
          name: "the side",
          told: {
            kind: "subordinate",
            of: "the reference",
            differences: {
              slackBeforeFloodLaterSeconds: seconds("MinBefFloodTime"),
              greatestFloodLaterSeconds: seconds("\\bFloodTime"),
              slackBeforeEbbLaterSeconds: seconds("MinBefEbbTime"),
              greatestEbbLaterSeconds: seconds("\\bEbbTime"),
              floodRatio: number("FloodSpdRatio"),
              ebbRatio: number("EbbSpdRatio"),
            },
          },
        },
      );
      const [from, until] = [at("2010-01-01T00:00Z"), at("2011-01-05T00:00Z")];
      for (const sense of senses) {
        const meanKn = (stream: TidalStream): number => {
          const some = stream.turns(from, until).filter(({ kind }) => kind === `greatest ${sense}`);
          expect(some.length).toBeGreaterThan(700);
          return knotsFromMps(some.reduce((sum, { rateMps }) => sum + rateMps, 0) / some.length);
        };
        const printed = number(sense === "flood" ? "MaxFloodSpd" : "MaxEbbSpd");
        // Both the ratio and the rate are printed to a tenth.
        expect(Math.abs(meanKn(side!) - printed)).toBeLessThan(0.05 + 0.05 * meanKn(reference!));
      }
    },
  );

  describe("an ocean model without proper tides in the Strait of Juan de Fuca (HYCOM, 2 to 4 March 2023)", () => {
    const entrance = (): Station => currents.find(({ name }) => name.startsWith("Strait of Juan de Fuca entrance (depth 89"))!;
    let folder = "";
    beforeAll(() => {
      folder = mkdtempSync(join(tmpdir(), "athwart-streams-"));
    });
    afterAll(() => rmSync(folder, { recursive: true, force: true }));

    /** The crossing from the south side to the north past the station; `first`: a source before the forecast. */
    async function board(name: string, { within, first = "", streams = true }: { within: string; first?: string; streams?: boolean }) {
      const strait = join(data ?? "", "crossing-juan-de-fuca");
      const path = join(folder, `${name}.yaml`);
      const text = `athwart: passage/1
name: Across the strait
zones: {ship: UTC-8}
boat: {name: Test boat, goes: power, power: {speed: 5 kn}}
route:
  from: {name: the south side, position: 48 24.0N 124 36.0W}
  to: {name: the north side, position: 48 31.2N 124 33.0W}
land: {coast: none}
${streams ? `streams:\n  - ${JSON.stringify(asTyped(entrance(), within))}\n` : ""}water:
  whereUnknown: nearest within 5 nm
  sources: [${first}{file: ${join(strait, "hycom_current_20230302-04.nc")}}]
weather: {sources: [{file: ${join(strait, "gfs_wind_20230302-04.nc")}}]}
limits: {wind: {happy: 25 kn, never: 40 kn}, windAgainstCurrent: {happy: 60 kn2, never: 120 kn2}}
leave: {from: 2023-03-02 1200, until: 2023-03-02 1700}
`;
      writeFileSync(path, text);
      const opened = await openPassage(path);
      if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
      const answer = tryDepartures(opened.value.prepared);
      if (answer === null) throw new Error("stopped");
      return answer;
    }

    it("is found not fit, with figures, and no departure through there is better than marginal", async () => {
      const plain = await board("plain", { within: "3 nm", streams: false });
      expect(plain.rows.some(({ verdict }) => verdict.kind === "open")).toBe(true);
      const answer = await board("held", { within: "3 nm" });
      const [fit, ...more] = answer.prepared.heldAgainst;
      expect(more).toEqual([]);
      const kn = (mps: number) => Math.round(knotsFromMps(mps) * 10) / 10;
      // Another look at the same files, at whole hours: the model −0.1 to +0.5 kn, the station −1.5 to +0.8.
      expect([fit!.model.leastMps, fit!.model.greatestMps].map(kn)).toEqual([-0.3, 0.6]);
      expect([fit!.station.leastMps, fit!.station.greatestMps].map(kn)).toEqual([-1.6, 0.9]);
      expect([fit!.fits, fit!.isShort, kn(fit!.rmsDifferenceMps), kn(fit!.boundMps)]).toEqual([false, false, 1.1, 0.3]);
      expect(answer.rows).toHaveLength(plain.rows.length);
      for (const { verdict } of answer.rows) {
        expect(verdict.kind).toBe("marginal");
        expect(verdict.decidedBy).toMatchObject({ kind: "currentNotFit", why: { code: "current-not-fit" } });
      }
      for (const { margins } of answer.rows)
        expect(margins.find(({ limit }) => limit.felt === "windAgainstCurrentMps2")).toMatchObject({
          kind: "notJudged",
          why: { code: "current-not-fit" },
        });
      // Nobody assumed that water: it is the forecast's.
      for (const { advised } of answer.rows)
        expect(advised?.assumedWaterShare).toBe(
          plain.rows[answer.rows.findIndex((one) => one.advised === advised)]?.advised?.assumedWaterShare,
        );
      // No chance is told of crossings through it.
      for (const chance of answer.chances) expect([chance?.good.count ?? 0, (chance?.notJudged ?? 1) > 0]).toEqual([0, true]);
      const [words] = notFitInWords(answer.prepared);
      expect(words).toContain("the forecast gives −0.3 to +0.6 kn where the station gives −1.6 to +0.9");
    });

    it("is said by leave, cross and inspect, in words and as JSON, and on the page's board", async () => {
      const answer = await board("told", { within: "3 nm" });
      const path = join(folder, "told.yaml");
      const words = /Not fit here: .*hycom.* against the tidal station .* Within 3\.0 nm of it nothing is judged by this current/;
      const plain = (text: string): string => text.replace(/\s+/g, " ");
      const leave = await run("leave", path);
      expect(leave.code).toBe(1);
      expect(plain(leave.out)).toMatch(words);
      expect(plain(leave.out)).toContain("not judged: the forecast's current is not fit there");
      const json = await runJson("cross", path, "--at", "2023-03-02 1300");
      expect(value(json, "passage", "sources", "heldAgainst", 0)).toMatchObject({ fits: false, notReliedOnWithinNm: 3, isShort: false });
      expect(value(json, "verdict", "decidedBy")).toMatchObject({ kind: "currentNotFit", why: { code: "current-not-fit" } });
      expect(plain((await run("cross", path, "--at", "2023-03-02 1300")).out)).toMatch(words);
      expect(plain((await run("inspect", path)).out)).toMatch(
        /Not fit: .*hycom.* −0\.3 to \+0\.6 kn where the station gives −1\.6 to \+0\.9/,
      );
      expect(boardToldOf(answer, { limits: [], toSet: [], speed: null }, null).asides.some((one) => words.test(one))).toBe(true);
    });

    it("is not in doubt where the tidal stream answers first", async () => {
      const answer = await board("streams-first", { within: "8 nm", first: `{streams: [${JSON.stringify(entrance().name)}]}, ` });
      expect(answer.prepared.heldAgainst).toHaveLength(1);
      expect(answer.rows.some(({ verdict }) => verdict.kind === "open")).toBe(true);
      expect(answer.rows.some(({ verdict }) => verdict.decidedBy.kind === "currentNotFit")).toBe(false);
    });
  });
});

/** A station as a passage file has it. */
function asTyped(station: Station, within: string) {
  const flood = Number(station.meta["max_direction"]);
  return {
    name: station.name,
    position: `${Number(station.meta["latitude"]) * 1}N ${-Number(station.meta["longitude"])}W`,
    within,
    flood: String(flood),
    ebb: station.meta["min_direction"] ?? String((flood + 180) % 360),
    mean: `${station.datum_offset} kn`,
    constants: Object.entries(constituentsOf(station)).map(([name, { amplitude, phase }]) => ({
      name,
      rate: `${amplitude} kn`,
      phase: String(phase),
    })),
  };
}

function constituentsOf({ constituents }: Station): Readonly<Record<string, { readonly amplitude: number; readonly phase: number }>> {
  const read: unknown = typeof constituents === "string" ? JSON.parse(constituents.replace(/'/g, '"')) : constituents;
  return read as Record<string, { amplitude: number; phase: number }>;
}

function statedOf(station: Station, m1AheadDeg = 0): StatedStream {
  const flood = Number(station.meta["max_direction"]);
  return {
    name: station.name,
    position: positionOf(Number(station.meta["latitude"]), Number(station.meta["longitude"])),
    floodTowardDegTrue: flood,
    ebbTowardDegTrue: Number(station.meta["min_direction"] ?? (flood + 180) % 360),
    withinMetres: metresFromNm(3),
    told: {
      kind: "constants",
      along: {
        meanMps: mpsFromKnots(station.datum_offset),
        constants: Object.entries(constituentsOf(station)).map(([name, { amplitude, phase }]) => ({
          name,
          rateMps: mpsFromKnots(amplitude),
          phaseDeg: name === "M1" ? phase - m1AheadDeg : phase,
        })),
      },
      across: null,
      axisTowardDegTrue: null,
    },
  };
}
