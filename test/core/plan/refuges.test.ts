import { describe, expect, it } from "vitest";
import { geodesicFrom } from "../../../src/core/earth/index.ts";
import { FUEL_KEPT_SHARE, LightAtEntrance, type RefugeHour, type RefugeRun, refugesAt } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { clock, limit } from "../window/setup.ts";
import { type ANY, NM, refuge, withRefuges } from "./refuges-setup.ts";
import { currentGrid, kn, passage, prepared, tansy } from "./setup.ts";

const runOf = (hour: RefugeHour | undefined, name: string, list = 0): RefugeRun => {
  const run = hour?.runs[list]?.find((one) => one.refuge.name === name);
  if (run === undefined) throw new Error(`no run to ${name}`);
  return run;
};
const arrivalOf = ({ run }: RefugeRun): number => {
  if (run.kind === "fails") throw new Error(run.why.code);
  return run.arrivalAt;
};
const kinds = (run: RefugeRun): string[] => run.struckOut.map((one) => one.kind);
/** Wind and sea from 0 h to 48 h, changed at an hour. */
const weather = (first: { windKn: number; gustKn: number; seaMetres: number }, then = first, changeHour = 24) => [
  {
    kind: "periods" as const,
    wind: [first, then].map((one, k) => ({
      from: epochSeconds(clock(k === 0 ? 0 : changeHour)),
      until: epochSeconds(clock(k === 0 ? changeHour : 48)),
      fromDegTrue: 180,
      arcDeg: 0,
      speedLowMps: kn(one.windKn - 2),
      speedHighMps: kn(one.windKn),
      gustMps: kn(one.gustKn),
    })),
    sea: [first, then].map((one, k) => ({
      from: epochSeconds(clock(k === 0 ? 0 : changeHour)),
      until: epochSeconds(clock(k === 0 ? changeHour : 48)),
      heightLowMetres: one.seaMetres / 2,
      heightHighMetres: one.seaMetres,
      periodLowSeconds: null,
      periodHighSeconds: null,
    })),
  },
];

describe("where to run to, hour by hour", () => {
  it("asks on the whole hours of ship's time between the buoys, or as often as told", () => {
    const made = prepared(withRefuges([refuge("A", 270, 12)]));
    const { way, hours } = refugesAt(made, clock(6) + 600);
    expect(way?.name).toBe("oneHeading");
    expect(hours.map((hour) => hour.at)).toEqual([7, 8, 9, 10, 11, 12].map((hour) => clock(hour)));
    const halves = refugesAt(made, clock(6) + 600, { everySeconds: 1800 }).hours;
    expect(halves.slice(0, 3).map((hour) => hour.at)).toEqual([clock(6.5), clock(7), clock(7.5)]);
  });

  it("sets the soonest that can be entered first and counts both ends by the passage's own limits", () => {
    const made = prepared(withRefuges([refuge("Near", 290, 8), refuge("Far", 0, 60)], { limits: [limit("windMps", 15, 25)] }, true));
    const [first] = refugesAt(made, clock(6)).hours;
    const names = (first?.runs[0] ?? []).map((one) => one.refuge.name);
    expect(names).toEqual(["Near", "East Haven", "West Haven", "Far"]);
    const arrivals = (first?.runs[0] ?? []).map(arrivalOf);
    expect([...arrivals].sort((a, b) => a - b)).toEqual(arrivals);
    expect(first?.runs[0]?.every((one) => one.verdict === "enter")).toBe(true);
  });

  it("leaves the ends out where they are no refuges", () => {
    const { refuges } = refugesAt(prepared({ refuges: { listed: [refuge("A", 0, 6)], fromCounts: false, toCounts: true } }), clock(6));
    expect(refuges.map((one) => [one.name, one.role])).toEqual([
      ["West Haven", "to"],
      ["A", "listed"],
    ]);
  });

  it("says where no way is left and asks nothing then", () => {
    const stream = { waterSources: [{ kind: "uniform" as const, setDegTrue: 90, rateMps: kn(9) }] };
    const answer = refugesAt(prepared(withRefuges([refuge("A", 0, 6)], stream)), clock(6));
    expect(answer).toMatchObject({ way: null, hours: [], turnBack: null });
    expect(answer.why?.kind).toBe("noAnswer");
  });

  it("goes along another way where one is named", () => {
    const made = prepared(withRefuges([refuge("A", 0, 6)]));
    expect(refugesAt(made, clock(6), { way: "bowOnDestination" }).way?.name).toBe("bowOnDestination");
  });
});

describe("an entrance is struck out", () => {
  const struck = (changes: Partial<typeof ANY>, sources = weather({ windKn: 20, gustKn: 27, seaMetres: 1.4 })) => {
    const made = prepared(withRefuges([refuge("A", 300, 10, changes)], { weatherSources: sources }));
    return runOf(refugesAt(made, clock(6)).hours[0], "A");
  };

  it.each([
    [{ neverWindMps: kn(19.9) }, { neverWindMps: kn(20.1) }, "wind"],
    [{ neverGustMps: kn(26.9) }, { neverGustMps: kn(27.1) }, "gust"],
    [{ neverSeaMetres: 1.39 }, { neverSeaMetres: 1.41 }, "sea"],
    [{ chartedDepthMetres: 2.6, underKeelMetres: 1 }, { chartedDepthMetres: 2.8, underKeelMetres: 1 }, "depth"],
  ])("by the worse end of what is there against the skipper's figure: %j", (beyond, within, kind) => {
    expect(struck(beyond)).toMatchObject({ verdict: "struckOut", struckOut: [{ kind }] });
    expect(struck(within)).toMatchObject({ verdict: "enter", struckOut: [] });
  });

  it("tells all that speaks against it at once", () => {
    const run = struck({ neverWindMps: kn(10), neverSeaMetres: 1, chartedDepthMetres: 1.5 });
    expect(kinds(run)).toEqual(["depth", "wind", "sea"]);
    expect(run.struckOut[0]).toMatchObject({ underKeelMetres: expect.closeTo(-0.2, 9), leastMetres: 1 });
  });

  it("is never called open where the forecast ends before the arrival", () => {
    const short = weather({ windKn: 10, gustKn: 14, seaMetres: 1 }).map((one) => ({
      ...one,
      wind: one.wind.slice(0, 1).map((part) => ({ ...part, until: epochSeconds(clock(14)) })),
    }));
    const made = prepared(withRefuges([refuge("A", 180, 60, { neverWindMps: kn(25) })], { weatherSources: short }));
    const [first] = refugesAt(made, clock(6)).hours;
    expect(runOf(first, "A")).toMatchObject({
      verdict: "notJudged",
      struckOut: [{ kind: "notJudged", why: { code: "not-covered-time", quantity: "windMps" } }],
    });
    expect(first?.wait).toBeNull();
  });

  it("is never called open where no source gives a sea that a limit is set on", () => {
    const noSea = [{ ...weather({ windKn: 10, gustKn: 14, seaMetres: 1 })[0]!, sea: [] }];
    expect(struck({ neverSeaMetres: 2 }, noSea)).toMatchObject({
      verdict: "notJudged",
      struckOut: [{ kind: "notJudged", why: { code: "not-covered-variable", quantity: "seaHeightMetres" } }],
    });
  });

  it("by the dark on arrival, and by the dark before the berth", () => {
    const made = prepared(withRefuges([refuge("A", 300, 10, { sunAboveDeg: -6 }), refuge("B", 300, 10, {})]));
    // Near 34° N 40° W in June the day is some fourteen hours long.
    const hours = [...refugesAt(made, clock(3)).hours, ...refugesAt(made, clock(15)).hours];
    const verdicts = hours.map((hour) => runOf(hour, "A"));
    expect(new Set(verdicts.map((one) => one.verdict))).toEqual(new Set(["enter", "struckOut"]));
    for (const run of verdicts) {
      const light = new LightAtEntrance(run.refuge.position, -6);
      const both = light.isLight(arrivalOf(run)) && light.isLight(arrivalOf(run) + 1200);
      expect(run.verdict).toBe(both ? "enter" : "struckOut");
      if (run.struckOut[0]?.kind === "dark") expect(run.struckOut[0].firstLightAt).toBeGreaterThan(arrivalOf(run));
    }
    for (const hour of hours) expect(runOf(hour, "B").verdict).toBe("enter");
  });

  it("by the fuel that would be left, from the berth on, under the share that is kept", () => {
    const hourly = 6;
    const fuelled = (usableFuelLitres: number | null) => {
      const boat = { ...tansy, power: { ...tansy.power!, burnLitresPerHour: hourly, usableFuelLitres } };
      return refugesAt(prepared(withRefuges([refuge("A", 300, 10)], { boat })), clock(6)).hours[2]!;
    };
    const plenty = fuelled(1000);
    const run = runOf(plenty, "A");
    const burnt = (hourly * (arrivalOf(run) - clock(6))) / 3600;
    expect(plenty.fuelUsedLitres).toBeCloseTo(hourly * 3, 6);
    expect(run.fuelLeftLitres).toBeCloseTo(1000 - burnt, 6);
    const justEnough = burnt / (1 - FUEL_KEPT_SHARE);
    expect(runOf(fuelled(justEnough + 0.1), "A").verdict).toBe("enter");
    expect(runOf(fuelled(justEnough - 0.1), "A")).toMatchObject({ verdict: "struckOut", struckOut: [{ kind: "fuel" }] });
    expect(runOf(fuelled(null), "A")).toMatchObject({ verdict: "enter", fuelLeftLitres: null });
  });

  it("where the water lets no boat there, and is not judged where the water is not known", () => {
    // The grid covers 32° to 36° N, 43° to 39° W.
    const made = prepared(
      withRefuges([refuge("Beyond", 90, 55), refuge("Near", 180, 20)], { waterSources: [{ kind: "files", files: ["current.nc"] }] }),
      { water: [[currentGrid(1)]], weather: [null] },
    );
    const [hour] = refugesAt(made, clock(6)).hours;
    expect(runOf(hour, "Beyond")).toMatchObject({ verdict: "notJudged", run: { kind: "fails", why: { code: "not-covered-place" } } });
    expect(runOf(hour, "Near").verdict).toBe("enter");
    // Down-stream faster than she goes up: what lies astern in the stream can't be reached.
    const strong = prepared(
      withRefuges([refuge("Up", 90, 20), refuge("Down", 270, 50)], {
        waterSources: [{ kind: "uniform", setDegTrue: 270, rateMps: kn(8) }],
      }),
    );
    const [carried] = refugesAt(strong, clock(6)).hours;
    expect(runOf(carried, "Up")).toMatchObject({ verdict: "struckOut", berthAt: null, run: { kind: "fails" } });
    expect(runOf(carried, "Down").verdict).toBe("enter");
    expect(carried?.runs[0]?.at(-1)?.refuge.name).toBe("Up");
  });
});

describe("where nothing can be entered", () => {
  it("one waits off the entrance with the shortest wait until first light", () => {
    const made = prepared(withRefuges([refuge("Near", 300, 6, { sunAboveDeg: -6 }), refuge("Far", 0, 30, { sunAboveDeg: -6 })]));
    const answer = refugesAt(made, clock(24));
    const dark = answer.hours.filter((hour) => hour.wait !== null);
    expect(dark.length).toBeGreaterThan(1);
    for (const { runs, wait } of dark) {
      expect(runs[0]?.every((one) => one.verdict !== "enter")).toBe(true);
      const run = runOf({ ...dark[0]!, runs }, wait!.refuge.name);
      expect(wait!.arrivalAt).toBe(arrivalOf(run));
      const light = new LightAtEntrance(wait!.refuge.position, -6);
      expect(Math.abs(wait!.opensAt - light.firstLightAfter(wait!.arrivalAt)!)).toBeLessThan(2);
    }
    // Both open within minutes of each other, and Far is reached later: the wait off it is the shorter.
    expect(dark[0]?.wait?.refuge.name).toBe("Far");
  });

  it("or until the wind has gone down", () => {
    const sources = weather({ windKn: 30, gustKn: 38, seaMetres: 1 }, { windKn: 12, gustKn: 16, seaMetres: 1 }, 15.5);
    const made = prepared(withRefuges([refuge("A", 300, 10, { neverWindMps: kn(25) })], { weatherSources: sources }));
    const [hour] = refugesAt(made, clock(6)).hours;
    expect(runOf(hour, "A").struckOut).toMatchObject([{ kind: "wind" }]);
    expect(Math.abs(hour!.wait!.opensAt - clock(15.5))).toBeLessThanOrEqual(30);
  });

  it("and not off one that its depth or the fuel bars, or that does not open within a day", () => {
    const waitOf = (changes: Partial<typeof ANY>, sources = weather({ windKn: 30, gustKn: 38, seaMetres: 1 })) =>
      refugesAt(prepared(withRefuges([refuge("A", 300, 10, changes)], { weatherSources: sources })), clock(6)).hours[0]?.wait;
    expect(waitOf({ chartedDepthMetres: 1 })).toBeNull();
    expect(waitOf({ neverWindMps: kn(25) })).toBeNull();
  });
});

describe("under sail alone", () => {
  const sail = {
    points: [60, 90, 150].flatMap((trueWindAngleDeg) =>
      [6, 20].map((windKn) => ({ trueWindAngleDeg, trueWindMps: kn(windKn), speedMps: kn(windKn / 4) })),
    ),
    leewayCoefficient: null,
    leewayCapDeg: 12,
  };

  it("a boat that goes under power and has sails is sailed to each refuge, which may not be possible to windward", () => {
    const made = prepared(withRefuges([refuge("Lee", 340, 10), refuge("Windward", 180, 10)], { boat: { ...tansy, sail } }));
    const answer = refugesAt(made, clock(6));
    expect(answer.running).toEqual(["withEngine", "underSail"]);
    const [hour] = answer.hours;
    const [motored, sailed] = [runOf(hour, "Lee"), runOf(hour, "Lee", 1)];
    expect(arrivalOf(sailed)).toBeGreaterThan(arrivalOf(motored));
    expect(sailed.run).toMatchObject({ fuelLitres: 0 });
    // The wind is from 180.
    expect(runOf(hour, "Windward").verdict).toBe("enter");
    expect(runOf(hour, "Windward", 1).run.kind).toBe("fails");
  });

  it("a boat without an engine has that alone", () => {
    const boat = { ...tansy, goes: "sail" as const, power: null, sail };
    const answer = refugesAt(prepared(withRefuges([refuge("Lee", 340, 10)], { boat })), clock(6));
    expect(answer.running).toEqual(["underSail"]);
    expect(answer.hours[0]).toMatchObject({ fuelUsedLitres: null });
    expect(runOf(answer.hours[0], "Lee").verdict).toBe("enter");
  });

  it("without speeds under sail there is the engine alone", () => {
    expect(refugesAt(prepared(withRefuges([])), clock(6)).running).toEqual(["withEngine"]);
  });
});

describe("turning back", () => {
  it("is half-way in water that does not favour either, and gives the same time to both", () => {
    const still = { waterSources: [{ kind: "uniform" as const, setDegTrue: 0, rateMps: 0 }] };
    const { turnBack, way } = refugesAt(prepared(withRefuges([], still)), clock(6));
    expect(turnBack?.thenWhy).toBeNull();
    expect(Math.abs(turnBack!.lastAt! - (way!.departAt + way!.arrivalAt) / 2)).toBeLessThan(2);
    expect(Math.abs(turnBack!.backSeconds - turnBack!.onSeconds)).toBeLessThan(2);
  });

  it("comes early with the stream under her, and where it is stronger than she is there is no way back", () => {
    const down = (rate: number) =>
      refugesAt(prepared(withRefuges([], { waterSources: [{ kind: "uniform", setDegTrue: 270, rateMps: kn(rate) }] })), clock(6));
    const { turnBack, way } = down(3);
    // At S + c on and S − c back, equal times come (S − c)/2S of the way along.
    expect((turnBack!.lastAt! - way!.departAt) / (way!.arrivalAt - way!.departAt)).toBeCloseTo((6 - 3) / (2 * 6), 3);
    const lost = down(8).turnBack!;
    expect(lost.thenWhy?.kind).toBe("noAnswer");
    expect(lost.lastAt! - clock(6)).toBeLessThan(60);
  });

  it("is told whether the beginning counts as a refuge or not", () => {
    const without = refugesAt(prepared(withRefuges([])), clock(6));
    expect(without.refuges).toEqual([]);
    expect(without.turnBack?.lastAt).toBe(refugesAt(prepared(withRefuges([], {}, true)), clock(6)).turnBack?.lastAt);
  });
});

describe("first light", () => {
  it("is found once and held for the rest of the night, and does not come in the polar night", () => {
    const place = geodesicFrom(passage().from.position, 0, 10 * NM).position;
    const light = new LightAtEntrance(place, -6);
    const at = light.firstLightAfter(clock(26))!;
    expect(light.isLight(at)).toBe(true);
    expect(light.isLight(at - 2)).toBe(false);
    expect(light.firstLightAfter(clock(27))).toBe(at);
    expect(new LightAtEntrance(place, -6).firstLightAfter(clock(27))).toBeCloseTo(at, -0.5);
    const polar = new LightAtEntrance({ latitudeDeg: 80, longitudeDeg: 20 }, -6);
    expect(polar.firstLightAfter(Date.UTC(2027, 11, 21, 12) / 1000)).toBeNull();
  });
});
