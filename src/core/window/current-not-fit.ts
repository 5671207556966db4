import type { NoAnswer } from "../answers/index.ts";
import { NOT_FIT_HERE } from "../water/index.ts";
import { OPEN_WATER, type PassageNodes } from "./passage-nodes.ts";

/**
 * Where a passage first runs, in open water, through a forecast's current that was held against a tidal station there and found not fit;
 * null where it never does. Its path and times rest on that current, so that it is no better than marginal.
 */
export function currentNotFit({ count, part, answeredBy, atSeconds, xMetres, yMetres, plane }: PassageNodes): NoAnswer | null {
  for (let i = 0; i < count; i++) {
    if (part[i] !== OPEN_WATER || answeredBy[i] !== NOT_FIT_HERE) continue;
    return {
      kind: "noAnswer",
      code: "current-not-fit",
      at: atSeconds[i] as number,
      where: plane.toPosition(xMetres[i] as number, yMetres[i] as number),
    };
  }
  return null;
}
