import { geodesicBetween } from "../../core/earth/index.ts";
import { placeAt, type Track } from "../../core/passage/index.ts";
import { type CrossAnswer, steeringCompass } from "../../core/plan/index.ts";
import { nmFromMetres, wrap360Deg } from "../../core/units/index.ts";
import { clock, duration, knots, miles, northInWords, threeFigures, worstInWords } from "../../words/index.ts";
import { shortPlace } from "./refuges-told-of.ts";
import { type Across, AcrossAxes, tidy } from "./section/across.ts";
import { landToldOf, lanesToldOf, placesToldOf, streamMarksOf } from "./section/plan-view.ts";
import { seaToldOf } from "./section/sea.ts";
import { seaInWords } from "./section/sea-in-words.ts";
import { headingToldOf, lightToldOf, rateToldOf, readAt, windToldOf } from "./section/strips.ts";
import type { SectionTold } from "./section-told.ts";
import { type Lettered, letteredWays } from "./ways-told-of.ts";

const HOUR_SECONDS = 3600;
/** The stream is marked so far beyond the paths, as a share of the crossing. */
const MARKS_BEYOND_SHARE = 0.12;
/** A path's nodes nearer to each other than this share of the crossing can't be told apart in a drawing. */
const NODE_SHARE = 1 / 500;

/** The crossing drawn across its stream; null where no way arrives. */
export function sectionToldOf(answer: CrossAnswer): SectionTold | null {
  const { advised, prepared, stream } = answer;
  if (advised === null) return null;
  const { line, passage } = prepared;
  const zone = passage.shipZone;
  const side = stream?.downStreamSide ?? 1;
  const axes = new AcrossAxes(line, side);
  const compass = steeringCompass(prepared, answer.openWaterFrom);
  const bearing = geodesicBetween(passage.from.position, passage.to.position).initialBearingDegTrue;
  const lengthNm = nmFromMetres(line.lengthMetres);
  const ways = letteredWays(answer).filter((one) => one.track !== null);
  const paths = ways.map(({ letter, role, key, name, track }) => ({
    letter,
    role,
    key,
    name,
    points: axes.path(track as Track, lengthNm * NODE_SHARE),
  }));
  const offsNm = paths.flatMap(({ points }) => points.map(([, off]) => off));
  const beyondNm = lengthNm * MARKS_BEYOND_SHARE;
  const offs = { least: Math.min(0, ...offsNm) - beyondNm, most: Math.max(0, ...offsNm) + beyondNm };
  const { current } = prepared.trialOf(0, { from: answer.departAt, until: advised.arrivalAt }).crossing.around;
  const instants = hoursAlong(advised.departAt, advised.arrivalAt);
  const strips = readAt(advised);
  const told: SectionTold = {
    lengthNm: tidy(lengthNm),
    southern: prepared.plane.centre.latitudeDeg < 0,
    lineDegTrue: tidy(bearing, 1),
    upDegTrue: tidy(wrap360Deg(bearing - 90 * side), 1),
    from: shortPlace(passage.from.name),
    to: shortPlace(passage.to.name),
    hours: instants.map((at) => {
      const { xMetres, yMetres } = placeAt(advised.track, at);
      const [acrossNm, offNm] = axes.at(xMetres, yMetres);
      return { acrossNm, offNm, clock: clock(at, zone) };
    }),
    paths,
    land: landToldOf(answer, axes),
    lanes: lanesToldOf(answer, axes),
    places: placesToldOf(answer, axes),
    streamMarks: streamMarksOf(answer, axes, advised.track, current, offs),
    rate: rateToldOf(axes, advised.track),
    heading: { by: northInWords(compass), ...headingToldOf(answer, axes, compass, advised.track) },
    off: offToldOf(answer, axes, lengthNm),
    wind: windToldOf(answer, axes, advised, instants),
    sea: seaToldOf(answer, axes, advised, strips),
    ...lightToldOf(answer, axes, advised),
    depth: depthToldOf(answer),
    axis: { acrossNm: acrossOf(advised.axis.alongMetres), clock: clock(advised.axis.at, zone), rateKn: rateOf(answer) },
    clear: advised.clear === null ? null : { acrossNm: acrossOf(advised.clear.alongMetres), clock: clock(advised.clear.at, zone) },
    inWords: "",
  };
  return { ...told, inWords: sectionInWords(answer, told, ways) };
}

/** Whole hours by the clock of the epoch between two instants, with both. */
function hoursAlong(from: number, until: number): readonly number[] {
  const hours = [from];
  for (let at = Math.ceil((from + 1) / HOUR_SECONDS) * HOUR_SECONDS; at < until; at += HOUR_SECONDS) hours.push(at);
  return [...hours, until];
}

const acrossOf = (alongMetres: number): number => tidy(nmFromMetres(alongMetres));

function rateOf({ advised }: CrossAnswer): number {
  return advised === null ? 0 : tidy((advised.axis.rateMps * 3600) / 1852);
}

function offToldOf({ ways, advised }: CrossAnswer, axes: AcrossAxes, lengthNm: number): SectionTold["off"] {
  const compared = ways.find(({ way }) => way === advised);
  if (advised === null || compared === undefined) return [];
  const withinNm = lengthNm * NODE_SHARE;
  const planned: { streamFactor: number; points: Across[] } = { streamFactor: 1, points: axes.path(advised.track, withinNm) };
  const others = compared.otherwise.flatMap(({ streamFactor, carried }) =>
    carried.run.kind === "arrives" ? [{ streamFactor, points: axes.path(carried.run.track, withinNm) }] : [],
  );
  return [planned, ...others];
}

/** The least water on the way, where the skipper states depths and a limit on them. */
function depthToldOf({ row }: CrossAnswer): SectionTold["depth"] {
  const judged = row.margins.find((one) => one.limit.felt === "underKeelMetres");
  if (judged?.kind !== "judged") return null;
  return { words: worstInWords(judged.limit, judged, row.advised?.track ?? null) };
}

/** The whole drawing in words. */
function sectionInWords({ advised, prepared }: CrossAnswer, told: SectionTold, ways: readonly Lettered[]): string {
  if (advised === null) return "";
  const { shipZone } = prepared.passage;
  const named = ways.map(({ letter, name, role }) => `${letter} ${name}${role === "order" ? ", the order" : ""}`).join("; ");
  const clear = advised.clear === null ? "never clear of it before the destination" : `clear of it at ${clock(advised.clear.at, shipZone)}`;
  const light = told.light.map(({ fromNm, light: what }) => `${what} from ${fromNm.toFixed(0)}`).join(", ");
  const first = told.heading.steered[0]?.[1];
  return (
    `Plan view and section of the crossing from ${told.from} to ${told.to}, ${told.lengthNm.toFixed(1)} miles across, up-stream at the top. ` +
    `Paths: ${named}. The order ${first === undefined ? "" : `begins with ${threeFigures(first)} ${told.heading.by} and `}takes ${duration(advised.arrivalAt - advised.departAt)}, ` +
    `up to ${miles(advised.upStreamMetres)} miles up-stream and ${miles(advised.downStreamMetres)} down-stream of the line. ` +
    `The stream runs hardest, ${knots(advised.axis.rateMps)}, at ${told.axis.clock} ${told.axis.acrossNm.toFixed(1)} miles across; ${clear}. ` +
    `${seaInWords(told.sea)} ` +
    `By miles across: ${light}.`
  );
}
