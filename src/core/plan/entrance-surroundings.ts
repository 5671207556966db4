import { type Issue, issue } from "../answers/index.ts";
import type { Plane } from "../earth/index.ts";
import type { EntranceSurroundings } from "../places/index.ts";
import { type NamedTide, NOT_CHART_DATUMS, streamNamed, type TidalStream, tideNamed } from "../water/index.ts";
import type { SeaSource, WindSource } from "../weather/index.ts";
import type { Passage } from "./passage.ts";

/**
 * What a passage's bars and cuts are judged with. Of several runs of a forecast the newest that covers an instant answers, of several
 * members the control: a gate opens and shuts at the same times for every departure and every crossing that is tried.
 */
export function entranceSurroundings(
  plane: Plane,
  waters: { readonly tides: readonly NamedTide[]; readonly streams: readonly TidalStream[] },
  wind: WindSource,
  sea: SeaSource | null,
): EntranceSurroundings {
  return {
    tideNamed: (name) => tideNamed(waters.tides, name),
    streamNamed: (name) => streamNamed(waters.streams, name),
    sea: sea?.onPlane(plane) ?? null,
    wind: wind.onPlane(plane, 0),
    seaCovers: sea?.covers ?? null,
    windCovers: wind.covers,
  };
}

/** Charted depths to which a computed tide is added whose heights are not above a chart datum: each is refused, since it would be off by metres. */
export function datumsThatDiffer({ gates = [], depths = [] }: Passage, tides: readonly NamedTide[]): readonly Issue[] {
  const named = [
    ...gates.flatMap(({ needs }, i) =>
      needs.flatMap((need) =>
        need.kind === "entrance" && need.entrance.depth !== null ? [{ path: `gates[${i}]`, tide: need.entrance.depth.tide }] : [],
      ),
    ),
    ...depths.flatMap(({ tide }, i) => (tide == null ? [] : [{ path: `depths[${i}]`, tide }])),
  ];
  return named.flatMap(({ path, tide }) => {
    const datum = tideNamed(tides, tide)?.datum;
    if (datum === undefined || !NOT_CHART_DATUMS.has(datum)) return [];
    const message = `\`${path}\` adds the tide of ${tide} to a charted depth, and its heights are above ${datum}, which is no chart datum`;
    return [issue(path, "tide-datum-differs", message)];
  });
}
