import { chanceErrorsOf, type Prepared } from "../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import type { Chance, Share } from "../core/window/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";
import { limitKey } from "./limit-keys.ts";

const shareJson = ({ count, of, share, standardError }: Share) => ({
  count,
  of,
  share: rounded(share, 4),
  standardError: rounded(standardError, 4),
});

/** The chance of a departure as JSON. */
export function chanceJson(chance: Chance) {
  const { good, past, noPassage, gateMissed, notJudged, arrival, lateLight, shuts, forecasts, wind, current } = chance;
  return {
    good: shareJson(good),
    pastNever: past,
    noPassage,
    gateMissed,
    notJudged,
    arrivalEarlyAt: isoOrNull(arrival.earlyAt),
    arrivalMiddleAt: isoOrNull(arrival.middleAt),
    arrivalLateAt: isoOrNull(arrival.lateAt),
    lateLight:
      lateLight === null
        ? null
        : { at: iso(lateLight.at), sunAltitudeDeg: rounded(lateLight.sunAltitudeDeg, 2), pastNever: lateLight.past },
    shuts: shuts.map(({ limit, count }) => ({ limit: limitKey(limit), count })),
    forecasts: forecasts === null ? null : shareJson(forecasts),
    wind,
    current,
  };
}

/** What the chances of a passage are reckoned with, and what of it the skipper stated. */
export function chanceErrorsJson({ passage }: Prepared) {
  const errors = chanceErrorsOf(passage);
  return {
    seed: errors.seed,
    samples: errors.samples,
    speedShare: errors.speedShare,
    headingDeg: errors.headingDeg,
    latestStartSeconds: errors.latestStartSeconds,
    currentRmsKn: rounded(knotsFromMps(errors.currentRmsMps), 3),
    streamTotalShare: errors.streamTotalShare,
    streamPlaceNm: rounded(nmFromMetres(errors.streamPlaceMetres), 3),
    windSpeedShare: errors.windSpeedShare,
    windSpeedSharePerDay: errors.windSpeedSharePerDay,
    windDirectionDeg: errors.windDirectionDeg,
    windDirectionDegPerDay: errors.windDirectionDegPerDay,
  };
}
