import type { WayArrives } from "../passage/index.ts";
import type { WindSampler } from "../weather/index.ts";
import type { Before } from "./once/felt-once.ts";
import type { PassageNodes } from "./passage-nodes.ts";
import type { FeltSurroundings } from "./runs-settled.ts";
import { type LookedBack, lookedBackLater, lookedBackOnWay } from "./since-against.ts";
import type { Trial } from "./trial.ts";

/** What lies behind the planned passage in one forecast: looked back from where the way crosses its axis; null: from nowhere. */
export function beforePlanned(around: FeltSurroundings, advised: WayArrives | null, member: number): Before {
  const looked =
    advised === null ? null : lookedBackOnWay(crossingOf(around, member), advised, around.winds[member] as WindSampler, around.windFrom);
  return beforeAs(around, member, looked);
}

/** What lies behind the passage as she went it otherwise than planned; `planned` as `beforePlanned` has it for the same forecast. */
export function beforeOtherwise(
  around: FeltSurroundings,
  advised: WayArrives | null,
  member: number,
  planned: LookedBack | null,
  nodes: PassageNodes,
): Before {
  const looked =
    advised === null || planned === null
      ? null
      : lookedBackLater(crossingOf(around, member), advised, planned, nodes, around.winds[member] as WindSampler);
  return beforeAs(around, member, looked);
}

function crossingOf({ trials }: FeltSurroundings, member: number): Trial["crossing"] {
  return ((trials[member] ?? trials[0]) as Trial).crossing;
}

function beforeAs({ windsBefore }: FeltSurroundings, member: number, sinceAgainst: LookedBack | null): Before {
  return { sinceAgainst, windBefore: windsBefore[member] ?? null };
}
