import {
  type Entrance,
  type EntranceDepth,
  EntranceReader,
  type EntranceSea,
  EntranceStates,
  type EntranceStream,
  type EntranceSurroundings,
  type Gate,
  GateStop,
  type StreamInCut,
} from "../../../../src/core/places/index.ts";
import { epochSeconds, mpsFromKnots } from "../../../../src/core/units/index.ts";
import type { Tide } from "../../../../src/core/water/index.ts";
import { periodSea, periodWind, type SeaPeriod, type WindPeriod } from "../../../../src/core/weather/index.ts";
import { plane } from "../../window/setup.ts";

export const START = Date.UTC(2027, 4, 20) / 1000;
export const HOUR = 3600;
export const kn = mpsFromKnots;
/** Of all the waves here: a half day. */
export const CYCLE = 12 * HOUR;
const turn = (at: number): number => (2 * Math.PI * (at - START)) / CYCLE;

/** 2 m and 1.5 m about it: high water at noon and midnight. */
export const tide = {
  station: { id: "t", name: "t", position: { latitudeDeg: 0, longitudeDeg: 0 }, zone: "UTC", credit: "", licence: "" },
  datum: "LAT",
  reference: null,
  heightAt: (at: number) => 2 + 1.5 * Math.cos(turn(at)),
  highsAndLows: (from: number, until: number) =>
    quarters(from, until, [0, 2]).map(({ at, quarter }) => ({
      kind: quarter === 0 ? "high" : "low",
      at,
      heightMetres: quarter === 0 ? 3.5 : 0.5,
    })),
} as unknown as Tide;

/** Slack at high and low water, 3 kn of ebb three hours after high water; the ebb sets west. `meanKn`: what runs besides, with the flood. */
export function cut(meanKn = 0): StreamInCut {
  const alongAt = (at: number): number => kn(meanKn) - kn(3) * Math.sin(turn(at));
  const slackQuarters = Math.abs(meanKn) < 3 ? Math.asin(meanKn / 3) / (Math.PI / 2) : null;
  return {
    ebbTowardDegTrue: 270,
    alongAt,
    vectorAt: (at) => ({ eastMps: alongAt(at), northMps: 0 }),
    turns: (from, until) => [
      ...quarters(from, until, [1, 3]).map(({ at, quarter }) => ({ kind: quarter === 1 ? "greatest ebb" : "greatest flood", at })),
      ...(slackQuarters === null
        ? []
        : quarters(from, until, [slackQuarters, 2 - slackQuarters]).map(({ at, quarter }) => ({
            kind: quarter === slackQuarters ? "slack before ebb" : "slack before flood",
            at,
          }))),
    ],
  };
}

/** The instants of [from, until) at which so many quarters of the cycle are over. */
function quarters(from: number, until: number, wanted: readonly number[]): { readonly at: number; readonly quarter: number }[] {
  const found: { at: number; quarter: number }[] = [];
  for (let cycle = Math.floor((from - START) / CYCLE) - 1; START + cycle * CYCLE < until + CYCLE; cycle++) {
    for (const quarter of wanted) {
      const at = START + cycle * CYCLE + (quarter * CYCLE) / 4;
      if (at >= from && at < until) found.push({ at, quarter });
    }
  }
  return found.sort((a, b) => a.at - b.at);
}

export const NOTHING: Entrance = { depth: null, stream: null, sea: null, windAgainstEbbNeverMps2: null, eye: null };
export const depth = (changes: Partial<EntranceDepth> = {}): EntranceDepth => ({
  chartedDepthMetres: 1,
  draughtMetres: 2,
  underKeelMetres: 0.5,
  tide: "tide",
  waves: { kind: "none" },
  ...changes,
});
export const stream = (changes: Partial<EntranceStream> = {}): EntranceStream => ({
  of: "cut",
  ebbNeverMps: null,
  floodNeverMps: null,
  slackWithinSeconds: null,
  ...changes,
});
export const seaAsked = (changes: Partial<EntranceSea> = {}): EntranceSea => ({
  neverHeightMetres: null,
  neverSteepness: null,
  periodSeconds: null,
  fromDegTrue: null,
  fetchMetres: null,
  ...changes,
});

/** Hours from the beginning, metres, seconds (null: none given). */
export type SeaTyped = readonly [number, number, number, number | null];
/** Hours from the beginning, degrees, knots. */
export type WindTyped = readonly [number, number, number, number];

export function surroundings({
  seas = null,
  winds = null,
  inCut = cut(),
}: {
  readonly seas?: readonly SeaTyped[] | null;
  readonly winds?: readonly WindTyped[] | null;
  readonly inCut?: StreamInCut;
} = {}): EntranceSurroundings {
  const sea =
    seas === null
      ? null
      : periodSea(
          "typed",
          null,
          seas.map(
            ([from, until, metres, seconds]): SeaPeriod => ({
              from: epochSeconds(START + from * HOUR),
              until: epochSeconds(START + until * HOUR),
              heightLowMetres: metres,
              heightHighMetres: metres,
              periodLowSeconds: seconds,
              periodHighSeconds: seconds,
            }),
          ),
        );
  const wind =
    winds === null
      ? null
      : periodWind(
          "typed",
          null,
          winds.map(
            ([from, until, deg, knots]): WindPeriod => ({
              from: epochSeconds(START + from * HOUR),
              until: epochSeconds(START + until * HOUR),
              fromDegTrue: deg,
              arcDeg: 0,
              speedLowMps: kn(knots),
              speedHighMps: kn(knots),
              gustMps: null,
            }),
          ),
          1.3,
        );
  return {
    tideNamed: (name) => (name === "tide" ? tide : null),
    streamNamed: (name) => (name === "cut" ? inCut : null),
    sea: sea?.onPlane(plane) ?? null,
    wind: wind?.onPlane(plane, 0) ?? null,
    seaCovers: sea?.covers ?? null,
    windCovers: wind?.covers ?? null,
  };
}

const PLACE = { where: { latitudeDeg: 40, longitudeDeg: -30 }, offX: 0, offY: 0 };

export const reader = (changes: Partial<Entrance>, around: EntranceSurroundings = surroundings()): EntranceReader =>
  new EntranceReader({ ...NOTHING, ...changes }, around, PLACE);
export const states = (changes: Partial<Entrance>, around?: EntranceSurroundings): EntranceStates =>
  new EntranceStates(reader(changes, around));
export const kinds = (one: EntranceReader, hours: number): readonly string[] =>
  one.at(START + hours * HOUR).reasons.map(({ kind }) => kind);

export function gateOf(needs: Gate["needs"]): Gate {
  return { name: "the bar", on: "out", place: { kind: "sea" }, zone: "UTC", needs, waitSeconds: 0, clearanceMetres: null, office: null };
}
export const stopOf = (needs: Gate["needs"], around: EntranceSurroundings | null = surroundings()): GateStop =>
  new GateStop(gateOf(needs), "gate", 0, { ...PLACE, around }, null);
