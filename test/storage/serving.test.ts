import { beforeAll, describe, expect, it } from "vitest";
import type { GridData } from "../../src/core/fields/index.ts";
import { type PassageNeeds, readPassageNeeds, type Serving, servingOfGrids, textKind } from "../../src/storage/index.ts";

let needs: PassageNeeds;
beforeAll(async () => {
  const read = await readPassageNeeds("demo/morrel/passage.yaml");
  if (!read.ok) throw new Error("the demo can't be read");
  needs = read.value;
});

interface Box {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly eastDeg: number;
}

/** Around the demo's line, 33°24'S 118°57'W to 33°48.7'S 118°02.2'W, with more than 10 nm to every side. */
const WIDE: Box = { southDeg: -34.2, northDeg: -33, westDeg: -119.4, eastDeg: -117.6 };

/** A current on a tenth of a degree, six-hourly over the demo's days and two more; `isMissing` marks nodes at a step. */
function current(
  box: Box,
  isMissing: (latitudeDeg: number, longitudeDeg: number, step: number) => boolean = () => false,
  steps = 40,
): GridData {
  const axis = (from: number, until: number): Float64Array =>
    Float64Array.from({ length: Math.round((until - from) * 10) + 1 }, (_, i) => from + i / 10);
  const latitudesDeg = axis(box.southDeg, box.northDeg);
  const longitudesDeg = axis(box.westDeg, box.eastDeg);
  const times = Float64Array.from({ length: steps }, (_, t) => Date.UTC(2027, 3, 6, 12) / 1000 + t * 21600);
  const points = steps * latitudesDeg.length * longitudesDeg.length;
  const missing = new Uint8Array(points);
  let point = 0;
  for (let t = 0; t < steps; t++)
    for (const latitudeDeg of latitudesDeg)
      for (const longitudeDeg of longitudesDeg) missing[point++] = isMissing(latitudeDeg, longitudeDeg, t) ? 1 : 0;
  return {
    quantities: ["currentEastMps", "currentNorthMps"],
    mesh: { kind: "latLon", latitudesDeg, longitudesDeg },
    times,
    values: new Float32Array(points * 2),
    missing,
    nature: "instant",
    source: "made for this test",
    issuedAt: null,
    member: 0,
  };
}

function only(serving: Serving): Serving["offers"][number] {
  expect(serving.offers.length).toBe(1);
  return serving.offers[0]!;
}

describe("a current held against the demo's passage", () => {
  it("serves where it covers the line, 10 nm at either side, and every departure to its end", () => {
    const serving = servingOfGrids([current(WIDE)], [], needs);
    expect(serving.verdict).toBe("serves");
    expect(only(serving)).toMatchObject({
      quantity: "current",
      wanted: true,
      line: { kind: "whole", roomNm: 10 },
      time: { kind: "whole" },
    });
  });

  // The line's ends lie 33.4 S and 33.81 S: a grid from 33.9 S leaves some 5 nm south of it, measured across a line that runs 119 true.
  it("tells how much room is left beside the line", () => {
    const { line } = only(servingOfGrids([current({ ...WIDE, southDeg: -33.9 })], [], needs));
    if (line.kind !== "whole") throw new Error(line.kind);
    expect(line.roomNm).toBeGreaterThanOrEqual(5);
    expect(line.roomNm).toBeLessThanOrEqual(6);
  });

  it("serves in part where its values don't reach the shore, and says for how many miles", () => {
    const serving = servingOfGrids([current(WIDE, (_, longitudeDeg) => longitudeDeg < -118.75)], [], needs);
    expect(serving.verdict).toBe("servesInPart");
    const { line } = only(serving);
    if (line.kind !== "inPart") throw new Error(line.kind);
    expect(line.without.length).toBe(1);
    // 118°57'W to 118°45'W (half a cell on, where half of the weight is covered) is 8.8 nm along a line of 119 true.
    expect(line.without[0]?.fromNm).toBe(0);
    expect(Math.abs((line.without[0]?.untilNm ?? 0) - 10)).toBeLessThan(3);
  });

  it("a hole at a single step counts", () => {
    const { line } = only(
      servingOfGrids(
        [current(WIDE, (lat, lon, step) => step === 7 && lat < -33.5 && lat > -33.7 && lon < -118.4 && lon > -118.6)],
        [],
        needs,
      ),
    );
    expect(line.kind).toBe("inPart");
  });

  it("does not serve from elsewhere, all missing, or too short", () => {
    expect(servingOfGrids([current(WIDE, () => true)], [], needs).verdict).toBe("doesNotServe");
    expect(servingOfGrids([], ["currentEastMps", "currentNorthMps"], needs)).toMatchObject({
      verdict: "doesNotServe",
      offers: [{ line: { kind: "outside" } }],
    });
    expect(servingOfGrids([current(WIDE, () => false, 2)], [], needs)).toMatchObject({
      verdict: "doesNotServe",
      offers: [{ time: { kind: "none" } }],
    });
    expect(servingOfGrids([], [], needs).verdict).toBe("doesNotServe");
  });

  it("a single step is held steady at all times", () => {
    expect(only(servingOfGrids([current(WIDE, () => false, 1)], [], needs)).time).toEqual({ kind: "always" });
  });

  it("the last departure is the end less the time the passage takes in still water", () => {
    const { time, until } = only(servingOfGrids([current(WIDE, () => false, 20)], [], needs));
    if (!("lastDepartureAt" in time)) throw new Error(time.kind);
    expect(time.kind).toBe("inPart");
    expect((until ?? 0) - time.lastDepartureAt).toBeCloseTo(needs.takesSeconds ?? 0, 3);
  });

  it("of two grids the better one counts", () => {
    expect(servingOfGrids([current(WIDE, () => true), current(WIDE)], [], needs).verdict).toBe("serves");
  });
});

describe("telling texts apart", () => {
  it.each([
    ["athwart: passage/1\nname: x\n", "passage"],
    ['{"athwart": "passage/1"}', "passage"],
    ["# a letter\nIssued 2027-04-06 0730 UTC-8\nTHU NE 8-12\n", "letter"],
    ["THU 0600-1200 NE 12-16 G20\n", "letter"],
    ["twa 6 10\n52 4.1 5.9\n90 4.9 6.6\n", "sailTable"],
    ["# swung in May\n6;10;16\n52;4.1;5.9;6.6\n90;4.9;6.6;7.2\n", "sailTable"],
    ["The wind will be fair.\n", "other"],
    ["name,latitude,longitude\nPelu Road,-33.4,-118.95\nPort Ansa,-33.81,-118.04\n", "other"],
    ["day,wind,gust\n2027-04-08,12,16\n2027-04-09,14,18\n", "other"],
    ["Sunny days ahead\n", "other"],
    ["twa\t6\tten\t16\n52\t4.1\t5.9\t6.6\n", "sailTable"],
    ["", "other"],
  ])("%j is a %s", (text, kind) => {
    expect(textKind(text)).toBe(kind);
  });
});
