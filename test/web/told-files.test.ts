import { describe, expect, it } from "vitest";
import { issuesIn, runIn } from "../../src/web/ask/answered.ts";
import type { FileInspection } from "../../src/web/ask/shapes.ts";
import { leavingWords } from "../../src/web/parts/leaving-words.ts";
import { sayInspection, sizeWords } from "../../src/web/parts/say-inspection.ts";
import { shipTime } from "../../src/web/parts/ship-time.ts";
import { typedAt } from "../../src/web/state/open-sheet.ts";
import { boardOfDays, lineLeaving } from "./boards.ts";

const offer = {
  quantity: "wind",
  wanted: true,
  from: "2030-06-01T00:00:00Z",
  until: "2030-06-03T00:00:00Z",
  line: "whole",
  roomNm: 10,
  without: [],
  departures: "whole",
  firstDepartureAt: null,
  lastDepartureAt: null,
} as const;

const gale: FileInspection = {
  name: "wind.grib2",
  kind: "grib2",
  sizeBytes: 1_240_000,
  fields: [],
  oddities: [{ code: "land-none", message: "A message stands twice." }],
  letter: null,
  land: null,
  sailTable: null,
  passage: null,
  serves: {
    verdict: "servesInPart",
    offers: [{ ...offer, departures: "inPart", firstDepartureAt: offer.from, lastDepartureAt: offer.until, without: [] }],
  },
} as unknown as FileInspection;

describe("a file that was looked into", () => {
  it("says what it is, whether it serves, and what it lacks, by ship's time", () => {
    const said = sayInspection(gale, "UTC-8");
    expect(said.is).toBe("GRIB edition 2, 1.2 MB.");
    expect(said.serves).toBe("Serves this passage in part.");
    expect(said.lacks).toEqual(["Has wind only for departures from Fri 31 May 16:00 to Sun 2 Jun 16:00."]);
    expect(said.odd).toEqual(["A message stands twice."]);
    expect(said.offers).toEqual(["weather"]);
  });

  it("offers the current as water, and nothing that lies outside", () => {
    const both = (line: "whole" | "outside"): FileInspection =>
      ({
        ...gale,
        serves: {
          verdict: "serves",
          offers: [
            { ...offer, line },
            { ...offer, quantity: "current", line },
          ],
        },
      }) as unknown as FileInspection;
    expect(sayInspection(both("whole"), "UTC").offers).toEqual(["weather", "water"]);
    expect(sayInspection(both("outside"), "UTC").offers).toEqual([]);
    expect(sayInspection(both("outside"), "UTC").lacks).toEqual([
      "Lacks wind on this passage's waters.",
      "Lacks the current on this passage's waters.",
    ]);
  });

  it("says sizes and times as they are read", () => {
    expect([0, 999, 1000, 3400, 34_000, 12e6, 1.9e9].map(sizeWords)).toEqual([
      "0 bytes",
      "999 bytes",
      "1.0 kB",
      "3.4 kB",
      "34 kB",
      "12 MB",
      "1.9 GB",
    ]);
    expect(shipTime("2030-06-01T05:30:00Z", "UTC+5:45")).toBe("Sat 1 Jun 11:15");
    expect(shipTime("2030-06-01T05:30:00Z", "Pacific/Auckland")).toBe("Sat 1 Jun 17:30");
    expect(shipTime("soon", "UTC")).toBe("soon");
    expect(shipTime("2030-06-01T05:30:00Z", "Nowhere/At_All")).toBe("2030-06-01T05:30:00Z");
    expect(shipTime(null, "UTC")).toBe("no time");
  });
});

describe("what the server says", () => {
  it("is read as issues, and a refusal without any still has one", () => {
    const one = { path: "boat.draught", code: "missing", message: "No draught.", whatToDo: "Write it." };
    expect(issuesIn({ schema: "athwart.issues/1", issues: [one] }, 422)).toEqual([one]);
    expect(issuesIn(undefined, 500)[0]?.message).toContain("500");
    expect(issuesIn({ issues: [null, 3] }, 500)).toHaveLength(1);
    expect([runIn({ run: { id: "r1" } }), runIn({ run: "r2" }), runIn({}), runIn(null)]).toEqual(["r1", "r2", null, null]);
  });
});

describe("the words of the chosen line", () => {
  it("are made of the line alone", () => {
    expect(leavingWords(lineLeaving("2030-06-01T20:00Z"), "Saturday 1 June")).toBe(
      "Leaving Saturday 1 June, 20:00: open, by gusts 20 kn, Thu 10:00. In hand 7\u00a0h\u00a020 before dark at the entrance.",
    );
    expect(leavingWords(lineLeaving("2030-06-01T20:00Z", { verdict: "closed", words: "", hand: "", inTen: null }), "Saturday 1 June")).toBe(
      "Leaving Saturday 1 June, 20:00: shut.",
    );
  });

  it("and a limit as typed is found by its path", () => {
    const board = boardOfDays(1, 6);
    expect(typedAt(board, "limits.wind.never")).toBe("22 kn");
    expect(typedAt(board, "limits.wind.happy")).toBe("14 kn");
    expect(typedAt(board, "boat.power.speed")).toBe("5.6 kn");
    expect([typedAt(board, "limits.windAgainstCurrent.never"), typedAt(null, "limits.wind.never")]).toEqual([null, null]);
  });
});
