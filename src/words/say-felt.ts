import { CIVIL_ALTITUDE_DEG, SUNRISE_ALTITUDE_DEG } from "../core/earth/index.ts";
import { nodeAt, rateAtNode, type Track } from "../core/passage/index.ts";
import { BREAKING_STEEPNESS, STEEPEST_COUNTED } from "../core/sea/index.ts";
import { METRES_PER_FOOT, nmFromMetres } from "../core/units/index.ts";
import { EASIEST_SECONDS_PER_METRE, type Felt, type Limit, NO_SEA_PERIOD_SECONDS, type WorstPlace } from "../core/window/index.ts";
import { knots, knotsTimesKnots, wholeKnots } from "./say-quantity.ts";
import { steepnessInWords } from "./say-sea.ts";
import { duration } from "./say-time.ts";

/** What a limit is set on, in a word or two, as that which shuts. */
export function feltName(felt: Felt): string {
  return {
    windMps: "wind",
    gustMps: "gusts",
    windAgainstCurrentMps2: "wind against the stream",
    seaHeightMetres: "sea",
    seaPeriodSeconds: "short sea",
    seaSteepness: "steep seas on the stream",
    seaOnCurrentMetres: "sea on the stream",
    seaSecondsPerMetre: "sea too short for its height",
    visibilityMetres: "poor visibility",
    thunderstormShare: "thunderstorms",
    sunAltitudeDeg: "dark at the entrance",
    eyeballSunAltitudeDeg: "sun too low to read the water",
    sunOffBowDeg: "sun ahead at the entrance",
    sinceAgainstSeconds: "a sea not yet laid down",
    calmBeforeSeconds: "too few calm hours before",
    underKeelMetres: "under-keel clearance",
    fuelLeftLitres: "fuel",
    awakeSeconds: "hours awake",
    arrivalClockSeconds: "bedtime",
  }[felt];
}

/** Below this product of wind against the set and rate the words need no figures. */
const HARDLY_AGAINST_KN2 = 2;
/** The sun stands as far off the bow as it can: it blinds nobody. */
const BEHIND_DEG = 180;

/** Where a limit stands worst, in words: `gusts 34 kn`, `11 kn against 3.1 kn of stream`, `dark at the entrance`. */
export function worstInWords(limit: Limit, worst: WorstPlace, track: Track | null): string {
  const { value } = worst;
  switch (limit.felt) {
    case "windMps":
      return `wind ${wholeKnots(value)}`;
    case "gustMps":
      return `gusts ${wholeKnots(value)}`;
    case "windAgainstCurrentMps2": {
      if (value <= 0) return "no wind against the stream";
      const product = knotsTimesKnots(value);
      if (product < HARDLY_AGAINST_KN2) return "hardly any against the stream";
      const rate = track === null ? 0 : rateAtNode(track, nodeAt(track, worst.at));
      return rate > 0.05 ? `${wholeKnots(value / rate)} against ${knots(rate)} stream` : `against the stream, ${product.toFixed(0)} kn²`;
    }
    case "seaHeightMetres":
      return `sea ${value.toFixed(1)} m`;
    case "seaPeriodSeconds":
      return value >= NO_SEA_PERIOD_SECONDS ? "no sea" : `sea period ${value.toFixed(0)} s`;
    case "seaSteepness":
      if (value >= STEEPEST_COUNTED) return "seas stopped or broken by the stream";
      return `${value >= BREAKING_STEEPNESS ? "breaking seas" : "seas"} of ${steepnessInWords(value)} on the stream`;
    case "seaOnCurrentMetres":
      return `sea ${value.toFixed(1)} m on the stream`;
    case "seaSecondsPerMetre":
      return value >= EASIEST_SECONDS_PER_METRE ? "no sea to speak of on the stream" : `sea of ${secondsPerFoot(value)} s/ft on the stream`;
    case "visibilityMetres":
      return `visibility ${nmFromMetres(value).toFixed(1)} nm`;
    case "thunderstormShare":
      return `thunderstorms ${percent(value)}`;
    case "sunAltitudeDeg":
      if (value < CIVIL_ALTITUDE_DEG) return "dark at the entrance";
      if (value < SUNRISE_ALTITUDE_DEG) return "twilight at the entrance";
      return `sun ${value.toFixed(0)}° high at the entrance`;
    case "eyeballSunAltitudeDeg":
      return value < SUNRISE_ALTITUDE_DEG ? "no sun to read the water by" : `sun ${value.toFixed(0)}° high to read by`;
    case "sunOffBowDeg":
      return value >= BEHIND_DEG ? "no sun ahead" : `sun ${value.toFixed(0)}° off the bow`;
    case "sinceAgainstSeconds":
      return value < 1800 ? "wind against the stream now" : `blew against it ${duration(value)} ago`;
    case "calmBeforeSeconds":
      return `calm for ${duration(value)} before`;
    case "underKeelMetres":
      return `${worst.name === undefined ? "" : `${worst.name}: `}${value < 0 ? `aground by ${(-value).toFixed(1)} m` : `${value.toFixed(1)} m under keel`}`;
    case "fuelLeftLitres":
      return value < 0 ? `fuel short by ${Math.ceil(-value)} L` : `${value.toFixed(0)} L of fuel left`;
    case "awakeSeconds":
      return `awake ${duration(value)}`;
    case "arrivalClockSeconds":
      return `berthed ${clockOfDay(value)}`;
  }
}

/** A limit as the skipper set it: `wind 14 to 22 kn`. */
export function limitInWords(limit: Limit): string {
  const both = (of: (value: number) => string, unit: string): string => `${of(limit.happy)} to ${of(limit.never)}${unit}`;
  const inKnots = (value: number): string => (value / (1852 / 3600)).toFixed(0);
  const degrees = (value: number): string => `${value.toFixed(0).replace("-", "−")}°`;
  const hours = (value: number): string => String(Math.round(value / 360) / 10);
  const lasting = limit.toleratedSeconds > 0 ? `, ${duration(limit.toleratedSeconds)} tolerated` : "";
  const words = (): string => {
    switch (limit.felt) {
      case "windMps":
        return `wind ${both(inKnots, " kn")}`;
      case "gustMps":
        return `gusts ${both(inKnots, " kn")}`;
      case "windAgainstCurrentMps2":
        return `against the stream ${both((v) => knotsTimesKnots(v).toFixed(0), " kn²")}`;
      case "seaHeightMetres":
        return `sea ${both((v) => v.toFixed(1), " m")}`;
      case "seaPeriodSeconds":
        return `period ${both((v) => v.toFixed(0), " s")}`;
      case "seaSteepness":
        return `steepness on the stream ${both(steepnessInWords, "")}`;
      case "seaOnCurrentMetres":
        return `sea on the stream ${both((v) => v.toFixed(1), " m")}`;
      case "seaSecondsPerMetre":
        return `period to height on the stream ${both(secondsPerFoot, " s/ft")}`;
      case "visibilityMetres":
        return `visibility ${both((v) => String(Math.round(10 * nmFromMetres(v)) / 10), " nm")}`;
      case "thunderstormShare":
        return `thunderstorms ${both((v) => (100 * v).toFixed(0), " %")}`;
      case "sunAltitudeDeg":
        return `sun on arrival ${both(degrees, " high")}`;
      case "eyeballSunAltitudeDeg":
        return `sun to read the entrance by ${both(degrees, " high")}`;
      case "sunOffBowDeg":
        return `sun at the entrance ${both(degrees, " off the bow")}`;
      case "sinceAgainstSeconds":
        return `since wind against the stream ${both(hours, " h")}`;
      case "calmBeforeSeconds":
        return `calm before leaving ${both(hours, " h")}${limit.calmMps === undefined ? "" : ` (up to ${wholeKnots(limit.calmMps)})`}`;
      case "underKeelMetres":
        return `under the keel ${both((v) => v.toFixed(1), " m")}`;
      case "fuelLeftLitres":
        return `fuel left ${both((v) => v.toFixed(0), " L")}`;
      case "awakeSeconds":
        return `awake on arrival ${both(hours, " h")}`;
      case "arrivalClockSeconds":
        return `berthed by ${both(clockOfDay, "")}`;
    }
  };
  return words() + lasting;
}

/** What a quantity is called where it is not covered. */
export function quantityName(quantity: string): string {
  const names: Readonly<Record<string, string>> = {
    current: "current",
    wind: "wind",
    windMps: "wind",
    gustMps: "gusts",
    windAgainstCurrentMps2: "wind or current",
    seaHeightMetres: "sea height",
    seaPeriodSeconds: "sea period",
    seaSteepness: "sea, its period or current",
    seaOnCurrentMetres: "sea, its period or current",
    seaSecondsPerMetre: "sea, its period or current",
    visibilityMetres: "visibility",
    thunderstormShare: "thunderstorms",
    sunAltitudeDeg: "light",
    eyeballSunAltitudeDeg: "light",
    sunOffBowDeg: "the approach",
    sinceAgainstSeconds: "earlier wind",
    calmBeforeSeconds: "earlier wind",
  };
  return names[quantity] ?? quantity;
}

/** The skippers' rule counts in feet, whatever else is metric. */
function secondsPerFoot(secondsPerMetre: number): string {
  return (secondsPerMetre * METRES_PER_FOOT).toFixed(1);
}

/** `20 %`. */
function percent(share: number): string {
  return `${(100 * share).toFixed(0)} %`;
}

/** A clock that runs on past midnight: `21:30`, and `00:30` for 24.5 h. */
function clockOfDay(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  const text = (value: number): string => String(value).padStart(2, "0");
  return `${text(Math.floor(minutes / 60) % 24)}:${text(minutes % 60)}`;
}
