import { COVERED } from "../../../core/fields/index.ts";
import { placeAt, type WayArrives } from "../../../core/passage/index.ts";
import type { CrossAnswer } from "../../../core/plan/index.ts";
import { BREAKING_STEEPNESS, STEEP_STEEPNESS, STEEPEST_COUNTED } from "../../../core/sea/index.ts";
import { type Exposure, type FeltAlong, type FeltColumn, feel } from "../../../core/window/index.ts";
import { steepnessInWords } from "../../../words/index.ts";
import type { SectionTold } from "../section-told.ts";
import { type AcrossAxes, tidy } from "./across.ts";
import { stretchesFrom } from "./stretches.ts";

type Sea = NonNullable<SectionTold["sea"]>;
type Range = readonly [low: number, high: number];
type Ranged = Sea["height"][number];

/** A sea raised by less than this is no other sea to the tenth that figures show, metres. Ours. */
const RAISED_FROM_METRES = 0.1;
/** A steepness is told so finely, decimals: 1/25 and 1/26 are 0.0015 apart. */
const STEEPNESS_DECIMALS = 5;

/**
 * The sea along the order and what becomes of it on the stream, as the limits on them are judged: read at the given instants, and where
 * each is greatest. Null where no source gives a sea on the way.
 */
export function seaToldOf(answer: CrossAnswer, axes: AcrossAxes, way: WayArrives, instants: readonly number[]): SectionTold["sea"] {
  const { wind, sea } = answer.prepared.weather;
  if (sea === null) return null;
  const { plane } = answer.prepared;
  const span = { from: answer.departAt, until: way.arrivalAt };
  const felt = feel({ out: null, open: way.track, into: null }, wind.onPlane(plane, 0, span), sea.onPlane(plane, span));
  const { seaHeightMetres, seaOnCurrentMetres, seaSteepness, seaPeriodSeconds } = felt.columns;
  const greatest = [seaHeightMetres, seaOnCurrentMetres, seaSteepness].flatMap((column) => greatestAt(felt, column));
  const read = [...new Set([...instants, ...greatest])]
    .sort((a, b) => a - b)
    .flatMap((at) => {
      const height = between(felt, seaHeightMetres, at);
      const { xMetres, yMetres } = placeAt(way.track, at);
      return height === null ? [] : [{ at, acrossNm: axes.acrossNm(xMetres, yMetres), height }];
    });
  if (read.length === 0) return null;
  const never = (one: FeltAlong): number | null => answer.prepared.passage.limits.find(({ felt }) => felt === one)?.never ?? null;
  const neverMetres = never("seaHeightMetres");
  const along = (column: FeltColumn): (Ranged | null)[] =>
    read.map(({ at, acrossNm }) => {
      const range = between(felt, column, at);
      return range === null ? null : [acrossNm, ...range];
    });
  return {
    height: read.map(({ acrossNm, height }) => tidied([acrossNm, ...height], 2)),
    neverMetres: neverMetres === null ? null : tidy(neverMetres),
    periodSeconds: along(seaPeriodSeconds).flatMap((one): [number, number][] => (one === null ? [] : [[one[0], tidy(one[1], 1)]])),
    lacksSwell: felt.seaLacksSwell?.includes(1) ?? false,
    onStream: onStreamOf(
      read.map(({ height }) => height[1]),
      along(seaOnCurrentMetres),
      never("seaOnCurrentMetres"),
      along(seaSteepness),
      never("seaSteepness"),
    ),
  };
}

function onStreamOf(
  forecastMetres: readonly number[],
  height: readonly (Ranged | null)[],
  neverMetres: number | null,
  steepness: readonly (Ranged | null)[],
  neverSteepness: number | null,
): Sea["onStream"] {
  if (height.every((one) => one === null)) return null;
  const raised = height.reduce<Ranged | null>((most, one, i) => {
    const isRaised = one !== null && one[2] - (forecastMetres[i] as number) >= RAISED_FROM_METRES;
    return isRaised && (most === null || one[2] > most[2]) ? one : most;
  }, null);
  const worst = steepness.map((one) => (one === null ? null : ([one[0], one[2]] as const)));
  const from = (least: number, over = false) =>
    stretchesFrom(worst, least, over).map((one) => ({
      ...one,
      greatest: tidy(one.greatest, STEEPNESS_DECIMALS),
      words: one.greatest >= STEEPEST_COUNTED ? "1/7 or steeper" : steepnessInWords(one.greatest),
    }));
  return {
    height: height.map((one) => (one === null ? null : tidied(one, 2))),
    raised: raised === null ? null : tidied(raised, 2),
    neverMetres: neverMetres === null ? null : tidy(neverMetres),
    steepness: steepness.map((one) => (one === null ? null : tidied(one, STEEPNESS_DECIMALS))),
    neverSteepness: neverSteepness === null ? null : tidy(neverSteepness, STEEPNESS_DECIMALS),
    neverSteepnessWords: neverSteepness === null ? null : steepnessInWords(neverSteepness),
    steep: from(STEEP_STEEPNESS),
    breaking: from(BREAKING_STEEPNESS),
    pastNever: neverSteepness === null ? [] : from(neverSteepness, true),
  };
}

function tidied([acrossNm, low, high]: Ranged, decimals: number): Ranged {
  return [acrossNm, tidy(low, decimals), tidy(high, decimals)];
}

/** The instant at which a column is greatest; none where nothing of it is known. */
function greatestAt({ count, atSeconds }: Exposure, { high, coverage }: FeltColumn): number[] {
  let most = -1;
  for (let i = 0; i < count; i++) {
    if (coverage[i] === COVERED && (most < 0 || (high[i] as number) > (high[most] as number))) most = i;
  }
  return most < 0 ? [] : [atSeconds[most] as number];
}

/** What a column has at an instant, in a straight line between its nodes; null outside them and where either is not known. */
function between({ count, atSeconds }: Exposure, { low, high, coverage }: FeltColumn, at: number): Range | null {
  const after = atSeconds.findIndex((one) => one >= at);
  if (after < 0 || count === 0) return null;
  if (atSeconds[after] === at && coverage[after] === COVERED) return [low[after] as number, high[after] as number];
  if (after === 0 || coverage[after] !== COVERED || coverage[after - 1] !== COVERED) return null;
  const [from, until] = [atSeconds[after - 1] as number, atSeconds[after] as number];
  const share = (at - from) / (until - from);
  const mix = (values: Float64Array): number =>
    (values[after - 1] as number) + share * ((values[after] as number) - (values[after - 1] as number));
  return [mix(low), mix(high)];
}
