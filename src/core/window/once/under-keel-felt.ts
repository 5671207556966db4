import type { NoAnswer } from "../../answers/index.ts";
import type { Position } from "../../earth/index.ts";
import { COVERED, NO_PLACE, NO_TIME } from "../../fields/index.ts";
import { type StatedDepth, underKeelMetres } from "../../places/index.ts";
import type { FeltColumn } from "../felt-column.ts";
import { ARRIVAL, OUT_OF_HARBOUR, type PassageNodes } from "../passage-nodes.ts";
import type { KnownOnce, OnceValue } from "./once-value.ts";
import type { PassageFacts } from "./passage-facts.ts";

/**
 * The least under-keel clearance over the shallows that are stated, each with the highest sea met on its leg; unknown where any one of
 * them is, with the worst of the others as the known part.
 */
export function leastUnderKeel(nodes: PassageNodes, sea: FeltColumn, facts: PassageFacts | null, seaCovers: Covers): OnceValue {
  const { draughtMetres = null, depths = [] } = facts ?? {};
  const arrival = firstOf(nodes, ARRIVAL);
  const notStated = (wants: "depths" | "draught" | "datum", name: string | null): NoAnswer => ({
    kind: "noAnswer",
    code: "not-stated",
    wants,
    name,
    at: nodes.atSeconds[arrival] as number,
    where: placeOf(nodes, arrival),
  });
  if (depths.length === 0) return { kind: "unknown", why: notStated("depths", null), knownPart: null };
  if (draughtMetres === null) return { kind: "unknown", why: notStated("draught", null), knownPart: null };
  let least: KnownOnce | null = null;
  let why: NoAnswer | null = null;
  for (const depth of depths) {
    const found = depth.datum === "unknown" ? notStated("datum", depth.name) : overShallow(depth, draughtMetres, nodes, sea, seaCovers);
    if ("code" in found) why ??= found;
    else if (least === null || found.value < least.value) least = found;
  }
  if (why !== null || least === null) return { kind: "unknown", why: why as NoAnswer, knownPart: least };
  return { kind: "known", ...least };
}

type Covers = { readonly from: number; readonly until: number } | null;

/** The least clearance over one shallow, whenever on its leg the boat is there. */
function overShallow(
  depth: StatedDepth,
  draughtMetres: number,
  nodes: PassageNodes,
  sea: FeltColumn,
  seaCovers: Covers,
): KnownOnce | NoAnswer {
  const { first, end } = legOf(nodes, depth.on);
  let worst = first;
  let waves = depth.wavesMetres ?? Number.NEGATIVE_INFINITY;
  for (let i = first; i < end && depth.wavesMetres === null; i++) {
    const coverage = sea.coverage[i];
    if (coverage !== COVERED) {
      return {
        kind: "noAnswer",
        code: coverage === NO_PLACE ? "not-covered-place" : coverage === NO_TIME ? "not-covered-time" : "not-covered-variable",
        quantity: "seaHeightMetres",
        at: nodes.atSeconds[i] as number,
        where: placeOf(nodes, i),
        coveredFrom: seaCovers?.from ?? null,
        coveredUntil: seaCovers?.until ?? null,
      };
    }
    if ((sea.high[i] as number) > waves) {
      waves = sea.high[i] as number;
      worst = i;
    }
  }
  const value = underKeelMetres(depth, draughtMetres, waves);
  return { value, at: nodes.atSeconds[worst] as number, where: placeOf(nodes, worst), name: depth.name };
}

/** The nodes of a leg, [first, one past the last]; without a leg out of harbour the first node stands for it. */
function legOf(nodes: PassageNodes, on: StatedDepth["on"]): { readonly first: number; readonly end: number } {
  if (on === "in") return { first: firstOf(nodes, ARRIVAL), end: nodes.count };
  let end = 0;
  while (end < nodes.count && nodes.part[end] === OUT_OF_HARBOUR) end++;
  return { first: 0, end: Math.max(1, end) };
}

export function firstOf({ part, count }: PassageNodes, wanted: number): number {
  let first = 0;
  while (first < count - 1 && part[first] !== wanted) first++;
  return first;
}

export function placeOf({ plane, xMetres, yMetres }: PassageNodes, node: number): Position {
  return plane.toPosition(xMetres[node] as number, yMetres[node] as number);
}
