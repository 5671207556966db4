import { type AtlasStation, readWorldTides, TIDE_FACTS } from "../atlas/index.ts";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import { addDays, firstInstantAtOrPast, isoDate, isoInstant, parseLocalDate, parseZone } from "../core/calendar/index.ts";
import type { Position } from "../core/earth/index.ts";
import { nmFromMetres, parsePosition, quoted } from "../core/units/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, tellIssues } from "./context.ts";
import { tideText } from "./text/tide-text.ts";
import type { TideAnswer } from "./tide-answer.ts";
import { Typed } from "./typed.ts";

/** So many stations of a name are listed, and so many others near a position. */
const LISTED = 5;
const OTHERS = 3;

interface TideFlags {
  readonly near?: string;
  readonly station?: string;
  readonly on?: string;
  readonly zone?: string;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  athwart tide --near "48 07N 123 27W" --on 2027-04-08
  athwart tide --station "Moss Landing" --on 2027-04-08 --zone UTC
  athwart tide --station noaa/9413450 --on 2027-04-08 --json

Times are in the station's own zone unless --zone says otherwise. Heights are
above the station's datum, which is named. Exit: 0 answered, 2 bad input.`;

export const tideCommand: AddCommand = (program, context, done) => {
  program
    .command("tide")
    .description("high and low waters of a day at the nearest station, or at one by name")
    .option("--near <POSITION>", 'the place: "48 07N 123 27W"; its nearest station is taken')
    .option("--station <NAME>", "the station's name, with its region where several have it, or its id")
    .option("--on <DATE>", "the day by the zone's calendar: 2027-04-08")
    .option("--zone <ZONE>", "the zone of the day and of every time: UTC-8, Pacific/Tahiti")
    .option("--json", "the whole answer as JSON (athwart.tide/1)")
    .addHelpText("after", EXAMPLES)
    .action((flags: TideFlags) => {
      const json = flags.json === true;
      const answer = tideOf(flags);
      if (!answer.ok) return done(tellIssues(context, answer.issues, json));
      context.out(json ? `${JSON.stringify(tideJson(answer.value), null, 2)}\n` : tideText(answer.value));
      done(ANSWERED);
    });
};

function tideOf(flags: TideFlags): Parsed<TideAnswer> {
  const typed = new Typed();
  const place = typed.read("--near", flags.near, parsePosition);
  const date = typed.need("--on", flags.on, "2027-04-08", parseLocalDate);
  const typedZone = typed.read("--zone", flags.zone, parseZone);
  const which = whichStation(flags, place);
  const issues = [...typed.issues, ...(which.ok ? [] : which.issues)];
  if (issues.length > 0 || !which.ok || date === null) return bad(...issues);
  const { station, distanceNm, others } = which.value;
  const zone = typedZone ?? station.zone;
  const [from, until] = [firstInstantAtOrPast(date, 0, zone), firstInstantAtOrPast(addDays(date, 1), 0, zone)];
  const tide = readWorldTides().tide(station.id);
  if (!tide.ok) return tide;
  const { reference } = tide.value;
  return good({
    isoDate: isoDate(date),
    zone,
    from,
    until,
    place,
    station,
    distanceNm,
    reference: reference === null ? null : { id: reference.id, name: reference.name },
    turns: tide.value.highsAndLows(from, until),
    others,
  });
}

type Which = Pick<TideAnswer, "station" | "distanceNm" | "others">;

/** The station that is meant: by name, or the nearest; `place` is null where --near wasn't typed or can't be read. */
function whichStation(flags: TideFlags, place: Position | null): Parsed<Which> {
  if (flags.near !== undefined && flags.station !== undefined)
    return bad(issue("--station", "options-clash", "either --near or --station, not both"));
  const atlas = readWorldTides();
  if (flags.station !== undefined) {
    const { stations, meant } = atlas.named(flags.station);
    const [station] = stations;
    if (station !== undefined && stations.length === 1) return good({ station, distanceNm: null, others: [] });
    return bad(notOne(flags.station, stations, meant));
  }
  if (flags.near === undefined)
    return bad(issue("--near", "argument-missing", "neither --near nor --station was typed", 'Add one, as in --near "48 07N 123 27W".'));
  if (place === null) return bad();
  const [nearest, ...others] = atlas
    .near(place, 1 + OTHERS)
    .map((one) => ({ station: one.station, distanceNm: nmFromMetres(one.distanceMetres) }));
  if (nearest === undefined) throw new Error("the atlas holds no tide station");
  return good({ ...nearest, others });
}

function notOne(name: string, stations: readonly AtlasStation[], meant: string | null): Issue {
  if (stations.length === 0) {
    const hint = meant === null ? "" : `; did you mean ${meant}?`;
    return issue("--station", "tide-station-unknown", `${quoted(name)} is no tide station's name${hint}`);
  }
  const listed = stations
    .slice(0, LISTED)
    .map(({ id, name: own, region, country }) => `${[own, region, country].filter(Boolean).join(", ")} (${id})`);
  const more = stations.length > LISTED ? `; and ${stations.length - LISTED} more` : "";
  return issue("--station", "tide-station-several", `${quoted(name)} may be ${listed.join("; ")}${more}`);
}

function tideJson({ isoDate, zone, from, until, place, station, distanceNm, reference, turns, others }: TideAnswer) {
  const told = (one: AtlasStation) => ({
    id: one.id,
    name: one.name,
    region: one.region,
    country: one.country,
    latitudeDeg: one.position.latitudeDeg,
    longitudeDeg: one.position.longitudeDeg,
  });
  return {
    schema: "athwart.tide/1",
    date: isoDate,
    zone,
    from: isoInstant(from),
    until: isoInstant(until),
    place: place === null ? null : { latitudeDeg: place.latitudeDeg, longitudeDeg: place.longitudeDeg },
    station: { ...told(station), credit: station.credit, licence: station.licence, doubts: station.doubts },
    distanceNm,
    reference,
    datum: station.datum,
    turns: turns.map(({ kind, at, heightMetres }) => ({
      kind,
      at: isoInstant(at),
      heightAboveDatumMetres: Number(heightMetres.toFixed(3)),
    })),
    others: others.map((one) => ({ ...told(one.station), distanceNm: one.distanceNm })),
    caution: TIDE_FACTS.caution,
  };
}
