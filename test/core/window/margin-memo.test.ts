import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { judgeLeave, tryDeparture } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { MarginMemo } from "../../../src/core/window/index.ts";
import { openPassage } from "../../../src/storage/index.ts";

it("a board judged with what is remembered is the board judged anew, whatever limits were changed before and back", async () => {
  const opened = await openPassage(fileURLToPath(new URL("../../../demo/morrel/passage.yaml", import.meta.url)));
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  const { prepared } = opened.value;
  const { departures, kept } = tryDeparture(prepared, epochSeconds(Date.parse("2027-04-08T08:00Z") / 1000));
  const memo = new MarginMemo();
  const changes = [{}, { never: 12 }, { happy: 5, never: 8 }, { toleratedSeconds: 7200 }, { happy: 5, never: 8 }, {}];
  const verdicts = changes.map((change, i) => {
    const limits = prepared.passage.limits.map((limit, k) => (k === i % 2 && limit.during !== "once" ? { ...limit, ...change } : limit));
    const changed = { ...prepared, passage: { ...prepared.passage, limits } };
    const remembered = judgeLeave(changed, departures, kept, memo).rows;
    expect(remembered).toEqual(judgeLeave(changed, departures, kept).rows);
    return remembered[0]?.verdict.smallestMargin;
  });
  // The changes do change something, so that a memory that answered for another limit would be seen.
  expect(new Set(verdicts).size).toBeGreaterThan(1);
});
