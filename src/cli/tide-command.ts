import { type AtlasStation, readWorldTides } from "../atlas/index.ts";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import { addDays, firstInstantAtOrPast, isoDate, parseLocalDate, parseZone } from "../core/calendar/index.ts";
import type { Position } from "../core/earth/index.ts";
import { nmFromMetres, parsePosition, quoted } from "../core/units/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, tellIssues } from "./context.ts";
import { passageTideOf } from "./passage-tide.ts";
import { tideText } from "./text/tide-text.ts";
import type { TideAnswer, TideFlags } from "./tide-answer.ts";
import { tideJson } from "./tide-json.ts";
import { Typed } from "./typed.ts";

/** So many stations of a name are listed, and so many others near a position. */
const LISTED = 5;
const OTHERS = 3;

const EXAMPLES = `
Examples:
  athwart tide --near "48 07N 123 27W" --on 2027-04-08
  athwart tide --station "Moss Landing" --on 2027-04-08 --zone UTC
  athwart tide --station noaa/9413450 --on 2027-04-08 --json
  athwart tide examples/tidal-streams/passage.yaml --stream "Middle Deep" --on 2027-05-10

Times are in the station's own zone, of a passage file in ship's time, unless
--zone says otherwise. Heights are above the station's datum, which is named.
Of a stream it tells slacks and greatest rates, and each hour's set and rate.

Exit: 0 answered, 2 bad input.`;

export const tideCommand: AddCommand = (program, context, done) => {
  program
    .command("tide")
    .argument("[PASSAGE]", "a passage file, for a tide or stream that it names")
    .description("high and low waters of a day at the nearest station, or at one by name; of a passage file's tides and streams too")
    .option("--near <POSITION>", 'the place: "48 07N 123 27W"; its nearest station is taken')
    .option("--station <NAME>", "the station's name, with its region where several have it, or its id")
    .option("--tide <NAME>", "with PASSAGE: one of its tides, by name")
    .option("--stream <NAME>", "with PASSAGE: one of its tidal streams, by name: slacks and greatest rates")
    .option("--on <DATE>", "the day by the zone's calendar: 2027-04-08")
    .option("--zone <ZONE>", "the zone of the day and of every time: UTC-8, Pacific/Tahiti")
    .option("--json", "the whole answer as JSON (athwart.tide/1), of a stream (athwart.stream/1)")
    .addHelpText("after", EXAMPLES)
    .action(async (passage: string | undefined, flags: TideFlags) => {
      const json = flags.json === true;
      if (passage !== undefined || flags.tide !== undefined || flags.stream !== undefined) {
        const told = await passageTideOf(passage, flags);
        if (!told.ok) return done(tellIssues(context, told.issues, json));
        context.out(json ? `${JSON.stringify(told.value.json(), null, 2)}\n` : told.value.text());
        return done(ANSWERED);
      }
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
