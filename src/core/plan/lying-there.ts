import type { NoAnswer } from "../answers/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_TIME } from "../fields/index.ts";
import { comesIn } from "../places/index.ts";
import {
  SEA_HEIGHT_HIGH_METRES,
  SEA_SLOTS,
  WIND_ARC_DEG,
  WIND_END_STRIDE,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_MPS,
  WIND_SLOTS,
  WIND_SPEED_HIGH_MPS,
} from "../weather/index.ts";
import type { CoveredSpan } from "../window/index.ts";
import type { Anchorage } from "./anchorage.ts";
import type { EntranceWeather } from "./refuges/judge-entrance.ts";

/** How long after arrival the anchorage is looked at, and how often, seconds: three days (common practice), each half-hour. */
export const LYING_SECONDS = 72 * 3600;
export const LOOK_EVERY_SECONDS = 1800;

/** What makes an anchorage untenable at an instant, the worst of it. `open`: by the figures for wind out of an open sector. */
export interface Untenable {
  readonly felt: "windMps" | "gustMps" | "seaHeightMetres";
  readonly value: number;
  readonly never: number;
  readonly open: boolean;
}

/** A stretch in which an anchorage holds, doesn't, or is not known. */
export type LyingSpell = { readonly from: number; readonly until: number } & (
  | { readonly kind: "holds" }
  | { readonly kind: "untenable"; readonly worst: Untenable }
  | { readonly kind: "notJudged"; readonly why: NoAnswer }
);

type Look =
  | { readonly kind: "holds" }
  | { readonly kind: "untenable"; readonly worst: Untenable }
  | { readonly kind: "notJudged"; readonly why: NoAnswer };

/**
 * The anchorage from an arrival on, by the forecast at its place. Looked at every half-hour and wherever the weather jumps; a stretch lasts
 * from its first look until the next one's. Where the wind is a range the worse end counts, and a wind that may come out of an open sector
 * is taken to.
 */
export function lyingThere(
  anchorage: Anchorage,
  place: { readonly xMetres: number; readonly yMetres: number },
  weather: EntranceWeather,
  arrivalAt: number,
): readonly LyingSpell[] {
  const end = arrivalAt + LYING_SECONDS;
  const times = new Set<number>();
  for (let at = arrivalAt; at < end; at += LOOK_EVERY_SECONDS) times.add(at);
  for (const source of [weather.wind, weather.sea]) for (const at of source?.breaksWithin(arrivalAt, end) ?? []) times.add(at);
  const spells: LyingSpell[] = [];
  const sorted = [...times].sort((a, b) => a - b);
  sorted.forEach((at, i) => {
    const until = sorted[i + 1] ?? end;
    const look = lookAt(anchorage, place, weather, at);
    const last = spells[spells.length - 1];
    if (last?.kind !== look.kind) spells.push({ from: at, until, ...look });
    else if (look.kind === "untenable" && last.kind === "untenable") {
      const worst = excess(look.worst) > excess(last.worst) ? look.worst : last.worst;
      spells[spells.length - 1] = { ...last, until, worst };
    } else spells[spells.length - 1] = { ...last, until };
  });
  return spells;
}

function excess({ value, never }: Untenable): number {
  return value / never;
}

function lookAt(
  anchorage: Anchorage,
  { xMetres, yMetres }: { readonly xMetres: number; readonly yMetres: number },
  weather: EntranceWeather,
  at: number,
): Look {
  const found: Untenable[] = [];
  const unknown: NoAnswer[] = [];
  const note = (felt: Untenable["felt"], value: number, never: number | null, open: boolean): void => {
    if (never !== null && value > never) found.push({ felt, value, never, open });
  };
  const missing = (felt: Untenable["felt"], coverage: Coverage | null, covers: CoveredSpan | null): void => {
    const code = coverage === NO_PLACE ? "not-covered-place" : coverage === NO_TIME ? "not-covered-time" : "not-covered-variable";
    const [coveredFrom, coveredUntil] = [covers?.from ?? null, covers?.until ?? null];
    unknown.push({ kind: "noAnswer", code, quantity: felt, at, where: anchorage.position, coveredFrom, coveredUntil });
  };
  const { neverWindMps, neverGustMps, neverOpenWindMps, neverOpenGustMps, neverSeaMetres } = anchorage;
  if (neverWindMps !== null || neverGustMps !== null || neverOpenWindMps !== null || neverOpenGustMps !== null) {
    const out = new Float64Array(WIND_SLOTS);
    const coverage = weather.wind.readInto(out, xMetres, yMetres, at);
    if (coverage !== COVERED) missing("windMps", coverage, weather.windCovers);
    else {
      let anyOpen = false;
      for (let end = 0; end < (out[WIND_ENDS] as number); end++) {
        const slot = end * WIND_END_STRIDE;
        const speed = out[WIND_SPEED_HIGH_MPS + slot] as number;
        const open = comesIn(anchorage.openTo, out[WIND_FROM_DEG + slot] as number, out[WIND_ARC_DEG + slot] as number);
        anyOpen ||= open;
        note("windMps", speed, neverWindMps, false);
        if (open) note("windMps", speed, neverOpenWindMps, true);
      }
      note("gustMps", out[WIND_GUST_MPS] as number, neverGustMps, false);
      if (anyOpen) note("gustMps", out[WIND_GUST_MPS] as number, neverOpenGustMps, true);
    }
  }
  if (neverSeaMetres !== null) {
    const out = new Float64Array(SEA_SLOTS);
    const coverage = weather.sea?.readInto(out, xMetres, yMetres, at) ?? null;
    if (coverage !== COVERED) missing("seaHeightMetres", coverage, weather.seaCovers);
    else note("seaHeightMetres", out[SEA_HEIGHT_HIGH_METRES] as number, neverSeaMetres, false);
  }
  if (found.length > 0) return { kind: "untenable", worst: found.reduce((worst, one) => (excess(one) > excess(worst) ? one : worst)) };
  const why = unknown[0];
  return why === undefined ? { kind: "holds" } : { kind: "notJudged", why };
}
