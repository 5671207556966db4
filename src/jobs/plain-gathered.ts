import { boxAround, type CoastFacts, type LandArea } from "../core/coast/index.ts";
import type { Plane } from "../core/earth/index.ts";
import type { Gathered } from "../core/plan/index.ts";
import { shared } from "./shared-memory.ts";

/** What a passage's files gave, as plain data: the world's coastline is cut to the passage's waters. */
export interface PlainGathered {
  readonly water: Gathered["water"];
  readonly weather: Gathered["weather"];
  readonly land: {
    readonly coast: { readonly facts: CoastFacts; readonly areas: readonly LandArea[] } | null;
    readonly files: NonNullable<Gathered["land"]>["files"];
  } | null;
}

/** Makes what was gathered fit to be handed to threads, its grids in shared memory. `plane`: the passage's own. */
export function plainGathered({ water, weather, land = null }: Gathered, plane: Plane): PlainGathered {
  const coast = land?.coast ?? null;
  return shared({
    water,
    weather,
    land:
      land === null
        ? null
        : { coast: coast === null ? null : { facts: coast.facts, areas: coast.within(boxAround(plane)) }, files: land.files },
  });
}

/** What was gathered, for `prepare`, on the same passage's plane. */
export function gatheredAgain({ water, weather, land }: PlainGathered): Gathered {
  if (land === null) return { water, weather, land: null };
  const { coast, files } = land;
  return { water, weather, land: { coast: coast === null ? null : { facts: coast.facts, within: () => coast.areas }, files } };
}
