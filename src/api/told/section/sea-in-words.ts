import { BREAKING_STEEPNESS, STEEP_STEEPNESS } from "../../../core/sea/index.ts";
import { steepnessInWords } from "../../../words/index.ts";
import type { SectionTold } from "../section-told.ts";

type Sea = NonNullable<SectionTold["sea"]>;
type OnStream = NonNullable<Sea["onStream"]>;
type Ranged = Sea["height"][number];

/** The sea of a section in sentences, for who can't see it: as forecast, on the stream, where it is steep or breaking, and past which limit. */
export function seaInWords(sea: SectionTold["sea"]): string {
  const highest = sea?.height.reduce((most, one) => (one[2] > most[2] ? one : most));
  if (sea === null || highest === undefined) return "No source gives a sea.";
  const { onStream } = sea;
  const whose = sea.lacksSwell ? "The wind's own sea, what swell runs not being known," : "The forecast's sea";
  const forecast = `${whose} is ${heightAt(highest)}${past(highest, sea.neverMetres)}.`;
  if (onStream === null) return `${forecast} What the stream makes of it is not known.`;
  const { raised, steep, breaking, pastNever, neverSteepnessWords } = onStream;
  const height =
    raised === null ? "The stream makes it no higher." : `The stream makes it ${heightAt(raised)}${past(raised, onStream.neverMetres)}.`;
  const steepness = [
    stretchesInWords(`steep (${steepnessInWords(STEEP_STEEPNESS)} or more)`, steep),
    stretchesInWords(`breaking (${steepnessInWords(BREAKING_STEEPNESS)} or more)`, breaking),
    neverSteepnessWords === null ? "" : stretchesInWords(`past never (${neverSteepnessWords})`, pastNever),
  ].filter((words) => words !== "");
  return [forecast, height, ...(steepness.length === 0 ? [] : [`On the stream it is ${steepness.join("; ")}.`])].join(" ");
}

function heightAt([acrossNm, low, high]: Ranged): string {
  const range = low.toFixed(1) === high.toFixed(1) ? high.toFixed(1) : `${low.toFixed(1)} to ${high.toFixed(1)}`;
  return `${range} m at its highest, ${acrossNm.toFixed(1)} miles across`;
}

function past([, , high]: Ranged, neverMetres: number | null): string {
  return neverMetres === null ? "" : `, ${high > neverMetres ? "past" : "within"} never (${neverMetres.toFixed(1)} m)`;
}

/** `steep (1/25 or more) from 12.0 to 27.0 miles across, 1/16 at the steepest`. */
function stretchesInWords(name: string, stretches: OnStream["steep"]): string {
  if (stretches.length === 0) return "";
  const each = stretches.map(({ fromNm, untilNm, words }) => {
    const steepest = words.includes("or steeper") ? words : `${words} at the steepest`;
    return `from ${fromNm.toFixed(1)} to ${untilNm.toFixed(1)} miles across, ${steepest}`;
  });
  return `${name} ${each.join(", and ")}`;
}
