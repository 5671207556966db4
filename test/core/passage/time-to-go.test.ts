import { describe, expect, it } from "vitest";
import { LabelSearch } from "../../../src/core/passage/fastest/label-search.ts";
import { searchOf } from "../../../src/core/passage/fastest/passage-search.ts";
import { analyticCurrent } from "../../../src/core/water/index.ts";
import { EDDY_BOAT_KN, EDDY_LINE_NM, eddyingFlow } from "./eddies.ts";
import { crossing, HOUR, KN, NM, powerBoat } from "./waters.ts";

describe("the bound by strips on the time to go", () => {
  it("gives the search that the bound by distance alone gives, from less of the water", () => {
    for (let seed = 501; seed <= 512; seed++) {
      const flow = eddyingFlow(seed, 0.3, 1.2);
      const gradient = new Float64Array(6);
      let asked = 0;
      const current = analyticCurrent("eddies", (out, x, y, at) => {
        asked++;
        flow(gradient, x / NM, y / NM, at / HOUR);
        out[0] = (gradient[0] as number) * KN;
        out[1] = (gradient[1] as number) * KN;
      });
      const found = [false, true].map((bySimpleBound) => {
        const search = searchOf(crossing(current, [0, 0], [EDDY_LINE_NM, 0], powerBoat(EDDY_BOAT_KN)));
        const { lengthMetres } = search.crossing.line;
        const rates = search.water.greatestRates(0, 15 * HOUR);
        const labels = new LabelSearch(search.water, search.boat, null, lengthMetres, { cells: 24, directionDepth: 2, bySimpleBound });
        asked = 0;
        const { ways } = labels.search(0, rates, 60 * HOUR);
        return { seconds: ways[0]?.seconds.at(-1), asked };
      });
      expect(found[0]?.seconds, `seed ${seed}`).toBe(found[1]?.seconds);
      expect(found[0]?.asked).toBeLessThanOrEqual(found[1]?.asked as number);
    }
  });
});
