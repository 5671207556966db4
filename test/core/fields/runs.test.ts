import { describe, expect, it } from "vitest";
import { runOrder, runsForAll } from "../../../src/core/fields/index.ts";

const span = (from: number, until: number) => ({ from, until });

describe("the order in which runs answer", () => {
  const covers = [span(10, 20), span(0, 30), span(-10, 40)];

  it("begins with the newest that covers the passage whole", () => {
    expect(runOrder(covers, span(12, 20))).toEqual([0, 1, 2]);
    expect(runOrder(covers, span(12, 21))).toEqual([1, 0, 2]);
    expect(runOrder(covers, span(-1, 5))).toEqual([2, 0, 1]);
  });

  it("is newest first where none covers it, and where no passage is named", () => {
    expect(runOrder(covers, span(-20, 50))).toEqual([0, 1, 2]);
    expect(runOrder(covers, undefined)).toEqual([0, 1, 2]);
  });

  it("takes a run without times for one that covers all", () => {
    expect(runOrder([span(0, 1), null], span(5, 6))).toEqual([1, 0]);
  });

  it("makes one word of all sources, those without a choice left empty", () => {
    expect(runsForAll([{}, { runsFor: () => "1,0" }, {}], span(0, 1))).toBe(";1,0;");
  });
});
