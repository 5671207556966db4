import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readAddress, writeAddress } from "../../src/web/state/address.ts";

describe("the page's address", () => {
  it("says the passage and the departure", () => {
    expect(writeAddress({ passageId: "demo", departAt: "2027-04-08T08:00Z" })).toBe("#demo/2027-04-08T08:00Z");
    expect(readAddress("#demo/2027-04-08T08:00Z")).toEqual({ passageId: "demo", departAt: "2027-04-08T08:00Z" });
    expect(readAddress("")).toEqual({ passageId: null, departAt: null });
    expect(readAddress("#demo/yesterday")).toEqual({ passageId: "demo", departAt: null });
  });

  it("gives back any passage it was given, and never throws", () => {
    fc.assert(
      fc.property(fc.string({ minLength: 1, unit: "grapheme" }), (passageId) => {
        expect(readAddress(writeAddress({ passageId, departAt: null })).passageId).toBe(passageId);
      }),
    );
    fc.assert(fc.property(fc.string(), (hash) => void readAddress(hash)));
  });
});
