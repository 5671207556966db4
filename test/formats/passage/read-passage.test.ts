import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { EXAMPLE } from "./example.ts";
import { changed, good, REFERENCE_JSON, REFERENCE_YAML } from "./fixture.ts";

// Units are exact by definition: the nautical mile is 1852 m (Monaco 1929), the foot 0.3048 m (1959).
const KNOT = 1852 / 3600;

describe("a passage file", () => {
  const { passage, data, version, sailTableFile } = good(EXAMPLE);

  it("gives the boat in SI", () => {
    const { boat } = passage;
    expect(boat).toMatchObject({ name: "Tansy", goes: "power", lengthOverallMetres: 11.6, draughtMetres: 1.7, airDraughtMetres: 16.5 });
    expect(boat.waterlineLengthMetres).toBeCloseTo(32 * 0.3048, 12);
    expect(boat.power?.speedMps).toBeCloseTo(5.6 * KNOT, 12);
    expect(boat.power).toMatchObject({ burnLitresPerHour: 2.6, usableFuelLitres: 180, headwindLossShare: 0.04 });
    expect(boat.compass.deviationCard).toEqual([
      { headingDegMag: 0, deviationDeg: 1 },
      { headingDegMag: 90, deviationDeg: -1 },
      { headingDegMag: 180, deviationDeg: -2 },
      { headingDegMag: 270, deviationDeg: 0 },
    ]);
    expect(boat.compass.variationDeg).toBeNull();
    expect([boat.sail, boat.engineRule, sailTableFile]).toEqual([null, null, null]);
  });

  it("gives the route, berth to berth", () => {
    expect(passage.from).toEqual({
      name: "the fairway buoy off Pelu Road",
      position: { latitudeDeg: -(17 + 32.4 / 60), longitudeDeg: -(149 + 50.2 / 60) },
    });
    expect(passage.to.position.longitudeDeg).toBeCloseTo(-149.035, 12);
    expect(passage.pilotageOut?.points).toHaveLength(1);
    expect(passage.pilotageOut?.speedOverGroundMps).toBeCloseTo(5 * KNOT, 12);
    expect(passage.pilotageIn?.points).toEqual([{ latitudeDeg: -(17 + 58.1 / 60), longitudeDeg: -149 }]);
  });

  it("gives the water and the weather in their order", () => {
    expect(passage.whereCurrentUnknown).toEqual({ kind: "refuse" });
    expect(passage.waterSources.map((source) => source.kind)).toEqual(["files", "sketch"]);
    const sketch = passage.waterSources[1];
    if (sketch?.kind !== "sketch") throw new Error("not a sketch");
    expect(sketch.sketch.section.map((point) => point.acrossMetres / 1852)).toEqual([-15, 0, 15]);
    expect(sketch.sketch.section.map((point) => point.setDegTrue)).toEqual([null, 215, null]);
    expect(sketch.sketch.section[1]?.rateMps).toBeCloseTo(3.2 * KNOT, 12);
    expect(sketch.sketch.from).toBe(Date.UTC(2027, 3, 6, 10) / 1000);
    expect(passage.weatherSources.map((source) => source.kind)).toEqual(["files", "letter", "periods"]);
    const periods = passage.weatherSources[2];
    if (periods?.kind !== "periods") throw new Error("not periods");
    expect(periods.wind[0]).toMatchObject({
      from: Date.UTC(2027, 3, 8, 16) / 1000,
      until: Date.UTC(2027, 3, 8, 22) / 1000,
      fromDegTrue: 45,
      arcDeg: 0,
    });
    expect(periods.wind[0]?.gustMps).toBeCloseTo(20 * KNOT, 12);
    expect(periods.sea[0]?.heightHighMetres).toBeCloseTo(3 * 0.3048, 12);
    expect(periods.sea[0]).toMatchObject({ periodLowSeconds: 9, periodHighSeconds: 9 });
  });

  it("gives the limits, each with where it is judged", () => {
    expect(passage.limits.map((limit) => [limit.felt, limit.during, limit.toleratedSeconds])).toEqual([
      ["windMps", "wholePassage", 0],
      ["gustMps", "wholePassage", 0],
      ["windAgainstCurrentMps2", "openWater", 0],
      ["seaHeightMetres", "wholePassage", 0],
      ["seaPeriodSeconds", "wholePassage", 0],
      ["sunAltitudeDeg", "arrival", 0],
    ]);
    expect(passage.limits[0]?.never).toBeCloseTo(22 * KNOT, 12);
    expect(passage.limits[2]).toMatchObject({ happy: 0 });
    expect(passage.limits[2]?.never).toBeCloseTo(40 * KNOT * KNOT, 12);
    expect(passage.limits[4]).toMatchObject({ happy: 7, never: 4 });
    expect(passage.limits[5]).toMatchObject({ happy: 5, never: -6 });
  });

  it("gives times in UTC, ship's time where none is named", () => {
    expect(passage.leaveFrom).toBe(Date.UTC(2027, 3, 7, 17) / 1000);
    expect(passage.leaveUntil).toBe(Date.UTC(2027, 3, 12, 22) / 1000);
    const elsewhere = good(changed(EXAMPLE, "2027-04-07 0700", "2027-04-07 0700 UTC+2"));
    expect(elsewhere.passage.leaveFrom).toBe(Date.UTC(2027, 3, 7, 5) / 1000);
    expect([passage.shipZone, passage.arrivalZone, passage.invented]).toEqual(["UTC-10", "UTC-10", true]);
  });

  it("keeps what was typed", () => {
    expect(version).toBe(1);
    expect(data.boat.waterlineLength).toBe("32 ft");
    expect(data.leave?.from).toBe("2027-04-07 0700");
    expect(data.boat.compass?.deviation?.[0]?.heading).toBe("0");
  });
});

describe("what may be left out", () => {
  it("is null, or a stated value", () => {
    const { passage } = good(REFERENCE_JSON);
    expect(passage).toMatchObject({
      invented: true,
      arrivalZone: "UTC-10",
      pilotageOut: null,
      pilotageIn: null,
      whereCurrentUnknown: { kind: "refuse" },
      gustFactor: 1.3,
      leaveFrom: null,
      leaveUntil: null,
    });
    expect(passage.boat).toMatchObject({ draughtMetres: null, sail: null, compass: { variationDeg: null, deviationCard: [] } });
    expect(passage.boat.power).toEqual({
      speedMps: 2.880888888888889,
      burnLitresPerHour: null,
      burnMeasuredAtMps: null,
      usableFuelLitres: null,
      headwindLossShare: 0,
    });
  });

  it("`estimate` stands for a speed that is reckoned from the waterline", () => {
    const estimated = good(changed(EXAMPLE, "    speed: 5.6 kn ", "    speed: estimate "));
    expect(estimated.passage.boat.power?.speedMps).toBeNull();
  });

  it("a sail table in a file is named, not read", () => {
    const text = changed(
      changed(EXAMPLE, "goes: power", "goes: sail"),
      "  compass:\n",
      "  sail: {table: ../tables/tansy.txt}\n  compass:\n",
    );
    const document = good(text);
    expect(document.sailTableFile).toBe("../tables/tansy.txt");
    expect(document.passage.boat.sail).toEqual({ points: [], leewayCoefficient: null, leewayCapDeg: 0 });
  });
});

describe("the reference's example", () => {
  const { passage } = good(REFERENCE_YAML);

  it("uses every key and is read", () => {
    expect(passage.boat.sail?.points).toHaveLength(6);
    expect(passage.boat.sail?.leewayCoefficient).toBe(464);
    expect(passage.boat.engineRule?.onBelowMps).toBeCloseTo(3.5 * KNOT, 12);
    expect(passage.boat.motorSail.hullSpeedMps).toBeCloseTo(7.6 * KNOT, 12);
    expect(passage.boat.compass.variationDeg).toBe(12);
    expect(passage.waterSources[2]).toMatchObject({ kind: "uniform", setDegTrue: 215 });
    expect(passage.weatherSources[1]).toEqual({
      kind: "letter",
      file: "letter.txt",
      zone: "UTC-10",
      issued: "2027-04-06 1910",
      strikeOutLines: [7, 9],
    });
    expect(passage.limits[0]?.toleratedSeconds).toBe(1200);
    const periods = passage.weatherSources[2];
    expect(periods?.kind === "periods" ? [periods.wind.length, periods.sea.length] : null).toEqual([2, 1]);
  });
});

describe("the text", () => {
  it("is kept letter for letter, whatever its line ends and byte order mark", () => {
    for (const text of [EXAMPLE, EXAMPLE.replaceAll("\n", "\r\n"), `\uFEFF${EXAMPLE}`, `${EXAMPLE}\n# a last word`]) {
      expect(good(text).text).toBe(text);
      expect(good(text).passage).toEqual(good(EXAMPLE).passage);
    }
  });

  it("reads the same as JSON, indented with spaces or tabs", () => {
    const tree: unknown = parse(EXAMPLE, { schema: "failsafe" });
    for (const indent of [undefined, 2, "\t"]) expect(good(JSON.stringify(tree, null, indent)).passage).toEqual(good(EXAMPLE).passage);
  });

  it("is taken as typed: no number, date, sexagesimal or yes-and-no is made of it", () => {
    const text = changed(
      changed(changed(EXAMPLE, "name: Tansy", "name: 0x1F"), "name: Morrel Stream", "name: no"),
      "2027-04-07 0700",
      "2027-04-07 07:00:00",
    );
    const { passage } = good(text);
    expect(passage.boat.name).toBe("0x1F");
    expect(passage.waterSources[1]).toMatchObject({ sketch: { name: "no" } });
    expect(passage.leaveFrom).toBe(Date.UTC(2027, 3, 7, 17) / 1000);
    expect(good(changed(EXAMPLE, "name: Tansy", "name: 1.10")).data.boat.name).toBe("1.10");
    expect(good(changed(EXAMPLE, "lengthOverall: 11.6 m", `lengthOverall: 38'1"`)).passage.boat.lengthOverallMetres).toBeCloseTo(
      38 * 0.3048 + 0.0254,
      12,
    );
  });
});
