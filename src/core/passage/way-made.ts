import type { NoAnswer } from "../answers/index.ts";
import type { Crossing } from "./crossing.ts";
import { laneCrossings } from "./lane-crossings.ts";
import type { LegsRun } from "./run-legs.ts";
import { downStreamSideOf, strayOf, streamOnTrack } from "./stream-across.ts";
import { sumsOf } from "./track.ts";
import type { HelmOrder, Way, WayName } from "./way.ts";

/** A way that does not arrive. */
export function wayFails(name: WayName, departAt: number, why: NoAnswer): Way {
  return { kind: "fails", name, departAt, why };
}

/** A way from what its run came to: a run that fails makes one that does not arrive. */
export function wayArrives(
  crossing: Crossing,
  name: WayName,
  departAt: number,
  run: LegsRun,
  orders: readonly HelmOrder[],
  headingsThatLead: number,
): Way {
  if (run.kind === "fails") return wayFails(name, departAt, run.why);
  const { line } = crossing;
  const { track, end } = run;
  const { axis, clear } = streamOnTrack(track, line, crossing.around.current);
  const stray = strayOf(track, line, downStreamSideOf(track, line));
  return {
    kind: "arrives",
    name,
    departAt,
    arrivalAt: end.at,
    track,
    orders,
    ...sumsOf(track),
    upStreamMetres: stray.upMetres,
    downStreamMetres: stray.downMetres,
    axis,
    clear,
    headingsThatLead,
    laneCrossings: laneCrossings(track, crossing.around.lanes ?? null),
  };
}
