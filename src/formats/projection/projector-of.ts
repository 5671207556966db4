import { checkedProjection } from "./check-projection.ts";
import type { MapProjection } from "./map-projection.ts";
import { mapProjector } from "./map-projector.ts";
import type { Projector } from "./projector.ts";
import { rotatedPoleProjector } from "./rotated-pole.ts";

/** A file of thousands of fields stands on a grid or two: so many projectors are kept for the next that asks. */
const MOST_KEPT = 16;
const kept = new Map<string, Projector>();

/** The projector of a projection. Throws on one that `faultOfProjection` finds fault with. */
export async function projectorOf(projection: MapProjection): Promise<Projector> {
  const key = JSON.stringify(projection);
  const known = kept.get(key);
  if (known !== undefined) return known;
  const checked = checkedProjection(projection);
  const made = checked.kind === "rotatedPole" ? rotatedPoleProjector(checked) : await mapProjector(checked);
  const [oldest] = kept.keys();
  if (kept.size >= MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  kept.set(key, made);
  return made;
}
