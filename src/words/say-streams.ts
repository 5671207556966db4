import type { HeldAgainst, LeaveBoard, Prepared } from "../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { LEAST_HELD_AGAINST_SECONDS, type StreamDoubt, type TidalStream, UNFIT_RMS_MPS, UNFIT_SHARE } from "../core/water/index.ts";
import { knots } from "./say-quantity.ts";
import { duration, fullTime } from "./say-time.ts";

/** A rate along an axis with its sign: `+0.5`, `−1.5`. */
const signed = (mps: number): string => {
  const kn = Number(knotsFromMps(mps).toFixed(1));
  return `${kn < 0 ? "−" : "+"}${Math.abs(kn).toFixed(1)}`;
};

/** Forecasts of current that are not fit by a tidal station, a sentence or two each; empty where all are, or none was held against any. */
export function notFitInWords({ heldAgainst, passage }: Pick<Prepared, "heldAgainst" | "passage">): readonly string[] {
  return heldAgainst
    .filter(({ fits }) => !fits)
    .map((one) => {
      const within = nmFromMetres(one.withinMetres).toFixed(1);
      return `Not fit here: ${figuresInWords(one, passage.shipZone)} Within ${within} nm of it nothing is judged by this current, and a passage through there is marginal at best; farther off its tide is no better. Use the tidal stream: put \`streams: [${one.stream.name}]\` before it in \`water.sources\`, or add the two (\`sum\`) if the forecast leaves the tide out.`;
    });
}

/** All that was held against a tidal station, fit or not, a sentence each. */
export function heldAgainstInWords({ heldAgainst, passage }: Pick<Prepared, "heldAgainst" | "passage">): readonly string[] {
  return heldAgainst.map((one) => `${one.fits ? "Fits" : "Not fit"}: ${figuresInWords(one, passage.shipZone)}`);
}

function figuresInWords(one: HeldAgainst, zone: string): string {
  const { model, station, stream, from, until } = one;
  const short = one.isShort
    ? ` That is ${duration(until - from)}, less than a tidal day (${duration(LEAST_HELD_AGAINST_SECONDS)}), and proves less.`
    : "";
  return `${one.sourceName} against the tidal station ${stream.name}, ${fullTime(from, zone)} to ${fullTime(until, zone)}: along its axis (flood +) the forecast gives ${signed(model.leastMps)} to ${signed(model.greatestMps)} kn where the station gives ${signed(station.leastMps)} to ${signed(station.greatestMps)}; they differ by ${knots(one.rmsDifferenceMps)} (root mean square), ${one.fits ? "within" : "past"} the ${knots(one.boundMps)} allowed (the greater of ${knots(UNFIT_RMS_MPS)} and ${Math.round(100 * UNFIT_SHARE)} % of the station's own).${short}`;
}

/** What of the tidal streams used is told with less right than its source gives, between two instants; a sentence for each stream and kind. */
export function streamDoubtsInWords(
  { streams, passage }: Pick<Prepared, "streams" | "passage">,
  from: number,
  until: number,
): readonly string[] {
  return streams.flatMap((stream) => streamDoubtsOf(stream, from, until, passage.shipZone));
}

/** The same of one stream. */
export function streamDoubtsOf(stream: TidalStream, from: number, until: number, zone: string): readonly string[] {
  const doubts = stream.doubts(from, until);
  return (["beyond springs", "short of neaps", "high waters uneven", "turns out of order"] as const).flatMap((kind) => {
    const some = doubts.filter((one) => one.kind === kind);
    return some.length === 0 ? [] : [doubtInWords(stream, kind, some, zone)];
  });
}

function doubtInWords(stream: TidalStream, kind: StreamDoubt["kind"], some: readonly StreamDoubt[], zone: string): string {
  const first = some[0] as StreamDoubt;
  const when = `from ${fullTime(first.from, zone)}${some.length > 1 ? `, on ${some.length} tides` : ""}`;
  const of = stream.told.kind === "constants" ? "" : ` ${stream.told.of}`;
  switch (kind) {
    case "beyond springs":
    case "short of neaps": {
      const far = some.reduce((a, b) => (Math.abs(excess(b)) > Math.abs(excess(a)) ? b : a));
      return `${stream.name}: the range at${of} is ${kind} ${when}, at the most ${(far.rangeMetres ?? 0).toFixed(1)} m where the table goes to ${(far.statedMetres ?? 0).toFixed(1)} m; its rates are run on in a straight line and are less sure.`;
    }
    case "high waters uneven":
      return `${stream.name}: the high waters of${of} stand too unevenly for a table by hours ${when}; its hours are stretched to fit and are less sure.`;
    case "turns out of order":
      return `${stream.name}: its differences put a turn out of order ${when}; it is left out there, and the times about it are less sure.`;
  }
}

const excess = ({ rangeMetres, statedMetres }: StreamDoubt): number => (rangeMetres ?? 0) - (statedMetres ?? 0);

/** The same over all that a board's departures meet; empty where nothing is doubted. */
export function streamDoubtsUnder({ prepared, rows }: Pick<LeaveBoard, "prepared" | "rows">): string {
  const [first, last] = [rows[0], rows[rows.length - 1]];
  if (first === undefined || last === undefined) return "";
  return streamDoubtsInWords(prepared, first.departAt, last.arrivalAt ?? last.departAt + 86400).join(" ");
}

/** What stands behind the tidal streams that are used as water; empty where none is. */
export function streamsAssumedInWords({ passage, streams }: Pick<Prepared, "passage" | "streams">): readonly string[] {
  const lone = passage.waterSources.flatMap((source) => (source.kind === "sum" ? source.parts : [source]));
  const used = lone.flatMap((source) => (source.kind === "streams" ? [source.names] : []));
  const names = streams.filter(
    ({ name, withinMetres }) => withinMetres !== null && used.some((some) => some === null || some.includes(name)),
  );
  if (names.length === 0) return [];
  const each = names.map(({ name, withinMetres }) => `${name} within ${nmFromMetres(withinMetres ?? 0).toFixed(1)} nm`).join(", ");
  return [
    `Each tidal stream is taken to run alike all around its station, as the passage file says: ${each}. They are of the tide alone: wind, air pressure and rivers change their rates and their slacks.`,
  ];
}
