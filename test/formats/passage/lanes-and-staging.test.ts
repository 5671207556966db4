import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { changed, good, issuesOf } from "./fixture.ts";

const EXAMPLE = readFileSync(new URL("../../../examples/traffic-lanes/passage.yaml", import.meta.url), "utf8");
const NORTH_EAST = "[41 36.9S 19 20.9W, 41 39.4S 19 24.9W, 41 01.1S 20 07.6W, 40 58.6S 20 03.6W]";
const WAY = "    speed: 5 kn\n    points: [41 07.9S 19 28.8W, 41 03.8S 19 32.6W]\n";

describe("lanes and staging in a passage file", () => {
  it("are read in SI, degrees true, in order", () => {
    const { passage } = good(EXAMPLE);
    expect(passage.lanes?.map((lane) => [lane.name, lane.flowDegTrue, lane.ring.length])).toEqual([
      ["north-east lane", 320, 4],
      ["separation zone", null, 4],
      ["south-west lane", 140, 4],
    ]);
    expect(passage.lanes?.[0]?.ring[0]?.latitudeDeg).toBeCloseTo(-(41 + 36.9 / 60), 9);
    expect(passage.staging).toHaveLength(1);
    const reached = passage.staging?.[0]?.reached;
    expect(reached?.kind === "along" ? [reached.speedOverGroundMps, reached.points.length] : null).toEqual([(5 * 1852) / 3600, 2]);
    const takes = good(changed(EXAMPLE, WAY, "    takes: 1 h 40 min\n")).passage.staging?.[0]?.reached;
    expect(takes).toEqual({ kind: "takes", seconds: 6000 });
  });

  it("may be left out", () => {
    const { passage } = good(EXAMPLE.replace(/# Traffic lanes[\s\S]*?(?=limits:)/, ""));
    expect(passage.lanes).toEqual([]);
    expect(passage.staging).toEqual([]);
  });

  it("take a ring that is closed by its first corner over again, either way round", () => {
    const closed = changed(EXAMPLE, NORTH_EAST, NORTH_EAST.replace("]", ", 41 36.9S 19 20.9W]"));
    expect(good(closed).passage.lanes).toEqual(good(EXAMPLE).passage.lanes);
    const back = changed(EXAMPLE, NORTH_EAST, "[40 58.6S 20 03.6W, 41 01.1S 20 07.6W, 41 39.4S 19 24.9W, 41 36.9S 19 20.9W]");
    expect(good(back).passage.lanes?.[0]?.ring).toHaveLength(4);
  });

  it.each<readonly [string, string, string, string]>([
    ["    flow: 320", "    flow: 380", "lanes[0].flow", "out-of-range"],
    ["    flow: 320", "    flows: 320", "lanes[0].flows", "unknown-key"],
    ["  - name: south-west lane", "  - name: north-east lane", "lanes[2].name", "name-twice"],
    [NORTH_EAST, "[41 36.9S 19 20.9W, 41 39.4S 19 24.9W]", "lanes[0].area", "list-too-short"],
    [NORTH_EAST, "[41 36.9S 19 20.9W, 41 01.1S 20 07.6W, 41 39.4S 19 24.9W, 40 58.6S 20 03.6W]", "lanes[0].area", "area-not-sound"],
    [NORTH_EAST, "[41 36.9S 19 20.9W, 41 39.4S 19 24.9W, 41 39.4S 19 24.9W, 40 58.6S 20 03.6W]", "lanes[0].area", "area-not-sound"],
    [NORTH_EAST, "[41 00.0S 19 20.0W, 41 10.0S 19 20.0W, 41 20.0S 19 20.0W]", "lanes[0].area", "area-not-sound"],
    [NORTH_EAST, NORTH_EAST.replace("41 36.9S", "41 36.9N"), "lanes[0].area[0]", "place-far-off"],
    [NORTH_EAST, NORTH_EAST.replace("41 36.9S", "41 66.9S"), "lanes[0].area[0]", "out-of-range"],
    [NORTH_EAST, "here and there", "lanes[0].area", "wrong-shape"],
    ["    position: 41 00.2S 19 39.2W", "    position: 51 00.2S 19 39.2W", "staging[0].position", "place-far-off"],
    ["    position: 41 00.2S 19 39.2W", "    position: 41 37.2S 20 09.0W", "staging[0].position", "same-place"],
    ["41 03.8S 19 32.6W]", "41 03.8N 19 32.6W]", "staging[0].points[1]", "place-far-off"],
    [WAY, "", "staging[0]", "choose-one"],
    [WAY, `${WAY}    takes: 2 h\n`, "staging[0]", "choose-one"],
    [WAY, "    takes: 2 h\n    speed: 5 kn\n", "staging[0].speed", "key-out-of-place"],
    [WAY, "    points: [41 07.9S 19 28.8W]\n", "staging[0]", "missing-key"],
    [WAY, "    takes: 200 h\n", "staging[0].takes", "out-of-range"],
    [WAY, "    takes: 2\n", "staging[0].takes", "unit-missing"],
    [WAY, "    speed: 5 m\n    points: [41 07.9S 19 28.8W]\n", "staging[0].speed", "unit-unknown"],
  ])("%j as %j: %s is %s", (from, to, path, code) => {
    expect(issuesOf(changed(EXAMPLE, from, to)).map((one) => [one.path, one.code])).toEqual([[path, code]]);
  });

  it("tell in words what is wrong with an area", () => {
    const crossed = changed(EXAMPLE, NORTH_EAST, "[41 36.9S 19 20.9W, 41 01.1S 20 07.6W, 41 39.4S 19 24.9W, 40 58.6S 20 03.6W]");
    expect(issuesOf(crossed)[0]?.message).toContain("crosses");
    const twice = changed(EXAMPLE, NORTH_EAST, "[41 36.9S 19 20.9W, 41 39.4S 19 24.9W, 41 39.4S 19 24.9W, 40 58.6S 20 03.6W]");
    expect(issuesOf(twice)[0]?.message).toContain("corners 2 and 3 are one place");
  });
});
