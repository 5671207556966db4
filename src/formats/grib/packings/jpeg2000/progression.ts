import type { Progression } from "./coding-style.ts";
import type { Precinct, Resolution } from "./tile-layout.ts";

/**
 * Calls `visit` for every packet of a tile in its order (ISO/IEC 15444-1 B.12), until it gives false. With one component the order by
 * component and position is that by position.
 */
export function visitPackets(
  progression: Progression,
  resolutions: readonly Resolution[],
  layers: number,
  visit: (precinct: Precinct, layer: number) => boolean,
): void {
  for (const { precincts, firstLayer, lastLayer } of runs(progression, resolutions, layers)) {
    for (const precinct of precincts) {
      for (let layer = firstLayer; layer <= lastLayer; layer++) if (!visit(precinct, layer)) return;
    }
  }
}

/** Precincts in turn, each with all the layers of the run. */
interface Run {
  readonly precincts: readonly Precinct[];
  readonly firstLayer: number;
  readonly lastLayer: number;
}

function* runs(progression: Progression, resolutions: readonly Resolution[], layers: number): Generator<Run> {
  const all = { firstLayer: 0, lastLayer: layers - 1 };
  if (progression === "LRCP") {
    for (let layer = 0; layer < layers; layer++) {
      for (const { precincts } of resolutions) yield { precincts, firstLayer: layer, lastLayer: layer };
    }
  } else if (progression === "RLCP") {
    for (const { precincts } of resolutions) {
      for (let layer = 0; layer < layers; layer++) yield { precincts, firstLayer: layer, lastLayer: layer };
    }
  } else if (progression === "RPCL") {
    for (const { precincts } of resolutions) yield { precincts, ...all };
  } else {
    // From the lowest resolution up, and a stable sort: at one place the lower resolution goes first.
    const precincts = resolutions.flatMap((resolution) => resolution.precincts);
    yield { precincts: precincts.toSorted((a, b) => a.y - b.y || a.x - b.x), ...all };
  }
}
