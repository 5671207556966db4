import { describe, expect, it } from "vitest";
import { sunAltitudeDeg } from "../../src/core/earth/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { at, DEPARTURE, run, runJson } from "./run.ts";

type Json = Readonly<Record<string, unknown>>;
const list = (value: unknown): readonly Json[] => {
  if (!Array.isArray(value)) throw new Error("not a list");
  return value;
};
const asked = ["refuges", "--demo", "--at", DEPARTURE] as const;
const seconds = (iso: unknown): number => Date.parse(String(iso)) / 1000;

describe("refuges on the demo", async () => {
  const { code, out } = await run(...asked);
  const answer = await runJson(...asked);
  const hours = list(answer["hours"]);
  const refuges = list(answer["refuges"]);
  const runsOf = (hour: Json) => list(at(hour, "runs", 0, "refuges"));
  const struckBy = (one: Json) => list(one["struckOutBy"]).map((reason) => reason["kind"]);

  it("refuses the refuge that is soonest reached but dark on arrival, with its first light, and sends to another", () => {
    const dark = hours.filter((hour) => {
      const [soonest] = [...runsOf(hour)]
        .filter((one) => one["arrivalAt"] !== null)
        .sort((a, b) => seconds(a["arrivalAt"]) - seconds(b["arrivalAt"]));
      return soonest?.["name"] === "the lee of Gannet Stack" && soonest["canEnter"] === "no" && struckBy(soonest).join() === "dark";
    });
    expect(dark.map((hour) => hour["soonest"])).toContain("Lantern Cove");
    const gannet = refuges.find((one) => one["name"] === "the lee of Gannet Stack");
    const position = { latitudeDeg: Number(gannet?.["latitudeDeg"]), longitudeDeg: Number(gannet?.["longitudeDeg"]) };
    for (const hour of dark) {
      expect(["Lantern Cove", "the fairway buoy off Pelu Road"]).toContain(hour["soonest"]);
      const one = runsOf(hour).find((other) => other["name"] === "the lee of Gannet Stack");
      expect(sunAltitudeDeg(epochSeconds(seconds(one?.["arrivalAt"])), position)).toBeLessThan(-6);
      const first = seconds(at(one, "struckOutBy", 0, "firstLightAt"));
      expect(sunAltitudeDeg(epochSeconds(first), position)).toBeCloseTo(-6, 1);
      expect(first).toBeGreaterThan(seconds(one?.["arrivalAt"]));
    }
  });

  it("refuses another for the sea on its bar, and none of the refused is the soonest", () => {
    for (const hour of hours) {
      const bar = runsOf(hour).find((one) => one["name"] === "Wick Bar");
      expect(struckBy(bar ?? {})).toContain("sea");
      const enterable = runsOf(hour).filter((one) => one["canEnter"] === "yes");
      expect(hour["soonest"]).toBe(enterable[0]?.["name"] ?? null);
      const soonest = Math.min(...enterable.map((one) => seconds(one["arrivalAt"])));
      expect(seconds(enterable[0]?.["arrivalAt"])).toBe(soonest);
    }
  });

  it("opens with a sentence to act on, ends with 0, and says what the JSON says", () => {
    expect(code).toBe(0);
    const sentence = out.split("\n\n")[1]?.replace(/\s+/g, " ") ?? "";
    expect(sentence).toMatch(
      /^Leaving Wed 7 Apr 2027, 22:00 UTC-8 by the way “one heading”\. If it goes wrong: from Wed 23:00 to Thu \d\d:00 run for Lantern Cove; /,
    );
    expect(sentence).toMatch(
      /Turning back to .* is quicker than going on to .* until Thu \d\d:\d\d, [\d.]+ miles across, with \d h \d\d to either\. Of the whole hours, turned back from Wed 23:00 to Thu 02:00 she comes there in the dark\.$/,
    );
    // Light comes to Pelu Road soon after 06:00: back by then from 03:00, and from no whole hour before.
    const backInTheDark = hours.map((hour) =>
      runsOf(hour).some((one) => one["name"] === "the fairway buoy off Pelu Road" && JSON.stringify(one["struckOutBy"]).includes('"dark"')),
    );
    expect(backInTheDark.slice(0, 5)).toEqual([true, true, true, true, false]);
    const blocks = out.match(/^(?:Wed|Thu) \d\d:00 {3}/gm) ?? [];
    expect(blocks.length).toBe(hours.length);
    expect(out.match(/^→ (?!the soonest)/gm)?.length).toBe(hours.length);
    const struck = hours.flatMap(runsOf).filter((one) => one["canEnter"] === "no").length;
    expect(out.match(/^– /gm)?.length).toBe(struck);
    const [first] = runsOf(hours[0] ?? {});
    const heading = String(Math.round(Number(at(first, "orders", 0, "steer", "headingDegCompass")))).padStart(3, "0");
    expect(out).toMatch(new RegExp(`^→ Lantern Cove +${heading}  `, "m"));
  });

  it("turns back where back and on take the same time", () => {
    const turn = answer["turnBack"];
    expect(Math.abs(Number(at(turn, "backSeconds")) - Number(at(turn, "onSeconds")))).toBeLessThan(2);
    expect(seconds(at(turn, "lastAt")) + Number(at(turn, "onSeconds"))).toBeCloseTo(seconds(answer["openWaterUntil"]), -1);
  });

  it("keeps the fuel: less is left the later one turns, and of what is usable", () => {
    const used = hours.map((hour) => Number(hour["fuelUsedLitres"]));
    expect([...used].sort((a, b) => a - b)).toEqual(used);
    for (const one of hours.flatMap(runsOf)) expect(Number(one["fuelLeftLitres"])).toBeLessThan(180);
  });

  it("warns: a planning aid, entrances change, charts and local rules first, invented", () => {
    const plain = out.replace(/\s+/g, " ");
    for (const words of [
      "Entrances change",
      "official charts, notices",
      "local rules",
      "A planning aid; not for navigation.",
      "invented, for demonstration",
      "chart datum",
    ])
      expect(plain).toContain(words);
  });
});

describe("refuges where it goes hard", () => {
  it("in the blow nothing can be entered from some hour: exit 1, and where to wait or that nothing opens", async () => {
    const { code, out } = await run("refuges", "--demo", "--at", "2027-04-08 1600");
    expect(code).toBe(1);
    expect(out.replace(/\s+/g, " ")).toMatch(/none can be entered on arrival/);
    expect(out.replace(/\s+/g, " ")).toMatch(/none can be entered before \w{3} \d\d:\d\d\. Make for|none opens within a day/);
  });

  it("a departure that the forecast does not cover has no hours, exit 1", async () => {
    const { code, out } = await run("refuges", "--demo", "--at", "2027-04-20 1000");
    expect(code).toBe(1);
    expect(out.replace(/\s+/g, " ")).toContain("no way arrives: not judged: current ends");
  });

  it("asks every half-hour, and along another way, when told", async () => {
    const halves = await runJson(...asked, "--every", "30");
    expect(list(halves["hours"]).length).toBeGreaterThan(18);
    const held = await runJson(...asked, "--way", "holdTrack");
    expect(held["way"]).toBe("holdTrack");
  });

  it.each([
    [[...asked, "--every", "0"], "argument-not-understood", "--every"],
    [[...asked, "--every", "an hour"], "argument-not-understood", "--every"],
    [[...asked, "--way", "holdTrak"], "argument-not-understood", "did you mean holdTrack?"],
    [["refuges", "--demo"], "argument-missing", "--at"],
    [["refuges", "--demo", "--at", "04/05/2027 0600"], "date-ambiguous", "--at"],
  ])("%j: exit 2, %s", async (words, wanted, hint) => {
    const { code, out, err } = await run(...words);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain(wanted);
    expect(err.replace(/\s+/g, " ")).toContain(hint);
  });
});
