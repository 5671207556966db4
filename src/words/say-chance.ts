import { chanceErrorsOf, type LeaveAnswer, type Prepared } from "../core/plan/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { CHANCE_DEFAULTS, type Chance, type ChanceErrors, type Share } from "../core/window/index.ts";
import { feltName } from "./say-felt.ts";
import { knots } from "./say-quantity.ts";
import { clock, dayAndClock, duration, zoneLabel } from "./say-time.ts";

/** How many in ten: whole, and never 10 or 0 unless it was all or none. */
export function inTen({ count, of, share }: Share): number {
  if (count === 0 || count === of) return count === 0 ? 0 : 10;
  return Math.min(9, Math.max(1, Math.round(10 * share)));
}

/** `8 in 10 (±0.4)`: with its own standard error, in tenths. */
export function shareInWords(share: Share): string {
  return `${inTen(share)} in 10 (±${Math.max(0.1, 10 * share.standardError).toFixed(1)})`;
}

/**
 * The chance of a departure in a few sentences: `The chance that she arrives with nothing past never is 8 in 10 (±0.4), arriving 06:10 to
 * 09:00 eight times in ten. What shuts it most often is dark at the entrance (22 of 100).`
 */
export function chanceInWords(chance: Chance, departAt: number, prepared: Prepared): string {
  const { arrivalZone, shipZone } = prepared.passage;
  const { good, notJudged, noPassage, gateMissed, shuts, lateLight } = chance;
  if (notJudged > 0 && notJudged === good.of - chance.past - noPassage - gateMissed)
    return "The chance is not judged: something on the way is not known.";
  const parts = [`The chance that she arrives with nothing past never is ${shareInWords(good)}`];
  const arrive = arrivalsInWords(chance, arrivalZone);
  if (arrive !== null) {
    const label = zoneLabel(chance.arrival.middleAt ?? departAt, arrivalZone);
    parts.push(`arriving ${arrive}${label === zoneLabel(departAt, shipZone) ? "" : ` ${label}`} eight times in ten`);
  }
  const sentences = [`${parts.join(", ")}.`];
  const most = shuts[0];
  if (most !== undefined) sentences.push(`What shuts it most often is ${feltName(most.limit.felt)} (${most.count} of ${good.of}).`);
  if (noPassage > 0) sentences.push(`She does not get there in ${noPassage} of ${good.of}.`);
  if (gateMissed > 0) sentences.push(`A gate is missed in ${gateMissed} of ${good.of}.`);
  if (notJudged > 0) sentences.push(`Not judged, and not counted as good: ${notJudged} of ${good.of}.`);
  if (lateLight !== null) {
    const high = Math.round(lateLight.sunAltitudeDeg);
    const stands = high < 0 ? `${-high}° below the horizon` : `${high}° high`;
    sentences.push(
      `At the late end of the arrival, ${dayAndClock(lateLight.at, arrivalZone)}, the sun is ${stands}${lateLight.past ? ": past never" : ""}.`,
    );
  }
  return sentences.join(" ");
}

/** `07:50 to 08:40`: by when a tenth and by when nine tenths have arrived; null where fewer do. */
export function arrivalsInWords({ arrival }: Chance, zone: string): string | null {
  const { earlyAt, lateAt } = arrival;
  return earlyAt === null || lateAt === null ? null : `${clock(earlyAt, zone)} to ${clock(lateAt, zone)}`;
}

/** What the forecasts say by themselves: `9 of 10 forecasts alone are good`. */
export function forecastsInWords(forecasts: Share): string {
  const { count, of, standardError } = forecasts;
  return `${count} of ${of} forecasts, all else as planned, bring her there with nothing past never (±${Math.max(0.1, 10 * standardError).toFixed(1)} in 10).`;
}

/** What the chances rest on, each figure with where it comes from. */
export function chanceAssumptionsInWords(answer: LeaveAnswer): readonly string[] {
  const chances = answer.chances.filter((one) => one !== null);
  const [first] = chances;
  if (first === undefined) return [];
  const { passage } = answer.prepared;
  const errors = chanceErrorsOf(passage);
  const stated = passage.chance ?? {};
  const said = (key: keyof ChanceErrors, words: string): string => `${words}${stated[key] === undefined ? "" : " (yours)"}`;
  const percent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;
  const boat = [
    said("latestStartSeconds", `a start up to ${duration(errors.latestStartSeconds)} late`),
    said("speedShare", `the boat's speed ±${percent(errors.speedShare)}`),
    said("headingDeg", `what is steered ±${errors.headingDeg}°`),
  ];
  const sentences = [
    `Chance: each of ${errors.samples} crossings a departure (seed ${errors.seed}) keeps the advised order until clear of the stream, or 0.8 of the way, then the straight track to the destination; ± is one standard deviation. Drawn: ${boat.join(", ")}${allStated(stated, ["latestStartSeconds", "speedShare", "headingDeg"]) ? "" : "; common practice where not yours"}.`,
  ];
  if (chances.some((one) => one.current === "stream")) {
    sentences.push(
      `Chance, the stream: ${said("streamTotalShare", `its total ±${percent(errors.streamTotalShare)}`)}, ${said("streamPlaceMetres", `its place ±${nmFromMetres(errors.streamPlaceMetres).toFixed(1)} nm`)}${allStated(stated, ["streamTotalShare", "streamPlaceMetres"]) ? "" : "; by default from currents modelled and drifters at sea, and from how far a stream's core was seen to wander in a day"}.`,
    );
  }
  if (chances.some((one) => one.current === "alongPath")) {
    sentences.push(
      `Chance, the current where it is no stream: ${said("currentRmsMps", `an error of ${knots(errors.currentRmsMps)} (vector RMS)`)} that fades within a day; by default as modelled currents were off drifters at sea.`,
    );
  }
  sentences.push(
    first.wind === "members"
      ? "Chance, the wind: each forecast in turn, as it stands. The sea is taken as foretold."
      : `Chance, the wind: ${said("windSpeedShare", `±${percent(errors.windSpeedShare)}`)} and ${said("windDirectionDeg", `±${errors.windDirectionDeg}°`)} at its issue, ${said("windSpeedSharePerDay", `${percent(errors.windSpeedSharePerDay)}`)} and ${said("windDirectionDegPerDay", `${errors.windDirectionDegPerDay}°`)} more each day for a week, lasting about a day${anyDefault(stated) ? "; common practice where not yours" : ""}. The sea is taken as foretold.`,
  );
  const strict = chances.flatMap((one) => one.toleratedAsNone);
  if (strict.length > 0) sentences.push("Chance: a toleration that was changed since is not reckoned with: there never counts at once.");
  return sentences;
}

function allStated(stated: Partial<ChanceErrors>, keys: readonly (keyof ChanceErrors)[]): boolean {
  return keys.every((key) => stated[key] !== undefined);
}

function anyDefault(stated: Partial<ChanceErrors>): boolean {
  return (Object.keys(CHANCE_DEFAULTS) as (keyof ChanceErrors)[]).some((key) => key.startsWith("wind") && stated[key] === undefined);
}
