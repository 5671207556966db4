import type { Plane } from "../earth/index.ts";
import { CubicInTime, coveringOf, type GridData } from "../fields/index.ts";
import type { CurrentSampler, CurrentSource } from "./current.ts";

class GridCurrent extends CubicInTime implements CurrentSampler {
  readonly answeredBy: number = 0;
}

/**
 * A current read from a grid: in space as its mesh joins it, cubic in time. A grid with one step is held steady and says so.
 * Throws when the grid does not hold `currentEastMps`, `currentNorthMps` in that order.
 */
export function gridCurrent(data: GridData): CurrentSource {
  if (data.quantities[0] !== "currentEastMps" || data.quantities[1] !== "currentNorthMps") {
    throw new Error(`not a grid of current: ${data.quantities.join(", ")}`);
  }
  const covering = coveringOf(data);
  const heldSteady = covering.steps === 1;
  return {
    name: data.source,
    covers: heldSteady ? null : { from: covering.from, until: covering.until },
    issuedAt: data.issuedAt,
    heldSteady,
    onPlane: (plane: Plane): CurrentSampler => new GridCurrent(data, plane),
  };
}
