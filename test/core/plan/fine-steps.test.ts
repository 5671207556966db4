import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { crossingOf, waysAcross } from "../../../src/core/passage/index.ts";
import { openPassage } from "../../../src/storage/index.ts";

describe("the demo's passage at the default step", async () => {
  const opened = await openPassage(fileURLToPath(new URL("../../../demo/morrel/passage.yaml", import.meta.url)));
  if (!opened.ok) throw new Error("the demo can't be opened");
  const { crossing } = opened.value.prepared.trialOf(0);
  const fine = crossingOf(crossing.line, crossing.around, crossing.boat, 5);

  it.each(["2027-04-07T04:40:00Z", "2027-04-09T13:10:00Z", "2027-04-12T06:00:00Z"])(
    "arrives within a second of steps of 5 s, every way, leaving %s",
    (utc) => {
      const departAt = Date.parse(utc) / 1000;
      const [coarse, exact] = [waysAcross(crossing, departAt).ways, waysAcross(fine, departAt).ways];
      expect(coarse.map((way) => way.kind)).toEqual(["arrives", "arrives", "arrives", "arrives"]);
      coarse.forEach((way, i) => {
        const other = exact[i];
        if (way.kind !== "arrives" || other?.kind !== "arrives") throw new Error(`${way.name} does not arrive`);
        expect(Math.abs(way.arrivalAt - other.arrivalAt), way.name).toBeLessThan(1);
      });
    },
  );
});
