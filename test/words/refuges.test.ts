import { describe, expect, it } from "vitest";
import { type RefugesAnswer, refugesAt, steeringCompass } from "../../src/core/plan/index.ts";
import {
  againstInWords,
  entrancesInWords,
  firstHeading,
  portTime,
  refugesInWords,
  struckOutInWords,
  waitInWords,
} from "../../src/words/index.ts";
import { refuge, withRefuges } from "../core/plan/refuges-setup.ts";
import { kn, prepared } from "../core/plan/setup.ts";
import { clock } from "../core/window/setup.ts";

const answerTo = (...parts: Parameters<typeof withRefuges>): RefugesAnswer => refugesAt(prepared(withRefuges(...parts)), clock(6));
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

describe("ports of refuge in words", () => {
  it("why one is struck out: with figures that differ, and the first light with the wait for it", () => {
    const say = (one: Parameters<typeof struckOutInWords>[0]): string => plain(struckOutInWords(one, clock(4), "UTC-3"));
    expect(say({ kind: "dark", from: "entrance", firstLightAt: clock(8, 16) })).toBe("dark; light 05:16, wait 4 h 16");
    expect(say({ kind: "dark", from: "berth", firstLightAt: null })).toBe("dark before the berth; no light to come");
    expect(say({ kind: "gust", mps: kn(33), neverMps: kn(29) })).toBe("gusts 33 kn, never above 29 kn");
    expect(say({ kind: "wind", mps: kn(22.3), neverMps: kn(22) })).toBe("wind 22.3 kn, never above 22.0 kn");
    expect(say({ kind: "sea", metres: 1.22, neverMetres: 0.8 })).toBe("sea 1.2 m, never above 0.8 m");
    expect(say({ kind: "sea", metres: 1.22, neverMetres: 1.2 })).toBe("sea 1.22 m, never above 1.20 m");
    expect(say({ kind: "depth", underKeelMetres: -0.4, leastMetres: 1 })).toBe("0.4 m too shallow at chart datum");
    expect(say({ kind: "depth", underKeelMetres: 0.4, leastMetres: 1 })).toBe("0.4 m under the keel at chart datum, 1.0 m wanted");
    expect(say({ kind: "fuel", leftLitres: 12, keptLitres: 18 })).toBe("12 L of fuel left, 18 L to be kept");
    expect(say({ kind: "fuel", leftLitres: -5, keptLitres: 18 })).toBe("fuel short by 5 L");
  });

  it("the time kept at the refuge where it is another than ship's", () => {
    const [there] = answerTo([refuge("A", 300, 10, {}, { zone: "UTC-1" })]).refuges;
    expect(portTime(there!, clock(12), "UTC-3")).toBe("Thu 11:00 UTC-1");
    expect(portTime({ ...there!, zone: null }, clock(12), "UTC-3")).toBeNull();
    expect(portTime({ ...there!, zone: "UTC-3" }, clock(12), "UTC-3")).toBeNull();
  });

  it("the heading for the helm, and hours with one refuge told as one spell", () => {
    const answer = answerTo([refuge("A", 300, 10)]);
    const compass = steeringCompass(answer.prepared, answer.departAt);
    expect(firstHeading(answer.prepared, compass, answer.hours[0]!.runs[0]![0]!.run)).toMatch(/^\d{3}$/);
    expect(refugesInWords(answer)[0]).toMatch(/from Thu 04:00 to Thu 09:00 run for A\.$/);
  });

  it("where to wait, and what to do when nothing opens", () => {
    const never = answerTo([refuge("A", 300, 10, { neverWindMps: kn(5) })]);
    expect(plain(waitInWords(never.hours[0]!, "UTC-3"))).toMatch(
      /^Thu 04:00: none opens within a day either, as far as is known: keep sea room/,
    );
    expect(againstInWords(never.hours[0]!.runs[0]![0]!, "UTC-3")).toBe("wind 12\u00a0kn, never above 5\u00a0kn");
    expect(refugesInWords(never)[0]).toContain("none can be entered on arrival");
  });

  it("what is asked of each entrance", () => {
    const lines = entrancesInWords(
      answerTo([refuge("A", 300, 10, { sunAboveDeg: -6, chartedDepthMetres: 3.2 }, { notes: "Keep north." })], {}, true),
    );
    expect(plain(lines.at(-1)!)).toBe(
      "A: by daylight; 1.5 m under the keel at chart datum, 1.0 m wanted; 20 min to the berth. Keep north.",
    );
    expect(lines[0]).toMatch(/^East Haven \(your limits\): by night too; never above wind 25 kn; depth not judged\.$/);
  });
});
