import { describe, expect, it } from "vitest";
import type { Gate } from "../../src/core/places/index.ts";
import { gatePassedInWords } from "../../src/words/index.ts";
import { clock } from "../core/window/setup.ts";

const office: Gate = {
  name: "the harbour office",
  on: "in",
  place: { kind: "berth" },
  zone: "UTC",
  needs: [],
  waitSeconds: 0,
  clearanceMetres: null,
  office: { ashoreSeconds: 0, notice: null },
};

describe("a notice", () => {
  it("is told by the minute that has begun, never by a later one", () => {
    const passed = { gate: office, role: "notice" as const, reachedAt: clock(20), passedAt: clock(20), fitsUnder: false };
    for (const seconds of [0, 1, 29, 31, 59]) {
      expect(gatePassedInWords({ ...passed, noticeBy: clock(13, 23, seconds) })).toBe("notice to the harbour office by Thu 13:23 UTC");
    }
  });
});
