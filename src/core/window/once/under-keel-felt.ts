import type { NoAnswer } from "../../answers/index.ts";
import type { Position } from "../../earth/index.ts";
import { COVERED, NO_PLACE, NO_TIME } from "../../fields/index.ts";
import { type StatedDepth, underKeelMetres } from "../../places/index.ts";
import { epochSeconds } from "../../units/index.ts";
import type { Tide } from "../../water/index.ts";
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
    const found =
      depth.datum === "unknown"
        ? notStated("datum", depth.name)
        : overShallow(depth, { draughtMetres, tide: tideOver(depth, facts) }, nodes, sea, seaCovers);
    if ("code" in found) why ??= found;
    else if (least === null || found.value < least.value) least = found;
  }
  if (why !== null || least === null) return { kind: "unknown", why: why as NoAnswer, knownPart: least };
  return { kind: "known", ...least };
}

type Covers = { readonly from: number; readonly until: number } | null;

/** The tide that a shallow names; null where its height is stated. */
function tideOver({ name, tide }: StatedDepth, facts: PassageFacts | null): Tide | null {
  if (tide == null) return null;
  const found = facts?.tideNamed?.(tide) ?? null;
  if (found === null) throw new Error(`no tide called ${tide} for ${name}`);
  return found;
}

/**
 * The least clearance over one shallow, whenever on its leg the boat is there: with the highest sea of the leg, and with the lowest of the
 * computed tide, by when she is over it where it is said how far along it lies.
 */
function overShallow(
  depth: StatedDepth,
  { draughtMetres, tide }: { readonly draughtMetres: number; readonly tide: Tide | null },
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
  if (tide === null) {
    return {
      value: underKeelMetres(depth, draughtMetres, waves),
      at: nodes.atSeconds[worst] as number,
      where: placeOf(nodes, worst),
      name: depth.name,
    };
  }
  let lowest: { readonly metres: number; readonly at: number; readonly node: number } | null = null;
  for (const { at, node } of momentsOver(depth, nodes, first, end)) {
    const metres = tide.heightAt(epochSeconds(at));
    if (lowest !== null && metres >= lowest.metres) continue;
    lowest = { metres, at, node };
  }
  if (lowest === null) throw new Error(`no moment on the leg of ${depth.name}`);
  return {
    value: underKeelMetres(depth, draughtMetres, waves, lowest.metres),
    at: lowest.at,
    where: placeOf(nodes, lowest.node),
    name: depth.name,
  };
}

interface Moment {
  readonly at: number;
  readonly node: number;
}

/** When the boat is over a shallow: all the while she is on its leg, or when she comes by so far along it, with what she waits there. */
function momentsOver({ along }: StatedDepth, nodes: PassageNodes, first: number, end: number): readonly Moment[] {
  const all = Array.from({ length: end - first }, (_, k): Moment => ({ at: nodes.atSeconds[first + k] as number, node: first + k }));
  if (along == null) return all;
  const run = alongOf(nodes, first, end);
  const length = run[run.length - 1] as number;
  const wanted = along === "berth" ? (nodes.part[first] === ARRIVAL ? length : 0) : Math.min(length, along);
  const moments = all.filter((_, k) => Math.abs((run[k] as number) - wanted) <= SAME_METRES);
  for (let k = 1; k < all.length; k++) {
    const [before, after] = [run[k - 1] as number, run[k] as number];
    if (before >= wanted - SAME_METRES || after <= wanted + SAME_METRES) continue;
    const [from, until] = [all[k - 1] as Moment, all[k] as Moment];
    moments.push({ at: from.at + ((wanted - before) / (after - before)) * (until.at - from.at), node: from.node });
  }
  return moments;
}

/** Nearer than this along a leg is there, metres. */
const SAME_METRES = 1;

/** Metres run along a leg at each of its nodes. */
function alongOf({ xMetres, yMetres }: PassageNodes, first: number, end: number): readonly number[] {
  const run = [0];
  for (let i = first + 1; i < end; i++) {
    const step = Math.hypot((xMetres[i] as number) - (xMetres[i - 1] as number), (yMetres[i] as number) - (yMetres[i - 1] as number));
    run.push((run[run.length - 1] as number) + step);
  }
  return run;
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
