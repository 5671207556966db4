import {
  type Entrance,
  type EntranceReason,
  type Gate,
  type InletClock,
  type InletReason,
  type InletRow,
  type InletSpell,
  POPPLE_METRES,
  type SeaOnBar,
} from "../core/places/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import type { NamedTide } from "../core/water/index.ts";
import { knots, knotsTimesKnots, threeFigures } from "./say-quantity.ts";
import { steepnessInWords } from "./say-sea.ts";
import { clock, dayAndClock, duration, zoneLabel } from "./say-time.ts";

/** Tenths of a metre, the safe way about: water rounded down, seas up. */
const waterMetres = (value: number): string => tenths(Math.floor(value * 10 + 1e-6) / 10, "m");
const seaMetres = (value: number): string => tenths(Math.ceil(value * 10 - 1e-6) / 10, "m");
const metres = (value: number): string => tenths(value, "m");

function tenths(value: number, unit: string): string {
  const text = value.toFixed(1);
  return `${text === "-0.0" ? "0.0" : text.replace("-", "−")} ${unit}`;
}

/** A rate past what is never passed, rounded up so that it shows. */
const knotsUp = (mps: number): string => tenths(Math.ceil(knotsFromMps(mps) * 10 - 1e-6) / 10, "kn");

/** Why an inlet is shut, short, `zone` for the slack: `0.3 m under the keel, 1.0 m wanted`; `ebb 3.2 kn, never 2.5 kn`. */
export function inletReasonInWords(reason: InletReason, zone: string): string {
  switch (reason.kind) {
    case "depth":
      return reason.underKeelMetres < 0
        ? `${seaMetres(-reason.underKeelMetres)} too shallow`
        : `${waterMetres(reason.underKeelMetres)} under the keel, ${metres(reason.leastMetres)} wanted`;
    case "ebb":
    case "flood":
      return `${reason.kind} ${knotsUp(reason.mps)}, never ${knots(reason.neverMps)}`;
    case "notSlack":
      return reason.nearestAt === null
        ? "no slack within a day"
        : `more than ${duration(reason.withinSeconds)} from slack (${clock(reason.nearestAt, zone)})`;
    case "blocked":
      return `${reason.waves === "sea" ? "the sea" : "the wind's own sea"} is stopped by the stream and breaks`;
    case "breaking":
      return `breaking, ${reason.by === "depth" ? "too high for the water" : "too steep"}: ${seaMetres(reason.heightMetres)}`;
    case "steep":
      return `sea ${steepnessInWords(reason.steepness)} steep, never ${steepnessInWords(reason.never)}`;
    case "seaHeight":
      return `sea ${seaMetres(reason.heightMetres)} on the bar, never ${metres(reason.neverMetres)}`;
    case "windAgainstEbb":
      return `wind against the ebb ${Math.ceil(knotsTimesKnots(reason.mps2) - 1e-6)} kn², never ${knotsTimesKnots(reason.neverMps2).toFixed(0)}`;
    case "sunLow":
      return `sun ${degrees(reason.altitudeDeg)} high, ${degrees(reason.leastDeg)} wanted`;
    case "sunAhead":
      return `sun ${degrees(reason.offBowDeg)} off the bow, ${degrees(reason.leastDeg)} wanted`;
    case "notJudged":
      return `not judged: ${LACKS[reason.lacks]}`;
    case "hours":
      return "outside its hours";
    case "windows":
      return "outside the windows that are stated";
    case "statedHeights":
      return "too little water by the heights that are stated";
    case "dark":
      return "dark";
    case "notGiven":
      return "not judged: the times or heights stated don't reach";
  }
}

/** A reason in a word or two, for a column beside the figures: `water`, `breaks`, `ebb`. */
export function inletReasonInShort(reason: InletReason): string {
  return {
    depth: "water",
    ebb: "ebb",
    flood: "flood",
    notSlack: "not slack",
    blocked: "stopped, breaks",
    breaking: "breaks",
    steep: "steep",
    seaHeight: "sea",
    windAgainstEbb: "wind",
    sunLow: "sun low",
    sunAhead: "sun ahead",
    notJudged: "not judged",
    hours: "hours",
    windows: "windows",
    statedHeights: "water",
    dark: "dark",
    notGiven: "not judged",
  }[reason.kind];
}

const degrees = (deg: number): string => `${deg.toFixed(0).replace("-", "−")}°`;

const LACKS: Readonly<Record<Extract<EntranceReason, { readonly kind: "notJudged" }>["lacks"], string>> = {
  tide: "the tide is not known",
  stream: "the stream is not known",
  sea: "no sea is forecast",
  seaPeriod: "the forecast gives no period of the sea",
  wind: "no wind is forecast",
};

/** What of an entrance is not known: `no sea is forecast`. */
export function entranceLackInWords(lacks: readonly (keyof typeof LACKS)[]): string {
  return lacks.map((lack) => LACKS[lack]).join(", ");
}

/** The sea on a bar: `1.4 m, 1/22`, `breaking`, `stopped`. */
export function seaOnBarInWords(sea: SeaOnBar | null): string {
  if (sea === null) return "–";
  if (sea.kind === "blocked") return "stopped";
  if (sea.breaking !== "no") return `${metres(sea.heightMetres)} breaks`;
  return sea.heightMetres === 0 ? "none" : `${metres(sea.heightMetres)} ${steepnessInWords(sea.steepness)}`;
}

/** A stream along a cut, flood positive: `ebb 2.1`, `flood 0.8`, `slack`; knots. Empty where none is known. */
export function streamInlet(mps: number | null): string {
  if (mps === null) return "";
  const kn = Math.abs(knotsFromMps(mps)).toFixed(1);
  return kn === "0.0" ? "slack" : `${mps < 0 ? "ebb" : "flood"} ${kn}`;
}

/** The sentence to act on: `Open 05:12 to 09:40 and 17:31 to 21:58 UTC-8; shut in between by …`. */
export function inletInWords({ gate, within, spells }: InletClock): string {
  const day = (at: number): string => (within.until - within.from > 30 * 3600 ? dayAndClock(at, gate.zone) : clock(at, gate.zone));
  const span = ({ from, until }: InletSpell): string =>
    from <= within.from
      ? until >= within.until
        ? "throughout"
        : `until ${day(Math.floor(until))}`
      : until >= within.until
        ? `from ${day(from + 59)}`
        : `${day(from + 59)} to ${day(Math.floor(until))}`;
  const open = spells.filter(({ verdict }) => verdict === "open");
  const unknown = spells.filter(({ verdict }) => verdict === "notJudged");
  const zone = zoneLabel(within.from, gate.zone);
  const notJudged = unknown.length === 0 ? "" : `; not judged ${unknown.map(span).join(", ")}`;
  if (open.length === 0)
    return `${capital(gate.name)} is not open at any time looked at${notJudged}${unknown.length > 0 ? ` ${zone}` : ""}.`;
  return `${capital(gate.name)} is open ${inARow(open.map(span))} ${zone}${notJudged}.`;
}

/** One line for each stretch in which an inlet is shut or not judged: `12:05 to 14:31: breaking, too steep: 1.9 m; …`. */
export function inletSpellsInWords({ gate, spells }: InletClock): readonly string[] {
  return spells.map(({ from, until, verdict, reasons }) => {
    const when = `${dayAndClock(from, gate.zone)} to ${clock(until, gate.zone)}`;
    const why = reasons.map((reason) => inletReasonInWords(reason, gate.zone)).join("; ");
    return `${when}  ${verdict === "open" ? "open" : verdict === "shut" ? `shut at worst by ${why}` : why}`;
  });
}

/** The datum of a passage's tide by its name. */
export function datumOfTide({ tides }: { readonly tides: readonly NamedTide[] }): (tide: string) => string {
  return (wanted) => tides.find(({ name }) => name === wanted)?.tide.datum ?? "an unknown datum";
}

/** What an entrance is judged with that a skipper could dispute, a sentence each. `datumOf`: the datum of a tide by its name. */
export function entranceAssumptions(gate: Gate, datumOf: (tide: string) => string): readonly string[] {
  return gate.needs.flatMap((need) => (need.kind === "entrance" ? assumptionsOf(need.entrance, datumOf) : []));
}

function assumptionsOf({ depth, stream, sea, windAgainstEbbNeverMps2 }: Entrance, datumOf: (tide: string) => string): readonly string[] {
  const said: string[] = [];
  if (depth !== null) {
    const waves = {
      none: "nothing taken off for waves",
      stated: depth.waves.kind === "stated" ? `less ${metres(depth.waves.metres)} for the waves` : "",
      seaOnBar: "less the significant height on the bar",
    };
    said.push(
      `Under the keel: ${metres(depth.chartedDepthMetres)} charted and the computed tide of ${depth.tide} (above ${datumOf(depth.tide)}, taken as the chart's datum; weather raises and lowers it), less ${metres(depth.draughtMetres)} of draught, ${waves[depth.waves.kind]}; ${metres(depth.underKeelMetres)} wanted. Bars shift: the charted depth is only as good as the last survey.`,
    );
  }
  if (stream !== null) said.push(`Stream: ${stream.of}, as predicted; rain and weather change it.`);
  if (sea !== null) {
    const from =
      sea.fromDegTrue === null
        ? stream === null
          ? ""
          : ", taken to run in straight against the ebb, which is the worst"
        : `, from ${threeFigures(sea.fromDegTrue)}`;
    const fetch =
      sea.fetchMetres === null
        ? ""
        : ` The wind's own sea is reckoned over ${nmFromMetres(sea.fetchMetres).toFixed(0)} nm of open water and told apart.`;
    said.push(
      `Sea on the bar: the forecast's off the entrance in deep water, each system by itself where the source tells them apart, else as one train of waves${from}, run onto the depth and the stream of the moment; refraction, crossing seas and sets of higher waves are not in it. Breaking from a steepness of 1/13, or where the highest in a thousand reaches 0.78 of the water. Seas under ${metres(POPPLE_METRES)} are passed over.${fetch}${stream === null ? " No stream is stated there: the ebb is not in it." : ""}`,
    );
  }
  if (windAgainstEbbNeverMps2 !== null)
    said.push("Wind against the ebb: the wind's component against the set times the rate; no cut-off angle.");
  return said;
}

const inARow = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join() : `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** One half hour of an inlet clock as it stands in a table; empty where nothing is asked for, or known. */
export interface InletRowWords {
  readonly clock: string;
  /** Metres above chart datum, and under the keel. */
  readonly tide: string;
  readonly keel: string;
  readonly stream: string;
  readonly sea: string;
  /** Against the ebb, kn². */
  readonly wind: string;
  /** In a word or two; empty where open. */
  readonly why: string;
}

/** The figures of one half hour, and why it is shut or not judged. */
export function inletRowInWords({ at, verdict, reasons, reading }: InletRow, zone: string): InletRowWords {
  const bare = (value: number | null | undefined): string => (value == null ? "" : tenths(value, "").trimEnd());
  return {
    clock: clock(at, zone),
    tide: bare(reading?.heightAboveChartDatumMetres),
    keel: bare(reading?.underKeelMetres),
    stream: streamInlet(reading?.streamMps ?? null),
    sea: reading?.sea == null ? "" : seaOnBarInWords(reading.sea),
    wind: reading?.windAgainstEbbMps2 == null ? "" : knotsTimesKnots(reading.windAgainstEbbMps2).toFixed(0),
    why: verdict === "open" ? "" : [...new Set(reasons.map(inletReasonInShort))].join(", "),
  };
}
